"""How a week is searched: how often a batch is looked at, what no plan can beat, and which of plans alike is taken."""

from __future__ import annotations

import pytest

from calculators.rules.week.house import Batch, Bed, Cost, House, Kiln, Plan, Steep, Stood, Way, cost_of
from calculators.rules.week.result import packed, unpacked
from calculators.rules.week.search import LOOKS, LOOKS_LARGE, LOOKS_SMALL, Search, search, standing
from calculators.rules.week.shapes import HAND, LATE
from tests.rules.week_other import drawn_house

HOUSE = House(
    (Steep("A", 6.0), Steep("B", 6.0)),
    (Bed("floor", "floor", 12.0, True),),
    (Kiln("kiln", 6.0, 20, 4),),
    tuple(2 if 6 <= hour < 14 else 1 if 14 <= hour < 20 else 0 for hour in range(24)),
    now=6,
    horizon=240,
)
BATCH = Batch("a", 6.0, None, (4.0,), (24,))
WAY = Way(0, (6,), (10,), 0, 11, 35, 0, 35, 55)  # the first it can be off, without anybody called in


def some(*dues: int | None) -> tuple[Batch, ...]:
    return tuple(BATCH._replace(id=name, due=due) for name, due in zip("abcdefgh", dues, strict=False))


def bound(house: House, batches: tuple[Batch, ...], running: Plan | None = None) -> Cost:
    return unpacked(Search(house, batches, running).least()[0])


@pytest.mark.parametrize(
    ("dues", "late"),
    [
        ((55,), 0),
        ((54,), 1),
        ((50, 79), 5),
        ((55, 55), 24),  # the second is off a kiln's round later
        ((55, 78), 1),
        ((55, 79), 0),
        ((78, 55), 1),  # whichever is named first
        ((55, 55, 55), 24 + 48),
        ((55, 55, None), 24),
        ((30, 30), 25 + 49),
        ((40, 90), 15),  # what one is late alone
    ],
)
def test_on_one_kiln_one_batch_follows_another(dues, late):
    """The kiln takes twenty hours and four to be ready again, so that it can be loaded at 11:00 on each day."""
    assert bound(HOUSE, some(*dues)) == Cost(late=late)
    found = search(HOUSE, some(*dues), looks=60)
    assert found.least <= found.cost and found.cost.late >= late


def test_the_queue_takes_nothing_from_what_each_is_late_alone():
    """One that grows long is wanted first: in a queue it could change places; alone it is a day late all the same."""
    long, short = BATCH._replace(due=55, grow=(48,)), BATCH._replace(id="b", due=79)
    assert bound(HOUSE, (long, short)) == Cost(late=24)


def test_on_two_kilns_each_batch_is_taken_alone():
    assert bound(HOUSE._replace(kilns=HOUSE.kilns * 2), some(54, 54)) == Cost(late=2)


def test_with_a_plan_on_the_wall_no_queue_is_reckoned():
    assert bound(HOUSE, some(55, 55), {"a": WAY}) == Cost(late=0)


def test_the_queue_waits_for_hands():
    """A kiln of 22 hours could be loaded again at 13:00, where from 12:00 on nobody may."""
    slow = HOUSE._replace(kilns=(Kiln("kiln", 6.0, 22, 4),), hands=tuple(2 if 6 <= h < 12 else 1 for h in range(24)))
    assert bound(slow, some(57, 57)) == Cost(late=78 + 22 - 57)
    late = slow._replace(horizon=90)  # so soon that the second has no place at all
    assert Search(late, some(57, 57)).least()[0] >= HAND << 16


def test_who_has_to_be_called_in_is_reckoned_with_the_queue():
    night = HOUSE._replace(kilns=(Kiln("kiln", 6.0, 36, 4),), hands=tuple(2 if 6 <= h < 12 else 0 for h in range(24)))
    alone = bound(night, some(71))
    both = bound(night, some(71, 71))
    assert alone.hands >= 1 and both.hands == 2 * alone.hands and both.late >= 40


def test_what_is_fixed_and_what_has_no_way_is_reckoned_too():
    on = BATCH._replace(
        id="k", due=20, stood=Stood(bed=0, cast=1, kiln=0, load=2)
    )  # off at 22, which calls somebody in
    least, stuck = Search(HOUSE, (on, *some(55), BATCH._replace(id="z", kg=7.0))).least()
    assert unpacked(least) == Cost(hands=1, late=2) and stuck == ("z",)
    found = search(HOUSE, (on, BATCH._replace(id="z", kg=7.0)))
    assert found == (None, Cost(), Cost(), True, 0, ("z",))
    found = search(HOUSE, (on, *some(55)), looks=30)
    assert found.plan is not None and found.plan["k"] == standing(HOUSE, on)
    assert found.cost == Cost(hands=1, late=2) and found.proved and found.least == found.cost


def test_a_batch_on_the_kiln_stands_as_it_is_told():
    on = Stood(steep=1, fill=1, bed=0, cast=5, ready=30, kiln=0, load=31)
    assert standing(HOUSE, BATCH._replace(stood=on)) == Way(1, (1,), (5,), 0, 5, 30, 0, 31, 51)
    bare = Stood(kiln=0, load=31)
    assert standing(HOUSE, BATCH._replace(stood=bare)) == Way(0, (31,), (31,), 0, 31, 31, 0, 31, 51)
    assert standing(HOUSE, BATCH._replace(stood=bare._replace(bed=1, cast=5))) == Way(
        0, (5,), (5,), 1, 5, 31, 0, 31, 51
    )


