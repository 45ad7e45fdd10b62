"""`python -m tests.mutants`: change the trade's formulas and rules one spot at a time, and list what no test sees."""

from __future__ import annotations

import argparse
import hashlib
import json
import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from typing import Any

import numpy  # noqa: F401 - these are here so that no child has to import them
import scipy.optimize
import scipy.stats  # noqa: F401
import statsmodels.stats.proportion  # noqa: F401

import site_src.server  # noqa: F401

from .changes import Mutant, mutants
from .runs import ROOT, Reached, reached, seen

ROOMS = ("calculators/models", "calculators/rules")
TESTS = ("models", "rules", "published", "sheets")
KEPT = ROOT / ".cache" / "mutants.json"
BUDGET = 8.0  # seconds of tests a mutant, the shortest tests first


def main() -> int:
    ask = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    ask.add_argument("--most", type=int, default=150, help="how many changes to draw (150); 0 for all there are")
    ask.add_argument("--seed", type=int, default=1, help="which draw (1)")
    ask.add_argument("--minutes", type=float, default=10, help="stop drawing after so many minutes (10)")
    ask.add_argument("only", nargs="*", help="only files whose path holds this, or path:line")
    asked = ask.parse_args()
    began = time.monotonic()
    with tempfile.TemporaryDirectory(prefix="mutants-") as temp:
        ways = what_reaches(Path(temp))
        print(f"{time.monotonic() - began:.0f} s to know which test runs which line", flush=True)
        drawn = draw(asked.only, asked.most, asked.seed)
        return report(drawn, ways, Path(temp), began + 60 * asked.minutes)


def draw(only: list[str], most: int, seed: int) -> list[Mutant]:
    """Return the changes to try: all, or a seeded draw of them."""
    every = [m for room in ROOMS for file in sorted((ROOT / room).rglob("*.py")) for m in mutants(file, ROOT)]
    if only:
        every = [m for m in every if any(o in m.path or f"{m.path}:{m.line}".endswith(o) for o in only)]
    print(f"{len(every)} changes could be made", flush=True)
    random.Random(seed).shuffle(every)
    return every[: most or None]


def report(drawn: list[Mutant], ways: dict[str, Reached], temp: Path, until: float) -> int:
    """Try each change; print what was seen, a file at a time, and each that was not."""
    tried: Counter[str] = Counter()
    killed: Counter[str] = Counter()
    for mutant in drawn:
        if time.monotonic() > until:
            print(f"The time is over after {tried.total()} of {len(drawn)}", flush=True)
            break
        tests = tests_of(mutant, ways)
        long = sum(tests.values())
        tried[mutant.path] += 1
        if tests and seen(mutant.path, mutant.which, tests, temp / "tests", 15 + 4 * long):
            killed[mutant.path] += 1
        else:
            print(f"survived ({len(tests)} tests) {mutant}", flush=True)
    for path in sorted(tried):
        print(f"{killed[path]:4} of {tried[path]:4}  {path}")
    share = killed.total() / max(tried.total(), 1)
    print(f"{killed.total()} of {tried.total()} changes seen by a test, {share:.0%}")
    return 0


def tests_of(mutant: Mutant, ways: dict[str, Reached]) -> dict[str, float]:
    """Return the tests that run a changed line, with their seconds: the shortest, as far as the budget goes.

    A line that runs when its file is read in (a constant) concerns each test that runs anything else in the file;
    for a file of nothing but constants, each test of every test file that reads it in.
    """
    by_line: dict[str, float] = {}
    by_file: dict[str, float] = {}
    by_import: dict[str, float] = {}
    first, last = mutant.lines
    for way in ways.values():
        at_import = mutant.path in way.at_import
        for test, (seconds, lines) in way.tests.items():
            if any(first <= line <= last for line in lines.get(mutant.path, ())):
                by_line[test] = seconds
            elif mutant.path in lines:
                by_file[test] = seconds
            elif at_import:
                by_import[test] = seconds
    chosen = (by_line if mutant.called else by_line | by_file) or by_file or by_import
    left = BUDGET
    tests: dict[str, float] = {}
    for test, seconds in sorted(chosen.items(), key=lambda pair: pair[1]):
        left -= seconds
        if tests and left < 0:
            break
        tests[test] = seconds
    return tests


def what_reaches(temp: Path) -> dict[str, Reached]:
    """Return which lines each test runs: kept from the last time for test files that did not change."""
    kept: dict[str, list[Any]] = json.loads(KEPT.read_text("utf-8")) if KEPT.exists() else {}
    shared = hashlib.sha256()
    for file in [*sorted((ROOT / "calculators").rglob("*.py")), *sorted((ROOT / "tests").rglob("*.py"))]:
        if not file.name.startswith("test_") and "mutants" not in file.parts[-2:]:
            shared.update(file.read_bytes())
    ways: dict[str, Reached] = {}
    now: dict[str, list[Any]] = {}
    for room in TESTS:
        for file in sorted((ROOT / "tests" / room).rglob("test_*.py")):
            name = file.relative_to(ROOT).as_posix()
            mark = hashlib.sha256(shared.digest() + file.read_bytes()).hexdigest()
            if kept.get(name, [""])[0] != mark:
                found = reached(name, temp, ROOMS)
                if found is None:
                    print(f"not used, takes too long: {name}", flush=True)
                kept[name] = [mark, found]
                KEPT.parent.mkdir(exist_ok=True)
                KEPT.write_text(json.dumps({**kept, **now}), "utf-8")
            now[name] = kept[name]
            if kept[name][1] is not None:
                ways[name] = Reached(*kept[name][1])
    KEPT.write_text(json.dumps(now), "utf-8")
    return ways


if __name__ == "__main__":
    sys.exit(main())
