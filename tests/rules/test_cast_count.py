"""Whether a count of chits settles the cast: from the corns that are needed on, and not before."""

from __future__ import annotations

from calculators.models.counts.enough import corns_to_decide
from calculators.rules.cast import Seen, decide

WANTED = 70.0


def settled(chitted: int, counted: int) -> bool:
    seen = Seen(44.0, 44.0, chitted, counted, "drum", "fresh", 14.0, 6.0, WANTED, WANTED)
    return decide(seen).settled


def test_a_count_of_just_as_many_as_are_needed_settles_it() -> None:
    just, one_short = set(), set()
    for counted in range(20, 121):
        for chitted in range(counted):
            needed = corns_to_decide(share=chitted / counted, limit=WANTED / 100.0)
            if needed is None:
                continue
            if needed == counted:
                just.add(settled(chitted, counted))
            elif needed == counted + 1:
                one_short.add(settled(chitted, counted))
    assert just == {True} and one_short == {False}