@pytest.mark.parametrize(
    ("count", "looks"), [(1, LOOKS_SMALL), (3, LOOKS_SMALL), (4, LOOKS), (5, LOOKS), (6, LOOKS_LARGE)]
)
def test_how_often_is_looked_depends_on_how_many_are_wanted(count, looks):
    batches = some(*[None] * count)
    assert Search(HOUSE, batches).most == looks and Search(HOUSE, batches, looks=77).most == 77
    on = BATCH._replace(id="k", stood=Stood(bed=0, cast=1, kiln=0, load=2))
    assert Search(HOUSE, (*batches, on)).most == looks  # what is on the kiln is not looked at


def test_looks_are_counted_and_never_more_than_there_are():
    told: list[float] = []
    found = search(*drawn_house(305, 10), looks=125, tell=told.append)
    assert found.looks == 125 and told == [0.4, 0.8]
    for looks in (1, 3, 4):
        short = search(HOUSE, some(55, 55, 55, 55), looks=looks, thorough=False)
        assert short.looks == looks and (short.plan is not None) == short.proved == (looks >= 4)


def test_where_no_plan_is_found_half_as_many_looks_more_are_spent_on_the_proof():
    """Two lie ready at one hour, and the kiln takes one: that is proved. With too few looks it is not known."""
    lying = tuple(BATCH._replace(id=name, stood=Stood(bed=0, cast=30)) for name in "ab")
    house = HOUSE._replace(now=46)
    sure = search(house, lying, looks=60)
    assert sure.plan is None and sure.proved and sure.looks > 0
    quick = search(house, lying, looks=60, thorough=False)
    assert quick.plan is None and not quick.proved
    assert search(house, lying, looks=2).looks <= 3
    dry = search(house._replace(water_m3_h=9.0), lying, looks=60)
    assert dry.plan is None and not dry.proved  # where water counts not every way is tried


def orders(house: House, batches: tuple[Batch, ...], running: Plan | None = None, finds: int = 99) -> list[list[str]]:
    """The orders in which batches are put in at first; a plan is found by so many of them."""
    one, tried = Search(house, batches, running), []

    def insert(names: list[str], plan: Plan) -> bool:
        tried.append(list(names))
        plan.update(dict.fromkeys(names, WAY))
        return len(tried) >= finds

    one._insert = insert  # type: ignore[method-assign, assignment]
    one._empty = lambda plan, names: plan.clear()  # type: ignore[method-assign]
    one._at_first()
    return tried


def test_at_first_those_that_stand_are_put_in_then_those_wanted_first():
    batches = (
        *some(90, 60, None),
        BATCH._replace(id="in", stood=Stood(steep=0, fill=3)),
        BATCH._replace(id="late", stood=Stood(bed=0, cast=5)),
        BATCH._replace(id="lies", stood=Stood(bed=0, cast=4)),
    )
    stand = ["lies", "late", "in"]
    three = [[*stand, *"bac"], [*stand, *"abc"], [*stand, *"cab"]]
    tried = orders(HOUSE, batches)
    assert tried[:3] == three and len(tried) == 3 + 4 * 6
    assert all(sorted(one) == sorted(tried[0]) for one in tried)
    assert orders(HOUSE, batches, finds=2) == three  # one is found: no more are drawn
    assert len(orders(HOUSE, batches, finds=5)) == 5
    hung: Plan = {"c": WAY, "in": WAY._replace(load=60), "a": WAY._replace(load=50)}
    again = orders(HOUSE, batches, hung)
    assert again[0] == ["c", "a", "in", "b", "late", "lies"] and again[1:4] == three


def worth(house: House, batches: tuple[Batch, ...], plan: Plan) -> tuple[int, int, int]:
    return Search(house, batches)._worth(plan)


def test_of_plans_that_cost_the_same_the_roomier_and_then_the_sooner_is_better():
    """Rooms of twelve hours and of a day between two on a kiln, beside the hours until it can be loaded again."""
    both = some(300, 300)
    for between, crowded in ((4, 2), (15, 2), (16, 1), (27, 1), (28, 0), (40, 0)):
        plan = {"a": WAY, "b": WAY._replace(load=55 + between, ready=55 + between, off=75 + between)}
        cost = sum(packed(cost_of(HOUSE, one, plan[one.id])) for one in both)
        assert worth(HOUSE, both, plan) == (cost, crowded, 55 + 75 + between)
        assert worth(HOUSE, some(300, None), plan)[1] == 0  # what is wanted by no hour has room enough
        assert worth(HOUSE, some(None, 300), plan)[1] == crowded
        other = {**plan, "b": plan["b"]._replace(kiln=1)}
        assert worth(HOUSE._replace(kilns=HOUSE.kilns * 2), both, other)[1] == 0
    on = BATCH._replace(id="k", stood=Stood(bed=0, cast=1, kiln=0, load=10))  # off at 30
    assert Search(HOUSE, (on, *both[:1]))._worth({"a": WAY})[1] == 2


def test_a_plan_is_taken_only_when_it_is_better():
    both = some(300, 300)
    one = Search(HOUSE, both)
    plan = {"a": WAY, "b": WAY._replace(load=83, ready=83, off=103)}
    assert one._take_best(plan) and one.best == plan and one.best_cost == one._worth(plan)[0]
    assert not one._take_best({**plan})
    later = {**plan, "b": WAY._replace(load=84, ready=84, off=104)}
    assert not one._take_best(later) and one.best == plan
    assert one._take_best({"a": WAY, "b": WAY._replace(load=82, ready=82, off=102, drains=(10,))}) is False  # crowded
    assert LATE < HAND
