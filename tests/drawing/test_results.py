"""The answers as drawn: a working that is no sum says so before the reader takes up a pencil."""

from __future__ import annotations

import json
import re

import pytest

from calculators.asking.answer import Answered, Joined, answer, example_of
from calculators.asking.declare import Answer, Axis, Chart, Found, Line
from calculators.cli import main
from calculators.drawing.elements import html
from calculators.drawing.pictures import draw
from calculators.drawing.results import NOT_A_SUM, places, working_words
from calculators.sheets import find_sheet

A_SUM = Answer("kg", "Weight", "kg")
BY_TRYING = Answer("h", "Hours", "h", worked="model")
A_VERDICT = Answer("verdict", "Verdict", kind="verdict")


def test_a_sum_stands_as_it_is():
    assert working_words(Joined(A_SUM, Found("kg", 6.0, "2 × 3 = 6 kg"))) == "2 × 3 = 6 kg"
    assert working_words(Joined(A_SUM, Found("kg", 6.0))) == ""


def test_what_is_no_sum_says_so_by_its_declaration_or_by_the_case():
    assert working_words(Joined(BY_TRYING, Found("h", 5.0, "first hour on target"))) == (
        f"{NOT_A_SUM['model']}: first hour on target"
    )
    given = Joined(A_SUM, Found("kg", 6.0, "your own figure", worked="given"))
    assert working_words(given).startswith(NOT_A_SUM["given"])
    assert working_words(Joined(A_VERDICT, Found("verdict", "stop"))) == f"{NOT_A_SUM['rule']}."


@pytest.mark.parametrize(("sheet_id", "way"), [("steep-timing", "model"), ("intake-check", "rule")])
def test_the_page_and_the_command_line_say_it(sheet_id, way, capsys):
    sheet = find_sheet(sheet_id)
    answered = answer(sheet, example_of(sheet))
    assert isinstance(answered, Answered)
    assert NOT_A_SUM[way] in places(answered, sheet_id, None)["working"]
    main(["run", sheet_id, *(f"{name}={text}" for name, text in example_of(sheet).items())])
    assert NOT_A_SUM[way] in capsys.readouterr().out


def test_a_page_of_sums_says_nothing_of_the_kind():
    sheet = find_sheet("moisture-target")
    answered = answer(sheet, example_of(sheet))
    assert isinstance(answered, Answered)
    working = places(answered, sheet.id, None)["working"]
    assert not any(words in working for words in NOT_A_SUM.values() if words)


OVER = {"barley_kg": "8000", "barley_moisture": "12", "target_moisture": "45", "current_kg": "14000"}
"""A steep that weighs more than it should: what is to be gained yet is less than nothing."""


def test_less_than_zero_has_a_minus_sign_in_the_page_and_is_a_number_on_the_command_line(capsys):
    sheet = find_sheet("moisture-target")
    answered = answer(sheet, OVER)
    assert isinstance(answered, Answered)
    shown = places(answered, sheet.id, None)
    drawn = re.sub(r"<[^>]*>", " ", " ".join(shown.values()))
    assert re.search(r"− ?\d", drawn) and not re.search(r"(?<![\w-])-\d", drawn)
    main(["run", sheet.id, *(f"{name}={text}" for name, text in OVER.items()), "--json"])
    told = json.loads(capsys.readouterr().out)["answers"]
    (less,) = [one for one in told.values() if isinstance(one["value"], float) and one["value"] < 0]
    assert f"−{abs(less['value']):.0f}" in shown["answers"]


def test_a_minus_sign_is_understood_where_it_is_typed_or_pasted():
    typed = {**OVER, "current_kg": "−5"}
    told = answer(find_sheet("moisture-target"), typed)
    assert told == answer(find_sheet("moisture-target"), {**OVER, "current_kg": "-5"})


def test_a_chart_draws_its_negative_numbers_with_a_minus_sign_and_its_lines_with_none():
    chart = Chart(
        "c",
        "Demo",
        "Demo",
        Axis("way", "m", low=-4.0, high=4.0),
        Axis("heat", "°C", low=-20.0, high=20.0),
        lines=(Line("one", (-4.0, 4.0), (-20.0, 20.0)),),
    )
    drawn = html(draw(chart, "demo"))
    assert ">−20<" in drawn
    assert "−" not in re.sub(r">[^<]*<", "><", drawn)
