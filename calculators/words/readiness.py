"""How the verdict on a piece is said: the points that decided, the hours, and what else to do."""

from __future__ import annotations

from ..asking.declare import Found, Note
from ..asking.figures import carried, fixed, plain_number
from ..models.counts import acrospire
from ..models.counts.distributions import SURE_SD
from ..rules.limits import readiness as limits
from ..rules.lines import passed
from ..rules.readiness import (
    DAY_BREATHED,
    DAY_OF_THE_PLACE,
    HUNDRED_COUNTED,
    LEAST_WAIT_H,
    MOST_WAIT_H,
    OVERSHOT,
    RUB_AGAIN_H,
    SHORT,
    UNEVEN_UNDER,
    Growth,
    Seen,
    Verdict,
    Wait,
)
from .counted import LOOK_AGAIN_REMARK, Count
from .limits import limit_notes, taken

A_DAY = DAY_BREATHED.points + DAY_OF_THE_PLACE.points
COSTS = (
    f"each corn of a hundred short of the target {plain_number(SHORT.points)} point, each overshot beyond the limit "
    f"{plain_number(OVERSHOT.points)}, a day’s wait {plain_number(A_DAY)}, a hundred corns counted "
    f"{plain_number(HUNDRED_COUNTED.points)}"
)
"""What the rule weighs, for the line under an answer."""


def found_of(verdict: Verdict, seen: Seen) -> list[Found]:
    """The verdict with its numbers: the points of both roads, and the hours or the corns it asks for."""
    found = [
        Found("verdict", verdict.word, _reason(verdict, seen), next=_NEXT.get(verdict.word, "")),
        Found("kiln_points", verdict.kiln.total, _kiln(verdict, seen)),
        Found("waiting_points", verdict.waiting.total, _waiting(verdict)),
    ]
    if verdict.wait and not is_early(verdict):
        found.append(_hours(verdict, seen))
    if verdict.more:
        costs = HUNDRED_COUNTED.points * verdict.more / 100.0
        found.append(
            Found(
                "count_more",
                float(verdict.more),
                f"{verdict.more} more are likely to save {fixed(verdict.saved, 1)} points, by turning the decision "
                f"where it is wrong, and cost {fixed(costs, 2)}; of 50, 100, 150 and 200 more it saves most",
            )
        )
    return found


def is_early(verdict: Verdict) -> bool:
    """Whether the wait is longer than hours can be said for: much can come before."""
    return verdict.wait is not None and verdict.wait.hours > MOST_WAIT_H


_NEXT = {
    "wait": "Then count, rub and smell again: [[page:procedures/readiness|is it ready?]].",
    "count-more": "Then type old and new corns together: [[page:procedures/readiness|is it ready?]].",
    "late": "Tell the shift lead at once: [[page:procedures/kiln-hand-over|the hand-over at the kiln]].",
}
"""What to do next, where it is not to split, rub and smell before the load."""


def _reason(verdict: Verdict, seen: Seen) -> str:
    most = taken(seen.overshot_limit, limits.OVERSHOT, "stop_high")
    over = f"chance of more than {most} overshot: {fixed(100 * verdict.late, 0)} %"
    if verdict.word == "late":
        return over
    if verdict.because == "rub":
        return f"the corns rub hard, however long the acrospires are; {over}"
    reason = (
        f"{fixed(verdict.kiln.total, 1)} points to the kiln now, against {fixed(verdict.waiting.total, 1)} for a wait "
        f"of {fixed(verdict.after_h, 0)} h; {over}"
    )
    if verdict.because == "short":
        target = taken(seen.target, limits.READY, "accept_low")
        reason += f"; but the share counted is under the target of {target}, so it is not loaded"
    if verdict.more:
        reason += f"; near enough that {verdict.more} more corns pay"
    return reason


def _kiln(verdict: Verdict, seen: Seen) -> str:
    points = verdict.kiln
    said = (
        f"for corns short of {plain_number(seen.target)} % at three quarters, and for overshot beyond "
        f"{plain_number(seen.overshot_limit)} %: {fixed(points.short, 2)} + {fixed(points.overshot, 2)} = "
        f"{fixed(points.total, 2)} points, means over all that {fixed(sum(verdict.weights), 0)} "
        f"corns leave open"
    )
    if verdict.before and verdict.before.corns >= 1.0:
        said += (
            f", and the days before, moved on by their growth, say {fixed(100 * verdict.before.share, 0)} % at three "
            f"quarters and count for {fixed(verdict.before.corns, 0)} of these corns"
        )
    return said


