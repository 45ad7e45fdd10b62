"""Gas in a shut vessel: limits passed, what meters show, and that it never allows time."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer, example_of
from calculators.asking.declare import Outcome
from calculators.models.gas import shut_vessel
from calculators.sheets import find_sheet
from tests.sheets.ask import ask, notes, said, values, wrong

DRUM = {
    "barley_kg": "6000",
    "day": "3",
    "grain_temp_c": "20",
    "free_m3": "15",
    "start_ppm": "420",
    "respiration_kw_t": "1",
}


def rows(**given: object) -> dict[str, list[object]]:
    return {row[0]: row for row in ask("gas-build-up", **{**DRUM, **given})["tables"]["limits"]["rows"]}


def test_minutes_of_the_drum_at_one_kilowatt():
    table = rows(hours_closed="1")
    shown = {name: round(float(str(row[3]))) for name, row in table.items()}
    assert shown["day limit, 8 h"] == 4
    assert shown["oxygen alarm at 19.5 %"] == 11
    assert shown["UK limit, 15 min"] == 12
    assert shown["dangerous at once (IDLH)"] == 32


@pytest.mark.parametrize(
    ("hours", "passed"),
    # 26 min at the fastest, 32.03 by the sum.
    [
        ("0.42", "not by this sum; may be, low down"),
        ("0.43", "may be passed"),
        ("0.53", "may be passed"),
        ("0.54", "passed"),
    ],
)
def test_which_limits_are_passed_from_both_sides(hours, passed):
    assert rows(hours_closed=hours)["dangerous at once (IDLH)"][4] == passed


def test_the_oxygen_meter_beside_the_gas():
    table = rows(hours_closed="1")
    assert table["dangerous at once (IDLH)"][5] == pytest.approx(16.9, abs=0.05)
    assert table["oxygen alarm at 19.5 %"][5] == pytest.approx(19.5)


def test_what_was_there_at_the_start_is_passed_at_once():
    table = rows(start_ppm="50000", hours_closed="0.05")
    assert table["dangerous at once (IDLH)"][2:5] == [0.0, 0.0, "passed"]
    assert "4 % or more: it kills" in notes("gas-build-up", **{**DRUM, "start_ppm": "50000"})


def test_hours_later_the_oxygen_is_gone_and_it_says_so():
    found = values("gas-build-up", **DRUM, hours_closed="48")
    assert found["co2_percent"] == pytest.approx((420 + 209_000) / 1e4)
    assert found["oxygen_percent"] == pytest.approx(0, abs=1e-9)
    assert "used up all the oxygen" in notes("gas-build-up", **DRUM, hours_closed="48")


def test_without_a_heat_the_typical_one_is_taken_and_doubted():
    told = ask("gas-build-up", **{**DRUM, "respiration_kw_t": ""})
    used = told["answers"]["respiration_used_kw_t"]
    assert used["value"] == pytest.approx(1.4 * 1.72 * 2.25**0.5, rel=2e-3)
    assert used["low"] == pytest.approx(used["value"] / 2) and used["high"] == pytest.approx(used["value"] * 2)
    assert "may be half or double" in notes("gas-build-up", **{**DRUM, "respiration_kw_t": ""})


@pytest.mark.parametrize("heat", ["", "1", "0.5", "8"])
def test_the_soonest_case_leads(heat):
    told = ask("gas-build-up", **{**DRUM, "respiration_kw_t": heat})
    minutes = told["answers"]["minutes_to_idlh"]
    assert minutes["value"] == minutes["low"] < minutes["high"]
    assert told["answers"]["co2_percent"]["value"] == told["answers"]["co2_percent"]["high"]
    assert told["answers"]["oxygen_percent"]["value"] == told["answers"]["oxygen_percent"]["low"]
    assert next(iter(told["answers"])) == "minutes_to_idlh"
    for _, _, soonest, when, *_ in told["tables"]["limits"]["rows"]:
        assert when is None or soonest <= when  # a time beyond an hour is not told


def test_the_worked_case_is_the_typical_drum_and_reaches_four_per_cent_in_four_to_eighteen_minutes():
    # 6 t on day 3 at 20 C, 15 m3 free: 9 min by the typical heat, 4 at double, 18 at half; 1.5 % in 3 (computed by
    # hand: 1.4 x 1.72 x 1.5 = 3.61 kW/t, 0.3391 kg/h for each kW, 24.055 L and 44.01 g a mole at 20 C).
    told = ask("gas-build-up")
    minutes = told["answers"]["minutes_to_idlh"]
    assert [round(minutes[end]) for end in ("low", "high")] == [4, 18]
    table = {row[0]: row for row in told["tables"]["limits"]["rows"]}
    by_hand = 60 * (40_000 - 420) / (6 * 3.6126 * 0.3391 * 24.055 / 44.01 / 15 * 1e6)
    assert table["dangerous at once (IDLH)"][3] == pytest.approx(by_hand, rel=2e-3) == pytest.approx(8.9, abs=0.05)
    assert round(table["UK limit, 15 min"][3]) == 3


def test_it_says_first_what_is_done_at_once():
    first = ask("gas-build-up")["notes"][0]
    assert first["level"] == "danger"
    assert "at once, everybody away from the hatches, ducts and drains" in first["text"]


def test_it_never_allows_time():
    text = notes("gas-build-up", **DRUM)
    assert "allows no entry and gives no time inside" in text
    assert "does not read it" in text  # the four-gas meter


@pytest.mark.parametrize(
    ("kg", "air", "right"),
    # From 0.3 to 10 m3 a tonne, both ends.
    [
        ("6000", "1.8", True),
        ("6000", "1.79", False),
        ("6000", "60", True),
        ("6000", "60.1", False),
        ("50", "0.5", True),
    ],
)
def test_air_that_no_vessel_has_is_asked_back_from_both_sides(kg, air, right):
    given = {**DRUM, "respiration_kw_t": "", "barley_kg": kg, "free_m3": air}
    if right:
        assert values("gas-build-up", **given)["minutes_to_idlh"] < 60
    else:
        assert "1.8 to 60 m³" in said("gas-build-up", **given)


def test_ten_kilograms_in_five_thousand_cubic_metres_get_no_minutes():
    problems = wrong("gas-build-up", **{**DRUM, "barley_kg": "10", "free_m3": "5000"})
    assert {problem.question for problem in problems} == {"barley_kg", "free_m3"}


@pytest.mark.parametrize(
    "slow",
    [
        {"respiration_kw_t": "0.3", "free_m3": "60"},
        {"respiration_kw_t": "", "day": "0", "grain_temp_c": "2", "free_m3": "60"},
    ],
)
def test_a_number_that_would_soothe_is_refused(slow):
    told = ask("gas-build-up", **{**DRUM, **slow})
    assert told["answers"] == {} and "No figure is given" in told["refused"]
    assert "Keep everybody away" in told["refused"]
    assert [note["level"] for note in told["notes"]][:2] == ["danger", "danger"]


@given(
    st.floats(50, 300_000),
    st.floats(0.3, 10),
    st.floats(0, 10),
    st.floats(2, 40),
    st.one_of(st.just(None), st.floats(0.3, 10)),
    st.floats(0, 500_000),
)
def test_no_answer_is_ever_later_than_an_hour(kg, air_t, day, temp, heat, start):
    given_all = {
        "barley_kg": repr(kg),
        "free_m3": repr(air_t * kg / 1000),
        "day": repr(day),
        "grain_temp_c": repr(temp),
        "respiration_kw_t": "" if heat is None else repr(heat),
        "start_ppm": repr(start),
    }
    sheet = find_sheet("gas-build-up")
    result = answer(sheet, {**example_of(sheet), **given_all})
    if isinstance(result, Answered) and isinstance(result.outcome, Outcome):
        found = {one.id: one.value for one in result.outcome.answers}
        assert 0 <= float(found["minutes_to_idlh"]) <= 60  # type: ignore[arg-type]


def test_in_the_steep_it_says_that_the_sheets_disagree():
    # 0.688 kW/t on day 0 at 15 C takes 170 mg of oxygen a kilogram and hour; the steep's sheet takes 1 to 10.
    assert "17 to 170 times" in notes("gas-build-up", **{**DRUM, "day": "0"})
    assert "17 to 170 times" not in notes("gas-build-up", **DRUM)
    assert "17 to 170 times" in notes("steep-oxygen")
    kw_t = shut_vessel.typical_kw_t(day=0, grain_temp_c=15)
    mg_kg_h = kw_t * 246.6  # 1 kW takes 246.6 g of oxygen an hour (computed from the enthalpy of combustion of glucose)
    assert mg_kg_h == pytest.approx(170, abs=1)


def test_bad_input():
    assert "0.05 to 3000" in said("gas-build-up", **{**DRUM, "free_m3": "0"})
    assert wrong("gas-build-up", **{**DRUM, "hours_closed": "-1"})[0].question == "hours_closed"
    assert wrong("gas-build-up", **{**DRUM, "start_ppm": ""})[0].missing
    assert values("gas-build-up", **{**DRUM, "start_ppm": "500000"}, hours_closed="240")["co2_percent"] <= 100
