"""The cautions and remarks that go with the air of a bed."""

from __future__ import annotations

from collections.abc import Sequence

from ..asking.declare import Note
from ..asking.figures import fixed, plain_number
from ..rules import gases
from ..rules.limits import floor_germination as edges
from ..rules.lines import Line, passed
from .cautions import NO_ENTRY, PROCESS_AIR
from .gas import limit_name
from .limits import limit_notes, stop_said

_DAY = gases.strictest(gases.CO2, "day")
_LEAVE = gases.strictest(gases.CO2, "ceiling", "short")


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
    notes = [*_gas_that_leaves(percent), NO_ENTRY, PROCESS_AIR]
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


def _gas_that_leaves(percent: float) -> list[Note]:
    """The gravest that is published of the carbon dioxide [%] of the air that leaves the bed, as it is shown."""
    shown = round(percent, 2)
    order = gases.order_to_leave(gases.CO2, shown * 1e4)
    carries = f"The air that leaves this bed carries {fixed(shown, 2)} % carbon dioxide"
    if order is None and shown <= _percent(_DAY):
        return []
    if order is not None and order.kind == "danger":
        grave = (
            f"LEAVE. {carries}: from {plain_number(_percent(order))} % it is dangerous to life at once. Where it comes "
            "out, or leaks from its duct: get out, get everyone out who can walk, keep others back, call: "
            "[[page:safety/emergency|emergency]]."
        )
    elif order is not None:
        grave = (
            f"LEAVE. {carries}. From {plain_number(_percent(order))} % on ({limit_name(order)}) this book says leave, "
            "in any country, however short it lasts. Where it comes out, or leaks from its duct: go out at once, take "
            "others with you, keep the rest back, tell the shift lead."
        )
    else:
        grave = (
            f"{carries}, over the {plain_number(_percent(_DAY))} % of a mean over a working day. That mean judges no "
            "reading. Keep people away from where it comes out, and from leaks of its duct. A meter that shows "
            f"{plain_number(_percent(_LEAVE))} % or more means leave."
        )
    return [Note("danger", f"{grave} No figure here says that an atmosphere is safe: a meter is used.")]


def _percent(limit: gases.GasLimit) -> float:
    return limit.ppm / 1e4
