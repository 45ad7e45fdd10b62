"""Which tests a change is tried by."""

from __future__ import annotations

import ast
import hashlib
import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from .changes import Mutant
from .runs import ROOT, Lines, Reached, reached

ROOMS = ("calculators/models", "calculators/rules")
TESTS = ("models", "rules", "published", "sheets")
KEPT = ROOT / ".cache" / "mutants.json"
BUDGET = 5.0  # seconds of tests a change, beside those of the files that import it directly or through one step
NEAR_BUDGET = 12.0  # seconds of those


def chosen_for(mutant: Mutant, ways: dict[str, Reached]) -> dict[str, float]:
    """Return the tests that a change is tried by, with their seconds.

    For a change in a function those that run a changed line. What runs when a file is read in, such as a constant or
    a table of nothing but data, concerns each test of every test file that reads the file in. Those of test files that
    import the changed file, or what imports it, come first, the others as far as the budget goes.

    What runs behind a long loop has not been noted: where no test is known of a line, those of its function are taken.
    """
    return _chosen(mutant, ways) or _chosen(mutant._replace(lines=mutant.body), ways)


def _chosen(mutant: Mutant, ways: dict[str, Reached]) -> dict[str, float]:
    near: dict[str, float] = {}
    far: dict[str, float] = {}
    for file, way in ways.items():
        read_in = not mutant.called and any(mutant.path in lines for _, lines in way.tests.values())
        read_in |= mutant.path in way.at_import and (not mutant.called or _runs(mutant, way.at_import))
        into = near if steps(file, mutant.path) <= 2 else far
        into.update({test: seconds for test, (seconds, lines) in way.tests.items() if read_in or _runs(mutant, lines)})
    return _cheapest(near, NEAR_BUDGET) | _cheapest(far, BUDGET)


def nearest_first(mutant: Mutant, tests: dict[str, float]) -> Iterator[dict[str, float]]:
    """Give the tests in lots: few test files are soon read in, and those that import the changed file know it best."""
    lots: dict[int, dict[str, float]] = {}
    for test, seconds in tests.items():
        lots.setdefault(steps(test.split("::")[0], mutant.path), {})[test] = seconds
    for _, lot in sorted(lots.items()):
        yield lot


def runs_when_read_in(mutant: Mutant, ways: dict[str, Reached]) -> bool:
    """Tell whether a changed line is run while any test file is read in."""
    return not mutant.called or any(_runs(mutant, way.at_import) for way in ways.values())


def _runs(mutant: Mutant, lines: Lines) -> bool:
    first, last = mutant.lines
    return any(first <= line <= last for line in lines.get(mutant.path, ()))


def _cheapest(tests: dict[str, float], budget: float) -> dict[str, float]:
    chosen: dict[str, float] = {}
    for test, seconds in sorted(tests.items(), key=lambda pair: pair[1]):
        budget -= seconds
        if chosen and budget < 0:
            break
        chosen[test] = seconds
    return chosen


@cache
def steps(file: str, path: str) -> int:
    """Return how many imports lead from a test file to a file: 1, 2, or 3 for more."""
    direct = _imported(file)
    if path in direct:
        return 1
    return 2 if any(path in _imported(between) for between in direct) else 3


@cache
def _imported(file: str) -> frozenset[str]:
    """Return the files of ours that a file imports, at its top or later."""
    found: set[str] = set()
    here = Path(file).parent
    for node in ast.walk(ast.parse((ROOT / file).read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found.update(path for name in node.names for path in _files(Path(*name.name.split("."))))
        elif isinstance(node, ast.ImportFrom):
            base = here.joinpath(*[".."] * (node.level - 1)) if node.level else Path()
            base = base.joinpath(*(node.module or "").split("."))
            found.update(path for name in node.names for path in (*_files(base / name.name), *_files(base)))
    return frozenset(found)


def _files(module: Path) -> list[str]:
    whole = (ROOT / module).resolve()
    every = (whole.with_suffix(".py"), whole / "__init__.py")
    return [path.relative_to(ROOT).as_posix() for path in every if path.is_file() and path.is_relative_to(ROOT)]


def what_reaches(temp: Path) -> dict[str, Reached]:
    """Return which lines each test runs: kept from the last time where it still holds."""
    kept: dict[str, Any] = json.loads(KEPT.read_text("utf-8")) if KEPT.exists() else {}
    now: dict[str, Any] = {}
    for room in TESTS:
        for file in sorted((ROOT / "tests" / room).rglob("test_*.py")):
            name = file.relative_to(ROOT).as_posix()
            one = kept.get(name)
            if not one or one["marks"] != _marks(one["marks"]):
                found = reached(name, temp, ROOMS)
                if found is None:
                    print(f"not used, takes too long: {name}", flush=True)
                one = {"marks": _marks([name, *_room_files(found)]), "found": found}
                KEPT.parent.mkdir(exist_ok=True)
                KEPT.write_text(json.dumps({**kept, **now, name: one}), "utf-8")
            now[name] = one
    KEPT.write_text(json.dumps(now), "utf-8")
    return {name: Reached(*one["found"]) for name, one in now.items() if one["found"]}


def _room_files(found: Reached | None) -> set[str]:
    """Return every file of the rooms that a test file runs."""
    every = (found.at_import, *(lines for _, lines in found.tests.values())) if found else ()
    return {path for lines in every for path in lines}


def _marks(names: Any) -> dict[str, str]:
    return {name: _mark(name) for name in names}


@cache
def _mark(name: str) -> str:
    """Return what changes with a test file, and of a file of the rooms with the lines that its parts stand in."""
    path = ROOT / name
    if not path.exists():
        return ""
    text = path.read_text("utf-8")
    if not name.startswith("tests/"):
        text = " ".join(f"{type(n).__name__}{getattr(n, 'lineno', '')}" for n in ast.walk(ast.parse(text)))
    return hashlib.sha256(text.encode()).hexdigest()[:16]
