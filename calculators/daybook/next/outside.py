"""What of a batch lies outside the table of limits by what was read last, the stops first."""

from __future__ import annotations

from datetime import datetime

from ...rules import drum as drum_rules
from ...rules.floor import turning_limits, verdict
from ...rules.limits import floor_germination
from ...rules.limits.steeping import IMMERSION, REST, REST_SPREAD, REST_TEMP, WATER_TEMP
from ...rules.lines import Line, passed, worst
from ..batch.batch import Batch
from ..batch.course import Course
from ..batch.lives import grain_read
from ..lines.kinds import FLOOR
from .counted import overshot_line
from .drained import drained_line
from .lying import depth_line, drum_sight, lying_of, sight_of
from .step import Wall


def outside(batch: Batch, wall: Wall, course: Course | str = "") -> list[Line]:
    """The limits that a batch passes now, each with what was read and the edge.

    Parameters
    ----------
    batch : Batch
        A batch at work.
    wall : Wall
        The time now: hours under water, in a rest or since a turning count up to it.
    course : Course or str, optional
        Its steep: what it held at its last drain is told by it, while the rest lasts.

    Returns
    -------
    list of Line
        Stops first. Empty where all that was read is accepted; that says nothing of what was not read.
    """
    if batch.left is not None or not batch.standing:
        return []
    if batch.cast is None:
        now = wall.now or batch.standing[-1].utc
        return worst([*_in_steep(batch, now), drained_line(batch, course, now)])
    if batch.vessel != FLOOR:
        in_drum = drum_rules.lines(drum_sight(batch, lying_of(batch, wall)))
        return worst([line for line in (*in_drum, overshot_line(batch)) if line])
    lying = lying_of(batch, wall)
    found: list[Line | None] = [
        passed(turning_limits(lying.never)[1], lying.hours, high_only=True),
        passed(floor_germination.MOISTURE, lying.moisture),
        depth_line(batch, lying),
        overshot_line(batch),
    ]
    sight = sight_of(batch, lying)
    if sight is not None and lying.read_since:  # a turning answers what was read before it
        read = [line for action in verdict(sight).due for line in action.lines if line.mark != "accept"]
        found += [line for line in read if line.rule != floor_germination.DEPTH.id]
    return _once(worst([line for line in found if line and line.limit is not None]))


def _in_steep(batch: Batch, now: datetime) -> list[Line | None]:
    if not batch.spells:
        return []
    spell = batch.spells[-1]
    hours = (now - spell.begun).total_seconds() / 3600
    if not spell.wet:
        last = grain_read(batch, spell)[-1:]
        read = [passed(REST_TEMP, one.warmest_c) for one in last]
        read += [passed(REST_SPREAD, one.spread_k) for one in last]
        return [*read, passed(REST, hours, high_only=True)]
    temps = [passed(WATER_TEMP, temp) for temp in spell.temps[-1:]]
    return [*temps, passed(IMMERSION, hours, high_only=True)]


def _once(lines: list[Line]) -> list[Line]:
    """Each limit once, by the worst of its lines, which come first."""
    seen: set[str] = set()
    return [line for line in lines if not (line.rule in seen or seen.add(line.rule))]  # type: ignore[func-returns-value]
