"""The one entry that the page, the command line, the tests and the exercises all call."""

import math
from collections.abc import Mapping
from datetime import datetime
from typing import Any, NamedTuple

from .. import __version__
from ..models.bounds import OutOfRange
from .declare import (
    Answer,
    AskAgain,
    Choice,
    First,
    Found,
    Listing,
    Note,
    Outcome,
    Question,
    Refusal,
    Rows,
    Sheet,
    Value,
    Values,
    Worked,
    is_private,
)
from .outside import Beyond, broken, kept_within, look
from .reading import Problem, Raw, is_blank, read, what_to_type

SCHEMA = 1


class Joined(NamedTuple):
    """What was found for an answer, with its declaration."""

    one: Answer
    found: Found

    @property
    def decimals(self) -> int:
        """The decimals of this case, or those declared."""
        return self.one.decimals if self.found.decimals is None else self.found.decimals

    @property
    def worked(self) -> Worked:
        """How this figure was found: as the case says, or as the declaration does."""
        return self.found.worked or ("rule" if self.one.kind == "verdict" else self.one.worked)

    @property
    def gives(self) -> str:
        """The shared question that this figure answers in other sheets, or nothing."""
        return self.one.gives if self.found.gives is None else self.found.gives


class Listed(NamedTuple):
    """The rows of a table, with its declaration."""

    listing: Listing
    rows: Rows


class Answered(NamedTuple):
    """Every question was answered right: the values read, and the outcome or the refusal.

    ``figures`` and ``tables`` are those of the outcome, joined with their declarations; none go with a refusal.
    """

    sheet: Sheet
    values: Values
    outcome: Outcome | Refusal
    figures: tuple[Joined, ...] = ()
    tables: tuple[Listed, ...] = ()

    @property
    def said(self) -> Values:
        """The values that may be shown, printed or passed on: what is private is blank."""
        return {q.id: None if is_private(q) else self.values[q.id] for q in self.sheet.questions}


class NotAnswered(NamedTuple):
    """Something has to be put right first."""

    sheet: Sheet
    problems: tuple[Problem, ...]


def example_of(sheet: Sheet) -> dict[str, str]:
    """The worked case as a person would type it: examples where there are any."""
    return {question.id: question.example for question in sheet.questions if question.example}


def answer(sheet: Sheet, raw: Mapping[str, Raw]) -> Answered | NotAnswered:
    """Read what was typed and work the sheet.

    Parameters
    ----------
    sheet : Sheet
        The declaration, from ``calculators.sheets.find_sheet``.
    raw : mapping of str to str, number or rows
        What was typed, by id of the question. Defaults stand in for blanks; examples never do.

    Returns
    -------
    Answered or NotAnswered
        Answered also where the sheet's ``first`` has something to say; what is still blank or wrong is then named in
        a remark, and has None among the values, as has every default.
    """
    unknown = [
        Problem(name, f"{sheet.title} asks no question “{name}”. It asks: {_asked(sheet)}.")
        for name in raw
        if sheet.question(name) is None
    ]
    problems = list(unknown)
    values: Values = {}
    for question in sheet.questions:
        typed = raw.get(question.id)
        if is_blank(typed) and question.default:
            typed = question.default
        if is_blank(typed):
            values[question.id] = None
            continue
        value, found = read(question, typed)
        values[question.id] = value
        problems.extend(found)
    refused, _ = refusing(sheet, values)
    if refused and not unknown:
        return Answered(sheet, values, refused)
    wrong = {problem.question for problem in problems}
    problems.extend(_missing(sheet, values, wrong))
    first = _comes_first(sheet, sheet.first, values, raw) if sheet.first else None
    outcome: Outcome | Refusal | None = None
    if not problems:
        try:
            outcome = _possible(sheet, sheet.work(**values), values)
        except AskAgain as again:
            problems.append(_asked_again(sheet, again))
        except OutOfRange as limit:
            problems.append(broken(sheet, limit, values))
    if outcome is None:
        if first is None:
            return NotAnswered(sheet, tuple(problems))
        outcome = first._replace(notes=(*first.notes, *_still_open(sheet, problems)))
        # what nobody typed has no part in it, and would stand between the reader and what comes first
        for question in sheet.questions:
            if is_blank(raw.get(question.id)) or raw[question.id] == question.default:
                values[question.id] = None
    if isinstance(outcome, Refusal):
        return Answered(sheet, values, outcome)
    figures, tables = join(sheet, outcome)
    outcome = outcome._replace(answers=tuple(figure.found for figure in figures))
    return Answered(sheet, values, outcome, figures, tables)


