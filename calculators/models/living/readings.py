"""What is read of a batch, and how likely each reading is for a batch that goes some way.

A reading of a weight or a temperature may be wrong by more than its scatter says: it is
held against the batch by Student's t, so that one slip does not overrule the others.
Corns of a handful come from one place: a count weighs as half as many corns.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import log
from typing import NamedTuple, TypeAlias

from ..bed.floor import DEPTH_CM, HOURS, apart_when_read, mean_c
from ..bounds import STEEPED_MOISTURE, Bounds, OutOfRange, check
from .acrospires import shares_below
from .chitting import share_chitted
from .lot_plan_state import Lot, State, at_hour
from .maths import FLOATS, Maths, Values

BASKET_SD = 0.25
OVEN_SD = 0.4
PROBE_SD = 0.7
DIFFERENCE_SD_K, DIFFERENCE_SHARE = 0.7, 0.3
"""Scatter of single readings: points of moisture, kelvin; trade judgement.

An oven's includes taking the sample.  A difference between bottom and top is foretold from
the heat and a typical surface (``floor.apart_when_read``): surface and conductivity, each
known to a factor of two and to a quarter, make three tenths of it.
"""

ROOM_C = 12.0
"""Air over a piece where nobody has read it [C]: as a plan has it that does not say."""

FREEDOM = 5.0
COUNT_WEIGHT = 0.5
LEAST_SHARE = 0.004  # of corns that were miscounted or came from another batch

CORNS = Bounds(1, 10_000)
TEMP_READ = Bounds(-5.0, 60.0)
SINCE_TURNING_H = Bounds(0.1, HOURS.high)
DEPTH_M = Bounds(DEPTH_CM.low / 100.0, DEPTH_CM.high / 100.0)


class Basket(NamedTuple):
    """A basket weighed in the steep: drained moisture, worked out with the barley's moisture as typed."""

    hour: float
    moisture: float


class Oven(NamedTuple):
    """A moisture found by drying, in the steep with its film or from the bed."""

    hour: float
    moisture: float


class Probe(NamedTuple):
    """A temperature of the grain, as a mean over places."""

    hour: float
    temp_c: float


class Chits(NamedTuple):
    """Corns chitted of those looked at."""

    hour: float
    chitted: int
    corns: int


class BottomTop(NamedTuple):
    """Temperatures at the bottom and the top of a piece some hours after turning."""

    hour: float
    bottom_c: float
    top_c: float
    hours_since_turning: float
    depth_m: float
    room_c: float = ROOM_C


class AcrospireCount(NamedTuple):
    """Corns in the five classes of acrospire, shortest first."""

    hour: float
    counts: tuple[int, int, int, int, int]


Reading: TypeAlias = Basket | Oven | Probe | Chits | BottomTop | AcrospireCount


class Systematic(NamedTuple):
    """What all readings of a kind have in common; a float, or an array of one for each batch."""

    basket_points: Values
    probe_k: Values
    shape_points: Values


def check_readings(readings: Sequence[Reading], cast: float, end: float) -> None:
    """Raise for readings that cannot be.

    Parameters
    ----------
    readings : sequence of Reading
        What was read.
    cast, end : float
        Hours since the first wetting of the cast and of the end of the plan [h].

    Raises
    ------
    OutOfRange
        When a reading is before or after the batch, or its value is outside its limits; ``table`` is
        ``readings`` and ``row`` its number from 0.
    """
    for row, one in enumerate(readings):
        last = cast if isinstance(one, Basket) else end
        first = cast if isinstance(one, BottomTop | AcrospireCount) else 0.25
        check("hour", one.hour, Bounds(first, max(first, last)), "", "readings", row)
        if isinstance(one, Basket | Oven):
            check("moisture", one.moisture, STEEPED_MOISTURE, "", "readings", row)
        elif isinstance(one, Probe):
            check("temp_c", one.temp_c, TEMP_READ, "", "readings", row)
        elif isinstance(one, Chits):
            check("corns", one.corns, CORNS, "", "readings", row)
            check("chitted", one.chitted, Bounds(0, one.corns), "", "readings", row)
        elif isinstance(one, BottomTop):
            check("bottom_c", one.bottom_c, TEMP_READ, "", "readings", row)
            check("top_c", one.top_c, TEMP_READ, "", "readings", row)
            check("hours_since_turning", one.hours_since_turning, SINCE_TURNING_H, "", "readings", row)
            check("depth_m", one.depth_m, DEPTH_M, "", "readings", row)
        elif not all(count >= 0 for count in one.counts) or not 1 <= sum(one.counts) <= CORNS.high:
            raise OutOfRange("counts", CORNS.low, CORNS.high, "Count at least one corn.", "readings", row)


