"""Thousand-corn weight against scipy, statsmodels and printed figures."""

from __future__ import annotations

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from calculators.models.counts.corn_weight import corn_weight, student_quantile
from tests.sheets.ask import values


@given(st.floats(0.5, 0.9995), st.integers(1, 60))
def test_students_points_are_scipys(probability, degrees):
    wanted = stats.t.ppf(probability, degrees)
    assert student_quantile(probability, degrees) == pytest.approx(wanted, rel=1e-5, abs=1e-6)


def test_students_points_as_printed():
    # Printed in every table of Student's distribution, two-sided 95 % (from memory, and scipy agrees)
    assert [round(student_quantile(0.975, n), 3) for n in (1, 2, 4, 9, 30)] == [12.706, 4.303, 2.776, 2.262, 2.042]


@pytest.mark.parametrize(
    "rows",
    [[(500, 22.4), (480, 22.0), (1000, 45.1)], [(500, 20.0), (500, 24.0), (500, 22.0), (250, 11.9)]],
)
def test_the_interval_is_that_of_weighted_least_squares(rows):
    corns, grams = np.array(rows, float).T
    fit = sm.WLS(grams, corns, weights=1.0 / corns).fit()
    found = corn_weight(portions=rows)
    assert found.mean_g == pytest.approx(1000.0 * fit.params[0])
    assert found.interval == pytest.approx(tuple(1000.0 * fit.conf_int()[0]))


def test_a_hundred_corns_of_a_typical_barley():
    # Wiley, Foods and their adulteration (in a copy): 100 kernels 4.53 g at 10.85 % moisture
    found = values("corn-weight", portions="100 4.53", corn_moisture="10.85")
    assert found["corn_weight_g"] == pytest.approx(45.3)
    assert found["dry_weight_g"] == pytest.approx(45.3 * 0.8915)


def test_chance_holds_nineteen_of_twenty():
    # 3 portions of 500 drawn from corns of 45 g with a spread of 20 %: the range holds the truth about as often as said
    rng = np.random.default_rng(7)
    held = 0
    for _ in range(400):
        rows = [(500.0, float(rng.normal(45.0, 9.0, 500).sum() / 1000.0)) for _ in range(3)]
        low, high = corn_weight(portions=rows).interval
        held += low <= 45.0 <= high
    assert held >= 376  # 94 %: the floor of chance makes it hold more often than Student's alone
