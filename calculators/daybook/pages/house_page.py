"""Requests that look over all batches: looking back, and the house's fits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from xml.etree.ElementTree import Element

from ..batch.batch import Batch
from ..house.days import DaysFit
from ..house.days import average as average_days
from ..house.fits import BatchFit, LotFit, lot_fits
from ..house.floor_heat import HeatFit
from ..house.floor_heat import average as average_heat
from ..house.house import book_of, kept_batch
from ..house.summary import summaries
from ..house.sums import Brief, OneOf, doubted, fitted, grown, heated, summed
from ..lines.kinds import DRUM, FLOOR
from .charts import figure_of
from .fits_view import batches_part, days_part, fits_data, fits_text, heat_part, lots_part
from .look_back import charts_of, off_rows, status_of, table_of, this_one
from .malts_view import malts_part

MOST_FITTED = 40
"""So many batches are fitted for the page, the last ones; the command line fits all."""

MOST_ROWS = 60
"""So many batches stand in the table, until the page asks for more."""

Reply = dict[str, Any]


class Fits:
    """All that the house has learned: by lot, by batch, days, heat."""

    def __init__(self, batches: Sequence[OneOf], most: int = MOST_FITTED) -> None:
        wet = _in_turn(batches)
        self.fits: list[BatchFit] = [fit for fit in map(fitted, wet[-most:]) if fit]
        self.lots: list[LotFit] = lot_fits(self.fits)
        by_vessel = [(vessel, [grown(b) for b in wet if b.vessel == vessel]) for vessel in (FLOOR, DRUM)]
        found = [(vessel, average_days([days for days in grew if days])) for vessel, grew in by_vessel]
        self.days: list[tuple[str, DaysFit]] = [(vessel, days) for vessel, days in found if days]
        self.heat: HeatFit | None = average_heat([heat for heat in map(heated, _floors(wet, most)) if heat])

    def data(self) -> dict[str, Any]:
        """As plain data."""
        return fits_data(self.lots, self.fits, self.days, self.heat)


def _in_turn(batches: Sequence[OneOf]) -> list[OneOf]:
    """Those that have been wet, in the order in which they were begun."""
    return sorted((b for b in batches if b.begun is not None), key=lambda b: b.begun or b.last_utc)


def _floors(wet: Sequence[OneOf], most: int) -> list[OneOf]:
    return [b for b in wet if b.vessel == FLOOR][-most // 4 :]


def _batches(asked: Reply) -> list[Batch]:
    return [kept_batch(name, entries) for name, entries in book_of(asked["entries"]).items()]


def _all(asked: Reply) -> list[OneOf]:
    """Those whose lines are at hand, and those of which the page has kept sums."""
    whole = _batches(asked)
    names = {batch.id for batch in whole}
    return [*whole, *(Brief(one) for one in asked.get("sums") or () if one["id"] not in names)]


def _wanted(batches: Sequence[OneOf]) -> list[str]:
    """Those of which only the quick sums are there, though the last ones are looked at more closely."""
    wet = _in_turn(batches)
    looked_at = {one.id: one for one in (*wet[-MOST_FITTED:], *_floors(wet, MOST_FITTED))}
    return [name for name, one in looked_at.items() if isinstance(one, Brief) and one.kept is None]


def look_back(asked: Reply) -> tuple[dict[str, list[Element]], Reply]:
    """Places ``table`` and ``charts``; ``batch`` names the one that is held against the ten before it.

    Where the page has sums of batches, ``sums``, their lines are not needed. ``wanted`` in the reply names those whose
    closer sums are missing.
    """
    demo = bool(asked.get("demo"))
    batches = _all(asked)
    rows = summaries(batches, fitted, MOST_FITTED, summed)
    name = str(asked.get("batch") or "")
    chosen = next((one for one in rows if one.batch.id == name), rows[-1] if rows else None)
    if not rows:
        empty = Element("p", {"class": "remark"})
        empty.text = "No batch of this book has been wet yet. There is nothing to look back on."
        return {"table": [empty], "charts": [], "malts": []}, {"status": ""}
    table = [table_of(rows, demo, int(asked.get("most") or MOST_ROWS))]
    if chosen is not None:
        table += this_one(chosen, rows[: rows.index(chosen)])
    table.append(off_rows(rows, doubted))
    charts = [part for chart in charts_of(rows, chosen) for part in figure_of(chart, "look-back")]
    places = {"table": table, "charts": charts, "malts": malts_part(rows)}
    return places, {"status": status_of(rows), "wanted": _wanted(batches)}


def held(asked: Reply) -> tuple[dict[str, list[Element]], Reply]:
    """Place ``held``: how often the bands of the forecast held in the last finished batches."""
    from ..house.held import held_of
    from .held_view import held_part

    return {"held": held_part(held_of(_batches(asked)), str(asked.get("root") or ""))}, {}


def fits(asked: Reply) -> tuple[dict[str, list[Element]], Reply]:
    """Place ``fits``; the reply also has them as a file, ``text`` and ``name``."""
    demo, root = bool(asked.get("demo")), str(asked.get("root") or "")
    known = Fits(_all(asked))
    parts: list[Element] = []
    if known.fits:
        parts += [*lots_part(known.lots, root), batches_part(known.fits, demo)]
    parts += days_part(known.days, root) + heat_part(known.heat, root)
    if not parts:
        empty = Element("p", {"class": "remark"})
        empty.text = "No batch of this book has been weighed yet. There is nothing to fit."
        parts = [empty]
    date = str(asked.get("date") or "")[:10]
    return {"fits": parts}, {
        "text": fits_text(known.data()),
        "name": f"house-fits-{date}.json" if date else "house-fits.json",
    }
