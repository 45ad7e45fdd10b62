"""The sources of the plain path, and what a module of them imports."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from importlib.util import find_spec
from pathlib import Path
from typing import NoReturn

from site_src.settings import ROOT, BuildError
from site_src.small import known
from site_src.small.apart import HEAD, TABLE, entries

PACKAGE = ROOT / "calculators"


def is_type(node: ast.expr) -> bool:
    """Whether an expression is one of types, such as ``Number | Choice | None`` or ``tuple[float, float]``."""
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitOr):
        return _is_leaf(node.left) and _is_leaf(node.right)
    if isinstance(node, ast.Name):
        return node.id == "Any"
    return isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name) and node.value.id in _GENERIC


_GENERIC = {
    "Literal", "Callable", "Sequence", "Mapping", "Iterable", "Iterator", "tuple", "list", "dict", "set", "frozenset",
}  # fmt: skip
_PLAIN = {"str", "float", "int", "bool", "object", "tuple", "list", "dict", "set", "datetime"}


def _is_leaf(node: ast.expr) -> bool:
    if isinstance(node, ast.Name):
        return node.id in _PLAIN or (node.id.strip("_")[:1].isupper() and not node.id.isupper())
    return is_type(node) or (isinstance(node, ast.Constant) and node.value is None)


@dataclass
class Module:
    """One source: its name, where it is, and its tree without docstrings and types."""

    name: str
    path: Path
    text: str
    is_package: bool

    @property
    def package(self) -> str:
        """The package that its relative imports begin from."""
        return self.name if self.is_package else self.name.rpartition(".")[0]

    @cached_property
    def tree(self) -> ast.Module:
        """The tree, without annotations, docstrings and what is only there for them."""
        return _untyped(ast.parse(self.text))

    @cached_property
    def used_names(self) -> frozenset[str]:
        """Names that are used beyond types, or handed on by ``__all__``."""
        loaded = {node.id for node in ast.walk(self.tree) if isinstance(node, ast.Name)}
        for node in ast.parse(self.text).body:
            if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__":
                loaded |= set(ast.literal_eval(node.value))
        return frozenset(loaded)

    @cached_property
    def late(self) -> tuple[ast.Import | ast.ImportFrom, ...]:
        """Imports inside functions."""
        return tuple(
            one
            for node in ast.walk(self.tree)
            if isinstance(node, ast.FunctionDef)
            for one in ast.walk(node)
            if isinstance(one, (ast.Import, ast.ImportFrom))
        )

    @cached_property
    def aliases(self) -> frozenset[str]:
        """Names of types that this module makes."""
        return frozenset(
            target.id
            for node in ast.parse(self.text).body
            if isinstance(node, ast.Assign) and is_type(node.value)
            for target in node.targets
            if isinstance(target, ast.Name)
        )

    def stop(self, node: ast.AST, what: str, instead: str) -> NoReturn:
        """Stop the build at a place of this module."""
        place = self.path.relative_to(ROOT) if self.path.is_relative_to(ROOT) else self.path
        raise BuildError(f"{place}:{getattr(node, 'lineno', 0)}: the small engine does not know {what}. {instead}")


def _untyped(tree: ast.Module) -> ast.Module:
    bare: ast.Module = _Untyped().visit(tree)
    return ast.fix_missing_locations(bare)


class _Untyped(ast.NodeTransformer):
    """Takes away annotations, docstrings, assertions and types."""

    def _body(self, body: list[ast.stmt]) -> list[ast.stmt]:
        return body or [ast.Pass()]

    def visit_Expr(self, node: ast.Expr) -> ast.AST | None:
        return None if isinstance(node.value, ast.Constant) else self.generic_visit(node)

    def visit_Assert(self, node: ast.Assert) -> None:
        """The other engine's archive holds none either."""

    def visit_If(self, node: ast.If) -> ast.AST | None:
        if isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            return None
        self.generic_visit(node)
        node.body = self._body(node.body)
        return node

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        node.returns = None
        every = node.args
        for one in [*every.posonlyargs, *every.args, *every.kwonlyargs, every.vararg, every.kwarg]:
            if one is not None:
                one.annotation = None
        self.generic_visit(node)
        node.body = self._body(node.body)
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        fields = [one for one in node.body if isinstance(one, ast.AnnAssign)]
        if any(isinstance(base, ast.Name) and base.id == "NamedTuple" for base in node.bases):
            for one in fields:  # a field without a default stays, told from the others by its annotation
                one.annotation = ast.Constant(None)
            rest = [self.visit(one) for one in node.body if not isinstance(one, ast.AnnAssign)]
            for one in fields:
                one.value = self.visit(one.value) if one.value is not None else None
            node.body = [*fields, *(one for one in rest if one is not None)]
            return node
        self.generic_visit(node)
        node.body = self._body(node.body)
        return node

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST | None:
        if node.value is None:
            return None
        self.generic_visit(node)
        return ast.copy_location(ast.Assign([node.target], node.value), node)

    def visit_Assign(self, node: ast.Assign) -> ast.AST | None:
        if is_type(node.value) and all(isinstance(target, ast.Name) for target in node.targets):
            return None
        if isinstance(node.targets[0], ast.Name) and node.targets[0].id in ("__all__", "__slots__"):
            return None
        return self.generic_visit(node)

    def visit_ImportFrom(self, node: ast.ImportFrom) -> ast.AST | None:
        return None if node.module in known.TYPES_ONLY and not node.level else node


