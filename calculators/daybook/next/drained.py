"""What a batch holds at a drain against the table: a stop there is said before the drain, and while the rest lasts."""

from __future__ import annotations

from datetime import datetime, timedelta

from ...asking.figures import plain_number
from ...models.steep.hydration import STAGE_HOURS
from ...rules.limit import edge
from ...rules.limits.steeping import FIRST_DRAIN, REST
from ...rules.lines import Line, passed
from ...rules.steep_order import DRAINS
from ...words.limits import at_edge, said
from ..batch.batch import Batch
from ..batch.course import Course, open_until
from .step import PAST_A_STOP, Wall

OVER, UNDER = "over", "under"


def drained_line(batch: Batch, course: Course | str, now: datetime) -> Line | None:
    """The limit of the drain before the open rest, where what was held there passes it; under water that of the next.

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
        None at the plan's last immersion and after it, and where nothing was weighed and no stop is passed: the
        model alone is held to its stops only. Under water only what is too wet already is past a stop.
    """
    place = len(batch.spells)
    number = (place + 1) // 2
    if isinstance(course, str) or not place or number > len(DRAINS) or (batch.plan and place >= len(batch.plan)):
        return None
    spell = batch.spells[-1]
    found = open_until(course, batch, spell, max(now, spell.begun + timedelta(hours=STAGE_HOURS.low)))
    drains = [end for end in found[0].ends if end.wet] if found else []
    line = passed(DRAINS[number - 1], drains[-1].drained) if drains else None
    if spell.wet:
        return line if side_of(line) == OVER else None
    return line if line and (line.mark == "stop" or course.readings) else None


def side_of(line: Line | None) -> str:
    """Which stop of a drain was passed: ``over``, ``under``, or nothing."""
    if line is None or line.mark != "stop" or not isinstance(line.value, float):
        return ""
    return OVER if line.value > float(line.edge or 0.0) else UNDER


def rests_longer(line: Line | None) -> bool:
    """Whether the table asks for a longer rest after a drain: after the first, where that was too wet."""
    return line is not None and line.limit == FIRST_DRAIN and side_of(line) == OVER


def longer_rest(batch: Batch, line: Line | None, due: datetime) -> datetime:
    """When water comes after a rest: after too wet a drain no sooner than the longest that is accepted of a rest.

    A plan that was written since the drain has taken that into account: its hour is kept.
    """
    rest = batch.spells[-1]
    if not rests_longer(line) or any(one.utc >= rest.begun for one in batch.of("plan")):
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
    if not rests_longer(line):
        return f"{begins} the last dip may not be needed. Weigh the basket before any water: [[sheet:cast-decision]]."
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
