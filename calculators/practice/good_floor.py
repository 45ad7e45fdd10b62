"""The good hand at couch and piece: thermometers, roots, the floor's verdict, and the count for the kiln."""

from ..models.bed import floor
from ..rules import floor as floor_rule
from ..rules import readiness as ready_rule
from ..rules.conventions import ROUND_EVERY_H
from ..rules.limit import edge
from ..rules.limits import casting, floor_germination, readiness
from .good_replan import held, late_by_h
from .run import CASTS, of_day
from .view import Step, View, wait

_THINNEST, _THICKEST = edge(floor_germination.DEPTH.accept_low), edge(floor_germination.DEPTH.accept_high)
"""Depth that a growing piece is laid within [cm]."""

BETWEEN_MIN = int(60.0 * ROUND_EVERY_H)
"""Longest from one look at a couch or a piece to the next [min]: the plan's rounds."""
CALLED_AHEAD_H = 20.0
"""So long before a piece may be ready the kiln is called [h]: common practice, it has to know a day ahead."""
NO_WATER_FROM_H = 84.0
"""Hours after the cast from which it gets no more water: it would reach the kiln wet."""
FIRST_COUNT_H = 72.0
"""Hours after the cast from which acrospires are counted, each morning."""


def _sight(view: View, couch: bool) -> tuple[floor_rule.Sight, list[floor.Round], float]:
    read = view.last("by")
    assert read is not None
    lain = (read.minute - turned_at(view)) / 60.0
    day = 1.0 + view.since(*CASTS) / 24.0
    now = floor.Round(max(lain, 0.1), read.more[3] / 100.0, read.more[0], read.more[1], read.more[2])
    rounds = [now]
    for one in view.reads:
        if one.code == "by" and turned_at(view) <= one.minute < read.minute:
            hours = max((one.minute - turned_at(view)) / 60.0, 0.1)
            ago = (read.minute - one.minute) / 60.0
            rounds.append(floor.Round(hours, one.more[3] / 100.0, one.more[0], one.more[1], one.more[2], ago))
    oven = view.last("ov", 40.0)
    roots, count = view.last("rt", 8.0), view.last("ac", 30.0)
    guesses = floor.fit(rounds=rounds[:4], day=min(day, 12.0), heat_factor=0.5)
    until = floor_rule.until_turning(
        guesses,
        hours_since_turning=lain,
        difference_limit_k=view.setting.difference_k,
        couch=couch,
    )
    sight = floor_rule.Sight(
        read.more[0], read.more[1], lain, day,
        difference_limit_k=view.setting.difference_k, warmest_c=view.setting.warmest_c,
        hours_to_limit=until.hours.middle, own_readings=len(rounds) > 1, couch=couch, room_c=read.more[2],
        depth_cm=read.more[3], outside_c=read.more[2] - 2.0,
        roots=next((word for word in floor_rule.ROOTS if roots and word in roots.words), None),
        acrospire="three-quarters" if count and count.value is not None and count.value > 50.0 else "shorter",
        moisture=oven.value if oven and not couch and oven.minute > view.minute - 60 * view.since(*CASTS) else None,
    )  # fmt: skip
    return sight, rounds, until.hours.low


def _is_fresh(view: View) -> bool:
    """Whether the last reading of the layers is of this hour and of the piece as it lies now."""
    read = view.last("by", 1.2)
    return read is not None and read.minute > turned_at(view)


def turned_at(view: View) -> int:
    """Give the minute at which it was turned last, or cast."""
    return next((minute for minute, code, _, _ in reversed(view.done) if code in ("tu", "br", "dt", *CASTS)), 0)


def couch(view: View) -> Step:
    """Give the next move at a couch."""
    if not _is_fresh(view):
        return Step("by", "A couch is read at its bottom.")
    sight, _, low = _sight(view, couch=True)
    verdict = floor_rule.verdict(sight)
    if {"break-couch", "turn", "turn-now"} & set(verdict.words):
        depth = 10 if sight.bottom_c >= edge(casting.COUCH_BOTTOM.accept_high) else 14
        over = sight.bottom_c - (sight.room_c or sight.bottom_c)
        said = f"Bottom {sight.bottom_c:.1f} °C, {over:.1f} K over the room, after {sight.hours_since_turning:.0f} h"
        return Step(f"br{depth}", f"{said}: broken.")
    return wait(60.0 * min(max(low, 0.5), ROUND_EVERY_H), "It may lie; read again before the limit can come.")


def piece(view: View) -> Step:
    """Give the next move at a piece on the floor."""
    cast_h = view.since(*CASTS)
    morning = 6 * 60 <= of_day(view.minute) < 10 * 60
    if not _is_fresh(view):
        return Step("by", "The thermometers say when.")
    if view.last("rt", 7.0) is None:
        return Step("rt", "Roots tell of drought and of lying too long.")
    if morning and not any(code == "ov" for minute, code, _, _ in view.done if view.minute - minute < 12 * 60):
        return Step("ov", "One moisture a day.")
    if cast_h >= FIRST_COUNT_H:
        step = count_step(view)
        if step:
            return step
    late = late_by_h(view)
    view = held(view)
    sight, _, low = _sight(view, couch=False)
    verdict = floor_rule.verdict(sight)
    if view.kiln_ready and view.last("ac", 2.6) and low > 1.0:
        low = min(low, 2.0)
    ready_soon = bool(view.kiln_called)
    for word in verdict.words:
        step = _floor_action(view, word, sight, ready_soon)
        if step and late:
            return step._replace(why=f"{step.why} The kiln is late: held at {view.setting.warmest_c:.0f} °C.")
        if step:
            return step
    return wait(60.0 * min(max(low, 0.5), ROUND_EVERY_H), "Left alone; read again before a limit can come.")