def _wanted_of(name: str, text: str) -> str:
    """The part of an installed library that is asked for, behind what its stand-in puts in the place of the rest."""
    own = known.stand_in(name).read_text("utf-8")
    there = {target.id for node in ast.parse(own).body for target in _bound(node)}
    makes = {target.id: node for node in ast.parse(text).body for target in _bound(node)}
    kept: dict[str, ast.stmt] = {}
    waiting = list(known.INSTALLED[name])
    while waiting:
        one = waiting.pop()
        if one in makes and one not in kept and one not in there:
            kept[one] = makes[one]
            bare = ast.walk(_untyped(ast.Module([makes[one]], [])))
            waiting += [node.id for node in bare if isinstance(node, ast.Name)]
    lines = sorted(kept.values(), key=lambda node: node.lineno)
    return own + "\n" + "\n".join(ast.unparse(node) for node in dict.fromkeys(lines))


def installed(name: str) -> Path:
    """Return the file of an installed library."""
    spec = find_spec(name)
    if spec is None or spec.origin is None:
        raise BuildError(f"{name} is not installed. Install the site's requirements.")
    return Path(spec.origin)


def _bound(node: ast.stmt) -> list[ast.Name]:
    if isinstance(node, ast.FunctionDef):
        return [ast.Name(node.name)]
    if isinstance(node, ast.Import):
        return [ast.Name(one.asname or one.name) for one in node.names]
    return [one for one in getattr(node, "targets", []) if isinstance(one, ast.Name)]


