"""The debrief as HTML: the charts, the turning points, four lines, what was hidden, and where to go back to."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import ceil
from xml.etree.ElementTree import Element

from ..asking.declare import Axis, Band, Chart, Dots, Mark
from ..asking.declare import Line as Curve
from ..asking.figures import fixed
from ..asking.units import shown
from ..drawing import pictures
from ..drawing.elements import add
from .kinds import Course, Debrief, Played, Read
from .pieces import Piece
from .run import clock

_MOST_ROWS = 24
_WET = ("bd", "bp", "ov")
_WARM = ("pr", "by", "wt", "da")


def draw_debrief(played: Played, root: str, other: Played | None = None, piece: Piece | None = None) -> Element:
    """The debrief of a run.

    Parameters
    ----------
    played : Played
        With its debrief.
    root : str
        The way to the root of the site.
    other : Played, optional
        A second run on the same number: its course is drawn beside the first.
    piece : Piece, optional
        The piece that was run: its two cases are asked then, and come back some days later.
    """
    box = Element("div", {"class": "practice-debrief"})
    found = played.debrief
    if found is None:
        return box
    add(box, "h3", text="What it came to")
    lines = add(box, "dl", "practice-lines")
    for name in ("people", "grain", "book", "guessing"):
        add(lines, "dt", text=name.capitalize())
        add(lines, "dd", text=getattr(found, name))
    _draw_back(box, found)
    beside = other.debrief.truth if other and other.debrief else None
    for chart in charts_of(found, beside):
        box.append(pictures.draw(chart, "practice"))
        _draw_data(box, chart)
    add(box, "h3", text="Where the two courses parted")
    if not found.points:
        add(box, "p", text="They did not part by anything that counts.")
    steps = add(box, "ol", "practice-points") if found.points else box
    for point in found.points:
        item = add(steps, "li")
        add(item, "p", "practice-when", clock(point.minute))
        for name, words in (
            ("Known then", point.known),
            ("You", point.you),
            ("The good hand", point.good),
            ("What it did", point.did),
        ):
            said = add(item, "p")
            add(said, "strong", text=f"{name}: ").tail = words
        add(add(item, "p"), "a", text="The page that teaches it", href=f"{root}{point.page}/")
    if piece and played.scene.ended in ("piece", "kiln"):
        add(box, "h3", text="Two cases on this part")
        asked = add(box, "p", text="Answer them now; they come back after some days: ")
        for count, words in ((1, "the first"), (2, "the second")):
            at = f"{root}training/questions-practice-batch/#case-practice-{piece.letter}{count}"
            add(asked, "a", text=words, href=at).tail = ", " if count == 1 else "."
    draw_hidden(box, found.faults, found.hidden)
    return box


def _draw_back(box: Element, found: Debrief) -> None:
    row = add(box, "div", "practice-back")
    for when, _, moves in found.back:
        add(row, "button", type="button", text=f"Go back to {when}", data_moves=moves)


def draw_hidden(box: Element, faults: tuple[str, ...], hidden: tuple[tuple[str, str, str], ...]) -> None:
    """Draw what was wrong, and each hidden thing with its value and what it rests on."""
    add(box, "h3", text="What was hidden")
    if faults:
        wrong = add(box, "ul")
        for words in faults:
            add(wrong, "li", text=words)
    else:
        add(box, "p", text="Nothing was wrong in this number.")
    details = add(box, "details")
    add(details, "summary", text="The barley and the place")
    table = add(details, "table")
    head = add(add(table, "thead"), "tr")
    for heading in ("Hidden", "In this number", "What it rests on"):
        add(head, "th", text=heading, scope="col")
    body = add(table, "tbody")
    for row_words in hidden:
        row = add(body, "tr")
        for cell in row_words:
            add(row, "td", text=cell)


def _draw_data(box: Element, chart: Chart) -> None:
    details = add(box, "details", "data")
    add(details, "summary", text=f"{chart.title}: the chart’s numbers")
    table = add(details, "table")
    unit = shown(chart.y.unit)
    columns = [
        *((one.label, one.xs, one.ys) for one in chart.lines),
        *((one.label, one.xs, one.ys) for one in chart.dots),
    ]
    head = add(add(table, "thead"), "tr")
    for heading in (f"{chart.x.label}, {shown(chart.x.unit)}", *(f"{label}, {unit}" for label, _, _ in columns)):
        add(head, "th", text=heading, scope="col")
    body = add(table, "tbody")
    values = [dict(zip(xs, ys, strict=True)) for _, xs, ys in columns]
    for hour in _hours_told(chart):
        row = add(body, "tr")
        add(row, "td", text=fixed(hour, 1))
        for at in values:
            add(row, "td", text=fixed(at[hour], chart.y.decimals) if hour in at else "")


def _hours_told(chart: Chart) -> list[float]:
    """Give the hours of the table: of the courses about two dozen, and each at which something was read."""
    hours = sorted({x for line in chart.lines for x in line.xs})
    picked = {*hours[:: max(1, ceil(len(hours) / _MOST_ROWS))], *hours[-1:]}
    return sorted({*picked, *(x for one in chart.dots for x in one.xs)})


def charts_of(found: Debrief, beside: Course | None = None) -> tuple[Chart, ...]:
    """Give the chart of the moisture, and below it that of the warmth, over the same hours."""
    return (
        _chart(
            "moisture", "Moisture", Axis("Moisture", "%", decimals=1), found, beside,
            lambda course: course.moisture, _WET, (Mark(f"wanted at the cast, {found.target:g} %", found.target),),
        ),
        _chart("warmth", "Warmth", Axis("Grain", "C", decimals=1), found, beside, lambda c: c.temps_c, _WARM, ()),
    )  # fmt: skip


def _chart(
    name: str,
    title: str,
    axis: Axis,
    found: Debrief,
    beside: Course | None,
    figure: Callable[[Course], list[float]],
    codes: tuple[str, ...],
    marks: tuple[Mark, ...],
) -> Chart:
    lines = [
        Curve("your batch, as it truly was", found.truth.hours, figure(found.truth)),
        Curve("the good hand’s", found.good.hours, figure(found.good)),
    ]
    if beside:
        lines.append(Curve("the other run", beside.hours, figure(beside)))
    reads = sorted((r for r in found.reads if r.code in codes and r.value is not None), key=lambda r: r.minute)
    begins = found.truth.hours[0] if found.truth.hours else 0.0
    reads = [read for read in reads if read.minute / 60.0 >= begins]
    guesses = [read for read in reads if read.expected is not None]
    bands = (_band(reads),) if len(reads) > 1 else ()
    dots = [Dots("your readings", [r.minute / 60.0 for r in reads], [r.value or 0.0 for r in reads])]
    if guesses:
        dots.append(Dots("what you expected", [r.minute / 60.0 for r in guesses], [r.expected or 0.0 for r in guesses]))
    ys = [y for line in lines for y in line.ys] + [y for one in dots for y in one.ys] + [mark.y for mark in marks]
    return Chart(
        f"practice-{name}",
        title,
        "Over the hours of the run: your batch as it truly was, the good hand’s, and your readings.",
        Axis("Since 06:00 of day 1", "h"),
        _roomy(axis, ys),
        tuple(lines),
        bands,
        (),
        marks,
        tuple(dots) if reads else (),
    )


def _roomy(axis: Axis, ys: list[float]) -> Axis:
    """Give the axis with room above its highest value, for the words of a mark, and at least four units high."""
    low, high = min(ys, default=0.0) - 0.5, max(ys, default=1.0)
    return axis._replace(low=low, high=max(high + 0.12 * (high - low), low + 4.0))


def _band(reads: list[Read]) -> Band:
    """What the readings left open: from one to the next, four in five."""
    once = [reads[0], *(two for one, two in pairwise(reads) if two.minute > one.minute)]
    return Band(
        "your readings, with their doubt",
        [read.minute / 60.0 for read in once],
        [(read.value or 0.0) - read.doubt for read in once],
        [(read.value or 0.0) + read.doubt for read in once],
    )
