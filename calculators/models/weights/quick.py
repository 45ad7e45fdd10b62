"""A quick reading of moisture set right by pairs: the same grain read the quick way and dried in the oven.

Both ways err. What pairs can tell is how far the quick way lies off on the whole, how much single pairs scatter, and,
with enough of them, whether it lies farther off in wet grain than in dry.
"""

from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

from ..bounds import Bounds, OutOfRange, check
from ..counts.corn_weight import student_quantile

READING = Bounds(5.0, 65.0)
"""Moisture that is read either way, % of wet weight."""
PAIRS = Bounds(1, 40)
LINE_FROM = 8
"""Pairs from which on a line is tried [-]: our convention; two figures and their doubt ask for more than one does."""
RATIO = Bounds(0.01, 100.0)
CORNS = Bounds(50, 5000)
CORNS_G = Bounds(1.0, 1000.0)
DRY_THOUSAND_G = Bounds(10.0, 90.0)
_P95 = 0.975
_LEAST_SCATTER = 0.02
"""Points below which a scatter is luck or copying [points]: a balance cannot tell less."""


class Bias(NamedTuple):
    """How far the oven lies from the quick way, as one number.

    Attributes
    ----------
    mean : float
        Oven less quick [points].
    half : float
        Half of its 95 % interval [points]; infinite from one pair.
    scatter : float
        Standard deviation of single differences [points]; 0 from one pair.
    single : float
        Half of the 95 % interval within which the oven's answer for one new reading is expected [points].
    """

    mean: float
    half: float
    scatter: float
    single: float


class Line(NamedTuple):
    """The oven's moisture as a line in the quick reading, with errors in both.

    Attributes
    ----------
    slope : float
        Points in the oven for one point of the quick way [-].
    low, high : float
        Ends of the slope's 95 % interval [-].
    at_quick, at_oven : float
        The means of both, through which the line goes [%].
    scatter : float
        Standard deviation of what the oven lies off the line [points].
    """

    slope: float
    low: float
    high: float
    at_quick: float
    at_oven: float
    scatter: float

    @property
    def bends(self) -> bool:
        """Whether the pairs prove a slope other than 1."""
        return not self.low <= 1.0 <= self.high


class Corrected(NamedTuple):
    """What the oven is expected to say of one new quick reading: the moisture [%] and half of its 95 % interval."""

    moisture: float
    half: float


def _pairs(pairs: Sequence[tuple[float, float]]) -> None:
    check("pairs", len(pairs), PAIRS)
    for row, (quick, oven) in enumerate(pairs):
        check("quick", quick, READING, "", "pairs", row)
        check("oven", oven, READING, "", "pairs", row)


def bias(*, pairs: Sequence[tuple[float, float]]) -> Bias:
    """Give how far the oven lies from the quick way, with Student's interval.

    Parameters
    ----------
    pairs : sequence of (quick, oven)
        Moistures of the same grain, shape (pairs, 2) [%], each from 5 to 65; 1 to 40 pairs.

    Returns
    -------
    Bias
        In points of moisture.

    Raises
    ------
    OutOfRange
        When there are not from 1 to 40 pairs, or a moisture is outside; ``table`` is ``pairs``.

    Notes
    -----
    The interval of the mean is d ± t s/√n. That of one new reading is d ± t s √(1 + 1/n). The scatter s holds the
    errors of both ways, so the second interval is about what the oven would say, its own error with it.

    References
    ----------
    Student's interval of a mean; statsmodels' ``DescrStatsW`` gives the same (tests).

    Examples
    --------
    >>> found = bias(pairs=[(44.0, 45.2), (42.0, 43.0), (45.0, 46.4)])
    >>> round(found.mean, 2), round(found.half, 2), round(found.single, 2)
    (1.2, 0.5, 0.99)
    """
    _pairs(pairs)
    apart = [oven - quick for quick, oven in pairs]
    count = len(apart)
    mean = sum(apart) / count
    if count == 1:
        return Bias(mean, float("inf"), 0.0, float("inf"))
    scatter = max(_LEAST_SCATTER, sqrt(sum((one - mean) ** 2 for one in apart) / (count - 1)))
    reach = student_quantile(_P95, count - 1) * scatter
    return Bias(mean, reach / sqrt(count), scatter, reach * sqrt(1.0 + 1.0 / count))