def _comes_first(sheet: Sheet, first: First, values: Values, raw: Mapping[str, Raw]) -> Outcome | Refusal | None:
    """What is answered before the rest is asked; a number that more is worse of is taken at its worst."""
    given = {name: values[name] for name in first.questions}
    for name in given if first.worst else ():
        question = sheet.question(name)
        if question is not None and not is_blank(raw.get(name)):
            given[name], _ = read(question, raw[name], first.worst)
    return first.work(**given)


def _possible(sheet: Sheet, outcome: Outcome | Refusal, values: Values) -> Outcome | Refusal:
    """The outcome when every figure can be; else it is asked back, or refused with what there is to be afraid of.

    On guarded sheets it is refused, not asked back, when the outcome warned of something: that must not go with it.
    """
    if isinstance(outcome, Refusal):
        return outcome
    figures, tables = join(sheet, outcome)
    try:
        look(sheet, [(one, found) for one, found in figures], [(one, rows) for one, rows in tables], values)
    except Beyond as beyond:
        grave = tuple(note for note in outcome.notes if note.level in ("danger", "warning"))
        if beyond.question is None or (sheet.guarded and grave):
            return Refusal(beyond.text, grave)
        raise AskAgain(beyond.question, beyond.text) from None
    return outcome


def refusing(sheet: Sheet, values: Values) -> tuple[Refusal | None, Question | None]:
    """The refusal that a chosen word brings by itself, and the question it answers; a private one comes first."""
    for question in sorted(sheet.questions, key=lambda question: not is_private(question)):
        if isinstance(question, Choice):
            for option in question.options:
                if option.refuses and option.word == values[question.id]:
                    return option.refuses, question
    return None, None


def _still_open(sheet: Sheet, problems: list[Problem]) -> list[Note]:
    """What is blank or wrong beside an answer that did not wait for it."""
    notes = [Note("remark", f"Put right as well: {problem.text}") for problem in problems if not problem.missing]
    blank = {problem.question for problem in problems if problem.missing}
    missing = [question.label for question in sheet.questions if question.id in blank]
    if missing:
        notes.insert(0, Note("remark", f"Still blank, and this answer does not wait for it: {', '.join(missing)}."))
    return notes


def _asked(sheet: Sheet) -> str:
    return ", ".join(question.id for question in sheet.questions)


def _missing(sheet: Sheet, values: Values, wrong: set[str]) -> list[Problem]:
    problems: list[Problem] = []
    grouped: set[str] = set()
    for either in sheet.either:
        grouped.update(name for group in either.groups for name in group)
        begun = [g for g in either.groups if any(values[n] is not None or n in wrong for n in g)]
        if len(begun) > 1:
            first, other = begun[0], begun[1]
            problems.append(
                Problem(
                    other[0],
                    f"{_names(sheet, first)} and {_names(sheet, other)} are both given. "
                    "Give one and leave the other blank.",
                )
            )
        elif begun:
            problems.extend(_blank(sheet, begun[0], values, wrong))
        elif either.required:
            choices = " or ".join(_names(sheet, group) for group in either.groups)
            first_question = sheet.question(either.groups[0][0])
            assert first_question is not None
            problems.append(
                Problem(
                    first_question.id,
                    f"{choices}: one of these is needed. {what_to_type(first_question)}",
                    missing=True,
                )
            )
    needed = tuple(q.id for q in sheet.questions if not q.optional and q.id not in grouped)
    order = {question.id: place for place, question in enumerate(sheet.questions)}
    return sorted(problems + _blank(sheet, needed, values, wrong), key=lambda problem: order[problem.question])


