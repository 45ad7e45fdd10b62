"""Gas, oxygen and the heat of a rest at one state are one rate; and what a day or an immersion stands for."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.bounds import OutOfRange
from calculators.models.gas.shut_vessel import co2_kg_h
from calculators.models.living.batch import course
from calculators.models.living.bed_days import HIGHEST_H
from calculators.models.living.breathing import breathing, breathing_rate
from calculators.models.living.by_day import (
    DRY_KG_T,
    IMMERSIONS,
    breath_of_immersion,
    soonest_breath,
    typical_breath,
)
from calculators.models.living.lot_plan_state import Plan
from calculators.models.living.warmth import VESSEL_W_K_T, air_on, rest_warmth
from calculators.models.steep.course import Stage
from calculators.plates.heat import one_steep

temps = st.floats(2.0, 30.0)

# C6H10O5 + 6 O2 -> 6 CO2 + 5 H2O with the standard atomic weights (IUPAC), and 2,803 kJ/mol of glucose.
CO2_PER_O2 = 44.0095 / 31.9988
MJ_PER_KG_O2 = 2.803 / (6 * 31.9988e-3)


@given(st.floats(24.0, 50.0), temps, st.floats(0.0, 200.0), st.floats(0.3, 3.5))
def test_gas_oxygen_and_heat_of_a_rest_are_one_rate(moisture, temp, growth, factor):
    air = air_on(temp_c=15.0, relative_humidity=80.0)
    rest = rest_warmth(
        barley_moisture=14.0, net_moisture=moisture, start_c=temp, hours=0.1, growth_h=growth, air=air, factor=factor
    )
    heat = rest.heat_kw_t[0]
    state = {"net_moisture": moisture, "temp_c": temp, "growth_h": growth, "factor": factor}
    one = breathing(barley_kg=1000.0, barley_moisture=14.0, **state)
    assert heat == pytest.approx(one.heat_kw, rel=1e-12)
    assert heat * 3.6 / one.o2_kg_h == pytest.approx(MJ_PER_KG_O2, rel=1e-6)
    assert one.co2_kg_h / one.o2_kg_h == pytest.approx(CO2_PER_O2, rel=1e-6)
    assert one.loss_kg_h == pytest.approx(860.0 * breathing_rate(**state), rel=1e-12)
    if heat > 0.05:
        assert co2_kg_h(barley_kg=1000.0, respiration_kw_t=min(heat, 10.0)) == pytest.approx(
            one.co2_kg_h * min(heat, 10.0) / heat, rel=1e-9
        )


@given(st.floats(0.0, 12.0), temps, st.sampled_from([1, 2, 3, 5]))
def test_every_day_and_immersion_keeps_the_ratios(day, temp, immersion):
    states = [typical_breath(day=day, temp_c=temp), soonest_breath(day=day, temp_c=temp)]
    for one in (*states, *breath_of_immersion(immersion=immersion, temp_c=temp)):
        assert one.co2_kg_h / one.o2_kg_h == pytest.approx(CO2_PER_O2, rel=1e-6)
        assert one.heat_kw * 3.6 / one.o2_kg_h == pytest.approx(MJ_PER_KG_O2, rel=1e-6)
    assert states[1].heat_kw > 2.2 * states[0].heat_kw


@given(temps)
def test_a_third_immersion_is_grain_at_the_cast(temp):
    assert breath_of_immersion(immersion=3, temp_c=temp) == (
        typical_breath(day=0.0, temp_c=temp),
        soonest_breath(day=0.0, temp_c=temp),
    )


def test_gas_oxygen_and_warmth_of_one_steep_have_one_heat():
    # Before there was one law: 0.63 kW/t for its gas (0.4 of 1.72, 1 K under 15 C), 10 mg/kg h or 0.04 for its oxygen.
    found = one_steep()
    assert set(found) == {"gas-build-up", "steep-oxygen", "rest-warmth"}
    law = typical_breath(day=0.0, temp_c=14.0).heat_kw
    assert found["gas-build-up"] == pytest.approx(law) == pytest.approx(found["steep-oxygen"])
    assert found["rest-warmth"] == pytest.approx(law, rel=0.08)  # half an hour on, by the clock of its own steep


def test_the_immersions_are_those_of_a_usual_steep():
    hours = (8.0, 8.0, 8.0, 12.0, 4.0)
    states = course(plan=Plan(tuple(Stage(h, 14.0) for h in hours)))
    ends = {state.hour: state for state in states}
    for state, hour in zip(IMMERSIONS, (8.0, 24.0, 40.0), strict=True):
        assert ends[hour].growth_h == pytest.approx(state.growth_h, abs=0.8)
        if hour < 40.0:
            assert ends[hour].net == pytest.approx(state.net_moisture, abs=0.3)
        else:  # from 38 % on water no longer holds breathing back
            assert 38.0 < ends[hour].net < state.net_moisture


def test_the_third_day_is_the_highest_and_it_stays_so_in_the_soonest_case():
    heats = [typical_breath(day=d / 4, temp_c=15.0).heat_kw for d in range(45)]
    assert heats.index(max(heats)) == 12  # day 3
    soonest = [soonest_breath(day=d / 4, temp_c=15.0).heat_kw for d in range(45)]
    assert soonest == sorted(soonest)
    peak = breathing(barley_kg=1000, barley_moisture=14, net_moisture=45, temp_c=15, growth_h=HIGHEST_H).heat_kw
    assert soonest[-1] == pytest.approx(3.5 * peak)
    assert pytest.approx(860.0) == DRY_KG_T


def test_the_wall_of_a_vessel_is_no_breath():
    # A rest with no suction: what it loses to the wall is not counted as breathing.
    air = air_on(temp_c=5.0, relative_humidity=80.0)
    grain = {"barley_moisture": 14.0, "net_moisture": 40.0, "start_c": 15.0, "growth_h": 15.0}
    one: dict[str, Any] = {**grain, "hours": 1.0, "air": air}
    assert rest_warmth(**one).heat_kw_t[0] == rest_warmth(**one, wall_w_k_t=5 * VESSEL_W_K_T).heat_kw_t[0]


@pytest.mark.parametrize(
    ("given_values", "right"),
    [
        ({"day": 0.0, "temp_c": 15.0}, True),
        ({"day": -0.1, "temp_c": 15.0}, False),
        ({"day": 30.0, "temp_c": 15.0}, True),
        ({"day": 30.1, "temp_c": 15.0}, False),
        ({"day": 3.0, "temp_c": 40.0}, True),
        ({"day": 3.0, "temp_c": 40.1}, False),
        ({"day": 3.0, "temp_c": -0.1}, False),
    ],
)
def test_limits_from_both_sides(given_values, right):
    for law in (typical_breath, soonest_breath):
        if right:
            assert law(**given_values).heat_kw > 0.0
        else:
            with pytest.raises(OutOfRange):
                law(**given_values)


def test_there_is_no_immersion_nought():
    with pytest.raises(OutOfRange):
        breath_of_immersion(immersion=0, temp_c=15.0)
