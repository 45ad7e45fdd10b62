"""The page of gases, from the one table of them: what each does here, and its published values."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.plates.gases import WORDS
from calculators.rules.gases import GASES, Kind, limits_of, order_to_leave, strictest
from calculators.sources import SOURCES
from calculators.words.gas import limit_name


def _least(gas: str, *kinds: Kind) -> str:
    if not limits_of(gas, kinds=kinds):
        return "–"
    return f"{strictest(gas, *kinds).ppm:,.10g}"


def gas_lines() -> Iterator[str]:
    """Write the page as Markdown: one table of all gases, then a section for each."""
    yield from (
        "",
        "| Gas | Strictest mean of a day, ppm | Strictest short-term value or ceiling, ppm: **leave** "
        "| Dangerous at once, ppm |",
        "|---|---|---|---|",
    )
    for gas in GASES:
        words = WORDS[gas]
        cells = (_least(gas, "day"), _least(gas, "short", "ceiling"), _least(gas, "danger"))
        yield f"| [{words.name}](#{gas}) | {cells[0]} | **{cells[1]}** | {cells[2]} |"
    for gas in GASES:
        yield from _section(gas)
    yield ""


def _section(gas: str) -> Iterator[str]:
    words = WORDS[gas]
    yield from ("", f"## {words.name}, {words.formula} {{: #{gas} }}", "", "**Where it comes from here**", "")
    yield from (f"- {one}" for one in words.comes)
    for head, said in (
        ("What it does", words.does),
        ("What you notice", words.sign),
        ("What a meter needs", words.meter),
    ):
        yield from ("", f"**{head}.** {said}")
    yield from ("", "**What to do**", "")
    yield from (f"{at}. {one}" for at, one in enumerate(words.do, 1))
    yield from ("", "| Published value | ppm | Source | How far the value was read |", "|---|---|---|---|")
    for limit in limits_of(gas):
        name = limit_name(limit) + (f"; {limit.remark}" if limit.remark else "")
        leave = order_to_leave(gas, limit.ppm)
        mark = f"**{name}**" if leave is not None and leave.id == limit.id else name
        title = SOURCES[limit.source].cited.split(":")[0].split(",")[0]
        yield f"| {mark} | {limit.ppm:,.10g} | [{title}](page:reference/sources#{limit.source}) | {limit.how_read} |"
    yield ""
