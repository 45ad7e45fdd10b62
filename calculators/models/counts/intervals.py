"""What a count of corns can show: intervals for a share and for a difference of shares.

Shares are fractions from 0 to 1.  Everything here supposes that the corns are a
random sample: corns from one spot of a lorry or a floor are not, and then the true
share may lie further off than any interval says.
"""

import math
from collections.abc import Callable
from typing import NamedTuple

from ..bounds import Bounds, check
from .distributions import beta_share, normal_quantile

CONFIDENCE = 0.95
CONFIDENCES = Bounds(0.5, 0.9999)
CORNS = Bounds(1.0, 1_000_000.0)

_HALVINGS = 60  # of the range 0 to 1: finer than a double can tell apart


class Interval(NamedTuple):
    """The lower and the upper end of an interval, as fractions."""

    low: float
    high: float


def at_least(grown: float, sown: float, share: float) -> float:
    """Give the chance of counting so many or more when a share is true.

    Parameters
    ----------
    grown : float
        Corns counted, 0 to ``sown``.
    sown : float
        Corns looked at, 1 or more.
    share : float
        The true share, from 0 to 1.

    Returns
    -------
    float
        P(X >= grown), binomial.

    Raises
    ------
    OutOfRange
        When more is counted than was looked at, or the share is not from 0 to 1.

    Examples
    --------
    >>> round(at_least(2, 2, 0.5), 3)
    0.25
    """
    _check_count(grown, sown)
    if grown == 0:
        return 1.0
    return beta_share(share, grown, sown - grown + 1.0)


def at_most(grown: float, sown: float, share: float) -> float:
    """Give the chance of counting so many or fewer when a share is true.

    Parameters
    ----------
    grown, sown, share : float
        As for ``at_least``.

    Returns
    -------
    float
        P(X <= grown), binomial.

    Raises
    ------
    OutOfRange
        As for ``at_least``.

    Examples
    --------
    >>> round(at_most(0, 2, 0.5), 3)
    0.25
    """
    _check_count(grown, sown)
    if grown == sown:
        return 1.0
    return beta_share(1.0 - share, sown - grown, grown + 1.0)


def _check_count(grown: float, sown: float) -> None:
    check("sown", sown, CORNS)
    check("grown", grown, Bounds(0.0, sown), "No more corns can have grown than were sown.")


def _where_rising(function: Callable[[float], float], wanted: float) -> float:
    """The x from 0 to 1 at which a rising function reaches a value, by halving."""
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if function(middle) < wanted:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def lower_bound(grown: float, sown: float, confidence: float = CONFIDENCE) -> float:
    """Give the share that is at least there, exact and on one side.

    Parameters
    ----------
    grown : float
        Corns that grew, 0 to ``sown``.
    sown : float
        Corns sown, 1 or more.
    confidence : float, optional
        How sure, from 0.5 to 0.9999.

    Returns
    -------
    float
        The lower bound, a fraction.

    Raises
    ------
    OutOfRange
        When more grew than were sown, or the confidence is outside its limits.

    Notes
    -----
    The share at which counting so many or more has the chance 1 - confidence.

    Examples
    --------
    >>> round(100 * lower_bound(100, 100), 2)
    97.05
    """
    check("confidence", confidence, CONFIDENCES)
    return _lower(grown, sown, confidence)


def _lower(grown: float, sown: float, confidence: float) -> float:
    _check_count(grown, sown)
    if grown == 0:
        return 0.0
    return _where_rising(lambda share: at_least(grown, sown, share), 1.0 - confidence)


def upper_bound(grown: float, sown: float, confidence: float = CONFIDENCE) -> float:
    """Give the share that is at most there, exact and on one side.

    Parameters
    ----------
    grown, sown, confidence : float
        As for ``lower_bound``.

    Returns
    -------
    float
        The upper bound, a fraction.

    Raises
    ------
    OutOfRange
        As for ``lower_bound``.

    Examples
    --------
    >>> round(100 * upper_bound(0, 100), 2)
    2.95
    """
    return 1.0 - lower_bound(sown - grown, sown, confidence)


