"""One module of the plain path, written anew as the small engine runs it. What is not known stops the build."""

from __future__ import annotations

import ast
import builtins
from collections.abc import Iterable, Sequence

from site_src.small import known
from site_src.small.expressions import OR_ADD, OURS, Expressions, is_name, is_set, name_of, strings, tuple_of
from site_src.small.reach import Module, Sources, used


def rewritten(sources: Sources, module: Module, attributes: frozenset[str], methods: frozenset[str]) -> str:
    """Return the source that the small engine runs.

    Parameters
    ----------
    sources : Sources
        All sources, to look up what is imported.
    module : Module
        The one to write.
    attributes : frozenset of str
        Names of fields, methods, functions and the like that the sources define anywhere.
    methods : frozenset of str
        Those among them that are called.

    Raises
    ------
    BuildError
        With file, line and what to write instead, at the first thing that the small engine does not know.
    """
    tree = ast.parse(ast.unparse(module.tree))
    for old, new in zip(ast.walk(module.tree), ast.walk(tree), strict=True):
        if hasattr(new, "lineno"):
            new.lineno = getattr(old, "lineno", 0)
    writer = _Writer(module, attributes, methods)
    writer.sources = sources
    writer.look(tree)
    done = writer.visit(tree)
    wanted = sorted(writer.called)
    if wanted:
        done.body.insert(0, ast.ImportFrom("std.prelude", [ast.alias(name, OURS + name) for name in wanted], 0))
    return ast.unparse(ast.fix_missing_locations(done))


def defined(modules: Iterable[Module]) -> tuple[frozenset[str], frozenset[str]]:
    """Return the names that sources define as attributes of anything, and those among them that are called."""
    names: set[str] = set()
    called: set[str] = set()
    for module in modules:
        for node in ast.walk(module.tree):
            if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
                names.add(node.name)
                called.add(node.name)
            elif isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Store):
                names.add(node.attr)
        classes = [node for node in ast.walk(module.tree) if isinstance(node, ast.ClassDef)]
        for body in [module.tree.body, *(node.body for node in classes)]:
            for one in body:
                names |= {target.id for target in _targets(one)}
                if isinstance(one, (ast.Import, ast.ImportFrom)):
                    names |= {alias.asname or alias.name for alias in one.names}
        for held in ast.walk(ast.parse(module.text)):  # a field that holds a function is called by its name
            if isinstance(held, ast.AnnAssign) and isinstance(held.target, ast.Name):
                called |= {held.target.id} if "Callable" in ast.unparse(held.annotation) else set()
    return frozenset(names), frozenset(called)


def _targets(node: ast.stmt) -> list[ast.Name]:
    if isinstance(node, ast.AnnAssign):
        return [node.target] if isinstance(node.target, ast.Name) else []
    found: list[ast.Name] = []
    for one in getattr(node, "targets", []):
        found += [name for name in ast.walk(one) if isinstance(name, ast.Name)]
    return found


