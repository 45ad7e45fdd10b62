"""One module of the plain path, written anew as the small engine runs it. What is not known stops the build."""

from __future__ import annotations

import ast
import builtins
import re
from collections.abc import Iterable, Sequence

from site_src.small import known
from site_src.small.patterns import Unknown, compiled
from site_src.small.reach import Module, Sources, used

_KINDS = {"dict", "list", "set", "tuple"}
_OURS = "_s_"  # before each name of the prelude


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
    writer = _Writer(sources, module, attributes, methods)
    writer.look(tree)
    done = writer.visit(tree)
    wanted = sorted(writer.called)
    if wanted:
        done.body.insert(0, ast.ImportFrom("std.prelude", [ast.alias(name, _OURS + name) for name in wanted], 0))
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


def _name(name: str) -> ast.Name:
    return ast.Name(name, ast.Load())


def _tuple(items: Sequence[ast.expr]) -> ast.Tuple:
    return ast.Tuple(list(items), ast.Load())


def _strings(names: Iterable[str]) -> ast.Tuple:
    return _tuple([ast.Constant(name) for name in names])


class _Writer(ast.NodeTransformer):
    def __init__(self, sources: Sources, module: Module, attributes: frozenset[str], methods: frozenset[str]) -> None:
        self.sources = sources
        self.module = module
        self.attributes = attributes
        self.methods = methods
        self.called: set[str] = set()  # functions of the prelude
        self.named: dict[str, list[str]] = {}  # functions here that take **named, with their parameters
        self.bound: set[str] = set()
        self.libraries: dict[str, str] = {}  # modules of the library, by the name that they have here
        self.in_function = 0

    def stop(self, node: ast.AST, what: str, instead: str) -> None:
        self.module.stop(node, what, instead)

    def call(self, name: str, *args: ast.expr) -> ast.Call:
        """A call of a function of the prelude."""
        return ast.Call(self.of_prelude(name), list(args), [])

    def of_prelude(self, name: str) -> ast.Name:
        """A thing of the prelude, by a name that no source has."""
        self.called.add(name)
        return _name(_OURS + name)

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
                self.stop(node, f"the construct {kind}", "Write it with another, or add it to site_src/small with a test.")
            self.bound |= _binds(node)
        for node in ast.walk(tree):
            if isinstance(node, ast.Import):
                self.libraries |= {one.asname or one.name: one.name for one in node.names if one.name not in known.INSTALLED}
            if isinstance(node, ast.FunctionDef) and node.args.kwarg:
                self.named[node.name] = [one.arg for one in (*node.args.args, *node.args.kwonlyargs)]
            if isinstance(node, ast.ImportFrom):
                target = self.sources.find(self.sources.base(self.module, node))
                for one in target.tree.body if target else ():
                    for alias in node.names:
                        if isinstance(one, ast.FunctionDef) and one.name == alias.name and one.args.kwarg:
                            every = (*one.args.args, *one.args.kwonlyargs)
                            self.named[alias.asname or alias.name] = [each.arg for each in every]
        if mine := [name for name in self.bound if name.startswith(_OURS)]:
            self.stop(tree, f"the name {mine[0]}", f"No name begins with {_OURS}.")
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
            return self._ours(node, kept, base)
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

    def _ours(self, node: ast.ImportFrom, kept: ast.ImportFrom, base: str) -> ast.stmt | None:
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
            every.kw_defaults.append(_tuple([]))
            taken = self.call("Ordered", _name("_named"))
            node.body.insert(0, ast.Assign([ast.Name(given, ast.Store())], taken))
        node.body = node.body or [ast.Pass()]
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        bases = [ast.unparse(base) for base in node.bases]
        if node.keywords or node.decorator_list or len(bases) > 1:
            self.stop(node, f"the class {node.name}", "It knows classes with one base, without a decorator or a keyword.")
        if bases == ["NamedTuple"]:
            return self._named_tuple(node)
        if bases == ["Protocol"]:
            return ast.ClassDef(node.name, [], [], [ast.Pass()], [])
        for base in bases:
            kind = getattr(builtins, base, None)
            if not (isinstance(kind, type) and issubclass(kind, Exception) and base in known.NATIVE):
                self.stop(node, f"the base {base}", "It knows NamedTuple, Protocol, exceptions that are built in, and none.")
        self.generic_visit(node)
        return node

    def _named_tuple(self, node: ast.ClassDef) -> ast.ClassDef:
        fields = [one for one in node.body if isinstance(one, ast.AnnAssign)]
        names = [one.target.id for one in fields if isinstance(one.target, ast.Name)]
        own = [ast.Attribute(_name("self"), name, ast.Load()) for name in names]
        init = ast.FunctionDef(
            "__init__",
            ast.arguments([], [ast.arg("self"), *map(ast.arg, names)], None, [], [], None,
                          [self.visit(one.value) for one in fields if one.value is not None]),
            [ast.Assign([ast.Attribute(_name("self"), name, ast.Store())], _name(name)) for name in names] or [ast.Pass()],
            [],
        )  # fmt: skip
        every = ast.FunctionDef(
            "_all", ast.arguments([], [ast.arg("self")], None, [], [], None, []), [ast.Return(_tuple(own))], []
        )
        rest = [self.visit(one) for one in node.body if not isinstance(one, (ast.AnnAssign, ast.Pass))]
        head: list[ast.stmt] = [ast.Assign([ast.Name("_fields", ast.Store())], _strings(names))]
        if node.name in self.with_defaults:
            pairs = [_tuple([ast.Constant(name), self.visit(one.value)]) for name, one in zip(names, fields, strict=True) if one.value]
            head.append(ast.Assign([ast.Name("_field_defaults", ast.Store())], self.call("Ordered", _tuple(pairs))))
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
        if isinstance(made, ast.DictComp) and isinstance(node.targets[0], ast.Name) and _is_set(made.generators[0].iter):
            name = node.targets[0].id
            asked = [one for one in ast.walk(self.tree) if isinstance(one, ast.Subscript) and _is_name(one.value, name)]
            every = [one for one in ast.walk(self.tree) if _is_name(one, name)]
            if len(asked) == len(every) - 1:  # a dict of a set that nobody goes through
                made.generators[0].iter = ast.Call(_name("list"), [made.generators[0].iter], [])
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
        if _is_set(node):
            self.stop(node, "the order of a set", "Go through sorted(...) of it, or keep a tuple or a dict.")

    # -- expressions

    def visit_Name(self, node: ast.Name) -> ast.AST:
        if not isinstance(node.ctx, ast.Load) or node.id in self.bound:
            return node
        if node.id == "__package__":
            return ast.Constant(self.module.package)
        if node.id in known.REPLACED:
            return ast.copy_location(self.of_prelude(known.REPLACED[node.id]), node)
        if node.id not in known.NATIVE and node.id not in ("__name__", "__path__"):
            self.stop(node, f"{node.id}, which is built in", "Write it with another, or add it to site_src/small with a test.")
        return node

    def visit_Dict(self, node: ast.Dict) -> ast.AST:
        parts: list[ast.expr] = []
        run: list[ast.expr] = []
        for key, value in zip(node.keys, node.values, strict=True):
            worth = self.visit(value)
            if key is not None:
                run.append(_tuple([self.visit(key), worth]))
                continue
            parts += [_tuple(run)] if run else []
            run = []
            parts.append(worth)
        parts += [_tuple(run)] if run else []
        if None in node.keys:
            return self.call("merged", *parts)
        return self.call("Ordered", *parts)

    def visit_DictComp(self, node: ast.DictComp) -> ast.AST:
        self.generic_visit(node)
        return self.call("Ordered", ast.GeneratorExp(_tuple([node.key, node.value]), node.generators))

    def _parts(self, items: Sequence[ast.expr]) -> ast.expr:
        """One list of what stands there, with that behind stars put in."""
        parts: list[ast.expr] = []
        run: list[ast.expr] = []
        for one in items:
            if isinstance(one, ast.Starred):
                parts += [ast.List(run, ast.Load())] if run else []
                run = []
                parts.append(ast.Call(_name("list"), [self.visit(one.value)], []))
            else:
                run.append(self.visit(one))
        parts += [ast.List(run, ast.Load())] if run else []
        whole = parts[0]
        for part in parts[1:]:
            whole = ast.BinOp(whole, ast.Add(), part)
        return whole

    def _starred(self, node: ast.List | ast.Tuple | ast.Set, kind: str) -> ast.AST:
        stored = not isinstance(getattr(node, "ctx", ast.Load()), ast.Load)
        if stored or not any(isinstance(one, ast.Starred) for one in node.elts):
            self.generic_visit(node)
            return node
        whole = self._parts(node.elts)
        return whole if kind == "list" else ast.Call(_name(kind), [whole], [])

    def visit_List(self, node: ast.List) -> ast.AST:
        return self._starred(node, "list")

    def visit_Tuple(self, node: ast.Tuple) -> ast.AST:
        return self._starred(node, "tuple")

    def visit_Set(self, node: ast.Set) -> ast.AST:
        return self._starred(node, "set")

    def visit_JoinedStr(self, node: ast.JoinedStr) -> ast.AST:
        parts: list[ast.expr] = []
        for value in node.values:
            if isinstance(value, ast.Constant):
                parts.append(value)
                continue
            assert isinstance(value, ast.FormattedValue)
            worth = self.visit(value.value)
            if value.conversion not in (-1, ord("r")) or (value.conversion != -1 and value.format_spec):
                self.stop(value, f"the conversion of {ast.unparse(node)}", "It knows !r alone.")
            if value.format_spec is None:
                parts.append(self.call("shown" if value.conversion == ord("r") else "said", worth))
            else:
                parts.append(self.call("formatted", worth, self._spec(value.format_spec)))
        if len(parts) == 1:
            return parts[0]
        return ast.Call(ast.Attribute(ast.Constant(""), "join", ast.Load()), [_tuple(parts)], [])

    def _spec(self, spec: ast.expr) -> ast.expr:
        assert isinstance(spec, ast.JoinedStr)
        plain = "".join(str(one.value) if isinstance(one, ast.Constant) else "{0}" for one in spec.values)
        of_day = re.sub(known.DATE_FORMATS, "", plain)
        if not any(re.fullmatch(form, plain) for form in known.FORMATS) and ("%" in of_day or of_day == plain):
            self.stop(spec, f"the format {plain}", f"It knows {' and '.join(known.FORMATS)}; of days {known.DATE_FORMATS}.")
        if len(spec.values) == 1 and isinstance(spec.values[0], ast.Constant):
            return spec.values[0]
        written = self.visit_JoinedStr(spec)
        assert isinstance(written, ast.expr)
        return written

    def visit_BinOp(self, node: ast.BinOp) -> ast.AST:
        left, right = self.visit(node.left), self.visit(node.right)
        if isinstance(node.op, ast.Pow):
            if isinstance(left, ast.Constant) and isinstance(right, ast.Constant):
                return ast.Constant(left.value**right.value)  # type: ignore[operator]
            return self.call("power", left, right)
        if isinstance(node.op, ast.BitOr):
            return self.call("either", left, right)
        if isinstance(node.op, ast.Mod) and isinstance(left, (ast.Constant, ast.JoinedStr)) and not _is_number(left):
            self.stop(node, "text % values", "Write an f-string.")
        return ast.copy_location(ast.BinOp(left, node.op, right), node)

    def visit_Subscript(self, node: ast.Subscript) -> ast.AST:
        if isinstance(node.value, ast.Name) and node.value.id in _KINDS and node.value.id not in self.bound:
            self.stop(node, f"the type {ast.unparse(node)} here", "A type stands in annotations.")
        self.generic_visit(node)
        if isinstance(node.slice, ast.Slice) and node.slice.step is not None:
            if not isinstance(node.ctx, ast.Load):
                self.stop(node, "a slice with a step that is stored to", "Write a new list.")
            ends = [one or ast.Constant(None) for one in (node.slice.lower, node.slice.upper, node.slice.step)]
            return self.call("stepped", node.value, *ends)
        return node

    def visit_Attribute(self, node: ast.Attribute) -> ast.AST:
        if node.attr == "_field_defaults" and isinstance(node.value, ast.Name) and node.value.id in self.bound:
            return node
        if node.attr == "__getitem__":
            return self.call("getter", self.visit(node.value))
        of = node.value.id if isinstance(node.value, ast.Name) else ""
        if of in self.libraries and known.stand_in(self.libraries[of]).is_file():
            if node.attr not in known.names_of(self.libraries[of]):
                there = ", ".join(sorted(known.names_of(self.libraries[of])))
                self.stop(node, f"{of}.{node.attr}", f"It knows {there}.")
        elif (of in known.REPLACED and of not in self.bound) or not self._is_known(node.attr):
            self.stop(node, f".{node.attr}", "Write it with another, or add it to site_src/small with a test.")
        self.generic_visit(node)
        return node

    def _is_known(self, name: str) -> bool:
        return name in self.attributes or name in known.METHODS or name in known.std_attributes() or name in known.OF_STD

    def visit_Call(self, node: ast.Call) -> ast.AST:
        if isinstance(node.func, ast.Subscript) and isinstance(node.func.value, ast.Name) and node.func.value.id in _KINDS:
            node.func = node.func.value  # list[float]()
        func = node.func
        if isinstance(func, ast.Name) and func.id not in self.bound and func.id in ("isinstance", "zip", "super"):
            return self._built_in(node, func.id)
        if isinstance(func, ast.Name) and func.id in self.named:
            return self._called_by_name(node, self.named[func.id])
        if isinstance(func, ast.Attribute):
            if isinstance(func.value, ast.Name) and func.value.id == "re" and "re" in self.bound:
                return self._pattern(node, func.attr)
            if func.attr in known.REPLACED_METHODS and not self._of_super(func):
                return self._method(node, func)
            if func.attr == "fromkeys" and isinstance(func.value, ast.Name) and func.value.id == "dict":
                return self.call("from_keys", *map(self.visit, node.args))
            if func.attr in known.LIBRARY_METHODS and func.attr not in self.methods | known.std_attributes():
                self.stop(node, f"the method .{func.attr}()", "Write it with another, or add it with a test.")
        self.generic_visit(node)
        for one in node.keywords:  # an ordered dict behind ** is read past its end there
            if one.arg is None:
                one.value = self.call("plain", one.value)
        if any(isinstance(one, ast.Starred) for one in node.args[:-1]):
            node.args = [ast.Starred(self._again(node.args), ast.Load())]
        return node

    def _again(self, args: Sequence[ast.expr]) -> ast.expr:
        whole: ast.expr | None = None
        for one in args:
            part = ast.Call(_name("list"), [one.value], []) if isinstance(one, ast.Starred) else ast.List([one], ast.Load())
            whole = part if whole is None else ast.BinOp(whole, ast.Add(), part)
        assert whole is not None
        return whole

    def _of_super(self, func: ast.Attribute) -> bool:
        return isinstance(func.value, ast.Call) and ast.unparse(func.value) == "super()"

    def _built_in(self, node: ast.Call, name: str) -> ast.AST:
        if name == "super":
            return node
        if name == "zip":
            strict = any(one.arg == "strict" and getattr(one.value, "value", None) for one in node.keywords)
            args = [self.visit(one) for one in node.args]
            if not strict:
                return ast.Call(_name("zip"), args, [])
            if any(isinstance(one, ast.Starred) for one in args[:-1]):
                self.stop(node, "zip of stars that are not last", "Write the star last.")
            return self.call("zip_strict", *args)
        kinds = node.args[1].elts if isinstance(node.args[1], ast.Tuple) else [node.args[1]]
        names: list[str] = []
        for kind in kinds:
            if not isinstance(kind, ast.Name):
                self.stop(kind, f"isinstance of {ast.unparse(kind)}", "Name classes, several in a tuple.")
            elif kind.id in known.IN_ISINSTANCE:
                names += known.IN_ISINSTANCE[kind.id]
            elif kind.id in self.bound:
                names.append(kind.id)
            else:
                self.stop(kind, f"isinstance of {kind.id}", f"It knows {', '.join(known.IN_ISINSTANCE)} and classes of ours.")
        every = [self.of_prelude(one) if one == "Named" else _name(one) for one in dict.fromkeys(names)]
        asked = every[0] if len(every) == 1 else _tuple(every)
        return ast.Call(_name("isinstance"), [self.visit(node.args[0]), asked], [])

    def _called_by_name(self, node: ast.Call, parameters: Sequence[str]) -> ast.AST:
        """What a function takes as ``**named`` is given to it as pairs, in order."""
        parts: list[ast.expr] = []
        run: list[ast.expr] = []
        kept: list[ast.keyword] = []
        for one in node.keywords:
            worth = self.visit(one.value)
            if one.arg in parameters:
                kept.append(ast.keyword(one.arg, worth))
            elif one.arg is not None:
                run.append(_tuple([ast.Constant(one.arg), worth]))
            else:
                parts += [_tuple(run)] if run else []
                run = []
                parts.append(worth)
        if parts:
            parts += [_tuple(run)] if run else []
            kept.append(ast.keyword("_named", self.call("pairs", *parts)))
        elif run:
            kept.append(ast.keyword("_named", _tuple(run)))
        return ast.Call(node.func, [self.visit(one) for one in node.args], kept)

    def _method(self, node: ast.Call, func: ast.Attribute) -> ast.AST:
        if func.attr in self.methods:
            self.stop(node, f".{func.attr}() of text beside one of ours", "Give ours another name.")
        worth = self.visit(func.value)
        call = self.call(f"m_{func.attr}", worth, *map(self.visit, node.args))
        call.keywords = [ast.keyword(one.arg, self.visit(one.value)) for one in node.keywords]
        return call

    def _pattern(self, node: ast.Call, what: str) -> ast.AST:
        """A call of ``re``: the pattern is written as the browser reads it."""
        if what not in ("compile", "fullmatch", "sub") or not isinstance(node.args[0], ast.Constant):
            self.stop(node, f"re.{what} here", "Write re.compile, re.fullmatch or re.sub with a pattern that stands there.")
        flags = [ast.unparse(one) for one in node.args[1:]] if what == "compile" else []
        try:
            pattern, names = compiled(str(getattr(node.args[0], "value", "")), flags)
        except Unknown as unknown:
            self.stop(node, f"in this pattern {unknown}", "Write it with what site_src/small/patterns.py knows.")
        made = ast.Call(ast.Attribute(_name("re"), "compile", ast.Load()), [ast.Constant(pattern), _strings(names)], [])
        if what == "compile":
            return made
        return ast.Call(ast.Attribute(made, what, ast.Load()), [self.visit(one) for one in node.args[1:]], [])


def _is_set(node: ast.expr) -> bool:
    if isinstance(node, ast.Call):
        return _is_name(node.func, "set") or _is_name(node.func, "frozenset")
    return isinstance(node, (ast.Set, ast.SetComp))


def _is_name(node: ast.AST, name: str) -> bool:
    return isinstance(node, ast.Name) and node.id == name


def _is_number(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, (int, float))


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
