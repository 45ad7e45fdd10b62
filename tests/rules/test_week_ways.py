"""The ways of one batch, each tried by hand: which there are, what each costs, and which is the first."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

import pytest

from calculators.rules.week.free import ROOM_H, Free
from calculators.rules.week.house import (
    RESTS_MOST,
    WAITS_MOST,
    Batch,
    Bed,
    Closed,
    House,
    Kiln,
    Plan,
    Steep,
    Stood,
    Way,
    cost_of,
    offsets,
    people_needed,
    wanted_by,
    watched_of,
)
from calculators.rules.week.judge import broken
from calculators.rules.week.result import packed
from calculators.rules.week.shapes import CHANGED, HAND, LATE, WATCHED
from calculators.rules.week.ways import Choice, Looker

ALL = HAND << 16
HOUSE = House(
    (Steep("A", 5.0), Steep("B", 6.0)),
    (Bed("floor", "floor", 9.5, True), Bed("drum", "drum", 5.0)),
    (Kiln("kiln", 5.0, 9, 2), Kiln("other", 7.0, 15, 1)),
    tuple(2 if hour in (6, 7, 12) else 1 if 5 <= hour < 16 else 0 for hour in range(24)),
    clean_steep=1,
    clean_bed=3,
    stretch=1,
    now=5,
    horizon=24 * 3 + 6,
    closed=(Closed("B", 31, 43), Closed("other", 60, 63)),
)
BATCH = Batch("b", 5.0, 60, (2.0, 2.0, 2.0), (13, 22))
OTHER = Batch("a", 4.5, None, (2.0, 2.0, 2.0), (13, 22))
HELD = Way(1, (8, 12), (10, 14), 0, 30, 54, 0, 54, 63)
BEFORE = Way(0, (7, 11), (9, 13), 0, 30, 43, 0, 54, 63)


class Case(NamedTuple):
    """A batch in a house that holds another, and its way in the plan on the wall."""

    batch: Batch
    house: House = HOUSE
    before: Way | None = None
    held: Way | None = None

    @property
    def others(self) -> tuple[tuple[Batch, ...], Plan]:
        return ((OTHER,), {"a": self.held}) if self.held is not None else ((), {})


DAY = HOUSE._replace(
    hands=(2,) * 24, horizon=44, now=0, closed=(), steeps=HOUSE.steeps[:1], beds=HOUSE.beds[:1], kilns=HOUSE.kilns[:1]
)
CASES = {
    "wanted": Case(BATCH, held=HELD),
    "wanted by no hour": Case(BATCH._replace(due=None)),
    "too late already": Case(BATCH._replace(due=30)),
    "not before": Case(BATCH._replace(from_h=26)),
    "large": Case(BATCH._replace(kg=5.5)),
    "the floor is full": Case(
        BATCH, HOUSE._replace(beds=(HOUSE.beds[0]._replace(most_kg=9.4), HOUSE.beds[1])), held=HELD
    ),
    "small": Case(BATCH._replace(kg=2.0), held=HELD),
    "nobody is called in": Case(BATCH, HOUSE._replace(calls_count=False, rests_accepted=3, waits_accepted=0)),
    "on the wall": Case(BATCH, before=BEFORE, held=HELD),
    "on the wall elsewhere": Case(BATCH, before=BEFORE._replace(waters=(9, 13), steep=1, bed=1, kiln=1, load=61)),
    "on the wall at once": Case(BATCH, before=BEFORE._replace(waters=(5, 9), load=2, cast=6)),
    "in the steep": Case(BATCH._replace(stood=Stood(steep=0, fill=1))),
    "in the steep, on the wall": Case(BATCH._replace(stood=Stood(steep=0, fill=1)), before=BEFORE),
    "in the steep for long": Case(BATCH._replace(stood=Stood(steep=0, fill=34)), HOUSE._replace(now=37, horizon=96)),
    "in the steep, told ready": Case(BATCH._replace(stood=Stood(steep=0, fill=1, ready=50))),
    "cast": Case(BATCH._replace(stood=Stood(steep=0, fill=1, bed=1, cast=4))),
    "cast at midnight, on the wall": Case(
        BATCH._replace(stood=Stood(bed=1, cast=0)), before=BEFORE._replace(cast=0, load=30)
    ),
    "cast, told ready": Case(BATCH._replace(stood=Stood(steep=1, bed=1, cast=4, ready=28)), before=BEFORE),
    "cast into what is closed now": Case(
        BATCH._replace(stood=Stood(steep=1, bed=1, cast=4)), HOUSE._replace(closed=(Closed("drum", 8, 50),))
    ),
    "all day": Case(BATCH._replace(stages=(2.0,), grow=(3, 5)), DAY),
    "all day, on the wall": Case(
        BATCH._replace(stages=(2.0,), grow=(3, 5), due=20),
        DAY,
        BEFORE._replace(waters=(3,), drains=(5,), cast=7, load=11),
    ),
    "all day, on the wall elsewhere": Case(
        BATCH._replace(stages=(2.0,), grow=(3, 5)),
        DAY._replace(horizon=30),
        BEFORE._replace(waters=(3,), steep=1, load=3),
    ),
}


def steeped(case: Case) -> Iterator[tuple[int, tuple[int, ...], tuple[int, ...], int]]:
    """Every steep, hours of fill and rests that may be tried, with the cast; hands are there at the cast."""
    batch, house, stood = case.batch, case.house, case.batch.stood
    if stood.cast is not None:
        fill = stood.cast if stood.fill is None else stood.fill
        yield stood.steep or 0, (fill,), (stood.cast,), stood.cast
        return
    waters, drains = offsets(batch.stages)
    fills = range(house.now, house.horizon) if stood.fill is None else [stood.fill]
    for fill, longer in product(fills, product(range(house.stretch + 1), repeat=len(waters) - 1)):
        later = [sum(longer[:n]) for n in range(len(waters))]
        w = tuple(fill + hour + more for hour, more in zip(waters, later, strict=True))
        d = tuple(fill + hour + more for hour, more in zip(drains, later, strict=True))
        if stood.fill is not None and any(more and w[n] - more < house.now for n, more in enumerate(longer, 1)):
            continue  # that rest is over
        for cast in range(d[-1] + house.drain, d[-1] + RESTS_MOST + 1):
            if house.hands[cast % 24] >= people_needed(house, cast):
                for steep in range(len(house.steeps)) if stood.steep is None else [stood.steep]:
                    yield steep, w, d, cast


def every(case: Case) -> dict[Choice, list[Way]]:
    """All ways that can be, each by the cheapest steep between its fill and its cast, by what tells them apart."""
    least: dict[tuple[int, ...], int] = {}
    found = all_ways(case)
    for choice, ways in found.items():
        for way in ways:
            key = (choice.steep, way.fill, choice.cast)
            least[key] = min(choice.steeping, least.get(key, choice.steeping))
    kept = {c: [w for w in ways if c.steeping == least[c.steep, w.fill, c.cast]] for c, ways in found.items()}
    return {choice: ways for choice, ways in kept.items() if ways}


def all_ways(case: Case) -> dict[Choice, list[Way]]:
    """All ways that can be."""
    batch, house, before, _ = case
    others, plan = case.others
    found: dict[Choice, list[Way]] = {}
    for steep, w, d, cast in steeped(case):
        beds = range(len(house.beds)) if batch.stood.bed is None else [batch.stood.bed]
        for bed, kiln, waits in product(beds, range(len(house.kilns)), range(WAITS_MOST + 1)):
            told = batch.stood.ready if batch.stood.cast is not None else None
            ready = cast + batch.grow[bed] if told is None else told
            load, off = ready + waits, ready + waits + house.kilns[kiln].hours
            way = Way(steep, w, d, bed, cast, ready, kiln, load, off)
            if house.hands[load % 24] < people_needed(house, load):
                continue
            last = max(off + house.kilns[kiln].turn_round, load + house.clean_bed, cast + house.clean_steep)
            if last > house.horizon or broken(house, (*others, batch), {**plan, "b": way}):
                continue
            cost = packed(cost_of(house, batch, way, before))
            key = Choice(cost, off, cast, steep, steeping(case, way), bed, waits, kiln)
            found.setdefault(key, []).append(way)
    return found


def steeping(case: Case, way: Way) -> int:
    """What of a way's cost is paid up to the cast, but for the line of the cast."""
    batch, house, before, _ = case
    if batch.stood.cast is not None:
        return 0
    moved = before is not None and batch.stood.fill is None and (way.fill, way.steep) != (before.fill, before.steep)
    alone = sum(house.counted[h % 24] < 1 for h in (*way.waters, *way.drains) if h >= house.now)
    watched = watched_of(house, batch, way) - max(0, way.load - way.ready - house.waits_accepted)
    return HAND * alone + WATCHED * watched + CHANGED * moved


