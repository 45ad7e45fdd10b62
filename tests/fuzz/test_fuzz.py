"""Whatever is typed or linked ends in an answer that can be, a refusal or a message. ``make fuzz`` runs more."""

from __future__ import annotations

import json

import pytest

from calculators.asking.answer import Answered, answer
from calculators.asking.outside import LOOSE
from calculators.asking.reading import Problem
from calculators.page import respond
from calculators.sheets import find_sheet
from tests.drawn import drawn
from tests.fuzz.cases import request
from tests.fuzz.checks import check_message, check_ranges, check_reply, known_tags, sheets
from tests.fuzz.runs import disagreements, drawn_cases, held_after, hostile_inputs, near_misses, random_inputs


@pytest.mark.further(keep=8)
@pytest.mark.drawn
@pytest.mark.parametrize("name", sheets())
def test_random_inputs_end_in_something_that_can_be(name):
    assert random_inputs(name, 12, drawn(400), 0.15).total() >= 12  # how they end is chance: below, each end is met


@pytest.mark.further(keep=8)
@pytest.mark.parametrize("name", sheets())
def test_near_misses_of_the_worked_case_end_in_something_that_can_be(name):
    ends = near_misses(name, 12, 20, 0.15)
    assert ends["outcome"] + ends["refusal"] > 0 and ends["asked again"] > 0


def test_hostile_inputs_bring_out_nothing_but_the_elements_of_sheets():
    count = drawn(1000)
    states = hostile_inputs(sheets(), count)
    assert states.total() == count and states["wrong"] > count / 2 and states["answered"] > 5


def test_the_checks_see_what_they_are_for():
    tags = known_tags()
    assert ("script", "") not in tags and ("img", "") not in tags
    assert not [name for _, name in tags if name.startswith("on")]
    reply = json.loads(respond(request(find_sheet("moisture-target"), {"barley_kg": "5000", "barley_moisture": "12"})))
    for strange in ("<script>x</script>", '<p onclick="x">', '<a href="javascript:x">y</a>'):
        with pytest.raises(AssertionError):
            check_reply(json.dumps({**reply, "state": "answered", "places": {"answers": strange}}))


def test_the_checks_see_an_impossible_figure_and_a_message_nobody_can_read():
    sheet, case = find_sheet("moisture-target"), {"barley_kg": "5000", "barley_moisture": "12"}
    result = answer(sheet, {**case, "target_moisture": "45"})
    assert isinstance(result, Answered)
    check_ranges(result)
    figure = result.figures[0]
    wild = figure._replace(found=figure.found._replace(value=-1.0))
    with pytest.raises(AssertionError):
        check_ranges(result._replace(figures=(wild, *result.figures[1:])))
    good = "Barley weight: type a number from 1720 to 1780 kg."
    check_message(sheet, Problem("barley_kg", good), case)
    for question, text in (
        ("mean_kg", good),
        ("barley_kg", "Type a number."),
        ("barley_kg", "Barley weight: barley_kg must be lower."),
        ("barley_kg", "Barley weight: type a number from 172.41379 to 178.26087 kg."),
        ("barley_kg", "Barley weight: invalid value."),
        ("barley_kg", f"Barley weight: {LOOSE}."),
    ):
        with pytest.raises(AssertionError):
            check_message(sheet, Problem(question, text), case)


@pytest.mark.further
@pytest.mark.drawn
def test_both_pythons_agree_on_random_inputs():
    assert list(disagreements(drawn_cases(sheets(), drawn(5, 2)))) == []


@pytest.mark.further
def test_many_answers_in_the_browsers_python_leave_nothing_behind():
    before, after = held_after("moisture-target", 300)
    assert before[0] > 1000 and after[0] - before[0] < 100  # objects that Python counts
    assert after[1] == before[1]
