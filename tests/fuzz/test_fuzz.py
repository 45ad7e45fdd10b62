"""Whatever is typed or linked ends in an answer that can be, a refusal or a message. ``make fuzz`` runs more."""

from __future__ import annotations

import json

import pytest

from calculators.page import respond
from calculators.sheets import find_sheet
from tests.fuzz.cases import request
from tests.fuzz.checks import check_reply, known_tags, sheets
from tests.fuzz.runs import disagreements, drawn_cases, held_after, hostile_inputs, random_inputs


@pytest.mark.parametrize("name", sheets())
def test_random_inputs_end_in_something_that_can_be(name):
    ends = random_inputs(name, 40, 200, 1.0)
    assert ends["outcome"] + ends["refusal"] > 0 and ends["asked again"] > 0


def test_hostile_inputs_bring_out_nothing_but_the_elements_of_sheets():
    states = hostile_inputs(sheets(), 1000)
    assert states.total() == 1000 and states["wrong"] > 500 and states["answered"] > 5


def test_the_checks_see_what_they_are_for():
    tags = known_tags()
    assert ("script", "") not in tags and ("img", "") not in tags
    assert not [name for _, name in tags if name.startswith("on")]
    reply = json.loads(respond(request(find_sheet("moisture-target"), {"barley_kg": "5000", "barley_moisture": "12"})))
    for strange in ("<script>x</script>", '<p onclick="x">', '<a href="javascript:x">y</a>'):
        with pytest.raises(AssertionError):
            check_reply(json.dumps({**reply, "state": "answered", "places": {"answers": strange}}))


def test_both_pythons_agree_on_random_inputs():
    assert list(disagreements(drawn_cases(sheets(), 5))) == []


def test_many_answers_in_the_browsers_python_leave_nothing_behind():
    before, after = held_after("moisture-target", 300)
    assert before[0] > 1000 and after[0] - before[0] < 100  # objects that Python counts
    assert after[1] == before[1]
