"""When corns chit: a spread of corns over the chit clock, its counts, and what a house's own counts say.

A corn chits when its chit clock (``pace``) reaches the corn's own hours.  Corns that will
grow spread about a middle corn as a lognormal; those sensitive to water come later; the
others never do.  The shape and the answer to temperature come from published counts.  The
middle corn's hours do not: those seeds lay on wet paper and were counted late.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from ..bounds import Bounds, OutOfRange, check
from .maths import FLOATS, Maths, Values

MIDDLE_H = 15.0
"""Chit clock at which half of the corns that will grow have chitted [h at 15 C in air].

Tuned to common practice (no source): a usual steep with two rests at 14 C is cast with two
corns of three chitted, and nearly all are half a day later.  On wet paper it is 74 h, with
the taking up of water and late counting (the published series); at 20 C the mean day of
chitting in dishes was 1.75 in a lot of malting barley (germination index 5.71: McCafferty &
Bryce 1999, Seed Sci. Technol. 27:633, abstract read, worked out here).
"""

MIDDLE_LOG_SD = 0.3
"""Standard deviation of its logarithm from lot to lot [-].

The two lots named differ by a factor of 1.9 once both are taken to 15 C (computed); our
judgement for lots that a malthouse takes in, until its own counts say more.
"""

SPREAD = 0.30
"""Standard deviation of the logarithm of a corn's hours [-].

