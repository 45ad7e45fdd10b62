"""Figures between states, air under water, days still to go and weighted middles, each by another way of adding up."""

from __future__ import annotations

from itertools import pairwise
from math import inf

import numpy as np
import pytest

from calculators.models.bed.floor import TIMES, band, hours_until
from calculators.models.bounds import OutOfRange
from calculators.models.living.batch import course
from calculators.models.living.lot_plan_state import Lot, Plan, at_hour
from calculators.models.living.pace import AirShare, air_share_at, air_shares
from calculators.models.living.ready import days_left, pace, share_done
from calculators.models.living.resting import _LATER_HOURS, USUAL_HOURS, growth_since_wetting
from calculators.models.living.steep_run import driven, rest_places, rise, stage_at
from calculators.models.living.warmth import SUCTION
from calculators.models.steep.course import Stage
from calculators.models.steep.hydration import steep

COURSE = steep(barley_moisture=12.5, stages=[(h, 14.0) for h in (8.0, 8.0, 8.0, 12.0, 3.0)])
STATES = driven(COURSE)


def test_a_figure_between_two_states_lies_on_their_line_and_ends_with_the_last() -> None:
    hours, nets = [s.hour for s in STATES], [float(s.net) for s in STATES]
    for hour in (0.0, 0.3, 7.5, 8.0, 20.25, 38.9, 39.0):
        assert at_hour(STATES, hour, lambda s: s.net) == pytest.approx(np.interp(hour, hours, nets))
    assert at_hour(STATES, 39.0 + 5e-7, lambda s: s.net) == nets[-1]
    assert at_hour(STATES[:1], 0.0, lambda s: s.net) == nets[0]
    for outside in (-0.01, 39.01):
        with pytest.raises(OutOfRange):
            at_hour(STATES, outside, lambda s: s.net)


def test_a_batch_that_draws_twice_the_air_is_one_with_twice_the_suction() -> None:
    plan = Plan(COURSE.steeping.stages)
    more = course(plan=plan, lot=Lot(suction_factor=2.0))
    wanted = course(plan=plan._replace(suction_m3_h_t=2.0 * plan.suction_m3_h_t), lot=Lot())
    assert [s.temp_c for s in more] == pytest.approx([s.temp_c for s in wanted])
    usual = course(plan=plan, lot=Lot())
    assert max(s.temp_c for s in more) < max(s.temp_c for s in usual) - 0.05


def test_grain_breathes_under_water_too() -> None:
    wet = [state for state in STATES if state.wet and 20.0 <= state.hour <= 24.0]
    assert wet and all(float(state.heat_kw) > 0.0 for state in wet)
    assert float(wet[-1].respired_kg) > float(wet[0].respired_kg)


def test_the_fastest_rise_of_a_rest_is_numpy_s_steepest_difference() -> None:
    for places in rest_places(STATES):
        hours, temps = ([float(getattr(STATES[n], name)) for n in places] for name in ("hour", "temp_c"))
        assert rise(STATES, places) == pytest.approx(max(0.0, float(np.max(np.diff(temps) / np.diff(hours)))))
    assert rise(STATES[::-1], [1, 0]) >= 0.0
    assert [stage_at(COURSE, hour) for hour in (0.0, 8.0, 8.1, 16.0, 39.0, 50.0)] == [0, 0, 1, 1, 4, 4]


def test_rests_are_found_between_immersions_with_the_state_before_each() -> None:
    first, second = rest_places(STATES)
    assert (STATES[first[0]].hour, STATES[first[-1]].hour) == (8.0, 16.0)
    assert (STATES[second[0]].hour, STATES[second[-1]].hour) == (24.0, 36.0)
    assert all(not STATES[n].wet for rest in (first, second) for n in rest[1:])


@pytest.mark.parametrize("hours", [(8, 8), (24, 8), (14, 3, 6, 3), (13, 0.5, 8, 20), (2, 30), (30, 2, 14, 2, 13)])
@pytest.mark.parametrize("begins_wet", [True, False])
def test_air_under_water_and_the_debt_of_long_immersions_minute_by_minute(
    hours: tuple[float, ...], begins_wet: bool
) -> None:
    """Under water 0.35 for twelve hours, then none; each hour over is owed a quarter of an hour of rest."""
    minute, debt, clock, wanted = 1.0 / 60.0, 0.0, 0.0, []
    for n, length in enumerate(hours):
        wet = (n % 2 == 0) is begins_wet
        for m in range(round(60 * length)):
            if wet:
                wanted.append((clock, 0.0 if m >= 720 or debt_before(debt, m) else 0.35))
                debt += 0.25 * minute if m >= 720 else 0.0
            else:
                wanted.append((clock, 0.0 if debt > 1e-9 else 1.0))
                debt = max(0.0, debt - minute)
            clock += minute
    shares = air_shares(stage_hours=list(hours), begins_wet=begins_wet)
    for at, share in wanted[::7]:
        found = [one.share for one in shares if one.from_h <= at + 1e-6]
        assert found[-1] == share, (at, shares)
    assert shares[-1].share == 1.0
    if debt > 1e-6 or (len(hours) % 2 == 1) is begins_wet:  # else the last rest had air already
        assert shares[-1].from_h == pytest.approx(clock + debt, abs=0.02)
    assert all(a.share != b.share for a, b in pairwise(shares))