@dataclass
class Sources:
    """All modules of the calculators, read when they are asked for."""

    folder: Path = PACKAGE
    extra: Mapping[str, bytes] = field(default_factory=dict)  # what a house has of its own, by name of the file
    _read: dict[str, Module | None] = field(default_factory=dict)
    _heads: dict[str, tuple[str, ...]] = field(default_factory=dict)
    _goes: dict[str, bool] = field(default_factory=dict)

    @cached_property
    def sources(self) -> dict[str, str]:
        """The modules of single entries of the table of sources."""
        return entries(self.folder / TABLE)

    def find(self, name: str) -> Module | None:
        """Return the module of a name, or None where there is none."""
        if name not in self._read:
            self._read[name] = self._load(name)
        return self._read[name]

    def _load(self, name: str) -> Module | None:
        parts = name.split(".")
        if parts[0] in known.INSTALLED:
            path = installed(name)
            return Module(name, path, _wanted_of(name, path.read_text("utf-8")), False)
        if parts[0] != self.folder.name:
            return None
        if len(parts) == 2 and f"{parts[1]}.py" in self.extra:
            return Module(name, self.folder / f"{parts[1]}.py", self.extra[f"{parts[1]}.py"].decode(), False)
        if parts[1:] == [TABLE]:
            return Module(name, self.folder / TABLE / "__init__.py", HEAD, True)
        if len(parts) == 3 and parts[1] == TABLE and parts[2] in self.sources:
            return Module(name, self.folder / TABLE / f"{parts[2]}.py", self.sources[parts[2]], False)
        at = self.folder.joinpath(*parts[1:])
        for path, is_package in ((at.with_suffix(".py"), False), (at / "__init__.py", True)):
            if (is_package or len(parts) > 1) and path.is_file():
                return Module(name, path, path.read_text("utf-8"), is_package)
        return None

    def imported(self, module: Module, node: ast.Import | ast.ImportFrom) -> list[str]:
        """Full names of the modules that an import statement asks for; names of a module's own are left out."""
        if isinstance(node, ast.Import):
            return [one.name for one in node.names]
        base = self.base(module, node)
        found = [base]
        for one in node.names:
            if self.find(base) is not None and self.find(f"{base}.{one.name}") is not None:
                found.append(f"{base}.{one.name}")
        return found

    def base(self, module: Module, node: ast.ImportFrom) -> str:
        """The full name of the module that names are imported from."""
        if not node.level:
            return node.module or ""
        parts = module.package.split(".")
        parts = parts[: len(parts) - node.level + 1]
        return ".".join([*parts, *([node.module] if node.module else [])])

    def at_top(self, module: Module) -> tuple[str, ...]:
        """Names of the modules that are imported as soon as this one is; of those of a house, any there is."""
        if module.name not in self._heads:
            self._heads[module.name] = tuple(dict.fromkeys(self._at_top(module)))
        return self._heads[module.name]

    def _at_top(self, module: Module) -> Iterator[str]:
        for node in module.tree.body:
            held = [node] if not isinstance(node, ast.Try) else node.body
            for one in held:
                if isinstance(one, (ast.Import, ast.ImportFrom)) and (kept := used(module, one)):
                    yield from (name for name in self.imported(module, kept) if self.find(name) is not None)

    def goes(self, name: str) -> bool:
        """Whether the small engine can import a module: it comes to no other room and no other engine's library."""
        if name not in self._goes:
            self._goes[name] = all(map(self._stays, self._with_heads(name)))
        return self._goes[name]

    def _with_heads(self, name: str) -> list[Module | None]:
        found: dict[str, Module | None] = {}
        waiting = [name]
        while waiting:
            one = waiting.pop()
            if one not in found:
                found[one] = module = self.find(one)
                waiting += self.at_top(module) if module else ()
        return list(found.values())

    def _stays(self, module: Module | None) -> bool:
        if module is None or module.name in known.INSTALLED:
            return module is not None
        parts = module.name.split(".")
        heads = [one for one in module.tree.body if isinstance(one, (ast.Import, ast.ImportFrom))]
        asked = {name for one in heads for name in self.imported(module, one)}
        return (len(parts) == 1 or parts[1] in known.ROOMS) and not asked & known.OTHER_ENGINE

    def is_type_elsewhere(self, module: Module, node: ast.ImportFrom, name: str) -> bool:
        """Whether an imported name is one of types."""
        target = self.find(self.base(module, node))
        if target is None:
            return False
        if name in target.aliases:
            return True
        return any(
            self.is_type_elsewhere(target, one, alias.name)
            for one in target.tree.body
            if isinstance(one, ast.ImportFrom) and self.base(target, one) != target.name
            for alias in one.names
            if (alias.asname or alias.name) == name
        )


def used(module: Module, node: ast.Import | ast.ImportFrom) -> ast.Import | ast.ImportFrom | None:
    """Return an import with what is used beyond types, or None. A package hands on all that it imports."""
    if module.is_package:
        return node
    names = module.used_names
    kept = [one for one in node.names if (one.asname or one.name.partition(".")[0]) in names]
    if not kept:
        return None
    if isinstance(node, ast.Import):
        return ast.copy_location(ast.Import(kept), node)
    return ast.copy_location(ast.ImportFrom(node.module, kept, node.level), node)


def reached(sources: Sources, start: str) -> list[str]:
    """Names of all modules that are there once one is imported and asked, packages before what is in them.

    What a function imports counts as well, where it is of a room of the plain path and comes to no library of the
    other engine.
    """
    found: dict[str, None] = {}
    waiting = [start]
    while waiting:
        name = waiting.pop()
        if name in found:
            continue
        module = sources.find(name)
        if module is None:
            raise BuildError(f"There is no module {name}")
        found[name] = None
        if "." in name:
            waiting.append(name.rpartition(".")[0])
        waiting += sources.at_top(module)
        waiting += [one for node in module.late for one in sources.imported(module, node) if sources.goes(one)]
    return sorted(found)
