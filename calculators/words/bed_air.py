"""The cautions and remarks that go with the air of a bed."""

from __future__ import annotations

from collections.abc import Sequence

from ..asking.declare import Note
from ..asking.figures import fixed, plain_number
from ..rules import gases
from ..rules.limits import floor_germination as edges
from ..rules.lines import Line, passed
from .cautions import NO_ENTRY, PROCESS_AIR
from .limits import limit_notes, stop_said

_DAY_PERCENT = gases.limits_of(gases.CO2, where="us", kinds=("day",))[0].ppm / 1e4
_IDLH_PERCENT = gases.strictest(gases.CO2, "danger").ppm / 1e4


def notes_of(
    percent: float,
    points: float,
    alone: float,
    volume: float,
    fan_pa: float | None,
    lines: Sequence[Line | None],
    *,
    by_law: bool,
    most_points: float,
) -> tuple[Note, ...]:
    """Gas and people first, then the limits passed, or that the doubt of the heat may pass, then what is left out.

    ``points`` of moisture are lost a day; ``most_points`` where the bed breathes as fast as the law leaves open.
    """
    notes = [NO_ENTRY, PROCESS_AIR]
    if percent > _DAY_PERCENT:
        idlh = f"{plain_number(_IDLH_PERCENT)} % is immediately dangerous to life or health (NIOSH). "
        worse = idlh if percent >= _IDLH_PERCENT else ""
        notes.insert(
            0,
            Note(
                "danger",
                f"The air that leaves this bed carries {fixed(percent, 1)} % carbon dioxide, over the limit of "
                f"{plain_number(_DAY_PERCENT)} % for the mean of a working day (OSHA, NIOSH). {worse}Keep people away "
                "from where it comes out, and from leaks of its duct.",
            ),
        )
    notes += limit_notes(line for line in lines if line and line.mark == "stop")
    lost, most = (passed(edges.MOISTURE_LOST, each) for each in (points, most_points))
    if most and most.mark == "stop" and not (lost and lost.mark == "stop"):
        notes.append(Note("notice", f"It may pass a stop, if this bed breathes fast. {stop_said(most)}"))
    notes += limit_notes(line for line in lines if line and line.mark != "stop")
    if lost:
        notes.append(
            Note(
                "notice",
                f"The bed dries by {fixed(points, 1)} points a day. Check the sprays and the humidity of the air on. "
                "[[sheet:sprinkling]] gives the water to put back.",
            )
        )
    notes.append(
        Note(
            "remark",
            f"Most of the heat leaves as vapour. Counted by the air’s warming alone the answer would be "
            f"{fixed(alone, 0)} m³/h, {fixed(alone / volume, 2)} times too much.",
        )
    )
    if by_law:
        notes.append(
            Note(
                "remark",
                "No table of the heat of barley by day could be read. The law is held to what whole batches lost: old "
                "floors ask for half of it, warm boxes for nearly twice. Your own losses are better.",
            )
        )
    if fan_pa is None:
        notes.append(Note("remark", "The fan’s own warming is left out. Type its pressure to count it."))
    return tuple(notes)
