"""What a reading still to come would narrow, and how far a batch goes at its worst: read off an ensemble.

A reading is worth what it takes off the variance of a figure, on the mean over what it may show.  That is the
variance of the mean which one would have after it, and this mean, as a function of what is read, is found by
regression: each member says what it would show, scatter and all, and the figure of the members is fitted to that
(Strong, Oakley, Brennan & Breeze 2015, Med. Decis. Making 35:570, abstract read; variance as the measure: Jackson,
Presanis, Conti & De Angelis 2019, J. Am. Stat. Assoc. 114:1436, not read).  No batch is run again for it.

This module imports numpy; it is itself imported only where an ensemble is asked for.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from ..bed.floor import bottom_before_turning
from .arrays import ARRAYS
from .draws import Array, spread_of
from .ensemble import Ensemble
from .readings import (
    BASKET_SD,
    COUNT_WEIGHT,
    FREEDOM,
    OVEN_SD,
    PROBE_SD,
    Basket,
    BottomTop,
    Chits,
    Oven,
    Probe,
    Reading,
    difference_sd,
    expected,
)

_SCATTER = (FREEDOM / (FREEDOM - 2.0)) ** 0.5
"""Standard deviation of Student's t against its scale [-]."""

POWERS = 3
"""Powers of what is read that a figure is fitted to: our choice; figures bend with what is read, and rarely twice."""

SEED = 3
"""Of the scatter of readings not yet taken; one seed, so that the same batch is told the same."""

LEAST_WORTH = 0.02
"""Share of the spread that a further reading must take off to be named [-]: our judgement."""


class Sought(NamedTuple):
    """A figure that one would know better: its name, the hour it is of, and its value in each member."""

    name: str
    hour: float
    values: Array


class Step(NamedTuple):
    """A reading to take, and the share of each figure's spread that is left after it and those before it."""

    reading: Reading
    left: Mapping[str, float]


def would_show(one: Ensemble, reading: Reading, random: np.random.Generator) -> Array:
    """Give what a reading would show in each member, with its own scatter.

    Parameters
    ----------
    one : Ensemble
        The batch.
    reading : Reading
        Which reading and when; what it found is not looked at, but for how many corns were counted.
    random : numpy.random.Generator
        For the scatter.

    Returns
    -------
    ndarray
        Shape (figures, members): a moisture [%]; a temperature [C]; the share chitted; the mean [C] of bottom and
        top and their difference [K]; or the shares of corns in the five classes of acrospire.
    """
    found = expected(ARRAYS, reading, one.states, one.lot, one.alike(), one.base.barley_moisture)
    rows = np.array([np.broadcast_to(np.asarray(row), (one.members,)) for row in found])
    if isinstance(reading, Basket | Oven | Probe):
        sd = BASKET_SD if isinstance(reading, Basket) else OVEN_SD if isinstance(reading, Oven) else PROBE_SD
        read: Array = rows + _SCATTER * sd * random.standard_normal(rows.shape)
        return read
    if isinstance(reading, BottomTop):
        sds = np.array([np.full(one.members, PROBE_SD), difference_sd(ARRAYS, rows[1])])
        both: Array = rows + _SCATTER * sds * random.standard_normal(rows.shape)
        return both
    corns = reading.corns if isinstance(reading, Chits) else sum(reading.counts)
    tell = max(1, round(COUNT_WEIGHT * corns))
    shares = np.array([rows[0], 1.0 - rows[0]]) if isinstance(reading, Chits) else rows
    shares = np.clip(shares, 0.0, 1.0)
    counted = random.multinomial(tell, (shares / shares.sum(axis=0)).T).T / tell
    return counted[:1] if isinstance(reading, Chits) else counted


def _features(reading: Reading, shown: Array) -> Array:
    """What a figure is fitted to: counts as the angle whose scatter does not hang on the share."""
    if isinstance(reading, Chits):
        return np.arcsin(np.sqrt(shown))
    if isinstance(reading, Basket | Oven | Probe | BottomTop):
        return shown
    mean = np.arange(shown.shape[0]) @ shown
    return np.array([mean, np.arcsin(np.sqrt(shown[-2:].sum(axis=0)))])


def _columns(features: Array) -> Array:
    found = []
    for row in features:
        sd = float(row.std())
        if sd > 1e-9:
            scaled = (row - row.mean()) / sd
            found += [scaled**power for power in range(1, POWERS + 1)]
    return np.array(found).reshape(len(found), features.shape[1])


