"""What the steeping sheets share: their cautions, clock times, the chart of a course, doubt turned into hours."""

from __future__ import annotations

from datetime import datetime, timedelta

from ..asking.declare import Axis, Band, Chart, Dots, Line, Mark, Note, Shade
from ..asking.figures import fixed, plain_number
from ..models.bounds import OutOfRange
from ..models.steep.course import Steep
from ..models.steep.doubt import BAND_SD, Trust
from ..rules.limits.steeping import IMMERSION
from ..rules.steep_order import MOST_H
from .limits import at_edge

CURVE_POINTS = 48
OF_TWENTY = "19 of 20" if BAND_SD == 2.0 else f"those within {BAND_SD} standard deviations of"

NO_AIR = Note(
    "remark",
    "This takes it that the water is aired. Corns under still water run short of oxygen: air the water and drain as "
    "[[page:procedures/steeping|steeping]] says.",
)
GAS = Note(
    "danger",
    "A drained steep fills with carbon dioxide from the grain. It kills within minutes, also those who go in "
    "after someone. Nobody leans or climbs in: [[page:safety/confined-vessels|confined vessels]].",
)


def clock_after(start: datetime, hours: float) -> datetime:
    """The moment some hours after the start, to the minute."""
    moment = start + timedelta(hours=hours) + timedelta(seconds=30)
    return moment.replace(second=0, microsecond=0)


def needed_for(course: Steep, target: float) -> float | None:
    """The last immersion for another target: 0 when it is reached before, None beyond the longest."""
    if course.drained_before_last_immersion >= target:
        return 0.0
    try:
        return course.last_immersion_needed_h(target)
    except OutOfRange:
        return None


def needed_range(course: Steep, low: float, high: float, target: float) -> tuple[float, float | None]:
    """The shortest and the longest last immersion [h], where the end may lie from ``low`` to ``high`` %."""
    end = course.ends[-1].drained
    shortest = needed_for(course, target - (high - end))
    return 0.0 if shortest is None else shortest, needed_for(course, target - (low - end))


def past_summary(course: Steep) -> str:
    """For the caption of a course: which immersions pass the stop, or nothing."""
    long = [stage.hours for stage in course.steeping.stages[::2] if stage.hours > MOST_H]
    told = " and ".join(f"{plain_number(round(hours, 2))} h" for hours in long)
    return f" Past a stop: {told} in one immersion, over {at_edge(IMMERSION, 'stop_high')}." if long else ""


def course_chart(
    course: Steep,
    doubt: Trust,
    title: str,
    target: float | None,
    dots: Dots | None = None,
    before: Steep | None = None,
) -> Chart:
    """The drained moisture with its band over the stages; `before` is the forecast without readings."""
    curve = course.curve(CURVE_POINTS)
    band = doubt.band(curve.hours, curve.stage)
    if before is None:
        second = Line("inside the corns", curve.hours, curve.net)
    else:
        # On the same hours, so that the table of numbers holds both.
        typical = [before.at(h, n).drained for h, n in zip(curve.hours, curve.stage, strict=True)]
        second = Line("typical barley, without the readings", curve.hours, typical)
    shades = []
    begins = 0.0
    for end in course.ends:
        stop = begins + MOST_H if end.wet else end.hours
        shades.append(Shade("wet" if end.wet else "air rest", begins, min(stop, end.hours)))
        if stop < end.hours:
            shades.append(Shade("over the stop", stop, end.hours, past=True))
        begins = end.hours
    hours = plain_number(round(course.hours, 1))
    aim = f"; the target is {plain_number(target)} %" if target is not None else ""
    return Chart(
        "course",
        title,
        f"Drained moisture rises to {fixed(course.ends[-1].drained, 0)} % in {hours} h{aim}. "
        f"The band is where {OF_TWENTY} lots are expected.{past_summary(course)}",
        Axis("Hours", "h", 0.0, course.hours, 1),
        Axis("Moisture", "%", min(10.0, course.steeping.barley_moisture), max(50.0, (target or 0) + 2), 1),
        lines=(Line("drained, as a basket weighs", curve.hours, curve.drained), second),
        bands=(Band("band of doubt", curve.hours, band.low, band.high),),
        shades=tuple(shades),
        marks=(Mark(f"target {plain_number(target)} %", target),) if target is not None else (),
        dots=(dots,) if dots else (),
    )
