"""The malt of each batch, and what it went together with: tables, no lines."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from ...asking.figures import fixed
from ...asking.units import shown
from ...drawing.chart import Data
from ...drawing.elements import add
from ...drawing.results import numbers_table
from ..house.malts import FEWEST_EACH, MALT_FIGURES, Compared, analysed, compared
from ..house.summary import Figure, Summary
from ..lines.reports import many

_MOST_SHOWN = 60
_WORDS = {
    "too-few": f"too few: {FEWEST_EACH} on each side are wanted",
    "open": "not told apart",
    "apart": "told apart: went together",
}


def malts_part(rows: Sequence[Summary]) -> list[Element]:
    """What the laboratory said of each batch, and each figure against lot, steep, floor and readiness."""
    box = Element("div", {"class": "malts"})
    add(box, "h2", text="The malt that came of it")
    known = analysed(rows)
    if not known:
        add(
            box,
            "p",
            "remark",
            "No analysis is written yet. Open a batch in the day-book, also one that has long gone to the kiln, and "
            "write "
            "“Malt analysed”.",
        )
        return [box]
    figures = [one for one in MALT_FIGURES if any(getattr(row, one.id) is not None for row in known)]
    heads = ("Batch", *(f"{one.label}, {shown(one.unit)}" for one in figures))
    table = tuple(
        (row.batch.id, *(_said(getattr(row, one.id), one) for one in figures)) for row in known[-_MOST_SHOWN:]
    )
    numbers_table(box, f"Malt of {many(len(known), 'batch', 'batches')}", Data(heads, table))
    found = compared(known)
    if not found:
        add(
            box,
            "p",
            "remark",
            "There is nothing to compare yet: one malt says what it is, and nothing of why."
            if len(known) == 1
            else "Nothing parts these batches into two groups.",
        )
        return [box]
    made = sum(one.found is not None for one in found)
    add(box, "p", text=_told(found, made, len(known)))
    heads = ("Figure", "What that says", "By", "Difference, and what it leaves open", "Means", "Batches")
    numbers_table(box, "The malt against lot, steep, floor and readiness", Data(heads, tuple(map(_row, found))))
    add(
        box,
        "p",
        "remark",
        "Each row splits the batches by one thing; the others differ too. “Went together” is no cause: a trial is, "
        "with one "
        "change and batches by turns.",
    )
    return [box]


def _told(found: Sequence[Compared], made: int, known: int) -> str:
    apart = [one for one in found if one.word == "apart"]
    if not made:
        return (
            f"{many(known, 'malt')} so far: too few to compare. Two results that differ say nothing of why. From "
            f"{FEWEST_EACH} batches on each side of a thing it is tried."
        )
    held = f"{many(made, 'comparison')} made, and each interval widened for that: one in twenty whole tables errs."
    if not apart:
        return f"Nothing is told apart. {held}"
    names = "; ".join(f"{one.figure.label.lower()} by {one.by[0].lower()}{one.by[1:]}" for one in apart)
    return f"Told apart: {names}. {held}"


def _row(one: Compared) -> tuple[str, ...]:
    places = one.figure.decimals
    unit = " points" if one.figure.unit == "%" else f" {shown(one.figure.unit)}"
    means = " and ".join(_said(mean, one.figure) for mean in one.means)
    if one.found is None:
        told = "–"
    else:
        low, high = one.found.difference - one.found.half, one.found.difference + one.found.half
        told = f"{_signed(one.found.difference, places)}{unit} ({_signed(low, places)} to {_signed(high, places)})"
    return (
        one.figure.label,
        _WORDS[one.word],
        f"{one.by}: {one.sides[0]}, against {one.sides[1]}",
        told,
        means,
        f"{one.counts[0]} and {one.counts[1]}",
    )


def _said(value: float | None, figure: Figure) -> str:
    return "–" if value is None else fixed(value, figure.decimals)


def _signed(value: float, places: int) -> str:
    text = fixed(abs(value), places)
    return text if not text.strip("0.") else f"{'+' if value > 0 else '−'}{text}"
