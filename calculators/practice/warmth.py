"""Stops of warmth that a batch passed, hour by hour, as its thermometers stood in truth."""

from typing import NamedTuple

from ..rules.limit import Limit
from ..rules.limits import casting, drum_germination, floor_germination
from ..rules.lines import Line, passed
from .world import World

HEATS = {"couch": "couch-heat", "floor": "piece-heat", "drum": "drum-heat"}
"""Where the batch lies -> the kind of stretch past a stop of warmth."""


class Warmth(NamedTuple):
    """One hour of the bed: minute, where it lay, and each limit of warmth with what stood against it [C or K]."""

    minute: int
    where: str
    against: tuple[tuple[Limit, float], ...]

    @property
    def stops(self) -> tuple[Line, ...]:
        """The stops of warmth that were passed, upwards."""
        lines = (passed(limit, value, high_only=True) for limit, value in self.against)
        return tuple(line for line in lines if line and line.mark == "stop")


class Heat(NamedTuple):
    """A stretch of hours past a stop of warmth: its first and its last minute, and each stop at its worst."""

    began: int
    ended: int
    worst: tuple[Line, ...]


def warmth_of(world: World, minute: int) -> Warmth | None:
    """Give the warmth of a bed at a minute, read where the thermometers are; None where it is in the steep or gone."""
    layers = world.zones[0].layers
    bottom, top = layers[0], layers[-1]
    against: tuple[tuple[Limit, float], ...]
    if world.where == "couch":
        rise = bottom - world.room_c(minute)
        against = ((casting.COUCH_BOTTOM, max(bottom, top)), (casting.COUCH_RISE, rise))
    elif world.where == "floor":
        against = (
            (floor_germination.BOTTOM, max(bottom, top)),
            (floor_germination.DIFFERENCE, abs(bottom - top)),
            (floor_germination.PIECE, (bottom + top) / 2.0),
        )
    elif world.where == "drum":
        against = ((drum_germination.BED, world.zones[0].temp_c),)
    else:
        return None
    return Warmth(minute, world.where, against)


def heats(warmths: list[Warmth], where: str, begins: int, now: int) -> list[Heat]:
    """Give the stretches past a stop of warmth in one place, in the order of time.

    Parameters
    ----------
    warmths : list of Warmth
        Hour by hour.
    where : str
        ``couch``, ``floor`` or ``drum``.
    begins, now : int
        From which minute on it is the learner's, and the last minute of the run.
    """
    found: list[Heat] = []
    began: int | None = None
    worst: dict[str, Line] = {}

    def close(minute: int) -> None:
        nonlocal began
        if began is not None:
            found.append(Heat(began, minute, tuple(worst.values())))
        began = None
        worst.clear()

    when_it_came = max((n for n, one in enumerate(warmths) if one.minute <= begins), default=0)
    for one in warmths[when_it_came:]:
        stops = one.stops if one.where == where else ()
        if not stops:
            close(one.minute)
            continue
        began = max(one.minute, begins) if began is None else began
        for line in stops:
            before = worst.get(line.rule)
            if before is None or _value(line) > _value(before):
                worst[line.rule] = line
    close(now)
    return [one for one in found if one.ended > one.began]


def _value(line: Line) -> float:
    assert isinstance(line.value, float)
    return line.value
