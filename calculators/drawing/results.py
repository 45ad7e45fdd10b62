"""The answers of a sheet as HTML, for named places in the page: the same at build and in the browser."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from json import dumps
from xml.etree.ElementTree import Element

from .. import __version__
from ..asking.answer import Answered, Joined, Listed, refusing
from ..asking.declare import (
    Choice,
    Clock,
    Heading,
    Listing,
    Note,
    Number,
    Outcome,
    Question,
    Refusal,
    Rows,
    Sheet,
    Table,
    Value,
    is_private,
)
from ..asking.figures import at_least, clock_words, figure_columns, fixed, plain_number, said_minute
from ..asking.units import shown
from ..sources import SOURCES, standing_words
from .chart import Data
from .elements import add, html
from .form import row_name
from .links import fill, plain
from .pictures import data_of, draw

PLACES = ("heading", "notes", "answers", "remarks", "chart", "working", "data", "tables", "print")
_EXAMPLE = "Example"
_CHANGED = "Example, changed by you"
_WORDS = {"danger": "DANGER", "warning": "WARNING", "caution": "CAUTION", "notice": "NOTICE"}
_TYPED_DECIMALS = 4  # of what was typed in another unit: no scale of a maltings shows more

NOT_A_SUM = {
    "sum": "",
    "model": "Found by steps or by trying, not by one sum",
    "table": "From a published table or equation, not by a sum",
    "rule": "Decided by rules",
    "given": "Given, not worked out",
}
"""What stands before a working that cannot be followed with a pencil, by how the figure was found."""


def working_words(figure: Joined) -> str:
    """The working as shown, a reference as its words; one that is no sum says so first."""
    way, working = NOT_A_SUM[figure.worked], plain(figure.found.working)
    return f"{way}: {working}" if way and working else working or (way and f"{way}.")


def figure(value: Value | None, decimals: int, unit: str = "", up: bool = False) -> str:
    """A value as shown, with its unit; ``up`` rounds it up."""
    if value is None:
        return "–"
    if isinstance(value, datetime):
        return clock_words(value)
    if isinstance(value, str):
        return value
    behind = shown(unit)
    if up:
        value = at_least(value, decimals)
    return fixed(value, decimals) + (f" {behind}" if behind else "")


def typed_words(question: Question, value: object) -> str:
    """The value of a question as read, with its unit, for the heading and the card."""
    if isinstance(question, Number) and isinstance(value, (int, float)):
        unit = shown(question.unit)
        return plain_number(round(value, _TYPED_DECIMALS) or value) + (f" {unit}" if unit else "")
    if isinstance(question, Choice):
        return next((o.label for o in question.options if o.word == value), str(value))
    if isinstance(question, Clock) and isinstance(value, datetime):
        return f"{value:%H:%M}" if question.daily else clock_words(value)
    if isinstance(question, Table) and isinstance(value, tuple):
        rows = []
        for number, row in enumerate(value, 1):
            cells = [
                typed_words(column, cell)
                for column, cell in zip(question.columns, row, strict=True)
                if cell is not None
            ]
            name = row_name(question, number) + ": " if question.row_names else ""
            rows.append(name + " ".join(cells))
        return "; ".join(rows)
    return str(value)


def draw_note(parent: Element, note: Note, root: str | None) -> None:
    """A note: boxed with its signal word, or a plain remark."""
    if note.level == "remark":
        fill(add(parent, "p", "remark"), note.text, root)
        return
    box = add(parent, "div", f"hazard hazard-{note.level}")
    add(box, "p", "hazard-word", _WORDS[note.level])
    fill(add(box, "p"), note.text, root)


def _say_example(parent: Element, mark: str) -> Element | None:
    """Put the words before what follows that say whose numbers they are, when they are not the reader's own."""
    return add(parent, "span", "of-example", mark) if mark else None


