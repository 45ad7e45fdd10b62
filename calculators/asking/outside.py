"""What lies outside: a model's limit that is broken, a figure that cannot be.

Both are said in the words of the sheet, beside the question that causes them.
"""

import math
from collections.abc import Iterator

from ..models.bounds import OutOfRange
from .declare import Answer, Heading, Number, Question, Sheet, Table, Values, Within
from .declare.answers import Listing
from .declare.outcome import Found, Rows
from .figures import few_digits, said_span
from .reading import Problem
from .units import shown

LOOSE = "these answers do not go together"
"""What is said where a limit belongs to no question. No sheet should come to it; a test looks for it."""

_NOISE = 1e-9  # of a machine's sums, as a part of the figure


class Beyond(Exception):
    """A figure came out that cannot be; ``problem`` is beside the question, or has none where it is refused."""

    def __init__(self, text: str, question: str | None) -> None:
        super().__init__(text)
        self.text = text
        self.question = question


def broken(sheet: Sheet, limit: OutOfRange, values: Values) -> Problem:
    """A limit that stands in a model, said beside its question, with its label and unit."""
    because = f" {limit.reason}" if limit.reason else ""
    span = said_span(limit.low, limit.high)
    question = sheet.question(limit.table or limit.parameter)
    if question is not None and values.get(question.id) is not None:
        return _of_question(question, limit, values[question.id], span, because)
    for one in sheet.belongs:
        asked = next((q for name in one.questions if (q := _answered(sheet, name, values))), None)
        if one.parameter in (limit.parameter, f"{limit.table}.{limit.parameter}") and asked:
            unit = f" {shown(one.unit)}" if one.unit else ""
            now = "" if limit.value is None else f" comes to {few_digits(limit.value)}{unit}, and"
            said = one.said or asked.label.lower()
            return Problem(asked.id, f"{asked.label}: {said}{now} must be {span}{unit}.{because}")
    first = next((q for q in sheet.questions if values.get(q.id) is not None), sheet.questions[0])
    return Problem(first.id, f"{first.label}: {LOOSE}. Check each one and its unit.{because}")


def _answered(sheet: Sheet, name: str, values: Values) -> Question | None:
    return sheet.question(name) if values.get(name) is not None else None


def _of_question(question: Question, limit: OutOfRange, typed: object, span: str, because: str) -> Problem:
    cell: Question | None = question
    if isinstance(question, Table):
        cell = next((c for c in question.columns if c.id == limit.parameter), None)
    unit = f" {shown(cell.unit)}" if isinstance(cell, Number) and cell.unit else ""
    where, row, column = question.label, None, None
    if limit.row is not None and cell is not None:
        row, column = limit.row + 1, cell.id
        where += f", row {row}, {cell.label.lower()}"
    comes_to = ""
    if limit.value is not None and not _is_typed(limit.value, typed):
        comes_to = f"on the way it comes to {few_digits(limit.value)}{unit}; "
    return Problem(question.id, f"{where}: {comes_to}type a number {span}{unit}.{because}", row, column)


def _is_typed(value: float, typed: object) -> bool:
    return not isinstance(typed, float) or math.isclose(value, typed, rel_tol=1e-6)


def look(sheet: Sheet, figures: list[tuple[Answer, Found]], tables: list[tuple[Listing, Rows]], values: Values) -> None:
    """Look whether every figure is one that can be.

    Raises
    ------
    Beyond
        For the first that is not.
    """
    for label, value, unit, within in _figures(figures, tables):
        slack = _NOISE * max(abs(value), abs(within.low), abs(within.high), 1.0)
        if within.low - slack <= value <= within.high + slack:
            continue
        behind = f" {shown(unit)}" if unit else ""
        span = said_span(within.low, within.high)
        said = f"“{label}” would come to {few_digits(value)}{behind}, and can be {span}{behind}"
        asked = next((q for name in within.ask if (q := _answered(sheet, name, values))), None)
        text = f"{said}. {within.why} {within.instead}".rstrip()
        raise Beyond(text, asked.id if asked else None)


def kept_within(one: Answer, found: Found) -> Found:
    """The figure with its doubt cut off where it could not be."""
    if one.within is None or not isinstance(found.value, (int, float)):
        return found
    low, high = one.within.low, one.within.high
    return found._replace(
        low=None if found.low is None else min(max(found.low, low), found.value),
        high=None if found.high is None else max(min(found.high, high), found.value),
    )


def _figures(
    figures: list[tuple[Answer, Found]], tables: list[tuple[Listing, Rows]]
) -> Iterator[tuple[str, float, str, Within]]:
    for one, found in figures:
        if one.within is not None and isinstance(found.value, (int, float)):
            yield one.label, found.value, one.unit, one.within
    for listing, rows in tables:
        for place, column in enumerate(listing.columns):
            for number, row in enumerate(rows.rows, 1):
                if column.within is not None and isinstance(cell := row[place], (int, float)):
                    yield _where(listing, column, number), cell, column.unit, column.within


def _where(listing: Listing, column: Heading, row: int) -> str:
    return f"{listing.label}, row {row}, {column.label.lower()}"
