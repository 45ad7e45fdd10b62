"""What is scarce, what would help, which two wishes do not go together, and what a delay moves: on small houses."""

from __future__ import annotations

import pytest

from calculators.rules.week import reasons
from calculators.rules.week.house import Batch, Bed, Closed, Cost, House, Kiln, Plan, Steep, Stood, Way, whole_cost
from calculators.rules.week.judge import broken
from calculators.rules.week.reasons import (
    HELPS,
    Load,
    Pair,
    against,
    helps,
    loads,
    other_plans,
    slack,
    slipped,
    stood_at,
    with_more,
)
from calculators.rules.week.result import Result
from calculators.rules.week.search import search

HOUSE = House(
    (Steep("A", 6.0), Steep("B", 5.0)),
    (Bed("floor", "floor", 12.0, True), Bed("drum", "drum", 6.0)),
    (Kiln("kiln", 6.0, 20, 4), Kiln("small", 5.0, 20, 4)),
    tuple(2 if 6 <= hour < 14 else 1 if 14 <= hour < 20 else 0 for hour in range(24)),
    now=6,
    horizon=240,
)
ONE = HOUSE._replace(steeps=HOUSE.steeps[:1], beds=HOUSE.beds[:1], kilns=HOUSE.kilns[:1])
BATCH = Batch("a", 6.0, None, (4.0,), (24, 24))
WAY = Way(0, (6,), (10,), 0, 11, 35, 0, 35, 55)
PLAN: Plan = {"a": WAY, "b": Way(0, (13,), (17,), 0, 30, 54, 0, 59, 79)}
BOTH = (BATCH, BATCH._replace(id="b", kg=4.0))


def test_how_full_each_place_is():
    """Reckoned by hand from 6:00 until 79, when the last is off: 73 hours."""
    steep, kiln = 7 + 19, 24 + 20
    assert broken(HOUSE, BOTH, PLAN) == []
    assert loads(HOUSE, BOTH, PLAN) == [
        Load("kiln", 0, 24, 13.0, 24.0, kiln / 73),  # loaded at 11:00 of that day
        Load("steep", 0, 0, 18.0, 24.0, steep / 73),  # seven hours and, from 13:00 on, eleven
        Load(
            "bed", 0, 24, 10.0, 12.0, (39 - 30) / 73
        ),  # both lie there for nine hours; another of the mean size fits not
    ]
    drum = {"a": WAY._replace(bed=1), "b": PLAN["b"]}
    found = {(one.kind, one.number): one for one in loads(HOUSE, BOTH, drum)}
    assert found["bed", 1] == Load("bed", 1, 0, 13.0, 24.0, (39 - 11) / 73)
    assert found["bed", 0] == Load("bed", 0, 24, 4.0, 12.0, 0.0)


def test_what_is_past_fills_no_place():
    later = HOUSE._replace(now=36)
    begun = (BATCH._replace(stood=Stood(bed=0, cast=11)), BOTH[1]._replace(stood=Stood(bed=0, cast=30)))
    plan = {"a": WAY, "b": PLAN["b"]}
    found = {(one.kind, one.number): one for one in loads(later, begun, plan)}
    assert ("steep", 0) not in found
    assert found["bed", 0] == Load("bed", 0, 24, 10.0, 12.0, (39 - 36) / (79 - 36))
    kilned = (begun[0]._replace(stood=Stood(bed=0, cast=11, kiln=0, load=35)), begun[1])
    found = {(one.kind, one.number): one for one in loads(later, kilned, plan)}
    assert found["bed", 0] == Load("bed", 0, 24, 4.0, 12.0, 0.0)  # it has left the floor
    assert found["kiln", 0] == Load("kiln", 0, 24, 12.0, 24.0, 1.0)
    assert loads(later._replace(now=79), (kilned[0],), {"a": WAY._replace(off=79)})[0].share == 1.0


