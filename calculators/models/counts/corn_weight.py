"""The weight of a thousand corns from counted and weighed portions, with its doubt."""

from collections.abc import Sequence
from functools import lru_cache
from math import cos, exp, inf, isfinite, lgamma, pi, sqrt, tan
from typing import NamedTuple

from ..bounds import Bounds, OutOfRange, check
from .distributions import normal_quantile
from .intervals import CONFIDENCE

PORTIONS = Bounds(1, 20)
CORNS = Bounds(50, 5000)
WEIGHT_G = Bounds(0.5, 500.0)
CORN_CV = 0.20
"""Standard deviation of single corns' weights, as a share of their mean [-]: 0.15 to 0.25, our judgement."""


class Weighed(NamedTuple):
    """One portion: how many corns, and what they weigh [g]."""

    corns: float
    weight_g: float


class CornWeight(NamedTuple):
    """A thousand-corn weight."""

    mean_g: float
    """All corns and all weights together [g]."""
    sd_g: float | None
    """Standard deviation of one portion's thousand-corn weight [g]; None from one portion."""
    half_g: float
    """Half of the interval [g]."""
    by_chance_g: float
    """What the spread of single corns alone leaves, half of the interval [g]."""

    @property
    def interval(self) -> tuple[float, float]:
        """Ends of the interval [g]."""
        return max(0.0, self.mean_g - self.half_g), self.mean_g + self.half_g


def corn_weight(*, portions: Sequence[tuple[float, float]]) -> CornWeight:
    """Give the weight of a thousand corns with its interval of 95 %.

    Parameters
    ----------
    portions : sequence of (corns, weight_g)
        Portions of one lot, each counted and weighed, shape (portions, 2); corns 50 to 5000,
        weight 0.5 to 500 g; 1 to 20 of them.

    Returns
    -------
    CornWeight
        In grams.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    The mean is the sum of the weights over the sum of the corns, so that a larger portion
    counts more.  From two portions on, the interval is Student's, from how the portions
    differ; each deviation is weighted by its corns, as the variance of a mean falls with
    their number.  It is never narrower than what the spread of single corns leaves by chance
    (:data:`CORN_CV`): two portions may agree by luck.  From one portion it is that alone.

    References
    ----------
    Weighted least squares through the origin with weights 1/corns; statsmodels' ``WLS`` gives
    the same (tests).

    Examples
    --------
    >>> found = corn_weight(portions=[(500, 22.4), (500, 22.9)])
    >>> round(found.mean_g, 2), round(found.half_g, 2)
    (45.3, 6.35)
    """
    check("portions", len(portions), PORTIONS)
    for row, (corns, weight) in enumerate(portions):
        check("corns", corns, CORNS, "", "portions", row)
        check("weight_g", weight, WEIGHT_G, "", "portions", row)
    count = sum(corns for corns, _ in portions)
    each = sum(weight for _, weight in portions) / count
    chance = student_quantile(0.5 * (1.0 + CONFIDENCE), inf) * CORN_CV * each / sqrt(count)
    if len(portions) == 1:
        return CornWeight(1000.0 * each, None, 1000.0 * chance, 1000.0 * chance)
    free = len(portions) - 1
    spread = sum((weight - each * corns) ** 2 / corns for corns, weight in portions) / free
    error = sqrt(spread / count)
    half = student_quantile(0.5 * (1.0 + CONFIDENCE), free) * error
    usual = count / len(portions)
    return CornWeight(1000.0 * each, 1000.0 * sqrt(spread / usual), 1000.0 * max(half, chance), 1000.0 * chance)


@lru_cache(maxsize=256)
def student_quantile(probability: float, degrees: float) -> float:
    """Give the point of Student's distribution below which a share of it lies.

    Parameters
    ----------
    probability : float
        Share below the point, 0.5 to 0.9999.
    degrees : float
        Degrees of freedom, 1 or more; infinite for the normal distribution.

    Returns
    -------
    float
        The point.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    Bisection on the integral of the density by Simpson's rule, in the variable
    ``x = sqrt(degrees) tan(angle)``, in which it ends at a finite point.

    Examples
    --------
    >>> [round(student_quantile(0.975, n), 3) for n in (1, 2, 5, 30)]
    [12.706, 4.303, 2.571, 2.042]
    """
    check("probability", probability, Bounds(0.5, 0.9999))
    if not degrees >= 1.0:
        raise OutOfRange("degrees", 1.0, inf)
    if not isfinite(degrees):
        return normal_quantile(probability)
    wanted = probability - 0.5
    low, high = 0.0, 0.5 * pi
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _share_to(middle, degrees) < wanted else (low, middle)
    return sqrt(degrees) * tan(low)


def _share_to(angle: float, degrees: float) -> float:
    scale = exp(lgamma(0.5 * (degrees + 1.0)) - lgamma(0.5 * degrees)) / sqrt(pi)
    steps = 400
    width = angle / steps
    total = 0.0
    for n in range(steps + 1):
        part = 1.0 if n in (0, steps) else 4.0 if n % 2 else 2.0
        total += part * max(cos(n * width), 0.0) ** (degrees - 1.0)
    return scale * total * width / 3.0
