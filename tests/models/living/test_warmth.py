"""The warmth of a rest and of grain whose fan has stopped, against a stiff integrator and by what must hold."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from calculators.models.bed import respiration
from calculators.models.bed.air import bed_air
from calculators.models.bed.humid_air import moist_air
from calculators.models.bounds import OutOfRange
from calculators.models.living.breathing import SOONEST_FACTOR, rate
from calculators.models.living.fan_stopped import PLACES, after_fan_stops
from calculators.models.living.maths import FLOATS
from calculators.models.living.pace import growth_pace, water_pace
from calculators.models.living.resting import fastest_rise_k_h
from calculators.models.living.warmth import (
    Rest,
    RestCourse,
    air_on,
    carried_off,
    cooling_kw,
    heat_capacity,
    rest_warmth,
    suction_that_holds,
    water_for_heat,
)

AIR = air_on(temp_c=12.0, relative_humidity=80.0)
REST = Rest(12.0, 40.0, 15.0, 12.0, 15.0, AIR)


@pytest.mark.parametrize("suction", [0.0, 7.8, 40.0])
@pytest.mark.parametrize("factor", [0.5, 1.0, 2.0])
def test_a_rest_against_scipy(suction: float, factor: float) -> None:
    dry = 880.0
    water = dry * (40.0 / 60.0 + 0.05)
    capacity = heat_capacity(dry, water)

    def slopes(_: float, y: list[float]) -> list[float]:
        made = dry * factor * respiration.HEAT_MJ_PER_KG / 3.6 * rate(FLOATS, 40.0, y[0], y[1])
        taken, _ = cooling_kw(FLOATS, AIR, suction, y[0])
        lost = 8.0 * (y[0] - 12.0) / 1000.0
        return [(made - taken - lost) * 3600.0 / capacity, water_pace(FLOATS, 40.0) * growth_pace(FLOATS, y[0])]

    theirs = solve_ivp(slopes, (0.0, 12.0), [15.0, 15.0], method="Radau", rtol=1e-9, atol=1e-9).y[0][-1]
    ours = rest_warmth(**REST._replace(suction_m3_h_t=suction, factor=factor)._asdict()).end_c
    assert ours == pytest.approx(theirs, abs=0.01)


def test_a_course_begins_at_its_beginning() -> None:
    course = rest_warmth(**REST._asdict())
    assert (course.hours[0], course.temps_c[0], course.evaporated_kg_t[0]) == (0.0, REST.start_c, 0.0)
    assert course.hours == pytest.approx([0.1 * n for n in range(len(course.hours))])


def test_energy_closes() -> None:
    # What is breathed warms the grain, with no air and no wall.
    course = rest_warmth(**REST._replace(wall_w_k_t=0.0)._asdict())
    made = sum(0.5 * (a + b) for a, b in zip(course.heat_kw_t, course.heat_kw_t[1:], strict=False)) * 0.1 * 3600.0
    warmed = (course.end_c - 15.0) * heat_capacity(880.0, 880.0 * (40 / 60 + 0.05))
    assert warmed == pytest.approx(made, rel=0.01)


def test_air_takes_what_the_bed_s_worked_case_says() -> None:
    # computed with psychrolib: 1 kW, on at 14 C saturated, off at 16.5 C: 520.05 kg dry air and 0.921 kg water an hour.
    on = air_on(temp_c=14.0, relative_humidity=100.0)
    heat, water = carried_off(FLOATS, on, 16.5)
    assert 3600.0 / heat == pytest.approx(520.05, rel=2e-3)
    assert 3600.0 / heat * water == pytest.approx(0.921, rel=2e-3)


@given(st.floats(2.0, 38.0), st.floats(1.0, 100.0), st.floats(0.0, 1.0))
def test_the_table_of_saturated_air_keeps_to_psychrolib(t: float, rh: float, step: float) -> None:
    on = air_on(temp_c=round(t, 1), relative_humidity=round(rh))
    off_c = min(40.0, t + 1.0 + 4.0 * step)
    off = moist_air(temp_c=off_c, relative_humidity=100.0, pressure_pa=101325.0)
    theirs = bed_air(
        air_on=moist_air(temp_c=round(t, 1), relative_humidity=round(rh), pressure_pa=101325.0), air_off=off
    )
    heat, water = carried_off(FLOATS, on, off_c)
    assert heat == pytest.approx(theirs.heat_kj, rel=5e-3)
    assert water == pytest.approx(theirs.water_kg, rel=1e-2, abs=1e-5)


@settings(max_examples=40)
@given(st.floats(0.0, 100.0), st.floats(0.1, 60.0), st.floats(0.3, 2.5))
def test_more_suction_never_warms_where_air_is_cooler(flow: float, more: float, factor: float) -> None:
    rest = REST._replace(factor=factor, hours=8.0)
    less = rest_warmth(**rest._replace(suction_m3_h_t=flow)._asdict()).end_c
    assert rest_warmth(**rest._replace(suction_m3_h_t=flow + more)._asdict()).end_c <= less + 1e-9
    hotter = rest_warmth(**rest._replace(suction_m3_h_t=flow, factor=factor * 1.1)._asdict()).end_c
    assert hotter >= less


@pytest.mark.parametrize("factor", [1.6, 2.0, 2.6])
def test_the_suction_found_holds_and_less_does_not(factor: float) -> None:
    rest = REST._replace(factor=factor)
    found = suction_that_holds(limit_c=17.0, rest=rest)
    assert found is not None and found > 0.0
    assert rest_warmth(**rest._replace(suction_m3_h_t=found)._asdict()).warmest_c <= 17.0 + 1e-3
    assert rest_warmth(**rest._replace(suction_m3_h_t=found - 0.2)._asdict()).warmest_c > 17.0


def test_the_least_suction_published_clears_gas_and_cools_little() -> None:
    # Haley & Stokes 1987 (abstract read): at least 100 ft3/min for 1,000 bushels, 7.8 m3/h t.  In air of 15 C and 80 %
    # it takes some 30 W a tonne from grain at 17 C: a fifth of a second rest's heat, a fiftieth of the peak's.
    on = air_on(temp_c=15.0, relative_humidity=80.0)
    taken, _ = cooling_kw(FLOATS, on, 7.8, 17.0)
    assert 0.02 < taken < 0.04
    # The same flow carries off the gas: 0.1 kW a tonne is 34 g/h (computed), under 0.3 % of the air.
    assert 0.0339 / 44.01 * 23.6 / 7.8 < 0.003
    warm = rest_warmth(**REST._replace(air=on, suction_m3_h_t=7.8)._asdict()).end_c
    still = rest_warmth(**REST._replace(air=on)._asdict()).end_c
    assert 0.2 < still - warm < 0.8


def test_warm_damp_air_cannot_hold() -> None:
    muggy = air_on(temp_c=25.0, relative_humidity=95.0)
    assert suction_that_holds(limit_c=17.0, rest=REST._replace(air=muggy, factor=2.0)) is None


def test_no_limit_under_the_start() -> None:
    assert suction_that_holds(limit_c=39.0, rest=REST) == 0.0
    with pytest.raises(OutOfRange):
        suction_that_holds(limit_c=14.9, rest=REST)


@pytest.mark.parametrize(
    ("name", "inside", "outside"),
    [
        ("net_moisture", 20.0, 19.9),
        ("net_moisture", 55.0, 55.1),
        ("start_c", 30.0, 30.1),
        ("start_c", 1.0, 0.9),
        ("start_c", 20.0, 60.0),
        ("hours", 48.0, 48.1),
        ("suction_m3_h_t", 500.0, 500.1),
    ],
)
def test_limits_of_a_rest(name: str, inside: float, outside: float) -> None:
    rest_warmth(**{**REST._asdict(), name: inside})
    with pytest.raises(OutOfRange):
        rest_warmth(**{**REST._asdict(), name: outside})


def stopped(place: str = "box", **changes: float):
    state = {"barley_moisture": 14.0, "net_moisture": 45.0, "temp_c": 17.0, "growth_h": 78.0}
    return after_fan_stops(place=place, **{**state, "limit_c": 25.0, "room_c": 15.0, **changes})


@pytest.mark.parametrize("place", PLACES)
def test_soonest_is_soonest(place: str) -> None:
    found = stopped(place)
    assert found.hours_to_limit_soonest < found.hours_to_limit
    assert found.k_per_h_soonest > found.k_per_h > 0.0
    assert found.heat_kw_t_soonest == pytest.approx(found.heat_kw_t * SOONEST_FACTOR)
    # No loss anywhere: where the grain lies does not put the soonest case off.
    assert found.hours_to_limit_soonest == pytest.approx(stopped("box").hours_to_limit_soonest)


def test_one_kilowatt_a_tonne_is_0_89_kelvin_an_hour() -> None:
    # computed from heat and heat capacity of a cubic metre: the floor's own figure.
    found = stopped()
    assert found.k_per_h / found.heat_kw_t == pytest.approx(0.89, rel=0.06)


@given(st.floats(5.0, 24.0), st.floats(0.5, 5.0), st.floats(20.0, 200.0))
@settings(max_examples=25)
def test_a_nearer_limit_comes_sooner(temp: float, step: float, growth: float) -> None:
    near, far = (stopped(temp_c=temp, growth_h=growth, limit_c=temp + k * step) for k in (1.0, 2.0))
    assert near.hours_to_limit <= far.hours_to_limit
    assert math.isfinite(near.hours_to_limit_soonest) or near.hours_to_limit == math.inf


def test_a_limit_already_passed_is_asked_back() -> None:
    with pytest.raises(OutOfRange):
        stopped(temp_c=25.1)
    with pytest.raises(OutOfRange, match="rest, box, drum, floor"):
        stopped("cellar")


def test_the_fastest_rise_is_that_of_any_hour() -> None:
    # By numpy: the course drawn straight between its points, an hour at a time; a shorter rest counts by its whole.
    hours, temps = [0.0, 0.25, 0.5, 1.0, 1.25, 2.0, 3.0], [14.0, 14.0, 14.6, 15.5, 15.6, 15.7, 16.9]
    ran = RestCourse(hours, temps, [0.0] * 7, [0.0] * 7)
    by_hand = max(np.interp(h, hours, temps) - np.interp(h - 1.0, hours, temps) for h in hours if h >= 1.0)
    assert fastest_rise_k_h(ran) == pytest.approx(by_hand) == 1.6
    short = RestCourse([0.0, 0.5], [14.0, 15.0], [0.0, 0.0], [0.0, 0.0])
    assert fastest_rise_k_h(short) == pytest.approx(2.0)


def test_a_doubt_of_breathing_that_is_more_than_the_law_s_own_is_refused() -> None:
    fan = {
        "place": "box", "barley_moisture": 12.0, "net_moisture": 45.0, "temp_c": 15.0, "growth_h": 60.0,
        "room_c": 15.0, "limit_c": 25.0,
    }  # fmt: skip
    for factor in (0.5, 2.0):  # together no more than ten times the law
        after_fan_stops(**fan, factor=factor, doubt_factor=10.0 / factor)  # type: ignore[arg-type]
        with pytest.raises(OutOfRange, match="doubt_factor"):
            after_fan_stops(**fan, factor=factor, doubt_factor=10.01 / factor)  # type: ignore[arg-type]


@pytest.mark.parametrize("grain", [8.0, 12.0, 15.0, 20.0])
@pytest.mark.parametrize(("air", "humidity"), [(5.0, 90.0), (12.0, 95.0), (18.0, 30.0), (30.0, 20.0)])
def test_water_goes_with_heat_as_the_air_takes_both(grain: float, air: float, humidity: float) -> None:
    """Never more than all heat would evaporate at 2,200 kJ a kilogram (common practice), nor less where none goes."""
    heat, water = carried_off(FLOATS, air_on(temp_c=air, relative_humidity=humidity), grain)
    found = float(water_for_heat(FLOATS, air_on(temp_c=air, relative_humidity=humidity), grain))
    assert found == pytest.approx(min(float(water) / float(heat), 1 / 2200) if heat > 1.0 else 1 / 2200, rel=1e-9)