def lent_words(answered: Answered, lent: Mapping[str, str]) -> list[str]:
    """The questions whose value was not typed here, each with the line of the day-book or the sheet it comes from."""
    asked = [question for question in answered.sheet.questions if question.id in lent and not is_private(question)]
    return [f"{question.label.lower()} ({lent[question.id]})" for question in asked]


def given_to_others(answered: Answered) -> dict[str, str]:
    """What the answers say to shared questions of other sheets, by id; nothing from sheets on gas, vessels, lifting."""
    if answered.sheet.guarded:
        return {}
    return {
        joined.gives: figure(joined.found.value, joined.decimals)
        for joined in answered.figures
        if joined.gives and joined.found.value is not None
    }


def _answer(parent: Element, joined: Joined, root: str | None, mark: str, lent: str) -> None:
    one, found = joined
    box = add(parent, "div", "answer lead" if one.lead else "answer", data_answer=one.id)
    add(box, "dt", text=one.label)
    decimals = joined.decimals
    line = add(box, "dd", "figure")
    _say_example(line, mark)
    if one.kind == "verdict":
        word = next(option for option in one.words if option.word == found.value)
        fill(add(line, "output", "verdict"), word.label, root)
    else:
        number = figure(found.value, decimals, up=one.rounds_up)
        add(line, "output", "number", number)
        if one.unit and one.kind == "number":
            add(line, "span", "unit", f" {shown(one.unit)}")
    if found.low is not None and found.high is not None:
        low = figure(found.low, decimals, up=one.rounds_up)
        high = figure(found.high, decimals, up=one.rounds_up)
        add(box, "dd", "interval", f"likely {low} to {high} {shown(one.unit)}".rstrip())
    if lent and (one.lead or one.kind == "verdict"):
        add(box, "dd", "lent", lent)
    if found.next or one.next:
        fill(add(box, "dd", "next"), found.next or one.next, root)


def source_list(names: Sequence[str], entries: str = "") -> Element:
    """The sources of these ids as a list; each says whether it was read.

    ``entries`` is the address of the page of all sources, up to an id; each source is then a link to its entry.

    Raises
    ------
    KeyError
        When an id is not declared.
    """
    listed = Element("ul", {"class": "sources"})
    for name in names:
        source = SOURCES[name]
        standing = f" ({standing_words(source)})"
        if entries:
            add(add(listed, "li"), "a", text=source.cited, href=entries + name).tail = standing
        else:
            add(listed, "li", text=source.cited + standing)
    return listed


def _working(parent: Element, answered: Answered, root: str | None) -> None:
    steps = add(parent, "ol", "steps")
    said: dict[str, int] = {}  # a card says how far to trust a figure once, and then where it said so
    for number, joined in enumerate(answered.figures, 1):
        one = joined.one
        step = add(steps, "li", "lead" if one.lead else "", value=str(number))
        add(step, "p", "what", one.label)
        if words := working_words(joined):
            add(step, "p", "formula", words)
        if one.rests_on:
            fill(add(step, "p", "rests-on"), f"Rests on: {one.rests_on}", root)
        if one.trust:
            first = said.setdefault(one.trust, number)
            again = {} if first == number else {"data_as": str(first)}
            fill(add(step, "p", "trust", **again), f"How far to trust it: {one.trust}", root)
    if answered.sheet.sources:
        add(parent, "p", "what", "Sources")
        parent.append(source_list(answered.sheet.sources))


def _cells(parent: Element, tag: str, cells: list[str]) -> None:
    for cell in cells:
        add(parent, tag, text=cell, **({"scope": "col"} if tag == "th" else {}))


def _head(column: Heading) -> str:
    return f"{column.label}, {shown(column.unit)}" if column.unit else column.label


def row_words(listing: Listing, rows: Rows, row: Sequence[Value | None]) -> list[str]:
    """The cells of one row as shown; a reference in a cell is its words."""
    decimals = rows.decimals or {}
    return [
        plain(figure(value, decimals.get(column.id, column.decimals)))
        for value, column in zip(row, listing.columns, strict=True)
    ]