def test_more_is_one_more_of_the_largest_place_or_hands_at_every_hour():
    for n, (kind, places) in enumerate((("kiln", "kilns"), ("steep", "steeps"), ("bed", "beds"))):
        more = getattr(with_more(HOUSE, HELPS[n]), places)
        had = getattr(HOUSE, places)
        assert HELPS[n] == kind and more[:-1] == had and more[-1] == had[0]._replace(name="one more")
        others = {"kilns", "steeps", "beds", "hands"} - {places}
        assert all(getattr(with_more(HOUSE, HELPS[n]), one) == getattr(HOUSE, one) for one in others)
    assert with_more(HOUSE._replace(cast_hands=1), "hands").hands == (2,) * 24
    assert with_more(HOUSE._replace(cast_hands=3), "hands").hands == (3,) * 24
    assert with_more(HOUSE._replace(hands=(5,) * 24), "hands").hands == (5,) * 24


def test_help_never_leaves_a_week_worse_and_a_second_kiln_makes_it_punctual():
    """Two batches are wanted off the one kiln at the same hour."""
    house = ONE._replace(steeps=ONE.steeps * 2, horizon=160)
    some = tuple(BATCH._replace(id=name, due=78, grow=(24,)) for name in "ab")
    first = search(house, some, looks=200)
    assert first.plan is not None and first.cost.late > 0
    told: list[float] = []
    found = {one.word: one for one in helps(house, some, first, told.append)}
    assert told == [0.0, 0.25, 0.5, 0.75]
    assert tuple(found) == HELPS and all(one.cost <= first.cost for one in found.values())
    assert found["kiln"].cost.late == 0 and found["kiln"].plan is not None
    assert {way.kiln for way in found["kiln"].plan.values()} == {0, 1}
    best = first._replace(cost=Cost())  # nothing is better than this
    for one in helps(house, some, best):
        assert one.cost == Cost() and (one.plan is first.plan or one.word == "kiln")
    alone = {one.word: one for one in helps(house, some)}
    assert alone["kiln"].cost.late == 0 and alone["steep"].plan is not None


def test_a_bed_more_is_one_like_the_largest():
    """The floor takes one batch at a time; what another would do is known by the days of the larger bed."""
    beds = (Bed("small", "floor", 5.0, True), Bed("large", "floor", 6.0, True))
    house = ONE._replace(steeps=ONE.steeps * 2, beds=beds, kilns=ONE.kilns * 2, horizon=160)
    some = tuple(BATCH._replace(id=name, grow=(10, 30)) for name in "ab")
    found = {one.word: one for one in helps(house, some)}["bed"]
    assert found.plan is not None
    assert {way.ready - way.cast for way in found.plan.values()} == {30}


def test_help_is_nothing_where_no_plan_is_made_possible():
    big = (BATCH._replace(kg=7.0, grow=(24,)),)
    nothing = Result(None, Cost(), Cost(), True, 1, ("a",))
    assert all(one.plan is None for one in helps(ONE, big, nothing))


LYING = ONE._replace(now=46)
READY = [BATCH._replace(id=name, grow=(24,), stood=Stood(bed=0, cast=cast)) for name, cast in (("p", 30), ("q", 31))]
KILNED = BATCH._replace(id="k", grow=(24,), stood=Stood(bed=0, cast=16, kiln=0, load=42))


def test_one_that_cannot_be_kept_even_alone_is_named_with_itself():
    assert against(ONE, (BATCH._replace(grow=(24,)),)) is None
    assert against(ONE, (BATCH._replace(kg=7.0, grow=(24,)),)) == Pair("a", "a")
    shut = ONE._replace(closed=(Closed("kiln", 0, 240),))
    assert against(shut, (BATCH._replace(grow=(24,)),)) == Pair("a", "a")


def test_on_time_is_asked_only_of_what_is_wanted_by_an_hour():
    """The first it can be off is 55: a fill at 6:00, a cast at 11:00, a day and twenty hours."""
    some = (BATCH._replace(grow=(24,), due=54), BATCH._replace(id="b", grow=(24,)))
    assert against(ONE, some, on_time=True) == Pair("a", "a")
    assert against(ONE, (some[0]._replace(due=55), some[1]), on_time=True) is None
    assert against(ONE, some) is None  # late is kept too
    late = (some[0], BATCH._replace(id="c", grow=(24,), due=53))
    assert against(ONE, late, on_time=True, late=("c",)) == Pair("c", "c")


def test_in_time_is_asked_whatever_it_takes_of_hands():
    """In time only where somebody is called in for the drain at 20:00: that is no reason that it cannot be kept."""
    house = ONE._replace(now=16)
    wanted = (BATCH._replace(grow=(22,), due=74),)
    assert search(house, wanted, looks=60).cost.late > 0
    assert against(house, wanted, on_time=True) is None


