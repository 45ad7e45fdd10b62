"""Grain with its fan stopped: people and gas first, the soonest case leading, nothing that soothes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from calculators.asking.answer import Answered, answer, example_of
from calculators.models.gas.shut_vessel import GIVEN_DOUBT, soonest_kw_t, typical_kw_t
from calculators.models.living.breathing import breathing
from calculators.models.living.pace import growth_after_cast
from calculators.sheets import find_sheet
from tests.safety.phrases import faults
from tests.sheets.ask import ask, notes, said, values

DRUM = {
    "place": "drum", "barley_moisture": "12", "day": "3", "grain_temp_c": "17", "bed_moisture": "45", "room_c": "",
    "respiration_kw_t": "",
}  # fmt: skip


def law_kw(temp: float, day: int = 3, moisture: float = 45.0) -> float:
    grown = growth_after_cast(day=day + 0.5, temp_c=temp)
    return breathing(barley_kg=1000, barley_moisture=12, net_moisture=moisture, temp_c=temp, growth_h=grown).heat_kw


def test_orders_to_people_and_the_gas_come_before_any_figure():
    told = ask("fan-stopped", **DRUM)["notes"]
    assert [note["level"] for note in told[:3]] == ["danger", "danger", "danger"]
    assert "at once, everybody away from the hatches, ducts and drains" in told[0]["text"]
    assert told[1]["text"].startswith("The gas comes first.") and "gas-build-up" in told[1]["text"]
    assert "gives no time inside" in told[2]["text"]
    assert told[-1]["level"] == "notice" and told[-1]["text"].startswith("For the grain, once those in charge")


@pytest.mark.parametrize("place", ["drum", "box", "floor", "rest"])
@pytest.mark.parametrize("temp", ["8", "17", "19.9", "24", "33", "40"])
def test_whatever_is_typed_the_orders_stand_and_no_act_of_a_limit_is_ordered(place: str, temp: str):
    text = notes("fan-stopped", **{**DRUM, "place": place, "grain_temp_c": temp})
    assert "danger: Fan stopped with grain inside: at once, everybody away" in text
    assert "danger: The gas comes first" in text
    for order in ("turn it with the air on", "Turn it at once", "Full suction", "Turn it now"):
        assert order not in text.split("notice: For the grain, once those in charge")[0]
    assert ("it gathers faster" in text) == (place == "floor")
    assert faults(text) == []


@pytest.mark.parametrize(("day", "temp"), [(0, 15.0), (1, 12.0), (3, 17.0), (6, 19.0)])
def test_the_soonest_case_is_that_of_the_gas_sheet_and_leads(day: int, temp: float):
    case = {**DRUM, "barley_moisture": "14", "day": str(day), "grain_temp_c": repr(temp)}
    told = ask("fan-stopped", **case)["answers"]
    assert next(iter(told)) == "k_per_h"
    assert told["heat_kw_t"]["value"] == pytest.approx(soonest_kw_t(day=day, grain_temp_c=temp))
    assert told["usual_kw_t"]["value"] == pytest.approx(typical_kw_t(day=day, grain_temp_c=temp))
    assert told["heat_kw_t"]["value"] > 3.0 * told["usual_kw_t"]["value"]
    # 860 kg of dry matter at 1.3 kJ/kg K (second-hand) and its water at 45 %, at 4.186.
    capacity = 860 * 1.3 + 860 * 45 / 55 * 4.186
    assert told["k_per_h"]["value"] == pytest.approx(told["heat_kw_t"]["value"] * 3600 / capacity, rel=1e-3)
    assert told["k_per_h"]["high"] == told["k_per_h"]["value"] > told["k_per_h"]["low"]


def test_by_the_law_a_bed_without_air_warms_by_about_a_degree_an_hour():
    # Common practice: about a degree an hour in full growth at usual warmth.
    usual = ask("fan-stopped", **{**DRUM, "grain_temp_c": "15"})["answers"]["k_per_h"]["low"]
    assert usual == pytest.approx(1.2, abs=0.3)


def test_the_hours_agree_with_an_integrator():
    # scipy's LSODA on C dT/dt = heat of breathing, the growth clock running with the warmth; a heat of one's own.
    capacity = 880 * 1.3 + 720 * 4.186
    factor = 3.0 * GIVEN_DOUBT / law_kw(17.0)

    def slope(_: float, y: list[float]) -> list[float]:
        one = breathing(barley_kg=1000, barley_moisture=12, net_moisture=45, temp_c=min(y[0], 40.0), growth_h=y[1])
        return [factor * one.heat_kw * 3600 / capacity, 2.25 ** ((y[0] - 15) / 10)]

    def there(_: float, y: list[float]) -> float:
        return y[0] - 20.0

    there.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(slope, (0, 8), [17.0, growth_after_cast(day=3.5, temp_c=17.0)], "LSODA", events=there, rtol=1e-8)
    hours = values("fan-stopped", **{**DRUM, "respiration_kw_t": "3"})["hours_to_stop"]
    assert hours == pytest.approx(float(run.t_events[0][0]), abs=0.01)


def test_its_own_heat_gets_the_doubt_of_the_gas_sheets():
    told = ask("fan-stopped", **{**DRUM, "respiration_kw_t": "3"})["answers"]
    assert told["usual_kw_t"]["value"] == 3.0 and told["heat_kw_t"]["value"] == pytest.approx(3.0 * GIVEN_DOUBT)
    assert "Type at most" in said("fan-stopped", **{**DRUM, "day": "0", "grain_temp_c": "4", "respiration_kw_t": "9"})


@pytest.mark.parametrize("day", ["0", "1", "3", "7"])
@pytest.mark.parametrize("heat", ["0.3", "0.6", "1", "1.5", "2.5", "3.5"])
@pytest.mark.parametrize("temp", ["12", "16.5", "19"])
def test_no_heat_of_ones_own_makes_the_soonest_slower_than_the_law_does(day: str, heat: str, temp: str):
    case = {**DRUM, "day": day, "grain_temp_c": temp}
    law = ask("fan-stopped", **case)
    sheet = find_sheet("fan-stopped")
    if not isinstance(answer(sheet, {**example_of(sheet), **case, "respiration_kw_t": heat}), Answered):
        assert "far over what grain makes" in said("fan-stopped", **{**case, "respiration_kw_t": heat})
        return
    own = ask("fan-stopped", **{**case, "respiration_kw_t": heat})
    if law["answers"]:
        for name, sign in (("k_per_h", 1), ("heat_kw_t", 1), ("hours_to_stop", -1)):
            assert sign * own["answers"][name]["value"] >= sign * law["answers"][name]["value"] - 1e-9
        for mine, theirs in zip(own["tables"]["limits"]["rows"], law["tables"]["limits"]["rows"], strict=True):
            assert theirs[2] is None or mine[2] <= theirs[2] + 1e-9


def test_a_heat_far_under_the_law_is_said_as_the_gas_sheet_says_it():
    low = {**DRUM, "grain_temp_c": "20", "respiration_kw_t": "0.3"}
    gas = {"barley_kg": "6000", "day": "3", "grain_temp_c": "20", "free_m3": "15", "respiration_kw_t": "0.3"}
    for text in (notes("fan-stopped", **{**low, "barley_moisture": "14"}), notes("gas-build-up", **gas)):
        assert "warning: Your own heat of 0.3 kW a tonne is 0.15 of what the law of breathing gives" in text
        assert text.index("everybody away") < text.index("Your own heat of")
    assert "Your own heat of" not in notes("fan-stopped", **{**low, "respiration_kw_t": "1"})


@pytest.mark.parametrize("temp", ["36", "38", "40"])
@pytest.mark.parametrize(("barley", "bed"), [("12", "45"), ("5", "30")])
@pytest.mark.parametrize("heat", ["", "0.3"])
def test_the_hottest_grain_is_answered_with_the_danger_first(temp: str, barley: str, bed: str, heat: str):
    case = {**DRUM, "grain_temp_c": temp, "barley_moisture": barley, "bed_moisture": bed, "respiration_kw_t": heat}
    told = ask("fan-stopped", **case)
    assert told["answers"]["k_per_h"]["value"] > 15.0 and told["answers"]["hours_to_stop"]["value"] == 0.0
    assert "everybody away" in told["notes"][0]["text"]
    assert "Past a stop. Bed" in notes("fan-stopped", **case)


@pytest.mark.parametrize(("temp", "now"), [("20", False), ("20.1", True), ("35", True)])
def test_grain_past_its_stop_is_told_as_past(temp: str, now: bool):
    told = values("fan-stopped", **{**DRUM, "grain_temp_c": temp})
    assert told["hours_to_stop"] == 0.0
    assert ("Past a stop. Bed" in notes("fan-stopped", **{**DRUM, "grain_temp_c": temp})) == now


def test_a_figure_that_would_soothe_is_refused_and_the_orders_stay():
    slow = ask("fan-stopped", **{**DRUM, "place": "floor", "day": "0", "grain_temp_c": "6"})
    assert ("would soothe" in slow["refused"] and "answers" not in slow) or not slow["answers"]
    assert "everybody away" in slow["notes"][0]["text"]
    for place in ("drum", "floor", "rest"):
        for day in ("0", "1", "3", "7"):
            told = ask("fan-stopped", **{**DRUM, "place": place, "day": day, "grain_temp_c": "12"})
            if told.get("refused"):
                continue
            assert told["answers"]["hours_to_stop"]["value"] <= 8.0
            for row in told["tables"]["limits"]["rows"]:
                assert all(cell is None or cell <= 8.0 for cell in row[2:])


@settings(max_examples=30, deadline=None)
@given(temp=st.floats(10, 19), more=st.floats(0.5, 5), day=st.integers(1, 6), room=st.floats(2, 15))
def test_warmer_is_sooner_and_a_cold_room_never_delays_the_soonest(temp: float, more: float, day: int, room: float):
    case = {**DRUM, "day": str(day)}
    cool = ask("fan-stopped", **{**case, "grain_temp_c": repr(temp)})
    warm = ask("fan-stopped", **{**case, "grain_temp_c": repr(min(temp + more, 19.9))})
    chilled = ask("fan-stopped", **{**case, "grain_temp_c": repr(temp), "room_c": repr(room)})
    assert not (warm.get("refused") and not cool.get("refused"))
    if not cool.get("refused"):
        hours = [told["answers"]["hours_to_stop"]["value"] for told in (cool, warm, chilled)]
        assert hours[1] <= hours[0] == hours[2] and math.isfinite(hours[0])


def test_limits_of_each_place():
    rows = {place: ask("fan-stopped", **{**DRUM, "place": place, "grain_temp_c": "16"})["tables"]["limits"]["rows"]
            for place in ("drum", "box", "floor", "rest")}  # fmt: skip
    assert {place: [row[1] for row in found[:2]] for place, found in rows.items()} == {
        "drum": [17.0, 20.0], "box": [17.0, 20.0], "floor": [20.0, 22.0], "rest": [17.0, 18.0],
    }  # fmt: skip
    assert [row[1] for row in rows["drum"][2:]] == [25.0, 35.0]