def line(*, pairs: Sequence[tuple[float, float]], ratio: float = 1.0) -> Line | None:
    """Give the line through pairs of which both figures err, with the doubt of its slope.

    Parameters
    ----------
    pairs : sequence of (quick, oven)
        Moistures of the same grain, shape (pairs, 2) [%], each from 5 to 65; 1 to 40 pairs.
    ratio : float, optional
        Variance of the oven's error over that of the quick way's [-], 0.01 to 100.

    Returns
    -------
    Line or None
        None from fewer than 8 pairs, or where all quick readings are as good as one.

    Raises
    ------
    OutOfRange
        As :func:`bias`, or when the ratio is outside.

    Notes
    -----
    Deming's line: with S the sums of squares about the means and λ the ratio,
    b = (Syy − λ Sxx + √((Syy − λ Sxx)² + 4 λ Sxy²)) / (2 Sxy). Least squares of one on the other would
    draw the slope toward 0, the more so the more the quick way scatters. The interval is that of the jackknife with
    Student's quantile of n − 2.

    References
    ----------
    Deming 1943, Statistical Adjustment of Data (not read); the formula as in Therneau's notes on the R package
    deming (read). scipy's orthogonal distance regression gives the same line (tests).

    Examples
    --------
    >>> straight = [(30.0 + 2.0 * n, 1.1 * (30.0 + 2.0 * n) - 2.0) for n in range(8)]
    >>> round(line(pairs=straight).slope, 3)
    1.1
    """
    _pairs(pairs)
    check("ratio", ratio, RATIO)
    count = len(pairs)
    whole = _slope(pairs, ratio)
    if count < LINE_FROM or whole is None:
        return None
    without = [_slope([*pairs[:n], *pairs[n + 1 :]], ratio) for n in range(count)]
    if any(one is None for one in without):
        return None
    pseudo = [count * whole - (count - 1) * one for one in without if one is not None]
    middle = sum(pseudo) / count
    error = sqrt(sum((one - middle) ** 2 for one in pseudo) / (count - 1) / count)
    reach = student_quantile(_P95, count - 2) * error
    quick = sum(one for one, _ in pairs) / count
    oven = sum(one for _, one in pairs) / count
    off = sum((o - oven - whole * (q - quick)) ** 2 for q, o in pairs)
    scatter = max(_LEAST_SCATTER, sqrt(off / (count - 2)))
    return Line(whole, whole - reach, whole + reach, quick, oven, scatter)


def _slope(pairs: Sequence[tuple[float, float]], ratio: float) -> float | None:
    count = len(pairs)
    x = sum(one for one, _ in pairs) / count
    y = sum(one for _, one in pairs) / count
    xx = sum((one - x) ** 2 for one, _ in pairs)
    yy = sum((one - y) ** 2 for _, one in pairs)
    xy = sum((q - x) * (o - y) for q, o in pairs)
    if xy <= 0.0 or xx < count * _LEAST_SCATTER**2:
        return None
    more = yy - ratio * xx
    return (more + sqrt(more * more + 4.0 * ratio * xy * xy)) / (2.0 * xy)


