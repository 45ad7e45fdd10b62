"""The correction of a quick way against statsmodels' interval and another way to draw a line with errors in both."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest
from scipy.optimize import minimize
from scipy.stats import t
from statsmodels.stats.weightstats import DescrStatsW

from calculators.models.weights.quick import bias, line

SETS = [
    [(44.0, 45.2), (42.0, 43.0), (45.0, 46.4)],
    [(40.0, 41.2), (42.0, 43.1), (43.0, 44.4), (44.0, 45.1), (45.0, 46.2), (46.0, 47.1), (41.0, 42.3), (39.0, 40.0)],
]


@pytest.mark.parametrize("pairs", SETS, ids=["three", "eight"])
def test_the_interval_of_the_bias_is_that_of_statsmodels(pairs):
    apart = np.array([oven - quick for quick, oven in pairs])
    low, high = DescrStatsW(apart).tconfint_mean(alpha=0.05)
    found = bias(pairs=pairs)
    assert (found.mean - found.half, found.mean + found.half) == pytest.approx((low, high), rel=1e-6)
    count = len(pairs)
    single = t.ppf(0.975, count - 1) * apart.std(ddof=1) * np.sqrt(1 + 1 / count)  # scipy's quantile
    assert found.single == pytest.approx(single, rel=1e-6)


@pytest.mark.parametrize("ratio", [0.2, 1.0, 3.0])
def test_the_line_is_the_one_with_the_least_squares_in_both(ratio):
    # scipy.optimize moves intercept, slope and each true value until the squares, each by its own error, are least.
    random = Random(f"line {ratio}")
    true = [random.uniform(37, 47) for _ in range(10)]
    pairs = [(x + random.gauss(0, 0.5), 1.1 * x - 3 + random.gauss(0, 0.5 * ratio**0.5)) for x in true]
    quick, oven = (np.array(side) for side in zip(*pairs, strict=True))

    def squares(unknown):
        a, b, at = unknown[0], unknown[1], unknown[2:]
        return float(((quick - 40 - at) ** 2).sum() + ((oven - 40 - a - b * at) ** 2).sum() / ratio)

    best = minimize(squares, np.concatenate(([1.0, 1.0], quick - 40)), method="BFGS", options={"gtol": 1e-9})
    fitted = line(pairs=pairs, ratio=ratio)
    assert fitted is not None
    assert fitted.slope == pytest.approx(best.x[1], rel=1e-5)
    assert fitted.at_oven + fitted.slope * (40 - fitted.at_quick) == pytest.approx(40 + best.x[0], abs=1e-4)


def test_the_slope_s_range_is_the_jackknife_with_scipy_s_quantile():
    # Each pair left out in turn; the slope's closed form and the sums are worked out again with numpy.
    pairs = SETS[1]
    fitted = line(pairs=pairs, ratio=1.0)
    assert fitted is not None

    def slope_of(some):
        x, y = (np.array(side) - np.mean(side) for side in zip(*some, strict=True))
        a, b, c = (y * y).sum() - (x * x).sum(), (x * y).sum(), 4 * (x * y).sum() ** 2
        return (a + np.sqrt(a * a + c)) / (2 * b)

    pseudo = np.array([8 * slope_of(pairs) - 7 * slope_of([*pairs[:n], *pairs[n + 1 :]]) for n in range(8)])
    reach = t.ppf(0.975, 6) * pseudo.std(ddof=1) / np.sqrt(8)
    assert (fitted.low, fitted.high) == pytest.approx((fitted.slope - reach, fitted.slope + reach), rel=1e-6)
