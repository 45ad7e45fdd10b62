"""What a house offers to a sheet: its vessels, waters, plans, barley and baskets, by name, to be chosen or left.

Nothing of it stands in a form by itself, and nothing is offered to a sheet about gas, vessels or lifting.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element

from ..asking.declare import Choice, Sheet, Table
from ..asking.figures import plain_number
from ..asking.reading import read_cell, split_rows
from ..asking.units import shown
from ..drawing.elements import add
from ..drawing.form import example_json
from . import here
from .declare import Field, Section
from .places import places_for
from .schema import BY_ID, SECTIONS


class Offer(NamedTuple):
    """A thing of the house by its name, and what it would put into a sheet: text by question."""

    section: Section
    name: str
    values: dict[str, str]
    said: str


def offers_for(sheet: Sheet) -> list[Offer]:
    """All that a house offers to a sheet; nothing to one about gas, vessels or lifting."""
    if sheet.guarded:
        return []
    offers = [offer for section in SECTIONS if not section.safety for offer in _of_section(sheet, section)]
    places = places_for(sheet)
    if places:
        count = sum(text.count("\n") + 1 for text in places.values())
        said = f"{count} places with what the file says of them; type what stays blank"
        offers.insert(0, Offer(BY_ID["house"], "Steeps, floors, vessels and kilns", places, said))
    return offers


def _of_section(sheet: Sheet, section: Section) -> Iterator[Offer]:
    for entry in here.entries(section.id):
        values: dict[str, str] = {}
        said: list[str] = []
        for field in section.fields:
            if field.id not in entry:
                continue
            taken = [name for name in field.fills if _fits(sheet, name, _typed(field, entry[field.id]))]
            values.update({name: _typed(field, entry[field.id]) for name in taken})
            if taken:
                unit = f" {shown(field.unit)}" if field.unit else ""
                said.append(f"{_typed(field, entry[field.id])}{unit}")
        if values:
            yield Offer(section, str(entry["name"]), values, ", ".join(said))


def offered_of(house: Mapping[str, Sequence[Mapping[str, Any]]]) -> dict[str, list[tuple[str, str]]]:
    """What a house offers to each question of sheets, by its id: as it would be typed, and how it is called.

    Parameters
    ----------
    house : mapping
        Its entries, by section. Of things of one value the first stands for all.
    """
    found: dict[str, dict[str, str]] = {}
    for section in SECTIONS:
        for entry in () if section.safety else house.get(section.id, ()):
            for field in section.fields:
                if field.id in entry:
                    for name in field.fills:
                        text = _typed(field, entry[field.id])
                        found.setdefault(name, {}).setdefault(text, str(entry["name"]))
    return {name: list(texts.items()) for name, texts in found.items()}


def _typed(field: Field, value: Any) -> str:
    return plain_number(value) if field.kind == "number" else str(value)


def _fits(sheet: Sheet, name: str, text: str) -> bool:
    """Whether a sheet asks that, and would take the value."""
    question = sheet.question(name)
    if question is None or isinstance(question, Choice):
        return False
    if isinstance(question, Table):
        try:
            return question.min_rows <= len(split_rows(question, text)) <= question.max_rows
        except Exception:  # a row that cannot be read is no offer
            return False
    try:
        read_cell(question, text)
    except Exception:  # out of the sheet’s limits: no offer
        return False
    return True


def draw_offers(sheet: Sheet, prefix: str) -> Element | None:
    """The buttons that put a thing of the house into a form, or None where there is nothing to offer."""
    offers = offers_for(sheet)
    if not offers:
        return None
    box = Element("details", {"class": "house-offers", "id": f"{prefix}-house"})
    names = ", ".join(dict.fromkeys(offer.name for offer in offers))
    add(box, "summary", text=f"From this house: {names}")
    add(box, "p", text="Choose by name. Nothing is filled in by itself.")
    for section in dict.fromkeys(offer.section for offer in offers):
        add(box, "p", "of", section.title)
        row = add(box, "div", "sheet-buttons")
        for offer in offers:
            if offer.section is section:
                label = f"{offer.name}: {offer.said}"
                values = example_json(sheet, offer.values)
                called = {"data_action": "house", "data_name": offer.name, "data_values": values}
                add(row, "button", text=label, type="button", **called)
    return box
