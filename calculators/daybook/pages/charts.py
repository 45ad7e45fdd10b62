"""What a batch's pages show beside its lines: the chart of the steep, that of the bed, the fit, the printed record."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import exp, sqrt
from xml.etree.ElementTree import Element

from ... import __version__
from ...asking.declare import Axis, Chart, Dots, Line, Mark, Picture
from ...asking.figures import fixed, plain_number, said_minute
from ...drawing.chart import Data
from ...drawing.elements import add
from ...drawing.pictures import data_of, draw
from ...drawing.results import numbers_table
from ...models.steep.doubt import BAND_SD, TYPICAL
from ...models.steep.first_uptake import offset_points
from ...models.steep.hydration import MODEL_VERSION
from ...rules.limit import edge
from ...rules.limits import drum_germination, floor_germination
from ...words.steep import course_chart
from ..batch.batch import Batch
from ..batch.blanks import tare_lacks
from ..batch.course import Course
from ..lines.kinds import DRUM, TURNINGS
from ..lines.reports import many
from .view import lines_table, said_time, state_words


def steep_chart(batch: Batch, course: Course, of_lot: int) -> Chart:
    """The steep: the forecast before the readings, the fit with its band, and the readings."""
    target = batch.number("target_moisture")
    own = course.before.steeping.barley_moisture
    if target is not None and target <= own:
        target = None
    begun = f", begun {said_time(batch.of('stage-begun', 'stage-ended')[0].local)}" if batch.spells else ", as planned"
    title = f"Steep of batch {batch.id}{begun}"
    before = f"by {many(of_lot, 'earlier batch', 'earlier batches')} of its lot" if of_lot else "typical barley"
    dots = None
    if course.readings:
        dots = Dots("readings", [r.hours for r in course.readings], [r.moisture for r in course.readings])
    chart = course_chart(course.best, course.trust, title, target, dots, course.before if course.fitted else None)
    if course.fitted:
        second = chart.lines[1]._replace(label=f"{before}, without the readings")
        chart = chart._replace(lines=(chart.lines[0], second))
    return chart


def bed_chart(batch: Batch) -> Chart | None:
    """Bottom and top of the piece, or air on and off, from the cast on; None without two readings."""
    if batch.cast is None:
        return None
    rows = [(entry.utc, batch.value(entry, "bottom_c"), batch.value(entry, "top_c")) for entry in batch.of("bed")]
    read = [(moment, bottom, top) for moment, bottom, top in rows if bottom is not None and top is not None]
    read = [row for row in read if row[0] >= batch.cast.utc]
    if len(read) < 2:
        return None
    days = [(moment - batch.cast.utc).total_seconds() / 86_400 for moment, _, _ in read]
    bottoms, tops = [row[1] for row in read], [row[2] for row in read]
    names = ("air on", "air off") if batch.vessel == DRUM else ("bottom", "top")
    return Chart(
        "bed",
        f"Temperatures of batch {batch.id} since the cast",
        f"{many(len(read), 'round')} in {fixed(days[-1], 1)} days; {names[0]} from {fixed(min(bottoms), 1)} to "
        f"{fixed(max(bottoms), 1)} °C, {names[1]} from {fixed(min(tops), 1)} to {fixed(max(tops), 1)} °C.",
        Axis("days since the cast", "", 0.0, max(days[-1], 1.0), 1),
        Axis("temperature", "C", decimals=1),
        lines=(Line(names[0], days, bottoms), Line(names[1], days, tops)),
        marks=tuple(_marks(batch)),
        dots=_turned(batch, days, bottoms),
    )


def _marks(batch: Batch) -> list[Mark]:
    """The edges of the table that the bed's warmth is held against."""
    limit = drum_germination.BED if batch.vessel == DRUM else floor_germination.BOTTOM
    accepted, stop = edge(limit.accept_high), edge(limit.stop_high)
    return [
        Mark(f"accepted up to {plain_number(accepted)} °C", accepted),
        Mark(f"stop over {plain_number(stop)} °C", stop),
    ]


def _turned(batch: Batch, days: Sequence[float], bottoms: Sequence[float]) -> tuple[Dots, ...]:
    """When it was turned, on the line of its bottom, or of the side where the air comes on."""
    assert batch.cast is not None
    turns = batch.of(*TURNINGS)
    at = [(entry.utc - batch.cast.utc).total_seconds() / 86_400 for entry in turns]
    kept = [day for day in at if days[0] <= day <= days[-1]]
    if not kept:
        return ()
    return (Dots("turned", kept, [_between(day, days, bottoms) for day in kept]),)