def test_two_that_want_the_kiln_at_once_do_not_go_together():
    """Both lie ready at one hour, and nobody waits twenty-four hours for a kiln."""
    other = BATCH._replace(id="z", grow=(24,))
    assert against(LYING, (other, *READY)) == Pair("p", "q")
    assert against(LYING, (other, *READY), late=("z",)) is None
    assert against(LYING, (other, *READY), late=("q",)) == Pair("p", "q")
    assert against(LYING._replace(kilns=ONE.kilns * 2), (other, *READY)) is None
    sooner = READY[0]._replace(stood=Stood(bed=0, cast=24))  # ready at 48, and the kiln is clean at 66
    assert against(LYING, (sooner,)) is None and against(LYING, (KILNED, sooner)) == Pair("p", "p")


def test_the_nearest_pairs_are_tried_first_and_so_many_of_them():
    """The kiln can have one of them off at 55 and the next at 79; the third is wanted much later or by no hour."""
    for due in (200, None):
        some = tuple(BATCH._replace(id=name, grow=(24,), due=due) for name, due in (("a", due), ("b", 60), ("c", 66)))
        assert against(ONE, some, on_time=True, most=1) == Pair("b", "c")
        assert against(ONE, some, on_time=True, most=0) is None
    apart = tuple(BATCH._replace(id=name, grow=(24,), due=due) for name, due in (("b", 60), ("c", 90)))
    assert against(ONE, apart, on_time=True) is None


def test_what_is_not_known_is_not_said(monkeypatch):
    """No plan was found, and none is proved not to be: no two are named for that."""
    looked: list[int] = []

    def unsure(house: House, batches: object, looks: int, thorough: bool) -> Result:
        looked.append(looks)
        return Result(None, Cost(), Cost(late=3), False, looks)

    monkeypatch.setattr(reasons, "search", unsure)
    assert against(ONE, (BATCH, BATCH._replace(id="b"))) is None
    assert looked == [16, 16, 16, 300]  # each alone, both, and both once more at length
    assert against(ONE, tuple(BATCH._replace(id=name) for name in "abcd")) is None
    assert looked.count(300) == 1 + 2  # no more than two pairs


def test_water_is_no_reason_that_two_do_not_go_together():
    dry = ONE._replace(water_m3_h=0.0, effluent_m3_day=0.0)
    assert against(dry, (BATCH._replace(grow=(24,)),)) is None


def test_other_plans_are_named_only_when_they_keep_more_of_what_they_put_first():
    """In time only where somebody is called in at night: the drain of a fill at 16:00."""
    house = ONE._replace(now=16)
    wanted = (BATCH._replace(grow=(22,), due=72),)
    first = search(house, wanted, looks=200)
    assert first.plan is not None and first.cost.hands == 0 and first.cost.late > 0
    order, time = other_plans(house, wanted, first)
    assert (order.word, order.plan, order.cost) == ("order", first.plan, first.cost)
    assert time.word == "time" and time.cost.late < first.cost.late and time.cost.hands > 0
    assert time.cost == whole_cost(house, wanted, time.plan)
    punctual = first._replace(cost=first.cost._replace(late=0))
    assert [one.word for one in other_plans(house, wanted, punctual)] == ["order"]
    same = first._replace(cost=time.cost)
    assert [one.word for one in other_plans(house, wanted, same)] == ["order"]  # no better than the first


def found_in_turn(monkeypatch: pytest.MonkeyPatch, *results: Result) -> None:
    """Have the search find these, one after the other."""
    left = list(results)
    monkeypatch.setattr(reasons, "search", lambda *given, **more: left.pop(0))


