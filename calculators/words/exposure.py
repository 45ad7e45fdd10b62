"""What is said of a day's readings of carbon dioxide: the order to leave first, then notes and the chart."""

from __future__ import annotations

from collections.abc import Iterable

from ..asking.declare import Axis, Chart, Line, Mark, Note
from ..asking.figures import fixed, plain_number
from ..models.gas import exposure as model
from ..models.gas.exposure import Row
from ..rules import gases
from ..rules.gases import CO2, GasLimit
from .gas import limit_name

LEAVE_PPM = gases.strictest(CO2, "ceiling", "short").ppm
_IDLH_PPM = gases.strictest(CO2, "danger").ppm
_DAY_PPM = gases.strictest(CO2, "day").ppm

BEYOND = "A reading says more than the meter or the sheet can hold: take it for dangerous to life at once."
OUT = "Get out, get everyone out who can walk, keep others back, call: [[page:safety/emergency|emergency]]."


def leave(top: float, order: GasLimit) -> Note:
    """Say the order to leave, and by which published value."""
    if order.kind == "danger":
        return Note(
            "danger",
            f"LEAVE. {fixed(top, 0)} ppm: from {order.ppm:,.0f} it is dangerous to life at once. {OUT}",
        )
    return Note(
        "danger",
        f"LEAVE. {fixed(top, 0)} ppm has reached {order.ppm:,.0f}, the strictest published ceiling or short-term "
        f"value ({limit_name(order)}). Go out at once, take others with you, keep the rest back, tell the shift lead. "
        "Nobody goes back until a competent person has found the cause.",
    )


READ_AGAIN = (
    "A figure from 1 to 100 ppm is no air that anyone breathes. Until it is read again it is taken for per cent, or "
    "for thousands."
)


def mistaken(read: Iterable[float]) -> float | None:
    """Return the highest figure from 1 to 100 ppm, which no air has: per cent, or thousands, without their sign."""
    return max((ppm for ppm in read if 1.0 <= ppm <= 100.0), default=None)


def leave_for_a_slip(ppm: float) -> Note:
    """Say to leave for a figure that can't be in ppm, and how it is typed."""
    percent, thousands = f"{plain_number(ppm)} %", f"{1000.0 * ppm:,.0f} ppm"
    return Note(
        "danger",
        f"LEAVE. {plain_number(ppm)} ppm is far less than outdoor air has. If the meter shows {percent} or "
        f"{thousands}, it is dangerous to life. {OUT} Then type it again: {percent}, or {1000.0 * ppm:.0f} without a "
        f"point. If it shows {plain_number(ppm)} ppm, the meter is wrong: have it checked.",
    )


NO_ENTRY = Note(
    "danger",
    "These are readings of a place where people work, at the time they were taken. They allow no entry to a "
    "vessel, pit or duct, and say nothing of the next minute: [[page:safety/confined-vessels|vessels, "
    "pits and gas]].",
)


def notes_of(rows: tuple[Row, ...], over: list[GasLimit], country: str) -> tuple[Note, ...]:
    """Say which limits of a mean are passed, and what is odd in the readings."""
    notes: list[Note] = []
    for limit in over:
        if limit.kind == "day":
            notes.append(
                Note(
                    "warning",
                    f"Over the limit “{limit_name(limit)}”: this could harm someone, and most laws forbid it. "
                    "Stop the exposure, tell the shift lead, find where the gas comes from.",
                )
            )
    if any(ppm < model.LOWEST_OUTDOOR_PPM for ppm, _ in rows):
        notes.append(
            Note(
                "notice",
                "A reading below 350 ppm is less than outdoor air has. The meter is wrong, or was set to zero in "
                "bad air. Have it checked.",
            )
        )
    if country == "eu":
        notes.append(
            Note(
                "remark",
                "The EU figure is indicative. Your country sets its own, often with a short-term value, as Germany "
                "and Austria do. Ask.",
            )
        )
    return tuple(notes)


def chart_of(rows: tuple[Row, ...], unmeasured: float | None, missing: float) -> Chart:
    """Draw the readings as steps over the day."""
    xs: list[float] = []
    ys: list[float] = []
    begin = 0.0
    for ppm, minutes in rows:
        xs += [begin, begin + minutes / 60]
        ys += [ppm, ppm]
        begin += minutes / 60
    lines = [Line("measured", xs, ys)]
    if missing > 0 and unmeasured is not None:
        lines.append(Line("not measured", [begin, 8.0], [unmeasured, unmeasured]))
    high = max(6000.0, 1.1 * max(ys), 1.1 * (unmeasured or 0.0))
    marks = [Mark(f"8 h limit {_DAY_PPM:,.0f}", _DAY_PPM)]
    if high > LEAVE_PPM:
        marks.append(Mark(f"leave: from {LEAVE_PPM:,.0f}", LEAVE_PPM))
    if high > _IDLH_PPM:
        marks.append(Mark(f"dangerous at once: {_IDLH_PPM:,.0f}", _IDLH_PPM))
    return Chart(
        "day",
        "Readings over the day",
        f"The readings as steps, in the order given. The line at {_DAY_PPM:,.0f} is for the mean over 8 hours, and "
        f"judges no reading. A reading from {LEAVE_PPM:,.0f} on means: leave.",
        Axis("Time", "h", 0.0, max(8.0, begin), 1),
        Axis("Carbon dioxide", "ppm", 0.0, high, 0),
        lines=tuple(lines),
        marks=tuple(marks),
    )