def _table(parent: Element, listed: Listed, mark: str) -> None:
    listing, rows = listed
    name = "table-box" if listing.on_card else "table-box off-card"
    box = add(parent, "div", name, tabindex="0", role="region", aria_label=listing.label)
    table = add(box, "table", data_table=rows.id)
    _caption(add(table, "caption"), listing.label, mark)
    _fill(table, [_head(c) for c in listing.columns], [row_words(listing, rows, row) for row in rows.rows])


def _fill(table: Element, heads: list[str], rows: list[list[str]]) -> None:
    if columns := figure_columns(rows):
        table.set("data-figures", columns)
    _cells(add(add(table, "thead"), "tr"), "th", heads)
    body = add(table, "tbody")
    for row in rows:
        _cells(add(body, "tr"), "td", row)


def _caption(place: Element, words: str, mark: str) -> None:
    said = _say_example(place, mark)
    if said is None:
        place.text = words
    else:
        said.tail = f" {words}"


def numbers_table(parent: Element, title: str, numbers: Data, mark: str = "") -> None:
    """Numbers as a table that can be moved sideways, with its title; ``mark`` says that they are an example's."""
    box = add(parent, "div", "table-box", tabindex="0", role="region", aria_label=title)
    table = add(box, "table")
    _caption(add(table, "caption"), title, mark)
    _fill(table, list(numbers.headings), [list(row) for row in numbers.rows])


def _heading(parent: Element, answered: Answered, example: bool, changed: list[str], lent: Mapping[str, str]) -> None:
    sheet, values, outcome = answered.sheet, answered.said, answered.outcome
    if example:
        title = "EXAMPLE, NOT YOUR VESSEL" if sheet.guarded else _CHANGED if changed else _EXAMPLE
    else:
        title = "Refused" if isinstance(outcome, Refusal) else "Your numbers"
    add(parent, "h3", "standing", title)
    if example and sheet.story and not changed:
        add(parent, "p", "story", sheet.story)
    if changed:
        names = ", ".join(changed)
        add(parent, "p", "story", f"Still the example’s: {names}. Type your own there too.")
    given = add(parent, "dl", "given")
    for question in sheet.questions:
        value = values[question.id]
        if value is not None:
            pair = add(given, "div", "rows" if isinstance(question, Table) and len(value) > 1 else "")
            add(pair, "dt", text=question.label)
            add(pair, "dd", text=typed_words(question, value))
            if question.id in lent:
                add(pair, "dd", "lent", lent[question.id])


NOT_A_PERMIT = "NOT A PERMIT"


def _card(parent: Element, sheet: Sheet, example: bool, date: str) -> None:
    add(parent, "p", "card-line", f"{sheet.title} · sheet {sheet.id} · version {__version__}")
    if sheet.guarded:
        # Nobody signs a sum about gas, a vessel or a lift: a signature would make it look like leave to act on it.
        add(
            parent,
            "p",
            "card-line card-not",
            f"{NOT_A_PERMIT}. Only a competent person decides, by local law and the site’s own permits.",
        )
        add(parent, "p", "card-across", aria_hidden="true", data_words=NOT_A_PERMIT)
        if example:
            add(parent, "p", "card-line", "EXAMPLE, NOT YOUR VESSEL.")
        add(parent, "p", "card-line", f"Printed: {said_minute(date) or '_' * 16}")
        return
    if example:
        add(parent, "p", "card-line", "Example: invented numbers of the example maltings.")
    add(parent, "p", "card-line", f"Printed: {said_minute(date) or '_' * 16}")
    add(parent, "p", "card-line", f"Batch: {'_' * 16}   Checked by: {'_' * 24}")