def corrected(*, pairs: Sequence[tuple[float, float]], quick: float, ratio: float = 1.0) -> Corrected:
    """Give what the oven is expected to say of one new quick reading.

    Parameters
    ----------
    pairs : sequence of (quick, oven)
        As :func:`bias`.
    quick : float
        The new reading [%], 5 to 65.
    ratio : float, optional
        As :func:`line`.

    Returns
    -------
    Corrected
        The moisture, and half of the interval in which 95 of 100 answers of the oven are expected.

    Raises
    ------
    OutOfRange
        As :func:`line`, or when the reading is outside.

    Notes
    -----
    One number is added for all readings, unless 8 pairs or more prove that the slope is not 1: then the line is
    taken. So a bend that is there and cannot be seen yet stays in the scatter.

    Examples
    --------
    >>> found = corrected(pairs=[(44.0, 45.2), (42.0, 43.0), (45.0, 46.4)], quick=43.5)
    >>> round(found.moisture, 2), round(found.half, 2)
    (44.7, 0.99)
    """
    check("quick", quick, READING)
    fitted = line(pairs=pairs, ratio=ratio)
    if fitted is None or not fitted.bends:
        one = bias(pairs=pairs)
        return Corrected(quick + one.mean, one.single)
    count = len(pairs)
    spread = sum((q - fitted.at_quick) ** 2 for q, _ in pairs)
    away = quick - fitted.at_quick
    half = student_quantile(_P95, count - 2) * fitted.scatter * sqrt(1.0 + 1.0 / count + away * away / spread)
    return Corrected(fitted.at_oven + fitted.slope * away, half)


def odd_pair(*, pairs: Sequence[tuple[float, float]]) -> int | None:
    """Give the pair that lies too far from all others to be chance; None when there is none.

    Parameters
    ----------
    pairs : sequence of (quick, oven)
        As :func:`bias`.

    Returns
    -------
    int or None
        Its place from 0. Looked for from 5 pairs on.

    Raises
    ------
    OutOfRange
        As :func:`bias`.

    Notes
    -----
    A pair is odd when its difference lies outside of what the others let expect, at a chance of 5 in 100 that any of
    them does (each is held against 1 − 0.05/2n).
    """
    _pairs(pairs)
    count = len(pairs)
    if count < 5:
        return None
    worst: tuple[float, int] | None = None
    for place, (quick, oven) in enumerate(pairs):
        others = bias(pairs=[*pairs[:place], *pairs[place + 1 :]])
        reach = student_quantile(1.0 - 0.025 / count, count - 2) * others.scatter * sqrt(1.0 + 1.0 / (count - 1))
        past = abs(oven - quick - others.mean) / reach
        if past > 1.0 and (worst is None or past > worst[0]):
            worst = (past, place)
    return None if worst is None else worst[1]


def counted_moisture(*, corns: float, wet_g: float, dry_thousand_g: float) -> float:
    """Give the moisture of wet corns that were counted and weighed.

    Parameters
    ----------
    corns : float
        How many, 50 to 5000.
    wet_g : float
        What they weigh [g], 1 to 1000.
    dry_thousand_g : float
        Dry matter of a thousand corns of this lot [g], 10 to 90.

    Returns
    -------
    float
        Moisture, % of wet weight.

    Raises
    ------
    OutOfRange
        When a value is outside, or the corns weigh less than their dry matter.

    Notes
    -----
    It takes each corn to hold the dry matter that the lot's corns held when dry. What was leached and breathed since
    makes it read too low: 0.55 points for each 1 % lost near 45 %. Corns differ by a fifth in weight, so that
    500 on either side leave ±1.4 points at 45 % (computed).

    Examples
    --------
    >>> round(counted_moisture(corns=500, wet_g=36.0, dry_thousand_g=39.6), 1)
    45.0
    """
    check("corns", corns, CORNS)
    check("dry_thousand_g", dry_thousand_g, DRY_THOUSAND_G)
    check("wet_g", wet_g, CORNS_G)
    dry = 0.001 * corns * dry_thousand_g
    if wet_g <= dry:
        raise OutOfRange("wet_g", dry, CORNS_G.high, "Wet corns weigh more than their dry matter.")
    return 100.0 * (1.0 - dry / wet_g)