The published series gives 0.25 over all temperatures together and 0.12 to 0.39 at single
ones; hours counted from dry seed spread less than hours counted from awake.
"""

SPREAD_LOG_SD = 0.25
LATE_FACTOR = 1.6
"""How much longer corns sensitive to water take [-]: our assumption."""

MIDDLE = Bounds(4.0, 200.0)
SPREADS = Bounds(0.05, 1.0)
SHARE = Bounds(0.0, 1.0)
CORNS = Bounds(1, 100_000)


class Corns(NamedTuple):
    """How the corns of a lot spread.

    Parameters
    ----------
    middle_h : float
        Chit clock of the middle corn [h].
    spread : float
        Standard deviation of the logarithm [-].
    grows : float
        Share that will grow: the energy of the lot, from 0 to 1; a dormant corn counts as
        one that will not.
    sensitive : float
        Share sensitive to water (energy in 4 ml less energy in 8 ml), from 0 to 1; they are
        among those that grow and come later.
    """

    middle_h: Values = MIDDLE_H
    spread: Values = SPREAD
    grows: Values = 0.97
    sensitive: Values = 0.05


def share_chitted(m: Maths, clock_h: Values, corns: Corns) -> Values:
    """Give the share of all corns that has chitted when the chit clock shows some hours; floats or arrays."""
    z = (m.log(m.most(clock_h, 1e-9)) - m.log(corns.middle_h)) / corns.spread
    late = m.normal_share(z - math.log(LATE_FACTOR) / corns.spread)
    slow = m.least(corns.sensitive, corns.grows)
    return (corns.grows - slow) * m.normal_share(z) + slow * late


def check_corns(corns: Corns) -> None:
    """Raise for corns that cannot be.

    Raises
    ------
    OutOfRange
        For a middle corn outside 4 to 200 h, a spread outside 0.05 to 1 or a share outside 0 to 1.
    """
    check("middle_h", corns.middle_h, MIDDLE)
    check("spread", corns.spread, SPREADS)
    check("grows", corns.grows, SHARE)
    check("sensitive", corns.sensitive, SHARE)


def chitted(*, clock_h: float, corns: Corns) -> float:
    """Give the share of all corns that has chitted.

    Parameters
    ----------
    clock_h : float
        What the chit clock shows [h at 15 C in air], not negative.
    corns : Corns
        The lot.

    Returns
    -------
    float
        Share, 0 to 1.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> chitted(clock_h=15.0, corns=Corns(grows=1.0, sensitive=0.0))
    0.5
    """
    check("clock_h", clock_h, Bounds(0.0, 1e5))
    check_corns(corns)
    share: float = share_chitted(FLOATS, clock_h, corns)
    return share


def clock_for(*, share: float, corns: Corns) -> float | None:
    """Give what the chit clock must show for a share of all corns to have chitted.

    Parameters
    ----------
    share : float
        Share wanted, 0 to 1.
    corns : Corns
        The lot.

    Returns
    -------
    float or None
        Hours at 15 C in air [h]; None when fewer than that will ever chit.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> round(clock_for(share=0.8, corns=Corns()), 1)
    20.6
    """
    check("share", share, SHARE)
    check_corns(corns)
    if share >= corns.grows:
        return None
    low, high = 0.0, 1e5
    for _ in range(80):
        half = 0.5 * (low + high)
        if share_chitted(FLOATS, half, corns) < share:
            low = half
        else:
            high = half
    return high


class Counted(NamedTuple):
    """Corns that chitted between two times; a ``until_h`` of infinity holds those that had not."""

    after_h: float
    until_h: float
    corns: int


def intervals(*, times: Sequence[float], chitted: Sequence[int], corns: int) -> list[Counted]:
    """Give the intervals that a series of cumulative counts puts each corn in.

    Parameters
    ----------
    times : sequence of float
        When it was counted, rising, not negative.
    chitted : sequence of int
        Corns chitted by then, not falling.
    corns : int
        Corns laid out.

    Returns
    -------
    list of Counted
        A count that stands still says nothing of when it was looked at: each corn lies
        between the count that took it in and the count before that was different.

    Raises
    ------
    OutOfRange
        When times do not rise, counts fall, or a count is more than the corns.

    Examples
    --------
    >>> [tuple(one) for one in intervals(times=[1, 2, 3], chitted=[0, 0, 40], corns=50)]
    [(0.0, 3.0, 40), (3.0, inf, 10)]
    """
    check("corns", corns, CORNS)
    found: list[Counted] = []
    last_time, moved, count = 0.0, 0.0, 0
    for number, (time, now) in enumerate(zip(times, chitted, strict=True)):
        if time <= last_time:
            raise OutOfRange("time", last_time, math.inf, "Times rise.", "counts", number)
        check("chitted", now, Bounds(count, corns), "Counts are of all that have chitted so far.", "counts", number)
        if now > count:
            found.append(Counted(moved, float(time), now - count))
            moved, count = float(time), now
        last_time = float(time)
    if count < corns:
        found.append(Counted(last_time, math.inf, corns - count))
    return found


def log_likelihood(*, counted: Sequence[Counted], corns: Corns, hours_per_unit: float = 1.0) -> float:
    """Give the log likelihood of interval-censored counts.

    Parameters
    ----------
    counted : sequence of Counted
        From :func:`intervals`.
    corns : Corns
        The lot.
    hours_per_unit : float, optional
        Chit hours in one unit of the times: 24 x pace for days at a temperature.

    Returns
    -------
    float
        Sum over corns of the logarithm of the chance to lie in their interval.

    Notes
    -----
    Interval censoring as in Onofri and others 2018.  A chance under 1e-12 counts as that.
    """
    check_corns(corns)
    total = 0.0
    for one in counted:
        first: float = share_chitted(FLOATS, one.after_h * hours_per_unit, corns) if one.after_h > 0.0 else 0.0
        last: float = 1.0 if one.until_h == math.inf else share_chitted(FLOATS, one.until_h * hours_per_unit, corns)
        total += one.corns * math.log(max(last - first, 1e-12))
    return total


class House(NamedTuple):
    """What counts say of a lot: the middle corn, its doubt, and the share that grows."""

    corns: Corns
    middle_log_sd: float


def from_counts(
    *, counted: Sequence[Counted], corns: Corns | None = None, middle_log_sd: float = MIDDLE_LOG_SD
) -> House:
    """Give the lot that counts in steep or on the floor point to, held towards the typical.

    Parameters
    ----------
    counted : sequence of Counted
        Intervals in hours of the chit clock (from the course of the batch), not of the wall.
    corns : Corns, optional
        What is expected before; the typical lot.
    middle_log_sd : float, optional
        How well the middle corn is known before, standard deviation of the logarithm.

    Returns
    -------
    House
        Means over all middle corns and growing shares that the counts allow.

    Raises
    ------
    OutOfRange
        When there is no count.

    Notes
    -----
    Bayes' rule on a grid.  Corns of one handful come from one place: counts are taken as if
    a handful held half as many corns as it does, our allowance for that.

    Examples
    --------
    >>> late = from_counts(counted=intervals(times=[30.0], chitted=[40], corns=100))
    >>> late.corns.middle_h > 20.0
    True
    """
    check("counted", len(counted), Bounds(1, 1000))
    lot = corns or Corns()
    check_corns(lot)
    weights: list[tuple[float, float, float]] = []
    for a in range(-30, 31):
        out = a / 10.0
        middle = min(max(lot.middle_h * math.exp(middle_log_sd * out), MIDDLE.low), MIDDLE.high)
        for b in range(21):
            grows = lot.grows + (b - 18) * 0.02
            if not 0.0 < grows <= 1.0:
                continue
            here = 0.5 * log_likelihood(counted=counted, corns=lot._replace(middle_h=middle, grows=grows))
            here -= 0.5 * out * out + 0.5 * ((grows - lot.grows) / 0.03) ** 2
            weights.append((here, math.log(middle), grows))
    best = max(w[0] for w in weights)
    total = sum(math.exp(w[0] - best) for w in weights)
    mean = sum(math.exp(w[0] - best) * w[1] for w in weights) / total
    var = sum(math.exp(w[0] - best) * (w[1] - mean) ** 2 for w in weights) / total
    grows = sum(math.exp(w[0] - best) * w[2] for w in weights) / total
    return House(lot._replace(middle_h=math.exp(mean), grows=grows), math.sqrt(var))
