"""Counts against scipy and statsmodels where shares are small or whole, and by trying every number."""

from __future__ import annotations

from math import ceil

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from calculators.models.counts.acrospire import curve
from calculators.models.counts.corn_weight import student_quantile
from calculators.models.counts.distributions import beta_share
from calculators.models.counts.enough import corns_for_margin, corns_to_decide, decides
from calculators.models.counts.intervals import wilson
from calculators.models.counts.posterior import likely_outcomes
from calculators.models.counts.two_groups import difference


@pytest.mark.parametrize("sown", [1, 2, 7, 100, 1000])
@pytest.mark.parametrize("confidence", [0.5, 0.95, 0.999])
def test_wilson_s_interval_is_that_of_statsmodels_at_every_count(sown: int, confidence: float) -> None:
    for grown in sorted({0, 1, sown // 2, sown - 1, sown}):
        wanted = proportion_confint(grown, sown, alpha=1.0 - confidence, method="wilson")
        found = wilson(grown, sown, confidence)
        assert found == pytest.approx(np.clip(wanted, 0.0, 1.0), abs=1e-9)
    assert wilson(0, sown, confidence).low == 0.0 and wilson(sown, sown, confidence).high == 1.0
    assert wilson(0.001, sown).low >= 0.0 and wilson(sown - 0.001, sown).high <= 1.0


@pytest.mark.parametrize("share", [0.0, 0.02, 0.31, 0.5, 0.9, 1.0])
@pytest.mark.parametrize("margin", [0.03, 0.1, 0.2])
def test_corns_for_a_margin_are_the_fewest_that_keep_it(share: float, margin: float) -> None:
    """By trying every number of corns with statsmodels' interval of Wilson."""
    many = np.arange(1.0, 1100.0)
    low, high = proportion_confint(share * many, many, method="wilson")
    wide = high - low
    fewest = int(np.argmax(wide <= 2.0 * margin)) + 1
    usual = ceil(round(stats.norm.ppf(0.975) ** 2 * share * (1.0 - share) / margin**2, 9))
    assert corns_for_margin(share=share, margin=margin) == max(fewest, usual)


def test_one_corn_is_enough_for_a_margin_as_wide_as_its_interval() -> None:
    half = float(np.ptp(proportion_confint(1, 1, alpha=0.5, method="wilson"))) / 2.0
    assert corns_for_margin(share=1.0, margin=half + 0.01, confidence=0.5) == 1
    assert corns_for_margin(share=1.0, margin=half - 0.01, confidence=0.5) == 2


@pytest.mark.parametrize("limit", [0.0, 0.05, 0.5, 0.95, 1.0])
def test_a_count_decides_where_clopper_and_pearson_s_interval_leaves_the_limit_out(limit: float) -> None:
    for corns in (1, 5, 20, 100):
        for grown in range(0, corns + 1, max(1, corns // 20)):
            low, high = proportion_confint(grown, corns, method="beta")
            share = grown / corns
            wanted = (share > limit and low >= limit - 1e-12) or (share < limit and high <= limit + 1e-12)
            assert decides(share=share, corns=corns, limit=limit) == wanted
    assert not decides(share=limit, corns=20_000, limit=limit)


@pytest.mark.parametrize(("share", "limit"), [(1.0, 0.98), (0.99, 0.98), (0.9, 0.8), (0.3, 0.5), (1.0, 0.0)])
def test_corns_to_decide_decide_and_one_fewer_does_not(share: float, limit: float) -> None:
    found = corns_to_decide(share=share, limit=limit)
    assert found is not None and decides(share=share, corns=found, limit=limit)
    assert found == 1 or not decides(share=share, corns=found - 1, limit=limit)
    assert corns_to_decide(share=0.951, limit=0.95) is None and corns_to_decide(share=0.5, limit=0.5) is None


@pytest.mark.parametrize(("above", "below"), [(75.5, 25.5), (0.5, 40.5), (30.0, 0.5), (1.0, 1.0)])
@pytest.mark.parametrize(("corns", "parts"), [(1, 1), (50, 3), (200, 9), (20, 100)])
def test_likely_outcomes_are_quantiles_of_the_beta_binomial(above: float, below: float, corns: int, parts: int) -> None:
    middles = (np.arange(parts) + 0.5) / parts
    assert likely_outcomes(above=above, below=below, corns=corns, parts=parts) == tuple(
        int(n) for n in stats.betabinom.ppf(middles, corns, above, below)
    )


def test_the_incomplete_beta_function_is_scipy_s() -> None:
    for a, b in ((0.5, 0.5), (0.5, 100.5), (3.0, 2.0), (30.0, 70.0), (400.0, 2.0), (1e4, 3e4)):
        turn = (a + 1.0) / (a + b + 2.0)
        for x in (1e-6, 0.1, turn - 1e-9, turn, turn + 1e-9, 0.5, 0.9, 1.0 - 1e-9):
            assert beta_share(x, a, b) == pytest.approx(stats.beta.cdf(x, a, b), rel=1e-9, abs=1e-13)
    assert (beta_share(0.0, 2.0, 3.0), beta_share(1.0, 2.0, 3.0)) == (0.0, 1.0)


@pytest.mark.parametrize("degrees", [1, 2, 3, 9, 40, 300])
def test_student_s_quantile_is_scipy_s_far_out_and_near_the_middle(degrees: int) -> None:
    for share in (0.51, 0.75, 0.9, 0.975, 0.9995):
        assert student_quantile(share, degrees) == pytest.approx(stats.t.ppf(share, degrees), rel=1e-6)


@pytest.mark.parametrize("weights", [(100, 0, 0, 0, 0), (0, 0, 0, 0, 100), (0, 50, 1, 49, 0), (1, 3, 9, 84, 3)])
def test_a_curve_of_lengths_rises_all_along_through_the_counted_shares(weights: tuple[float, ...]) -> None:
    """Straight between the classes' ends on normal probability paper (scipy), from nothing to the whole corn."""
    drawn = curve(weights=weights)
    assert list(drawn.shares) == sorted(drawn.shares) and drawn.shares[0] < drawn.shares[3]
    counted = np.cumsum(weights)[:4] / 100.0
    assert drawn.shares == pytest.approx(counted, abs=1e-3)
    ends = [0.25, 0.5, 0.75, 1.0]
    for length in np.linspace(0.25, 1.0, 31):
        deviate = np.interp(length, ends, stats.norm.ppf(drawn.shares))
        assert drawn.below(float(length)) == pytest.approx(stats.norm.cdf(deviate), abs=1e-9)
        assert drawn.length_at(drawn.below(float(length))) == pytest.approx(length, abs=1e-6)
    assert drawn.below(0.125) == pytest.approx(drawn.shares[0] / 2.0) and drawn.below(-0.1) == 0.0
    assert drawn.length_at(drawn.shares[0] / 2.0) == pytest.approx(0.125) and drawn.length_at(-0.1) == 0.0
    assert drawn.length_at(1.0) == pytest.approx(1.0) or drawn.shares[3] < 0.999


@pytest.mark.parametrize("scale", [0.01, 1.0, 40.0])
@pytest.mark.parametrize(("few", "many"), [(2, 3), (4, 9), (12, 5)])
def test_the_difference_of_two_groups_is_scipy_s_by_welch(scale: float, few: int, many: int) -> None:
    random = np.random.default_rng(few * many)
    one, other = scale * random.standard_normal(few), scale * (0.5 + 3.0 * random.standard_normal(many))
    wanted = stats.ttest_ind(one, other, equal_var=False)
    found = difference(one=list(one), other=list(other))
    assert (found.difference, found.degrees) == pytest.approx((one.mean() - other.mean(), wanted.df))
    low, high = wanted.confidence_interval()
    assert found.half == pytest.approx((high - low) / 2.0, rel=1e-5)
    alike = difference(one=[5.0, 5.0, 5.0], other=[6.0, 6.0], least_sd=0.3)  # their agreement is luck
    parts = np.array([0.09 / 3.0, 0.09 / 2.0])
    degrees = parts.sum() ** 2 / (parts**2 / [2.0, 1.0]).sum()
    assert alike.degrees == pytest.approx(degrees)
    assert alike.half == pytest.approx(stats.t.ppf(0.975, degrees) * np.sqrt(parts.sum()), rel=1e-5)