def _waiting(verdict: Verdict) -> str:
    points = verdict.waiting
    return (
        f"after {fixed(verdict.after_h, 0)} h: {fixed(points.short, 2)} for corns still short + "
        f"{fixed(points.overshot, 2)} for overshot by then + {fixed(points.time, 2)} for the time + "
        f"{fixed(points.another, 2)} for another count = {fixed(points.total, 2)} points, growth "
        f"{_growth(verdict.growth)}"
    )


def _growth(growth: Growth) -> str:
    told = f"{fixed(growth.value, 2)} of a corn a day, give or take {fixed(SURE_SD * growth.sd, 2)}"
    counted = growth.counted
    if counted is None:
        return f"{told} (typical: no day before was counted)"
    if not growth.sure:
        return f"{told} (typical: the counts themselves show no sure growth)"
    return f"{told} (counted {fixed(counted.value, 2)}, held towards the typical {fixed(acrospire.TYPICAL_GROWTH, 2)})"


def _hours(verdict: Verdict, seen: Seen) -> Found:
    wait = verdict.wait
    assert wait is not None
    if verdict.because == "rub":
        said = f"rub and count again after {plain_number(RUB_AGAIN_H)} h at the earliest"
    elif wait.low == wait.high:
        return _count_again(verdict, seen, wait)
    else:
        reckoned = 24.0 * wait.grown / verdict.growth.value
        said = f"{carried(wait.grown, 3)} / {carried(verdict.growth.value, 3)} × 24 h = {fixed(reckoned, 0)} h"
        if reckoned < LEAST_WAIT_H:
            said += f"; not less than {plain_number(LEAST_WAIT_H)} h, in which a new count tells a change"
    return Found(
        "wait_hours",
        wait.hours,
        f"still to grow {fixed(wait.grown, 2)} of a corn, until {plain_number(seen.target)} % have three quarters; "
        f"growth {_growth(verdict.growth)}; {said}",
        wait.low,
        wait.high,
        next="Count again tomorrow, and each day." if wait.low > 24.0 else "",
    )


def _count_again(verdict: Verdict, seen: Seen, wait: Wait) -> Found:
    """The hours to the next count, where a wait until the target is there is not the cheapest or spoils too many."""
    return Found(
        "wait_hours",
        wait.hours,
        f"count again after {fixed(wait.hours, 0)} h: of the waits that were weighed it costs least; until "
        f"{plain_number(seen.target)} % have three quarters {fixed(wait.grown, 2)} of a corn is still to grow, in "
        f"about {fixed(24.0 * wait.grown / verdict.growth.value, 0)} h; growth {_growth(verdict.growth)}",
        next="Count again then, or before.",
    )


def notes_of(verdict: Verdict, seen: Seen, rubbed: Count | None) -> list[Note]:
    """What else to know and to do, by the verdict."""
    notes = [*_uneven(verdict, seen), *_stops(verdict, seen, rubbed)]
    if verdict.word == "late":
        notes += _LATE
    if verdict.because == "rub":
        notes.append(
            Note("notice", "The acrospires may be there, but the corns still rub hard or doughy. Wait for the rub.")
        )
    elif rubbed and rubbed.side(seen.target) == "below" and verdict.word == "late":
        notes.append(
            Note("notice", "And the corns still rub hard or doughy: tell the shift lead before anything is loaded.")
        )
    if not verdict.growth.sure and verdict.word in ("wait", "count-more"):
        counted = verdict.growth.counted
        assert counted is not None
        notes.append(
            Note(
                "notice",
                f"The counts show no sure growth: {fixed(counted.value, 2)} of a corn a day ({fixed(counted.low, 2)} "
                f"to {fixed(counted.high, 2)}). Too cold, too dry or short of air? "
                "See the bed before you reckon with hours.",
            )
        )
    if is_early(verdict):
        notes.append(
            Note(
                "remark",
                f"It is early: at this growth the target is more than {plain_number(MOST_WAIT_H / 24.0)} days away, "
                "too far to say the hour. Count again tomorrow, and each day.",
            )
        )
    if verdict.word == "kiln-now" and not rubbed:
        notes.append(
            Note("remark", "No corns were rubbed. Length alone is not ripeness: split and rub some before you load.")
        )
    notes += _of_the_piece(verdict, seen)
    if verdict.more:
        notes.append(Note("remark", LOOK_AGAIN_REMARK))
    return notes


