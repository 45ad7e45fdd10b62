"""The answers as drawn: a working that is no sum says so before the reader takes up a pencil."""

from __future__ import annotations

import pytest

from calculators.asking.answer import Answered, Joined, answer, example_of
from calculators.asking.declare import Answer, Found
from calculators.cli import main
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
