"""What cannot be is asked back beside its question with what would be possible; a danger is never asked away.

Each case was once answered, or asked back beside no question.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from calculators import cli
from calculators.asking.answer import Answered, NotAnswered, answer, example_of
from calculators.asking.declare import Refusal, Sheet
from calculators.asking.figures import minus_signs
from calculators.page import respond
from calculators.sheets import find_sheet
from tests.fuzz.checks import check_message


def asked(sheet_id: str, given: dict[str, str]) -> tuple[Sheet, dict[str, str], Answered | NotAnswered]:
    sheet = find_sheet(sheet_id)
    case = {**example_of(sheet), **given}
    for either in sheet.either:
        chosen = [group for group in either.groups if any(name in given for name in group)]
        for group in either.groups if chosen else ():
            if group not in chosen:
                case.update(dict.fromkeys(group, ""))
    return sheet, case, answer(sheet, case)


MIX = {"barley_kg": "6000", "usual_water_c": "7"}
BASKET = {"basket_g": "84", "sample_g": "100", "barley_moisture": "12"}
DRY = {"barley_temp_c": "14", "wanted_temp_c": "14", "water_kg": "10", "barley_moisture": "5"}
HEAVY = {"barley_kg": "1000000", "barley_moisture": "5"}
FINE = {"expected_percent": "50", "margin_points": "0.5", "limit_percent": ""}
LONG_WAIT = {"bed_temp_c": "5", "reference_temp_c": "15", "reference_days": "14", "q10": "4", "days_done": "0"}
OVERGROWN = {"bed_temp_c": "25", "reference_temp_c": "15", "reference_days": "5", "days_done": "39"}


@pytest.mark.parametrize(
    ("sheet_id", "given", "question", "words"),
    [
        (
            "mixing-waters",
            {**MIX, "barley_temp_c": "35", "water_kg": "1200", "wanted_temp_c": "10"},
            "wanted_temp_c",
            "would have to be at -39.1 °C. Water from 0.5 to 30 °C will do: colder is not to be had, and warmer harms",
        ),
        (
            "mixing-waters",
            {**MIX, "barley_temp_c": "-10", "water_kg": "1500", "wanted_temp_c": "20"},
            "wanted_temp_c",
            "type a temperature from 2 to 5.551 °C, or take more water",
        ),
        ("mixing-waters", DRY, "water_kg", "so little water does not cover the grain"),
        ("malting-loss", {"rootlets_kg": "150000", "steep_percent": ""}, "rootlets_kg", "come to 3170 %"),
        ("malting-loss", {"malt_kg": "415"}, "malt_kg", "the malting loss comes to 91 %, and must be from 0 to 30 %"),
        ("days-to-ready", LONG_WAIT, "bed_temp_c", "can be from 0 to 40 days"),
        ("days-to-ready", {**LONG_WAIT, "reference_temp_c": "25", "reference_days": "20"}, "reference_days", "1100 h"),
        ("days-to-ready", OVERGROWN, "days_done", "every corn has overshot"),
        ("sample-basket", {**BASKET, "gross_now_g": "175"}, "gross_now_g", "Type a number from 183 to 332.9 g"),
        ("moisture-target", {"current_kg": "5000"}, "current_kg", "would be as dry as it came"),
        ("sprinkling", HEAVY, "barley_kg", "the bed with its water comes to"),
        ("sample-size", FINE, "margin_points", "by hand"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_asked_back_beside_its_question(sheet_id, given, question, words, capsys):
    sheet, case, result = asked(sheet_id, given)
    assert isinstance(result, NotAnswered), result
    (problem,) = result.problems
    assert problem.question == question and words in problem.text, problem.text
    check_message(sheet, problem, case)
    reply = json.loads(respond(json.dumps({"sheet": sheet_id, "prefix": "x", "root": "", "questions": case})))
    assert reply["state"] == "wrong" and not reply["places"]
    assert reply["errors"] == [{"question": question, "text": minus_signs(problem.text)}]
    assert cli.run(sheet_id, [f"{name}={value}" for name, value in case.items()]) == cli.WRONG
    shown = capsys.readouterr()
    assert shown.err.strip() == problem.text and not shown.out


@pytest.mark.parametrize(("given", "wanted"), [("2", True), ("5.551", True), ("5.6", False)])
def test_what_is_said_to_be_possible_is_answered(given, wanted):
    *_, result = asked("mixing-waters", {**MIX, "barley_temp_c": "-10", "water_kg": "1500", "wanted_temp_c": given})
    assert isinstance(result, Answered) == wanted


@pytest.mark.parametrize("gross", ["183", "332.9"])
def test_the_limits_that_a_basket_is_given_are_accepted(gross):
    *_, result = asked("sample-basket", {**BASKET, "gross_now_g": gross, "dry_matter_lost": "1"})
    assert isinstance(result, Answered)


def test_hot_water_by_itself_is_warned_of():
    result = asked("mixing-waters", {"usual_water_c": "75", "second_temp_c": ""})[2]
    assert isinstance(result, Answered)
    texts = " ".join(note.text for note in result.outcome.notes)
    assert "scalds within seconds" in texts and "Above 30 °C water harms barley. Take colder water." in texts


def dangers(result: Any) -> str:
    assert isinstance(result, Answered), result
    return " ".join(note.text for note in result.outcome.notes if note.level == "danger")


@pytest.mark.parametrize("reading", ["2000000", "> 5 %", "OL", "over range", "15,000", "60000 mg/m3", "1e9", "+++"])
@pytest.mark.parametrize("rest", ["", " 10"])
def test_a_reading_over_the_meter_still_orders_people_out(reading, rest):
    rows = [[reading, rest]]
    result = answer(find_sheet("exposure"), {"rows": rows})
    assert isinstance(result, Answered) and "LEAVE" in dangers(result)
    assert any(note.text.startswith("Put right as well: Readings, row 1, carbon") for note in result.outcome.notes)
    alone = answer(find_sheet("exposure"), {"rows": [["700", "60"]], "unmeasured_ppm": reading})
    assert "LEAVE" in dangers(alone)


@pytest.mark.parametrize("reading", ["-5", "x", "much", "700", "3,000"])
def test_what_means_no_more_than_the_limits_orders_nobody_out(reading):
    assert isinstance(answer(find_sheet("exposure"), {"rows": [[reading, ""]]}), NotAnswered)


@pytest.mark.parametrize("sheet_id", ["gas-build-up", "dilution-estimate"])
@pytest.mark.parametrize("reading", ["OL", "2000000", "200 %"])
def test_more_gas_than_can_be_typed_keeps_people_away_first(sheet_id, reading):
    sheet = find_sheet(sheet_id)
    for case in ({"start_ppm": reading}, {**example_of(sheet), "start_ppm": reading}):
        result = answer(sheet, case)
        assert isinstance(result, Answered) and isinstance(result.outcome, Refusal)
        assert "keep everybody away" in dangers(result)
        assert any("Put right as well: Carbon dioxide" in note.text for note in result.outcome.notes)


def test_a_bed_that_would_choke_is_refused_and_its_dangers_stay():
    _, _, result = asked("bed-heat", {"fresh_air_percent": "1", "air_off_c": "39"})
    assert isinstance(result, Answered) and isinstance(result.outcome, Refusal)
    assert "Carbon dioxide in the returned air” would come to" in result.outcome.text
    assert "more fresh air" in result.outcome.text and "allows no entry" in dangers(result)
