"""How fast grain breathes where only its day and its warmth are known: in the steep, or some days after the cast."""

from typing import NamedTuple

from ..bed.respiration import barley_dry_matter
from ..bounds import Bounds, check
from .bed_days import BARLEY_PERCENT, BED_PERCENT, HIGHEST_H, MIDDLE
from .breathing import (
    COLD_KJ_MOL,
    GRAIN_C,
    GRAIN_REASON,
    GUARDED_FACTOR,
    RESPONSE_DOUBT_KJ_MOL,
    Exchange,
    exchange,
    rate,
)
from .maths import FLOATS
from .pace import AT_CAST_H, REFERENCE_C, growth_after_cast

DAY = Bounds(0.0, 30.0)
SINCE_WETTING_H = Bounds(1.0, 96.0)

DRY_KG_T = barley_dry_matter(barley_kg=1000.0, barley_moisture=BARLEY_PERCENT)
"""Dry matter in a tonne of barley [kg]."""

AHEAD_DAYS, AHEAD_IN_STEEP_DAYS = 1.0, 0.5
"""How far the soonest case is ahead of what is said [days]: counted wrong by one, or a warm or a late steep."""


class SteepState(NamedTuple):
    """Corns at the end of an immersion of a usual steep."""

    net_moisture: float
    growth_h: float


IMMERSIONS = (SteepState(30.6, 0.1), SteepState(39.0, 5.5), SteepState(BED_PERCENT, AT_CAST_H))
"""Moisture inside the corns [%] and hours of growth at the end of the first, second and third immersion.

Of 8 h wet, 8 h rest, 8 h wet, 12 h rest and a last dip, all at 14 C (``batch.course``).  The third is the
state of grain at the cast, which :func:`typical_breath` takes for day 0.
"""


def _breath(net_moisture: float, growth_h: float, temp_c: float, factor: float, cold: float = COLD_KJ_MOL) -> Exchange:
    per_h = factor * float(rate(FLOATS, net_moisture, temp_c, growth_h, cold))
    return exchange(respired_kg_h=per_h * DRY_KG_T)


def typical_breath(*, day: float, temp_c: float) -> Exchange:
    """Give what a tonne of barley breathes on a day, by the law of ``breathing`` alone.

    Parameters
    ----------
    day : float
        Day after the cast, the first being 1, taken at its middle; 0 is grain still in the
        steep, as at the cast.  Up to 30.
    temp_c : float
        Temperature of the grain, now and since the cast [C], 0 to 40.

    Returns
    -------
    Exchange
        Heat, gases, water and loss for each tonne of barley as filled.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> [round(typical_breath(day=day, temp_c=15).heat_kw, 2) for day in (0, 1, 3, 5)]
    [0.18, 0.41, 1.4, 1.14]
    """
    check("day", day, DAY)
    check("temp_c", temp_c, GRAIN_C, GRAIN_REASON)
    grown = growth_after_cast(day=min(day + MIDDLE, DAY.high), temp_c=temp_c)
    return _breath(BED_PERCENT, grown, temp_c, 1.0)


def soonest_breath(*, day: float, temp_c: float) -> Exchange:
    """Give the most that a tonne of barley may breathe on a day: what figures about gas and people reckon with.

    Parameters
    ----------
    day, temp_c
        As for :func:`typical_breath`.

    Returns
    -------
    Exchange
        For each tonne of barley as filled.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    :data:`breathing.GUARDED_FACTOR` times the law, for grain a day further on than is said
    (in the steep half a day) and never cooler since the cast than 15 C.  Once it has come to its highest it is taken to
    stay there: nobody should count on the decline.  Below 15 C the gentler end of the
    response to warmth is taken, which is what is remembered of barley (a Q10 of 2.2).

    Examples
    --------
    >>> [round(soonest_breath(day=day, temp_c=15).heat_kw, 1) for day in (0, 1, 3, 10)]
    [1.4, 4.8, 4.9, 4.9]
    """
    check("day", day, DAY)
    check("temp_c", temp_c, GRAIN_C, GRAIN_REASON)
    since = min(AHEAD_IN_STEEP_DAYS + (1.0 + AHEAD_DAYS - AHEAD_IN_STEEP_DAYS) * day, day + AHEAD_DAYS)
    grown = min(growth_after_cast(day=min(since + 1.0, DAY.high), temp_c=max(temp_c, REFERENCE_C)), HIGHEST_H)
    cold = COLD_KJ_MOL - (RESPONSE_DOUBT_KJ_MOL if temp_c < REFERENCE_C else 0.0)
    return _breath(BED_PERCENT, grown, temp_c, GUARDED_FACTOR, cold)


def breath_of_immersion(*, immersion: int, temp_c: float) -> tuple[Exchange, Exchange]:
    """Give what corns under water would breathe if water brought oxygen enough: typically, and at the most.

    Parameters
    ----------
    immersion : int
        1 for the first; from the third on all count as the third.
    temp_c : float
        Temperature of the water [C], 0 to 40.

    Returns
    -------
    tuple of Exchange
        For each tonne of barley as filled, at the end of the immersion.  From the third on
        they are :func:`typical_breath` and :func:`soonest_breath` of day 0.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> [round(1000 * breath_of_immersion(immersion=n, temp_c=15)[0].o2_kg_h) for n in (1, 2, 3)]
    [27, 35, 45]
    """
    check("immersion", immersion, Bounds(1, 20))
    check("temp_c", temp_c, GRAIN_C, GRAIN_REASON)
    if immersion >= len(IMMERSIONS):
        return typical_breath(day=0.0, temp_c=temp_c), soonest_breath(day=0.0, temp_c=temp_c)
    state = IMMERSIONS[immersion - 1]
    typical, most = (_breath(*state, temp_c, factor) for factor in (1.0, GUARDED_FACTOR))
    return typical, most
