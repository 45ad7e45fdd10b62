"""What a house, its batches and a plan of its week are; all hours are whole hours from one midnight."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import Literal, NamedTuple

from ..conventions import NIGHT
from ..limit import edge
from ..limits.kiln_hand_over import READY_HOURS
from ..limits.steeping import REST
from .night import AT_NIGHT_TWO

WAITS_ACCEPTED, WAITS_MOST = int(edge(READY_HOURS.accept_high)), int(edge(READY_HOURS.stop_high))
"""Hours from ready to loaded that are accepted, and the most that is planned [h]."""

RESTS_ACCEPTED, RESTS_MOST = int(edge(REST.accept_high)), int(edge(REST.stop_high))
"""Hours drained, in an air rest or before the cast, that are accepted, and the most that is planned [h]."""

WEEKS = 400
"""So many weeks are drawn to see how often a plan gives way."""


class Steep(NamedTuple):
    """A steep: its name and the most barley that it takes [kg]."""

    name: str
    most_kg: float


class Bed(NamedTuple):
    """A floor, a drum or a box.

    Attributes
    ----------
    name : str
        As it is called.
    kind : str
        ``floor``, ``drum`` or ``box``.
    most_kg : float
        The most barley that it takes at one time [kg]: of a drum or box by its rating, of a floor by its area.
    shared : bool
        Whether several batches lie in it side by side, as on a floor.
    """

    name: str
    kind: Literal["floor", "drum", "box"]
    most_kg: float
    shared: bool = False


class Kiln(NamedTuple):
    """A kiln: its name and the most barley whose green malt it takes [kg].

    ``hours`` are those from loaded to emptied, ``turn_round`` those until it can be loaded again [h].
    """

    name: str
    most_kg: float
    hours: int
    turn_round: int


class Closed(NamedTuple):
    """A place that is not to be had from an hour until another [h]."""

    place: str
    begin: int
    end: int


class Stood(NamedTuple):
    """What has happened to a batch: places by their number, hours [h]; None where it has not happened.

    ``ready`` is when it was told to be ready, in place of the hours that its growth takes.
    """

    steep: int | None = None
    fill: int | None = None
    bed: int | None = None
    cast: int | None = None
    ready: int | None = None
    kiln: int | None = None
    load: int | None = None


class Batch(NamedTuple):
    """A batch that is wanted, or at work.

    Attributes
    ----------
    id : str
        Its number.
    kg : float
        Barley [kg].
    due : int or None
        Hour by which its malt is wanted off the kiln [h].
    stages : tuple of float
        Immersion and air rest by turns, beginning and ending with an immersion [h].
    grow : tuple of int
        Hours from the cast to ready in each bed of the house [h].
    from_h : int
        It is not filled before [h].
    stood : Stood
        What has happened to it.
    """

    id: str
    kg: float
    due: int | None
    stages: tuple[float, ...]
    grow: tuple[int, ...]
    from_h: int = 0
    stood: Stood = Stood()


class House(NamedTuple):
    """A house as it is planned for.

    Attributes
    ----------
    steeps, beds, kilns : tuple
        Its places.
    hands : tuple of int
        How many people are there at each hour of the day, shape (24,).
    cast_hands : int
        How many a cast and the loading of a kiln need.
    clean_steep, clean_bed : int
        Hours of cleaning after a batch [h].
    drain : int
        Hours from opening the last drain until the grain can be cast [h].
    stretch : int
        Hours by which an air rest may be longer than it stands in the stages [h].
    water_m3_t : float
        Water of one immersion for each tonne of barley [m3].
    water_m3_h, tank_m3 : float or None
        Water that comes in an hour, and what the tank holds; None where there is enough.
    effluent_m3_day : float or None
        Steep water that may be let go in a day; None where there is no such limit.
    closed : tuple of Closed
        Places that are not to be had for some hours.
    now : int
        Nothing is planned before [h].
    horizon : int
        Nothing is planned after [h].
    rests_accepted, waits_accepted : int
        Hours drained, and ready, from which on they count as watched [h].
    calls_count : bool
        Whether it counts that somebody has to be called in.
    """

    steeps: tuple[Steep, ...]
    beds: tuple[Bed, ...]
    kilns: tuple[Kiln, ...]
    hands: tuple[int, ...]
    cast_hands: int = 2
    clean_steep: int = 2
    clean_bed: int = 4
    drain: int = 1
    stretch: int = 2
    water_m3_t: float = 1.0
    water_m3_h: float | None = None
    tank_m3: float = 0.0
    effluent_m3_day: float | None = None
    closed: tuple[Closed, ...] = ()
    now: int = 0
    horizon: int = 24 * 28
    rests_accepted: int = RESTS_ACCEPTED
    waits_accepted: int = WAITS_ACCEPTED
    calls_count: bool = True

    @property
    def counted(self) -> tuple[int, ...]:
        """How many are there at each hour of the day, as far as somebody who is called in counts at all."""
        return self.hands if self.calls_count else (1,) * 24


class Way(NamedTuple):
    """One batch through the house: places by their number, and hours [h].

    ``waters`` are the hours at which water is put on, the first being the fill; ``drains`` those at which each
    immersion is drained.
    """

    steep: int
    waters: tuple[int, ...]
    drains: tuple[int, ...]
    bed: int
    cast: int
    ready: int
    kiln: int
    load: int
    off: int

    @property
    def fill(self) -> int:
        """Hour of the first water [h]."""
        return self.waters[0]


class Cost(NamedTuple):
    """What a plan costs, in the order of its aims; less is better, and an earlier one outweighs all later ones.

    That limits are kept comes before them all: no plan passes a stop, so there is nothing to count.

    Attributes
    ----------
    hands : int
        How often somebody has to be called in: a water, a drain or an emptied kiln when nobody is there.
    late : int
        Hours by which malt is late, summed over the batches [h].
    watched : int
        Hours that batches wait drained or ready beyond what is accepted, up to the stop [h].
    changed : int
        Lines of the running plan that are to be written anew: a fill, a cast or a load at another hour or place.
    """

    hands: int = 0
    late: int = 0
    watched: int = 0
    changed: int = 0

    def and_also(self, other: "Cost") -> "Cost":
        """Both together."""
        return Cost(*(a + b for a, b in zip(self, other, strict=True)))


Aim = Literal["hands", "late", "watched", "changed"]
ORDER: tuple[Aim, ...] = ("hands", "late", "watched", "changed")
"""The order of aims behind the stops: hands called in, lateness, hours watched, changes to the running plan."""

Plan = dict[str, Way]
"""The way of each batch, by its number."""


def people_needed(house: House, hour: int) -> int:
    """How many a cast or a load needs at an hour [h]: at night never fewer than two."""
    clock, (begin, end) = hour % 24, NIGHT
    at_night = clock >= begin or clock < end
    return max(house.cast_hands, AT_NIGHT_TWO) if at_night else house.cast_hands


def offsets(stages: tuple[float, ...]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Hours after the fill at which water is put on and at which it is drained, in whole hours [h]."""
    waters, drains, hour = [], [], 0.0
    for place, hours in enumerate(stages):
        if place % 2 == 0:
            waters.append(round(hour))
        hour += hours
        if place % 2 == 0:
            drains.append(max(round(hour), waters[-1] + 1))
    return tuple(waters), tuple(drains)


