"""How members are drawn anew and what interval they give, against numpy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm

from calculators.models.living.draws import (
    KEPT,
    TAILS,
    TOLD,
    WIDER,
    Kernel,
    drawn_anew,
    effective,
    next_bit,
    spread_evenly,
    spread_of,
    weights_of,
)


@pytest.mark.parametrize("members", [2, 3, 20, 41, 400])
def test_an_interval_for_one_more_member_is_numpy_s_by_weibull(members: int) -> None:
    rows = np.random.default_rng(members).standard_normal((3, members))
    assert spread_of(rows) == pytest.approx(np.quantile(rows, TAILS, axis=1, method="weibull"))


def test_members_lie_at_the_middles_of_equal_parts_before_they_are_brought_to_one() -> None:
    even = np.sort(spread_evenly(50, 1)[0])
    middles = norm.ppf((np.arange(50) + 0.5) / 50)
    assert even == pytest.approx(middles / middles.std())


def kernel(members: int = 40) -> tuple[Kernel, np.ndarray, np.ndarray]:
    random = np.random.default_rng(7)
    z = random.standard_normal((4, members))
    z[0] *= 0.2  # readings have told of this one
    z[1] = 0.5 * z[0] + 0.1 * z[1]
    weights = random.random(members)
    return Kernel(z, weights / weights.sum()), z, weights / weights.sum()


def test_directions_that_readings_have_told_of_are_those_of_little_variance() -> None:
    found, z, weights = kernel()
    covariance = np.cov(z, aweights=weights)
    variances, vectors = np.linalg.eigh(covariance)
    assert found.told == (variances < TOLD).sum() == 2
    assert np.abs(found._vectors.T @ vectors[:, :2]) == pytest.approx(np.eye(2), abs=1e-9)
    assert found._middle.ravel() == pytest.approx(found._vectors.T @ np.average(z, axis=1, weights=weights))
    assert found._roots.ravel() == pytest.approx(np.sqrt(WIDER * variances[:2]))


def test_a_kernel_s_odds_are_those_of_two_normal_distributions() -> None:
    """Up to a constant: the standard normal's density over that about the members, in the directions told of."""
    found, z, _ = kernel()
    along = found._vectors.T @ z
    logs = norm.logpdf(along).sum(axis=0) - norm.logpdf(along, found._middle, found._roots).sum(axis=0)
    ours = found.prior_over_kernel(z)
    assert ours - ours[0] == pytest.approx(logs - logs[0])


def test_a_move_keeps_what_it_draws_from() -> None:
    """Elsewhere members stay as scattered as nothing known leaves them; where told, about the members' middle."""
    found, _, _ = kernel()
    random = np.random.default_rng(3)
    many = random.standard_normal((4, 20_000))
    many = many - found._vectors @ (found._vectors.T @ many)
    many += found._vectors @ (found._middle + found._roots * random.standard_normal((2, 20_000)))
    moved = found.moved(many, random)
    along = found._vectors.T @ moved
    assert along.mean(axis=1) == pytest.approx(found._middle.ravel(), abs=0.02)
    assert along.std(axis=1) == pytest.approx(found._roots.ravel(), rel=0.03)
    across = moved - found._vectors @ along
    assert across.var(axis=1).sum() == pytest.approx(2.0, rel=0.03)  # the two directions that nothing tells of
    told = found._vectors.T @ many - found._middle
    assert np.corrcoef(told[0], (along - found._middle)[0])[0, 1] == pytest.approx(KEPT, abs=0.03)


def test_members_are_drawn_by_their_weights_in_even_steps() -> None:
    weights = np.array([0.1, 0.0, 0.55, 0.35])
    for seed in range(8):
        chosen = drawn_anew(weights, np.random.default_rng(seed))
        many = np.bincount(chosen, minlength=4)
        assert np.all(np.abs(many - 4 * weights) < 1.0) and many[1] == 0


def test_as_much_of_a_reading_is_let_in_as_leaves_half_of_the_members() -> None:
    likely = -0.5 * (np.linspace(-3.0, 3.0, 101) * 8.0) ** 2
    bit = next_bit(likely, 1.0)
    assert 0.0 < bit < 1.0 and effective(weights_of(likely, bit)) == pytest.approx(50.5, rel=1e-3)
    assert next_bit(likely, 0.5 * bit) == 0.5 * bit and next_bit(0.0 * likely, 1.0) == 1.0
    assert weights_of(likely, 0.3).sum() == pytest.approx(1.0)
    assert effective(np.full(7, 0.3)) == pytest.approx(7.0)
    assert next_bit(np.array([0.0, -1e9, -1e9, -1e9]), 1.0) >= 1e-6  # it never stands still
