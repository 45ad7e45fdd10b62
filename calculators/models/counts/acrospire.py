"""How far the acrospires have grown: classes, mean, evenness, and the hours still to wait.

Lengths are in parts of the corn's own length: 0.5 is half way along the back.
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from ..bounds import Bounds, OutOfRange, check
from .distributions import SURE_SD, normal_quantile, normal_share

# Upper ends of the classes; corns past 1 are overshot.  Three quarters to the whole length is
# ready (read); the classes themselves are common practice, from memory.
CLASS_ENDS = (0.25, 0.5, 0.75, 1.0, 1.25)
CLASS_NAMES = ("up to ¼", "¼ to ½", "½ to ¾", "¾ to 1", "over 1")
READY, OVERSHOT = 3, 4
RUB_NAMES = ("hard, a pellet", "doughy, smears", "dry flour")
"""The inside of a split corn, rubbed between the fingers: common practice."""
COUNT = Bounds(0.0, 1e6)
_STEP = 0.25
_THREE_QUARTERS = CLASS_ENDS[2]


def _checked(counts: Sequence[float]) -> float:
    if len(counts) != len(CLASS_ENDS):
        raise OutOfRange("counts", len(CLASS_ENDS), len(CLASS_ENDS), "One count for each class.")
    for count in counts:
        check("counts", count, COUNT)
    return check("counts", sum(counts), Bounds(1.0, len(counts) * COUNT.high), "Count at least one corn.")


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
    check("place", place, Bounds(0.0, 1.0))
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


PRIOR = (1 / 6, 1 / 6, 1 / 6, 1 / 4, 1 / 4)
"""Corns added to the classes of a count before it is drawn on: half a corn on either side of three quarters,
which is what Jeffreys' prior adds to a share, so that a class without a corn is rare and not impossible."""

TYPICAL_GROWTH, TYPICAL_GROWTH_SD = 0.18, 0.06
"""Growth of the acrospires in the last days, and how it differs from batch to batch [corn lengths a day].

Seven eighths of a corn in the five days of growth that five to seven days in all leave (Mueller 2014, abstract:
5 to 7 days at 12 to 17 C); the spread is our assumption.
"""

_TINY = 1e-6  # share at which the tails of the curve are cut off


class Curve(NamedTuple):
    """The lengths of a piece: shares below the class ends, straight between them on normal probability paper."""

    shares: tuple[float, float, float, float]
    deviates: tuple[float, float, float, float]

    def below(self, length: float) -> float:
        """Give the share of corns with a shorter acrospire; under the first class end it is straight to none at 0.

        Parameters
        ----------
        length : float
            Length [corn lengths], at most 1.
        """
        first = CLASS_ENDS[0]
        if length <= first:
            return max(length, 0.0) / first * self.shares[0]
        place = min(int((length - first) / _STEP), 2)
        low, high = self.deviates[place : place + 2]
        return normal_share(low + (length - CLASS_ENDS[place]) / _STEP * (high - low))

    def length_at(self, share: float) -> float:
        """Give the length below which a share of the corns lies [corn lengths], at most 1."""
        if share <= self.shares[0]:
            return CLASS_ENDS[0] * max(share, 0.0) / self.shares[0]
        deviate = normal_quantile(min(share, 1.0 - _TINY))
        for place in range(3):
            low, high = self.deviates[place : place + 2]
            if deviate <= high:
                return CLASS_ENDS[place] + _STEP * (deviate - low) / (high - low)
        return CLASS_ENDS[3]

    def after(self, grown: float) -> tuple[float, float]:
        """Give the shares at three quarters and beyond, and over 1, when every acrospire has grown further."""
        return 1.0 - self.below(_THREE_QUARTERS - grown), 1.0 - self.below(1.0 - grown)


