"""Near misses of a worked case: what a finger, an eye or a wrong unit makes of what was to be typed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from random import Random
from typing import Any

from calculators.asking.declare import Choice, Number, Question, Sheet, Table
from tests.fuzz.cases import Case, example

_FACTORS = (0.001, 0.01, 0.1, 10.0, 100.0, 1000.0)  # the point moved, or grams for kilograms
_NEAR_KEYS = dict(zip("1234567890", ("2", "13", "24", "35", "46", "57", "68", "79", "80", "9"), strict=True))
OTHER_UNITS = {"kg": ("t", "g", "lb"), "C": ("F",), "h": ("min", "days"), "g": ("kg",), "m": ("cm",), "%": ("",)}


def of_number(text: str) -> Iterator[str]:
    """Slips of one number as it is typed."""
    value = float(text)
    last = len(text.partition(".")[2])
    for step in (-1, 1):
        yield f"{value + step * 10.0**-last:.{last}f}"
    for factor in _FACTORS:
        yield f"{value * factor:.10g}"
    for place, digit in enumerate(text):
        for key in _NEAR_KEYS.get(digit, ""):
            yield text[:place] + key + text[place + 1 :]
        if digit.isdigit():
            yield text[:place] + digit * 2 + text[place + 1 :]
            if len(text) > 1:
                yield text[:place] + text[place + 1 :]
        if place and text[place - 1] != digit:
            yield text[: place - 1] + digit + text[place - 1] + text[place + 1 :]
    yield text.replace(".", ",")
    yield f"-{text}"
    yield "0"


def of_question(question: Question, typed: str) -> Iterator[str]:
    """Slips of one answer."""
    if isinstance(question, Number):
        if typed:
            yield from of_number(typed)
            for unit in OTHER_UNITS.get(question.unit, ()):
                yield f"{typed} {unit}".strip()
        yield from (f"{question.low:.10g}", f"{question.high:.10g}")
    elif isinstance(question, Choice):
        yield from (option.word for option in question.options if option.word != typed)
    elif ":" in typed:
        hour, _, minute = typed.rpartition(" ")[2].partition(":")
        hour, day = hour[-2:], hour[:-2]
        yield from (f"{day}{(int(hour) + 12) % 24:02}:{minute}", f"{minute}:{hour}", f"00:{minute}")


def _of_table(question: Table, rows: list[list[str]]) -> Iterator[list[list[str]]]:
    for at, row in enumerate(rows):
        for place, column in enumerate(question.columns):
            cell = row[place] if place < len(row) else ""
            for slip in of_question(column, cell):
                yield [*rows[:at], [*row[:place], slip, *row[place + 1 :]], *rows[at + 1 :]]
        for place in range(len(row) - 1):
            yield [*rows[:at], [*row[:place], row[place + 1], row[place], *row[place + 2 :]], *rows[at + 1 :]]
        yield [*rows[:at], *rows[at + 1 :]]  # forgotten
        yield [*rows[:at], row, *rows[at:]]  # typed twice
        if at:
            yield [*rows[: at - 1], row, rows[at - 1], *rows[at + 1 :]]


def misses(sheet: Sheet) -> Iterator[Case]:
    """Every single slip of the sheet's worked case, and of the defaults beside it."""
    case: dict[str, Any] = {
        **{q.id: q.default for q in sheet.questions if q.default and not isinstance(q, Table)},
        **example(sheet),
    }
    for question in sheet.questions:
        typed = case.get(question.id, "")
        slips = _of_table(question, typed or []) if isinstance(question, Table) else of_question(question, typed)
        for slip in slips:
            yield {**case, question.id: slip}
    numbers = [q.id for q in sheet.questions if isinstance(q, Number) and case.get(q.id)]
    for one, other in pairwise(numbers):  # typed into the wrong box
        yield {**case, one: case[other], other: case[one]}


def two_misses(sheet: Sheet, random: Random) -> Iterator[Case]:
    """Two slips at once, without end."""
    case = example(sheet)
    single = list(misses(sheet))
    while single:
        one, other = random.choice(single), random.choice(single)
        yield {**one, **{name: value for name, value in other.items() if value != case.get(name)}}
