"""The batch forecast: stops first, what it does not know, what it asks back, and what readings do to it."""

from __future__ import annotations

import subprocess
import sys
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from calculators.asking.answer import Answered, NotAnswered, answer, as_json, example_of
from calculators.rules.forecast import LEAST_EFFECTIVE
from calculators.rules.limits.casting import CHIT, CHIT_COUCH
from calculators.sheets import find_sheet
from tests.sheets.ask import outcome
from tests.sheets.stops import check, past, stops_said

SHEET = find_sheet("batch-forecast")
Result = dict[str, Any]


def forecast(**given: str) -> Result:
    found = answer(SHEET, {**example_of(SHEET), **given})
    assert isinstance(found, Answered), found.problems
    return as_json(found)


def asked_back(**given: str) -> str:
    found = answer(SHEET, {**example_of(SHEET), **given})
    assert isinstance(found, NotAnswered)
    (problem,) = found.problems
    return f"{problem.question}: {problem.text}"


def width(result: Result, name: str) -> float:
    one = result["answers"][name]
    return float(one["high"]) - float(one["low"])


def told(result: Result, level: str = "notice") -> str:
    return " ".join(note["text"] for note in result["notes"] if note["level"] == level)


def test_the_worked_case_is_foretold_with_bands():
    result = forecast()
    answers = result["answers"]
    for name in ("moisture_cast", "chit_h", "chitted_cast", "warmest_rest_c", "warmest_bottom_c", "lost_percent"):
        one = answers[name]
        assert one["low"] < one["value"] < one["high"]
    assert answers["next_reading"]["value"] == "chits" and answers["next_reading_h"]["value"] == 36.0
    rows = result["tables"]["hours"]["rows"]
    assert [row[0] for row in rows] == sorted(row[0] for row in rows) and rows[0][0] == 24.0
    for _, _, _, *cells in rows:
        for middle, low, high in zip(cells[::3], cells[1::3], cells[2::3], strict=True):
            assert low <= middle <= high


