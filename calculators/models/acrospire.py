"""How far the acrospires have grown: classes, mean, evenness, and the hours still to wait.

Lengths are in parts of the corn's own length: 0.5 is half way along the back.
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from .limits import Limits, OutOfRange, check

# Upper ends of the classes; corns past 1 are overshot.  Three quarters to the whole length is
# ready (read); the classes themselves are common practice, from memory.
CLASS_ENDS = (0.25, 0.5, 0.75, 1.0, 1.25)
CLASS_NAMES = ("up to ¼", "¼ to ½", "½ to ¾", "¾ to 1", "over 1")
READY, OVERSHOT = 3, 4
RUB_NAMES = ("hard, a pellet", "doughy, smears", "dry flour")
"""The inside of a split corn, rubbed between the fingers: common practice."""
_STEP = 0.25
_SURE = 1.959964  # standard deviations either side, for the doubt of a mean


def _checked(counts: Sequence[float]) -> float:
    if len(counts) != len(CLASS_ENDS):
        raise OutOfRange("counts", len(CLASS_ENDS), len(CLASS_ENDS), "One count for each class.")
    for count in counts:
        check("counts", count, Limits(0.0, 1e6))
    return check("counts", sum(counts), Limits(1.0, 1e7), "Count at least one corn.")


def mean_length(*, counts: Sequence[float], place: float = 0.5) -> float:
    """Give the mean acrospire length of a counted sample.

    Parameters
    ----------
    counts : sequence of float
        Corns in the five classes, shortest first.
    place : float, optional
        Where in its class a corn is taken to lie: 0 the lower end, 0.5 the middle, 1 the upper.

    Returns
    -------
    float
        Mean length [corn lengths].

    Raises
    ------
    OutOfRange
        When there are not five counts, one is negative, or all are zero.

    Notes
    -----
    The mean depends on ``place``.  A corn past the tip counts 1.125 at the middle of its class.

    Examples
    --------
    >>> [round(mean_length(counts=(2, 4, 14, 76, 4), place=p), 3) for p in (0.5, 0, 1)]
    [0.815, 0.69, 0.94]
    """
    corns = _checked(counts)
    check("place", place, Limits(0.0, 1.0))
    lengths = (end - _STEP * (1.0 - place) for end in CLASS_ENDS)
    return sum(count * length for count, length in zip(counts, lengths, strict=True)) / corns


def spread(*, counts: Sequence[float]) -> float:
    """Give the standard deviation of the lengths, each corn at the middle of its class.

    Parameters
    ----------
    counts : sequence of float
        Corns in the five classes, shortest first.

    Returns
    -------
    float
        Standard deviation [corn lengths].

    Raises
    ------
    OutOfRange
        As for ``mean_length``.

    Examples
    --------
    >>> round(spread(counts=(2, 4, 14, 76, 4)), 3)
    0.17
    """
    corns = _checked(counts)
    mean = mean_length(counts=counts)
    squares = (count * (end - _STEP / 2 - mean) ** 2 for count, end in zip(counts, CLASS_ENDS, strict=True))
    return math.sqrt(sum(squares) / corns)


def evenness(*, counts: Sequence[float]) -> float:
    """Give the evenness: the share of corns in the two neighbouring classes that hold most.

    Parameters
    ----------
    counts : sequence of float
        Corns in the five classes, shortest first.

    Returns
    -------
    float
        Evenness [%], a third at least, 40 for corns spread over all classes alike, 100 for an even piece.

    Raises
    ------
    OutOfRange
        As for ``mean_length``.

    Notes
    -----
    A convention of this handbook; no published measure was found.

    Examples
    --------
    >>> evenness(counts=(2, 4, 14, 76, 4))
    90.0
    """
    corns = _checked(counts)
    pairs = (one + two for one, two in pairwise(counts))
    return 100.0 * max(pairs) / corns


def share_below(*, counts: Sequence[float], length: float) -> float:
    """Give the share of corns with a shorter acrospire, corns lying evenly within their class.

    Parameters
    ----------
    counts : sequence of float
        Corns in the five classes, shortest first.
    length : float
        Length [corn lengths].

    Returns
    -------
    float
        Share, a fraction.

    Raises
    ------
    OutOfRange
        As for ``mean_length``.

    Examples
    --------
    >>> share_below(counts=(0, 0, 50, 50, 0), length=0.875)
    0.75
    """
    corns = _checked(counts)
    below = 0.0
    for count, end in zip(counts, CLASS_ENDS, strict=True):
        below += count * min(max((length - (end - _STEP)) / _STEP, 0.0), 1.0)
    return below / corns


def ready_after(*, counts: Sequence[float], grown: float) -> tuple[float, float]:
    """Give the shares ready and overshot when every acrospire has grown further.

    Parameters
    ----------
    counts : sequence of float
        Corns in the five classes now, shortest first.
    grown : float
        Growth from now [corn lengths], 0 or more.

    Returns
    -------
    tuple of float
        Share between 3/4 and 1, and share over 1, fractions.

    Raises
    ------
    OutOfRange
        As for ``mean_length``, or when the growth is negative.

    Notes
    -----
    Every corn is taken to grow alike.  Slow corns lag in truth, so the share ready comes later.

    Examples
    --------
    >>> ready_after(counts=(0, 0, 100, 0, 0), grown=0.25)
    (1.0, 0.0)
    """
    check("grown", grown, Limits(0.0, 10.0))
    short = share_below(counts=counts, length=0.75 - grown)
    not_over = share_below(counts=counts, length=1.0 - grown)
    return not_over - short, 1.0 - not_over


def growth_needed(*, counts: Sequence[float], target: float) -> float:
    """Give the growth after which a share of the corns has reached three quarters.

    Parameters
    ----------
    counts : sequence of float
        Corns in the five classes now, shortest first.
    target : float
        Share wanted at three quarters or longer, from 0 to 1.

    Returns
    -------
    float
        Growth from now [corn lengths], 0 to 0.75.

    Raises
    ------
    OutOfRange
        As for ``mean_length``, or when the target is not from 0 to 1.

    Notes
    -----
    Every corn is taken to grow alike, and to lie evenly within its class.

    Examples
    --------
    >>> growth_needed(counts=(0, 0, 100, 0, 0), target=0.8)
    0.2
    """
    corns = _checked(counts)
    check("target", target, Limits(0.0, 1.0))
    still = (1.0 - target) * corns  # so many may stay shorter
    for count, end in zip(counts[:READY], CLASS_ENDS, strict=False):
        if count > still:
            return round(CLASS_ENDS[READY - 1] - (end - _STEP + _STEP * still / count), 12)
        still -= count
    return 0.0


class Rate(NamedTuple):
    """Growth of the mean acrospire a day, with its 95 % doubt [corn lengths a day]."""

    value: float
    low: float
    high: float


def growth_rate(*, today: Sequence[float], before: Sequence[float], hours: float, place: float = 0.5) -> Rate:
    """Give the growth of the mean acrospire a day from two counts.

    Parameters
    ----------
    today, before : sequence of float
        Corns in the five classes, shortest first.
    hours : float
        Between the two counts [h], 1 to 96.
    place : float, optional
        Where in its class a corn is taken to lie.

    Returns
    -------
    Rate
        Growth and its 95 % interval [corn lengths a day].

    Raises
    ------
    OutOfRange
        As for ``mean_length``, or when the hours are outside their limits.

    Notes
    -----
    Difference of the means over the time; the doubt is that of counting, from the spread in
    both samples, and says nothing of where the samples were taken.

    Examples
    --------
    >>> rate = growth_rate(today=(0, 0, 0, 100, 0), before=(0, 0, 100, 0, 0), hours=24)
    >>> rate.value
    0.25
    """
    check("hours", hours, Limits(1.0, 96.0))
    gain = mean_length(counts=today, place=place) - mean_length(counts=before, place=place)
    variance = sum(
        # within a class the lengths spread too: a twelfth of the class squared
        (spread(counts=counts) ** 2 + _STEP**2 / 12.0) / sum(counts)
        for counts in (today, before)
    )
    reach = _SURE * math.sqrt(variance)
    daily = 24.0 / hours
    return Rate(gain * daily, (gain - reach) * daily, (gain + reach) * daily)
