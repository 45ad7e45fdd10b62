"""The box “In this house” of a page, and the head of a paper under control, as Markdown."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from calculators.drawing.code import draw_code
from calculators.drawing.elements import html
from calculators.house import here
from calculators.house.schema import VESSELS, sections_on
from calculators.rules.limit import BOOK, Limit
from calculators.rules.limits import of_page
from calculators.sheets import find_sheet, sheet_ids
from site_src.house.on_sheet import moved_words
from site_src.house.said import PERMITS_NOTHING, section_lines, text

RECORDS = "reference/records/"


def box_lines(page: str) -> list[str]:
    """The box of a page, by its address; nothing where this house has nothing to say there."""
    parts: list[str] = []
    hurts = False
    for section in sections_on(page):
        lines = list(section_lines(section))
        if lines:
            parts += ["", f"**{section.title}**", "", *lines]
            hurts = hurts or section.safety
    limits = list(limit_lines(page))
    if limits:
        parts += ["", "**Limits of this house**", "", *limits]
    if not parts:
        return []
    end = ["", PERMITS_NOTHING] if hurts else []
    name = here.house().get("name")
    head = f"In this house: {text(name)}" if name else "In this house"
    return ['<div class="in-house no-terms" markdown>', "", f'<p class="in-house-head">{head}</p>',
            *parts, *end, "", "</div>", ""]  # fmt: skip


def limit_lines(page: str) -> Iterator[str]:
    """The edges that this house has moved on a procedure's page, with the book's, the reason and the office."""
    try:
        rows = of_page(page.removeprefix("procedures/")) if page.startswith("procedures/") else ()
    except LookupError:
        return
    for row in rows:
        if isinstance(row, Limit) and row.id in BOOK and (words := moved_words(row)):
            yield f"- {text(words)}"


def hand_out_lines(page: str, linked: Iterable[str]) -> list[str]:
    """What this house calls the things of a session, and its papers, for the session’s hand-out.

    Parameters
    ----------
    page : str
        The session’s address.
    linked : iterable of str
        The procedures that the session names, by their addresses.
    """
    names = [name for section in sections_on(page) if section.id in VESSELS for name in here.names(section.id)]
    papers = [said for one in dict.fromkeys(linked) if (said := here.said_paper(one))]
    parts = [", ".join(map(text, names)), "; ".join(map(text, papers))]
    said = "; ".join(filter(None, parts))
    return ["", f"*In this house:* {said}.", ""] if said else []


def paper_lines(page: str, address: str) -> list[str]:
    """The head of a paper under control: number, version, dates, office, and a code that leads to the valid one.

    A record sheet has it in itself.
    """
    said = here.said_paper(page)
    if not said or page.startswith(RECORDS):
        return []
    listed = '<a href="page:house/papers">the list of papers</a>'
    words = f"This paper: **{text(said)}**. Printed, it holds only while {listed} has this version."
    head = '<div class="house-paper no-terms" markdown>'
    code = "" if _guarded(page) else code_of(address)
    return [head, "", *([f"<div>{code}</div>", ""] if code else []), words, "", "</div>", ""]


def _guarded(page: str) -> bool:
    """Whether a page is that of a sheet about gas, vessels or lifting: those carry no code."""
    name = page.removeprefix("calculators/")
    return page != name and name in sheet_ids() and find_sheet(name).guarded


def code_of(address: str) -> str:
    """The code that leads to the valid paper, as HTML on one line; nothing for an address too long for one."""
    drawn = draw_code(address)
    if drawn is None:
        return ""
    for title in drawn.iter("title"):
        title.text = "Code of the link to the valid paper"
    return html(drawn)
