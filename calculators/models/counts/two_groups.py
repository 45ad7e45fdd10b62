"""The difference of two groups of few figures, with its doubt."""

from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

from ..bounds import Bounds, check
from .corn_weight import student_quantile

COUNT = Bounds(2, 10_000)
CHANCE = Bounds(2e-4, 0.5)


class Difference(NamedTuple):
    """The mean of one group less that of another, half of its interval, and the degrees of freedom."""

    difference: float
    half: float
    degrees: float

    @property
    def told_apart(self) -> bool:
        """Whether the interval leaves out 0."""
        return abs(self.difference) > self.half


def difference(
    *, one: Sequence[float], other: Sequence[float], chance: float = 0.05, least_sd: float = 0.0
) -> Difference:
    """Give the difference of two means with Welch's interval.

    Parameters
    ----------
    one, other : sequence of float
        Figures of each group, 2 to 10,000.
    chance : float, optional
        That the interval misses [-], 0.0002 to 0.5.
    least_sd : float, optional
        Standard deviation below which the agreement of a group is luck, in the figures' unit.

    Returns
    -------
    Difference
        In the figures' unit.

    Raises
    ------
    OutOfRange
        When a group has fewer than 2 figures, or the chance is outside.

    Notes
    -----
    The groups may scatter unlike each other. The degrees of freedom are Satterthwaite's.

    References
    ----------
    Welch 1947, Biometrika 34:28 (not read). statsmodels' ``CompareMeans``, variances unequal, gives the same (tests).

    Examples
    --------
    >>> found = difference(one=[84.0, 86.0, 85.0, 87.0], other=[82.0, 84.0, 83.0, 81.0])
    >>> round(found.difference, 2), round(found.half, 2), found.told_apart
    (3.0, 2.23, True)
    """
    check("one", len(one), COUNT)
    check("other", len(other), COUNT)
    check("chance", chance, CHANCE)
    means = [sum(group) / len(group) for group in (one, other)]
    parts = [
        max(sum((value - mean) ** 2 for value in group) / (len(group) - 1), least_sd**2, 1e-18) / len(group)
        for group, mean in zip((one, other), means, strict=True)
    ]
    degrees = sum(parts) ** 2 / (parts[0] ** 2 / (len(one) - 1) + parts[1] ** 2 / (len(other) - 1))
    half = student_quantile(1.0 - 0.5 * chance, degrees) * sqrt(sum(parts))
    return Difference(means[0] - means[1], half, degrees)
