"""The normal and the beta distribution, as far as counts of corns need them."""

import math
from functools import lru_cache

from ..bounds import Bounds, check

SHARE = Bounds(0.0, 1.0)
SURE_SD = 1.959964
"""Standard deviations of the normal distribution either side that hold 95 % of it."""


def normal_share(deviate: float) -> float:
    """Give the share of the standard normal distribution below a point.

    Parameters
    ----------
    deviate : float
        The point, in standard deviations.

    Returns
    -------
    float
        Share, a fraction.

    Examples
    --------
    >>> round(normal_share(SURE_SD), 6)
    0.975
    """
    return 0.5 * math.erfc(-deviate / math.sqrt(2.0))


@lru_cache(maxsize=32)
def normal_quantile(probability: float) -> float:
    """Give the point of the standard normal distribution below which a share of it lies.

    Parameters
    ----------
    probability : float
        Share below the point, from 1e-9 to 1 - 1e-9.

    Returns
    -------
    float
        The point, in standard deviations.

    Raises
    ------
    OutOfRange
        When the probability is nearer to 0 or 1 than 1e-9.

    Notes
    -----
    Newton's steps on the error function; from zero they never overshoot.

    Examples
    --------
    >>> round(normal_quantile(0.975), 6)
    1.959964
    """
    check("probability", probability, Bounds(1e-9, 1.0 - 1e-9))
    upper = max(probability, 1.0 - probability)
    tail = min(probability, 1.0 - probability)
    z = 0.0
    for _ in range(100):
        excess = 0.5 * math.erfc(z / math.sqrt(2.0)) - tail
        step = excess * math.sqrt(2.0 * math.pi) * math.exp(0.5 * z * z)
        z += step
        if abs(step) < 1e-14:
            break
    return z if probability == upper else -z


def _continued_fraction(a: float, b: float, x: float) -> float:
    """The continued fraction of the incomplete beta function, by Lentz' method."""
    tiny = 1e-300
    value, c, d = 1.0, 1.0, 0.0
    for n in range(1, 20_000):
        m = n // 2
        if n % 2:
            term = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        else:
            term = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        d = 1.0 + term * d
        c = 1.0 + term / c
        d = 1.0 / (d if abs(d) > tiny else tiny)
        c = c if abs(c) > tiny else tiny
        value *= c * d
        if abs(c * d - 1.0) < 1e-15:
            return value
    raise ArithmeticError("the incomplete beta function did not converge")


def beta_share(x: float, a: float, b: float) -> float:
    """Give the regularised incomplete beta function.

    Parameters
    ----------
    x : float
        Upper end of the integral, from 0 to 1.
    a, b : float
        The two shapes, greater than 0.

    Returns
    -------
    float
        Share of the beta distribution below x.

    Raises
    ------
    OutOfRange
        When x is not from 0 to 1 or a shape is not positive.

    Notes
    -----
    For whole numbers it is a tail of the binomial distribution:
    P(X >= k of n at share p) = beta_share(p, k, n - k + 1).

    References
    ----------
    NIST Digital Library of Mathematical Functions, 8.17.22 (continued fraction, from memory).

    Examples
    --------
    >>> round(beta_share(0.5, 2, 3), 4)
    0.6875
    """
    check("x", x, SHARE)
    check("a", a, Bounds(5e-324, 1e9))
    check("b", b, Bounds(5e-324, 1e9))
    if x in (0.0, 1.0):
        return x
    log_front = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    if x < (a + 1.0) / (a + b + 2.0):
        return math.exp(log_front) / (a * _continued_fraction(a, b, x))
    return 1.0 - math.exp(log_front) / (b * _continued_fraction(b, a, 1.0 - x))
