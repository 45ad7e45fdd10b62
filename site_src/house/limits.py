"""Edges of the book's limits that a house moves, from the table ``limits`` of its file."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping

from calculators.rules.limit import BOOK, Limit
from calculators.rules.limits import every
from site_src.phrases import faults as phrases_of
from site_src.settings import BuildError

Fault = Callable[[str, str, str], BuildError]
"""Makes a fault of a text, the heading it stands under and the key."""

EDGES = ("stop_low", "accept_low", "accept_high", "stop_high")
OTHER = ("reason", "office")
LONGEST = 200


def limits() -> dict[str, Limit]:
    """Every limit with edges in numbers as the book has it, by its id."""
    return {row.id: BOOK.get(row.id, row) for row in every() if isinstance(row, Limit)}


def edges_of(name: str, table: object, fault: Fault) -> dict[str, float]:
    """The checked edges of one limit.

    Parameters
    ----------
    name : str
        Its id.
    table : object
        What stands under its heading.
    fault : callable
        Makes the fault with its line.

    Raises
    ------
    BuildError
        When there is no such limit, or the table asks for what a house may not change.
    """
    return _Reader(fault).edges(name, table)


def line_of_text(key: str, value: object) -> str:
    """What is wrong with a reason or an office, or nothing."""
    if not isinstance(value, str) or len(value) > LONGEST or not value.isprintable():
        return f"{key} is one line of text of at most {LONGEST} letters."
    if "[[" in value:
        return f"{key}: “[[” is a mark of this book’s own pages; leave it out."
    if said := phrases_of(value):
        return f"{key}: no paper may say that a place may be gone into or is without harm: {said[0]:.120}"
    return ""


class _Reader:
    def __init__(self, fault: Fault) -> None:
        self._fault = fault

    def fault(self, word: str, text: str, within: str) -> BuildError:
        return self._fault(text, f"limits.{within}", word if word != within else "")

    def edges(self, name: str, table: object) -> dict[str, float]:
        known = {row.id: BOOK.get(row.id, row) for row in every()}
        row = known.get(name)
        if row is None:
            near = difflib.get_close_matches(name, known, 3)
            hint = f"Did you mean: {', '.join(near)}?" if near else f"There are: {', '.join(known)}."
            raise self.fault(name, f"there is no limit “{name}”. {hint}", name)
        if not isinstance(row, Limit):
            raise self.fault(name, f"{row.quantity} has no edges in numbers that a house could move.", name)
        if not isinstance(table, dict):
            raise self.fault(name, f"write [limits.{name}] above the edges.", name)
        for key, value in table.items():
            self._key(name, key, value)
        for key in OTHER:
            if not table.get(key):
                raise self.fault(name, f"{row.quantity}: write {key} = “…” too.", name)
        moved = {key: float(table[key]) for key in EDGES if key in table}
        if not moved:
            raise self.fault(name, f"{row.quantity}: no edge is given. Its edges: {', '.join(_has(row))}.", name)
        for key, value in moved.items():
            self._moved(row, key, value)
        new = row._replace(**moved)  # type: ignore[arg-type]
        order = [edge for edge in (getattr(new, key) for key in EDGES) if edge is not None]
        if order != sorted(order):
            said = ", ".join(f"{key} {getattr(new, key):g}" for key in EDGES if getattr(new, key) is not None)
            text = f"{row.quantity}: the edges cross: {said}. Each no lower than the last."
            raise self.fault(next(iter(moved)), text, name)
        return moved

    def _key(self, name: str, key: str, value: object) -> None:
        if key in EDGES:
            if isinstance(value, bool) or not isinstance(value, (int, float)) or value != value or abs(value) > 1e9:
                raise self.fault(key, f"{key} is a number, such as {key} = 10, not {value!r:.60}.", name)
        elif key in OTHER:
            if wrong := line_of_text(key, value):
                raise self.fault(key, wrong, name)
        else:
            raise self.fault(key, f"“{key:.40}” is not known. Known are: {', '.join((*EDGES, *OTHER))}.", name)

    def _moved(self, row: Limit, key: str, value: float) -> None:
        old = getattr(row, key)
        if old is None:
            raise self.fault(key, f"{row.quantity} has no {key}. Its edges: {', '.join(_has(row))}.", row.id)
        if row.safety:
            if (value < old) if key.endswith("low") else (value > old):
                raise self.fault(
                    key, f"{row.quantity} keeps people from harm: {key} {old:g} can only be made tighter.", row.id
                )
        elif row.lowest is None or row.highest is None or not row.lowest <= value <= row.highest:
            span = f"from {row.lowest:g} to {row.highest:g} {row.unit}" if row.lowest is not None else "nowhere"
            raise self.fault(key, f"{row.quantity}: {key} can be moved {span}, not to {value:g}.", row.id)


def _has(row: Limit) -> list[str]:
    return [f"{key} {getattr(row, key):g}" for key in EDGES if getattr(row, key) is not None]


def reasons_of(tables: Mapping[str, Mapping[str, object]]) -> dict[str, dict[str, str]]:
    """The reason and the office of each table that was checked."""
    return {name: {key: str(table[key]) for key in OTHER} for name, table in tables.items()}