def _t(m: Maths, off: Values, sd: Values) -> Values:
    return -0.5 * (FREEDOM + 1.0) * m.log(1.0 + (off / sd) ** 2 / FREEDOM) - m.log(sd)


def _counted(m: Maths, counts: Sequence[int], shares: Sequence[Values]) -> Values:
    total: Values = 0.0
    for count, share in zip(counts, shares, strict=True):
        if count:
            total = total + count * m.log(LEAST_SHARE + (1.0 - LEAST_SHARE * len(shares)) * m.most(share, 0.0))
    return COUNT_WEIGHT * total


def expected(
    m: Maths, one: Reading, states: Sequence[State], lot: Lot, alike: Systematic, barley_moisture: float
) -> tuple[Values, ...]:
    """Give what a reading would show but for its own scatter, for one batch or for each of many.

    Parameters
    ----------
    m : Maths
        For floats or arrays.
    one : Reading
        Which reading and when; what it found is not looked at.
    states : sequence of State
        The way of the batch.
    lot : Lot
        What it is.
    alike : Systematic
        What readings of a kind have in common.
    barley_moisture : float
        Moisture that was typed for the barley, % of wet weight.

    Returns
    -------
    tuple of float or array
        Of a basket or an oven the moisture [%]; of a probe the temperature [C]; of chits the share; of bottom and top
        their mean [C] and their difference [K]; of acrospires the share in each class.
    """
    if isinstance(one, Basket | Oven):
        found = at_hour(states, one.hour, lambda s: s.drained) + alike.shape_points
        if isinstance(one, Oven):
            return (found,)
        drier = (100.0 - barley_moisture) / (100.0 - lot.barley_moisture)
        return (100.0 - (100.0 - found) * drier + alike.basket_points,)
    if isinstance(one, Probe):
        return (at_hour(states, one.hour, lambda s: s.temp_c) + alike.probe_k,)
    if isinstance(one, Chits):
        return (share_chitted(m, at_hour(states, one.hour, lambda s: s.chit_h), lot.corns),)
    if isinstance(one, BottomTop):
        warm = at_hour(states, one.hour, lambda s: s.temp_c)
        heat = at_hour(states, one.hour, lambda s: s.heat_kw)
        apart = apart_when_read(hours=one.hours_since_turning, depth_m=one.depth_m)
        return warm + alike.probe_k, apart.of(warm - one.room_c, heat)
    below = shares_below(m, at_hour(states, one.hour, lambda s: s.growth_h), lot.corns, lot.acrospires)
    return tuple(b - a for a, b in pairwise([0.0 * below[0], *below, 1.0 + 0.0 * below[0]]))


def difference_sd(m: Maths, apart: Values) -> Values:
    """Give the scatter of bottom less top, where so much is expected [K]."""
    return m.exp(0.5 * m.log(DIFFERENCE_SD_K**2 + (DIFFERENCE_SHARE * apart) ** 2))


def log_likelihood(
    m: Maths, one: Reading, states: Sequence[State], lot: Lot, alike: Systematic, barley_moisture: float
) -> Values:
    """Give how likely a reading is, up to a constant, for one batch or for each of many.

    Parameters
    ----------
    m, one, states, lot, alike, barley_moisture
        As for :func:`expected`; the reading is taken as checked.

    Returns
    -------
    float or array
        Logarithm of the likelihood.
    """
    would = expected(m, one, states, lot, alike, barley_moisture)
    if isinstance(one, Basket | Oven):
        return _t(m, one.moisture - would[0], OVEN_SD if isinstance(one, Oven) else BASKET_SD)
    if isinstance(one, Probe):
        return _t(m, one.temp_c - would[0], PROBE_SD)
    if isinstance(one, Chits):
        return _counted(m, (one.chitted, one.corns - one.chitted), (would[0], 1.0 - would[0]))
    if isinstance(one, BottomTop):
        warm, apart = would
        mean = mean_c(bottom_c=one.bottom_c, top_c=one.top_c)
        return _t(m, mean - warm, PROBE_SD) + _t(m, one.bottom_c - one.top_c - apart, difference_sd(m, apart))
    return _counted(m, one.counts, would)


def best_log_likelihood(one: Reading) -> float:
    """Give the logarithm of the likelihood of a reading on a batch that shows just it."""
    if isinstance(one, Basket):
        return -log(BASKET_SD)
    if isinstance(one, Oven):
        return -log(OVEN_SD)
    if isinstance(one, Probe):
        return -log(PROBE_SD)
    if isinstance(one, BottomTop):
        return -log(PROBE_SD) - log(DIFFERENCE_SD_K)
    counts = one.counts if isinstance(one, AcrospireCount) else (one.chitted, one.corns - one.chitted)
    return float(_counted(FLOATS, counts, [count / sum(counts) for count in counts]))
