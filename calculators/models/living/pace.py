"""How fast corns come on: the pace of chitting and of growth by temperature, water and air.

Two clocks run from the first wetting.  The *chit clock* counts hours towards the chit, the
*growth clock* hours of growth, after which breathing and acrospires go.  Each runs one hour
an hour at 15 C in air with water enough.  They answer to temperature differently: chitting
by the counts of a published series, growth by what is remembered of the trade.  Under
water both run slowly, and a long immersion leaves a debt of oxygen that a rest pays first.
"""

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from ..bounds import Bounds, OutOfRange, check
from .maths import FLOATS, Maths, Values

REFERENCE_C = 15.0

CHIT_BASE_C = -2.1
"""Temperature at which chitting would stop, by a straight line [C].

Thermal time fitted to barley at 3 to 25 C (data set ``barley`` of the R package drcSeedGerm;
Onofri, Benincasa, Mesgaran, Ritz 2018, Eur. J. Agron. 101:129, data read) by the likelihood
of interval-censored counts.  An Arrhenius law fits the same counts worse (by 28 in log
likelihood).  It gives a Q10 of 1.6 from 15 to 25 C and 2.4 from 5 to 15 C.
"""

CHIT_BASE_SD_C = 1.5
"""Standard deviation of the base from lot to lot [C]: fits on parts of the series give -3.1 to 0.2."""

CHIT_C = Bounds(1.0, 30.0)
CHIT_FAILED_C = 35.0
"""Temperature at which four corns of five failed in that series [C]; at 40 C all did."""

CHIT_REASON = (
    f"Chitting was counted at {CHIT_C.low:.6g} to {CHIT_C.high:.6g} °C; at {CHIT_FAILED_C:.6g} °C four corns of five "
    "failed, at 40 °C all."
)

GROWTH_Q10 = 2.25
"""Pace of growth for 10 K more: 2 to 2.5 (from memory).

Thomson 1824 (read): floors at 62 F took 14 days, at 55 F 18 to 21: 1.9 to 2.8 (computed).
"""

GROWTH_Q10_SD = 0.25
GROWTH_C = Bounds(0.0, 40.0)

SHOWS_MOISTURE, EVEN_MOISTURE = 26.0, 40.0
"""Moistures inside the corn from which it grows, and from which water no longer holds it back [%].

Narziss (read in translation): life shows at about 30 %, even growth from about 38 %.  Here
the pace is a fifth at 30 % and 0.94 at 38 %.
"""

UNDER_WATER = 0.35
"""Pace under water against that in air [-]: our assumption.

Embryos were short of oxygen under every way of steeping tried, and how the grain was
steeped changed when it germinated (Wilhelmson and others 2006, J. Agric. Food Chem.
54:409, abstract read).
"""

FREE_IMMERSION_H = 12.0
"""Hours of one immersion after which the clocks stand still [h]: our assumption."""

DEBT_PER_H = 0.25
"""Hours of rest needed to make good each further hour of immersion [h/h]: our assumption."""

AT_CAST_H = 18.0
"""Hours of growth at the cast [h]: what usual steeps at 14 C come to (computed)."""

MOISTURE_PERCENT = Bounds(5.0, 55.0)
STAGES = Bounds(1, 20)
STAGE_H = Bounds(0.25, 72.0)


def chit_pace(m: Maths, temp_c: Values, base_c: Values = CHIT_BASE_C) -> Values:
    """Give the pace of the chit clock against 15 C [-], for floats or arrays; flat above 30 C, where it fails."""
    return m.most(m.least(temp_c, CHIT_C.high) - base_c, 0.0) / (REFERENCE_C - base_c)


def growth_pace(m: Maths, temp_c: Values, q10: Values = GROWTH_Q10) -> Values:
    """Give the pace of the growth clock against 15 C [-], for floats or arrays."""
    return m.exp(m.log(q10) * (temp_c - REFERENCE_C) / 10.0)


def water_pace(m: Maths, net_moisture: Values) -> Values:
    """Give how far water lets the clocks run [-], from 0 to 1."""
    share = m.least(m.most((net_moisture - SHOWS_MOISTURE) / (EVEN_MOISTURE - SHOWS_MOISTURE), 0.0), 1.0)
    return share * share * (3.0 - 2.0 * share)


class Paces(NamedTuple):
    """Hours that the two clocks gain in an hour [-]."""

    chit: float
    growth: float


