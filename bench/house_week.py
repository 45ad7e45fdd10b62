"""How often the plan of a week is the best there is, by how much it misses, and how long it takes.

``python -m bench.house_week`` draws two hundred houses by number and has CP-SAT of OR-Tools find the best plan of each
by the same aims. ``--houses 40 --looks 1500`` draws fewer, and looks more often; ``--again`` takes weeks that run
already.
"""

from __future__ import annotations

import argparse
from time import perf_counter

from calculators.rules.week.house import Cost
from calculators.rules.week.judge import broken
from calculators.rules.week.search import search
from tests.rules.week_other import by_cp_sat, drawn_again, drawn_house

SECONDS = 30.0


def main() -> None:
    """Draw, plan, compare, and print a line for each house that is missed, then the sums."""
    read = argparse.ArgumentParser()
    read.add_argument("--houses", type=int, default=200)
    read.add_argument("--first", type=int, default=0)
    read.add_argument("--again", action="store_true", help="weeks that run already, one batch a day late")
    read.add_argument("--looks", type=int, help="so often a batch is looked at; else as the sheet does")
    asked = read.parse_args()
    best = proved = unsure = none = more_hands = 0
    worst: tuple[int, Cost, Cost] | None = None
    took: list[float] = []
    others = 0.0
    gaps: list[int] = []
    for seed in range(asked.first, asked.first + asked.houses):
        drawn = drawn_again(seed) if asked.again else (*drawn_house(seed), None)
        if drawn is None:
            none += 1
            continue
        house, batches, running = drawn
        begun = perf_counter()
        found = search(house, batches, running, looks=asked.looks)
        took.append(perf_counter() - begun)
        begun = perf_counter()
        least, sure = by_cp_sat(house, batches, running, seconds=SECONDS)
        others += perf_counter() - begun
        proved += found.proved
        unsure += not sure
        if found.plan is None or least is None:
            best += found.plan is None and least is None
            if (found.plan is None) != (least is None):
                print(f"house {seed}: {'no plan' if found.plan is None else 'a plan'}, the other {least}")
            continue
        assert broken(house, batches, found.plan) == []
        assert not sure or found.least <= least, "what was said to be unbeatable was beaten"
        if found.cost <= least:
            best += 1
            continue
        gap = found.cost.late - least.late
        gaps.append(gap)
        more_hands += found.cost.hands > least.hands
        print(f"house {seed}, {len(batches)} batches: {tuple(found.cost)} for {tuple(least)}")
        more = found.cost.hands - least.hands, gap
        if worst is None or more > (worst[1].hands - worst[2].hands, worst[1].late - worst[2].late):
            worst = seed, found.cost, least
    took.sort()
    print(
        f"{asked.houses - none} houses at {asked.looks or 'the usual'} looks: best {best}, proved {proved}, "
        f"the other not sure of {unsure}"
    )
    if worst:
        print(f"worst: house {worst[0]}, {tuple(worst[1])} for {tuple(worst[2])} (hands, late, watched, changed)")
        print(f"missed by hours of lateness: {sorted(gaps)}; by hands called in: {more_hands}")
    print(
        f"middle {took[len(took) // 2]:.2f} s, longest {took[-1]:.2f} s; "
        f"the other solver {others / asked.houses:.2f} s each"
    )


if __name__ == "__main__":
    main()
