"""What this house has put into its file; nothing in the book as it comes.

The build makes the module ``calculators.house_data`` of a house's file after checking it; the repository holds none.
Everything in it is text or a number as it was typed: nothing of it is markup, and no sheet takes any of it by itself.
"""

from collections.abc import Mapping
from typing import Any

Entry = Mapping[str, Any]

HOUSE: dict[str, list[dict[str, Any]]] = {}
OFFERED: dict[str, list[tuple[str, str]]] = {}
"""What is offered to a question of a sheet, by its id: as it would be typed, and how it is called here."""

try:
    from .. import house_data  # type: ignore[attr-defined,unused-ignore]
except ImportError:
    pass
else:
    HOUSE, OFFERED = house_data.HOUSE, house_data.OFFERED


def entries(section: str) -> list[dict[str, Any]]:
    """What a house has put into a section, an entry for each of its tables; none where it has said nothing."""
    return HOUSE.get(section, [])


def has_any() -> bool:
    """Whether the house has said anything."""
    return bool(HOUSE)


def house() -> Entry:
    """What the house says of itself."""
    found = entries("house")
    return found[0] if found else {}


def paper_of(page: str) -> Entry | None:
    """Number, version, date, office and review of the paper that a page of the book is; None where it has none.

    Parameters
    ----------
    page : str
        Its address, such as ``procedures/steeping`` or ``reference/records/steep-record``.
    """
    return next((one for one in entries("paper") if one.get("page") == page), None)


def said_paper(page: str) -> str:
    """One line for a paper: ``P-05, version 3 of 1 Mar 2026, approved: head of malting``; empty where it has none."""
    paper = paper_of(page)
    if paper is None:
        return ""
    number = str(paper.get("number", ""))
    version = f"version {paper['version']}" if paper.get("version") else ""
    since = f"of {said_day(str(paper['date']))}" if paper.get("date") else ""
    approved = f"approved: {paper['office']}" if paper.get("office") else ""
    review = f"read again by {said_day(str(paper['review']))}" if paper.get("review") else ""
    return ", ".join(part for part in (number, " ".join((version, since)).strip(), approved, review) if part)


_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def said_day(day: str) -> str:
    """A day as this house writes it; ``day`` is written 2026-11-29."""
    year, month, number = day.split("-")
    style = house().get("dates", "29 Nov 2026")
    if style == "2026-11-29":
        return day
    if style == "29.11.2026":
        return f"{number}.{month}.{year}"
    names = house().get("months") or _MONTHS
    return f"{int(number)} {names[int(month) - 1]} {year}"


def names(section: str) -> list[str]:
    """How the entries of a section are called."""
    return [str(one["name"]) for one in entries(section) if one.get("name")]
