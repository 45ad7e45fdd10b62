"""Expressions of the plain path, as the small engine runs them. What is not known stops the build."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Sequence
from typing import NoReturn

from site_src.small import known
from site_src.small.patterns import Unknown, compiled
from site_src.small.reach import Module

_KINDS = {"dict", "list", "set", "tuple"}
OR_ADD = "Write it with another, or add it to site_src/small with a test."
OURS = "_s_"  # before each name of the prelude


def name_of(name: str) -> ast.Name:
    """A name that is read."""
    return ast.Name(name, ast.Load())


def tuple_of(items: Sequence[ast.expr]) -> ast.Tuple:
    """A tuple of what is given."""
    return ast.Tuple(list(items), ast.Load())


def strings(names: Iterable[str]) -> ast.Tuple:
    """A tuple of texts."""
    return tuple_of([ast.Constant(name) for name in names])


class Expressions(ast.NodeTransformer):
    """Writes expressions anew."""

    def __init__(self, module: Module, attributes: frozenset[str], methods: frozenset[str]) -> None:
        self.module = module
        self.attributes = attributes
        self.methods = methods
        self.called: set[str] = set()  # functions of the prelude
        self.named: dict[str, list[str]] = {}  # functions here that take **named, with their parameters
        self.bound: set[str] = set()
        self.libraries: dict[str, str] = {}  # modules of the library, by the name that they have here
        self.in_function = 0

    def stop(self, node: ast.AST, what: str, instead: str) -> NoReturn:
        """Stop the build at a place of this module."""
        self.module.stop(node, what, instead)

    def call(self, name: str, *args: ast.expr) -> ast.Call:
        """A call of a function of the prelude."""
        return ast.Call(self.of_prelude(name), list(args), [])

    def of_prelude(self, name: str) -> ast.Name:
        """A thing of the prelude, by a name that no source has."""
        self.called.add(name)
        return name_of(OURS + name)

    def visit_Name(self, node: ast.Name) -> ast.AST:
        if not isinstance(node.ctx, ast.Load) or node.id in self.bound:
            return node
        if node.id == "__package__":
            return ast.Constant(self.module.package)
        if node.id in known.REPLACED:
            return ast.copy_location(self.of_prelude(known.REPLACED[node.id]), node)
        if node.id not in known.NATIVE and node.id not in ("__name__", "__path__"):
            self.stop(node, f"{node.id}, which is built in", OR_ADD)
        return node

    def visit_Dict(self, node: ast.Dict) -> ast.AST:
        parts: list[ast.expr] = []
        run: list[ast.expr] = []
        for key, value in zip(node.keys, node.values, strict=True):
            worth = self.visit(value)
            if key is not None:
                run.append(tuple_of([self.visit(key), worth]))
                continue
            parts += [tuple_of(run)] if run else []
            run = []
            parts.append(worth)
        parts += [tuple_of(run)] if run else []
        if None in node.keys:
            return self.call("merged", *parts)
        return self.call("Ordered", *parts)

    def visit_DictComp(self, node: ast.DictComp) -> ast.AST:
        self.generic_visit(node)
        return self.call("Ordered", ast.GeneratorExp(tuple_of([node.key, node.value]), node.generators))

    def _parts(self, items: Sequence[ast.expr]) -> ast.expr:
        """One list of what stands there, with that behind stars put in."""
        parts: list[ast.expr] = []
        run: list[ast.expr] = []
        for one in items:
            if isinstance(one, ast.Starred):
                parts += [ast.List(run, ast.Load())] if run else []
                run = []
                parts.append(ast.Call(name_of("list"), [self.visit(one.value)], []))
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
        return whole if kind == "list" else ast.Call(name_of(kind), [whole], [])

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
        return ast.Call(ast.Attribute(ast.Constant(""), "join", ast.Load()), [tuple_of(parts)], [])

    def _spec(self, spec: ast.expr) -> ast.expr:
        assert isinstance(spec, ast.JoinedStr)
        plain = "".join(str(one.value) if isinstance(one, ast.Constant) else "{0}" for one in spec.values)
        of_day = re.sub(known.DATE_FORMATS, "", plain)
        if not any(re.fullmatch(form, plain) for form in known.FORMATS) and ("%" in of_day or of_day == plain):
            there = " and ".join(known.FORMATS)
            self.stop(spec, f"the format {plain}", f"It knows {there}; of days {known.DATE_FORMATS}.")
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
            self.stop(node, f".{node.attr}", OR_ADD)
        self.generic_visit(node)
        return node

    def _is_known(self, name: str) -> bool:
        return any(name in names for names in (self.attributes, known.METHODS, known.std_attributes(), known.OF_STD))

    def visit_Call(self, node: ast.Call) -> ast.AST:
        func = node.func
        if isinstance(func, ast.Subscript) and isinstance(func.value, ast.Name) and func.value.id in _KINDS:
            node.func = func.value  # list[float]()
            func = func.value
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
                self.stop(node, f"the method .{func.attr}()", OR_ADD)
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
            if isinstance(one, ast.Starred):
                part: ast.expr = ast.Call(name_of("list"), [one.value], [])
            else:
                part = ast.List([one], ast.Load())
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
                return ast.Call(name_of("zip"), args, [])
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
                there = ", ".join(known.IN_ISINSTANCE)
                self.stop(kind, f"isinstance of {kind.id}", f"It knows {there} and classes of ours.")
        every = [self.of_prelude(one) if one == "Named" else name_of(one) for one in dict.fromkeys(names)]
        asked = every[0] if len(every) == 1 else tuple_of(every)
        return ast.Call(name_of("isinstance"), [self.visit(node.args[0]), asked], [])

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
                run.append(tuple_of([ast.Constant(one.arg), worth]))
            else:
                parts += [tuple_of(run)] if run else []
                run = []
                parts.append(worth)
        if parts:
            parts += [tuple_of(run)] if run else []
            kept.append(ast.keyword("_named", self.call("pairs", *parts)))
        elif run:
            kept.append(ast.keyword("_named", tuple_of(run)))
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
            self.stop(node, f"re.{what} here", "Write re.compile, re.fullmatch or re.sub of a literal.")
        flags = [ast.unparse(one) for one in node.args[1:]] if what == "compile" else []
        try:
            pattern, names = compiled(str(getattr(node.args[0], "value", "")), flags)
        except Unknown as unknown:
            self.stop(node, f"in this pattern {unknown}", "Write it with what site_src/small/patterns.py knows.")
        compile_ = ast.Attribute(name_of("re"), "compile", ast.Load())
        made = ast.Call(compile_, [ast.Constant(pattern), strings(names)], [])
        if what == "compile":
            return made
        return ast.Call(ast.Attribute(made, what, ast.Load()), [self.visit(one) for one in node.args[1:]], [])


def is_set(node: ast.expr) -> bool:
    """Whether an expression makes a set."""
    if isinstance(node, ast.Call):
        return is_name(node.func, "set") or is_name(node.func, "frozenset")
    return isinstance(node, (ast.Set, ast.SetComp))


def is_name(node: ast.AST, name: str) -> bool:
    """Whether a node is a certain name."""
    return isinstance(node, ast.Name) and node.id == name


def _is_number(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, (int, float))
