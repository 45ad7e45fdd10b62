"""A record sheet in a page: blank at build, filled with the case of a sheet in the browser. One function draws both."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element

from .. import __version__
from ..asking.answer import Answered, NotAnswered, answer
from ..asking.declare import Answer, Number, Outcome, Question, Sheet, Table
from ..asking.figures import plain_number, said_minute
from ..asking.reading import is_blank
from ..asking.units import shown
from ..drawing.elements import add, html
from ..drawing.links import plain
from ..drawing.results import figure, row_words, typed_words
from ..house import here
from ..sheets import find_sheet
from . import PAPERS, papers_of
from .kinds import Blank, Grid, Lines, Paper

_SHORT, _LONG = 24, 52  # characters that stand on one line of a blank, and of two blanks side by side


class Filling(NamedTuple):
    """What a case puts into a paper: texts by the id of a question or answer, rows of texts by the id of a table."""

    texts: Mapping[str, str] = {}
    rows: Mapping[str, list[dict[str, str]]] = {}
    said: str = ""


NOTHING = Filling()


def label_of(paper: Paper, blank: Blank) -> str:
    """The label of a blank with its unit, as the first of the paper's sheets declares it.

    Raises
    ------
    LookupError
        When no sheet of the paper asks or gives what the blank takes.
    """
    if not blank.takes:
        return blank.label
    for sheet_id in paper.sheets:
        one = asked_or_given(find_sheet(sheet_id), blank.takes)
        if one is not None:
            unit = shown(one.unit) if isinstance(one, (Number, Answer)) else ""
            return (blank.label or one.label) + (f" ({unit})" if unit else "")
    raise LookupError(f"{paper.id}: no sheet of it asks or gives {blank.takes}")


def asked_or_given(sheet: Sheet, name: str) -> Question | Answer | None:
    """The question of a sheet with that id, or else its answer, or None."""
    question = sheet.question(name)
    if question is not None and not isinstance(question, Table):
        return question
    return next((one for one in sheet.answers if one.id == name), None)


def row_names_of(paper: Paper, grid: Grid) -> tuple[str, ...]:
    """The names of a grid's rows, blank ones where its rows have none."""
    if isinstance(grid.rows, tuple):
        return grid.rows
    if grid.rows:
        return ("",) * grid.rows
    for sheet_id in paper.sheets:
        question = find_sheet(sheet_id).question(grid.takes[0])
        if isinstance(question, Table):
            return question.row_names
    raise LookupError(f"{paper.id}: no sheet of it asks for the table {grid.takes[0]}")


def _words(question: Question, value: object) -> str:
    """A value as read, without its unit, which stands in the label."""
    if isinstance(question, Number) and isinstance(value, (int, float)):
        return plain_number(value)
    return typed_words(question, value)


def filling_of(answered: Answered, said: str = "") -> Filling:
    """What a case that was answered puts into a paper."""
    sheet, values = answered.sheet, answered.said
    texts: dict[str, str] = {}
    rows: dict[str, list[dict[str, str]]] = {}
    for question in sheet.questions:
        value = values[question.id]
        if value is None:
            continue
        if not isinstance(question, Table):
            texts[question.id] = _words(question, value)
            continue
        rows[question.id] = [
            {
                column.id: _words(column, cell)
                for column, cell in zip(question.columns, row, strict=True)
                if cell is not None
            }
            for row in value
        ]
    for joined in answered.figures:
        one, found = joined
        if one.kind == "verdict":
            texts[found.id] = plain(next(word.label for word in one.words if word.word == found.value))
        else:
            texts[found.id] = figure(found.value, joined.decimals, up=one.rounds_up)
    for listing, table in answered.tables:
        names = [column.id for column in listing.columns]
        rows[table.id] = [dict(zip(names, row_words(listing, table, row), strict=True)) for row in table.rows]
    return Filling(texts, rows, said)


def draw_paper(paper: Paper, filling: Filling = NOTHING) -> Element:
    """The paper with its blanks, those filled that the case has something for."""
    box = Element("div", {"class": "paper-sheet"})
    add(box, "p", "paper-said", filling.said or "Nothing is filled in: write with a pen.")
    ours = in_house(paper)
    if ours:
        add(box, "p", "paper-said", ours)
    for part in paper.parts:
        add(box, "h2", text=part.title)
        if isinstance(part, Lines):
            listed = add(box, "dl", "blanks")
            for blank in part.blanks:
                text = filling.texts.get(blank.takes, "")
                pair = add(listed, "div", "whole" if len(text) > _LONG else "wide" if len(text) > _SHORT else "")
                add(pair, "dt", text=label_of(paper, blank))
                add(pair, "dd", text=text)
        else:
            _grid(box, paper, part, filling)
    end = add(box, "div", "paper-end")
    words = add(end, "div")
    if paper.foot:
        add(words, "p", "paper-foot", paper.foot)
    add(end, "div", "paper-code")
    add(words, "p", "paper-foot", f"Read by: {'_' * 22} Date: {'_' * 12} · {paper.title}, version {__version__}")
    return box