def _floor_action(view: View, word: str, sight: floor_rule.Sight, ready_soon: bool) -> Step | None:
    lately = {code for minute, code, _, _ in view.done if view.minute - minute < 180}
    depth = sight.depth_cm or 14.0
    said = f"Bottom {sight.bottom_c:.1f}, {sight.apart_k:.1f} K over the top, {sight.hours_since_turning:.0f} h."
    if word in ("turn", "turn-now", "look-for-mould", "plough"):
        if sight.hours_since_turning < 1.0:
            return None
        warm = sight.mean_c > view.setting.warmest_c - 0.5 or sight.bottom_c > 19.0
        cool = sight.mean_c < edge(floor_germination.PIECE.accept_low) + 0.5
        new = max(_THINNEST, depth - 2.0) if warm else min(_THICKEST, depth + 2.0) if cool else depth
        return Step(f"tu{new:.0f}", f"{said} Turned{', thinner' if new < depth else ''}.")
    if word in ("thin", "thin-now") and "th" not in lately and "tu" not in lately and depth > _THINNEST + 1.0:
        return Step(f"th{max(_THINNEST, depth - 2.0):.0f}", f"{said} Thinner.")
    if word == "thicken" and "tk" not in lately and "tu" not in lately and depth < _THICKEST - 1.0:
        return Step(f"tk{min(_THICKEST, depth + 3.0):.0f}", f"{said} Thicker.")
    if word == "sprinkle" and not ready_soon and view.since("sp") in (0.0,) and view.since(*CASTS) < NO_WATER_FROM_H:
        return Step("sp20", "Drier than accepted, and still growing: water.")
    if word in ("open", "close"):
        code = "op" if word == "open" else "cl"
        window = next((c for _, c, _, _ in reversed(view.done) if c in ("op", "cl")), "cl")
        if window != code:
            return Step(code, f"{said} The windows.")
    return None


def count_step(view: View) -> Step | None:
    """Give the step towards the kiln: a count, the rub, the call, the load; None where it is not yet time."""
    fresh = view.last("ac", 2.6) is not None
    if not fresh:
        last = view.last("ac")
        if last is not None and view.minute < count_again(view):
            return None
        return Step("ac", "The acrospires decide, not the day.")
    if view.last("rb", 3.0) is None:
        return Step("rb", "The rub beside the count.")
    verdict = _ready(view)
    assert verdict is not None
    goes = verdict.word in ("kiln-now", "late")
    if goes and view.kiln_ready:
        return Step("ld", "The count says now, and the kiln is ready.")
    soon = verdict.wait is not None and verdict.wait.hours <= CALLED_AHEAD_H
    if (goes or soon) and not view.kiln_called:
        return Step("ck", "The kiln is called: the count says now, or soon.")
    hundreds = sum(1 for r in view.reads if r.code == "ac" and view.minute - r.minute < 90)
    if verdict.word == "count-more" and hundreds < 2:
        return Step("ac", "Another hundred is worth its time.")
    return None


def _days(view: View) -> tuple[tuple[tuple[float, ...], ...], float]:
    """Give the counts of today and of the day before, and the hours between."""
    counts = [read for read in view.reads if read.code == "ac"]
    newest = counts[-1].minute
    today = [read.more for read in counts if newest - read.minute <= 120]
    joined = tuple(sum(column) for column in zip(*today, strict=True))
    before = [read for read in counts if newest - read.minute >= 6 * 60]
    if not before:
        return (joined,), 24.0
    return (joined, before[-1].more), min((newest - before[-1].minute) / 60.0, 96.0)


def _ready(view: View) -> ready_rule.Verdict | None:
    if view.last("ac") is None:
        return None
    days, hours = _days(view)
    rub = view.last("rb", 3.0)
    flour = (int(rub.more[0]), int(rub.more[1])) if rub else None
    target, over = edge(readiness.READY.accept_low), edge(readiness.OVERSHOT.accept_high)
    return ready_rule.decide(ready_rule.Seen(days, hours, target, over, flour))


def count_again(view: View) -> float:
    """Give the minute of the next count: after the wait that the verdict gave, and not in the night."""
    last = view.last("ac")
    verdict = _ready(view)
    assert last is not None
    if verdict is None or verdict.wait is None:
        return last.minute + 60.0 * 3.0
    again = last.minute + 60.0 * min(max(verdict.wait.low, 3.0), 24.0)
    late = 20 * 60 + 30
    if of_day(round(again)) > late or of_day(round(again)) < 6 * 60:  # in the night: once more before it
        before = last.minute + late - of_day(last.minute)
        return before if before > last.minute + 150 else last.minute + (6 * 60 - of_day(last.minute)) % 1440
    return again
