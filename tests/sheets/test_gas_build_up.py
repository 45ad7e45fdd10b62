"""Gas in a shut vessel: limits passed, what meters show, and that it never allows time."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer, example_of
from calculators.asking.declare import Outcome
from calculators.models.living.breathing import breathing
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
    # 4.14 min at the fastest, the law's own; 32.03 by the sum.
    [
        ("0.068", "not by this sum; may be, low down"),
        ("0.07", "may be passed"),
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
    law = breathing(barley_kg=1000, barley_moisture=14, net_moisture=45, temp_c=20, growth_h=18 + 60 * 1.5).heat_kw
    assert used["value"] == pytest.approx(law) == pytest.approx(used["low"])
    assert used["high"] > 3.5 * law
    text = notes("gas-build-up", **{**DRUM, "respiration_kw_t": ""})
    assert f"The soonest case reckons with {used['high']:.1f} kW a tonne" in text
    assert "The slow side of the doubt is not told" in text


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


@pytest.mark.parametrize("day", ["0", "1", "3", "8"])
@pytest.mark.parametrize("heat", ["0.3", "0.5", "1", "2", "4", "8"])
def test_no_heat_of_ones_own_makes_the_soonest_slower_than_the_law_does(day: str, heat: str):
    case = {**DRUM, "day": day, "free_m3": "5"}
    law = ask("gas-build-up", **{**case, "respiration_kw_t": ""})["answers"]
    own = ask("gas-build-up", **{**case, "respiration_kw_t": heat})["answers"]
    assert own["minutes_to_idlh"]["value"] <= law["minutes_to_idlh"]["value"]
    assert own["respiration_used_kw_t"]["high"] == pytest.approx(
        max(law["respiration_used_kw_t"]["high"], min(math.exp(0.8) * float(heat), 10.0))
    )


def test_a_heat_far_under_the_law_is_said_and_the_case_is_still_deadly():
    # The law has 2.00 kW/t on day 3 at 20 C; published totals ask for 0.45 of it or more: 0.90.
    low = notes("gas-build-up", **{**DRUM, "respiration_kw_t": "0.3"}, hours_closed="0.75")
    assert "4 % or more: it kills" in low
    assert "warning: Your own heat of 0.3 kW a tonne is 0.15 of what the law" in low
    for heat, said_low in (("0.89", True), ("0.91", False), ("2", False)):
        text = notes("gas-build-up", **{**DRUM, "respiration_kw_t": heat})
        assert ("Your own heat of" in text) == said_low
        assert "no heat of your own makes it slower" in text
    assert "no heat of your own makes it slower" not in notes("gas-build-up", **{**DRUM, "respiration_kw_t": "4"})


def test_the_worked_case_reaches_four_per_cent_in_four_to_sixteen_minutes():
    # 6 t on day 3 at 20 C, 15 m3 free, by hand: 0.91 of the law's peak of 1.40 kW/t at 108 h of growth, 1.57 times for
    # 5 K, is 2.00 kW/t; 0.3391 kg/h for each kW, 24.055 L and 44.01 g a mole at 20 C.
    told = ask("gas-build-up")
    minutes = told["answers"]["minutes_to_idlh"]
    assert [round(minutes[end]) for end in ("low", "high")] == [4, 16]
    table = {row[0]: row for row in told["tables"]["limits"]["rows"]}
    by_hand = 60 * (40_000 - 420) / (6 * 2.0021 * 0.3391 * 24.055 / 44.01 / 15 * 1e6)
    assert table["dangerous at once (IDLH)"][3] == pytest.approx(by_hand, rel=2e-3) == pytest.approx(16.0, abs=0.05)
    assert round(table["UK limit, 15 min"][2], 1) == 1.5


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
        {"respiration_kw_t": "0.3", "day": "0", "grain_temp_c": "2", "free_m3": "60"},
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


def test_in_the_steep_gas_and_oxygen_are_one_rate():
    text = notes("gas-build-up", **{**DRUM, "day": "0"})
    assert "breathes by one law" in text and "times the breathing" not in text
    assert "breathes by one law" not in notes("gas-build-up", **DRUM)
    assert "breathes by one law" in notes("steep-oxygen")
    for temp in ("10", "14", "18"):
        gas = ask("gas-build-up", **{**DRUM, "day": "0", "grain_temp_c": temp, "respiration_kw_t": "", "free_m3": "2"})
        used = gas["answers"]["respiration_used_kw_t"]
        oxygen = ask("steep-oxygen", water_temp_c=temp, immersion="third")["answers"]
        # 1 kW takes 246.6 g of oxygen an hour (computed from the enthalpy of combustion of glucose)
        for end in ("value", "high"):
            assert oxygen["uptake_used_mg_kg_h"][end] == pytest.approx(246.6 * used[end], rel=1e-3)
            assert oxygen["heat_kw_t"][end] == pytest.approx(used[end], rel=1e-9)


def test_bad_input():
    assert "0.05 to 3000" in said("gas-build-up", **{**DRUM, "free_m3": "0"})
    assert wrong("gas-build-up", **{**DRUM, "hours_closed": "-1"})[0].question == "hours_closed"
    assert wrong("gas-build-up", **{**DRUM, "start_ppm": ""})[0].missing
    assert values("gas-build-up", **{**DRUM, "start_ppm": "500000"}, hours_closed="240")["co2_percent"] <= 100
