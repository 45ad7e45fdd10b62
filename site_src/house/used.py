"""What each sheet rests on: the formulas it uses and the limits it names, found by following its names.

A card printed from a sheet holds while these are as they were. From the sheet's own file each name is followed to where
it is defined, through the rooms that hold formulas, rules and words; what only draws or asks is left out. A name that
is used in some cases only counts as used: it is said that a sheet *may* rest on it.
"""

from __future__ import annotations

import ast
import hashlib
from collections.abc import Iterator
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import NamedTuple

from calculators.rules.limit import Limit
from calculators.sheets import sheet_ids
from site_src.limits_table import said
from site_src.settings import ROOT

_ROOMS = ("sheets", "words", "rules", "models")
_LIMITS = "calculators.rules.limits."
_COMPUTE = {"calculators.models.": "model", "calculators.rules.": "rule"}
_NOT_RULES = ("calculators.rules.limit", "calculators.rules.house")


class Module(NamedTuple):
    """A file read: what it defines, by name, and what it imports, by the name it has there."""

    name: str
    defined: dict[str, ast.AST]
    imported: dict[str, tuple[str, str]]


Symbol = tuple[str, str]
"""A module and a name in it; the name is empty for the module itself."""


@cache
def rests_on(sheet_id: str) -> dict[str, str]:
    """What a sheet rests on, each with what would change it.

    Returns
    -------
    dict
        ``limit <id>`` with its edges in words; ``model <file>`` and ``rule <file>`` with a digest of what it uses.
    """
    found: dict[str, str] = {}
    formulas: dict[str, list[str]] = {}
    for module, name in sorted(_reached(sheet_id)):
        for room, kind in _COMPUTE.items():
            if module.startswith(room) and not module.startswith(_NOT_RULES):
                file = module.removeprefix(room).replace(".", "/")
                formulas.setdefault(f"{kind} {file}", []).append(_dump(module, name))
    for what, dumps in formulas.items():
        found[what] = hashlib.sha256("\n".join(dumps).encode()).hexdigest()[:16]
    for limit in limits_of_sheet(sheet_id):
        found[f"limit {limit.id}"] = "; ".join(filter(None, said(limit)))
    return found


def sheets_now() -> dict[str, dict[str, str]]:
    """What every sheet rests on now, by the sheet."""
    return {name: rests_on(name) for name in sheet_ids()}


def limits_of_sheet(sheet_id: str) -> list[Limit]:
    """The limits that a sheet may judge by, in order of their ids."""
    found = {}
    for module, name in _reached(sheet_id):
        if module.startswith(_LIMITS):
            row = getattr(import_module(module), name, None)
            if isinstance(row, Limit):
                found[row.id] = row
    return [found[name] for name in sorted(found)]


@cache
def _reached(sheet_id: str) -> frozenset[Symbol]:
    start = f"calculators.sheets.{sheet_id.replace('-', '_')}"
    left: list[Symbol] = [(start, name) for name in _read(start).defined]
    seen: set[Symbol] = set()
    while left:
        symbol = left.pop()
        if symbol in seen:
            continue
        module, name = symbol
        if not _in_rooms(module):
            continue
        held = _read(module)
        if name in held.imported and name not in held.defined:  # handed on
            left.append(held.imported[name])
        elif name in held.defined:
            seen.add(symbol)
            if not module.startswith(_LIMITS):  # a limit says whom to tell; it rests on no other
                left += _uses(module, name)
    return frozenset(seen)


def _in_rooms(module: str) -> bool:
    parts = module.split(".")
    return len(parts) > 2 and parts[0] == "calculators" and parts[1] in _ROOMS and _file(module).is_file()


def _file(module: str) -> Path:
    path = ROOT.joinpath(*module.split("."))
    return path.with_suffix(".py") if path.with_suffix(".py").is_file() else path / "__init__.py"


@cache
def _uses(module: str, name: str) -> tuple[Symbol, ...]:
    held = _read(module)
    found: list[Symbol] = []
    for node in ast.walk(held.defined[name]):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            source = held.imported.get(node.value.id)
            if source and not source[1]:  # a module, and a name in it
                found.append((source[0], node.attr))
        elif isinstance(node, ast.Name):
            if node.id in held.defined:
                found.append((module, node.id))
            elif node.id in held.imported:
                found.append(held.imported[node.id])
        elif isinstance(node, ast.ImportFrom):  # a function that imports for itself
            found += [(source, name) for _, (source, name) in _names(module, node) if name]
    return tuple(found)


@cache
def _read(module: str) -> Module:
    defined: dict[str, ast.AST] = {}
    imported: dict[str, tuple[str, str]] = {}
    for node in ast.parse(_file(module).read_text("utf-8")).body:
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
            defined[node.name] = node
        elif isinstance(node, ast.ImportFrom):
            imported.update(_names(module, node))
        elif isinstance(node, (ast.Assign, ast.AnnAssign)):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            for target in targets:
                defined.update({one.id: node for one in ast.walk(target) if isinstance(one, ast.Name)})
    return Module(module, defined, imported)


def _names(module: str, node: ast.ImportFrom) -> Iterator[tuple[str, tuple[str, str]]]:
    package = module.split(".") if _file(module).name == "__init__.py" else module.split(".")[:-1]
    base = package[: len(package) - node.level + 1] if node.level else []
    source = ".".join([*base, *((node.module or "").split(".") if node.module else [])])
    for one in node.names:
        inside = f"{source}.{one.name}"
        yield one.asname or one.name, (inside, "") if _in_rooms(inside) else (source, one.name)


@cache
def _dump(module: str, name: str) -> str:
    """What a definition computes: its docstring and the comments do not count."""
    node = _read(module).defined[name]
    kept = ast.parse(ast.unparse(node))
    for one in ast.walk(kept):
        body = getattr(one, "body", None)
        if isinstance(body, list):
            words = (ast.Expr, ast.Constant)
            body[:] = [each for each in body if not (isinstance(each, words[0]) and isinstance(each.value, words[1]))]
    return f"{name}: {ast.dump(kept)}"
