"""How often the forecast's bands held in a house's own batches, as a table."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from ...asking.figures import fixed
from ...drawing.chart import Data
from ...drawing.elements import add
from ...drawing.links import fill
from ...drawing.results import numbers_table
from ..house.held import AT_THE_CAST, FIGURES, NOTHING_READ, SHARES, HouseHeld, Outside
from ..lines.reports import many

_HEADS = {NOTHING_READ: "Foretold before anything was read", AT_THE_CAST: "Foretold at the cast"}
_UNITS = {"steep": " %", "bed": " %", "chits": " %", "apart": " K", "long": " %"}
_MOST_NAMED = 12


def _value(one: Outside, value: float) -> str:
    return fixed(100.0 * value, 0) if one.figure in SHARES else fixed(value, 1)


def held_part(found: HouseHeld, root: str) -> list[Element]:
    """The table “held in n of m”, what it means, and what lay outside."""
    box = Element("div")
    if not found.held:
        add(box, "p", "remark", "No finished batch of this book has readings that a forecast could be held against.")
        return [box]
    counts = {(one.figure, one.when): f"held in {one.inside} of {one.of}" for one in found.held}
    rows = tuple(
        (label, *(counts.get((figure, when), "–") for when in _HEADS))
        for figure, label in FIGURES.items()
        if any((figure, when) in counts for when in _HEADS)
    )
    inside, of = sum(one.inside for one in found.held), sum(one.of for one in found.held)
    words = (
        "The [[sheet:batch-forecast]] was made again for the last "
        f"{many(found.batches, 'finished batch', 'finished batches')}. "
        f"In all its bands held in {inside} of {of}; they claim 95 of 100. Readings of one batch are wrong together, "
        "so a few batches prove little."
    )
    fill(add(box, "p"), words, root)
    numbers_table(box, "How often the bands of the forecast held", Data(("Figure", *_HEADS.values()), rows))
    if found.left_out:
        left_out = many(found.left_out, "batch", "batches")
        add(box, "p", "remark", f"{left_out} could not be foretold, or had nothing read of them later.")
    if found.outside:
        lines = tuple(
            (
                one.batch.id,
                _HEADS[one.when],
                FIGURES[one.figure],
                f"{fixed(one.hour, 0)} h",
                f"{_value(one, one.read)}{_UNITS[one.figure]}",
                f"{_value(one, one.low)} to {_value(one, one.high)}{_UNITS[one.figure]}",
            )
            for one in found.outside[-_MOST_NAMED:]
        )
        heads = ("Batch", "Foretold", "Figure", "Hour", "Read", "Band")
        numbers_table(box, "Readings outside their band, the last ones", Data(heads, lines))
    return [box]