def paces(*, net_moisture: float, temp_c: float, air_share: float = 1.0) -> Paces:
    """Give how fast corns come on in a state.

    Parameters
    ----------
    net_moisture : float
        Moisture inside the corns, % of wet weight, 5 to 55.
    temp_c : float
        Temperature of the grain [C], 1 to 30.
    air_share : float, optional
        What air there is lets run, from 0 to 1 (:func:`air_shares`).

    Returns
    -------
    Paces
        Of the chit clock and the growth clock, 1 at 15 C in air with water enough.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> paces(net_moisture=44.0, temp_c=15.0)
    Paces(chit=1.0, growth=1.0)
    >>> [round(x, 2) for x in paces(net_moisture=44.0, temp_c=20.0)]
    [1.29, 1.5]
    """
    check("net_moisture", net_moisture, MOISTURE_PERCENT)
    check("temp_c", temp_c, CHIT_C, CHIT_REASON)
    check("air_share", air_share, Bounds(0.0, 1.0))
    share = air_share * water_pace(FLOATS, net_moisture)
    return Paces(share * chit_pace(FLOATS, temp_c), share * growth_pace(FLOATS, temp_c))


class AirShare(NamedTuple):
    """From an hour on, the air lets the clocks run at this share."""

    from_h: float
    share: float


def air_shares(*, stage_hours: Sequence[float], begins_wet: bool = True) -> list[AirShare]:
    """Give what the air lets run through a steep: less under water, nothing while a debt is paid.

    Parameters
    ----------
    stage_hours : sequence of float
        Lengths of immersion and air rest by turns [h], 1 to 20 of them, each 0.25 to 72.
    begins_wet : bool, optional
        False when the first is a rest.

    Returns
    -------
    list of AirShare
        In order from hour 0; after the last stage the debt is paid on and then air is free.

    Raises
    ------
    OutOfRange
        When a length or their number is outside its limits.

    Examples
    --------
    >>> air_shares(stage_hours=[8, 8])
    [AirShare(from_h=0.0, share=0.35), AirShare(from_h=8.0, share=1.0)]
    >>> [tuple(a) for a in air_shares(stage_hours=[24, 8])]
    [(0.0, 0.35), (12.0, 0.0), (27.0, 1.0)]
    """
    check("stage_hours", len(stage_hours), STAGES)
    found: list[AirShare] = []
    hour, debt = 0.0, 0.0

    def mark(at: float, share: float) -> None:
        if not found or found[-1].share != share:
            found.append(AirShare(at, share))

    for number, length in enumerate(stage_hours):
        check("hours", length, STAGE_H, "", "stages", number)
        if (number % 2 == 0) == begins_wet:
            mark(hour, 0.0 if debt > 0.0 else UNDER_WATER)
            if length > FREE_IMMERSION_H:
                mark(hour + FREE_IMMERSION_H, 0.0)
                debt += DEBT_PER_H * (length - FREE_IMMERSION_H)
        else:
            paid = min(debt, length)
            if paid > 0.0:
                mark(hour, 0.0)
            debt -= paid
            if paid < length:
                mark(hour + paid, 1.0)
        hour += length
    if debt > 0.0:
        mark(hour, 0.0)
    mark(hour + debt, 1.0)
    return found


def air_share_at(shares: Sequence[AirShare], hour: float, until_h: float) -> float:
    """Give the mean share between two hours [-]."""
    total = 0.0
    for n, one in enumerate(shares):
        end = shares[n + 1].from_h if n + 1 < len(shares) else inf
        if end <= hour:
            continue
        if one.from_h >= until_h:
            break
        if one.from_h <= hour and until_h <= end:
            return one.share
        total += one.share * max(0.0, min(until_h, end) - max(hour, one.from_h))
    return total / (until_h - hour)


def growth_after_cast(*, day: float, temp_c: float) -> float:
    """Give the hours of growth of a piece by day after the cast, where nothing better is known.

    Parameters
    ----------
    day : float
        Day after the cast counted from 1; 1.5 is the middle of the first, and 0 is taken as the cast.
    temp_c : float
        Temperature of the piece since [C], 0 to 40.

    Returns
    -------
    float
        Hours of growth at 15 C [h].

    Raises
    ------
    OutOfRange
        When the day is not from 0 to 30, or another value is outside its limits.

    Examples
    --------
    >>> growth_after_cast(day=3.5, temp_c=15.0)
    78.0
    """
    check("day", day, Bounds(0.0, 30.0))
    check("temp_c", temp_c, GROWTH_C)
    days = max(0.0, day - 1.0)
    grown: float = AT_CAST_H + 24.0 * days * growth_pace(FLOATS, temp_c)
    return grown


def must_grow(*, moisture: float) -> None:
    """Raise where corns are too dry to grow.

    Raises
    ------
    OutOfRange
        Under 26 %.
    """
    if moisture < SHOWS_MOISTURE:
        raise OutOfRange("moisture", SHOWS_MOISTURE, MOISTURE_PERCENT.high, "Drier corns do not grow.")
