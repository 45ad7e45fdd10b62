"""The form of a sheet, drawn once from its declaration."""

from __future__ import annotations

import json
from collections.abc import Sequence
from xml.etree.ElementTree import Element

from ..asking.declare import Cell, Choice, Clock, Either, Number, Question, Sheet, Table, is_private, shared_by
from ..asking.figures import plain_number
from ..asking.reading import split_rows
from ..asking.units import UNITS, shown
from .elements import add
from .tally import draw_tally

_FEW = 5  # choices shown as buttons; more become a list that opens


def label_with_unit(parent: Element, question: Question) -> None:
    """The label's words, with the unit in brackets and whether it may stay blank."""
    parent.text = question.label
    unit = shown(question.unit) if isinstance(question, Number) else ""
    if unit:
        add(parent, "span", "in-unit", f" ({unit})")
    if question.optional:
        add(parent, "span", "may-be-blank", ", may stay blank")


def hint_of(question: Question) -> str:
    """One line below the label: the hint, and the limits of a number."""
    if isinstance(question, Number):
        unit = shown(question.unit)
        limits = f"{plain_number(question.low)} to {plain_number(question.high)}"
        limits += f"\u00a0{unit}." if unit else "."  # a unit does not part from its figure
        return f"{question.hint} {limits}" if question.hint else f"From {limits}"
    if is_private(question):
        return f"{question.hint} Not kept, not in a link, not printed.".strip()
    return question.hint


def keyboard(question: Cell) -> dict[str, str]:
    """Which keyboard a phone shows: figures only where no minus sign is possible."""
    if isinstance(question, Number) and question.low >= 0:
        return {"inputmode": "decimal"}
    return {}


def _error(parent: Element, box_id: str) -> None:
    add(parent, "p", "error", id=f"{box_id}-error", data_error="", hidden="")


def _described(box_id: str, hint: str) -> str:
    return f"{box_id}-hint {box_id}-error" if hint else f"{box_id}-error"


def _one_line(parent: Element, question: Cell, box_id: str, name: str, kind: str) -> None:
    field = add(parent, "div", "field", data_question=name, data_kind=kind, data_default=question.default)
    label_with_unit(add(field, "label", for_=box_id), question)
    hint = hint_of(question)
    if hint:
        add(field, "p", "hint", hint, id=f"{box_id}-hint")
    box = add(field, "div", "box")
    add(
        box,
        "input",
        type="text",
        id=box_id,
        name=name,
        value=question.default,
        aria_describedby=_described(box_id, hint),
        **keyboard(question),
    )
    if isinstance(question, Number) and question.unit:
        add(box, "span", "unit", shown(question.unit), aria_hidden="true")
    if isinstance(question, Clock) and not question.daily:
        spoken = f"{question.label}: now"
        add(box, "button", "now", "Now", type="button", data_action="now", aria_label=spoken)
    _error(field, box_id)


def _choice(parent: Element, question: Choice, box_id: str) -> None:
    hint = hint_of(question)
    shared = {
        "data_question": question.id,
        "data_kind": "choice",
        "data_default": question.default,
        **({"data_private": "yes"} if question.private else {}),
    }
    if len(question.options) > _FEW:
        field = add(parent, "div", "field", **shared)
        label_with_unit(add(field, "label", for_=box_id), question)
        if hint:
            add(field, "p", "hint", hint, id=f"{box_id}-hint")
        select = add(
            add(field, "div", "box"),
            "select",
            id=box_id,
            name=question.id,
            aria_describedby=_described(box_id, hint),
        )
        add(select, "option", text="Choose one", value="")
        for option in question.options:
            chosen = {"selected": ""} if option.word == question.default else {}
            add(select, "option", text=option.label, value=option.word, **chosen)
    else:
        field = add(
            parent,
            "fieldset",
            "field",
            **shared,
            aria_describedby=_described(box_id, hint),
        )
        label_with_unit(add(field, "legend"), question)
        if hint:
            add(field, "p", "hint", hint, id=f"{box_id}-hint")
        choices = add(field, "div", "choices")
        for number, option in enumerate(question.options):
            one = f"{box_id}-{number}"
            label = add(choices, "label", "choice", for_=one)
            chosen = {"checked": ""} if option.word == question.default else {}
            add(label, "input", type="radio", id=one, name=box_id, value=option.word, **chosen)
            add(label, "span", text=option.label)
    _error(field, box_id)


def _head(column: Question) -> str:
    """What stands before a box where each row is shown as lines under each other."""
    unit = shown(column.unit) if isinstance(column, Number) else ""
    return f"{column.label} ({unit})" if unit else column.label


def _row(parent: Element, question: Table, row: str, cells: list[str], name: str) -> None:
    line = add(parent, "tr", data_row="")
    add(line, "th", text=name, scope="row")
    for place, column in enumerate(question.columns):
        cell = add(line, "td", data_head=_head(column))
        spoken = f"{column.label}, {name if question.fixed else f'row {row}'}"
        value = cells[place] if place < len(cells) else ""
        if isinstance(column, Choice):
            select = add(cell, "select", data_column=column.id, aria_label=spoken)
            add(select, "option", text="–", value="")
            for option in column.options:
                chosen = {"selected": ""} if option.word == value else {}
                add(select, "option", text=option.label, value=option.word, **chosen)
            continue
        add(
            cell,
            "input",
            type="text",
            data_column=column.id,
            aria_label=spoken,
            value=value,
            **keyboard(column),
        )
    add(
        add(line, "td", "row-tools"),
        "button",
        type="button",
        data_action="remove-row",
        aria_label=f"Remove row {row}",
        text="Remove",
        **({"hidden": ""} if question.fixed else {}),
    )


