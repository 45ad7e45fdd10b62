"""What lies outside is asked back beside its question, or refused; never shown, and no danger goes with it."""

from __future__ import annotations

import math

import pytest

from calculators.asking.answer import Answered, NotAnswered, answer
from calculators.asking.declare import (
    Answer,
    AskAgain,
    Belongs,
    First,
    Found,
    Heading,
    Listing,
    Note,
    Number,
    Outcome,
    Refusal,
    Rows,
    Sheet,
    Within,
)
from calculators.asking.outside import LOOSE
from calculators.models.bounds import Bounds, OutOfRange, check

MOISTURE = Within(0.0, 100.0, "Water is a part of the whole.", "Check the weight.", ("after_g", "before_g"))
BEFORE = Number("before_g", "Before", "g", 1, 1000)
AFTER = Number("after_g", "After", "g", 1, 1000, optional=True)
DANGER = Note("danger", "LEAVE.")


def sheet(work, *, within=MOISTURE, **more) -> Sheet:
    made = Sheet(
        "demo", "Demo", "A sheet.", (BEFORE, AFTER), (Answer("moisture", "Moisture", "%", 1, within=within),), work
    )
    return made._replace(**more)


def gives(value, *, low=None, high=None, notes=()):
    return lambda **_: Outcome((Found("moisture", value, low=low, high=high),), notes=notes)


def asked(made: Sheet, **typed: str):
    result = answer(made, {"before_g": "20", "after_g": "30", **typed})
    assert isinstance(result, NotAnswered), result
    (problem,) = result.problems
    return problem


def given(made: Sheet) -> Answered:
    result = answer(made, {"before_g": "20", "after_g": "30"})
    assert isinstance(result, Answered), result
    return result


@pytest.mark.parametrize("value", [0.0, 100.0, 55.5, -1e-12, 100 + 1e-9])
def test_a_figure_that_can_be_is_answered(value):
    assert given(sheet(gives(value))).figures[0].found.value == value


@pytest.mark.parametrize("value", [-0.01, 100.01, 3169.7])
def test_a_figure_that_cannot_be_is_asked_back_beside_the_question_that_causes_it(value):
    problem = asked(sheet(gives(value)))
    assert problem.question == "after_g"
    assert problem.text.startswith("After: “Moisture” would come to ")
    assert problem.text.endswith("%, and can be from 0 to 100 %. Water is a part of the whole. Check the weight.")


def test_no_more_than_three_digits_are_said():
    assert "would come to 3170 %" in asked(sheet(gives(3169.7131))).text


def test_a_question_that_is_blank_is_not_asked_back():
    assert asked(sheet(gives(101.0)), after_g="").question == "before_g"


def test_with_no_question_it_is_refused_and_what_was_warned_of_stays():
    notes = (DANGER, Note("remark", "Nice weather."))
    refused = given(sheet(gives(101.0, notes=notes), within=MOISTURE._replace(ask=()))).outcome
    assert isinstance(refused, Refusal)
    assert refused.text.startswith("“Moisture” would come to 101 %") and refused.notes == (DANGER,)


def test_on_a_guarded_sheet_a_danger_is_never_asked_away():
    refused = given(sheet(gives(101.0, notes=(DANGER,)), guarded=True)).outcome
    assert isinstance(refused, Refusal) and refused.notes == (DANGER,)
    assert asked(sheet(gives(101.0), guarded=True)).question == "after_g"


def test_what_comes_first_stands_beside_a_figure_that_cannot_be():
    leave = Outcome((), notes=(DANGER,))
    outcome = given(sheet(gives(101.0), first=First(("before_g",), lambda **_: leave))).outcome
    assert outcome.notes[0] == DANGER
    assert "Put right as well: After: “Moisture” would come to 101 %" in outcome.notes[-1].text


def test_doubt_ends_where_nature_does():
    found = given(sheet(gives(2.0, low=-3.0, high=120.0))).figures[0].found
    assert (found.low, found.value, found.high) == (0.0, 2.0, 100.0)


def test_a_table_is_looked_through_too():
    listing = Listing("rows", "By hour", (Heading("hour", "Hour"), Heading("wet", "Moisture", "%", within=MOISTURE)))
    made = sheet(
        lambda **_: Outcome((), (Rows("rows", [[1.0, 40.0], [2.0, None], [3.0, 140.0]]),)), listings=(listing,)
    )
    assert "“By hour, row 3, moisture” would come to 140 %" in asked(made).text


ONE_TO_TWO = Bounds(1.0, 2.0)


def checks(name, value, limits=ONE_TO_TWO, **more):
    def work(**_):
        check(name, value, limits, "Nobody made more.", **more)

    return work


def test_a_models_limit_is_said_of_the_question_of_its_name():
    problem = asked(sheet(checks("before_g", 20.0)))
    assert problem.question == "before_g" and problem.text == "Before: type a number from 1 to 2 g. Nobody made more."
    on_the_way = asked(sheet(checks("before_g", 3169.7131))).text
    assert on_the_way == "Before: on the way it comes to 3170 g; type a number from 1 to 2 g. Nobody made more."


def test_a_models_limit_belongs_to_the_question_that_is_declared():
    made = sheet(checks("gross_g", 3169.7131), belongs=(Belongs("gross_g", ("after_g", "before_g"), "the dish", "g"),))
    assert asked(made).text == "After: the dish comes to 3170 g, and must be from 1 to 2 g. Nobody made more."
    assert asked(made, after_g="").question == "before_g"


def test_a_limit_that_belongs_nowhere_still_names_no_argument():
    problem = asked(sheet(checks("gross_now_db", 5.0)))
    assert problem.question == "before_g" and LOOSE in problem.text and "gross_now_db" not in problem.text


@pytest.mark.parametrize(
    ("limits", "said"),
    [
        (Bounds(172.4137931, 178.2608696), "from 172.5 to 178.2 g"),
        (Bounds(0.0, math.inf), "of 0 or more g"),
        (Bounds(0.3000001, 0.3000002), "from 0.3000001 to 0.3000002 g"),
    ],
)
def test_a_limit_is_said_with_few_digits_and_moved_inwards(limits, said):
    assert f"type a number {said}" in asked(sheet(checks("before_g", -1.0, limits))).text


def test_the_value_is_carried_with_the_error():
    with pytest.raises(OutOfRange) as caught:
        check("x", 3.0, Bounds(1.0, 2.0))
    assert caught.value.value == 3.0


def test_a_working_may_still_ask_by_itself():
    def work(**_):
        raise AskAgain("before_g", "type less.")

    assert asked(sheet(work)).text == "Before: type less."