def clopper_pearson(grown: float, sown: float, confidence: float = CONFIDENCE) -> Interval:
    """Give the exact interval for a share: never less sure than it says.

    Parameters
    ----------
    grown, sown, confidence : float
        As for ``lower_bound``; half of the doubt lies on each side.

    Returns
    -------
    Interval
        Both ends, fractions.

    Raises
    ------
    OutOfRange
        As for ``lower_bound``.

    References
    ----------
    Clopper and Pearson 1934, Biometrika 26:404 (not read); published vectors 34/120:
    0.204856 to 0.372821 and 42/100: 0.3220 to 0.5229 (read).

    Examples
    --------
    >>> [round(end, 4) for end in clopper_pearson(42, 100)]
    [0.322, 0.5229]
    """
    check("confidence", confidence, CONFIDENCES)
    each_side = 0.5 * (1.0 + confidence)
    return Interval(_lower(grown, sown, each_side), 1.0 - _lower(sown - grown, sown, each_side))


def wilson(grown: float, sown: float, confidence: float = CONFIDENCE) -> Interval:
    """Give Wilson's score interval for a share: right on average, a little shorter than the exact one.

    Parameters
    ----------
    grown, sown, confidence : float
        As for ``lower_bound``.

    Returns
    -------
    Interval
        Both ends, fractions.

    Raises
    ------
    OutOfRange
        As for ``lower_bound``.

    Notes
    -----
    (p + z2/2n +- z sqrt(p(1-p)/n + z2/4n2)) / (1 + z2/n), with p = grown/sown.

    References
    ----------
    Wilson 1927, J. Am. Stat. Assoc. 22:209 (not read); published vector 34/120:
    0.210406 to 0.369702 (read).

    Examples
    --------
    >>> [round(end, 6) for end in wilson(34, 120)]
    [0.210406, 0.369702]
    """
    check("confidence", confidence, CONFIDENCES)
    _check_count(grown, sown)
    z2 = normal_quantile(0.5 * (1.0 + confidence)) ** 2
    share = grown / sown
    middle = share + z2 / (2.0 * sown)
    reach = math.sqrt(z2 * (share * (1.0 - share) / sown + z2 / (4.0 * sown * sown)))
    scale = 1.0 + z2 / sown
    low = 0.0 if grown == 0 else max(0.0, (middle - reach) / scale)
    high = 1.0 if grown == sown else min(1.0, (middle + reach) / scale)
    return Interval(low, high)


def newcombe(
    grown: float, sown: float, other_grown: float, other_sown: float, confidence: float = CONFIDENCE
) -> Interval:
    """Give the interval for the difference between two shares, by Newcombe's hybrid score method.

    Parameters
    ----------
    grown, sown : float
        The first count.
    other_grown, other_sown : float
        The second count; its share is taken off the first.
    confidence : float, optional
        How sure, from 0.5 to 0.9999.

    Returns
    -------
    Interval
        Both ends of the difference, fractions from -1 to 1.

    Raises
    ------
    OutOfRange
        As for ``wilson``.

    Notes
    -----
    With Wilson's ends l1, u1 and l2, u2 and d = p1 - p2:
    d - sqrt((p1-l1)2 + (u2-p2)2) to d + sqrt((u1-p1)2 + (p2-l2)2).

    References
    ----------
    Newcombe 1998, Statistics in Medicine 17:873, method 10 (abstract read); 56/70 less 48/80:
    0.0524 to 0.3339 (second-hand).

    Examples
    --------
    >>> [round(end, 4) for end in newcombe(56, 70, 48, 80)]
    [0.0524, 0.3339]
    """
    one, two = wilson(grown, sown, confidence), wilson(other_grown, other_sown, confidence)
    p1, p2 = grown / sown, other_grown / other_sown
    return Interval(
        p1 - p2 - math.hypot(p1 - one.low, two.high - p2),
        p1 - p2 + math.hypot(one.high - p1, p2 - two.low),
    )