def row_name(question: Table, number: int) -> str:
    """What stands in front of a row: its number, names by turns such as immersion and air rest, or its own name."""
    if question.fixed:
        return question.row_names[number - 1]
    if question.row_names:
        return f"{number} {question.row_names[(number - 1) % len(question.row_names)]}"
    return str(number)


def _table(parent: Element, question: Table, box_id: str) -> None:
    field = add(
        parent,
        "fieldset",
        "field",
        data_question=question.id,
        data_kind="table",
        data_default=question.default,
        data_min_rows=str(question.min_rows),
        data_max_rows=str(question.max_rows),
        data_row_names="|".join(question.row_names),
        aria_describedby=_described(box_id, question.hint),
    )
    label_with_unit(add(field, "legend"), question)
    if question.hint:
        add(field, "p", "hint", question.hint, id=f"{box_id}-hint")
    grid = add(add(field, "div", "grid-box"), "table", "grid", data_columns=str(len(question.columns)))
    head = add(add(grid, "thead"), "tr")
    if question.fixed:
        add(head, "td")
    else:
        add(head, "th", text="Row", scope="col")
    for column in question.columns:
        label_with_unit(add(head, "th", scope="col"), column)
    add(head, "td")
    body = add(grid, "tbody")
    rows = split_rows(question, question.default) if question.default else []
    shown_rows = max(len(rows), question.min_rows, min(2, question.max_rows))
    for number in range(1, shown_rows + 1):
        cells = rows[number - 1] if number <= len(rows) else []
        _row(body, question, str(number), cells, row_name(question, number))
    template = add(field, "template", data_row_template="")
    _row(template, question, "{row}", [], "{name}")
    off = {"hidden": ""} if question.fixed else {}
    add(field, "button", type="button", data_action="add-row", text="Add a row", **off)
    _error(field, box_id)


def draw_question(parent: Element, question: Question, prefix: str) -> None:
    """One question with its label, hint, box and the place for its error."""
    box_id = f"{prefix}-{question.id}"
    if isinstance(question, Table):
        _table(parent, question, box_id)
    elif isinstance(question, Choice):
        _choice(parent, question, box_id)
    else:
        kind = "number" if isinstance(question, Number) else "clock" if isinstance(question, Clock) else "text"
        _one_line(parent, question, box_id, question.id, kind)


def _draw_either(parent: Element, sheet: Sheet, either: Either, prefix: str) -> None:
    box = add(parent, "div", "either", data_alternatives="")
    for number, group in enumerate(either.groups):
        if number:
            add(box, "p", "or", "or")
        part = add(box, "div", "either-part")
        for name in group:
            question = sheet.question(name)
            assert question is not None
            draw_question(part, question, prefix)


def draw_form(sheet: Sheet, prefix: str) -> Element:
    """The form: needed questions in view, those with a default or optional under a disclosure."""
    form = Element("form", {"class": "sheet-form", "novalidate": "", "autocomplete": "off"})
    for tally in sheet.tallies:
        draw_tally(form, tally)
    group_of = {name: either for either in sheet.either for g in either.groups for name in g}
    drawn: list[Either] = []
    later: list[Question] = []
    for question in sheet.questions:
        either = group_of.get(question.id)
        if either is not None:
            if either not in drawn:
                _draw_either(form, sheet, either, prefix)
                drawn.append(either)
        elif (question.default or question.optional) and not question.in_view:
            later.append(question)
        else:
            draw_question(form, question, prefix)
    draw_folded(form, later, prefix, "More questions")
    for field in form.iter():
        asked = sheet.question(field.get("data-question", ""))
        if asked is not None and (how := shared_by(sheet, asked)):
            field.set("data-shared", how)
    return form


def draw_folded(form: Element, questions: Sequence[Question], prefix: str, words: str) -> None:
    """Put questions under a fold that names them; without any there is no fold."""
    if not questions:
        return
    more = add(form, "details", "more-questions")
    add(more, "summary", text=f"{words}: " + ", ".join(question.label.lower() for question in questions))
    for question in questions:
        draw_question(more, question, prefix)


def example_json(sheet: Sheet, given: dict[str, str]) -> str:
    """The worked case as the page script fills it in: text, and rows of cells for tables."""
    filled: dict[str, object] = {}
    for name, text in given.items():
        question = sheet.question(name)
        if question is not None and is_private(question):
            continue
        filled[name] = split_rows(question, text) if isinstance(question, Table) else text
    return json.dumps(filled, ensure_ascii=True).replace("<", "\\u003c").replace("&", "\\u0026")


def accepted_units(question: Number) -> list[str]:
    """The units that may be typed for a number, for the command line's help."""
    return sorted(UNITS[question.unit].accepts) if question.unit else []
