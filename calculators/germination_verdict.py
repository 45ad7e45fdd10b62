"""What a germination test decides, by intervals held against limits."""

from __future__ import annotations

from typing import NamedTuple

from .counted import LOOK_AGAIN_REMARK, Agreement, Count
from .declare import Found, Note
from .figures import fixed, plain_number


class Tests(NamedTuple):
    """The counts of one test: in 4 ml, in 8 ml, and of the corns that live."""

    energy: Count
    wet: Count | None
    capacity: Count | None


def decide(
    tests: Tests, agreed: dict[str, Agreement], limits: tuple[float, float, float], notes: list[Note]
) -> list[Found]:
    """The verdict with its reason, and how many more to count where that would settle it."""
    limit, reject, wanted = limits
    energy, capacity = tests.energy, tests.capacity
    at = energy.side(limit)
    said = f"energy {_range(energy)} against {plain_number(limit)} %"
    for count in (energy, capacity):
        if count and not agreed[count.label].holds:
            notes.append(Note("notice", _disagree(count, agreed[count.label])))
            return [Found("verdict", "undecided", f"the rows of “{count.label}” do not agree")]
    if capacity:
        said += f"; capacity {_range(capacity)} against {plain_number(reject)} and {plain_number(wanted)} %"
        if capacity.interval.high < energy.interval.low:
            notes.append(
                Note(
                    "notice",
                    "Capacity came out below energy. A corn that grows is alive, so one test is wrong: repeat both.",
                )
            )
            return [Found("verdict", "undecided", said)]
        if capacity.side(reject) == "below":
            return [Found("verdict", "capacity-low", said)]
    grey = capacity is not None and capacity.side(wanted) == "below"
    if at == "above":
        if capacity is None or capacity.side(wanted) == "open":
            notes.append(Note("remark", _not_shown(wanted, capacity)))
        return [Found("verdict", "grey-band" if grey else "meets-limit", said)]
    if at == "below":
        if capacity is None:
            notes.append(Note("notice", _NO_CAPACITY))
            return [Found("verdict", "undecided", said)]
        if capacity.side(reject) == "above":
            return [Found("verdict", "grey-band" if grey else "dormant", said)]
        return [Found("verdict", "undecided", said), *_more(capacity, reject, notes)]
    return [Found("verdict", "undecided", said), *_more(energy, limit, notes)]


_NO_CAPACITY = (
    "Energy is under its limit, and more corns would not change that. Test the capacity: it tells sleeping corns "
    "from dead ones. Sleeping barley is rested, dead barley is not malted."
)


def _range(count: Count) -> str:
    return " to ".join(fixed(100.0 * end, 1) for end in count.interval) + " %"


def _not_shown(wanted: float, capacity: Count | None) -> str:
    begun = "No capacity was tested" if capacity is None else "This count leaves the capacity open"
    return f"{begun}: {plain_number(wanted)} % is the published minimum at intake, and energy alone does not show it."


def _disagree(count: Count, one: Agreement) -> str:
    return (
        f"{count.label}: the best and the worst row differ by {one.widest}, and by chance they seldom differ by more "
        f"than {one.allowed}. Something else differed: water, warmth, mould, or how the corns were picked. "
        "Repeat the test on a fresh sample."
    )


def _more(count: Count, limit: float, notes: list[Note]) -> list[Found]:
    step = count.corns // len(count.rows)
    more = count.more_needed(limit, step)
    notes.append(Note("remark", LOOK_AGAIN_REMARK))
    if more is None:
        notes.append(
            Note(
                "remark",
                f"{count.label} lies so near {plain_number(limit)} % that even 20,000 corns would not decide. "
                "Treat it as being at the limit.",
            )
        )
        return []
    total = count.corns + more
    return [
        Found(
            "count_more",
            more,
            f"{count.label}: if the share stays at {fixed(100 * count.share, 1)} %, the interval leaves "
            f"{plain_number(limit)} % at about {total} corns in all; {total} − {count.corns} = {more}, "
            f"in whole lots of {step}",
        )
    ]
