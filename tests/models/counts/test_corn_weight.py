"""Thousand-corn weight: exact sums, Student's interval, limits from both sides."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.bounds import OutOfRange
from calculators.models.counts.corn_weight import CORN_CV, corn_weight, student_quantile

portions = st.lists(st.tuples(st.integers(50, 5000), st.floats(0.5, 500.0)), min_size=1, max_size=8)


@given(portions)
def test_the_mean_is_all_grams_over_all_corns_and_lies_inside(rows):
    found = corn_weight(portions=rows)
    low, high = found.interval
    assert found.mean_g == pytest.approx(1000.0 * sum(g for _, g in rows) / sum(c for c, _ in rows))
    assert low <= found.mean_g <= high and found.half_g >= found.by_chance_g > 0.0


def test_equal_portions_still_leave_chance():
    # 1.96 * 20 % / sqrt(1500) of 45 g: what single corns leave, exact arithmetic
    found = corn_weight(portions=[(500, 22.5)] * 3)
    assert found.sd_g == pytest.approx(0.0) and found.half_g == pytest.approx(1.959964 * CORN_CV * 45 / 1500**0.5)
    one = corn_weight(portions=[(1500, 67.5)])
    assert one.sd_g is None and one.half_g == pytest.approx(found.half_g)


@pytest.mark.parametrize(
    ("rows", "parameter"),
    [
        ([(49, 2.0)], "corns"),
        ([(5001, 220.0)], "corns"),
        ([(500, 0.49)], "weight_g"),
        ([(500, 500.1)], "weight_g"),
        ([], "portions"),
        ([(500, 22.0)] * 21, "portions"),
    ],
)
def test_each_limit_is_named(rows, parameter):
    with pytest.raises(OutOfRange) as caught:
        corn_weight(portions=rows)
    assert caught.value.parameter == parameter


def test_the_edges_are_accepted():
    corn_weight(portions=[(50, 0.5), (5000, 500.0)])
    corn_weight(portions=[(500, 22.0)] * 20)
    with pytest.raises(OutOfRange):
        student_quantile(0.4, 3)
    with pytest.raises(OutOfRange):
        student_quantile(0.975, 0.5)