def debt_before(debt: float, minutes: int) -> bool:
    """Whether an immersion began in debt; what it owes itself begins after twelve hours."""
    return debt > 1e-9 and minutes < 720


def test_the_mean_share_of_air_is_that_of_its_minutes() -> None:
    shares = [AirShare(0.0, 0.35), AirShare(8.0, 1.0), AirShare(10.0, 0.0), AirShare(11.0, 1.0)]
    for begins, until in ((0.0, 1.0), (7.5, 8.5), (8.0, 10.0), (9.0, 12.5), (3.0, 30.0), (11.0, 12.0), (10.0, 11.0)):
        minutes = np.arange(begins + 0.0005, until, 0.001)
        wanted = np.mean([[one.share for one in shares if one.from_h <= at][-1] for at in minutes])
        assert air_share_at(shares, begins, until) == pytest.approx(wanted, abs=1e-3)


def test_days_still_to_go_are_none_when_all_is_done_and_endless_where_nothing_grows() -> None:
    usual = {"temp_c": 15.0, "reference_temp_c": 15.0, "reference_days": 5.0}
    assert days_left(share=0.4, **usual) == pytest.approx(3.0)
    assert days_left(share=1.0, **usual) == days_left(share=1.3, **usual) == 0.0
    assert days_left(share=1.0, moisture=24.0, **usual) == 0.0 and days_left(share=0.99, moisture=24.0, **usual) == inf
    slow = {**usual, "temp_c": 5.0, "q10": 3.5}
    assert 0.0 < pace(temp_c=5.0, reference_temp_c=15.0, q10=3.5) < 0.3
    assert days_left(share=0.5, **slow) == pytest.approx(2.5 / pace(temp_c=5.0, reference_temp_c=15.0, q10=3.5))
    done = share_done(temps_by_day=[15.0, 5.0], reference_temp_c=15.0, reference_days=5.0)
    assert done == pytest.approx((1.0 + pace(temp_c=5.0, reference_temp_c=15.0)) / 5.0)


@pytest.mark.parametrize("hours", [8.0, 40.0, 60.0, 96.0])
def test_growth_since_the_first_wetting_is_that_of_a_steep_wet_and_rested_by_turns(hours: float) -> None:
    stages = [*USUAL_HOURS, *(8 * list(_LATER_HOURS))][:20]
    plan = Plan(tuple(Stage(h, 14.0) for h in stages), suction_m3_h_t=SUCTION.high, rest_air_c=14.0, rest_air_rh=100.0)
    states = course(plan=plan, lot=Lot(barley_moisture=12.0))
    wanted = float(at_hour(states, hours, lambda s: s.growth_h))
    assert growth_since_wetting(hours=hours, temp_c=14.0, barley_moisture=12.0) == pytest.approx(wanted, abs=1e-6)


def test_a_weighted_middle_and_its_tenths_are_numpy_s() -> None:
    random = np.random.default_rng(2)
    for count in (1, 2, 3, 10, 60):
        values, weights = random.standard_normal(count), random.random(count)
        wanted = np.quantile(values, [0.1, 0.5, 0.9], weights=weights, method="inverted_cdf")
        assert band(list(values), list(weights)) == pytest.approx(wanted)
    assert band([10.0, 20.0], [0.05, 0.95]) == (20.0, 20.0, 20.0)


def test_a_difference_reaches_its_limit_on_the_line_between_two_times() -> None:
    rising = [0.5 * time for time in TIMES]
    assert hours_until(rising, 1.0) == pytest.approx(np.interp(1.0, rising, TIMES))
    assert hours_until([2.0, *rising[1:]], 2.0) == 0.0 and hours_until(rising, rising[-1] + 0.1) == inf
    assert hours_until(rising, rising[-1]) == pytest.approx(TIMES[-1])
