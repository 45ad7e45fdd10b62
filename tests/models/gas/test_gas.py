"""Dilution, a shut vessel and means over a day: what must hold for every input, and scipy beside it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from calculators.models.bounds import OutOfRange
from calculators.models.gas import dilution as gas
from calculators.models.gas import exposure, shut_vessel

positive = st.floats(0.5, 1e4)
ppms = st.floats(0, 5e5)
mixings = st.floats(1, 10)


@pytest.mark.parametrize("mixing", [1.0, 4.0])
def test_dilution_with_a_source_against_scipy(mixing):
    space = {"airflow_m3_h": 900.0, "outdoor_ppm": 420.0, "source_m3_h": 0.8, "mixing": mixing}
    floor = gas.floor_ppm(**space)

    def slope(t, c):
        return (900.0 / mixing) / 30.0 * (420.0 - c) + 0.8e6 / 30.0

    solved = solve_ivp(slope, (0, 1.5), [60_000.0], rtol=1e-10, atol=1e-6)
    ours = gas.diluted_ppm(minutes=90, volume_m3=30, start_ppm=60_000, **space)
    assert ours == pytest.approx(solved.y[0, -1], rel=1e-7)
    assert slope(0.0, floor) == pytest.approx(0.0, abs=1e-6)


@given(positive, positive, ppms, ppms, st.floats(0, 5), mixings, st.floats(0.01, 0.99))
def test_minutes_and_dilution_undo_each_other(volume, airflow, start, outdoor, source, mixing, share):
    space = {"airflow_m3_h": airflow + 0.5, "outdoor_ppm": outdoor, "source_m3_h": source, "mixing": mixing}
    floor = gas.floor_ppm(**space)
    assume(start > floor + 1)
    end = floor + (start - floor) * share
    minutes = gas.dilution_minutes(volume_m3=volume, start_ppm=start, end_ppm=end, **space)
    assert minutes >= 0
    back = gas.diluted_ppm(minutes=minutes, volume_m3=volume, start_ppm=start, **space)
    assert back == pytest.approx(end, rel=1e-6, abs=1e-3)


@given(positive, ppms, st.floats(0, 50), mixings)
def test_at_or_below_the_floor_it_is_refused(airflow, outdoor, source, mixing):
    space = {"airflow_m3_h": airflow + 0.5, "outdoor_ppm": outdoor, "source_m3_h": source, "mixing": mixing}
    floor = gas.floor_ppm(**space)
    assume(floor < 9e5)
    with pytest.raises(OutOfRange):
        gas.dilution_minutes(volume_m3=10, start_ppm=floor + 5e4, end_ppm=floor, **space)


@given(mixings, mixings)
def test_worse_mixing_is_never_faster(one, other):
    low, high = sorted((one, other))
    room = {"volume_m3": 20.0, "airflow_m3_h": 500.0, "start_ppm": 5e4, "end_ppm": 2e4, "outdoor_ppm": 420.0}
    quick = gas.dilution_minutes(**room, source_m3_h=0.5, mixing=low)
    assert quick <= gas.dilution_minutes(**room, source_m3_h=0.5, mixing=high) + 1e-9


@given(st.floats(100, 1e5), st.floats(0.05, 10), st.floats(2, 40), st.floats(0.5, 500), st.floats(0, 2e5))
def test_a_shut_vessel_rises_until_the_oxygen_is_gone(kg, kw, temp, free, start):
    rise = shut_vessel.rise_ppm_min(barley_kg=kg, respiration_kw_t=kw, grain_temp_c=temp, free_m3=free)
    assert rise > 0
    course = [shut_vessel.shut_ppm(minutes=m, start_ppm=start, rise=rise) for m in (0, 10, 100, 1e9)]
    assert course == sorted(course) and course[0] == start
    assert shut_vessel.oxygen_percent(ppm=course[-1]) == pytest.approx(0, abs=0.05)
    half = (start + course[-1]) / 2
    when = shut_vessel.minutes_until(ppm=half, start_ppm=start, rise=rise)
    assert when is not None
    assert shut_vessel.shut_ppm(minutes=when, start_ppm=start, rise=rise) == pytest.approx(half, rel=1e-9)


def test_what_is_never_reached_has_no_time():
    assert shut_vessel.minutes_until(ppm=300_000, start_ppm=420, rise=1000) is None
    assert shut_vessel.minutes_until(ppm=5000, start_ppm=6000, rise=1000) == 0.0


@given(st.floats(0, 10), st.floats(2, 40))
def test_warmer_grain_breathes_faster(day, temp):
    cool = shut_vessel.soonest_kw_t(day=day, grain_temp_c=min(temp, 30))
    warm = shut_vessel.soonest_kw_t(day=day, grain_temp_c=min(temp, 30) + 10)
    assert warm > cool or warm == shut_vessel.RESPIRATION_KW_T.high


@given(st.floats(0, 10), st.floats(0, 3), st.floats(2, 40))
def test_a_later_day_never_puts_the_soonest_case_off(day, more, temp):
    here = shut_vessel.soonest_kw_t(day=day, grain_temp_c=temp)
    assert shut_vessel.soonest_kw_t(day=min(day + more, 10), grain_temp_c=temp) >= here
    assert here >= 2.2 * shut_vessel.typical_kw_t(day=day, grain_temp_c=temp) or here == 10.0


_OLD_SHARES = (0.4, 0.9, 1.4, 1.3, 1.0, 0.8)


@given(st.floats(0, 10), st.floats(2, 40))
@example(3.0, 2.0)
@example(3.99, 15.0)
@example(0.0, 15.0)
@example(10.0, 30.0)
def test_the_soonest_case_is_no_weaker_than_that_of_shares_from_memory(day, temp):
    # Twice 1 % of the dry matter a day, by shares of the day and a Q10 of 2.25 (both from memory), was the strong case
    # before there was one law: the far end of the law must not make any vessel look slower.
    share = _OLD_SHARES[min(int(max(day, 1.0)), 6) - 1]
    old = min(2.0 * 1.7204 * share * 2.25 ** ((temp - 15.0) / 10.0), 10.0)
    assert shut_vessel.soonest_kw_t(day=day, grain_temp_c=temp) >= old


rows = st.lists(st.tuples(st.floats(0, 1e5), st.floats(1, 120)), min_size=1, max_size=8)


@given(rows, st.floats(350, 1e5))
def test_means_lie_between_the_least_and_the_most(day, unmeasured):
    found = exposure.time_weighted_ppm(day, unmeasured)
    figures = [ppm for ppm, _ in day]
    if exposure.measured_minutes(day) < 480:
        figures.append(unmeasured)
        assert min(figures) - 1e-6 <= found <= max(figures) + 1e-6
    short = exposure.highest_mean_ppm(day, unmeasured)
    assert min(figures) - 1e-6 <= short <= max(figures) + 1e-6


@given(rows, st.floats(350, 1e5))
def test_the_worst_quarter_of_an_hour_by_brute_force(day, unmeasured):
    laid = list(day)
    if exposure.measured_minutes(day) < 480:
        laid = [(unmeasured, 15.0), *laid, (unmeasured, 15.0)]
    ends = np.cumsum([minutes for _, minutes in laid])
    assume(ends[-1] >= 15)
    grid = np.linspace(0, ends[-1], 4001)
    total = np.interp(grid, [0, *ends], [0, *np.cumsum([p * m for p, m in laid])])
    starts = grid[grid <= ends[-1] - 15]
    brute = max((np.interp(starts + 15, grid, total) - np.interp(starts, grid, total)) / 15)
    found = exposure.highest_mean_ppm(day, unmeasured)
    assert found >= brute - 1e-6 * max(1.0, brute)
    assert found == pytest.approx(brute, rel=0.02, abs=0.02 * max(p for p, _ in laid))


def test_time_that_nobody_measured_is_asked_for():
    with pytest.raises(OutOfRange) as fault:
        exposure.time_weighted_ppm([(1000, 479)])
    assert fault.value.parameter == "unmeasured_ppm"
    assert exposure.time_weighted_ppm([(1000, 480)]) == 1000
    with pytest.raises(OutOfRange):
        exposure.highest_mean_ppm([(1000, 14)])
