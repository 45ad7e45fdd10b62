"""The difference of two groups, against statsmodels, and how often chance passes for a difference."""

from __future__ import annotations

from random import Random

import pytest
from statsmodels.stats.weightstats import CompareMeans, DescrStatsW

from calculators.models.bounds import OutOfRange
from calculators.models.counts.two_groups import difference

GROUPS = [
    ([84.0, 86.0, 85.0, 87.0], [82.0, 84.0, 83.0, 81.0]),
    ([84.0, 86.0], [82.0, 90.0, 83.0]),
    ([1.58, 1.62, 1.55, 1.6, 1.7], [1.5, 1.51, 1.52, 1.5]),
]


@pytest.mark.parametrize("groups", GROUPS, ids=["even", "few", "unlike"])
@pytest.mark.parametrize("chance", [0.05, 0.005])
def test_the_interval_is_that_of_statsmodels(groups, chance):
    one, other = groups
    low, high = CompareMeans(DescrStatsW(one), DescrStatsW(other)).tconfint_diff(alpha=chance, usevar="unequal")
    found = difference(one=one, other=other, chance=chance)
    assert (found.difference - found.half, found.difference + found.half) == pytest.approx((low, high), rel=1e-5)


def test_two_alike_by_luck_are_not_told_apart():
    assert difference(one=[84.0, 84.0], other=[84.1, 84.1], least_sd=0.25).told_apart is False


def test_limits():
    with pytest.raises(OutOfRange) as caught:
        difference(one=[84.0], other=[82.0, 83.0])
    assert caught.value.parameter == "one" and caught.value.low == 2
    for chance in (2e-4, 0.5):
        difference(one=[84.0, 85.0], other=[82.0, 83.0], chance=chance)
    for chance in (1.9e-4, 0.51):
        with pytest.raises(OutOfRange):
            difference(one=[84.0, 85.0], other=[82.0, 83.0], chance=chance)


def test_chance_passes_for_a_difference_as_often_as_it_says():
    random = Random("two groups")
    told = 0
    for _ in range(300):
        one, other = ([random.gauss(85, sd) for _ in range(count)] for count, sd in ((4, 2.0), (6, 1.0)))
        told += difference(one=one, other=other).told_apart
    assert told / 300 < 0.09