def variance_left(values: Array, columns: Array) -> Array:
    """Give the share of each figure's variance that is left once it is fitted to some columns.

    Parameters
    ----------
    values : ndarray
        Figures in each member, shape (figures, members).
    columns : ndarray
        What is read, shape (columns, members); may be none.

    Returns
    -------
    ndarray
        Shape (figures,), 0 to 1, made good for what a fit to so many columns takes off by chance.
    """
    members = values.shape[1]
    basis, _ = np.linalg.qr(np.vstack([np.ones(members), columns]).T)
    off = values - values.mean(axis=1, keepdims=True)
    whole = np.square(off).sum(axis=1)
    rest = np.square(off - (off @ basis) @ basis.T).sum(axis=1)
    left = rest / np.maximum(whole, 1e-12) * (members - 1.0) / (members - basis.shape[1])
    capped: Array = np.clip(left, 0.0, 1.0)
    return capped


def readings_to_take(
    one: Ensemble, sought: Sequence[Sought], candidates: Sequence[Reading], most: int = 3
) -> list[Step]:
    """Give the readings that would narrow the figures most, the best first, each on top of those before it.

    Parameters
    ----------
    one : Ensemble
        The batch.
    sought : sequence of Sought
        What one would know better; each counts alike, by the share of its spread.
    candidates : sequence of Reading
        Readings that could be taken; one says something only of figures of later hours.
    most : int, optional
        How many readings at most.

    Returns
    -------
    list of Step
        Fewer where no further reading takes off a fiftieth of the spread.
    """
    if not sought or not candidates:
        return []
    random = np.random.default_rng(SEED)
    ready = [(c, _columns(_features(c, would_show(one, c, random)))) for c in candidates]
    values = np.array([s.values for s in sought])
    later = np.array([[s.hour > c.hour for s in sought] for c in candidates])
    had: list[tuple[int, ...]] = [() for _ in sought]  # the readings taken before the hour of each figure
    spread = np.ones(len(sought))
    steps: list[Step] = []
    open_ = list(range(len(ready)))
    while open_ and len(steps) < most:
        found = []
        for n in open_:
            after = spread.copy()
            for known in sorted({had[k] for k in np.flatnonzero(later[n])}):
                ks = [int(k) for k in np.flatnonzero(later[n]) if had[k] == known]  # alike in what was read of them
                left = variance_left(values[ks], np.vstack([*(ready[m][1] for m in known), ready[n][1]]))
                after[ks] = np.minimum(spread[ks], left**0.5)
            found.append((float((spread - after).mean()), n, after))
        gain, best, after = max(found, key=lambda one_: one_[0])
        if gain < LEAST_WORTH:
            break
        open_.remove(best)
        for k in np.flatnonzero(later[best]):
            had[k] = (*had[k], best)
        spread = after
        steps.append(Step(ready[best][0], {s.name: float(x) for s, x in zip(sought, spread, strict=True)}))
    return steps


class Extreme(NamedTuple):
    """Low, middle and high of the furthest value that members come to, and the hour at which the middle is furthest."""

    low: float
    middle: float
    high: float
    hour: float


def furthest(one: Ensemble, of: str, hours: Sequence[float], lowest: bool = False) -> Extreme:
    """Give how high, or how low, a figure goes in each member over some hours.

    Parameters
    ----------
    one : Ensemble
        The batch.
    of : str
        As for ``Ensemble.values``.
    hours : sequence of float
        Hours since the first wetting [h], one at least.
    lowest : bool, optional
        Whether the lowest value is asked for.
    """
    return _furthest(one.rows(of, hours), hours, lowest)


def _furthest(rows: Array, hours: Sequence[float], lowest: bool) -> Extreme:
    ends = rows.min(axis=0) if lowest else rows.max(axis=0)
    low, middle, high = (float(x[0]) for x in spread_of(ends[np.newaxis, :]))
    middles = np.median(rows, axis=1)
    return Extreme(low, middle, high, hours[int(middles.argmin() if lowest else middles.argmax())])


def warmest_bottom(
    one: Ensemble, hours: Sequence[float], *, turned_every_h: float, depth_m: float, room_c: float
) -> Extreme:
    """Give how warm the bottom of a piece gets just before it is turned [C].

    Parameters
    ----------
    one : Ensemble
        The batch.
    hours : sequence of float
        Hours since the first wetting [h] that are looked at.
    turned_every_h : float
        Hours from one turning to the next [h].
    depth_m : float
        Depth of the piece [m].
    room_c : float
        Air over the piece [C].

    Notes
    -----
    The temperature that the piece is kept at is its mean from turning to turning (``floor.bottom_before_turning``).
    """
    bottom = bottom_before_turning(hours=turned_every_h, depth_m=depth_m)
    rows = room_c + bottom.of(one.rows("warmth", hours) - room_c, one.rows("heat", hours))
    return _furthest(rows, hours, False)


def least_known(one: Ensemble, of: str, hours: Sequence[float]) -> Sought | None:
    """Give a figure at the hour at which members differ most; None without an hour."""
    if not hours:
        return None
    rows = one.rows(of, hours)
    widest = int(rows.std(axis=1).argmax())
    return Sought(of, hours[widest], rows[widest])
