"""What a batch held at the drain before its open rest, against the table: a stop there is said while that rest lasts."""

from __future__ import annotations

from datetime import datetime, timedelta

from ...asking.figures import plain_number
from ...rules.limit import edge
from ...rules.limits.steeping import REST
from ...rules.lines import Line, passed
from ...rules.steep_order import DRAINS
from ...words.limits import at_edge, said
from ..batch.batch import Batch
from ..batch.course import Course, open_until
from .step import PAST_A_STOP, Wall

OVER, UNDER = "over", "under"


def drained_line(batch: Batch, course: Course | str, now: datetime) -> Line | None:
    """The limit of the drain before the open rest, where what was held there passes it.

    Parameters
    ----------
    batch : Batch
        A batch in the steep.
    course : Course or str
        Its steep, or why there is none.
    now : datetime
        UTC.

    Returns
    -------
    Line or None
        None under water, after the plan's last immersion, and where nothing was weighed and no stop is passed: the
        model alone is held to its stops only.
    """
    place = len(batch.spells)
    if isinstance(course, str) or not place or batch.spells[-1].wet or place // 2 > len(DRAINS):
        return None
    if batch.plan and place >= len(batch.plan):
        return None
    found = open_until(course, batch, batch.spells[-1], max(now, batch.spells[-1].begun + timedelta(hours=1)))
    drains = [end for end in found[0].ends if end.wet] if found else []
    line = passed(DRAINS[place // 2 - 1], drains[-1].drained) if drains else None
    return line if line and (line.mark == "stop" or course.readings) else None


def side_of(line: Line | None) -> str:
    """Which stop of a drain was passed: ``over``, ``under``, or nothing."""
    if line is None or line.mark != "stop" or not isinstance(line.value, float):
        return ""
    return OVER if line.value > float(line.edge or 0.0) else UNDER


def longer_rest(batch: Batch, line: Line | None, due: datetime) -> datetime:
    """When water comes after a rest: after too wet a drain no sooner than the longest that is accepted of a rest.

    A plan that was written since the drain has taken that into account: its hour is kept.
    """
    rest = batch.spells[-1]
    if side_of(line) != OVER or any(one.utc >= rest.begun for one in batch.of("plan")):
        return due
    return max(due, rest.begun + timedelta(hours=edge(REST.accept_high)))


def drained_words(batch: Batch, line: Line | None, planned_h: float | None, wall: Wall) -> str:
    """What leads the next step after a drain past its stop; nothing after another.

    Parameters
    ----------
    batch : Batch
        A batch in a rest.
    line : Line or None
        As :func:`drained_line` gives it.
    planned_h : float or None
        The plan's hours of that rest [h].
    wall : Wall
        The clock.
    """
    side = side_of(line)
    if line is None or not side:
        return ""
    begins = f"{PAST_A_STOP}. {said(line)} It is drained already:"
    if side == UNDER:
        return f"{begins} rest it, then wet it again."
    rest = batch.spells[-1]
    planned = None if planned_h is None else rest.begun + timedelta(hours=planned_h)
    until = longer_rest(batch, line, planned or rest.begun)
    if wall.now is not None and wall.now >= until > rest.begun:
        return f"{begins} it has rested longer, as that asks."
    if planned is None or planned_h is None or until <= planned:
        return f"{begins} rest it longer, {at_edge(REST, 'accept_high')} are accepted."
    return (
        f"{begins} rest it longer than the plan’s {plain_number(planned_h)} h, {at_edge(REST, 'accept_high')} are "
        f"accepted. No water at {wall.time(planned)}, the plan’s hour."
    )