def test_no_plan_is_named_twice_or_for_what_it_keeps_no_better(monkeypatch):
    first = Result(PLAN, Cost(hands=3, late=9, changed=2), Cost(), False, 1)
    sooner, kept = {**PLAN, "b": PLAN["b"]._replace(off=78)}, {**PLAN, "b": PLAN["b"]._replace(off=84)}
    some = (BATCH, BATCH._replace(id="b", due=75))
    running = {**PLAN, "a": WAY._replace(load=36)}
    late = whole_cost(HOUSE, some, sooner, running)
    assert late.late == 3 and late.changed == 1
    found_in_turn(monkeypatch, *[first._replace(plan=sooner)] * 2)
    assert [one.word for one in other_plans(HOUSE, some, first, running)] == ["order", "time"]  # and not once more
    found_in_turn(monkeypatch, *[first._replace(plan=kept)] * 2)
    assert [one.word for one in other_plans(HOUSE, some, first, running)] == ["order", "paper"]  # as late as the first
    found_in_turn(monkeypatch, *[first._replace(plan=None)] * 2)
    assert [one.word for one in other_plans(HOUSE, some, first, running)] == ["order"]


def test_of_two_repairs_the_one_that_was_found_is_given(monkeypatch):
    """Looked for by all aims, and by the fewest changes alone; none is named in the way where there is one."""
    one = Result(PLAN, Cost(changed=2), Cost(), False, 1)
    for results in ((one, one._replace(plan=None)), (one._replace(plan=None), one)):
        found_in_turn(monkeypatch, *results)
        found = slipped(ONE, BOTH, PLAN, "b", 3)
        assert found.result == one and found.pair is None


def test_of_plans_that_go_on_one_keeps_the_paper():
    """The wall has the batch off a day after it is wanted: in time is another plan, kept as it hangs another."""
    wanted = (BATCH._replace(grow=(24,), due=60),)
    wall = {"a": Way(0, (30,), (34,), 0, 35, 59, 0, 59, 79)}
    first = search(ONE, wanted, wall, looks=200)
    assert first.plan is not None and first.cost.late == 0 and first.cost.changed == 3
    order, paper = other_plans(ONE, wanted, first, wall)
    assert order.word == "order" and paper.word == "paper"
    assert paper.plan == wall and paper.cost == Cost(late=19)
    kept = first._replace(cost=Cost(late=0))
    assert [one.word for one in other_plans(ONE, wanted, kept, wall)] == ["order"]
    assert [one.word for one in other_plans(ONE, wanted, first)] == ["order"]  # nothing hangs


def test_a_week_later_is_the_most_that_is_said():
    """At 11:00 a week on people are there, so it is a week to the hour."""
    house = HOUSE._replace(horizon=400)
    assert slack(house, BOTH[:1], {"a": WAY}, BATCH) == 24 * 7
    assert slack(house, BOTH[:1], {"a": WAY._replace(ready=32)}, BATCH) == 24 * 7 + 3
    assert slack(house._replace(horizon=75), BOTH[:1], {"a": WAY}, BATCH) == 20  # it is off before all ends


@pytest.mark.parametrize(("due", "hours"), [(50, 0), (55, 0), (56, 1), (57, 2), (58, 2), (73, 2), (74, 19), (75, 20)])
def test_a_batch_may_be_ready_later_as_long_as_its_malt_is_in_time(due, hours):
    """Loaded at 11:00 as planned, and to be loaded until 14:00 or from 6:00 on."""
    wanted = BATCH._replace(due=due)
    assert slack(HOUSE, (wanted,), {"a": WAY}, wanted) == hours
    assert slack(HOUSE, (wanted,), {"a": WAY._replace(ready=31)}, wanted) == hours + 4


def test_nobody_loads_alone_at_night_however_few_a_load_takes_by_day():
    alone = HOUSE._replace(hands=(1,) * 24, cast_hands=1)
    for due, hours in ((65, 10), (66, 10), (73, 10), (74, 19)):
        wanted = BATCH._replace(due=due)
        assert slack(alone, (wanted,), {"a": WAY}, wanted) == hours  # until 21:00, then from 6:00 on


@pytest.mark.parametrize(
    ("other", "hours"),
    [
        (Way(1, (60,), (64,), 1, 65, 89, 0, 78, 98), 19),  # 54 + 24 hours is just in time before the next
        (Way(1, (60,), (64,), 1, 65, 89, 0, 77, 97), 2),
        (Way(1, (60,), (64,), 1, 65, 89, 1, 77, 97), 43),  # on another kiln
    ],
)
def test_a_batch_that_is_later_leaves_the_kiln_clean_for_the_next(other, hours):
    second = BATCH._replace(id="b", kg=4.0)
    wanted = BATCH._replace(due=55 + 43)
    assert slack(HOUSE, (wanted, second), {"a": WAY, "b": other}, wanted) == hours


