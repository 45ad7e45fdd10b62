"""The one entry: defaults, examples, alternatives, what does not fit together, refusals, JSON."""

from __future__ import annotations

import json
from typing import Any

import pytest

from calculators.asking.answer import Answered, NotAnswered, answer, as_json, join
from calculators.asking.declare import Found, Outcome, Rows
from calculators.sheets import find_sheet
from tests.demo import RIGHT, SHEET


def answered(**changed: Any) -> Answered:
    result = answer(SHEET, {**RIGHT, **changed})
    assert isinstance(result, Answered), result
    return result


def problems(**changed: Any):
    result = answer(SHEET, {**RIGHT, **changed})
    assert isinstance(result, NotAnswered), result
    return result.problems


def test_a_default_stands_in_for_a_blank():
    assert answered().values["turns"] == 2
    assert answered(turns="  ").values["turns"] == 2
    assert answered(turns="3").values["turns"] == 3


def test_an_example_never_answers():
    (problem,) = problems(temp_c="")
    assert problem.missing and problem.question == "temp_c"
    assert problem.text == "Bed temperature: Type a number from -5 to 30 °C, such as 16."


def test_optional_questions_may_stay_blank():
    assert answered().values["start"] is None


def test_one_of_two_alternatives_is_needed():
    (problem,) = problems(barley_kg="")
    assert problem.missing and "Barley weight or Bed weight: one of these is needed" in problem.text
    assert answered(barley_kg="", bed_kg="300").values["bed_kg"] == 300


def test_both_alternatives_are_asked_back():
    (problem,) = problems(bed_kg="300")
    assert "are both given" in problem.text


def test_a_wrong_alternative_is_not_also_called_missing():
    (problem,) = problems(barley_kg="much")
    assert not problem.missing and "not a number" in problem.text


def test_every_problem_is_reported_at_once():
    found = problems(temp_c="hot", stages="0; 8 99")
    places = [(p.question, p.row, p.column) for p in found]
    assert places == [("temp_c", None, None), ("stages", 1, "hours"), ("stages", 2, "water_temp_c")]


def test_answers_that_do_not_fit_together():
    (problem,) = problems(temp_c="13")
    assert problem.text == "Bed temperature: 13 C brings bad luck. Type another temperature."


def test_a_limit_of_a_model_is_said_with_the_label_the_unit_and_the_reason():
    (problem,) = problems(temp_c="14")
    assert problem.text == "Bed temperature: type a number from 15 to 30 °C. Because."


def test_an_unknown_question_is_named():
    assert "asks no question “colour”" in problems(colour="red")[0].text


def test_a_refusal_is_a_result():
    result = as_json(answered(kind="oats"))
    assert result["refused"].startswith("Oats are not covered") and result["answers"] == {}
    assert result["notes"] == [{"level": "warning", "text": "Stop."}]


def test_json_of_schema_1():
    result = json.loads(json.dumps(as_json(answered(start="2026-01-12 06:00")), allow_nan=False))
    assert set(result) == {
        "schema", "version", "sheet", "questions", "answers", "tables", "notes",
    }  # fmt: skip
    assert result["schema"] == 1 and result["sheet"] == "demo"
    assert result["questions"]["stages"] == [[8, 14], [16, 13]]
    assert result["questions"]["start"] == "2026-01-12T06:00"
    assert "remark" not in result["questions"]
    assert result["answers"]["kg"] == {
        "value": 150.0, "unit": "kg", "decimals": 1, "low": 149.0, "high": 151.0,
    }  # fmt: skip
    assert result["answers"]["verdict"]["value"] == "turn"
    assert result["answers"]["ends"]["value"] == "2026-01-13T06:00"
    assert result["tables"]["course"]["columns"] == ["hours", "end", "what"]
    assert result["tables"]["course"]["rows"][0] == [8.0, "2026-01-12T14:00", "wet"]


def test_the_questions_of_the_json_give_the_same_answers_again():
    first = as_json(answered(start="06:00"))
    assert as_json(answer(SHEET, first["questions"])) == first  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "outcome",
    [
        Outcome((Found("kg", float("nan")),)),
        Outcome((Found("kg", 1.0, low=float("-inf")),)),
        Outcome((Found("verdict", "dance"),)),
        Outcome((), (Rows("course", [[float("inf"), None, None]]),)),
        Outcome((), (Rows("course", [[1.0]]),)),
    ],
)
def test_what_must_never_be_passed_on(outcome):
    with pytest.raises(ArithmeticError):
        join(SHEET, outcome)


def test_an_answer_that_was_not_declared():
    with pytest.raises(LookupError):
        join(SHEET, Outcome((Found("price", 1.0),)))


def test_no_such_sheet_names_those_there_are():
    with pytest.raises(LookupError, match="moisture-target"):
        find_sheet("beer")
