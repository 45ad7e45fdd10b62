"""The warmth of a rest against CoolProp and psychrolib, scipy's integrator, and what is published."""

from __future__ import annotations

import psychrolib
import pytest
from scipy.integrate import simpson, solve_ivp

from calculators.models.living.breathing import SOONEST_FACTOR, breathing
from calculators.models.living.resting import balance_at_end, growth_since_wetting, rested
from calculators.models.living.warmth import Rest, air_on, rest_warmth, suction_that_holds
from calculators.models.steep.mixing import DRY_HEAT, WATER_HEAT
from calculators.models.steep.oxygen import SUCTION_M3_T_H
from tests.sheets.ask import ask

PRESSURE = 101_325.0


def rest_of(**changes: float) -> Rest:
    state = {"air_c": 15.0, "rh": 80.0, "suction": 25.0, "start": 14.0, "growth": 5.5, "net": 39.2, **changes}
    air = air_on(temp_c=state["air_c"], relative_humidity=state["rh"])
    return Rest(12.0, state["net"], state["start"], 12.0, state["growth"], air, state["suction"])


def psychrolib_kw(temp_c: float, air_c: float, rh: float, flow: float) -> float:
    """Heat that the air takes out of grain at a temperature, by psychrolib alone [kW for each tonne]."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    on = psychrolib.GetHumRatioFromRelHum(air_c, rh / 100.0, PRESSURE)
    off = psychrolib.GetSatHumRatio(temp_c, PRESSURE)
    heat = psychrolib.GetMoistAirEnthalpy(temp_c, off) - psychrolib.GetMoistAirEnthalpy(air_c, on)
    dry = flow / psychrolib.GetMoistAirVolume(air_c, on, PRESSURE) / 3600.0
    return float(dry * (heat - (off - on) * 4186.0 * temp_c) / 1000.0)


# Air drawn in [C], its humidity [%], the grain [C]; heat that 100 m3/h of it carries off [kW], leaving saturated, the
# water taken as liquid at the grain's temperature (computed with CoolProp 8.0.0, real humid air at 101,325 Pa).
COOLPROP = (
    (5, 90, 12, 0.5851),
    (5, 90, 16.5, 1.0040),
    (5, 90, 19, 1.2682),
    (15, 80, 12, -0.0829),
    (15, 80, 16.5, 0.3214),
    (15, 80, 19, 0.5763),
    (20, 60, 12, -0.2704),
    (20, 60, 16.5, 0.1270),
    (20, 60, 19, 0.3775),
)


@pytest.mark.parametrize(("air_c", "rh", "temp_c", "printed"), COOLPROP)
def test_what_the_air_carries_off_against_coolprop(air_c, rh, temp_c, printed):
    # psychrolib leaves out the enhancement factor: saturated humidity 0.42-0.46 % below CoolProp (reference values). A
    # difference of two humidities keeps that within 2 % or 3 W, of a tonne's hundreds.
    rest = rest_of(air_c=air_c, rh=rh, suction=100.0)
    ran = rest_warmth(**rest._replace(hours=0.1)._asdict())._replace(temps_c=[temp_c])
    assert balance_at_end(rest, ran).carried_kw == pytest.approx(printed, rel=0.02, abs=0.003)


@pytest.mark.parametrize("suction", [0.0, SUCTION_M3_T_H, 60.0])
@pytest.mark.parametrize("factor", [1.0, SOONEST_FACTOR])
def test_energy_closes_over_a_rest(suction, factor):
    # Heat breathed = heat stored in grain and water + heat in the air + heat through the wall, each integrated by scipy
    # over the course; the air's by psychrolib alone.
    rest = rest_of(suction=suction)._replace(factor=factor)
    ran = rest_warmth(**rest._asdict())

    def total(kilowatts: list[float]) -> float:  # kWh
        return float(simpson(kilowatts, x=ran.hours))

    made = total(ran.heat_kw_t)
    carried = total([psychrolib_kw(temp, 15.0, 80.0, suction) for temp in ran.temps_c])
    wall = total([0.008 * (temp - 15.0) for temp in ran.temps_c])
    water = 880.0 * (39.2 / 60.8 + 0.05)
    stored = (880.0 * DRY_HEAT + water * WATER_HEAT) * (ran.end_c - 14.0) / 3600.0
    assert made == pytest.approx(stored + carried + wall, rel=0.005, abs=0.005)


@pytest.mark.parametrize("factor", [1.0 / SOONEST_FACTOR, 1.0, SOONEST_FACTOR])
def test_the_hours_against_scipy_s_integrator_with_the_published_law_called_afresh(factor):
    rest = rest_of(suction=25.0)._replace(factor=factor)
    capacity = balance_at_end(rest, rest_warmth(**rest._asdict())).capacity_kj_k

    def slope(_: float, y: list[float]) -> list[float]:
        breath = breathing(
            barley_kg=1000, barley_moisture=12, net_moisture=39.2, temp_c=y[0], growth_h=y[1], factor=factor
        )
        made = breath.heat_kw - psychrolib_kw(y[0], 15.0, 80.0, 25.0) - 0.008 * (y[0] - 15.0)
        share = (39.2 - 26.0) / 14.0
        return [made * 3600.0 / capacity, share * share * (3 - 2 * share) * 2.25 ** ((y[0] - 15.0) / 10.0)]

    theirs = solve_ivp(slope, (0.0, 12.0), [14.0, 5.5], method="LSODA", rtol=1e-7, atol=1e-7).y[0][-1]
    assert rest_warmth(**rest._asdict()).end_c == pytest.approx(theirs, abs=0.05)


def test_the_suction_against_a_root_by_scipy():
    from scipy.optimize import brentq

    rest = rest_of(net=41.0, growth=12.0)._replace(factor=SOONEST_FACTOR)
    found = suction_that_holds(limit_c=17.0, rest=rest)

    def over(flow: float) -> float:
        return rest_warmth(**rest._replace(suction_m3_h_t=flow)._asdict()).warmest_c - 17.0

    assert found == pytest.approx(brentq(over, 1.0, 400.0), abs=0.1)


def test_haley_and_stokes_least_suction_is_no_cooling():
    # 100 ft3/min for 1,000 bushels of 48 lb (Haley & Stokes 1987, abstract read): 7.8 m3/h t. They want no more than
    # 65 F, 18.3 C, of the barley at the end. It takes a tenth of the heat of a second rest, and less of a fast one.
    rest = rest_of(suction=SUCTION_M3_T_H)
    ran = rested(rest)
    least = balance_at_end(rest, ran.typical)
    assert 0.03 < least.carried_kw / least.made_kw < 0.2
    still = rested(rest._replace(suction_m3_h_t=0.0))
    assert 0.0 < still.fast.end_c - ran.fast.end_c < 0.5
    assert ran.typical.end_c < 18.3 < still.fast.end_c


def test_a_usual_steep_comes_to_life_within_two_days():
    # Narziss (read in translation): life shows at about 30 %, even growth from about 38 %. Steeps take 40 to 50 h
    # (Britannica, read): growth has begun by then and is far from the third day's 78 h.
    hours = [growth_since_wetting(hours=h, temp_c=14.0) for h in (8, 16, 24, 36, 48)]
    assert hours == sorted(hours) and hours[0] < 1.0 and 15.0 < hours[-1] < 40.0


def test_a_warm_rest_in_august_passes_the_published_most_and_the_sheet_says_so():
    # 62 F in the steep and 65 F at its end (Haley & Stokes 1987, abstract read).
    told = ask("rest-warmth", start_c="18", air_c="20", air_rh="75", since_wetting_h="24")
    assert told["answers"]["end_c"]["value"] > 18.3
    assert told["notes"][0]["text"].startswith("Past a stop.")