def taken_kg(bed: Bed, kg: float) -> float:
    """What so much barley takes of a bed: of one that takes several batches as much, else all that it holds [kg]."""
    return kg if bed.shared else bed.most_kg


def soaked_m3(house: House, batch: Batch) -> float:
    """Water of one immersion of a batch [m3]."""
    return house.water_m3_t * batch.kg / 1000.0


def over(some: float, most: float) -> bool:
    """Whether some is more than the most there may be; the rounding of the machine is nothing."""
    return some > most + 1e-9


def rests_of(batch: Batch, way: Way) -> list[int]:
    """Hours that a batch lies drained, between its waters and before the cast; none of one that is cast [h]."""
    if batch.stood.cast is not None:
        return []
    return [end - drain for drain, end in zip(way.drains, (*way.waters[1:], way.cast), strict=True)]


def watched_of(house: House, batch: Batch, way: Way) -> int:
    """Hours that a batch lies drained or waits ready beyond what is accepted, from now on planned [h]."""
    waits = 0 if batch.stood.load is not None else way.load - way.ready
    rests = sum(max(0, hours - house.rests_accepted) for hours in rests_of(batch, way))
    return rests + max(0, waits - house.waits_accepted)


def acts_alone(house: House, batch: Batch, way: Way) -> list[int]:
    """Hours from now on at which water is put on, drained or a kiln emptied [h]."""
    acts = [] if batch.stood.cast is not None else [*way.waters, *way.drains]
    return [hour for hour in [*acts, way.off] if hour >= house.now]


def wanted_by(house: House, batch: Batch) -> int:
    """Hour by which its malt is wanted; where it is by none, the last of the house, before which all is off [h]."""
    return house.horizon if batch.due is None else batch.due


def cost_of(house: House, batch: Batch, way: Way, before: Way | None = None) -> Cost:
    """What one batch's way costs.

    Parameters
    ----------
    house, batch, way
        The house, a batch of it and its way.
    before : Way, optional
        Its way in the running plan.
    """
    late = 0 if batch.due is None else max(0, way.off - batch.due)
    changed = 0
    if before is not None:
        stood = batch.stood
        changed += stood.fill is None and stood.cast is None and (way.fill, way.steep) != (before.fill, before.steep)
        changed += stood.cast is None and (way.cast, way.bed) != (before.cast, before.bed)
        changed += stood.load is None and (way.load, way.kiln) != (before.load, before.kiln)
    called = sum(house.counted[hour % 24] < 1 for hour in acts_alone(house, batch, way))
    return Cost(called, late, watched_of(house, batch, way), int(changed))


def whole_cost(house: House, batches: tuple[Batch, ...], plan: Plan, running: Plan | None = None) -> Cost:
    """What a plan costs, over all its batches."""
    cost = Cost()
    for batch in batches:
        cost = cost.and_also(cost_of(house, batch, plan[batch.id], (running or {}).get(batch.id)))
    return cost


def water_lasts(drawn: list[tuple[int, float]], m3_h: float, tank_m3: float) -> bool:
    """Whether a tank that is full at first, and is filled by so much an hour, gives all that is drawn.

    Parameters
    ----------
    drawn : list of (hour, m3)
        Water drawn, each within its hour.
    m3_h : float
        What comes in an hour [m3].
    tank_m3 : float
        What the tank holds [m3].
    """
    by_hour: dict[int, float] = {}
    for hour, m3 in drawn:
        by_hour[hour] = by_hour.get(hour, 0.0) + m3
    level, last = tank_m3, min(by_hour, default=0)
    for hour in sorted(by_hour):
        level = min(tank_m3, level + m3_h * (hour - last))
        if over(by_hour[hour], level + m3_h):
            return False
        level, last = min(tank_m3, level + m3_h - by_hour[hour]), hour + 1
    return True