def curve(*, weights: Sequence[float]) -> Curve:
    """Draw the lengths of a piece from the corns in its classes.

    Parameters
    ----------
    weights : sequence of float
        Corns in the five classes, shortest first, with ``PRIOR`` added where they were counted.

    Returns
    -------
    Curve
        From 0 to 1 corn length.

    Raises
    ------
    OutOfRange
        As for ``mean_length``.

    Notes
    -----
    Straight lines on normal probability paper go through the counted shares whatever their form, and lie close to
    the truth where the lengths scatter round a middle. Lengths spread evenly within each class, as a plain histogram
    has them, put three times too many corns just short of the far end of a piece with 86 % ready and 4 % overshot.

    Examples
    --------
    >>> piece = curve(weights=(1, 3, 9, 84, 3))
    >>> round(piece.below(0.75), 2), [round(share, 2) for share in piece.after(0.05)]
    (0.13, [0.89, 0.1])
    """
    corns = _checked(weights)
    total, shares = 0.0, list[float]()
    for weight in weights[:-1]:
        total += weight
        least = _TINY * (1 + len(shares))  # so that an empty class has a slope too
        shares.append(min(max(total / corns, least), 1.0 - _TINY * (5 - len(shares))))
    one, two, three, four = shares
    return Curve((one, two, three, four), tuple(normal_quantile(share) for share in shares))  # type: ignore[arg-type]


def ready_after(*, weights: Sequence[float], grown: float) -> tuple[float, float]:
    """Give the shares at three quarters and beyond, and overshot, when every acrospire has grown further.

    Parameters
    ----------
    weights : sequence of float
        Corns in the five classes now, shortest first, as for ``curve``.
    grown : float
        Growth from now [corn lengths], 0 or more.

    Returns
    -------
    tuple of float
        Share at 3/4 and beyond, and share over 1, fractions.

    Raises
    ------
    OutOfRange
        As for ``mean_length``, or when the growth is negative.

    Notes
    -----
    Every corn is taken to grow alike.  Slow corns lag in truth, so the share ready comes later.

    Examples
    --------
    >>> [round(share, 3) for share in ready_after(weights=(0, 0, 100, 0, 0), grown=0.25)]
    [1.0, 0.0]
    """
    check("grown", grown, Bounds(0.0, 10.0))
    return curve(weights=weights).after(grown)


def growth_needed(*, weights: Sequence[float], target: float) -> float:
    """Give the growth after which a share of the corns has reached three quarters.

    Parameters
    ----------
    weights : sequence of float
        Corns in the five classes now, shortest first, as for ``curve``.
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
    Every corn is taken to grow alike.

    Examples
    --------
    >>> round(growth_needed(weights=(1, 10, 49, 39, 1), target=0.75), 2)
    0.16
    """
    check("target", target, Bounds(0.0, 1.0))
    drawn = curve(weights=weights)
    if drawn.shares[READY - 1] <= 1.0 - target:
        return 0.0
    return max(0.0, _THREE_QUARTERS - drawn.length_at(1.0 - target))


class Rate(NamedTuple):
    """Growth of the mean acrospire a day, with its 95 % doubt [corn lengths a day]."""

    value: float
    low: float
    high: float


def growth_rate(*, today: Sequence[float], before: Sequence[float], hours: float) -> Rate:
    """Give the growth of the mean acrospire a day from two counts.

    Parameters
    ----------
    today, before : sequence of float
        Corns in the five classes, shortest first.
    hours : float
        Between the two counts [h], 1 to 96.

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
    Difference of the means over the time, which is the same wherever in its class a corn is
    taken to lie; the doubt is that of counting, from the spread in both samples, and says
    nothing of where the samples were taken.

    Examples
    --------
    >>> rate = growth_rate(today=(0, 0, 0, 100, 0), before=(0, 0, 100, 0, 0), hours=24)
    >>> rate.value
    0.25
    """
    check("hours", hours, Bounds(1.0, 96.0))
    gain = mean_length(counts=today) - mean_length(counts=before)
    variance = sum(
        # within a class the lengths spread too: a twelfth of the class squared
        (spread(counts=counts) ** 2 + _STEP**2 / 12.0) / sum(counts)
        for counts in (today, before)
    )
    reach = SURE_SD * math.sqrt(variance)
    daily = 24.0 / hours
    return Rate(gain * daily, (gain - reach) * daily, (gain + reach) * daily)