def _uneven(verdict: Verdict, seen: Seen) -> list[Note]:
    """Said first of all: a piece of which neither road suits every part."""
    if not verdict.uneven or verdict.word not in ("wait", "count-more"):
        return []
    today = seen.days[0]
    over = 100.0 * today[acrospire.OVERSHOT] / sum(today)
    ready = 100.0 * sum(today[acrospire.READY :]) / sum(today)
    hours = verdict.wait.hours if verdict.wait else verdict.after_h
    return [
        Note(
            "notice",
            f"Uneven: {fixed(ready, 0)} % ready, {fixed(over, 0)} % overshot. Neither the kiln nor a long wait is "
            f"right for all of it. Tell the shift lead; count again after {fixed(hours, 0)} h.",
        ),
        Note("remark", "Find out why it is uneven: uneven steeping, cold corners, dry patches."),
    ]


def _stops(verdict: Verdict, seen: Seen, rubbed: Count | None) -> list[Note]:
    """The stops that the counts pass as they stand; a piece that is late is called so by its verdict."""
    today = seen.days[0]
    over = 100.0 * today[acrospire.OVERSHOT] / sum(today)
    late = passed(limits.OVERSHOT, over) if verdict.word != "late" else None
    hard = passed(limits.FLOUR, 100.0 * rubbed.share) if rubbed else None
    # what to do about too many overshot is the verdict's, which also knows the rub and the reader's own limit
    notes = [*limit_notes([late], act=False), *limit_notes([hard])]
    return [note for note in notes if note.level == "notice"]


def _of_the_piece(verdict: Verdict, seen: Seen) -> list[Note]:
    """Uneven, short all the same, or running out while it waits; and whether its own growth is known."""
    notes = []
    ready, over = acrospire.curve(weights=verdict.weights).after(0.0)
    short = 100.0 * (1.0 - ready) > 100.0 - seen.target
    if verdict.word == "late" and short:
        notes.append(
            Note(
                "notice",
                f"Only about {fixed(100.0 * ready, 0)} % have three quarters. A wait would spoil more at the far end "
                "than it mends at the near one. Can the slow corners be kilned apart? Tell the shift lead.",
            )
        )
    spread = acrospire.evenness(counts=seen.days[0]) < UNEVEN_UNDER
    if spread and (verdict.word == "late" or (verdict.word == "wait" and not verdict.uneven)):
        notes.append(Note("remark", "The piece is uneven. Find out why: uneven steeping, cold corners, dry patches."))
    if verdict.word == "wait" and verdict.wait:
        over = acrospire.curve(weights=verdict.weights).after(verdict.growth.value * verdict.wait.hours / 24.0)[1]
        if 100.0 * over > seen.overshot_limit:
            notes.append(
                Note(
                    "remark",
                    f"Did all corns grow alike, about {fixed(100.0 * over, 0)} % would be overshot by then: "
                    "count again before.",
                )
            )
    if verdict.word in ("wait", "count-more") and len(seen.days) == 1:
        notes.append(
            Note(
                "remark",
                "The hours rest on a typical growth, not on this piece’s. "
                + (
                    "Type this count beside the next one, with the hours between: then the growth is its own."
                    if verdict.uneven
                    else "Count again at the same hour tomorrow: with two days’ counts the growth is its own."
                ),
            )
        )
    return notes


_LATE = (
    Note(
        "notice",
        "Growing on only makes more of them. Tell the shift lead and stop the growth. Until it is loaded: thin, cool, "
        "turned.",
    ),
    Note("remark", "Write why it came so far: no kiln, hot patches, or days counted by the calendar."),
)
