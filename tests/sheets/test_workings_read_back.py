"""Every working that is a sum comes to the figure it stands beside, by the numbers a reader sees."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime
from functools import cache
from random import Random
from typing import Any

import pytest

from calculators.asking.answer import Answered, Joined, answer, example_of
from calculators.asking.declare import Outcome
from calculators.asking.figures import minus_signs
from calculators.drawing.results import NOT_A_SUM, working_words
from calculators.sheets import find_sheet, sheet_ids
from tests.drawn import drawn
from tests.fuzz.cases import right_case
from tests.sheets.reading_back import Unreadable, half_digit, steps

INPUTS = 200
"""Random inputs of each sheet, beside its worked case."""

FEWER = {"batch-forecast": 40, "house-week": 6}
"""Inputs of sheets that take a second for one."""

MOST_DRAWN = 8000
"""Cases drawn at most until so many were answered."""

FIGURE = re.compile(r"\d[\d.,e+−-]*")

every_sheet = pytest.mark.parametrize("sheet_id", sheet_ids())


def typed_numbers(values: Any) -> Iterator[float]:
    """All numbers among the values, kilograms also as tonnes."""
    if isinstance(values, dict):
        values = tuple(values.values())
    if isinstance(values, tuple):
        for value in values:
            yield from typed_numbers(value)
    elif isinstance(values, (int, float)):
        yield from (values, values / 1000.0)


def told_wrong(figure: Joined, values: dict[str, Any]) -> str:
    """What is wrong with the working of one answer; nothing if it reads back."""
    one, found = figure
    clocks = [value for value in values.values() if isinstance(value, datetime)]
    try:
        read = steps(minus_signs(found.working), set(typed_numbers(values)), 0.0 if one.kind == "clock" else None)
    except Unreadable as why:
        return f"cannot be read: {why}"
    for step in read:
        if not step.agrees:
            return f"{step.text!r} comes to {step.sum}"
    last = read[-1].shown
    if isinstance(found.value, datetime):
        start = values.get("start") or clocks[0]
        hours = (found.value - start).total_seconds() / 3600.0
        told = read[-1].sum
        apart = abs(told.value - hours)
        if start.year == 1:  # without a date: where water goes on the evening before, the start lies on day 2
            apart = min(apart, abs(apart - 24.0))
        return "" if apart <= told.reach + 1.0 / 60.0 else f"{hours} h are not {told}"
    if last is None:
        return "does not say what it comes to"
    assert isinstance(found.value, (int, float))
    if last.reach > half_digit(f"{1:.{max(0, figure.decimals)}f}") + 1e-9 * abs(last.value):
        return f"is less exact than the answer, of {figure.decimals} decimals"
    slack = last.reach * (1.0 + 1e-9) + 1e-9 * abs(last.value)
    return "" if abs(last.value - found.value) <= slack else f"ends on {last.value}, and the answer is {found.value}"


def inputs(sheet_id: str) -> int:
    """How many random inputs of a sheet are tried at most."""
    return FEWER.get(sheet_id, INPUTS)


def least(sheet_id: str) -> int:
    """How many random inputs of a sheet are tried now, whatever comes; half as many without a new form are the last."""
    return drawn(inputs(sheet_id), min(12, inputs(sheet_id) // 2))


def forms(answered: Answered) -> set[tuple[str, str]]:
    """The workings of a case without their figures, each with its answer."""
    return {(figure.one.id, FIGURE.sub("#", figure.found.working)) for figure in answered.figures}


@cache
def cases(sheet_id: str) -> tuple[Answered, ...]:
    """The worked case, then random ones; of those drawn, the ones that are answered."""
    sheet, random = find_sheet(sheet_id), Random(f"workings of {sheet_id}")
    found: list[Answered] = []
    seen: set[tuple[str, str]] = set()
    last_new = 0
    for number in range(MOST_DRAWN):
        answered = answer(sheet, right_case(sheet, random) if number else example_of(sheet))
        if isinstance(answered, Answered) and isinstance(answered.outcome, Outcome):
            found.append(answered)
            if new := forms(answered) - seen:
                seen |= new
                last_new = len(found)
        if len(found) > inputs(sheet_id) or len(found) > max(least(sheet_id), last_new + least(sheet_id) // 2):
            break
    return tuple(found)


def sums(answered: Answered) -> Iterator[Joined]:
    """The figures that were found by a sum."""
    return (figure for figure in answered.figures if figure.worked == "sum")


def with_working(figure: Joined, working: str) -> Joined:
    """The figure with another working beside it."""
    return figure._replace(found=figure.found._replace(working=working))


@pytest.mark.further(keep=10)
@pytest.mark.drawn
@every_sheet
def test_a_sum_comes_to_the_figure_it_stands_beside(sheet_id):
    for answered in cases(sheet_id):
        for figure in sums(answered):
            wrong = told_wrong(figure, answered.values)
            assert not wrong, f"{sheet_id}, {figure.one.id}: {figure.found.working!r} {wrong}"


@pytest.mark.further(keep=10)
@pytest.mark.drawn
@every_sheet
def test_what_is_no_sum_shows_no_sum_that_is_wrong(sheet_id):
    for answered in cases(sheet_id):
        for figure in answered.figures:
            if figure.worked != "sum":
                assert working_words(figure).startswith(NOT_A_SUM[figure.worked])
                parts = [part for part in figure.found.working.split("; ") if " = " in part]
                read = steps(minus_signs("; ".join(parts)), set(typed_numbers(answered.values))) if parts else []
                assert all(step.agrees for step in read), f"{sheet_id}, {figure.one.id}: {figure.found.working!r}"


@pytest.mark.further(keep=10)
@pytest.mark.drawn
@every_sheet
def test_enough_cases_are_answered_to_try_the_workings(sheet_id):
    assert least(sheet_id) < len(cases(sheet_id)) <= inputs(sheet_id) + 1


OTHER = {"×": "/", "/": "×", "+": "−", "−": "+"}
OPERATOR = re.compile(r"(?<= )[×/+−](?= )|(?<=\))/(?=\d)|(?<=\d)/(?=\d)")


def falsified(working: str, place: int) -> str:
    """The working with another operator at one of its places, where it has so many."""
    found = list(OPERATOR.finditer(working))
    if place >= len(found):
        return working
    sign = found[place]
    return working[: sign.start()] + OTHER[sign.group()] + working[sign.end() :]


def test_a_falsified_working_is_caught():
    """Five workings drawn at random, each with one operator changed wherever it is shown."""
    random = Random("falsified")
    drawn = [
        (sheet_id, figure.one.id, place)
        for sheet_id in sheet_ids()
        for figure in sums(cases(sheet_id)[0])
        for place in range(len(OPERATOR.findall(figure.found.working)))
    ]
    for sheet_id, answer_id, place in random.sample(drawn, 5):
        caught = 0
        for answered in cases(sheet_id):
            for figure in sums(answered):
                if figure.one.id == answer_id:
                    false = with_working(figure, falsified(figure.found.working, place))
                    caught += bool(told_wrong(false, answered.values))
        assert caught, f"{sheet_id}, {answer_id}: operator {place} may be any"


@pytest.mark.parametrize(
    ("sheet_id", "answer_id", "right", "wrong"),
    [
        ("bed-heat", "fan_kw", " / 1000", ""),  # watts for kilowatts
        ("bed-heat", "water_lost_kg_day", " / 1000", ""),  # grams for kilograms
        ("drum-fill", "fill_percent_cast", "100 × 13", "13"),  # a part of one for per cent
        ("malting-loss", "planned_malt_kg", " / (100 − 5)", ""),
        ("kiln-water", "latent_heat_kwh", "3600", "3.6"),  # joules for kilojoules
    ],
)
def test_a_slip_of_unit_is_caught(sheet_id, answer_id, right, wrong):
    answered = cases(sheet_id)[0]
    (figure,) = [figure for figure in sums(answered) if figure.one.id == answer_id]
    working = figure.found.working
    assert right in working and not told_wrong(figure, answered.values)
    assert told_wrong(with_working(figure, working.replace(right, wrong)), answered.values)
