"""How far growth has gone, from days and temperatures: a forecast, never a test."""

from collections.abc import Sequence

from ..bounds import Bounds, check

BED_C = Bounds(5.0, 30.0)
REFERENCE_C = Bounds(5.0, 25.0)
REFERENCE_DAYS = Bounds(2.0, 30.0)
Q10 = Bounds(1.2, 4.0)
DAYS = Bounds(0.0, 40.0)

TYPICAL_Q10 = 2.25
"""Pace of growth for 10 K more: 2 to 2.5, from memory.

Thomson 1824 (read): floors at 62 F took 14 days, at 55 F 18 to 21: Q10 1.9 to 2.8, and 2.25
gives 19 (computed).  Respiration of maize between 10 and 20 C has 3.5 (computed from
published figures).
"""

Q10_DOUBT = 0.5
DAYS_DOUBT = 0.10
"""How far the house's own days may be off from batch to batch [-]: our assumption."""


def pace(*, temp_c: float, reference_temp_c: float, q10: float) -> float:
    """Give the pace of growth against that at the reference temperature.

    Parameters
    ----------
    temp_c : float
        Temperature of the bed [C].
    reference_temp_c : float
        Temperature that the house's days stand for [C].
    q10 : float
        Pace for 10 K more [-].

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
    >>> pace(temp_c=25.0, reference_temp_c=15.0, q10=2.0)
    2.0
    """
    check("temp_c", temp_c, BED_C)
    check("reference_temp_c", reference_temp_c, REFERENCE_C)
    check("q10", q10, Q10)
    return float(q10 ** ((temp_c - reference_temp_c) / 10.0))


def share_done(*, temps_by_day: Sequence[float], reference_temp_c: float, reference_days: float, q10: float) -> float:
    """Give the share of the growth that is done after whole days at these temperatures.

    Parameters
    ----------
    temps_by_day : sequence of float
        Mean temperature of the bed on each day so far [C], shape (days,).
    reference_temp_c : float
        Temperature that the house's days stand for [C].
    reference_days : float
        Days that a batch takes there [days].
    q10 : float
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
    >>> share_done(temps_by_day=[15.0, 15.0], reference_temp_c=15.0, reference_days=5.0, q10=2.25)
    0.4
    """
    check("reference_days", reference_days, REFERENCE_DAYS)
    total = sum(pace(temp_c=t, reference_temp_c=reference_temp_c, q10=q10) for t in temps_by_day)
    return total / reference_days


def days_left(*, share: float, temp_c: float, reference_temp_c: float, reference_days: float, q10: float) -> float:
    """Give the days still to go at one temperature.

    Parameters
    ----------
    share : float
        Share done so far [-].
    temp_c : float
        Temperature of the bed from now on [C].
    reference_temp_c, reference_days, q10
        As for :func:`share_done`.

    Returns
    -------
    float
        Days [days]; 0 when the share is 1 or more.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> round(days_left(share=0.4, temp_c=15.0, reference_temp_c=15.0, reference_days=5.0, q10=2.25), 9)
    3.0
    """
    check("reference_days", reference_days, REFERENCE_DAYS)
    here = pace(temp_c=temp_c, reference_temp_c=reference_temp_c, q10=q10)
    return max(0.0, (1.0 - share) * reference_days / here)
