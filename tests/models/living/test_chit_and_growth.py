"""What must hold for the clocks, the spread of corns and their acrospires."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from calculators.models.bounds import OutOfRange
from calculators.models.living.acrospires import Acrospires, classes, length_at_share, mean_length, shares_below
from calculators.models.living.arrays import ARRAYS
from calculators.models.living.chitting import (
    Corns,
    chitted,
    clock_for,
    from_counts,
    intervals,
    log_likelihood,
)
from calculators.models.living.maths import FLOATS
from calculators.models.living.pace import air_share_at, air_shares, growth_after_cast, must_grow, paces

lots = st.builds(Corns, st.floats(8.0, 60.0), st.floats(0.1, 0.6), st.floats(0.5, 1.0), st.floats(0.0, 0.4))


@given(st.floats(5.0, 55.0), st.floats(1.0, 30.0), st.floats(0.0, 1.0))
def test_paces_rise_with_warmth_and_water_and_stand_still_without(m: float, t: float, air: float) -> None:
    here = paces(net_moisture=m, temp_c=t, air_share=air)
    assert min(here) >= 0.0
    assert paces(net_moisture=min(m + 2.0, 55.0), temp_c=t, air_share=air).chit >= here.chit
    if t <= 29.0:
        assert paces(net_moisture=m, temp_c=t + 1.0, air_share=air).growth >= here.growth
    assert paces(net_moisture=m, temp_c=t, air_share=0.0) == (0.0, 0.0)
    assert paces(net_moisture=20.0, temp_c=t) == (0.0, 0.0)


def test_life_shows_at_30_and_growth_is_even_from_38() -> None:
    # Narziss (read in translation).
    assert 0.1 < paces(net_moisture=30.0, temp_c=15.0).chit < 0.3
    assert paces(net_moisture=38.0, temp_c=15.0).chit > 0.9


@pytest.mark.parametrize(("name", "inside", "outside"), [("temp_c", 30.0, 30.1), ("temp_c", 1.0, 0.9)])
def test_limits_of_the_paces(name: str, inside: float, outside: float) -> None:
    state = {"net_moisture": 44.0, "temp_c": 15.0}
    paces(**{**state, name: inside})
    with pytest.raises(OutOfRange):
        paces(**{**state, name: outside})


def test_corns_too_dry_do_not_grow() -> None:
    must_grow(moisture=26.0)
    with pytest.raises(OutOfRange):
        must_grow(moisture=25.9)


@given(st.lists(st.floats(0.25, 40.0), min_size=1, max_size=8), st.booleans())
def test_air_shares_cover_the_steep_and_pay_every_debt(hours: list[float], begins_wet: bool) -> None:
    shares = air_shares(stage_hours=hours, begins_wet=begins_wet)
    assert shares[0].from_h == 0.0 and shares[-1].share == 1.0
    starts = [one.from_h for one in shares]
    assert starts == sorted(starts)
    end = sum(hours)
    whole = air_share_at(shares, 0.0, end)
    parts = (air_share_at(shares, 0.0, end / 3) + 2.0 * air_share_at(shares, end / 3, end)) / 3.0
    assert whole == pytest.approx(parts)


def test_a_long_immersion_delays_more_than_the_same_hours_in_two() -> None:
    long = air_share_at(air_shares(stage_hours=[24, 8]), 0.0, 32.0)
    short = air_share_at(air_shares(stage_hours=[12, 8, 12]), 0.0, 32.0)
    assert long < short


def test_growth_by_day_against_the_clock() -> None:
    assert growth_after_cast(day=0.0, temp_c=15.0) == growth_after_cast(day=1.0, temp_c=15.0) == 18.0
    # Thomson (read): 14 days at 62 F and 18 to 21 at 55 F.
    ratio = (growth_after_cast(day=15, temp_c=16.7) - 18) / (growth_after_cast(day=15, temp_c=12.8) - 18)
    assert 18 / 14 < ratio < 21 / 14


@given(lots, st.floats(0.1, 300.0), st.floats(0.1, 50.0))
def test_chitted_rises_to_the_share_that_grows(corns: Corns, clock: float, more: float) -> None:
    here = chitted(clock_h=clock, corns=corns)
    assert 0.0 <= here <= chitted(clock_h=clock + more, corns=corns) <= corns.grows + 1e-12
    assert chitted(clock_h=0.0, corns=corns) == pytest.approx(0.0, abs=1e-12)


@given(lots, st.floats(0.01, 0.99))
def test_clock_for_is_the_way_back(corns: Corns, share: float) -> None:
    found = clock_for(share=share, corns=corns)
    if found is None:
        assert share >= corns.grows
    else:
        assert chitted(clock_h=found, corns=corns) == pytest.approx(share, abs=1e-6)


@given(lots)
def test_dormant_and_sensitive_corns_thin_and_shift_the_curve(corns: Corns) -> None:
    assume(corns.grows > 0.6)
    fewer = corns._replace(grows=corns.grows - 0.1)
    later = corns._replace(sensitive=min(1.0, corns.sensitive + 0.2))
    at = corns.middle_h
    assert chitted(clock_h=at, corns=fewer) < chitted(clock_h=at, corns=corns)
    assert chitted(clock_h=at, corns=later) < chitted(clock_h=at, corns=corns)


def test_log_likelihood_against_scipy() -> None:
    lot = Corns(20.0, 0.3, 0.9, 0.0)
    seen = intervals(times=[15.0, 20.0, 30.0], chitted=[10, 40, 80], corns=100)
    cut = [0.0, *(0.9 * norm.cdf(math.log(t / 20.0) / 0.3) for t in (15.0, 20.0, 30.0)), 1.0]
    theirs = sum(n * math.log(b - a) for n, a, b in zip((10, 30, 40, 20), cut, cut[1:], strict=False))
    assert log_likelihood(counted=seen, corns=lot) == pytest.approx(theirs)


def test_counts_that_cannot_be() -> None:
    for times, found in (([1.0, 1.0], [1, 2]), ([1.0, 2.0], [5, 4]), ([1.0, 2.0], [5, 51])):
        with pytest.raises(OutOfRange):
            intervals(times=times, chitted=found, corns=50)


def test_a_house_s_counts_move_the_middle_and_narrow_it() -> None:
    slow = intervals(times=[20.0, 30.0], chitted=[20, 55], corns=200)
    found = from_counts(counted=slow)
    assert found.corns.middle_h > 20.0
    assert found.middle_log_sd < 0.15
    few = from_counts(counted=intervals(times=[20.0, 30.0], chitted=[2, 5], corns=20))
    assert found.middle_log_sd < few.middle_log_sd < 0.3


@given(lots, st.floats(0.0, 400.0))
def test_classes_are_shares_of_all_corns(corns: Corns, growth: float) -> None:
    found = classes(growth_h=growth, corns=corns)
    assert sum(found) == pytest.approx(1.0)
    assert min(found) >= -1e-12
    assert found[0] >= 1.0 - corns.grows - 1e-9


@settings(max_examples=50)
@given(lots, st.floats(10.0, 300.0), st.floats(1.0, 60.0))
def test_acrospires_grow(corns: Corns, growth: float, more: float) -> None:
    now, then = classes(growth_h=growth, corns=corns), classes(growth_h=growth + more, corns=corns)
    for n in range(1, 5):
        assert sum(then[n:]) >= sum(now[n:]) - 1e-9
    assert mean_length(growth_h=growth + more, corns=corns) >= mean_length(growth_h=growth, corns=corns)


def test_five_days_at_15_c_are_ready() -> None:
    # Common practice and Mueller and others 2014 (abstract read): five to seven days at 12 to 17 C.
    at = {day: classes(growth_h=growth_after_cast(day=1.0 + day, temp_c=15.0), corns=Corns()) for day in (3, 5, 7)}
    assert at[3][3] < 0.1 < 0.7 < at[5][3]
    assert at[7][4] > 0.6
    # The spread of a ready piece: the example counts 2/4/14/76/4 lie within two classes to 90 %.
    assert at[5][2] + at[5][3] + at[5][4] > 0.9


def test_arrays_do_what_floats_do() -> None:
    z = [-6.0, -2.0, -0.3, 0.0, 0.7, 3.0, 8.0]
    for one, many in zip(z, ARRAYS.normal_share(z), strict=True):
        assert many == pytest.approx(norm.cdf(one), abs=2e-7)
        assert FLOATS.normal_share(one) == pytest.approx(norm.cdf(one), abs=1e-14)
    table = (1.0, 3.0, 2.0)
    for x in (-1.0, 0.0, 0.5, 1.0, 1.7, 2.0, 5.0):
        assert float(ARRAYS.between(x, table)) == pytest.approx(FLOATS.between(x, table))
    assert Acrospires().pace_spread == 0.08


@given(lots, st.floats(20.0, 400.0), st.floats(0.05, 0.95))
def test_length_at_share_is_the_way_back(corns: Corns, growth: float, share: float) -> None:
    length = length_at_share(share=share, growth_h=growth, corns=corns)
    step = 2e-3
    (over,) = shares_below(FLOATS, growth, corns, Acrospires(), (length + step,))
    assert over >= share - 1e-9
    if length > step:
        (under,) = shares_below(FLOATS, growth, corns, Acrospires(), (length - step,))
        assert under <= share + 1e-9


def test_the_clock_for_a_share_is_that_at_which_so_many_have_chitted() -> None:
    clock = clock_for(share=0.6, corns=Corns())
    assert clock is not None and chitted(clock_h=clock, corns=Corns()) == pytest.approx(0.6, abs=1e-6)
    assert clock_for(share=0.98, corns=Corns()) is None
