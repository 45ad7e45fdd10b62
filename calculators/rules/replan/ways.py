"""What a way is made of: what is done when, and what it costs."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Iterable
from typing import Literal, NamedTuple

from ...models.steep.course import Stage
from ...models.steep.wishes import within
from ..conventions import NIGHT
from ..lines import Line

Word = Literal["target", "clock", "day", "other"]
"""What a way puts first: the grain's own measure, the plan's hour, or nights without hands; else it is one more."""

Act = Literal["drain", "fill", "cast", "turn", "sprinkle", "load"]


class Weights(NamedTuple):
    """What counts against a way, in points: an hour off the plan, a unit off the measure, a hand at night."""

    hour: float
    off: float
    night: float


PUTS_FIRST: dict[Word, Weights] = {
    "target": Weights(hour=0.08, off=3.0, night=0.3),
    "clock": Weights(hour=1.0, off=0.8, night=0.3),
    "day": Weights(hour=0.05, off=1.0, night=6.0),
}
"""How each way weighs its costs against each other: a convention of this handbook."""


class Move(NamedTuple):
    """One thing to be done: hours from now [h], which, and the water's temperature [C] or its litres a tonne."""

    hour: float
    act: Act
    figure: float | None = None


class Cost(NamedTuple):
    """What a way costs.

    Attributes
    ----------
    later_h : float or None
        Its end against the plan's [h]; None where there was none.
    moisture : float
        At its end, % of wet weight.
    off_points : float
        That against the target [points]; on a bed against the lowest that is accepted, and never over 0.
    chit_percent : float or None
        Corns that have chitted at its end [%].
    growth_h : float
        Growth clock at its end [h at 15 C].
    growth_off_h : float or None
        That against the plan's, on a bed against a batch that is just ready [h at 15 C].
    night_hands : int
        How often somebody is needed at night.
    """

    later_h: float | None
    moisture: float
    off_points: float
    chit_percent: float | None
    growth_h: float
    growth_off_h: float | None
    night_hands: int


class Way(NamedTuple):
    """One way through the rest of a batch.

    Attributes
    ----------
    words : tuple of str
        What it is the cheapest of all by.
    moves : tuple of Move
        What is done, in order.
    cost : Cost
        What it costs.
    stages : tuple of Stage
        The whole steep from its first wetting, where it is still in the steep.
    hold_c : float or None
        Temperature that a bed is kept at [C].
    suction_m3_h_t : float or None
        Air drawn through rests, where more is needed than is known of [m3/h for each tonne].
    watched : tuple of Line
        What it passes that is only watched.
    """

    words: tuple[Word, ...]
    moves: tuple[Move, ...]
    cost: Cost
    stages: tuple[Stage, ...] = ()
    hold_c: float | None = None
    suction_m3_h_t: float | None = None
    watched: tuple[Line, ...] = ()


class Ways(NamedTuple):
    """The ways, the plan's own measure first.

    Attributes
    ----------
    ways : tuple of Way
        Two or three, or fewer where no other is left; none where every one would pass a stop.
    already : tuple of Line
        Stops that are passed already, or that what is ordered at once passes: no way passes them further.
    fan_off_h : tuple of float or None
        Where no air is moved: hours until the grain is at its stop, by the law and at the soonest [h].
    """

    ways: tuple[Way, ...]
    already: tuple[Line, ...] = ()
    fan_off_h: tuple[float, float] | None = None


APART_H = 1.0
"""Two ways whose moves all lie closer are one [h]."""

FEWEST, MOST = 2, 3
"""So many ways are given, where so many are left."""


def chosen(ranked: Iterable[tuple[Word, Iterable[Way | None]]]) -> tuple[Way, ...]:
    """Give two or three ways that differ, each with all that it is the cheapest by.

    Parameters
    ----------
    ranked : iterable of (str, iterable of Way or None)
        By each measure the ways from the cheapest on; None stands for one that may not be offered.
    """
    ways: list[Way] = []
    spare: list[Way] = []
    for word, found in ranked:
        best: Way | None = None
        for way in found:
            if way is None:
                continue
            if best is None:
                best = way
                like = next((n for n, other in enumerate(ways) if not apart(way, other)), None)
                if like is None:
                    ways.append(way._replace(words=(word,)))
                else:
                    ways[like] = ways[like]._replace(words=(*ways[like].words, word))
            elif apart(way, best, _OTHER_H):
                spare.append(way)
                break
    for way in spare:
        if len(ways) < FEWEST and all(apart(way, other, _OTHER_H) for other in ways):
            ways.append(way._replace(words=("other",)))
    return tuple(ways[:MOST])


_OTHER_H = 2.0  # a way that is only one more differs by so much


def apart(one: Way, other: Way, hours: float = APART_H) -> bool:
    """Tell whether two ways differ in what is done, how warm a bed is kept, or by more than so many hours."""
    if one.hold_c != other.hold_c or [move.act for move in one.moves] != [move.act for move in other.moves]:
        return True
    return any(abs(a.hour - b.hour) > hours for a, b in zip(one.moves, other.moves, strict=True))


def is_night(clock_h: float) -> bool:
    """Tell whether an hour of the day is at night."""
    return within(clock_h, NIGHT)


Changes = tuple[tuple[float, float], ...]
"""When the clocks are changed: hours from now, and by how much [h], more where they are put forward."""


def clock_at(clock_h: float, hour: float, changes: Changes = ()) -> float:
    """Give the hour of the day that the wall shows so many hours from now; past 24 it is of a later day.

    >>> clock_at(22.0, 10.0), clock_at(22.0, 10.0, changes=((4.0, 1.0),)), clock_at(22.0, 3.0, changes=((4.0, 1.0),))
    (32.0, 33.0, 25.0)
    """
    return clock_h + hour + sum(by for at, by in changes if at <= hour)


def hands_at_night(moves: tuple[Move, ...], clock_h: float, changes: Changes = ()) -> int:
    """Give how often somebody is needed at night; what is done at once is not counted: somebody is there."""
    return len({move.hour for move in moves if move.hour > 0.0 and is_night(clock_at(clock_h, move.hour, changes))})


def in_quiet(moves: tuple[Move, ...], quiet_h: tuple[float, float] | None) -> bool:
    """Tell whether anything is to be done while nobody is there; what is done at once, whoever asks does."""
    return quiet_h is not None and any(quiet_h[0] <= move.hour < quiet_h[1] and move.hour > 0.0 for move in moves)
