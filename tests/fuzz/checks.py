"""What must hold of a reply, whatever was typed."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from html.parser import HTMLParser
from typing import Any, NoReturn

from calculators.asking.answer import Answered, as_json
from calculators.asking.declare import Choice, Number, Outcome, Question, Sheet, Table, Within
from calculators.asking.outside import LOOSE
from calculators.asking.reading import Problem
from calculators.page import embed
from calculators.sheets import find_sheet, sheet_ids

_RAW = re.compile(r"\b[a-z]+_[a-z_]+\b")
_RUDE = re.compile(r"\b(invalid|illegal|please|exception|null|nan)\b", re.IGNORECASE)
_FIGURE = re.compile(r"\d[\d,]*(?:\.\d+)?(?:e[+-]?\d+)?")
_QUOTED = re.compile(r"“[^”]*”")
_MOST_DIGITS = 4


class _Tags(HTMLParser):
    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: set[tuple[str, str]] = set()
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.add((tag, ""))
        for name, value in attrs:
            self.found.add((tag, name))
            plain = (value or "").lower().replace(" ", "")
            assert not plain.startswith(("javascript:", "data:", "vbscript:")), f"<{tag} {name}={value!r}>"


@cache
def known_tags() -> frozenset[tuple[str, str]]:
    """Elements and attributes that the worked cases of all sheets have, and those of other standings."""
    found: set[tuple[str, str]] = {("p", "class"), ("div", "class"), ("strong", ""), ("br", "")}
    found |= {("button", "data-said"), ("button", "data-values")}  # what of an answer is gone on from
    for name in sheet_ids():
        found |= _Tags(embed(name, {}, name)).found
    return frozenset(found)


def _no_constant(name: str) -> NoReturn:
    raise AssertionError(f"the reply holds {name}, which is not JSON")


def check_reply(text: str) -> dict[str, Any]:
    """Check a reply of ``respond``: JSON, words for every fault, and only elements that sheets are made of."""
    reply: dict[str, Any] = json.loads(text, parse_constant=_no_constant)
    assert reply["state"] in ("answered", "refused", "incomplete", "wrong")
    if reply["state"] in ("wrong", "incomplete"):
        assert not reply["places"] and (reply["errors"] or reply["missing"])
    for error in reply["errors"]:
        assert error["text"].strip()
    for name, html in reply["places"].items():
        strange = _Tags(html).found - known_tags()
        assert not strange, f"{name}: {strange}"
        assert "nan" not in html.lower().replace("nanc", "").split(), f"{name} shows a number that is none"
    return reply


def check_ranges(result: Answered) -> None:
    """Check that every figure, its doubt and every cell of a table is what it can be."""
    as_json(result)
    if not isinstance(result.outcome, Outcome):
        return
    for one, found in result.figures:
        figures = [x for x in (found.low, found.value, found.high) if isinstance(x, float | int)]
        assert figures == sorted(figures), f"{one.id} = {figures}: the value is outside its own doubt"
        _within(one.id, one.within, figures)
    for listing, rows in result.tables:
        for row in rows.rows:
            for column, cell in zip(listing.columns, row, strict=True):
                if isinstance(cell, float | int):
                    _within(f"{listing.id} {column.id}", column.within, [cell])


def _within(name: str, within: Within | None, figures: Sequence[float]) -> None:
    if not figures:
        return
    assert within is not None and all(math.isfinite(x) for x in figures), f"{name} = {figures}"
    slack = 1e-9 * max(abs(within.low), abs(within.high), 1.0)
    assert within.low - slack <= min(figures) and max(figures) <= within.high + slack, f"{name} = {figures}: {within}"


def check_message(sheet: Sheet, problem: Problem, case: Mapping[str, Any]) -> None:
    """Check that a message stands beside a question and is in our words, with figures that can be read."""
    text = problem.text
    question = sheet.question(problem.question)
    assert question is not None, f"beside no question: {text}"
    assert text.startswith(question.label) or any(
        text.startswith(other.label) for either in sheet.either for g in either.groups for n in g
        if problem.question in {m for h in either.groups for m in h} and (other := sheet.question(n))
    ), text  # fmt: skip
    if problem.column is not None:
        assert isinstance(question, Table) and problem.column in [column.id for column in question.columns], text
    if problem.row is not None:
        assert isinstance(question, Table) and problem.row >= 1, text
    check_words(text, sheet, case)


def check_words(text: str, sheet: Sheet, case: Mapping[str, Any]) -> None:
    """Check that a text has no raw names, no foreign words, and no figure longer than anybody reads."""
    assert LOOSE not in text, text
    plain = re.sub(r"\[\[[^]|]*\|?([^]]*)\]\]", r"\1", _QUOTED.sub("", text))
    words = {option.word for question in _cells(sheet) if isinstance(question, Choice) for option in question.options}
    assert not set(_RAW.findall(plain)) - words, text
    assert not set(_RUDE.findall(plain)) - words, text
    known = _typed_figures(case) | _declared(sheet)
    # Corns are said to the corn, and the most that fits as it is shown, so that it is taken when typed.
    for figure in _FIGURE.findall(re.sub(r"\d+ corns\b|\b[Aa]t most \d+ kg\b", "", plain)):
        value = float(figure.replace(",", ""))
        digits = re.sub(r"e.*", "", figure).replace(",", "").replace(".", "").strip("0")
        if len(digits) > _MOST_DIGITS:
            assert any(math.isclose(value, other, rel_tol=1e-5) for other in known), f"{figure} in: {text}"


def _cells(sheet: Sheet) -> Iterator[Question]:
    for question in sheet.questions:
        yield from question.columns if isinstance(question, Table) else (question,)


def _typed_figures(typed: object) -> set[float]:
    if isinstance(typed, Mapping):
        return set().union(*(_typed_figures(value) for value in typed.values())) if typed else set()
    if isinstance(typed, list | tuple):
        return set().union(*(_typed_figures(value) for value in typed)) if typed else set()
    found = re.findall(r"\d+(?:[.,]\d+)?(?:e[+-]?\d+)?", str(typed))
    values = {float(figure.replace(",", ".")) for figure in found if len(figure) < 300}
    # what was typed in another unit is said in ours
    return (
        values
        | {v * f for v in values for f in (1000.0, 0.001, 0.45359237, 1 / 60, 24.0, 0.01, 100.0, 60.0)}
        | {(v - 32) * 5 / 9 for v in values}
    )


def _declared(sheet: Sheet) -> set[float]:
    return {edge for q in _cells(sheet) if isinstance(q, Number) for edge in (q.low, q.high)} | {
        float(text) for q in _cells(sheet) if isinstance(q, Number) for text in (q.example, q.default) if text
    }


def sheets() -> list[str]:
    """The ids of all sheets."""
    return [find_sheet(name).id for name in sheet_ids()]
