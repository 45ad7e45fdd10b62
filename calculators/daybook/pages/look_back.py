"""Looking back: a table and charts over the batches of a book, one against the ten before it, what was off and when."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from xml.etree.ElementTree import Element

from ...asking.declare import Axis, Chart, Dots, Line, Mark
from ...asking.figures import fixed
from ...asking.units import shown
from ...drawing.chart import Data
from ...drawing.elements import add
from ...drawing.results import numbers_table
from ...models.living import ready
from ...models.steep.hydration import WATER_TEMP_C, uptake_rate
from ...rules.conventions import READY_AT_C
from ..batch.batch import Told
from ..house.summary import FIGURES, LAST, Against, Summary, against
from ..lines.reports import many
from .view import batch_link, said_time

_MOST_CHECKED = 40
_MOST_SHOWN = 60
"""So many batches stand in the table before somebody asks for more, and are looked through for figures far off."""
_MOST_DRAWN = 200
_TABLE = "Batches side by side"


def _figure(value: float | None, decimals: int) -> str:
    return "–" if value is None else fixed(value, decimals)


def _first(one: Summary) -> datetime:
    return one.batch.first_local or one.batch.last_utc


def table_of(rows: Sequence[Summary], demo: bool, most: int = _MOST_SHOWN) -> Element:
    """A line for each of the last batches, the first one first; a button shows the ones before."""
    last = rows[-most:]
    box = Element(
        "div", {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": "Batches side by side"}
    )
    table = add(box, "table", "look-back")
    caption = _TABLE if len(last) == len(rows) else f"{_TABLE}: the last {len(last)} of {len(rows)}"
    add(table, "caption", text=caption)
    if len(last) < len(rows):
        button = Element("button", {"type": "button", "data-action": "more-batches"})
        button.text = f"Show more batches ({len(rows) - len(last)} before these)"
        box.insert(0, button)
    head = add(add(table, "thead"), "tr")
    figures = [one for one in FIGURES if not one.malt]
    heads = [f"{one.label}, {shown(one.unit)}" if one.unit else one.label for one in figures]
    for label in ("Batch", "Begun", "Lot", "Grown in", *heads):
        add(head, "th", text=label, scope="col")
    body = add(table, "tbody")
    for one in last:
        line = add(body, "tr")
        batch_link(add(line, "th", scope="row"), one.batch.id, demo)
        moment = _first(one)
        add(line, "td", text=f"{moment.day} {moment:%b %Y}")
        add(
            line, "td", text=" ".join(part for part in (one.batch.text("lot"), one.batch.text("season")) if part) or "–"
        )
        add(line, "td", text=one.batch.text("vessel") or one.batch.vessel)
        for figure in figures:
            add(line, "td", "number", _figure(getattr(one, figure.id), figure.decimals))
    return box


def _words(found: Against) -> str:
    unit = f" {shown(found.figure.unit)}" if found.figure.unit else ""
    places = found.figure.decimals
    label = found.figure.label[0].lower() + found.figure.label[1:]
    return (
        f"{label}: {fixed(found.value, places)}{unit} against {fixed(found.mean, places)} ± "
        f"{fixed(found.spread, max(places, 1))}"
    )


def this_one(one: Summary, before: Sequence[Summary]) -> list[Element]:
    """One batch against the last ten before it."""
    box = Element("div", {"class": "this-one"})
    add(box, "h2", text=f"Batch {one.batch.id} against those before it")
    found = against(one, before)
    if not found:
        add(box, "p", "remark", f"Too few finished batches before it: {many(len(before), 'batch', 'batches')}.")
        return [box]
    off = [item for item in found if item.off]
    if off:
        add(box, "p", "off", "Off: " + "; ".join(_words(item) for item in off) + ".")
    else:
        add(box, "p", text="No figure lies far from the batches before.")
    heads = ("Figure", "This batch", "Mean of those before", "Spread", "How many", "Far off")
    rows = []
    for item in found:
        unit = f" {shown(item.figure.unit)}" if item.figure.unit else ""
        places = item.figure.decimals
        said = (item.figure.label, fixed(item.value, places) + unit, fixed(item.mean, places) + unit)
        rows.append((*said, fixed(item.spread, max(places, 1)), str(item.others), "yes" if item.off else "no"))
    numbers_table(box, f"Figures of batch {one.batch.id} and of up to {LAST} before", Data(heads, tuple(rows)))
    return [box]


def off_rows(
    rows: Sequence[Summary], doubts: Callable[[Told], Sequence[tuple[str, str]]], most: int = _MOST_SHOWN
) -> Element:
    """What was off and when: entries that cannot be right, and figures far from the batches before.

    ``doubts`` gives what cannot be right in a batch, each with when; the last ones are asked for it.
    """
    found = []
    for number, one in list(enumerate(rows))[-most:]:
        if number >= len(rows) - _MOST_CHECKED:
            found += [(one.batch.id, when, what) for when, what in doubts(one.batch)]
        for item in against(one, rows[:number]):
            if item.off:
                found.append((one.batch.id, said_time(_first(one), year=True), f"Far off: {_words(item)}."))
    box = Element("div")
    if not found:
        add(box, "p", "remark", "Nothing was off.")
    else:
        of = f" in the last {most} batches" if len(rows) > most else ""
        numbers_table(box, f"What was off{of}, and when", Data(("Batch", "When", "What"), tuple(found)))
    return box


def _scatter(
    name: str,
    title: str,
    x: Axis,
    y: Axis,
    points: Sequence[tuple[Summary, float, float]],
    chosen: Summary | None,
    line: Line | None,
    marks: tuple[Mark, ...] = (),
) -> Chart | None:
    if len(points) < 2:
        return None
    others = [(a, b) for one, a, b in points if chosen is None or one.batch.id != chosen.batch.id]
    mine = [(a, b) for one, a, b in points if chosen is not None and one.batch.id == chosen.batch.id]
    dots = []
    if others:
        dots.append(Dots("batches", [a for a, _ in others], [b for _, b in others]))
    if mine and chosen is not None:
        dots.append(Dots(f"batch {chosen.batch.id}", [a for a, _ in mine], [b for _, b in mine]))
    values = [b for _, _, b in points]
    unit = f" {shown(y.unit)}" if y.unit else ""
    room = max(0.1 * (max(values) - min(values)), 10.0**-y.decimals)
    if x.low is None and points:
        places = [a for _, a, _ in points]
        aside = max(0.05 * (max(places) - min(places)), 0.2)
        x = x._replace(low=min(places) - aside, high=max(places) + aside)
    heights = [*values, *(line.ys if line else ()), *(mark.y for mark in marks)]
    return Chart(
        name,
        title,
        f"{many(len(points), 'batch', 'batches')}, from {fixed(min(values), y.decimals)} to "
        f"{fixed(max(values), y.decimals)}{unit}.",
        x,
        y._replace(low=min(heights) - room, high=max(heights) + room),
        lines=(line,) if line else (),
        marks=marks,
        dots=tuple(dots),
    )


def _law(points: Sequence[tuple[Summary, float, float]], pace: Callable[[float], float], label: str) -> Line | None:
    """The curve that goes through the middle of the points by a law of warmth."""
    if len(points) < 2:
        return None
    low, high = min(a for _, a, _ in points), max(a for _, a, _ in points)
    if high - low < 0.5:
        return None
    middle = sorted(b * pace(a) for _, a, b in points)[len(points) // 2]
    xs = [low + (high - low) * n / 20 for n in range(21)]
    return Line(label, xs, [middle / pace(x) for x in xs])


def _pairs(rows: Sequence[Summary], x: str, y: str) -> list[tuple[Summary, float, float]]:
    found = []
    for one in rows:
        a, b = getattr(one, x), getattr(one, y)
        if a is not None and b is not None:
            found.append((one, a, b))
    return found


def _in_turn(rows: Sequence[Summary], y: str, before: int) -> list[tuple[Summary, float, float]]:
    return [(one, float(n), b) for n, one in enumerate(rows, before + 1) if (b := getattr(one, y)) is not None]


def _running(points: Sequence[tuple[Summary, float, float]]) -> Line | None:
    """The mean of the last ten, each with itself."""
    if len(points) < 2:
        return None
    values = [b for _, _, b in points]
    means = [sum(values[max(0, n - LAST + 1) : n + 1]) / min(n + 1, LAST) for n in range(len(values))]
    return Line("mean of the last ten", [a for _, a, _ in points], means)


def charts_of(rows: Sequence[Summary], chosen: Summary | None) -> list[Chart]:
    """The charts over the last batches; one of them is marked."""
    before = max(len(rows) - _MOST_DRAWN, 0)
    rows = rows[before:]
    wet, days = _pairs(rows, "water_c", "wet_h"), _pairs(rows, "bed_c", "days")
    cast, lost = _in_turn(rows, "cast_moisture", before), _in_turn(rows, "loss", before)
    targets = [one.batch.number("target_moisture") for one in rows]
    target = next((t for t in reversed(targets) if t is not None), None)
    turn = Axis("batches in turn", "", before + 0.5, before + len(rows) + 0.5, 0)
    charts = (
        _scatter(
            "wet",
            "Hours under water by water temperature",
            Axis("water temperature", "C", decimals=1),
            Axis("under water", "h", decimals=1),
            wet,
            chosen,
            _law(
                wet,
                lambda c: uptake_rate(water_temp_c=min(max(c, WATER_TEMP_C.low), WATER_TEMP_C.high)),
                "by the model’s law of warmth",
            ),
        ),
        _scatter(
            "cast",
            "Moisture at the cast",
            turn,
            Axis("moisture, drained", "%", decimals=1),
            cast,
            chosen,
            _running(cast),
            (Mark(f"target {fixed(target, 1)} %", target),) if target is not None and cast else (),
        ),
        _scatter(
            "days",
            "Days from the cast to ready by bed temperature",
            Axis("mean of the bed", "C", decimals=1),
            Axis("days", "", decimals=1),
            days,
            chosen,
            _law(
                days,
                lambda c: ready.pace(temp_c=ready.nearest_bed_c(c), reference_temp_c=READY_AT_C),
                "by the pace of growth",
            ),
        ),
        _scatter(
            "loss",
            "Dry matter lost up to the kiln door",
            turn,
            Axis("of the barley’s dry matter", "%", decimals=1),
            lost,
            chosen,
            _running(lost),
        ),
    )
    return [chart for chart in charts if chart is not None]


def status_of(rows: Sequence[Summary]) -> str:
    """How many batches there are to look back on."""
    done = sum(one.batch.finished for one in rows)
    return f"{many(len(rows), 'batch', 'batches')}, {done} of them finished." if rows else ""
