"""The odd pair, the corrected reading and the line against statsmodels, scipy and numpy."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import stats

from calculators.models.weights.quick import corrected, line, odd_pair

Pairs = list[tuple[float, float]]


def drawn(seed: int, count: int, apart: float = 0.0, slope: float = 1.0) -> Pairs:
    random = Random(seed)
    found = []
    for place in range(count):
        true = random.uniform(37.0, 47.0)
        oven = 43.0 + slope * (true - 43.0) + random.gauss(1.0, 0.3) + (apart if place == count // 2 else 0.0)
        found.append((true + random.gauss(0.0, 0.2), oven))
    return found


@pytest.mark.parametrize("count", [5, 6, 9])
def test_a_pair_is_odd_by_its_studentized_residual_and_bonferroni(count: int) -> None:
    """statsmodels: each difference left out in turn, held against Student's t of n - 2 at 0.05/2n."""
    found = set()
    for seed in range(40):
        pairs = drawn(seed, count, apart=0.25 * (seed % 12))
        apart = np.array([oven - quick for quick, oven in pairs])
        left_out = np.abs(sm.OLS(apart, np.ones(count)).fit().get_influence().resid_studentized_external)
        reach = stats.t.ppf(1.0 - 0.025 / count, count - 2)
        wanted = int(left_out.argmax()) if left_out.max() > reach else None
        assert odd_pair(pairs=pairs) == wanted, (seed, left_out, reach)
        found.add(wanted)
    assert {None, count // 2} <= found


@pytest.mark.parametrize("ratio", [1.0, 0.16, 4.0])
def test_a_reading_set_right_by_a_line_has_the_range_of_a_regression(ratio: float) -> None:
    """At a new reading: the scatter times the root of 1 + 1/n + distance squared over the sum of squares (numpy)."""
    pairs = drawn(3, 12, slope=1.3)
    fitted = line(pairs=pairs, ratio=ratio)
    assert fitted is not None and fitted.bends
    quick = np.array([q for q, _ in pairs])
    for new in (30.0, 43.5, 60.0):
        found = corrected(pairs=pairs, quick=new, ratio=ratio)
        ahead = np.array([1.0, new - quick.mean()])
        design = np.column_stack([np.ones(12), quick - quick.mean()])
        wider = 1.0 + ahead @ np.linalg.inv(design.T @ design) @ ahead
        assert found.half == pytest.approx(stats.t.ppf(0.975, 10) * fitted.scatter * np.sqrt(wider), rel=1e-6)
        assert found.moisture == pytest.approx(fitted.at_oven + fitted.slope * (new - quick.mean()))


def test_a_slope_s_range_is_that_of_the_jackknife() -> None:
    """Left out one by one (numpy): the root of (n - 1)/n times the squares about their mean, by Student's n - 2."""
    pairs = drawn(3, 12, slope=1.3)
    fitted = line(pairs=pairs)
    others = [line(pairs=[*pairs[:n], *pairs[n + 1 :]]) for n in range(12)]
    slopes = np.array([one.slope for one in others if one is not None])
    assert fitted is not None and slopes.size == 12
    error = np.sqrt(11.0 / 12.0 * ((slopes - slopes.mean()) ** 2).sum())
    assert (fitted.high - fitted.low) / 2.0 == pytest.approx(stats.t.ppf(0.975, 10) * error, rel=1e-5)


def test_pairs_that_fall_where_they_should_rise_or_lie_all_at_one_reading_give_no_line() -> None:
    falling = [(40.0 + n, 50.0 - 0.5 * n) for n in range(8)]
    assert line(pairs=falling) is None
    # A scatter of readings under two hundredths of a point is luck; just over it there is a line.
    for spread, none in ((0.019, True), (0.03, False)):
        pairs = [(44.0 + spread * (1 if n % 2 else -1), 45.0 + spread * (1 if n % 2 else -1)) for n in range(8)]
        assert (line(pairs=pairs) is None) == none
    flat = [(44.0 + 0.001 * n, 45.0 - 0.5 * n) for n in range(8)]
    assert line(pairs=flat) is None
    # One pair decides whether there is a slope at all: without it the others fall.
    assert line(pairs=[*falling[:7], (60.0, 62.0)]) is None
