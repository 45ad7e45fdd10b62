"""Drawing members: evenly at first, anew by their weights, and moved where readings have told of them and elsewhere."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from ..counts.distributions import normal_quantile
from .doubts import UNKNOWNS

KEPT = 0.5
"""How much of a member is kept when it is moved [-]; the rest is drawn.

With 0.5 half of the moves are taken; from 0.5 to 0.8 spreads come out alike (measured against weighed draws).
"""

TOLD = 0.2
"""Variance of a direction, of 1 before any reading, up to which readings have told of it [-].

By chance alone the least of 27 directions has about 0.5 of 300 members that know nothing, 0.35 of 150 that count.
"""

WIDER = 1.2
"""Variance of the draws in those directions against that of the members [-]: tails have to be met too."""

Array = NDArray[np.float64]

CREDIBLE = 0.95
"""Share of the members that a band holds [-]."""

TAILS = np.array([(1.0 - CREDIBLE) / 2.0, 0.5, (1.0 + CREDIBLE) / 2.0])


@lru_cache(maxsize=8)
def _quantiles(members: int) -> Array:
    return np.array([normal_quantile((n + 0.5) / members) for n in range(members)])


@lru_cache(maxsize=8)
def spread_evenly(members: int, seed: int) -> Array:
    """Give members spread evenly over each unknown: a Latin hypercube of normal distributions."""
    random = np.random.default_rng(seed)
    one = _quantiles(members)
    drawn = np.stack([random.permutation(one) for _ in UNKNOWNS])
    even: Array = drawn / drawn.std(axis=1, keepdims=True)
    return even


def effective(weights: Array) -> float:
    """Give how many members count: the square of the sum of weights over the sum of their squares (Kish)."""
    return float(weights.sum() ** 2 / np.square(weights).sum())


def weights_of(likely: Array, share: float) -> Array:
    """Give weights that sum to 1 from logarithms of likelihood, of which a share is let in."""
    raised = share * likely
    weights: Array = np.exp(raised - raised.max())
    summed: Array = weights / weights.sum()
    return summed


def next_bit(likely: Array, left: float) -> float:
    """Give the largest bit of what is left of the likelihood after which half of the members still count."""
    half = 0.5 * likely.size
    if effective(weights_of(likely, left)) >= half:
        return left
    low, high = 0.0, left
    for _ in range(30):
        middle = 0.5 * (low + high)
        if effective(weights_of(likely, middle)) >= half:
            low = middle
        else:
            high = middle
    return max(low, 1e-6)


def drawn_anew(weights: Array, random: np.random.Generator) -> NDArray[np.intp]:
    """Give which members are drawn anew by their weights, with one random number for all."""
    places = (np.arange(weights.size) + random.random()) / weights.size
    return np.searchsorted(np.cumsum(weights), places).clip(0, weights.size - 1)


class Kernel:
    """Moves members: where readings have told of them, about the members' mean; in all else as nothing is known.

    Both keep what they draw from in place: a normal distribution about the members in the few directions that the
    readings tell of, and what was thought before in the others (preconditioned Crank-Nicolson).  With the members'
    covariance in all directions, hardly a move would be right: it is too little known from some hundreds of them.
    """

    def __init__(self, z: Array, weights: Array) -> None:
        mean = z @ weights
        off = z - mean[:, np.newaxis]
        # Unbiased for weights: few members that count would otherwise look too alike.
        covariance = (off * weights) @ off.T / (1.0 - np.square(weights).sum())
        variances, vectors = np.linalg.eigh(covariance)
        told = int((variances < TOLD).sum())
        self._vectors = vectors[:, :told]
        self._middle = (self._vectors.T @ mean)[:, np.newaxis]
        self._roots = np.sqrt(np.maximum(WIDER * variances[:told], 1e-4))[:, np.newaxis]

    @property
    def told(self) -> int:
        """How many directions readings have told of."""
        return int(self._vectors.shape[1])

    def moved(self, z: Array, random: np.random.Generator) -> Array:
        """Give each member moved."""
        drawn = random.standard_normal(z.shape)
        new = (1.0 - KEPT**2) ** 0.5
        free = KEPT * z + new * drawn
        along, fresh = self._vectors.T @ z, self._vectors.T @ drawn
        held = self._middle + KEPT * (along - self._middle) + new * self._roots * fresh
        moved: Array = free + self._vectors @ (held - self._vectors.T @ free)
        return moved

    def prior_over_kernel(self, z: Array) -> Array:
        """Give the logarithm of what was thought before over what the kernel draws from, up to a constant."""
        along = self._vectors.T @ z
        logs: Array = 0.5 * np.square((along - self._middle) / self._roots).sum(axis=0)
        logs -= 0.5 * np.square(along).sum(axis=0)
        return logs


def spread_of(rows: Array) -> Array:
    """Give low, middle and high of rows of members, shape (3, rows): an interval for one more batch drawn like them."""
    ordered, last = np.sort(rows, axis=1), rows.shape[1] - 1
    places = np.clip((rows.shape[1] + 1.0) * TAILS - 1.0, 0.0, last)  # (n + 1) places, after Weibull
    first = np.minimum(places.astype(np.intp), last - 1)
    low = ordered[:, first]
    found: Array = (low + (ordered[:, first + 1] - low) * (places - first)).T
    return found
