"""`python -m tests.mutants`: change the trade's formulas and rules one spot at a time, and list what no test sees."""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import numpy  # noqa: F401 - these are here so that no child has to import them
import scipy.optimize
import scipy.stats  # noqa: F401
import statsmodels.stats.proportion  # noqa: F401

import site_src.server  # noqa: F401

from .changes import Mutant, mutants
from .choosing import ROOMS, chosen_for, nearest_first, runs_when_read_in, what_reaches
from .explained import explained, of_nothing
from .runs import ROOT, Reached, Trial, seen, seen_at_once


def main() -> int:
    ask = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    ask.add_argument("--most", type=int, default=150, help="how many changes to draw (150); 0 for all there are")
    ask.add_argument("--seed", type=int, default=1, help="which draw (1)")
    ask.add_argument("--minutes", type=float, default=10, help="stop trying after so many minutes (10)")
    ask.add_argument("only", nargs="*", help="only files whose path holds this, or path:line")
    asked = ask.parse_args()
    gone = of_nothing(ROOT)
    for one in gone:
        print(f"explained, but nothing of the kind stands there: {one.file} {one.function}: {one.old}  ->  {one.new}")
    began = time.monotonic()
    with tempfile.TemporaryDirectory(prefix="mutants-") as temp:
        ways = what_reaches(Path(temp))
        print(f"{time.monotonic() - began:.0f} s to know which test runs which line", flush=True)
        drawn = draw(asked.only, asked.most, asked.seed)
        began = time.monotonic()
        wrong = report(drawn, ways, Path(temp), began + 60 * asked.minutes)
        print(f"{time.monotonic() - began:.0f} s for the changes", flush=True)
    return 1 if gone or wrong else 0


def draw(only: list[str], most: int, seed: int) -> list[Mutant]:
    """Return the changes to try: all, or a seeded draw of them."""
    every = [m for room in ROOMS for file in sorted((ROOT / room).rglob("*.py")) for m in mutants(file, ROOT)]
    if only:
        every = [m for m in every if any(o in m.path or f"{m.path}:{m.line}".endswith(o) for o in only)]
    print(f"{len(every)} changes could be made", flush=True)
    random.Random(seed).shuffle(every)
    return every[: most or None]


def report(drawn: list[Mutant], ways: dict[str, Reached], temp: Path, until: float) -> bool:
    """Try each change; print each that nothing saw, and what was seen, a file at a time.

    Returns whether an explanation was wrong, since a test sees the change.
    """
    tried: Counter[str] = Counter()
    killed: Counter[str] = Counter()
    told: Counter[str] = Counter()
    reasons = explained()
    wrong = False
    for mutant, tests, was_seen in results(drawn, ways, temp, until):
        tried[mutant.path] += 1
        known = any(one.fits(mutant) for one in reasons)
        if was_seen:
            killed[mutant.path] += 1
            if known:
                wrong = True
                print(f"explained, and yet a test sees it: {mutant}", flush=True)
        elif known:
            told[mutant.path] += 1
        else:
            print(f"survived ({tests} tests) {mutant}", flush=True)
    if tried.total() < len(drawn):
        print(f"The time is over after {tried.total()} of {len(drawn)}", flush=True)
    for path in sorted(tried):
        print(f"{killed[path]:4} of {tried[path]:4}  {path}" + (f", {told[path]} explained" if told[path] else ""))
    share = killed.total() / max(tried.total(), 1)
    print(f"{killed.total()} of {tried.total()} changes seen by a test, {share:.0%}; {told.total()} explained")
    return wrong


def results(
    drawn: list[Mutant], ways: dict[str, Reached], temp: Path, until: float
) -> Iterator[tuple[Mutant, int, bool]]:
    """Try the changes: first those in functions, at little cost each, then the rest and what nothing has seen yet."""
    trials = {mutant: Trial(mutant.path, mutant.which, chosen_for(mutant, ways)) for mutant in drawn}
    quick = [m for m in drawn if trials[m].tests and not runs_when_read_in(m, ways)]
    slow = [m for m in drawn if m not in set(quick)]
    for mutant, was_seen in zip(quick, seen_at_once([trials[m] for m in quick], temp / "tests"), strict=True):
        if was_seen:
            yield mutant, len(trials[mutant].tests), True
        else:
            slow.append(mutant)
        if time.monotonic() > until:
            return
    for mutant in slow:
        tests = trials[mutant].tests
        lots = (trials[mutant]._replace(tests=lot) for lot in nearest_first(mutant, tests))
        yield mutant, len(tests), any(seen(lot, temp / "tests") for lot in lots)
        if time.monotonic() > until:
            return


if __name__ == "__main__":
    sys.exit(main())
