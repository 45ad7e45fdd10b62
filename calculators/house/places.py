"""All places of a house at once, for a sheet that asks them in tables: steeps, floors, drums and boxes, kilns."""

from typing import Any

from ..asking.declare import Sheet, Table
from ..asking.figures import plain_number
from . import here

_TABLES: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "steeps": (("steep", ("name", "charge_kg")),),
    "floors": (("floor", ("name", "area_m2")),),
    "vessels": (("drum", ("name", "=drum", "charge_kg")), ("box", ("name", "=box", "charge_kg"))),
    "kilns": (("kiln", ("name", "charge_kg")),),
}
"""By the question, the sections of a house's file that fill its rows, and what stands in each cell, the rest blank."""


def places_for(sheet: Sheet) -> dict[str, str]:
    """Give the rows that a house's file has for a sheet's tables of places; nothing where it has none of them.

    Returns
    -------
    dict of str to str
        Text by question, cells apart by tabs. What the file does not say stays blank, to be typed.
    """
    found: dict[str, str] = {}
    for name, parts in _TABLES.items():
        question = sheet.question(name)
        if not isinstance(question, Table):
            continue
        rows = ["\t".join(_row(question, entry, cells)) for kind, cells in parts for entry in here.entries(kind)]
        if rows and len(rows) <= question.max_rows:
            found[name] = "\n".join(rows)
    return found


def _row(question: Table, entry: dict[str, Any], cells: tuple[str, ...]) -> list[str]:
    row = [cell[1:] if cell.startswith("=") else _typed(entry.get(cell)) for cell in cells]
    return row + [""] * (len(question.columns) - len(row))


def _typed(value: object) -> str:
    text = plain_number(value) if isinstance(value, (int, float)) else str(value or "")
    return " ".join(text.replace(";", ",").split())
