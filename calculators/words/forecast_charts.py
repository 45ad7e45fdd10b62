"""The pictures of a forecast: moisture, warmth, chits and readiness by the hour, each with its band."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from ..asking.declare import Axis, Band, Chart, Dots, Line, Mark, Shade
from ..asking.figures import fixed, plain_number
from ..asking.units import shown
from ..models.living.lot_plan_state import Plan
from ..rules.forecast import BED, CHIT
from ..rules.limit import Limit, edge
from ..rules.limits import casting, floor_germination, readiness, steeping

OF_HUNDRED = "95 of 100 batches like it are expected"


class Curve(NamedTuple):
    """A figure by the hour: its middle and its band."""

    hours: Sequence[float]
    low: Sequence[float]
    middle: Sequence[float]
    high: Sequence[float]

    def since(self, hour: float) -> Curve:
        """The part from an hour on."""
        rows = [row for row in zip(*self, strict=True) if row[0] >= hour - 1e-6]
        return Curve(*([row[n] for row in rows] for n in range(4)))


def _shades(plan: Plan, last: float) -> tuple[Shade, ...]:
    shades, hour = [], 0.0
    for place, stage in enumerate(plan.stages):
        shades.append(Shade("air rest" if place % 2 else "wet", hour, hour + stage.hours))
        hour += stage.hours
    if last > hour:
        shades.append(Shade("bed", hour, last))
    return tuple(shades)


def _reach(curve: Curve, marks: Sequence[Mark]) -> tuple[float, float]:
    """Ends of the axis that leave room above and below for the words at a mark."""
    low = min(*curve.low, *(mark.y for mark in marks))
    high = max(*curve.high, *(mark.y for mark in marks))
    room = 0.08 * (high - low)
    return low - room, high + room


def _mark(limit: Limit, label: str, value: float | None) -> tuple[Mark, ...]:
    return (Mark(f"{label} {plain_number(edge(value))} {shown(limit.unit)}", edge(value)),) if value is not None else ()


def charts_of(
    plan: Plan, curves: dict[str, Curve], dots: Mapping[str, Sequence[tuple[float, float]]], vessel: str
) -> tuple[Chart, ...]:
    """The four pictures; readiness only where the plan has a bed.

    Parameters
    ----------
    plan : Plan
        What is done.
    curves : dict
        By ``moisture`` [%], ``warmth`` [C], ``chitted`` and ``ready`` [%].
    dots : dict
        Readings by the same names, as (hour, value).
    vessel : str
        Where it grows.
    """
    last = curves["moisture"].hours[-1]
    bed = BED[vessel] if plan.bed else None
    wanted = {
        "moisture": ("Moisture", "%", (casting.MOISTURE, casting.MOISTURE.stop_high, "stop at the cast")),
        "warmth": ("Grain", "C", (steeping.REST_TEMP, steeping.REST_TEMP.stop_high, "stop in a rest")),
        "chitted": ("Corns chitted", "%", (CHIT[vessel], CHIT[vessel].accept_low, "wanted at the cast")),
        "ready": ("At three quarters and beyond", "%", (readiness.READY, readiness.READY.accept_low, "ready from")),
    }
    titles = {
        "moisture": "Moisture of the batch",
        "warmth": "Warmth of the grain",
        "chitted": "Corns that have chitted",
        "ready": "Corns whose acrospire is at three quarters and beyond",
    }
    charts = []
    for name, (label, unit, (limit, value, what)) in wanted.items():
        curve = curves.get(name)
        if curve is None:
            continue
        marks = _mark(limit, what, value)
        if name == "warmth" and bed is not None:
            marks += _mark(bed, "stop in the bed", bed.stop_high)
        if name == "moisture" and bed is not None:
            marks += _mark(floor_germination.MOISTURE, "stop in the bed, under", floor_germination.MOISTURE.stop_low)
        share = unit == "%" and name != "moisture"
        seen = dots.get(name, ())
        charts.append(
            Chart(
                name,
                titles[name],
                f"From {fixed(curve.middle[0], 0)} to {fixed(curve.middle[-1], 0)} {shown(unit)} at "
                f"{fixed(last, 0)} h; "
                f"the band at the end is {fixed(curve.low[-1], 0)} to {fixed(curve.high[-1], 0)} {shown(unit)}. It is "
                f"where {OF_HUNDRED}.",
                Axis("Hours since the first wetting", "h", 0.0, last, 1),
                Axis(label, unit, *((0.0, 100.0) if share else _reach(curve, marks)), 1),
                lines=(Line("middle", curve.hours, curve.middle),),
                bands=(Band("band", curve.hours, curve.low, curve.high),),
                shades=_shades(plan, last),
                marks=marks,
                dots=(Dots("read", [h for h, _ in seen], [v for _, v in seen]),) if seen else (),
            )
        )
    return tuple(charts)
