"""The small changes that can be made in a file: one node of its tree at a time."""

from __future__ import annotations

import ast
import copy
import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

EDGES: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
SIGNS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
}
OTHER_END = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}
LEAST_STEP = 0.02  # a coefficient's last digit is often finer than its source claims to know it
SLACK = 1e-6


class Mutant(NamedTuple):
    """One change: in which file and line, what stands there and what is put in its place, in which lines it runs.

    ``function`` is the function or class that it stands in, with those around it; empty at the top of the file.
    ``within`` is the line as written.
    ``body`` are the lines of the innermost function about it; none, (0, 0), at the top of the file.
    ``called`` says whether it runs when something is called, and not when the file is read in.
    """

    path: str
    function: str
    line: int
    old: str
    new: str
    which: int
    lines: tuple[int, int]
    called: bool
    within: str
    body: tuple[int, int] = (0, 0)

    def __str__(self) -> str:
        where = f" {self.function}" if self.function else ""
        return f"{self.path}:{self.line}{where}: {self.old}  ->  {self.new}"


def mutants(path: Path, root: Path) -> list[Mutant]:
    """Return every change that can be made in a file."""
    text = path.read_text("utf-8")
    name = path.relative_to(root).as_posix()
    found = []
    tree = ast.parse(text)
    lines = _lines(tree)
    inside = {  # an inner function comes after the one around it
        n: (part.lineno, f.end_lineno or part.lineno)
        for f in ast.walk(tree) if isinstance(f, ast.FunctionDef) for part in f.body[:1]
        for each in f.body for n in ast.walk(each)
    }  # fmt: skip
    named, written = _named(tree), text.splitlines()
    for which, (node, new, _) in enumerate(_changes(tree, text)):
        old = " ".join(_written(text, node).split())
        new = " ".join(new.split())
        within = written[node.lineno - 1].strip()
        body, place = inside.get(node, (0, 0)), lines[node]
        found.append(Mutant(name, named[node], node.lineno, old, new, which, place, node in inside, within, body))
    return found


def changed(path: Path, which: int) -> ast.Module:
    """Return a file's tree with one of its changes made; lines stay what they were."""
    text = path.read_text("utf-8")
    tree = ast.parse(text)
    for number, (node, _, new) in enumerate(_changes(tree, text)):
        if number == which:
            _Put(node, ast.copy_location(new, node)).visit(tree)
            return ast.fix_missing_locations(tree)
    raise IndexError(f"{path} has no change number {which}")


@lru_cache(maxsize=1)
def _rows(text: str) -> list[bytes]:
    return text.encode().split(b"\n")


def _written(text: str, node: ast.expr | ast.stmt) -> str:
    """What stands in a file for a node; `ast.get_source_segment` would part the whole text into lines for each."""
    rows, end = _rows(text)[node.lineno - 1 : node.end_lineno], node.end_col_offset
    return b"\n".join([*rows[:-1], rows[-1][:end]])[node.col_offset :].decode()


def _lines(tree: ast.Module) -> dict[ast.AST, tuple[int, int]]:
    """Return the lines of the statement that each node runs in: of `if`, `for` and the like, those of the head."""
    lines: dict[ast.AST, tuple[int, int]] = {}

    def walk(node: ast.AST, span: tuple[int, int]) -> None:
        if isinstance(node, ast.stmt):
            body = getattr(node, "body", None)
            last = max(node.lineno, body[0].lineno - 1) if body else node.end_lineno or node.lineno
            span = (node.lineno, last)
        lines[node] = span
        for child in ast.iter_child_nodes(node):
            walk(child, span)

    walk(tree, (1, 1))
    return lines


def _named(tree: ast.Module) -> dict[ast.AST, str]:
    """Return the names of the functions and classes around each node, joined by dots."""
    named: dict[ast.AST, str] = {}

    def walk(node: ast.AST, name: str) -> None:
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
            name = f"{name}.{node.name}".lstrip(".")
        named[node] = name
        for child in ast.iter_child_nodes(node):
            walk(child, name)

    walk(tree, "")
    return named


