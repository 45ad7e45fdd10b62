"""A plan played through many weeks in which the stages take as long as they happen to; imports numpy.

Who holds a place before whom stays as it is planned. Each batch is filled and cast at its planned hour or as soon
after it as
place and hands allow, and is loaded as soon as it is ready, the kiln free and people there.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ...models.living.draws import Array
from ...models.living.pace import GROWTH_Q10, GROWTH_Q10_SD
from .house import RESTS_ACCEPTED, RESTS_MOST, WAITS_ACCEPTED, WAITS_MOST, WEEKS, Batch, House, Plan, people_needed

_SEED = 1815


class Doubt(NamedTuple):
    """How far the stages may be off.

    Attributes
    ----------
    days : float
        Of the days that a batch grows, either way, 95 of 100 [-].
    bed_off_k : tuple of float
        How far each bed is from the temperature that the days stand for [K].
    cast_h, kiln_h : float
        By how much a cast, and a kiln, may be later, 95 of 100 [h].
    """

    days: float
    bed_off_k: tuple[float, ...]
    cast_h: float
    kiln_h: float


class Drawn(NamedTuple):
    """What many weeks made of one batch: shares of the weeks [%], and hours [h].

    Attributes
    ----------
    cast_high : float
        Hour by which it was cast in 97.5 of 100 weeks.
    ready_low, ready_high : float
        Hours between which it was ready in 95 of 100 weeks.
    waits_watched, waits_stopped : float
        Weeks in which it waited ready for longer than is accepted, and past the stop.
    rests_watched, rests_stopped : float
        The same, drained before the cast.
    late : float
        Weeks in which its malt was late; 0 where nothing is wanted by an hour.
    called : float
        How often somebody was called in, on the mean.
    """

    cast_high: float
    ready_low: float
    ready_high: float
    waits_watched: float
    waits_stopped: float
    rests_watched: float
    rests_stopped: float
    late: float
    called: float


class _Hours:
    """The next hour at which a rule holds, for whole arrays of hours."""

    def __init__(self, holds: Callable[[int], bool]) -> None:
        day = [next((n for n in range(24) if holds((hour + n) % 24)), 0) for hour in range(24)]
        self.later = np.array(day)

    def after(self, hours: Array) -> Array:
        """The hours themselves, rounded up, or the next ones at which it holds; where it never does, themselves."""
        whole = np.ceil(hours - 1e-9)
        later: Array = whole + self.later[np.mod(whole, 24).astype(int)]
        return later


def slower(pace: Array, off_k: float) -> Array:
    """By what a batch grows longer when the bed is warmer and the pace for 10 K another than it is reckoned with.

    Parameters
    ----------
    pace : ndarray
        How much more the growth is for 10 K than it is reckoned with [-].
    off_k : float
        How much warmer the bed is than what its days are known for [K].
    """
    longer: Array = (1.0 + pace / GROWTH_Q10) ** (-off_k / 10.0)
    return longer


def _share(some: NDArray[np.bool_]) -> float:
    return 100.0 * float(np.mean(some))


def weeks(house: House, batches: Sequence[Batch], plan: Plan, doubt: Doubt) -> dict[str, Drawn]:
    """Play a plan through many weeks.

    Parameters
    ----------
    house, batches, plan
        As planned.
    doubt : Doubt
        How far the stages may be off.

    Returns
    -------
    dict of str to Drawn
        By batch; none for one that is on the kiln.
    """
    rng = np.random.default_rng(_SEED)
    pace = rng.normal(0.0, GROWTH_Q10_SD, WEEKS)
    drawn = {
        batch.id: (
            np.exp(rng.normal(0.0, doubt.days / 2.0, WEEKS)),
            np.maximum(rng.normal(0.0, doubt.cast_h / 2.0, WEEKS), 0.0),
            np.maximum(rng.normal(0.0, doubt.kiln_h / 2.0, WEEKS), 0.0),
        )
        for batch in batches
    }
    one_there = _Hours(lambda hour: house.hands[hour] >= 1)
    enough = _Hours(lambda hour: house.hands[hour] >= people_needed(house, hour))
    steep_left: dict[str, Array] = {}
    bed_left: dict[str, Array] = {}
    kiln_left: dict[str, Array] = {}
    found: dict[str, Drawn] = {}
    zero = np.zeros(WEEKS)
    by_id = {batch.id: batch for batch in batches}
    casts: dict[str, Array] = {}
    rests: dict[str, Array] = {}
    calls = {name: np.zeros(WEEKS) for name in plan}

    def behind(name: str, left: dict[str, Array], place: str, begin: int, clean: int, end: str) -> Array:
        """When those that were to leave a place before a batch comes have all left it."""
        latest = zero
        for other, hours in left.items():
            way = plan[other]
            if getattr(way, place) == getattr(plan[name], place) and getattr(way, end) + clean <= begin:
                latest = np.maximum(latest, hours)
        return latest

    events = sorted(
        [(way.fill, 0, name) for name, way in plan.items()]
        + [(way.cast, 1, name) for name, way in plan.items()]
        + [(way.load, 2, name) for name, way in plan.items()]
    )
    fills: dict[str, Array] = {}
    for _, what, name in events:
        batch, way = by_id[name], plan[name]
        kiln = house.kilns[way.kiln]
        if what == 0:
            free = behind(name, steep_left, "steep", way.fill, house.clean_steep, "cast")
            at = np.maximum(zero + way.fill, free)
            fills[name] = np.where(at > way.fill, one_there.after(at), at)
        elif what == 1:
            if batch.stood.cast is not None:
                casts[name], rests[name] = zero + way.cast, zero
            else:
                slid = fills[name] - way.fill
                drained = way.drains[-1] + slid
                free = behind(name, bed_left, "bed", way.cast, house.clean_bed, "load")
                at = np.maximum.reduce([zero + way.cast, drained + house.drain + drawn[name][1], free])
                casts[name] = enough.after(np.floor(at + 0.5))  # half an hour is no other hour
                rests[name] = casts[name] - drained
                for act in (*way.waters, *way.drains):
                    if act >= house.now:
                        calls[name] = calls[name] + (np.array(house.hands)[np.mod(act + slid, 24).astype(int)] < 1)
            steep_left[name] = casts[name] + house.clean_steep
        else:
            if batch.stood.load is not None:
                kiln_left[name] = zero + way.off + kiln.turn_round
                bed_left[name] = zero + way.load + house.clean_bed
                continue
            factor, _, slow = drawn[name]
            ratio = slower(pace, doubt.bed_off_k[way.bed])
            ready = zero + way.ready
            if batch.stood.ready is None:
                ready = np.maximum(casts[name] + (way.ready - way.cast) * factor * ratio, house.now)
            free = behind(name, kiln_left, "kiln", way.load, kiln.turn_round, "off")
            load = enough.after(np.maximum.reduce([ready, free, zero + house.now]))
            off = load + kiln.hours + slow
            kiln_left[name], bed_left[name] = off + kiln.turn_round, load + house.clean_bed
            calls[name] = calls[name] + (np.array(house.hands)[np.mod(np.ceil(off), 24).astype(int)] < 1)
            waits = load - ready
            low, high = np.quantile(ready, [0.025, 0.975])
            found[name] = Drawn(
                float(np.quantile(casts[name], 0.975)),
                float(low),
                float(high),
                _share(waits > WAITS_ACCEPTED),
                _share(waits > WAITS_MOST),
                _share(rests[name] > RESTS_ACCEPTED),
                _share(rests[name] > RESTS_MOST),
                _share(off > (np.inf if batch.due is None else batch.due)),
                float(np.mean(calls[name])),
            )
    return found
