"""What is read of a batch, and how likely each reading is for a batch that goes some way.

A reading of a weight or a temperature may be wrong by more than its scatter says: it is
held against the batch by Student's t, so that one slip does not overrule the others.
Corns of a handful come from one place: a count weighs as half as many corns.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import log
from typing import NamedTuple, TypeAlias

from ..bed.floor import difference_held
from ..bounds import STEEPED_MOISTURE, Bounds, OutOfRange, check
from .acrospires import shares_below
from .chitting import share_chitted
from .lot_plan_state import Lot, State, at_hour
from .maths import FLOATS, Maths, Values

BASKET_SD = 0.25
OVEN_SD = 0.4
PROBE_SD = 0.7
DIFFERENCE_SD_K, DIFFERENCE_SHARE = 0.7, 0.25
"""Scatter of single readings: points of moisture, kelvin; trade judgement.

An oven's includes taking the sample.  A difference between bottom and top is foretold from
the heat with the surface held (``floor.difference_held``), which is good to a quarter.
"""

FREEDOM = 5.0
COUNT_WEIGHT = 0.5
LEAST_SHARE = 0.004  # of corns that were miscounted or came from another batch

CORNS = Bounds(1, 10_000)
TEMP_READ = Bounds(-5.0, 60.0)


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


def check_readings(readings: Sequence[Reading], states: Sequence[State]) -> None:
    """Raise for readings that cannot be.

    Raises
    ------
    OutOfRange
        When a reading is before or after the batch, or its value is outside its limits; ``table`` is
        ``readings`` and ``row`` its number from 0.
    """
    cast = max(s.hour for s in states if s.steeping)
    end = states[-1].hour
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
            check("hours_since_turning", one.hours_since_turning, Bounds(0.1, 36.0), "", "readings", row)
            check("depth_m", one.depth_m, Bounds(0.04, 0.8), "", "readings", row)
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


def log_likelihood(
    m: Maths, one: Reading, states: Sequence[State], lot: Lot, alike: Systematic, barley_moisture: float
) -> Values:
    """Give how likely a reading is, up to a constant, for one batch or for each of many.

    Parameters
    ----------
    m : Maths
        For floats or arrays.
    one : Reading
        The reading, taken as checked.
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
    float or array
        Logarithm of the likelihood.
    """
    if isinstance(one, Basket | Oven):
        found = at_hour(states, one.hour, lambda s: s.drained) + alike.shape_points
        if isinstance(one, Oven):
            return _t(m, one.moisture - found, OVEN_SD)
        drier = (100.0 - barley_moisture) / (100.0 - lot.barley_moisture)
        return _t(m, one.moisture - (100.0 - (100.0 - found) * drier) - alike.basket_points, BASKET_SD)
    if isinstance(one, Probe):
        warm = at_hour(states, one.hour, lambda s: s.temp_c)
        return _t(m, one.temp_c - warm - alike.probe_k, PROBE_SD)
    if isinstance(one, Chits):
        share = share_chitted(m, at_hour(states, one.hour, lambda s: s.chit_h), lot.corns)
        return _counted(m, (one.chitted, one.corns - one.chitted), (share, 1.0 - share))
    if isinstance(one, BottomTop):
        warm = at_hour(states, one.hour, lambda s: s.temp_c)
        heat = at_hour(states, one.hour, lambda s: s.heat_kw)
        held = heat * difference_held(hours=one.hours_since_turning, depth_m=one.depth_m, heat_kw_t=1.0)
        mean = 0.5 * (one.bottom_c + one.top_c)
        sd = m.exp(0.5 * m.log(DIFFERENCE_SD_K**2 + (DIFFERENCE_SHARE * held) ** 2))
        return _t(m, mean - warm - alike.probe_k, PROBE_SD) + _t(m, one.bottom_c - one.top_c - held, sd)
    below = shares_below(m, at_hour(states, one.hour, lambda s: s.growth_h), lot.corns, lot.acrospires)
    shares = [b - a for a, b in pairwise([0.0 * below[0], *below, 1.0 + 0.0 * below[0]])]
    return _counted(m, one.counts, shares)


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
