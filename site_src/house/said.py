"""What a house says, put as Markdown: its text as text, its numbers in the units that it reads."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from calculators.asking.figures import plain_number
from calculators.asking.units import shown
from calculators.house import here
from calculators.house.declare import Field, Section

Entry = Mapping[str, Any]

PERMITS_NOTHING = (
    "Written by this house; the book has not checked it. It permits nothing: the employer, local law, the site’s own "
    "permits and competent people do."
)
_UNIT_ENDING = re.compile(r"_(?:kg|g|m2|m3|c|m3_h_t)$")
_LB_KG = 0.45359237  # exact, by definition


def text(words: object) -> str:
    """Words as Markdown shows them: each mark as its number, so that none of them can be markup."""
    return "".join(one if one.isalnum() or one == " " else f"&#{ord(one)};" for one in str(words))


def label(field: Field) -> str:
    """How a field is called on a page."""
    return _UNIT_ENDING.sub("", field.id).replace("_", " ")


def value(field: Field, found: Any) -> str:
    """A value with its unit, as Markdown."""
    if field.kind == "number":
        return text(number(found, field.unit))
    if field.kind == "date":
        return text(here.said_day(found))
    if isinstance(found, list):
        return text(", ".join(found).replace("-", " "))
    return text(found.replace("-", " ") if field.kind == "choice" else found)


def number(found: float, unit: str) -> str:
    """A number with its unit, and beside it what this house's scales and thermometers show."""
    behind = f" {shown(unit)}" if unit else ""
    said = f"{plain_number(found)}{behind}"
    if unit == "C" and here.house().get("thermometers") == "F":
        return f"{said} ({found * 9 / 5 + 32:.0f} °F)"
    if unit == "kg" and here.house().get("scales") == "t":
        return f"{said} ({plain_number(found / 1000)} t)"
    if unit == "kg" and here.house().get("scales") == "lb":
        return f"{said} ({found / _LB_KG:.0f} lb)"
    return said


def entry(section: Section, one: Entry) -> str:
    """One entry on one line: how it is called, and what is said of it."""
    if section.id == "alarm":
        return alarm(one)
    if section.id == "call":
        return call(one)
    first, *rest = section.fields
    parts = [f"{label(field)} {value(field, one[field.id])}" for field in rest if field.id in one]
    if not section.many:
        shown_here = [field for field in section.fields if field.id in one and field.in_box]
        return "; ".join(f"{label(field)}: {value(field, one[field.id])}" for field in shown_here)
    name = value(first, one[first.id])
    return f"**{name}**{': ' if parts else ''}{'; '.join(parts)}"


def alarm(one: Entry) -> str:
    """An alarm step: ``carbon dioxide, at 5000 ppm: everybody out``."""
    gas = text(str(one["gas"]).replace("-", " "))
    at = f" at {text(plain_number(one['at']))} {text(one.get('unit', ''))}" if "at" in one else ""
    act = f": {text(one['act'])}" if "act" in one else ""
    return f"**{gas}**{at}{act}"


def call(one: Entry) -> str:
    """Who is called: number, channel, words, how long they take and what they bring."""
    parts = [
        text(one["number"]) if "number" in one else "",
        text(one["channel"]) if "channel" in one else "",
        f"say: “{text(one['words'])}”" if "words" in one else "",
        f"they take {text(number(one['minutes'], 'min'))}" if "minutes" in one else "",
        f"they bring {text(one['brings'])}" if "brings" in one else "",
    ]
    return f"**{text(one['role'])}**: {'; '.join(filter(None, parts)) or '______________'}"


def section_lines(section: Section) -> Iterator[str]:
    """All entries of a section as a list of Markdown, none where there are none."""
    for one in here.entries(section.id):
        if line := entry(section, one):
            yield f"- {line}"
