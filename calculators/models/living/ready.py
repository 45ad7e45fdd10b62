"""When a batch may be ready: the growth clock and the acrospires of the one law, set to a house's own days."""

from collections.abc import Sequence
from functools import lru_cache

from ..bounds import Bounds, check
from .acrospires import CORN_LENGTH_LOG_SD, Acrospires, shares_below
from .breathing import GROWTH_H
from .chitting import Corns
from .maths import FLOATS
from .pace import GROWTH_Q10, GROWTH_Q10_SD, growth_after_cast, growth_pace, water_pace

BED_C = Bounds(5.0, 30.0)
REFERENCE_C = Bounds(5.0, 25.0)
REFERENCE_DAYS = Bounds(2.0, 30.0)
Q10 = Bounds(1.2, 4.0)
DAYS = Bounds(0.0, 40.0)

Q10_DOUBT = 2.0 * GROWTH_Q10_SD
"""How far the pace for 10 K may be off, either way [-]: two standard deviations of the law's."""

OWN_DAYS_DOUBT = 0.10
"""How far the house's own days may be off from batch to batch [-]: our assumption."""

TYPICAL_DAYS_DOUBT = 2.0 * CORN_LENGTH_LOG_SD
"""How far typical days may be off for a house that gave none [-]: two standard deviations of the law's."""

_THREE_QUARTERS = 2  # of ``acrospires.EDGES``


def pace(*, temp_c: float, reference_temp_c: float, q10: float = GROWTH_Q10, moisture: float | None = None) -> float:
    """Give the pace of growth against that at the reference temperature.

    Parameters
    ----------
    temp_c : float
        Temperature of the bed [C].
    reference_temp_c : float
        Temperature that the house's days stand for [C].
    q10 : float, optional
        Pace for 10 K more [-].
    moisture : float, optional
        Of the bed, % of wet weight; under 40 % it holds growth back (``pace.water_pace``).

    Returns
    -------
    float
        Pace [-].

    Raises
    ------
    OutOfRange
        Outside 5 to 30 C, 5 to 25 C or a q10 of 1.2 to 4.

    Examples
    --------
    >>> round(pace(temp_c=25.0, reference_temp_c=15.0, q10=2.0), 9)
    2.0
    >>> round(pace(temp_c=15.0, reference_temp_c=15.0, moisture=36.0), 2)
    0.8
    """
    check("temp_c", temp_c, BED_C)
    check("reference_temp_c", reference_temp_c, REFERENCE_C)
    check("q10", q10, Q10)
    wet = 1.0 if moisture is None else float(water_pace(FLOATS, moisture))
    return wet * float(growth_pace(FLOATS, temp_c, q10) / growth_pace(FLOATS, reference_temp_c, q10))


def nearest_bed_c(temp_c: float) -> float:
    """Give the bed nearest to a temperature for which a pace is known [C].

    Parameters
    ----------
    temp_c : float
        Any temperature [C].

    Examples
    --------
    >>> [nearest_bed_c(temp_c) for temp_c in (2.0, 14.0, 41.0)]
    [5.0, 14.0, 30.0]
    """
    return min(max(temp_c, BED_C.low), BED_C.high)


def share_done(
    *, temps_by_day: Sequence[float], reference_temp_c: float, reference_days: float, q10: float = GROWTH_Q10
) -> float:
    """Give the share of the growth that is done after whole days at these temperatures.

    Parameters
    ----------
    temps_by_day : sequence of float
        Mean temperature of the bed on each day so far [C], shape (days,).
    reference_temp_c : float
        Temperature that the house's days stand for [C].
    reference_days : float
        Days that a batch takes there [days].
    q10 : float, optional
        Pace for 10 K more [-].

    Returns
    -------
    float
        Share [-]; over 1 when the sum has run past its end.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> share_done(temps_by_day=[15.0, 15.0], reference_temp_c=15.0, reference_days=5.0)
    0.4
    """
    check("reference_days", reference_days, REFERENCE_DAYS)
    total = sum(pace(temp_c=t, reference_temp_c=reference_temp_c, q10=q10) for t in temps_by_day)
    return total / reference_days


def days_left(
    *,
    share: float,
    temp_c: float,
    reference_temp_c: float,
    reference_days: float,
    q10: float = GROWTH_Q10,
    moisture: float | None = None,
) -> float:
    """Give the days still to go at one temperature.

    Parameters
    ----------
    share : float
        Share done so far [-].
    temp_c : float
        Temperature of the bed from now on [C].
    reference_temp_c, reference_days, q10, moisture
        As for :func:`share_done` and :func:`pace`.

    Returns
    -------
    float
        Days [days]; 0 when the share is 1 or more, infinite for a bed too dry to grow.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> round(days_left(share=0.4, temp_c=15.0, reference_temp_c=15.0, reference_days=5.0), 9)
    3.0
    """
    check("reference_days", reference_days, REFERENCE_DAYS)
    here = pace(temp_c=temp_c, reference_temp_c=reference_temp_c, q10=q10, moisture=moisture)
    left = max(0.0, (1.0 - share) * reference_days)
    return left / here if here > 0.0 else (0.0 if left == 0.0 else float("inf"))


def share_ready(*, growth_h: float, corn_length_h: float) -> float:
    """Give the share of all corns with an acrospire of three quarters of the corn or more.

    Parameters
    ----------
    growth_h : float
        Growth clock [h at 15 C].
    corn_length_h : float
        Growth in which an acrospire grows by one corn [h at 15 C], from :func:`own_corn_length`.

    Returns
    -------
    float
        Share [-] of a typical lot, in which 3 corns of 100 do not grow.

    Raises
    ------
    OutOfRange
        When the growth is not from 0 to 1,000 h.

    Examples
    --------
    >>> round(share_ready(growth_h=138.0, corn_length_h=125.0), 2)
    0.85
    """
    check("growth_h", growth_h, GROWTH_H)
    below = shares_below(FLOATS, growth_h, Corns(), Acrospires(corn_length_h))
    return 1.0 - float(below[_THREE_QUARTERS])


@lru_cache(maxsize=64)
def own_corn_length(*, reference_days: float, reference_temp_c: float, share: float) -> float:
    """Give the pace of a house's acrospires from the days that its batches take.

    Parameters
    ----------
    reference_days : float
        Days from the cast to ready [days].
    reference_temp_c : float
        Temperature that they stand for [C].
    share : float
        Share of corns at three quarters or more from which the house calls a batch ready [-].

    Returns
    -------
    float
        Growth in which an acrospire grows by one corn [h at 15 C], to 0.1 h.

    Raises
    ------
    OutOfRange
        When a value is outside its limits: a share over 0.9, for 3 corns of 100 do not grow; days so warm and many that
        they come to more growth than the law knows.

    Examples
    --------
    >>> round(own_corn_length(reference_days=5.0, reference_temp_c=15.0, share=0.75))
    130
    """
    check("reference_days", reference_days, REFERENCE_DAYS)
    check("reference_temp_c", reference_temp_c, REFERENCE_C)
    check("share", share, Bounds(0.1, 0.9))
    grown = growth_after_cast(day=1.0 + min(reference_days, 29.0), temp_c=reference_temp_c)
    low, high = 5.0, 2000.0  # a longer corn length leaves a smaller share ready
    while high - low > 0.05:
        middle = 0.5 * (low + high)
        if share_ready(growth_h=grown, corn_length_h=middle) > share:
            low = middle
        else:
            high = middle
    return low
