"""All runs at length: ``make fuzz``, or ``python -m tests.fuzz --hostile 10000 --agree 500``."""

from __future__ import annotations

import argparse
import re
import sys
import time

from tests.fuzz.checks import sheets
from tests.fuzz.runs import (
    Broken,
    disagreements,
    drawn_cases,
    held_after,
    hostile_inputs,
    near_misses,
    random_inputs,
)


def main() -> int:
    """Run; print counts; return the exit code."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz")
    parser.add_argument("sheets", nargs="*", help="all, when none is named")
    parser.add_argument("--least", type=int, default=200, help="random inputs a sheet at least")
    parser.add_argument("--most", type=int, default=10_000, help="and at most")
    parser.add_argument("--seconds", type=float, default=30, help="of processor, a sheet; then the least is enough")
    parser.add_argument("--two", type=int, default=1000, help="draws a sheet of two slips in its worked case")
    parser.add_argument("--hostile", type=int, default=10_000, help="hostile inputs over all sheets")
    parser.add_argument("--agree", type=int, default=500, help="inputs a sheet asked of both Pythons")
    parser.add_argument("--seed", default="1")
    words = parser.parse_args()
    names = words.sheets or sheets()
    inputs, start = 0, time.process_time()
    broken: list[Broken] = []
    for name in names:
        began = time.process_time()
        ends = random_inputs(name, words.least, words.most, words.seconds, words.seed, broken)
        near = near_misses(name, words.least, words.two, words.seconds, words.seed, broken)
        inputs += ends.total() + near.total()
        each = 1000 * (time.process_time() - began) / max(1, ends.total() + near.total())
        print(f"{name:20}{ends.total():>7} inputs: {_listed(ends)}")
        print(f"{'':20}{near.total():>7} near misses: {_listed(near)}; {each:.2f} ms each", flush=True)
    print(
        f"{inputs} inputs in {time.process_time() - start:.0f} s of processor: {len(broken)} with a figure that cannot "
        "be, or a message beside no question or in no words of ours",
        flush=True,
    )
    kinds = {re.sub(r"[\d.,-]+", "#", str(one))[:90]: one for one in broken}
    for one in kinds.values():
        print(f"BROKEN {one}"[:1500], flush=True)
    if words.hostile:
        states = hostile_inputs(names, words.hostile, words.seed)
        print(f"{states.total()} hostile inputs: {_listed(states)}; only elements of sheets came out", flush=True)
    differ = cases = 0
    for name in names if words.agree else ():
        drawn = drawn_cases([name], words.agree, words.seed)
        cases += len(drawn)
        for number, line in enumerate(disagreements(drawn)):
            differ += 1
            if number < 3:
                print(f"DIFFERENT {line}"[:1500], flush=True)
    before, after = held_after("steep-timing", 1000)
    print(
        f"1000 answers in a row in the browser's Python: {after[0] - before[0]:+} objects of {before[0]}, "
        f"{(after[1] - before[1]) / 1e6:+.1f} MB of {before[1] / 1e6:.1f}"
    )
    if words.agree:
        print(f"{cases} inputs in both Pythons: {differ} differ")
    return 1 if differ or broken else 0


def _listed(counts: dict[str, int]) -> str:
    return ", ".join(f"{count} {word}" for word, count in sorted(counts.items()))


if __name__ == "__main__":
    sys.exit(main())