def looked(case: Case) -> tuple[Looker, Free]:
    free = Free(case.house)
    others, plan = case.others
    for one in others:
        free.put(one, plan[one.id])
    return Looker(case.house, case.batch, case.before), free


@pytest.fixture(scope="module", params=CASES)
def tried(request: pytest.FixtureRequest) -> tuple[Case, dict[Choice, list[Way]]]:
    case = CASES[request.param]
    return case, every(case)


def test_all_ways_are_given_the_cheapest_first(tried):
    case, ways = tried
    looker, free = looked(case)
    given = list(looker.choices(free, ALL))
    assert len(ways) >= 2 and sorted(given) == sorted(ways)
    assert given == sorted(ways)
    for choice in given[::7]:
        way = looker.way(free, choice)
        assert way is not None and packed(cost_of(case.house, case.batch, way, case.before)) == choice.cost
        others, plan = case.others
        assert broken(case.house, (*others, case.batch), {**plan, "b": way}) == []


def test_those_are_given_that_cost_less_than_a_bound(tried):
    case, ways = tried
    looker, free = looked(case)
    costs = sorted({choice.cost for choice in ways})
    for bound in {costs[0], costs[0] + 1, costs[len(costs) // 2], costs[-1], HAND, 2 * HAND}:
        assert list(looker.choices(free, bound)) == [choice for choice in sorted(ways) if choice.cost < bound]


def test_the_least_is_that_of_the_cheapest_way(tried):
    case, ways = tried
    looker, free = looked(case)
    least = min(choice.cost for choice in ways)
    soonest = min(choice.off for choice in ways if choice.cost // HAND == least // HAND)
    for bound in (ALL, least + 1):
        assert looker.least(free, bound) == (least, soonest)
    for bound in (least, least // HAND * HAND, 1, 0):
        assert looker.least(free, bound) is None or bound > least


def test_the_least_is_that_of_the_cheapest_way_whenever_it_is_wanted(tried):
    case, ways = tried
    was = wanted_by(case.house, case.batch)
    for due in range(min(one.off for one in ways) - 1, max(one.off for one in ways) + 2):
        looker = Looker(case.house, case.batch._replace(due=due), case.before)
        late = [one.cost + LATE * (max(0, one.off - due) - max(0, one.off - was)) for one in ways]
        found = looker.least(looked(case)[1], ALL)
        assert found is not None and found.cost == min(late)


def in_a_window(case: Case, ways: dict[Choice, list[Way]], free: Free, window: int, over: int) -> list[Choice]:
    """What is given with a window, from all that there are."""
    given: list[Choice] = []
    for hands in sorted({one.cost // HAND for one in ways})[over:]:
        some = sorted(one for one in ways if one.cost // HAND == hands)
        latest = min(one.off for one in some) + window
        cheapest: dict[tuple[int, ...], Choice] = {}
        for one in sorted(some, key=lambda one: one.steeping % HAND):
            late = LATE * max(0, one.off - wanted_by(case.house, case.batch))
            price = one.cost - one.steeping - late
            key = (one.cast, one.bed, one.waits, one.kiln, price, one.steeping // HAND)
            if one.off <= latest:
                cheapest.setdefault(key, one)
        listed = sorted(cheapest.values())
        if case.batch.due is not None:
            listed.sort(key=lambda one: (one.cost, crowded(case.house, free, one), one.off))
        given += listed[:60]
    return given


def crowded(house: House, free: Free, one: Choice) -> int:
    """How many of the two rooms around its load on the kiln are not free."""
    kiln = house.kilns[one.kiln]
    load = one.off - kiln.hours
    idle = {hour for hour in range(house.horizon) if free.kilns[one.kiln] >> hour & 1} | set(range(house.now))
    return sum(not set(range(load - room, load + kiln.hours + kiln.turn_round + room)) <= idle for room in ROOM_H)


@pytest.mark.parametrize(("window", "over"), [(0, 0), (1, 0), (30, 0), (30, 1), (30, 2)])
def test_in_a_window_each_hour_has_its_cheapest_steep_and_of_those_alike_the_least_crowded_come_first(
    tried, window, over
):
    case, ways = tried
    looker, free = looked(case)
    given = list(looker.choices(free, ALL, window, over))
    expected = in_a_window(case, ways, free, window, over)
    worth = [(one.cost, one.cost and crowded(case.house, free, one), one.off) for one in given]
    assert worth == [(one.cost, one.cost and crowded(case.house, free, one), one.off) for one in expected]
    assert set(given) <= set(ways)
    if case.batch.due is None:
        assert [one._replace(steep=0) for one in given] == [one._replace(steep=0) for one in expected]


def test_a_batch_leaves_its_steep_clean_before_it_is_closed():
    batch = BATCH._replace(stood=Stood(steep=0, fill=1))
    house = HOUSE._replace(closed=(Closed("A", 32, 36),))
    given = list(Looker(house, batch).choices(Free(house), ALL))
    assert max(one.cast for one in given) == 31
    given = list(Looker(house, batch).choices(Free(house._replace(closed=(Closed("A", 31, 36),))), ALL))
    assert max(one.cast for one in given) == 30


def test_of_steeps_alike_the_first_stands_for_both():
    house = HOUSE._replace(steeps=(Steep("A", 6.0), Steep("B", 6.0)), closed=())
    ways = set(every(Case(BATCH, house._replace(steeps=house.steeps[:1]))))
    looker, free = Looker(house, BATCH), Free(house)
    assert list(looker.choices(free, ALL)) == sorted(ways)
    named = Looker(house, BATCH, BEFORE._replace(steep=1))
    assert {one.steep for one in named.choices(free, ALL)} == {0, 1}  # the one on the wall is not like any other
    free.put(OTHER, HELD._replace(waters=(5, 9), drains=(7, 11), cast=12))
    assert {one.steep for one in looker.choices(free, ALL)} == {0, 1}


SCARCE = HOUSE._replace(closed=(), steeps=HOUSE.steeps[1:], water_m3_t=1000.0, water_m3_h=1.0, tank_m3=9.0)


@pytest.mark.parametrize("house", [SCARCE, SCARCE._replace(water_m3_h=None, effluent_m3_day=9.0)])
def test_where_water_is_short_a_way_is_laid_by_such_steeps_as_have_it(house):
    """A batch draws five at a time and lets go as much; nine are there, or may be let go in a day."""
    looker, free = Looker(house, BATCH), Free(house)
    enough = every(Case(BATCH, house._replace(water_m3_h=None, effluent_m3_day=None)))
    kept = all_ways(Case(BATCH, house))
    laid = 0
    for choice in list(looker.choices(free, ALL))[::5]:
        assert choice in enough
        way = looker.way(free, choice)
        same = [w for c, ws in kept.items() for w in ws if c[2:4] == choice[2:4] and c[5:] == choice[5:]]
        if way is None:
            assert not same
            continue
        laid += 1
        assert way in same
        assert packed(cost_of(house, BATCH, way)) == choice.cost or choice not in kept
    assert laid
