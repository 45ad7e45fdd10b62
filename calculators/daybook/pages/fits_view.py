"""The house's fits as tables: barley lots, batches, days to ready, heat of the floor; with links that offer them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any
from xml.etree.ElementTree import Element

from ... import __version__
from ...asking.declare import Axis, Span, Spans
from ...asking.figures import fixed
from ...drawing.chart import Data
from ...drawing.elements import add
from ...drawing.pictures import draw
from ...drawing.results import numbers_table
from ...models.steep.hydration import MODEL_VERSION
from ...rules.conventions import READY_AT_C
from ..house.days import DaysFit
from ..house.fits import BatchFit, LotFit
from ..house.floor_heat import HeatFit
from ..lines.entry import SCHEMA
from ..lines.kinds import FLOOR
from ..lines.reports import many
from .address import query
from .view import batch_link

FITS_KIND = "steep-to-kiln house fits"
_MOST_DRAWN = 12


def _link(parent: Element, sheet: str, words: str, values: dict[str, str], root: str) -> None:
    add(parent, "a", text=words, href=f"{root}calculators/{sheet}/?{query({'sheet': sheet, **values})}#{sheet}")


def _rate_values(lot: LotFit) -> dict[str, str]:
    values = {"rate_factor": fixed(lot.sheet_rate, 2)}
    if abs(lot.sheet_offset) >= 0.05:
        values["moisture_offset"] = fixed(lot.sheet_offset, 1)
    return values


def lots_part(lots: Sequence[LotFit], root: str) -> list[Element]:
    """Barley lots: averages with their doubt, and links that take them to the sheets."""
    box = Element("div", {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": "Barley lots"})
    table = add(box, "table", "house-fits")
    add(table, "caption", text="Rate factor by barley lot and harvest")
    head = add(add(table, "thead"), "tr")
    for label in (
        "Lot",
        "Harvest",
        "Batches",
        "Rate factor",
        "Likely",
        "Next batch",
        "From batch to batch",
        "To type in a sheet",
        "Opens",
    ):
        add(head, "th", text=label, scope="col")
    body = add(table, "tbody")
    for lot in lots:
        row = add(body, "tr")
        add(row, "th", text=lot.lot, scope="row")
        values = _rate_values(lot)
        typed = f"{values['rate_factor']} and {values.get('moisture_offset', '0')} points at once"
        for words in (
            lot.season or "–",
            str(len(lot.fits)),
            fixed(lot.rate_factor, 2),
            f"{fixed(lot.low, 2)} to {fixed(lot.high, 2)}",
            f"{fixed(lot.next_low, 2)} to {fixed(lot.next_high, 2)}",
            f"± {fixed(100 * lot.spread, 0)} %",
            typed,
        ):
            add(row, "td", text=words)
        cell = add(row, "td")
        _link(cell, "steep-timing", "steep timing", values, root)
        cell[-1].tail = ", "
        _link(cell, "steep-plan", "steep plan", values, root)
    parts = [box]
    if lots:
        drawn = Element("figure")
        spans = tuple(
            Span(f"{lot.lot} {lot.season}".strip(), lot.rate_factor, lot.low, lot.high) for lot in lots[:_MOST_DRAWN]
        )
        picture = Spans(
            "lots",
            "Rate factor of the barley lots",
            f"{many(len(lots), 'lot')}; 1 is the typical barley. Each with the doubt of its average.",
            Axis("rate factor", "", min(span.low for span in spans) - 0.1, max(span.high for span in spans) + 0.1, 2),
            spans,
        )
        drawn.append(draw(picture, "fits"))
        add(drawn, "figcaption", text=picture.summary)
        parts.append(drawn)
    return parts


def batches_part(fits: Sequence[BatchFit], demo: bool) -> Element:
    """Every batch by itself, to be compared."""
    box = Element("div", {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": "Fits of the batches"})
    table = add(box, "table", "batch-fits")
    add(table, "caption", text="Each batch by its own readings")
    head = add(add(table, "thead"), "tr")
    for label in ("Batch", "Lot", "Rate factor", "Likely", "At once, points", "Error, points", "Readings", "Model"):
        add(head, "th", text=label, scope="col")
    body = add(table, "tbody")
    for one in fits:
        row = add(body, "tr")
        batch_link(add(row, "th", scope="row"), one.batch.id, demo)
        for words in (
            one.batch.text("lot") or "–",
            fixed(one.rate_factor, 2),
            f"{fixed(one.low, 2)} to {fixed(one.high, 2)}",
            fixed(one.offset, 1),
            fixed(one.error_points, 2),
            str(one.readings),
            MODEL_VERSION,
        ):
            add(row, "td", text=words)
    return box


def _where(vessel: str) -> str:
    return "On the floor" if vessel == FLOOR else "In drum or box"


def days_part(found: Sequence[tuple[str, DaysFit]], root: str) -> list[Element]:
    """Days to ready at 15 C, by where the batches grew."""
    box = Element("div")
    for vessel, days in found:
        line = add(box, "p", "days-fit")
        line.text = (
            f"{_where(vessel)}: {fixed(days.days, 1)} days from the cast to ready at {fixed(READY_AT_C, 0)} °C "
            f"(± {fixed(2 * days.doubt, 1)}), from {many(len(days.batches), 'batch', 'batches')}; they differ by ± "
            f"{fixed(days.spread, 1)}. "
        )
        values = {"reference_temp_c": fixed(READY_AT_C, 0), "reference_days": fixed(days.days, 1)}
        _link(line, "days-to-ready", "Open days to ready with them", values, root)
        line[-1].tail = "."
        rows = tuple(
            (
                one.batch.id,
                fixed(one.days, 1),
                fixed(one.mean_c, 1),
                fixed(one.at_reference, 1),
                "count" if one.by_count else "way to the kiln",
            )
            for one in days.batches
        )
        heads = ("Batch", "Days", "Mean of the bed, °C", f"Days at {fixed(READY_AT_C, 0)} °C", "Ready by")
        numbers_table(box, f"Days to ready {_where(vessel).lower()}", Data(heads, rows))
    return list(box)


def heat_part(heat: HeatFit | None, root: str) -> list[Element]:
    """The heat of this floor's pieces, with a link that offers it to the round of the floor."""
    if heat is None:
        return []
    line = Element("p", {"class": "heat-fit"})
    line.text = (
        f"Pieces on this floor make {fixed(heat.factor, 2)} times the usual heat of their day and warmth (likely "
        f"{fixed(heat.low, 2)} to {fixed(heat.high, 2)}), from {many(len(heat.batches), 'batch', 'batches')} with "
        "turnings read twice. "
    )
    _link(line, "floor-round", "Open a round of the floor with it", {"heat_factor": fixed(heat.factor, 2)}, root)
    line[-1].tail = "."
    return [line]