class _Put(ast.NodeTransformer):
    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        return self.new if node is self.old else self.generic_visit(node)


def _changes(tree: ast.Module, text: str) -> Iterator[tuple[ast.expr | ast.stmt, str, ast.AST]]:
    for node in _meant(tree):
        for new in _of(node, text):
            yield node, ast.unparse(new), new


def _meant(node: ast.AST) -> Iterator[ast.expr | ast.stmt]:
    """Walk through what decides an answer: no type hints, no messages of errors, no imports, no decorators."""
    if isinstance(node, (ast.Raise, ast.Import, ast.ImportFrom, ast.Assert, ast.JoinedStr)):
        return
    if isinstance(node, ast.Assign) and any(isinstance(t, ast.Name) and t.id == "__all__" for t in node.targets):
        return
    if isinstance(node, ast.keyword) and node.arg == "strict":
        return  # of zip: it guards against ourselves
    if isinstance(node, (ast.expr, ast.stmt)):
        yield node
    hints = {"annotation", "returns", "decorator_list", "bases", "type_params"}
    for field, value in ast.iter_fields(node):
        if field in hints:
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST):
                yield from _meant(child)


def _of(node: ast.AST, text: str) -> Iterator[ast.AST]:
    match node:
        case ast.Compare(ops=ops):
            for i, op in enumerate(ops):
                for other in EDGES[type(op)]:
                    yield _with(node, ops=[*ops[:i], other(), *ops[i + 1 :]])
        case ast.BinOp(op=op) | ast.AugAssign(op=op) if type(op) in SIGNS and not _joins_text(node):
            yield _with(node, op=SIGNS[type(op)]())
        case ast.BoolOp(op=op):
            yield _with(node, op=ast.And() if isinstance(op, ast.Or) else ast.Or())
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=inner):
            yield inner
        case ast.Call(func=ast.Name(id=name) as func, args=args) if name in OTHER_END and args:
            yield _with(node, func=_with(func, id=OTHER_END[name]))
        case ast.Call(func=ast.Attribute(attr=name) as func, args=args) if name in OTHER_END and args:
            yield _with(node, func=_with(func, attr=OTHER_END[name]))
        case ast.Constant(value=bool() as value):
            yield ast.Constant(not value)
        case ast.Constant(value=int() | float() as value):
            yield ast.Constant(_stepped(value, _written(text, node)))
        case (
            ast.If(test=ast.Name() | ast.Attribute() | ast.Call() as test)
            | ast.IfExp(test=ast.Name() | ast.Attribute() | ast.Call() as test)
        ):
            yield _with(node, test=ast.UnaryOp(ast.Not(), test))


def _with(node: ast.AST, **new: object) -> ast.AST:
    other = copy.copy(node)
    for field, value in new.items():
        setattr(other, field, value)
    return other


def _joins_text(node: ast.AST) -> bool:
    sides = (getattr(node, "left", None), getattr(node, "right", None), getattr(node, "value", None))
    texts = (s.value if isinstance(s, ast.Constant) else s for s in sides)
    return any(isinstance(text, (str, ast.JoinedStr)) for text in texts)


def _stepped(value: float, written: str) -> float:
    """Return a number one step on in its last written digit, a fraction by two per cent at least.

    A slack for the machine's rounding is taken away: half as much again is the same slack.
    """
    if isinstance(value, int):
        return value + 1
    if 0 < value <= SLACK:
        return 0.0
    digits = re.match(r"[\d_]*\.?(\d*)(?:[eE]([+-]?\d+))?", written)
    step = 10.0 ** (int(digits[2] or 0) - len(digits[1])) if digits else 0.0
    return float(f"{value + max(step, LEAST_STEP * abs(value)):.12g}")
