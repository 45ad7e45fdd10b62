"""The doubt of a mean acrospire, against the moments of lengths spread evenly within their classes."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from calculators.models.counts.acrospire import growth_rate, mean_length, spread

counts = st.tuples(*[st.integers(0, 60)] * 5).filter(lambda c: sum(c) > 0)
LENGTHS = [stats.uniform(loc=low, scale=0.25) for low in (0.0, 0.25, 0.5, 0.75, 1.0)]


def moments(classes: tuple[int, ...]) -> tuple[float, float]:
    """Mean and variance of the lengths themselves: a mixture of five even spreads (scipy.stats.uniform)."""
    corns = sum(classes)
    first, second = (
        sum(n * float(one.moment(order)) for n, one in zip(classes, LENGTHS, strict=True)) / corns for order in (1, 2)
    )
    return first, second - first * first


@given(counts, counts, st.floats(1.0, 96.0))
def test_the_doubt_of_growth_is_that_of_two_counted_means(today, before, hours):
    rate = growth_rate(today=today, before=before, hours=hours)
    (now, wide_now), (then, wide_then) = moments(today), moments(before)
    per_day = 24.0 / hours
    reach = float(stats.norm.ppf(0.975)) * math.sqrt(wide_now / sum(today) + wide_then / sum(before))
    assert rate.value == pytest.approx((now - then) * per_day, abs=1e-9)
    assert (rate.high - rate.low) / 2.0 == pytest.approx(reach * per_day, rel=1e-6)
    assert (rate.high + rate.low) / 2.0 == pytest.approx(rate.value, abs=1e-9)


@given(counts)
def test_class_middles_miss_a_twelfth_of_the_class_squared(classes):
    mean, variance = moments(classes)
    assert mean_length(counts=classes) == pytest.approx(mean, abs=1e-12)
    assert spread(counts=classes) ** 2 == pytest.approx(variance - 0.25**2 / 12.0, abs=1e-9)


def test_corns_all_of_one_class_are_still_not_known_to_a_hair():
    # By hand: 0.25/sqrt(12) a corn, 100 corns twice, 1.96 of it: 0.02 corn lengths.
    rate = growth_rate(today=(0, 0, 0, 100, 0), before=(0, 0, 100, 0, 0), hours=24)
    assert (rate.low, rate.high) == pytest.approx((0.23, 0.27), abs=5e-4)