class _Writer(Expressions):
    sources: Sources

    # -- first a look at the whole

    def look(self, tree: ast.Module) -> None:
        """Gather what is bound here, and stop at constructs that are not known."""
        self.tree = tree
        self.with_defaults = {
            node.value.id
            for node in ast.walk(tree)
            if isinstance(node, ast.Attribute) and node.attr == "_field_defaults" and isinstance(node.value, ast.Name)
        }
        for node in ast.walk(tree):
            kind = type(node).__name__
            if kind not in known.NODES:
                self.stop(node, f"the construct {kind}", OR_ADD)
            self.bound |= _binds(node)
        for node in ast.walk(tree):
            if isinstance(node, ast.Import):
                others = [one for one in node.names if one.name not in known.INSTALLED]
                self.libraries |= {one.asname or one.name: one.name for one in others}
            if isinstance(node, ast.FunctionDef) and node.args.kwarg:
                self.named[node.name] = [one.arg for one in (*node.args.args, *node.args.kwonlyargs)]
            if isinstance(node, ast.ImportFrom):
                target = self.sources.find(self.sources.base(self.module, node))
                for one in target.tree.body if target else ():
                    for alias in node.names:
                        if isinstance(one, ast.FunctionDef) and one.name == alias.name and one.args.kwarg:
                            every = (*one.args.args, *one.args.kwonlyargs)
                            self.named[alias.asname or alias.name] = [each.arg for each in every]
        if mine := [name for name in self.bound if name.startswith(OURS)]:
            self.stop(tree, f"the name {mine[0]}", f"No name begins with {OURS}.")
        for name in (self.bound & (known.REPLACED.keys() | {"isinstance", "zip"})) - {"ModuleNotFoundError"}:
            node = next(node for node in ast.walk(tree) if name in _binds(node))
            self.stop(node, f"another thing called {name}", "Give it a name that is not built in.")

    # -- statements

    def visit_Import(self, node: ast.Import) -> ast.AST | Sequence[ast.AST] | None:
        kept = used(self.module, node)
        if kept is None:
            return None
        return [self._import(node, one) for one in kept.names]

    def _import(self, node: ast.Import, one: ast.alias) -> ast.stmt:
        if not self.in_function or one.name not in known.OTHER_ENGINE:
            if one.name in known.INSTALLED:
                return ast.Import([one])
            self._known_module(node, one.name)
            if "." in one.name and not one.asname:
                self.stop(node, f"import {one.name}", f"Write: from {one.name} import the names")
            stand_in = ast.alias(known.stand_in(one.name).stem, one.asname or one.name)
            return ast.ImportFrom("std", [stand_in], 0)
        return self._elsewhere(one.name)

    def _elsewhere(self, name: str) -> ast.stmt:
        return ast.Raise(self.call("Elsewhere", ast.Constant(name)))

    def _known_module(self, node: ast.AST, name: str) -> None:
        if not known.stand_in(name).is_file():
            there = ", ".join(sorted(path.stem for path in known.STD.glob("*.py")))
            self.stop(node, f"the module {name}", f"It knows {there}; the imports of numpy stand inside functions.")

    def visit_ImportFrom(self, node: ast.ImportFrom) -> ast.AST | Sequence[ast.AST] | None:
        kept = used(self.module, node)
        if kept is None:
            return None
        assert isinstance(kept, ast.ImportFrom)
        base = self.sources.base(self.module, kept)
        if self.sources.find(base) is not None:
            return self._ours(node, kept)
        if self.in_function and base in known.OTHER_ENGINE:
            return self._elsewhere(base)
        if kept.level:
            if {one.name for one in kept.names} <= known.BY_A_HOUSE:
                return kept
            self.stop(node, f"the module {base}", "There is none.")
        self._known_module(node, base)
        for one in kept.names:
            if one.name not in known.names_of(base):
                self.stop(node, f"{one.name} of {base}", f"It knows {', '.join(sorted(known.names_of(base)))}.")
        return ast.ImportFrom(f"std.{known.stand_in(base).stem}", kept.names, 0)

    def _ours(self, node: ast.ImportFrom, kept: ast.ImportFrom) -> ast.stmt | None:
        names = [one for one in kept.names if not self.sources.is_type_elsewhere(self.module, kept, one.name)]
        if not names:
            return None
        for name in self.sources.imported(self.module, ast.ImportFrom(kept.module, names, kept.level)):
            if not self.sources.goes(name):
                if self.in_function:
                    return self._elsewhere(name)
                self.stop(node, f"{name} at the head of a module", "Import it inside the function that needs it.")
        return ast.copy_location(ast.ImportFrom(kept.module, names, kept.level), kept)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        for one in node.decorator_list:
            word = one.func if isinstance(one, ast.Call) else one
            if not (isinstance(word, ast.Name) and word.id in known.DECORATORS):
                self.stop(one, f"the decorator {ast.unparse(one)}", f"It knows {', '.join(sorted(known.DECORATORS))}.")
        every = node.args
        every.args, every.posonlyargs = [*every.posonlyargs, *every.args], []
        self.in_function += 1
        self.generic_visit(node)
        self.in_function -= 1
        if every.kwarg:  # arguments by name keep no order there: they come as pairs
            given, every.kwarg = every.kwarg.arg, None
            every.kwonlyargs.append(ast.arg("_named"))
            every.kw_defaults.append(tuple_of([]))
            taken = self.call("Ordered", name_of("_named"))
            node.body.insert(0, ast.Assign([ast.Name(given, ast.Store())], taken))
        node.body = node.body or [ast.Pass()]
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        bases = [ast.unparse(base) for base in node.bases]
        if node.keywords or node.decorator_list or len(bases) > 1:
            self.stop(node, f"the class {node.name}", "It knows classes with one base, undecorated, without a keyword.")
        if bases == ["NamedTuple"]:
            return self._named_tuple(node)
        if bases == ["Protocol"]:
            return ast.ClassDef(node.name, [], [], [ast.Pass()], [])
        for base in bases:
            kind = getattr(builtins, base, None)
            if not (isinstance(kind, type) and issubclass(kind, Exception) and base in known.NATIVE):
                self.stop(node, f"the base {base}", "It knows NamedTuple, Protocol, and exceptions that are built in.")
        self.generic_visit(node)
        return node

    def _named_tuple(self, node: ast.ClassDef) -> ast.ClassDef:
        fields = [one for one in node.body if isinstance(one, ast.AnnAssign)]
        names = [one.target.id for one in fields if isinstance(one.target, ast.Name)]
        own = [ast.Attribute(name_of("self"), name, ast.Load()) for name in names]
        init = ast.FunctionDef(
            "__init__",
            ast.arguments([], [ast.arg("self"), *map(ast.arg, names)], None, [], [], None,
                          [self.visit(one.value) for one in fields if one.value is not None]),
            [ast.Assign([ast.Attribute(name_of("self"), name, ast.Store())], name_of(name)) for name in names],
            [],
        )  # fmt: skip
        every = ast.FunctionDef(
            "_all", ast.arguments([], [ast.arg("self")], None, [], [], None, []), [ast.Return(tuple_of(own))], []
        )
        rest = [self.visit(one) for one in node.body if not isinstance(one, (ast.AnnAssign, ast.Pass))]
        head: list[ast.stmt] = [ast.Assign([ast.Name("_fields", ast.Store())], strings(names))]
        if node.name in self.with_defaults:
            given = [(name, one.value) for name, one in zip(names, fields, strict=True) if one.value is not None]
            pairs = [tuple_of([ast.Constant(name), self.visit(value)]) for name, value in given]
            head.append(ast.Assign([ast.Name("_field_defaults", ast.Store())], self.call("Ordered", tuple_of(pairs))))
        return ast.ClassDef(node.name, [self.of_prelude("Named")], [], [*head, init, every, *rest], [])

    def visit_AugAssign(self, node: ast.AugAssign) -> ast.AST:
        self.generic_visit(node)
        if isinstance(node.op, ast.Pow):
            self.stop(node, "**=", "Write it out: a = a**b.")
        if isinstance(node.op, ast.BitOr):  # of dicts and sets
            there = ast.parse(ast.unparse(node.target), mode="eval").body
            return ast.Expr(ast.Call(ast.Attribute(there, "update", ast.Load()), [node.value], []))
        return node

    def visit_Assign(self, node: ast.Assign) -> ast.AST:
        made = node.value
        target = node.targets[0]
        if isinstance(made, ast.DictComp) and isinstance(target, ast.Name) and is_set(made.generators[0].iter):
            name = target.id
            asked = [one for one in ast.walk(self.tree) if isinstance(one, ast.Subscript) and is_name(one.value, name)]
            every = [one for one in ast.walk(self.tree) if is_name(one, name)]
            if len(asked) == len(every) - 1:  # a dict of a set that nobody goes through
                made.generators[0].iter = ast.Call(name_of("list"), [made.generators[0].iter], [])
        self.generic_visit(node)
        return node

    def visit_For(self, node: ast.For) -> ast.AST:
        self._in_order(node.iter)
        self.generic_visit(node)
        return node

    def visit_comprehension(self, node: ast.comprehension) -> ast.AST:
        self._in_order(node.iter)
        self.generic_visit(node)
        return node

    def _in_order(self, node: ast.expr) -> None:
        if is_set(node):
            self.stop(node, "the order of a set", "Go through sorted(...) of it, or keep a tuple or a dict.")


def _binds(node: ast.AST) -> set[str]:
    if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
        return {node.id}
    if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
        return {node.name}
    if isinstance(node, ast.arg):
        return {node.arg}
    if isinstance(node, ast.alias):
        return {node.asname or node.name.partition(".")[0]}
    if isinstance(node, ast.ExceptHandler) and node.name:
        return {node.name}
    return set()
