"""The steep of a batch by the clock: how long it takes with longer rests, and who has to be there."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from functools import lru_cache
from itertools import product
from typing import NamedTuple

from .house import RESTS_MOST, House, offsets

UNIT = 1 << 16
"""One of an earlier aim against one of the next, where the aims are packed into one number."""

HAND, LATE, WATCHED, CHANGED = UNIT**3, UNIT**2, UNIT, 1
"""What one hand, one hour late, one hour watched and one changed line weigh there."""


class Shape(NamedTuple):
    """One steep: hours after the fill at which water is put on, drained, and the grain is cast [h]; its cost packed."""

    waters: tuple[int, ...]
    drains: tuple[int, ...]
    cast: int
    cost: int


class Pattern(NamedTuple):
    """What the steeps of a batch go by: its stages, and what of the house concerns them."""

    stages: tuple[float, ...]
    stretch: int
    drain: int
    hands: tuple[int, ...]
    accepted: int


def pattern(house: House, stages: tuple[float, ...]) -> Pattern:
    """What the steeps of a batch with these stages go by in a house."""
    return Pattern(stages, house.stretch, house.drain, house.counted, house.rests_accepted)


def _rests_watched(waters: tuple[int, ...], drains: tuple[int, ...], accepted: int) -> int:
    return sum(max(0, w - d - accepted) for w, d in zip(waters[1:], drains, strict=False))


def _stretched(
    stages: tuple[float, ...], stretch: int, since: int | None
) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Waters and drains with every way to lengthen the rests; of a steep that runs, only rests that are not over."""
    waters, drains = offsets(stages)
    found = []
    for more in product(range(stretch + 1), repeat=len(waters) - 1):
        shift, moved_w, moved_d, good = 0, [0], [drains[0]], True
        for n, extra in enumerate(more, 1):
            if extra and since is not None and waters[n] + shift < since:
                good = False
            shift += extra
            moved_w.append(waters[n] + shift)
            moved_d.append(drains[n] + shift)
            if extra and moved_w[n] - moved_d[n - 1] > RESTS_MOST:
                good = False
        if good:
            found.append((tuple(moved_w), tuple(moved_d)))
    return found


@lru_cache(maxsize=64)
def shapes_at(by: Pattern, fill_clock: int, since: int | None) -> dict[int, tuple[Shape, ...]]:
    """Give the steeps of a batch filled at an hour of the day, by the hours from the fill to the cast.

    Parameters
    ----------
    by : Pattern
        What they go by.
    fill_clock : int
        Hour of the day of the fill [h].
    since : int or None
        Of a steep that runs already, the hours since its fill: what is past is not counted and not changed.

    Returns
    -------
    dict of int to tuple of Shape
        The cheapest first.
    """
    found: dict[int, list[Shape]] = {}
    for waters, drains in _stretched(by.stages, by.stretch, since):
        alone = sum(by.hands[(fill_clock + hour) % 24] < 1 for hour in (*waters, *drains) if hour >= (since or 0))
        watched = _rests_watched(waters, drains, by.accepted)
        for rest in range(by.drain, RESTS_MOST + 1):
            cost = WATCHED * (watched + max(0, rest - by.accepted)) + HAND * alone
            found.setdefault(drains[-1] + rest, []).append(Shape(waters, drains, drains[-1] + rest, cost))
    return {hours: tuple(sorted(some, key=lambda one: (one.cost, one.waters))) for hours, some in found.items()}


@lru_cache(maxsize=64)
def by_hours(by: Pattern) -> tuple[tuple[int, tuple[tuple[int, int], ...]], ...]:
    """Give for each length of a steep what it costs by the hour of the day at which it is filled.

    Returns
    -------
    tuple of (hours, tuple of (cost, hours of the day as a set))
        The shortest first.
    """
    table: dict[int, dict[int, int]] = {}
    for clock in range(24):
        for hours, some in shapes_at(by, clock, None).items():
            costs = table.setdefault(hours, {})
            costs[some[0].cost] = costs.get(some[0].cost, 0) | 1 << clock
    return tuple((hours, tuple(sorted(table[hours].items()))) for hours in sorted(table))
