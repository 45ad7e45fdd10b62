"""Why a plan is as it is: what is scarce, which two wishes cannot both be kept, and what would make more possible."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Sequence
from itertools import combinations
from typing import Literal, NamedTuple

from .house import RESTS_MOST, WAITS_MOST, Batch, Cost, House, Plan, Way, over, people_needed, wanted_by, whole_cost
from .judge import broken, crowded
from .result import Result, Tell
from .search import search

Help = Literal["kiln", "steep", "bed", "hands"]
HELPS: tuple[Help, ...] = ("kiln", "steep", "bed", "hands")
"""What a house could have more of: one more of a place, or people for a cast at every hour."""

LOOKS_HELP, LOOKS_PAIR, LOOKS_DEEP, LOOKS_OTHER = 48, 16, 300, 160
"""So often a batch is looked at for a house that has more, for two batches alone, and for another plan."""


Place = Literal["steep", "bed", "kiln"]


_DEEP_PAIRS = 2
_SLACK_MOST = 24 * 7


class Load(NamedTuple):
    """How much of a place is held on the day that asks most of it.

    ``used`` of ``of``: hours of the day of a steep or a kiln, kilograms of a bed; ``hour`` is where that day begins.
    """

    kind: Place
    number: int
    hour: int
    used: float
    of: float
    share: float


def _spells(
    house: House, batches: Sequence[Batch], plan: Plan
) -> dict[tuple[str, int], list[tuple[int, int, float, str]]]:
    held: dict[tuple[str, int], list[tuple[int, int, float, str]]] = {}
    for batch in batches:
        way = plan[batch.id]
        if batch.stood.cast is None:
            held.setdefault(("steep", way.steep), []).append(
                (way.fill, way.cast + house.clean_steep, batch.kg, batch.id)
            )
        if batch.stood.load is None:
            held.setdefault(("bed", way.bed), []).append((way.cast, way.load + house.clean_bed, batch.kg, batch.id))
        until = way.off + house.kilns[way.kiln].turn_round
        held.setdefault(("kiln", way.kiln), []).append((way.load, until, batch.kg, batch.id))
    return held


def places_of(house: House) -> tuple[tuple[Place, list[float]], ...]:
    """The kinds of places, with the most that each one takes [kg]."""
    return (
        ("steep", [one.most_kg for one in house.steeps]),
        ("bed", [one.most_kg for one in house.beds]),
        ("kiln", [one.most_kg for one in house.kilns]),
    )


def loads(house: House, batches: Sequence[Batch], plan: Plan) -> list[Load]:
    """Give how full each place is, from now until the last batch is off; the fullest first.

    Returns
    -------
    list of Load
        By the share of all hours in which a place has no room for another batch of the mean size.
    """
    held = _spells(house, batches, plan)
    last = max(house.now + 1, *(way.off for way in plan.values()))
    mean = sum(batch.kg for batch in batches) / len(batches)
    found = []
    for kind, places in places_of(house):
        for number, most_kg in enumerate(places):
            spells = held.get((kind, number), [])
            shared = kind == "bed" and house.beds[number].shared
            if not spells:
                continue
            begin = house.now
            lies = [sum(kg for b, e, kg, _ in spells if b <= hour < e) for hour in range(begin, last)]
            full = [kg for kg in lies if (over(kg + mean, most_kg) if shared else kg > 0)]
            share = len(full) / len(lies)
            top = max(range(len(lies)), key=lies.__getitem__)
            day = (begin + top) // 24 * 24
            if shared:
                found.append(Load(kind, number, day, max(lies), most_kg, share))
            else:
                hours = sum(kg > 0 for hour, kg in enumerate(lies, begin) if day <= hour < day + 24)
                found.append(Load(kind, number, day, float(hours), 24.0, share))
    return sorted(found, key=lambda one: -one.share)


class Helped(NamedTuple):
    """What a house with more of one thing could do; ``plan`` is None where that does not help to any plan."""

    word: Help
    cost: Cost
    plan: Plan | None


def with_more(house: House, word: Help) -> House:
    """The house with one more of its largest place, or with people for a cast at every hour."""
    if word == "kiln":
        best = max(house.kilns, key=lambda one: one.most_kg)
        return house._replace(kilns=(*house.kilns, best._replace(name="one more")))
    if word == "steep":
        best_steep = max(house.steeps, key=lambda one: one.most_kg)
        return house._replace(steeps=(*house.steeps, best_steep._replace(name="one more")))
    if word == "bed":
        best_bed = max(house.beds, key=lambda one: one.most_kg)
        return house._replace(beds=(*house.beds, best_bed._replace(name="one more")))
    return house._replace(hands=tuple(max(2, house.cast_hands, some) for some in house.hands))


def _more_grow(house: House, batches: Sequence[Batch]) -> list[Batch]:
    best = max(range(len(house.beds)), key=lambda n: house.beds[n].most_kg)
    return [batch._replace(grow=(*batch.grow, batch.grow[best])) for batch in batches]


def helps(
    house: House, batches: Sequence[Batch], first: Result | None = None, tell: Tell | None = None
) -> list[Helped]:
    """Give what each kind of help would do, tried one at a time; never worse than the plan without it."""
    found = []
    for n, word in enumerate(HELPS):
        if tell is not None:
            tell(n / len(HELPS))
        more = with_more(house, word)
        some = _more_grow(house, batches) if word == "bed" else list(batches)
        result = search(more, some, looks=LOOKS_HELP, thorough=False)
        cost, plan = result.cost, result.plan
        if first is not None and first.plan is not None and (plan is None or cost > first.cost):
            cost, plan = first.cost, first.plan
        found.append(Helped(word, cost, plan))
    return found


class Pair(NamedTuple):
    """Two wishes that cannot both be kept: the batches, or one batch with itself where it alone is too much."""

    one: str
    other: str


def _wishes(house: House, batches: Sequence[Batch], on_time: bool, deep: bool = False) -> bool | None:
    """Whether these batches can all be kept: to no stop, and with ``on_time`` none late; None where it is not known."""
    looks = LOOKS_DEEP if deep else LOOKS_PAIR
    house = house._replace(water_m3_h=None, effluent_m3_day=None)  # what cannot be with water enough cannot be at all
    result = search(_lax(house) if on_time else house, batches, looks=looks, thorough=deep)
    if result.plan is not None and not (on_time and result.cost.late):
        return True
    if result.stuck or (on_time and result.least.late) or (result.plan is None and result.proved):
        return False
    return None


def _lax(house: House) -> House:
    """The house where nothing counts but stops and lateness."""
    return house._replace(rests_accepted=RESTS_MOST, waits_accepted=WAITS_MOST, calls_count=False)


def against(
    house: House, batches: Sequence[Batch], on_time: bool = False, late: Sequence[str] = (), most: int = 10
) -> Pair | None:
    """Find two batches of which not both can be kept, in a house that has only these and what runs.

    Parameters
    ----------
    house : House
        The house.
    batches : sequence of Batch
        All batches.
    on_time : bool, optional
        Whether a late batch is not kept either.
    late : sequence of str, optional
        With these only pairs of which one is among them.
    most : int, optional
        So many pairs are tried, the nearest ones first.

    Returns
    -------
    Pair or None
        The first pair; one batch twice, where it cannot be kept even alone. None where any two go together.
    """
    kilned = [batch for batch in batches if batch.stood.load is not None]
    rest = [batch for batch in batches if batch.stood.load is None]
    for batch in rest:
        if late and batch.id not in late:
            continue
        if (not on_time or batch.due is not None) and _wishes(house, [*kilned, batch], on_time) is False:
            return Pair(batch.id, batch.id)
    two = [pair for pair in combinations(rest, 2) if not late or {one.id for one in pair} & set(late)]
    pairs = sorted(two, key=lambda pair: abs(wanted_by(house, pair[0]) - wanted_by(house, pair[1])))
    doubtful = []
    for one, other in pairs[:most]:
        kept = _wishes(house, [*kilned, one, other], on_time)
        if kept is False:
            return Pair(one.id, other.id)
        if kept is None:
            doubtful.append((one, other))
    for one, other in doubtful[:_DEEP_PAIRS]:
        if _wishes(house, [*kilned, one, other], on_time, deep=True) is False:
            return Pair(one.id, other.id)
    return None


class Named(NamedTuple):
    """A plan with what it puts first: ``order`` the stated order of aims, ``time`` lateness, ``paper`` few changes."""

    word: Literal["order", "time", "paper"]
    plan: Plan
    cost: Cost


def other_plans(house: House, batches: Sequence[Batch], first: Result, running: Plan | None = None) -> list[Named]:
    """Give the plan with one or two others that keep something else, each different from those before it.

    No other plan passes a stop either: only watched hours and people called in are let go for lateness, and lateness
    too
    for the running plan.
    """
    assert first.plan is not None
    plans = [Named("order", first.plan, first.cost)]
    tries: list[tuple[Literal["time", "paper"], Sequence[Batch]]] = []
    if first.cost.late:
        tries.append(("time", batches))
    if running and first.cost.changed:
        tries.append(("paper", [batch._replace(due=None) for batch in batches]))
    for word, some in tries:
        result = search(_lax(house), some, running, looks=LOOKS_OTHER)
        if result.plan is None:
            continue
        cost = whole_cost(house, tuple(batches), result.plan, running)
        better = cost.late < first.cost.late if word == "time" else cost.changed < first.cost.changed
        if better and all(cost != one.cost for one in plans):
            plans.append(Named(word, result.plan, cost))
    return plans


def slack(house: House, batches: Sequence[Batch], plan: Plan, batch: Batch) -> int:
    """Hours by which a batch may be ready later with nothing else moved and its malt in time, a week at most [h]."""
    way, later = plan[batch.id], 0
    wrong = set(broken(house, batches, plan))
    for hours in range(1, min(_SLACK_MOST, wanted_by(house, batch) - way.off) + 1):
        load = way.load + hours
        if house.hands[load % 24] < people_needed(house, load):
            continue
        later_plan = {**plan, batch.id: way._replace(ready=way.ready + hours, load=load, off=way.off + hours)}
        if load in dict(crowded(house, batches, later_plan)):
            continue
        if set(broken(house, batches, later_plan)) - wrong:
            break
        later = hours
    return later + way.load - way.ready


def stood_at(batch: Batch, way: Way, hour: int) -> Batch:
    """The batch as it stands at an hour when all went by its plan [h]."""
    stood = batch.stood
    if stood.fill is None and stood.cast is None and way.fill <= hour:
        stood = stood._replace(steep=way.steep, fill=way.fill)
    if stood.cast is None and way.cast <= hour:
        stood = stood._replace(bed=way.bed, cast=way.cast)
    if stood.load is None and way.load <= hour:
        stood = stood._replace(kiln=way.kiln, load=way.load)
    return batch._replace(stood=stood)


class Slipped(NamedTuple):
    """One batch ready later, and the repair with the least change.

    ``seen`` is the hour at which it is known; ``result`` the repair, counted against the plan; ``batches`` as they then
    stand; ``pair`` two that stand in the way where there is no repair.
    """

    seen: int
    batches: tuple[Batch, ...]
    result: Result
    pair: Pair | None = None


def slipped(
    house: House, batches: Sequence[Batch], plan: Plan, name: str, hours: int, tell: Tell | None = None
) -> Slipped:
    """Plan the rest of the week again when a batch is ready later than planned.

    Parameters
    ----------
    house, batches, plan
        As planned.
    name : str
        The batch that is late.
    hours : int
        By how much [h].
    tell : callable, optional
        Told how far it is.

    Returns
    -------
    Slipped
        The repair; it is known when the batch should have been ready.
    """
    way = plan[name]
    seen = max(house.now, way.ready)
    later = []
    for batch in batches:
        one = stood_at(batch, plan[batch.id], seen - 1 if batch.id == name else seen)
        if batch.id == name:
            one = one._replace(stood=one.stood._replace(ready=way.ready + hours, kiln=None, load=None))
        later.append(one)
    moved = house._replace(now=seen)
    running = dict(plan)
    first = search(moved, later, running, looks=LOOKS_OTHER, tell=tell)
    least = search(_lax(moved), [one._replace(due=None) for one in later], running, looks=LOOKS_OTHER)
    if least.plan is None and first.plan is None:
        return Slipped(seen, tuple(later), least, against(moved, later))
    if least.plan is None or first.plan is None:
        return Slipped(seen, tuple(later), first if first.plan is not None else least)
    cost = whole_cost(moved, tuple(later), least.plan, running)
    result = least._replace(cost=cost) if cost.changed < first.cost.changed else first
    return Slipped(seen, tuple(later), result)
