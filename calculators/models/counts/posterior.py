"""What a count leaves to be expected: means over the shares that it leaves open.

A share that was counted ``k`` of ``n`` times is taken to be spread as a beta distribution with the
shapes k + 1/2 and n - k + 1/2 (Jeffreys' prior).  Where the exact interval says what a count rules
out, this says how much a decision is likely to cost.
"""

import math

from ..bounds import Bounds, check
from .distributions import SHARE, beta_share

SHAPE = Bounds(1e-6, 1e7)
CORNS = Bounds(1.0, 2000.0)
PARTS = Bounds(1.0, 100.0)


def expected_over(*, above: float, below: float, limit: float) -> float:
    """Give the mean of how far a share lies over a limit, nothing where it lies under.

    Parameters
    ----------
    above, below : float
        Shapes of the beta distribution: corns counted that show it, and that do not, with the prior's.
    limit : float
        The limit, a fraction from 0 to 1.

    Returns
    -------
    float
        E max(share - limit, 0), a fraction.

    Raises
    ------
    OutOfRange
        When a shape or the limit is outside its limits.

    Notes
    -----
    With I the regularised incomplete beta function and m = a / (a + b):
    m (1 - I(limit; a + 1, b)) - limit (1 - I(limit; a, b)).

    Examples
    --------
    >>> round(expected_over(above=1, below=1, limit=0.5), 6)
    0.125
    """
    check("above", above, SHAPE)
    check("below", below, SHAPE)
    check("limit", limit, SHARE)
    mean = above / (above + below)
    over = 1.0 - beta_share(limit, above, below)
    # I(x; a + 1, b) is I(x; a, b) less one term, which spares a second continued fraction
    return max(0.0, mean * (over + _term(limit, above, below)) - limit * over)


def _term(x: float, a: float, b: float) -> float:
    """x^a (1 - x)^b / (a B(a, b))."""
    if x in (0.0, 1.0):
        return 0.0
    return math.exp(math.lgamma(a + b) - math.lgamma(a + 1.0) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x))


def expected_short(*, above: float, below: float, limit: float) -> float:
    """Give the mean of how far a share falls short of a limit, nothing where it reaches it.

    Parameters
    ----------
    above, below, limit : float
        As for ``expected_over``.

    Returns
    -------
    float
        E max(limit - share, 0), a fraction.

    Raises
    ------
    OutOfRange
        As for ``expected_over``.

    Examples
    --------
    >>> round(expected_short(above=1, below=1, limit=0.5), 6)
    0.125
    """
    return expected_over(above=below, below=above, limit=1.0 - limit)


def likely_outcomes(*, above: float, below: float, corns: int, parts: int = 9) -> tuple[int, ...]:
    """Give what a further count may show: so many outcomes, each as likely as the others.

    Parameters
    ----------
    above, below : float
        Shapes of what is known so far, as for ``expected_over``.
    corns : int
        Corns still to count, 1 to 2000.
    parts : int, optional
        Outcomes wanted, 1 to 100.

    Returns
    -------
    tuple of int
        Corns of the further count that show it, at the middles of equal parts of its chance.

    Raises
    ------
    OutOfRange
        When a shape, the corns or the parts are outside their limits.

    Notes
    -----
    Quantiles of the beta-binomial distribution.

    Examples
    --------
    >>> likely_outcomes(above=75.5, below=25.5, corns=100, parts=3)
    (69, 75, 81)
    """
    check("above", above, SHAPE)
    check("below", below, SHAPE)
    check("corns", corns, CORNS)
    check("parts", parts, PARTS)
    term = math.exp(
        math.lgamma(below + corns)
        + math.lgamma(above + below)
        - math.lgamma(below)
        - math.lgamma(above + below + corns)
    )
    found: list[int] = []
    total = term
    for shown in range(corns + 1):
        while len(found) < parts and total >= (len(found) + 0.5) / parts * (1.0 - 1e-12):
            found.append(shown)
        term *= (corns - shown) / (shown + 1.0) * (above + shown) / max(below + corns - shown - 1.0, 1e-300)
        total += term
    return (*found, *[corns] * (parts - len(found)))