def test_a_site_that_does_not_ask_it_does_without_numpy():
    code = (
        "from calculators.sheets import find_sheet, sheet_ids; import sys\n"
        "assert [find_sheet(one).needs for one in sheet_ids()] and 'numpy' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
    assert "numpy" in SHEET.needs


def test_a_reading_narrows_what_it_tells_of():
    none = forecast(baskets="", probes="")
    two = forecast(probes="")
    assert width(two, "moisture_cast") < 0.3 * width(none, "moisture_cast")
    counted = forecast(chits="36 62 100")
    assert width(counted, "chitted_cast") < 0.5 * width(two, "chitted_cast")
    assert width(counted, "chit_h") < 0.5 * width(two, "chit_h")


def test_the_number_that_counted_is_told_and_never_under_fifty():
    none = forecast(baskets="", probes="")
    assert none["answers"]["members"]["value"] == 300.0 and "No reading has been taken in" in told(none, "remark")
    for more in ({}, {"chits": "36 62 100"}, {"baskets": "8 24; 24 45"}):
        result = forecast(**more)
        assert LEAST_EFFECTIVE <= result["answers"]["members"]["value"] <= 300.0
        assert "drawn anew and moved" in told(result, "remark")


def test_readings_that_contradict_widen_the_bands_and_it_says_so():
    plain, odd = forecast(), forecast(probes="16 27; 20 12")
    assert "The bands are widened" in told(odd) and "The bands are widened" not in told(plain)
    assert width(odd, "warmest_rest_c") > 2.0 * width(plain, "warmest_rest_c")


def test_readings_too_far_apart_leave_nothing():
    result = forecast(baskets="8 13; 8.5 60; 24 13; 24.5 60")
    assert result["answers"]["says"]["value"] == "nothing"
    assert set(result["answers"]) <= {"says", "members", "next_reading", "next_reading_h", "next_reading_at"}
    assert "The bands are widened" in told(result)


def test_what_is_as_wide_as_what_could_be_is_not_told_as_a_figure():
    result = forecast(baskets="", probes="")
    assert result["answers"]["says"]["value"] == "some"
    assert "Of chits and readiness it says nothing yet" in told(result)
    assert "chitted_cast" not in result["answers"] and "ready_h" not in result["answers"]


def test_stops_of_the_plan_are_said_first():
    result = forecast(stages="14; 26; 8; 12; 3", baskets="", probes="")
    check(result, iter([*past("immersion-hours", 14.0), *past("rest-hours", 26.0)]))
    assert result["notes"][0]["text"].startswith("Past a stop")
    hot = forecast(water_temp_c="22", baskets="", probes="")
    check(hot, past("steep-water-temp", 22.0))


limits = {"warmest_rest_c": "rest-temp", "warmest_bottom_c": "floor-bottom", "moisture_cast": "cast-moisture"}


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.lists(st.floats(2, 30), min_size=1, max_size=6), st.floats(6, 24), st.floats(0, 60), st.floats(4, 26),
    st.floats(5, 40), st.sampled_from(["floor", "drum"]), st.booleans(),
)  # fmt: skip
@example([8.0, 8.0, 8.0, 24.0, 3.0], 19.0, 0.0, 18.0, 20.0, "floor", False)
@example([8.0, 8.0, 8.0, 12.0, 3.0], 14.0, 7.8, 7.0, 15.0, "drum", True)
@example([4.0, 8.0, 4.0], 8.0, 7.8, 15.0, 15.0, "floor", True)
@example([2.0, 2.0, 2.0, 2.0, 26.0], 24.0, 0.0, 4.0, 5.0, "floor", False)
def test_no_figure_lies_past_a_stop_unless_it_is_said(stages, water, suction, bed, depth, vessel, moved):
    found = answer(
        SHEET,
        {
            "barley_moisture": "12.5", "water_temp_c": repr(water), "stages": "; ".join(map(repr, stages)),
            "vessel": vessel, "bed": f"48 {bed!r}; 48 {bed!r}", "suction_m3_h_t": repr(suction),
            "depth_cm": repr(depth), "moved": "wet" if moved else "dry",
        },
    )  # fmt: skip
    if isinstance(found, NotAnswered):
        assert all(problem.text for problem in found.problems)
        return
    result = as_json(found)
    for place, hours in enumerate(stages):
        check(result, past("rest-hours" if place % 2 else "immersion-hours", hours))
    check(result, past("steep-water-temp", water))
    answers = result["answers"]
    if answers["says"]["value"] == "nothing":
        return
    for name, limit in limits.items():
        for end in ("value", "low", "high"):
            if name in answers:
                check(result, past(limit, answers[name][end]))
    for end in ("value", "low", "high"):
        if "warmest_bed_c" in answers and end != "low":
            check(result, past("floor-piece" if vessel == "floor" else "drum-bed", answers["warmest_bed_c"][end]))
        if "chitted_cast" in answers:
            row = CHIT if vessel == "drum" else CHIT_COUCH
            check(result, past(row.id, answers["chitted_cast"][end]))
    levels = [note["level"] for note in result["notes"] if note["level"] in ("notice", "remark")]
    if stops_said(result):
        assert levels[0] == "notice"


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"baskets": "8 11"}, "baskets: Baskets weighed: row 1: 11 % is drier than the barley was filled in, 12.5 %"),
        ({"baskets": "8 32; 80 39"}, "baskets: Baskets weighed: row 2: the hour must be from 0.25 to 39 h"),
        ({"probes": "16 60"}, "0 to 40 °C"),
        ({"acrospires": "20 10 20 50 20 0"}, "acrospires: Acrospires counted: row 1: the hour must be from 39"),
        ({"acrospires": "120 0 0 0 0 0"}, "no corn was counted"),
        ({"chits": "36 120 100"}, "120 chitted of 100"),
        ({"chits": "34 90 100; 36 20 100"}, "row 2: far fewer than counted before"),
        ({"now_h": "10"}, "a reading stands at 24 h, after it"),
        ({"now_h": "900"}, "the plan ends at 159 h"),
        ({"stages": "1", "baskets": "", "probes": ""}, "under 26 % it does not grow"),
        ({"stages": "8; 30; 8; 30; 3", "baskets": "", "probes": "", "suction_m3_h_t": "0"}, "as warm as 40 °C"),
        ({"bed": "24 60"}, "30 °C"),
        ({"grown_percent": "20", "water_sensitivity": "30"}, "more corns are sensitive to water than grow"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_asked_back(given, says):
    assert says in asked_back(**given)


@pytest.mark.parametrize("hour", ["0.25", "39"])
def test_a_basket_at_either_end_of_the_steep_is_taken(hour):
    moisture = "15" if hour == "0.25" else "43"
    assert forecast(baskets=f"{hour} {moisture}", probes="")["answers"]["members"]["value"] < 300.0


def test_a_drum_has_no_bottom_and_wants_more_chits():
    floor, drum = forecast(), forecast(vessel="drum")
    assert "warmest_bottom_c" in floor["answers"] and "warmest_bottom_c" not in drum["answers"]
    assert drum["tables"]["when"]["rows"][0][0] == "90 % chitted"
    assert "drum starts without warning" in told(drum, "danger")


def test_without_days_in_the_bed_it_ends_at_the_cast():
    result = forecast(bed="")
    assert "moisture_end" not in result["answers"] and result["tables"]["hours"]["rows"][-1][0] == 39.0
    assert all(row[-1] is None for row in result["tables"]["hours"]["rows"])


def test_a_start_makes_clock_times():
    result = forecast(start="2026-01-12 06:00")
    assert result["answers"]["next_reading_at"]["value"] == "2026-01-13T18:00"
    assert result["tables"]["to_take"]["rows"][0][2] == "2026-01-13T18:00"


def test_what_stands_beside_a_rest_is_said_not_to_be_used():
    assert "is not used" in told(forecast(stages="8; 8 20; 8; 12; 3"), "remark")
    assert forecast(stages="8; 8 20; 8; 12; 3")["answers"] == forecast()["answers"]


def test_the_reading_named_first_narrows_most_of_those_in_the_table():
    rows = forecast(baskets="", probes="")["tables"]["to_take"]["rows"]
    assert 2 <= len(rows) <= 3
    for before, after in pairwise(rows):
        assert all(b <= a for a, b in zip(before[3:], after[3:], strict=True))


def test_days_since_the_cast_stand_only_beside_the_hours_that_they_are_of():
    unsure = forecast()
    assert "ready_h" not in unsure["answers"] and "ready_days" not in unsure["answers"]
    sure = forecast(now_h="123", acrospires="123 4 20 50 24 2", bed="24 15; 24 15; 24 15; 24 15; 96 15")["answers"]
    assert sure["ready_days"]["value"] == pytest.approx((sure["ready_h"]["value"] - 39.0) / 24.0)


def test_a_bottom_warmer_than_barley_lives_is_no_figure_to_go_by():
    def said(bed: str) -> str:
        found = {one.id: one for one in outcome("batch-forecast", bed=bed).answers}
        return found["warmest_bottom_c"].next

    assert "law of warmth ends at 40 °C" in said("24 25; 24 28")
    assert said("24 14; 24 15") == ""