def _blank(sheet: Sheet, group: tuple[str, ...], values: Values, wrong: set[str]) -> list[Problem]:
    problems = []
    for name in group:
        question = sheet.question(name)
        if question is not None and values[name] is None and name not in wrong:
            problems.append(Problem(name, f"{question.label}: {what_to_type(question)}", missing=True))
    return problems


def _names(sheet: Sheet, group: tuple[str, ...]) -> str:
    questions = [sheet.question(name) for name in group]
    return " with ".join(question.label for question in questions if question)


def _asked_again(sheet: Sheet, again: AskAgain) -> Problem:
    question = sheet.question(again.question)
    label = f"{question.label}: " if question else ""
    return Problem(again.question, f"{label}{again.text}", again.row)


def join(sheet: Sheet, outcome: Outcome) -> tuple[tuple[Joined, ...], tuple[Listed, ...]]:
    """Join figures and tables with their declarations, and refuse to pass on what a working must never give.

    Raises
    ------
    LookupError
        When something was not declared.
    ArithmeticError
        When a figure is not finite, a verdict is not on its list, or a row has the wrong length.
    """
    answers = {one.id: one for one in sheet.answers}
    listings = {listing.id: listing for listing in sheet.listings}
    for name in [found.id for found in outcome.answers if found.id not in answers]:
        raise LookupError(f"{sheet.id} declares no answer {name}")
    for name in [rows.id for rows in outcome.tables if rows.id not in listings]:
        raise LookupError(f"{sheet.id} declares no table {name}")
    order = list(answers)
    figures = [Joined(one := answers[found.id], kept_within(one, found)) for found in outcome.answers]
    figures.sort(key=lambda figure: order.index(figure.one.id))
    tables = [Listed(_named(listings[rows.id], rows), rows) for rows in outcome.tables]
    for one, found in figures:
        for value in (found.value, found.low, found.high):
            if isinstance(value, float) and not math.isfinite(value):
                raise ArithmeticError(f"{sheet.id}: {found.id} is not finite")
        if one.kind == "verdict" and found.value not in [w.word for w in one.words]:
            raise ArithmeticError(f"{sheet.id}: {found.id} is not on its list of words")
    for listing, rows in tables:
        for row in rows.rows:
            if len(row) != len(listing.columns):
                raise ArithmeticError(f"{sheet.id}: a row of {rows.id} has the wrong length")
            for cell in row:
                if isinstance(cell, float) and not math.isfinite(cell):
                    raise ArithmeticError(f"{sheet.id}: a cell of {rows.id} is not finite")
    return tuple(figures), tuple(tables)


def _named(listing: Listing, rows: Rows) -> Listing:
    """The listing with the columns that its rows name, where they name them."""
    if rows.labels is None:
        return listing
    labels = rows.labels
    return listing._replace(
        columns=tuple(one._replace(label=labels[one.id]) for one in listing.columns if one.id in labels)
    )


def _plain(value: object) -> object:
    if isinstance(value, datetime):
        return value.isoformat(timespec="minutes")
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    return value


def _answer_json(figure: Joined) -> dict[str, Any]:
    one, found = figure
    entry: dict[str, Any] = {"value": _plain(found.value), "unit": one.unit, "decimals": figure.decimals}
    if found.low is not None:
        entry["low"] = found.low
    if found.high is not None:
        entry["high"] = found.high
    return entry


def as_json(answered: Answered) -> dict[str, Any]:
    """The result as plain data of schema 1, ready for ``json.dumps``."""
    sheet, outcome = answered.sheet, answered.outcome
    result: dict[str, Any] = {
        "schema": SCHEMA,
        "version": __version__,
        "sheet": sheet.id,
        "questions": {k: _plain(v) for k, v in answered.said.items() if v is not None},
        "answers": {},
        "tables": {},
        "notes": [{"level": note.level, "text": note.text} for note in outcome.notes],
    }
    if isinstance(outcome, Refusal):
        result["refused"] = outcome.text
        return result
    result["answers"] = {figure.one.id: _answer_json(figure) for figure in answered.figures}
    result["tables"] = {
        listing.id: {"columns": [column.id for column in listing.columns], "rows": [_plain(row) for row in rows.rows]}
        for listing, rows in answered.tables
    }
    return result


__all__ = ["Answered", "NotAnswered", "Value", "answer", "as_json"]
