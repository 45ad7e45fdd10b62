"""The practice batch: does the good hand win? Numbers 1 to 250 tune its rules, 251 to 500 judge.

The good hand, by the clock, turn at every round, and plan only, each on the same numbers on level 4: a third of them
without a fault. The table stands in docs/training/how-far-to-trust-the-practice-batch.md.
"""

from __future__ import annotations

import argparse
import statistics
import time
from typing import NamedTuple

from calculators.practice.debrief import good_run
from calculators.practice.grain import grain_of
from calculators.practice.kinds import Grain
from calculators.practice.play import _KEPT, play
from calculators.practice.players import PLAYERS, run_on
from calculators.practice.run import TARGET, Run
from calculators.rules.limit import edge
from calculators.rules.limits import casting, readiness

TUNE, JUDGE = range(1, 251), range(251, 501)
LEAST_EVEN = 70.0
"""As ``rules.readiness`` has it: under this share in two neighbouring classes a piece is uneven [%]."""


class Outcome(NamedTuple):
    number: int
    faults: tuple[str, ...]
    ended: str
    grain: Grain
    days: float
    moves: int
    characters: int


def played(name: str, number: int) -> Outcome:
    run, steps = run_on(Run(number, 4, None, ""), PLAYERS[name])
    days = ((run.last_done("ld") or run.minute) - (run.last_done("fi") or 0)) / 1440.0
    text = "-".join(step.move for step in steps)
    return Outcome(number, run.faults, run.ended, grain_of(run), days, len(steps), len(text))


def marks(one: Outcome) -> dict[str, bool]:
    """What of a batch came out as the handbook wants it."""
    grain, loaded = one.grain, one.ended == "kiln"
    return {
        "moisture within 1 point": abs(grain.moisture - TARGET) <= edge(casting.OFF_TARGET.accept_high),
        "chit at the cast accepted": grain.chit >= edge(casting.CHIT_COUCH.accept_low),
        "ready, and not late": loaded
        and grain.ready >= edge(readiness.READY.accept_low)
        and grain.overshot < edge(readiness.OVERSHOT.accept_high),
        "even": grain.even >= LEAST_EVEN,
    }


def line(name: str, outcomes: list[Outcome]) -> str:
    found = [marks(one) for one in outcomes]
    shares = [100.0 * sum(f[key] for f in found) / len(found) for key in found[0]]
    every = 100.0 * sum(all(f.values()) for f in found) / len(found)
    off = statistics.mean(abs(one.grain.moisture - TARGET) for one in outcomes)
    even = statistics.mean(one.grain.even for one in outcomes)
    loss = statistics.mean(one.grain.loss for one in outcomes)
    never = sum(one.ended == "never" for one in outcomes)
    cells = [*(f"{share:.0f} %" for share in shares), f"{every:.0f} %", f"{off:.2f}", f"{even:.0f} %", f"{loss:.2f} %"]
    return f"| {name} | " + " | ".join(cells) + f" | {never} |"


HEAD = (
    "| Player | Moisture at the cast within 1 point | Chit at the cast accepted | Ready and not late | Even | All four "
    "| Mean miss of the moisture, points | Mean evenness | Mean loss | Ended by a never-event |\n" + "|---" * 10 + "|"
)


def report(numbers: range) -> list[str]:
    said: list[str] = []
    runs: dict[str, list[Outcome]] = {}
    for name in PLAYERS:
        began = time.process_time()
        runs[name] = [played(name, number) for number in numbers]
        said.append(f"{name}: {1000 * (time.process_time() - began) / len(numbers):.0f} ms a batch, longest run "
                    f"{max(one.characters for one in runs[name])} characters")  # fmt: skip
    faultless = {one.number for one in runs["good hand"] if not one.faults}
    for title, chosen in (
        (f"All {len(numbers)} numbers", set(numbers)),
        (f"The {len(faultless)} without a fault", faultless),
        (f"The {len(numbers) - len(faultless)} with a fault", set(numbers) - faultless),
    ):
        said += ["", title, "", HEAD]
        said += [line(name, [one for one in outcomes if one.number in chosen]) for name, outcomes in runs.items()]
    return said


def speed() -> list[str]:
    """How long a scene takes after one more tap, along a whole batch and at its end, and when nothing is kept."""
    _, steps = good_run(12, "4", "")
    texts = [step.move for step in steps]
    took, played_so_far = [], ""
    for text in texts:
        played_so_far = f"{played_so_far}-{text}" if played_so_far else text
        began = time.perf_counter()
        play(12, "4", "", played_so_far, debrief=False)
        took.append(1000 * (time.perf_counter() - began))
    _KEPT.clear()
    began = time.perf_counter()
    play(12, "4", "", played_so_far, debrief=False)
    cold = 1000 * (time.perf_counter() - began)
    last = sorted(took[-20:])
    return [
        f"a scene after a tap, {len(texts)} taps of a whole batch: median {statistics.median(took):.1f} ms, longest "
        f"{max(took):.1f} ms; the last twenty {statistics.median(last):.1f} ms; the whole batch at once {cold:.0f} ms"
    ]


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m bench.practice")
    parser.add_argument("--tune", action="store_true", help="the half that rules are tuned on")
    parser.add_argument("--few", type=int, default=0, help="only so many numbers")
    words = parser.parse_args()
    numbers = TUNE if words.tune else JUDGE
    for text in speed():
        print(text, flush=True)
    for text in report(numbers[: words.few] if words.few else numbers):
        print(text, flush=True)


if __name__ == "__main__":
    main()
