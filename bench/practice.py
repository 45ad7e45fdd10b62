"""The practice batch: does the good hand win? Numbers 1 to 250 tune its rules, 251 to 500 judge.

The good hand, by the clock, turn at every round, and plan only, each on the same numbers on level 4: a third of them
without a fault. A batch that hardly grew is even and has lost little, so evenness and loss are compared among batches
that all went to the kiln by the same count; there the good hand also plays one that turns at every round. The tables
stand in docs/training/how-far-to-trust-the-practice-batch.md.
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from calculators.practice.debrief import good_run
from calculators.practice.grain import grain_of
from calculators.practice.kinds import Grain
from calculators.practice.looking import MINUTES
from calculators.practice.offers import TAKES
from calculators.practice.play import _KEPT, play
from calculators.practice.players import BY_COUNT, PLAYERS, Player, run_on
from calculators.practice.run import CASTS, Run
from calculators.practice.setting import TARGET
from calculators.rules.limit import edge
from calculators.rules.limits import casting, kiln_hand_over, readiness

TUNE, JUDGE = range(1, 251), range(251, 501)


class Outcome(NamedTuple):
    number: int
    faults: tuple[str, ...]
    ended: str
    grain: Grain
    work_h: float
    moves: int
    characters: int


def played(player: Player, number: int) -> Outcome:
    run, steps = run_on(Run(number, 4, None, ""), player)
    cast = run.last_done(*CASTS) or 0
    hands = [code for minute, code, _, _ in run.done if minute > cast and code != "ho"]
    work_h = sum(TAKES.get(code, MINUTES.get(code, 0)) for code in hands) / 60.0
    text = "-".join(step.move for step in steps)
    return Outcome(number, run.faults, run.ended, grain_of(run), work_h, len(steps), len(text))


def marks(one: Outcome) -> dict[str, bool]:
    """What of a batch came out as the handbook wants it."""
    grain, loaded = one.grain, one.ended == "kiln"
    return {
        "moisture within 1 point": abs(grain.moisture - TARGET) <= edge(casting.OFF_TARGET.accept_high),
        "chit at the cast accepted": grain.chit >= edge(casting.CHIT_COUCH.accept_low),
        "ready, and not late": loaded
        and grain.ready >= edge(readiness.READY.accept_low)
        and grain.overshot < edge(readiness.OVERSHOT.accept_high),
    }


HEAD = (
    "| Player | Moisture at the cast within 1 point | Chit at the cast accepted | Ready and not late | All three "
    "| Mean miss of the moisture, points | Ended by a never-event |\n" + "|---" * 7 + "|"
)
BED_HEAD = (
    "| To the kiln by the same count | Even, two classes | Dry matter lost | Moisture at the kiln "
    "| Drier there than accepted | Ready and not late | Turnings | Hours from cast to kiln "
    "| Hours of work on the floor |\n" + "|---" * 9 + "|"
)


def steep_line(name: str, outcomes: list[Outcome]) -> str:
    found = [marks(one) for one in outcomes]
    shares = [100.0 * sum(f[key] for f in found) / len(found) for key in found[0]]
    every = 100.0 * sum(all(f.values()) for f in found) / len(found)
    off = statistics.mean(abs(one.grain.moisture - TARGET) for one in outcomes)
    never = sum(one.ended == "never" for one in outcomes)
    return (
        f"| {name} | "
        + " | ".join([*(f"{share:.0f} %" for share in shares), f"{every:.0f} %", f"{off:.2f}", str(never)])
        + " |"
    )


def bed_line(name: str, outcomes: list[Outcome]) -> str:
    def mean(figure: Callable[[Outcome], float]) -> float:
        return statistics.mean(figure(one) for one in outcomes)

    def within(figure: Callable[[Outcome], float]) -> str:
        low, _, high = statistics.quantiles([figure(one) for one in outcomes], n=4)
        return f"{low:.1f} to {high:.1f}"

    dry = mean(lambda one: 100.0 * (one.grain.at_kiln < edge(kiln_hand_over.MOISTURE.accept_low)))
    good = mean(lambda one: 100.0 * marks(one)["ready, and not late"])
    cells = [
        f"{mean(lambda one: one.grain.even):.1f} % ({within(lambda one: one.grain.even)})",
        f"{mean(lambda one: one.grain.loss):.2f} % ({within(lambda one: one.grain.loss)})",
        f"{mean(lambda one: one.grain.at_kiln):.1f} %",
        f"{dry:.0f} %",
        f"{good:.0f} %",
        f"{mean(lambda one: one.grain.turned):.1f}",
        f"{mean(lambda one: one.grain.bed_h):.0f}",
        f"{mean(lambda one: one.work_h):.1f}",
    ]
    return f"| {name} | " + " | ".join(cells) + " |"


def paired(runs: dict[str, list[Outcome]], chosen: set[int]) -> list[str]:
    """On how many of the same numbers the good hand was the more even, and lost the less."""
    good = {one.number: one.grain for one in runs["good hand"] if one.number in chosen}
    said = []
    for name, outcomes in runs.items():
        if name == "good hand":
            continue
        others = [(good[one.number], one.grain) for one in outcomes if one.number in good]
        even = 100.0 * sum(mine.even > theirs.even for mine, theirs in others) / len(others)
        loss = 100.0 * sum(mine.loss < theirs.loss for mine, theirs in others) / len(others)
        said.append(f"against {name}: more even on {even:.0f} % of the numbers, lost less on {loss:.0f} %")
    return said


def report(
    numbers: Sequence[int], players: dict[str, Player], head: str, line: Callable[[str, list[Outcome]], str]
) -> list[str]:
    said: list[str] = []
    runs: dict[str, list[Outcome]] = {}
    for name, player in players.items():
        began = time.process_time()
        runs[name] = [played(player, number) for number in numbers]
        said.append(f"{name}: {1000 * (time.process_time() - began) / len(numbers):.0f} ms a batch, longest run "
                    f"{max(one.characters for one in runs[name])} characters, not loaded "
                    f"{sum(one.ended != 'kiln' for one in runs[name])}")  # fmt: skip
    faultless = {one.number for one in runs["good hand"] if not one.faults}
    for title, chosen in (
        (f"All {len(numbers)} numbers", set(numbers)),
        (f"The {len(faultless)} without a fault", faultless),
        (f"The {len(numbers) - len(faultless)} with a fault", set(numbers) - faultless),
    ):
        said += ["", title, "", head]
        said += [line(name, [one for one in outcomes if one.number in chosen]) for name, outcomes in runs.items()]
        said += ["", *paired(runs, chosen)] if line is bed_line else []
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


def tables(numbers: Sequence[int]) -> Iterator[str]:
    """Both tables: all by their own hours, and all to the kiln by the same count."""
    yield from report(numbers, PLAYERS, HEAD, steep_line)
    yield from report(numbers, BY_COUNT, BED_HEAD, bed_line)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m bench.practice")
    parser.add_argument("--tune", action="store_true", help="the half that rules are tuned on")
    parser.add_argument("--few", type=int, default=0, help="only so many numbers")
    words = parser.parse_args()
    numbers = TUNE if words.tune else JUDGE
    for text in speed():
        print(text, flush=True)
    chosen = numbers[: words.few] if words.few else numbers
    for text in tables(chosen):
        print(text, flush=True)


if __name__ == "__main__":
    main()
