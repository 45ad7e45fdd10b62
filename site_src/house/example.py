"""The empty, commented file of a house, and what explains it, drawn from the declaration."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.asking.figures import plain_number
from calculators.asking.units import shown
from calculators.house.declare import Field, Section
from calculators.house.schema import BY_ID, FORMAT, SECTIONS
from calculators.rules.malts import QUANTITIES
from site_src.house.values import as_toml
from site_src.settings import ROOT

EXAMPLE = ROOT / "house.example.toml"

HEAD = f"""\
# This house’s own handbook: the file house.toml. Take away the # before each line that you fill in, or run
# make house
# which asks the same questions and writes the file.
#
# Every line may be left out. What is written here is text and numbers, never markup.
# It holds no secrets: no password, no key, no name of a person. Whoever opens the book can read all of it.
# Lines about alarms, calls and places are read by competent people before anything is hung up.

format = {FORMAT}
"""

_LIMITS = """\
# Limits of this house. Any edge may be moved within the bounds that the book gives; where people can be hurt it can
# only be made tighter. The ids stand in calculators/rules/limits.
# [limits.immersion-hours]
# stop_high = 10
# reason = "thin husks, drinks fast"
# office = "head of malting"
"""


def _malts() -> str:
    keys = ", ".join(one.id for one in QUANTITIES)
    return (
        f"# Targets of this house by malt, each from a low to a high figure: {keys}.\n"
        '# [malts.dark]\n# cast = [45, 46.5]\n# reason = "our drum, our barley"\n# office = "head of malting"\n'
    )


def example_text() -> str:
    """The commented example of the repository."""
    return "\n".join([HEAD, *("".join(section_lines(one)) for one in SECTIONS), _LIMITS, _malts()])


def section_lines(section: Section) -> Iterator[str]:
    """A section as comments: what is asked, its heading, and a line for each field."""
    again = " Once for each; repeat the heading." if section.many else ""
    hurt = " People can be hurt by what is wrong here." if section.safety else ""
    yield f"# {section.ask}{again}{hurt}\n# {section.heading}\n"
    for field in section.fields:
        yield f"{open_line(section, field)}\n"


def field_line(field: Field, value: str) -> str:
    """A line of a field with its question behind it."""
    bounds = limits_of(field)
    return f"{field.id} = {value}  # {field.ask}{f' {bounds}.' if bounds else ''}"


def open_line(section: Section, field: Field) -> str:
    """The commented line of a field that nobody has filled in.

    Where people can be hurt no value stands in it: an example that is taken for an answer would be a wrong one.
    """
    example = as_toml(field, field.example)
    if not section.safety:
        return f"# {field_line(field, example)}"
    return f"# {field_line(field, '')} Such as: {example}".replace("=   #", "=  #")


def limits_of(field: Field) -> str:
    """What may be written, in words."""
    if field.kind == "number":
        unit = f" {shown(field.unit)}" if field.unit else ""
        return f"{plain_number(field.low)} to {plain_number(field.high)}{unit}"
    if field.kind in ("choice", "choices"):
        return f"{'Any of' if field.kind == 'choices' else 'One of'}: {', '.join(field.options)}"
    if field.kind == "date":
        return "A day, as 2026-11-29"
    if field.kind == "stages":
        return "1 to 12 stages of 0.1 to 72 h"
    return ""


def place_lines() -> list[str]:
    """What is asked of each place, as a table of Markdown."""
    asked = (field for field in BY_ID["place"].fields)
    rows = (f"| {field.ask} | {limits_of(field) or 'in your own words'} |" for field in asked)
    return ["| Asked | Answered by |", "|---|---|", *rows, ""]


_SAID = {"text": "text, up to {0} letters", "months": "twelve names", "page": "a page of the book"}


def schema_lines() -> list[str]:
    """The declaration as Markdown: a heading and a table for each section."""
    lines: list[str] = []
    for section in SECTIONS:
        lines += ["", f"### {section.title} {{#house-{section.id}}}", "", f"`{section.heading}` {section.ask}"]
        if section.help:
            lines[-1] += f" [The page that helps](../{section.help}.md)."
        lines += [f"It shows on: {', '.join(_shown(page) for page in section.shows)}."]
        if section.safety:
            lines += ["", "**People can be hurt by what is wrong here.** Competent people read it and sign the papers."]
        lines += ["", "| Key | What is asked | What may be written | Offered in sheets |", "|---|---|---|---|"]
        for field in section.fields:
            said = limits_of(field) or _SAID[field.kind].format(field.longest)
            fills = ", ".join(f"`{one}`" for one in field.fills) or "—"
            needed = ", **needed**" if field.needed else ""
            lines.append(f"| `{field.id}` | {field.ask} | {said}{needed} | {fills} |")
    return [*lines, ""]


def _shown(page: str) -> str:
    at = ROOT / "docs" / f"{page}.md"
    if not at.is_file():
        return page
    title = next(line for line in at.read_text("utf-8").splitlines() if line.startswith("# "))
    return f"[{title.removeprefix('# ').split(' {#')[0].strip()}](../{page}.md)"