def test_a_batch_that_is_later_leaves_room_on_the_floor_for_the_next():
    """A floor that takes two: while only one more is cast there is room, and with two more there is none."""
    wanted = BATCH._replace(due=55 + 43)
    plan = {
        "a": WAY,
        "b": Way(1, (50,), (53,), 0, 55, 79, 1, 90, 110),
        "c": Way(0, (50,), (53,), 0, 58, 82, 1, 120, 140),
    }
    some = (wanted, BATCH._replace(id="b", kg=4.0), BATCH._replace(id="c", kg=4.0))
    assert slack(HOUSE, some, plan, wanted) == 19  # loaded at 54, and the floor is clean at 58
    assert slack(HOUSE, some[:2], {name: plan[name] for name in "ab"}, wanted) == 43
    drum = {"a": WAY._replace(bed=1), "b": plan["b"]._replace(bed=1)}
    assert slack(HOUSE, some[:2], drum, wanted) == 2  # 55 is before the drum is clean again


@pytest.mark.parametrize(
    ("hour", "stood"),
    [
        (5, Stood()),
        (6, Stood(steep=0, fill=6)),
        (10, Stood(steep=0, fill=6)),
        (11, Stood(steep=0, fill=6, bed=0, cast=11)),
        (34, Stood(steep=0, fill=6, bed=0, cast=11)),
        (35, Stood(steep=0, fill=6, bed=0, cast=11, kiln=0, load=35)),
    ],
)
def test_a_batch_stands_where_its_plan_has_brought_it(hour, stood):
    assert stood_at(BATCH, WAY, hour).stood == stood
    other = Stood(bed=1, cast=9, kiln=1, load=33)
    assert stood_at(BATCH._replace(stood=other), WAY, hour).stood == other  # what happened is not told anew
    assert stood_at(BATCH._replace(stood=Stood(steep=1, fill=5)), WAY, hour).stood.fill == 5


def test_a_delay_that_fits_into_the_wait_changes_nothing_else():
    """The second waits five hours for the kiln: three of them may be lost."""
    found = slipped(ONE, BOTH, PLAN, "b", 3)
    assert found.seen == 54 and found.pair is None and found.result.plan is not None
    assert found.result.cost.changed == 0 and found.result.plan["b"].load == 59
    first, second = found.batches
    assert first.stood == Stood(steep=0, fill=6, bed=0, cast=11, kiln=0, load=35)
    assert second.stood == Stood(steep=0, fill=13, bed=0, cast=30, ready=57)


def test_a_repair_leaves_what_hangs_even_where_another_plan_would_be_better():
    """The third is drained at 20:00 and emptied at 2:00, for which somebody is called in: it hangs so, and stays so."""
    third = BATCH._replace(id="c", grow=(24,))
    hung: Plan = {**PLAN, "c": Way(0, (64,), (68,), 0, 78, 102, 0, 102, 122)}
    found = slipped(ONE, (*BOTH, third), hung, "b", 3)
    assert found.result.plan is not None and found.result.plan["c"] == hung["c"]
    assert (
        found.result.cost == Cost(hands=2) == whole_cost(ONE._replace(now=54), found.batches, found.result.plan, hung)
    )


def test_a_delay_is_seen_now_at_the_soonest_and_moves_what_it_must():
    now = ONE._replace(now=56)
    late = slipped(now, BOTH, PLAN, "b", 22)
    assert late.seen == 56 and late.result.plan is not None
    # ready at 76, which is 4:00; loaded at 10:00, so that somebody is there when it is off at 6:00
    assert late.result.plan["b"].load == 82 and late.result.cost == Cost(changed=1)
    assert late.result.cost == whole_cost(now, late.batches, late.result.plan, PLAN)


def test_a_delay_that_leaves_no_plan_names_who_is_in_the_way():
    """Both lie on the floor; once both are ready, one kiln cannot take them within what a wait may be."""
    plan = {"a": WAY._replace(ready=35, load=35), "b": PLAN["b"]._replace(cast=30)}
    found = slipped(ONE, BOTH, plan, "a", 24)
    assert found.result.plan is None and found.pair == Pair("a", "b")
