"""What is said after a file was read into the day-book: how many lines came, and what was refused and why."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from ...drawing.chart import Data
from ...drawing.elements import add
from ...drawing.results import numbers_table
from .exchange import MOST_IN_REPORT, Import, Refused


def many(count: int, one: str, more: str = "") -> str:
    """A count with its word: ``1 line``, ``3 lines``."""
    return f"{count} {one if count == 1 else more or one + 's'}"


def refused_report(name: str, why: str) -> Element:
    """The one sentence about a file that was refused whole."""
    told = Element("p", {"class": "refusal"})
    told.text = f"{name}: {why}"
    return told


def import_report(name: str, found: Import) -> list[Element]:
    """What a file brought: counts, then the rows that were not taken, each with its reason."""
    parts = []
    head = Element("p", {"class": "import-counts"})
    said = [f"{many(len(found.new), 'new line')}", f"{found.same} already in the book"]
    if found.refused:
        said.append(f"{len(found.refused)} refused")
    if found.differing:
        said.append(f"{len(found.differing)} in the book with other words")
    head.text = f"{name}: {', '.join(said)}."
    parts.append(head)
    if found.doubtful:
        note = Element("p", {"class": "remark"})
        note.text = (
            f"Taken as it stands in the backup, with something to be put right: {many(found.doubtful, 'line')}. "
            "What it is stands beside the line in its batch."
        )
        parts.append(note)
    for title, rows in (("Rows refused", found.refused), ("Lines that differ from the book", found.differing)):
        parts += _rows(title, rows)
    return parts


def _rows(title: str, rows: Sequence[Refused]) -> list[Element]:
    if not rows:
        return []
    box = Element("div")
    listed = tuple((str(one.row), one.what, one.why) for one in rows[:MOST_IN_REPORT])
    numbers_table(box, title, Data(("Row", "What", "Why"), listed))
    if len(rows) > MOST_IN_REPORT:
        add(box, "p", "remark", f"And {len(rows) - MOST_IN_REPORT} more.")
    return list(box)
