"""The table of what is wanted by the malt that is made, drawn from ``calculators.rules.malts`` as Markdown."""

from __future__ import annotations

from calculators.asking.figures import plain_number
from calculators.asking.units import shown
from calculators.rules.limit import COMMON, MEMORY, PUBLISHED
from calculators.rules.malts import HOUSE, QUANTITIES, Malt, Range, malts

MARKS = {PUBLISHED: "p", COMMON: "c", MEMORY: "m", HOUSE: "h"}
"""How each standing is marked beside its range; the page tells the letters."""


def malt_lines() -> list[str]:
    """Return the figures, a table, and the words, a paragraph for each malt, as lines of Markdown."""
    heads = ["Malt", *(f"{one.label}{_unit(one.unit)}" for one in QUANTITIES)]
    figures = [
        f"| {' | '.join(heads)} |",
        f"|{'---|' * len(heads)}",
        *(f"| {' | '.join(_cells(row))} |" for row in malts()),
    ]
    words = []
    for row in malts():
        words += ["", f"**{row.name}.** Barley: {row.barley}. {row.why} *Handed over:* {row.hand_over}."]
    return [*figures, "", _key(), *words, ""]


def _unit(unit: str) -> str:
    return f", {shown(unit)}" if unit and unit not in ("of the corn", "days") else ""


def _cells(row: Malt) -> list[str]:
    return [f"**{row.name}**", *(_range(getattr(row, one.id)) for one in QUANTITIES)]


def _range(given: Range) -> str:
    span = f"{plain_number(given.low)}–{plain_number(given.high)}"
    links = " ".join(f"[{MARKS[given.standing]}](../reference/sources.md#{name})" for name in given.sources)
    return f"{span} {links or MARKS[given.standing]}"


def _key() -> str:
    told = [f"*{MARKS[PUBLISHED]}* published, with its source; *{MARKS[COMMON]}* common practice, no source; "
            f"*{MARKS[MEMORY]}* from memory"]  # fmt: skip
    if any(given.standing == HOUSE for row in malts() for given in row if isinstance(given, Range)):
        told.append(f"*{MARKS[HOUSE]}* this house’s own")
    return f"{'; '.join(told)}. A letter that is a link leads to the source."