def _about_a_person(filled: dict[str, Element], outcome: Outcome | Refusal, root: str | None) -> dict[str, Element]:
    """A refusal that would tell something of a person: it is read on the screen, and the card has no word of it."""
    add(filled["heading"], "h3", "standing off-paper", "Refused")
    if isinstance(outcome, Refusal):
        fill(add(filled["notes"], "p", "refusal off-paper"), outcome.text, root)
    for note in outcome.notes:
        draw_note(filled["notes"], note, root)
    for box in filled["notes"].iterfind("div"):
        box.set("class", f"{box.get('class')} off-paper")
    add(filled["print"], "p", "card-line", "No figures were worked out.")
    return filled


def place_elements(
    answered: Answered,
    prefix: str,
    root: str | None,
    *,
    example: bool = False,
    still_example: list[str] | None = None,
    lent: Mapping[str, str] | None = None,
    date: str = "",
) -> dict[str, Element]:
    """The named places, filled.

    Parameters
    ----------
    answered : Answered
        What ``answer`` gave.
    prefix : str
        Id of the sheet on its page; put in front of ids inside the chart.
    root : str or None
        Relative address of the site's root; None at build, where addresses are resolved later.
    example : bool
        Whether the numbers, or some of them, are those of the worked case.
    still_example : list of str, optional
        Labels of the questions that still hold the example's value, once another has been changed.
    lent : mapping of str to str, optional
        By the id of a question whose value was not typed here, where it comes from; said at each verdict that rests
        on it. Sheets on gas, vessels and lifting take none.
    date : str
        Shown on the printed card.
    """
    sheet, values, outcome = answered.sheet, answered.values, answered.outcome
    mark = (_CHANGED if still_example and not sheet.guarded else _EXAMPLE) if example else ""
    filled = {name: Element("div", {"data-place": name}) for name in PLACES}
    asked = refusing(sheet, values)[1] if isinstance(outcome, Refusal) else None
    if asked is not None and is_private(asked):
        return _about_a_person(filled, outcome, root)
    lent = {} if sheet.guarded else lent or {}
    _heading(filled["heading"], answered, example, still_example or [], lent)
    _card(filled["print"], sheet, example, date)
    if isinstance(outcome, Refusal):
        fill(add(filled["notes"], "p", "refusal"), outcome.text, root)
    if mark and any(note.level == "remark" for note in outcome.notes):
        _say_example(add(filled["remarks"], "p"), mark)
    for note in outcome.notes:
        draw_note(filled["remarks" if note.level == "remark" else "notes"], note, root)
    if isinstance(outcome, Refusal):
        return filled
    listed = add(filled["answers"], "dl", "answers")
    words = lent_words(answered, lent)
    said = f"Rests on what was not typed here: {', '.join(words)}." if words else ""
    for joined in answered.figures:
        _answer(listed, joined, root, mark, said)
    if mark:
        _say_example(add(filled["working"], "p"), mark)
    _working(filled["working"], answered, root)
    for table in answered.tables:
        _table(filled["tables"], table, mark)
    for chart in outcome.charts:
        drawn = add(filled["chart"], "figure")
        drawn.append(draw(chart, prefix))
        _caption(add(drawn, "figcaption"), chart.summary, mark)
        numbers_table(filled["data"], chart.title, data_of(chart), mark)
    if outcome.goes_on is not None and mark != _EXAMPLE:
        on = outcome.goes_on
        goes = dumps(on.values).replace("[[", "[ [")  # two brackets are a reference
        called = {"data_action": "go-on", "data_values": goes, "data_said": on.said}
        add(add(filled["answers"], "p", "go-on off-paper"), "button", text=on.label, type="button", **called)
    return filled


def places(
    answered: Answered,
    prefix: str,
    root: str | None,
    *,
    example: bool = False,
    still_example: list[str] | None = None,
    lent: Mapping[str, str] | None = None,
    date: str = "",
) -> dict[str, str]:
    """The inner HTML of each named place; parameters as for ``place_elements``."""
    filled = place_elements(answered, prefix, root, example=example, still_example=still_example, lent=lent, date=date)
    return {name: "".join(html(child) for child in place) for name, place in filled.items()}
