"""How the verdict on a germination test is said."""

from __future__ import annotations

from typing import NamedTuple

from ..asking.declare import Found, Note
from ..asking.figures import fixed, plain_number
from ..rules.counting import DISHES
from ..rules.germination import Edges, Tally, Verdict, decide
from ..rules.limit import judge_interval
from ..rules.limits.germination_test import CAPACITY, ENERGY
from ..rules.lines import passed
from .counted import LOOK_AGAIN_REMARK, Agreement, Count
from .limits import limit_notes, taken


class Tests(NamedTuple):
    """The counts of one test: in 4 ml, in 8 ml, and of the corns that live."""

    energy: Count
    wet: Count | None
    capacity: Count | None


def judged(tests: Tests, agreed: dict[str, Agreement], edges: Edges, notes: list[Note]) -> list[Found]:
    """The verdict with its reason, and how many more to count where that would settle it."""
    capacity = _tally(tests.capacity, agreed) if tests.capacity else None
    verdict = decide(_tally(tests.energy, agreed), capacity, edges)
    counts = {"energy": tests.energy, "capacity": tests.capacity}
    said = _against(tests, edges)
    count = counts.get(verdict.test or "")
    if verdict.because == "dishes-differ":
        assert count is not None
        notes.append(Note("notice", _disagree(count, agreed[count.label])))
        said = f"the rows of “{count.label}” do not agree"
    elif verdict.because == "capacity-below-energy":
        notes.append(
            Note(
                "notice",
                "Capacity came out below energy. A corn that grows is alive, so one test is wrong: repeat both.",
            )
        )
    elif verdict.because == "capacity-not-tested":
        notes.append(Note("notice", _NO_CAPACITY))
        said = _energy_against(tests, edges)
    if not verdict.shows_capacity:
        notes.append(Note("remark", _not_shown(edges.capacity, tests.capacity)))
    if verdict.word in ("meets-limit", "grey-band"):
        notes[:0] = _loosened(tests)
    found = [Found("verdict", verdict.word, said)]
    if verdict.because == "open":
        assert count is not None
        found += _more(count, verdict, notes)
    return found


def _loosened(tests: Tests) -> list[Note]:
    """The stops of the table that the reader's own limits let pass."""
    lines = [
        passed(limit, 100.0 * count.interval.high)
        for limit, count in ((ENERGY, tests.energy), (CAPACITY, tests.capacity))
        if count and judge_interval(limit, *(100.0 * end for end in count.interval)) == "stop"
    ]
    return list(limit_notes(lines))


def _tally(count: Count, agreed: dict[str, Agreement]) -> Tally:
    return Tally(count.shown, count.corns, count.corns // len(count.rows), agreed[count.label].holds)


_NO_CAPACITY = (
    "Energy is under its limit, and more corns would not change that. Test the capacity: it tells sleeping corns "
    "from dead ones. Sleeping barley is rested, dead barley is not malted."
)


def _energy_against(tests: Tests, edges: Edges) -> str:
    return f"energy {_range(tests.energy)} against {taken(edges.energy, ENERGY, 'accept_low')}"


def _against(tests: Tests, edges: Edges) -> str:
    said = _energy_against(tests, edges)
    if tests.capacity:
        said += (
            f"; capacity {_range(tests.capacity)} against "
            f"{taken(edges.never_under, CAPACITY, 'stop_low')} and {taken(edges.capacity, CAPACITY, 'accept_low')}"
        )
    return said


def _range(count: Count) -> str:
    return " to ".join(fixed(100.0 * end, 1) for end in count.interval) + " %"


def _not_shown(wanted: float, capacity: Count | None) -> str:
    begun = "No capacity was tested" if capacity is None else "This count leaves the capacity open"
    least = taken(wanted, CAPACITY, "accept_low")
    return f"{begun}: {least} is the published minimum at intake, and energy alone does not show it."


def _disagree(count: Count, one: Agreement) -> str:
    return (
        f"{count.label}: the best and the worst row differ by {one.widest}, and by chance they seldom differ by more "
        f"than {one.allowed}. Something else differed: water, warmth, mould, or how the corns were picked. "
        "Repeat the test on a fresh sample."
    )


def _more(count: Count, verdict: Verdict, notes: list[Note]) -> list[Found]:
    limit = plain_number(verdict.against or 0.0)
    if verdict.more is None:
        notes.append(
            Note(
                "remark",
                f"{count.label} lies so near {limit} % that even {DISHES.in_half_an_hour} corns more, as many as a "
                "whole test has, would not decide. Treat it as being at the limit.",
            )
        )
        return []
    notes.append(Note("remark", LOOK_AGAIN_REMARK))
    step = count.corns // len(count.rows)
    total = count.corns + verdict.more
    return [
        Found(
            "count_more",
            float(verdict.more),
            f"{count.label}: if the share stays at {fixed(100 * count.share, 1)} %, the interval leaves "
            f"{limit} % at about {total} corns in all, in whole lots of {step}; {total} − {count.corns} = "
            f"{verdict.more}",
        )
    ]