def fits_data(
    lots: Sequence[LotFit], fits: Sequence[BatchFit], days: Sequence[tuple[str, DaysFit]], heat: HeatFit | None
) -> dict[str, Any]:
    """The fits as plain data of schema 1, to be kept: the figures, what they rest on, the version of the model."""
    return {
        "schema": SCHEMA,
        "kind": FITS_KIND,
        "version": __version__,
        "model": MODEL_VERSION,
        "lots": [
            {
                "lot": lot.lot,
                "season": lot.season,
                "batches": [one.batch.id for one in lot.fits],
                "rate_factor": lot.rate_factor,
                "low": lot.low,
                "high": lot.high,
                "next_low": lot.next_low,
                "next_high": lot.next_high,
                "spread": lot.spread,
                "sheet": {"rate_factor": lot.sheet_rate, "moisture_offset": lot.sheet_offset},
            }
            for lot in lots
        ],
        "batches": [
            {
                "batch": one.batch.id,
                "lot": one.batch.text("lot"),
                "season": one.batch.text("season"),
                "rate_factor": one.rate_factor,
                "low": one.low,
                "high": one.high,
                "moisture_offset": one.offset,
                "error_points": one.error_points,
                "readings": one.readings,
            }
            for one in fits
        ],
        "days_to_ready": [
            {
                "vessel": vessel,
                "reference_temp_c": READY_AT_C,
                "reference_days": found.days,
                "doubt": found.doubt,
                "spread": found.spread,
                "batches": [one.batch.id for one in found.batches],
            }
            for vessel, found in days
        ],
        "floor_heat": None
        if heat is None
        else {
            "factor": heat.factor,
            "low": heat.low,
            "high": heat.high,
            "batches": [one.batch.id for one in heat.batches],
        },
    }


def fits_text(data: dict[str, Any]) -> str:
    """The same as JSON text."""
    return json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
