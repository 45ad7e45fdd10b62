"""What stands with a sheet and on its printed card: the limits that this house has moved, and its paper."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from calculators.asking.figures import plain_number
from calculators.asking.units import shown
from calculators.drawing.elements import add, html
from calculators.house import here
from calculators.rules import house as moved
from calculators.rules.limit import BOOK, Limit
from site_src.house.limits import EDGES
from site_src.house.used import limits_of_sheet

_SAID = dict(zip(EDGES, ("stop under", "accepted from", "accepted up to", "stop over"), strict=True))


def with_house(drawn: str, sheet_id: str) -> str:
    """The HTML of a sheet with what this house has to say of it at its end; the same where it has nothing.

    Parameters
    ----------
    drawn : str
        The sheet, as it ends in ``</section>``.
    sheet_id : str
        Which sheet.
    """
    box = Element("div", {"class": "house-limits", "data-search-exclude": ""})
    if name := here.house().get("name"):
        add(box, "p", "card-line house-name", f"Printed at: {name}.")
    said = here.said_paper(f"calculators/{sheet_id}")
    if said:
        add(box, "p", "card-line", f"This card: {said}.")
    for limit in limits_of_sheet(sheet_id) if BOOK else ():
        if limit.id in BOOK and (words := moved_words(limit)):
            add(box, "p", "card-line", words)
    if not len(box):
        return drawn
    end = drawn.rindex("</section>")
    return f"{drawn[:end]}{html(box)}{drawn[end:]}"


def moved_words(limit: Limit) -> str:
    """A limit that this house has moved, in a line: its edges, the book's, why, and whose word it is.

    Empty where only its words follow another limit that was moved.
    """
    book = BOOK[limit.id]
    unit = f" {shown(limit.unit)}" if limit.unit else ""
    edges = [
        f"{_SAID[edge]} {plain_number(ours)}{unit} (the book: {plain_number(theirs)}{unit})"
        for edge in EDGES
        if (ours := getattr(limit, edge)) is not None
        and (theirs := getattr(book, edge)) is not None
        and ours != theirs
    ]
    if not edges:
        return ""
    why = moved.REASONS.get(limit.id, {})
    said = f" Reason: {why['reason']} ({why['office']})." if why else " It follows another limit of this house."
    return f"This house: {limit.quantity}, {', '.join(edges)}.{said}"