def in_house(paper: Paper) -> str:
    """What this house calls the paper, and the vessels that it is written at; empty where it has said nothing."""
    names = [name for section in paper.vessels for name in here.names(section)]
    ring = f"Ring one: {' / '.join(names)}" if names else ""
    said = here.said_paper(f"reference/records/{paper.id}")
    return ". ".join(part for part in (here.house().get("name", "") if said or ring else "", said, ring) if part)


def _grid(box: Element, paper: Paper, grid: Grid, filling: Filling) -> None:
    names = row_names_of(paper, grid)
    taken = next((filling.rows[name] for name in grid.takes if filling.rows.get(name)), [])
    around = add(box, "div", "table-box", tabindex="0", role="region", aria_label=grid.title)
    table = add(around, "table")
    head = add(add(table, "thead"), "tr")
    for column in grid.columns:
        add(head, "th", text=column.label, scope="col")
    body = add(table, "tbody")
    for number, name in enumerate(names):
        cells = taken[number] if number < len(taken) else {}
        line = add(body, "tr")
        for place, column in enumerate(grid.columns):
            text = next((cells[one] for one in column.takes if one in cells), "")
            add(line, "td", text=name if name and not place else text)
    if len(taken) > len(names):
        add(box, "p", "paper-foot", f"{len(taken) - len(names)} more rows do not fit: print the sheet’s card too.")


def embed_paper(paper_id: str) -> str:
    """The HTML of a record sheet, blank, with the place that a case fills.

    Raises
    ------
    LookupError
        When there is no such record sheet.
    """
    if paper_id not in PAPERS:
        raise LookupError(f"there is no record sheet “{paper_id}”. There are: {', '.join(PAPERS)}")
    paper = PAPERS[paper_id]
    needs = {name for sheet_id in paper.sheets for name in find_sheet(sheet_id).needs}
    section = Element(
        "section",
        {
            "class": "paper",
            "id": f"{paper.id}-sheet",
            "data-paper": paper.id,
            "data-sheets": " ".join(paper.sheets),
            "data-needs": " ".join(sorted(needs)),
            "data-search-exclude": "",
            "aria-label": paper.title,
        },
    )
    bar = add(section, "div", "paper-bar")
    add(bar, "p", "paper-state", role="status", data_state="")
    add(bar, "button", type="button", data_action="print", text="Print it")
    place = add(section, "div", data_place="paper")
    place.append(draw_paper(paper))
    return html(section)


def paper_links(sheet: Sheet) -> Element | None:
    """The links from a sheet to the record sheets that its case may fill, or None."""
    papers = papers_of(sheet.id)
    if not papers:
        return None
    line = Element("p", {"class": "paper-links"})
    line.text = "Fill in a record sheet with these numbers: "
    for number, paper in enumerate(papers):
        link = add(line, "a", href=f"page:reference/records/{paper.id}", data_action="paper", text=paper.title)
        link.tail = ", " if number + 1 < len(papers) else ""
    return line


def respond(asked: Mapping[str, Any]) -> str:
    """Answer one request of a record sheet's page.

    Parameters
    ----------
    asked : mapping
        ``paper``, ``sheet``, ``questions`` (text by id, as a link carries them), ``example`` (whether some of it is
        the worked case's), ``date``.

    Returns
    -------
    str
        JSON: ``state`` (answered, refused, wrong), ``places``, ``status``.
    """
    paper = PAPERS[asked["paper"]]
    if asked["sheet"] not in paper.sheets:
        return _reply("wrong", draw_paper(paper), "The link’s sheet does not go with this record. It is blank.")
    sheet = find_sheet(asked["sheet"])
    typed = {name: text for name, text in asked["questions"].items() if sheet.question(name)}
    result = answer(sheet, typed)
    given = "Example: invented numbers. " if asked.get("example") else ""
    said = f"{given}From the sheet {sheet.title.lower()}, version {__version__}, {said_minute(asked.get('date', ''))}."
    if isinstance(result, NotAnswered):
        wrong = {problem.question for problem in result.problems}
        return _reply(
            "wrong",
            draw_paper(paper, Filling(_as_typed(sheet, typed, wrong), {}, f"{said} Not worked out.")),
            "The sheet has no answer to these numbers. Only what was typed is filled in.",
        )
    state = "answered" if isinstance(result.outcome, Outcome) else "refused"
    status = "Filled in. Check each figure before you sign." if state == "answered" else "The sheet refused this case."
    return _reply(state, draw_paper(paper, filling_of(result, said)), status)


def _as_typed(sheet: Sheet, typed: Mapping[str, Any], wrong: set[str]) -> dict[str, str]:
    return {
        question.id: str(typed[question.id])
        for question in sheet.questions
        if question.id in typed
        and question.id not in wrong
        and not isinstance(question, Table)
        and not is_blank(typed[question.id])
    }


def _reply(state: str, drawn: Element, status: str) -> str:
    return json.dumps({"state": state, "places": {"paper": html(drawn)}, "status": status})
