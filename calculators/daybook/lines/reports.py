"""What is said after a file was read into the day-book: how many lines came, and what was refused and why."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple
from xml.etree.ElementTree import Element

from ...drawing.chart import Data
from ...drawing.elements import add
from ...drawing.results import numbers_table
from .exchange import MOST_IN_REPORT, Refused


def many(count: int, one: str, more: str = "") -> str:
    """A count with its word: ``1 line``, ``3 lines``."""
    return f"{count} {one if count == 1 else more or one + 's'}"


def refused_report(name: str, why: str) -> Element:
    """The one sentence about a file that was refused whole."""
    told = Element("p", {"class": "refusal"})
    told.text = f"{name}: {why}"
    return told


class Brought(NamedTuple):
    """What a file, or all parts of one, brought: counts of lines, and the rows that were not taken.

    Attributes
    ----------
    new, same, differing, doubtful : int
        Lines that were new, in the book already, there with other words, and taken though something is to be put right.
    refused : sequence of Refused
        The first of the rows that were not taken, those that differ among them.
    most : int
        How many of these there are.
    """

    new: int
    same: int
    differing: int
    doubtful: int
    refused: Sequence[Refused]
    most: int


def import_report(name: str, found: Brought) -> list[Element]:
    """What a file brought: counts, then the rows that were not taken, each with its reason."""
    parts = []
    head = Element("p", {"class": "import-counts"})
    said = [f"{many(found.new, 'new line')}", f"{found.same} already in the book"]
    if found.most > found.differing:
        said.append(f"{found.most - found.differing} refused")
    if found.differing:
        said.append(f"{found.differing} in the book with other words")
    head.text = f"{name}: {', '.join(said)}."
    parts.append(head)
    if found.doubtful:
        note = Element("p", {"class": "remark"})
        note.text = (
            f"Taken as it stands in the backup, with something to be put right: {many(found.doubtful, 'line')}. "
            "What it is stands beside the line in its batch."
        )
        parts.append(note)
    return parts + _rows("Rows that were not taken", found)


def _rows(title: str, found: Brought) -> list[Element]:
    if not found.refused:
        return []
    box = Element("div")
    listed = tuple((str(one.row), one.what, one.why) for one in found.refused[:MOST_IN_REPORT])
    numbers_table(box, title, Data(("Row", "What", "Why"), listed))
    if found.most > len(listed):
        add(box, "p", "remark", f"And {found.most - len(listed)} more.")
    return list(box)
