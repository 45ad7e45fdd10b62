"""The list behind the fenced block ``sheets``: a link to each sheet, with its title and what it answers."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from calculators.drawing.elements import add, html
from calculators.sheets import find_sheet


def sheet_links(body: str) -> str:
    """Draw the links to the sheets whose ids stand in a text.

    Raises
    ------
    LookupError
        When there is no sheet of an id.
    """
    outer = Element("div", {"class": "doors sheets"})
    listed = add(outer, "ul")
    for sheet_id in body.split():
        sheet = find_sheet(sheet_id)
        link = add(add(listed, "li"), "a", href=f"sheet:{sheet.id}")
        add(link, "strong", text=sheet.title).tail = f" {sheet.purpose}"
    return html(outer)
