"""What a count of acrospires decides, and how long still to wait."""

from __future__ import annotations

from .counted import LOOK_AGAIN_REMARK, Count
from .declare import Found, Note
from .figures import fixed, plain_number
from .models import acrospire

Lengths = tuple[float, ...]


def decide(ready: Count, overshot: Count, rubbed: Count | None, target: float, limit: float) -> tuple[str, str]:
    """The word of the verdict and the intervals that decided it.

    Overshot comes first, since waiting only makes it worse. Corns that rub hard say wait, however long the
    acrospires are.
    """
    at, over = ready.side(target), overshot.side(limit)
    reason = (
        f"ready {_range(ready)} against {plain_number(target)} %; "
        f"overshot {_range(overshot)} against {plain_number(limit)} %"
    )
    if rubbed:
        reason += f"; dry flour {_range(rubbed)}"
    if over == "above":
        return "overshot", reason
    if at == "below" or (rubbed and rubbed.side(target) == "below"):
        return "wait", reason
    if at == "above" and over == "below":
        return "meets-target", reason
    return "undecided", reason


def _range(count: Count) -> str:
    return " to ".join(fixed(100.0 * end, 1) for end in count.interval) + " %"


_STEP = 10
_MANY = 300
UNEVEN = 70.0  # % in two neighbouring classes; a convention of this handbook


def count_more(ready: Count, overshot: Count, target: float, limit: float, notes: list[Note]) -> list[Found]:
    """How many more corns would decide what is open."""
    needs = []
    for count, against in ((ready, target), (overshot, limit)):
        if count.side(against) == "open":
            needs.append((count, against, count.more_needed(against, _STEP)))
    notes.append(Note("remark", LOOK_AGAIN_REMARK))
    most = max(needs, key=lambda need: need[2] or 10**9)
    count, against, more = most
    if more is None or more > _MANY:
        notes.append(
            Note(
                "remark",
                f"“{count.label}” lies so near {plain_number(against)} % that the piece will have grown on before "
                "so many are counted. Take it as being at the limit: let rub and smell decide, or count again in "
                "some hours.",
            )
        )
    if more is None:
        return []
    total = count.corns + more
    return [
        Found(
            "count_more",
            more,
            f"{count.label}: if the share stays at {fixed(100 * count.share, 1)} %, the interval leaves "
            f"{plain_number(against)} % at about {total} corns in all; {total} − {count.corns} = {more}",
        )
    ]


def hours_to_wait(days: list[Lengths], hours: float, target: float, limit: float, notes: list[Note]) -> list[Found]:
    """The hours by the trend, as far as a trend is given and shows growth."""
    today = days[0]
    grown = acrospire.growth_needed(counts=today, target=target / 100.0)
    if len(days) == 1:
        notes.append(
            Note("remark", "Count again tomorrow at the same hour. With two days’ counts the sheet gives hours.")
        )
        return []
    if grown == 0:
        return []
    back = len(days) - 1
    rate = acrospire.growth_rate(today=today, before=days[back], hours=hours * back)
    told = f"{fixed(rate.value, 2)} of a corn a day ({fixed(rate.low, 2)} to {fixed(rate.high, 2)})"
    if rate.low <= 0.0:
        notes.append(
            Note(
                "notice",
                f"The counts show no sure growth: {told}. Too cold, too dry or short of air? "
                "See the bed before you reckon with hours.",
            )
        )
        return []
    later = 100.0 * acrospire.ready_after(counts=today, grown=grown)[1]
    if later > limit:
        notes.append(
            Note(
                "remark",
                f"Did all corns grow alike, about {fixed(later, 0)} % would be overshot by then: count again before.",
            )
        )
    if acrospire.evenness(counts=today) < UNEVEN:
        notes.append(Note("remark", "The piece is uneven. Find out why: uneven steeping, cold corners, dry patches."))
    best, soonest, latest = (24.0 * grown / speed for speed in (rate.value, rate.high, rate.low))
    return [
        Found(
            "wait_hours",
            best,
            f"still to grow {fixed(grown, 2)} of a corn, until {plain_number(target)} % have three quarters; "
            f"growth {told}; {fixed(grown, 2)} / {fixed(rate.value, 2)} × 24 h = {fixed(best, 0)} h",
            soonest,
            latest,
        )
    ]