def _between(day: float, days: Sequence[float], values: Sequence[float]) -> float:
    for (one, low), (two, high) in pairwise(zip(days, values, strict=True)):
        if day <= two:
            return low + (high - low) * (day - one) / (two - one) if two > one else high
    return values[-1]


def figure_of(picture: Picture, prefix: str) -> list[Element]:
    """A drawing with its caption, and its numbers under a disclosure."""
    drawn = Element("figure")
    drawn.append(draw(picture, prefix))
    add(drawn, "figcaption", text=picture.summary)
    more = Element("details", {"class": "data"})
    add(more, "summary", text="The chart’s numbers")
    numbers_table(more, picture.title, data_of(picture))
    return [drawn, more]


def fit_sentence(course: Course, batch: Batch) -> str:
    """The fit in one line: rate, first uptake, error, readings, model."""
    fitted = course.fitted
    if fitted is None:
        return f"{tare_lacks(batch) or 'No weighing yet:'} Nothing is fitted.".replace(": Nothing", ": nothing")
    settings, covariance = fitted.course.steeping, fitted.trust.covariance
    reach = BAND_SD * TYPICAL.rate * sqrt(covariance[0][0])
    rate = settings.rate_factor
    offset = offset_points(barley_moisture=settings.barley_moisture, first_uptake_db=settings.first_uptake_db)
    count = len(course.readings)
    differ = f"{many(count, 'reading')} {'differs' if count == 1 else 'differ'} from the fit"
    return (
        f"Rate factor {fixed(rate, 2)} (likely {fixed(rate * exp(-reach), 2)} to {fixed(rate * exp(reach), 2)}), taken "
        f"up at once {fixed(offset, 1)} points beyond a typical barley. {differ} by "
        f"{fixed(fitted.error_points, 2)} points. Steep model {MODEL_VERSION}."
    )


def fit_parts(course: Course, batch: Batch, of_lot: int, others: int) -> list[Element]:
    """The fit of a batch: what it rests on, its figures, and reading by reading."""
    parts = []
    lead = Element("p", {"class": "fit"})
    lead.text = fit_sentence(course, batch)
    parts.append(lead)
    rests = Element("p", {"class": "rests-on"})
    if of_lot:
        rests.text = f"Begun from {many(of_lot, 'earlier batch', 'earlier batches')} of the same lot and harvest"
        rests.text += f" and {many(others, 'batch', 'batches')} of other lots." if others else "."
    elif others:
        rests.text = f"The lot is new. {many(others, 'batch', 'batches')} of other lots say a little of this house."
    else:
        rests.text = "Begun from the typical barley: no earlier batch of this lot was weighed."
    parts.append(rests)
    if course.fitted:
        rows = [
            (fixed(r.hours, 1), fixed(r.moisture, 1), fixed(r.moisture - miss, 1), fixed(miss, 1), _against(odd))
            for r, miss, odd in zip(course.readings, course.fitted.residuals, course.fitted.odd, strict=True)
        ]
        box = Element("div")
        heads = ("Since the start, h", "Read, %", "Fitted, %", "Difference, points", "Against the others")
        numbers_table(box, "Reading by reading", Data(heads, tuple(rows)))
        parts += list(box)
    return parts


def _against(odd: bool) -> str:
    return "stands alone" if odd else "fits"


def printed(
    batch: Batch, course: Course | str, of_lot: int, checks: Element, date: str, step: Sequence[Element] = ()
) -> list[Element]:
    """The complete record of a batch with its next step, for paper."""
    title = Element("h2")
    title.text = f"Batch {batch.id}: {state_words(batch)}"
    table = lines_table(batch, None, tools=False)
    parts = [title, *step, table]
    if isinstance(course, Course):
        drawn = Element("figure")
        chart = steep_chart(batch, course, of_lot)
        drawn.append(draw(chart, "print"))
        add(drawn, "figcaption", text=f"{chart.summary} {fit_sentence(course, batch)}")
        parts.append(drawn)
    bed = bed_chart(batch)
    if bed:
        drawn = Element("figure")
        drawn.append(draw(bed, "print-bed"))
        add(drawn, "figcaption", text=bed.summary)
        parts.append(drawn)
    parts.append(checks)
    foot = Element("p", {"class": "card-line"})
    on = said_minute(date) or "_" * 16
    foot.text = f"Day-book · version {__version__} · {many(len(batch.entries), 'line')} · printed {on}"
    sign = Element("p", {"class": "card-line"})
    sign.text = f"Read by: {'_' * 24}   Date: {'_' * 12}"
    return [*parts, foot, sign]
