"""One plan of a small house priced and judged by hand, and each thing that can be wrong with it, from both sides."""

from __future__ import annotations

from typing import Any

import pytest

from calculators.rules.limit import edge
from calculators.rules.limits.kiln_hand_over import READY_HOURS
from calculators.rules.limits.steeping import REST
from calculators.rules.week.house import (
    Batch,
    Bed,
    Closed,
    Cost,
    House,
    Kiln,
    Plan,
    Steep,
    Stood,
    Way,
    acts_alone,
    cost_of,
    offsets,
    over,
    people_needed,
    soaked_m3,
    water_lasts,
    whole_cost,
)
from calculators.rules.week.judge import broken
from calculators.rules.week.result import packed, unpacked

FIFTH = 5 * 24  # the sixth day, so that the hour and the hour of the day are two things
HANDS = tuple(2 if 6 <= hour < 14 else 1 if 14 <= hour < 20 else 0 for hour in range(24))
HOUSE = House(
    (Steep("A", 6000.0), Steep("B", 7000.0)),
    (Bed("floor", "floor", 12000.0, True), Bed("drum", "drum", 6500.0)),
    (Kiln("kiln", 6000.0, 30, 4), Kiln("other", 7000.0, 30, 4)),
    HANDS,
    now=FIFTH + 6,
)
BATCH = Batch("b", 6000.0, FIFTH + 181, (8.0, 7.0, 8.0), (120, 120))
WAY = Way(
    steep=0,
    waters=(FIFTH + 6, FIFTH + 21),
    drains=(FIFTH + 14, FIFTH + 29),
    bed=0,
    cast=FIFTH + 31,
    ready=FIFTH + 151,
    kiln=0,
    load=FIFTH + 151,
    off=FIFTH + 181,
)


def moved(**what: Any) -> Way:
    """The plan with this of it otherwise; hours are those of the sixth day."""

    def hours(name: str, value: Any) -> Any:
        if name in ("steep", "bed", "kiln"):
            return value
        return tuple(FIFTH + hour for hour in value) if isinstance(value, tuple) else FIFTH + value

    return WAY._replace(**{name: hours(name, value) for name, value in what.items()})


def faults(house: House = HOUSE, batch: Batch = BATCH, **what: Any) -> list[str]:
    """What is wrong when this of the plan is otherwise."""
    return broken(house, (batch,), {"b": moved(**what)})


def test_the_plan_itself_can_be():
    assert faults() == []


@pytest.mark.parametrize(
    ("good", "bad", "fault"),
    [
        ({"drains": (14, 32), "cast": 56}, {"cast": 57}, "b: drained for 25 h"),
        ({"waters": (6, 38), "drains": (14, 45), "cast": 55}, {"waters": (6, 39)}, "b: drained for 25 h"),
        ({"drains": (14, 30)}, {"drains": (14, 31)}, "b: cast before it is drained"),
        ({"cast": 37}, {"cast": 38}, "b: no hands for its cast"),
        ({"load": 156, "ready": 151}, {"load": 158, "ready": 151}, "b: no hands for its load"),
        ({"load": 157, "ready": 145}, {"load": 157, "ready": 144}, "b: waits 13 h for the kiln"),
        ({"ready": 150}, {"ready": 152}, "b: waits -1 h for the kiln"),
        ({"waters": (6, 21)}, {"waters": (5, 21)}, "b: planned in the past"),
    ],
)
def test_each_hour_has_its_last_good_one(good, bad, fault):
    assert edge(REST.stop_high) == 24 and edge(READY_HOURS.stop_high) == 12  # the hours above stand on these
    assert faults(**good) == []
    assert faults(**{**good, **bad}) == [fault]


def test_at_night_one_who_is_there_is_not_enough():
    alone = HOUSE._replace(hands=(1,) * 24, cast_hands=1)
    assert faults(alone) == []
    assert faults(alone, cast=45) == [] and faults(alone, cast=46) == ["b: no hands for its cast"]  # 21:00, 22:00
    assert faults(alone, load=150, ready=150) == [] and faults(alone, load=149, ready=149) == [
        "b: no hands for its load"
    ]
    assert people_needed(alone, 22) == 2 and people_needed(HOUSE._replace(cast_hands=3), 22) == 3


def test_a_batch_is_not_filled_before_it_may_be():
    assert faults(batch=BATCH._replace(from_h=FIFTH + 6)) == []
    assert faults(batch=BATCH._replace(from_h=FIFTH + 7)) == ["b: planned in the past"]
    begun = BATCH._replace(stood=Stood(steep=0, fill=FIFTH + 6))
    assert faults(HOUSE._replace(now=FIFTH + 8), begun) == []  # it is filled: that is no plan
    assert faults(HOUSE._replace(now=FIFTH + 31), begun) == []
    assert "b: planned in the past" in faults(HOUSE._replace(now=FIFTH + 32), begun)
    lying = BATCH._replace(stood=Stood(bed=0, cast=FIFTH + 31))
    assert faults(HOUSE._replace(now=FIFTH + 151), lying) == []
    assert faults(HOUSE._replace(now=FIFTH + 152), lying) == ["b: no hands for its load"]


@pytest.mark.parametrize(
    ("kg", "found"),
    [
        (6000.0, []),
        (6001.0, ["b: too large for the steep", "b: too large for the kiln"]),
        (12001.0, ["b: too large for the steep", "b: too large for the bed", "b: too large for the kiln"]),
    ],
)
def test_a_batch_goes_where_it_has_room(kg, found):
    assert [one for one in faults(batch=BATCH._replace(kg=kg)) if "too large" in one] == found


MANY = HOUSE._replace(hands=(4,) * 24)


def two(house: House = MANY, **what: Any) -> list[str]:
    """What is wrong when a second batch goes through steep B, the floor and the other kiln, but for this."""
    plan = {"b": WAY, "c": moved(**{"steep": 1, "kiln": 1, **what})}
    return broken(house, (BATCH, BATCH._replace(id="c")), plan)


def test_who_is_at_one_cast_or_load_is_not_there_for_another_of_that_hour():
    assert two(house=HOUSE) == [f"4 people at casts and loads of hour {FIFTH + hour}" for hour in (31, 151)]
    plan = {"b": WAY, "c": moved(steep=1, kiln=1)}
    both = (BATCH, BATCH._replace(id="c"))
    by = {1: [], 2: [f"4 people at casts and loads of hour {FIFTH + hour}" for hour in (31, 151)]}
    for needed, said in by.items():
        assert broken(HOUSE._replace(cast_hands=needed), both, plan) == said
    assert broken(HOUSE._replace(hands=(4,) * 24), both, plan) == []
    assert broken(HOUSE._replace(hands=(3,) * 24), both, plan) == by[2]


def test_no_place_is_held_twice_and_each_is_cleaned_between():
    assert two() == []  # the floor takes both
    assert two(steep=0) == ["b: steep 1 is full", "c: steep 1 is full"]
    assert two(kiln=0) == ["b: kiln 1 is full", "c: kiln 1 is full"]
    after = moved(waters=(33, 48), drains=(41, 56), cast=59, ready=179, load=179, off=209)
    plan = {"b": WAY, "c": after._replace(kiln=1)}
    both = (BATCH, BATCH._replace(id="c"))
    assert broken(HOUSE, both, plan) == []  # filled as soon as the steep is clean
    assert broken(HOUSE._replace(clean_steep=3), both, plan) == ["c: steep 1 is full"]
    turned = HOUSE._replace(kilns=(Kiln("kiln", 6000.0, 24, 4),) * 2)
    again = {"b": WAY._replace(off=WAY.load + 24), "c": after._replace(kiln=0, off=after.load + 24)}
    assert broken(turned, both, again) == []
    slower = turned._replace(kilns=(Kiln("kiln", 6000.0, 24, 5),) * 2)
    assert broken(slower, both, again) == ["c: kiln 1 is full"]


def test_a_vessel_is_one_batchs_alone_and_is_cleaned_after_it():
    small = Batch("b", 3000.0, None, BATCH.stages, (120, 120))
    later = WAY._replace(
        steep=1, bed=1, kiln=1, cast=WAY.load + 4, ready=WAY.load + 124, load=WAY.load + 124, off=WAY.off + 124
    )
    later = later._replace(waters=(WAY.load - 22, WAY.load - 7), drains=(WAY.load - 14, WAY.load + 1))
    plan = {"b": WAY._replace(bed=1), "c": later}
    both = (small, small._replace(id="c"))
    assert broken(HOUSE, both, plan) == []
    assert broken(HOUSE._replace(clean_bed=5), both, plan) == ["c: bed 2 is full"]
    assert broken(MANY, both, {"b": WAY._replace(bed=1), "c": WAY._replace(steep=1, bed=1, kiln=1)}) == [
        "b: bed 2 is full",
        "c: bed 2 is full",
    ]


def test_a_floor_takes_what_it_holds_and_the_rounding_of_the_machine_is_no_barley():
    def lie(*kg: float, most: float) -> list[str]:
        house = HOUSE._replace(beds=(Bed("floor", "floor", most, True),), steeps=(Steep("s", 9.0),) * 3)
        house = house._replace(hands=(9,) * 24)
        house = house._replace(kilns=(Kiln("k", 9.0, 30, 4),) * 3)
        some = tuple(Batch(f"b{n}", one, None, BATCH.stages, (120,)) for n, one in enumerate(kg))
        return broken(house, some, {f"b{n}": WAY._replace(steep=n, kiln=n) for n in range(len(kg))})

    assert 1.1 + 2.2 > 3.3  # as the machine has it
    assert lie(1.1, 2.2, most=3.3) == [] and lie(2.0, 1.0, most=3.0) == []
    assert lie(1.1, 2.2, most=3.299) == ["b0: bed 1 is full", "b1: bed 1 is full"]
    assert not over(3.0, 3.0) and over(3.0 + 1e-6, 3.0) and not over(2.0, 3.0)


@pytest.mark.parametrize(("place", "begin", "end"), [("A", 6, 33), ("floor", 31, 155), ("kiln", 151, 185)])
def test_a_place_is_closed_from_an_hour_until_another(place, begin, end):
    def closed(first: int, last: int, house: House = HOUSE) -> list[str]:
        return faults(house._replace(closed=(Closed(place, FIFTH + first, FIFTH + last),)))

    wrong = [f"b: {place} is closed"]
    assert closed(begin - 9, begin) == [] and closed(begin - 9, begin + 1) == wrong
    assert closed(end, end + 9) == [] and closed(end - 1, end + 9) == wrong
    assert closed(begin + 1, end - 1) == wrong
    assert faults(HOUSE._replace(closed=(Closed("B", 0, 999), Closed("drum", 0, 999), Closed("no such", 0, 999)))) == []


def test_what_stands_in_a_place_already_is_no_fault_of_the_plan():
    shut = HOUSE._replace(now=FIFTH + 20, closed=(Closed("A", FIFTH + 10, FIFTH + 12),))
    assert faults(shut, BATCH._replace(stood=Stood(steep=0, fill=FIFTH + 6))) == []
    lying = BATCH._replace(stood=Stood(bed=0, cast=FIFTH + 31))
    assert faults(HOUSE._replace(now=FIFTH + 40, closed=(Closed("floor", FIFTH + 50, FIFTH + 60),)), lying) == []
    kilned = BATCH._replace(stood=Stood(bed=0, cast=FIFTH + 31, kiln=0, load=FIFTH + 151))
    assert faults(HOUSE._replace(now=FIFTH + 160, closed=(Closed("floor", 0, 999),)), kilned) == []
    assert "b: no hands for its load" not in faults(HOUSE._replace(hands=(0,) * 24), kilned)
    both = (kilned, BATCH._replace(id="c", stood=Stood(bed=0, cast=FIFTH + 31)))
    late = HOUSE._replace(now=FIFTH + 152)
    follows = WAY._replace(ready=FIFTH + 185, load=FIFTH + 185, off=FIFTH + 215)
    assert broken(late, both, {"b": WAY, "c": follows}) == ["c: no hands for its load"]  # 17:00, the kiln being clean
    early = follows._replace(load=FIFTH + 184, ready=FIFTH + 184)
    assert "c: kiln 1 is full" in broken(late, both, {"b": WAY, "c": early})


def test_what_a_batch_left_is_no_place_for_another_before_it_is_clean():
    """Cast an hour ago from a steep that takes two to clean; loaded an hour ago from a drum that takes four."""
    gone = Batch("g", 5000.0, None, (8.0,), (120, 120), stood=Stood(steep=0, fill=FIFTH - 9, bed=1, cast=FIFTH + 5))
    way = Way(0, (FIFTH - 9,), (FIFTH - 1,), 1, FIFTH + 5, FIFTH + 126, 1, FIFTH + 126, FIFTH + 156)
    plan = {"b": WAY, "g": way}
    assert broken(HOUSE, (BATCH, gone), plan) == ["b: steep 1 is full"]
    assert broken(HOUSE._replace(clean_steep=1), (BATCH, gone), plan) == []
    kilned = gone._replace(stood=Stood(bed=1, cast=FIFTH - 90, kiln=1, load=FIFTH + 27))
    off = way._replace(load=FIFTH + 27, off=FIFTH + 57)
    drum = {"b": moved(bed=1), "g": off}
    assert broken(HOUSE, (BATCH, kilned), drum) == []
    assert broken(HOUSE._replace(clean_bed=5), (BATCH, kilned), drum) == ["b: bed 2 is full"]


def test_no_more_steep_water_is_let_go_in_a_day_than_may_be():
    """Six of each drain, at 14:00 on one day and at 5:00 on the next."""
    assert soaked_m3(HOUSE, BATCH) == 6.0 and soaked_m3(HOUSE._replace(water_m3_t=1.5), BATCH) == 9.0
    fault = "more steep water let go in a day"
    assert faults(HOUSE._replace(effluent_m3_day=6.0)) == []
    assert faults(HOUSE._replace(effluent_m3_day=5.9)) == [fault] * 2
    assert faults(HOUSE._replace(effluent_m3_day=0.0)) == [fault] * 2
    same_day: dict[str, Any] = {"waters": (6, 15), "drains": (14, 23)}
    assert faults(HOUSE._replace(effluent_m3_day=12.0), **same_day) == []
    assert faults(HOUSE._replace(effluent_m3_day=11.9), **same_day) == [fault]
    begun = BATCH._replace(stood=Stood(steep=0, fill=FIFTH + 6))
    assert faults(HOUSE._replace(effluent_m3_day=11.9, now=FIFTH + 14), begun, **same_day) == [fault]
    assert faults(HOUSE._replace(effluent_m3_day=11.9, now=FIFTH + 15), begun, **same_day) == []


def test_no_more_water_is_drawn_than_there_is():
    """Six are drawn at 6:00 and at 21:00: what stands in the tank, and what comes in fifteen hours."""
    fault = "not so much water comes"
    assert faults(HOUSE._replace(water_m3_h=0.4, tank_m3=5.6)) == []
    assert faults(HOUSE._replace(water_m3_h=0.4, tank_m3=5.5)) == [fault]
    assert faults(HOUSE._replace(water_m3_h=0.3, tank_m3=6.0)) == [fault]
    assert faults(HOUSE._replace(water_m3_h=6.0)) == []  # with no tank what comes within the hour
    assert faults(HOUSE._replace(water_m3_h=5.95)) == [fault]
    begun = BATCH._replace(stood=Stood(steep=0, fill=FIFTH + 6))
    assert faults(HOUSE._replace(water_m3_h=0.0, tank_m3=6.0, now=FIFTH + 7), begun) == []
    assert faults(HOUSE._replace(water_m3_h=0.0, tank_m3=5.9, now=FIFTH + 21), begun) == [fault]


def test_a_tank_is_filled_between_and_no_fuller_than_full():
    assert water_lasts([], 1.0, 0.0)
    assert water_lasts([(4, 5.0), (9, 5.0)], 1.0, 4.0) and not water_lasts([(4, 5.0), (8, 5.1)], 1.0, 4.0)
    assert water_lasts([(4, 4.0), (4, 1.0), (5, 1.0)], 1.0, 4.0)
    assert not water_lasts([(4, 4.0), (4, 1.0), (5, 1.1)], 1.0, 4.0)
    assert water_lasts([(4, 2.0), (5, 4.0)], 1.0, 4.0) and not water_lasts([(4, 2.0), (5, 4.1)], 1.0, 4.0)
    assert water_lasts([(4, 0.5), (5, 5.0)], 1.0, 4.0) and not water_lasts([(4, 0.5), (5, 5.1)], 1.0, 4.0)
    # two hours bring two, and what comes within the hour is one more
    assert water_lasts([(0, 5.0), (3, 3.0)], 1.0, 4.0) and not water_lasts([(0, 5.0), (3, 3.1)], 1.0, 4.0)
    assert water_lasts([(0, 1.1 + 2.2)], 0.0, 3.3)


@pytest.mark.parametrize(
    ("stages", "waters", "drains"),
    [
        ((8.0,), (0,), (8,)),
        ((8.0, 7.0, 8.0, 12.0, 3.0), (0, 15, 35), (8, 23, 38)),
        ((6.4, 7.4, 6.4), (0, 14), (6, 20)),  # hours are added as they are, then rounded
        ((0.2, 7.0, 8.0), (0, 7), (1, 15)),  # an immersion takes an hour at the least
    ],
)
def test_stages_by_the_clock(stages, waters, drains):
    assert offsets(stages) == (waters, drains)


def test_what_a_plan_costs():
    """Nobody is there at 21:00 and 5:00; 7 h and 2 h drained are accepted; the malt is in time to the hour."""
    assert acts_alone(HOUSE, BATCH, WAY) == [FIFTH + hour for hour in (6, 21, 14, 29, 181)]
    assert cost_of(HOUSE, BATCH, WAY) == Cost(hands=2)
    assert cost_of(HOUSE._replace(calls_count=False), BATCH, WAY) == Cost()
    assert cost_of(HOUSE, BATCH, WAY._replace(off=FIFTH + 182)) == Cost(hands=2, late=1)
    assert cost_of(HOUSE, BATCH, WAY._replace(off=FIFTH + 190)) == Cost(hands=3, late=9)  # 22:00
    assert cost_of(HOUSE, BATCH, WAY._replace(off=FIFTH + 180)) == Cost(hands=2)
    assert cost_of(HOUSE, BATCH._replace(due=None), WAY._replace(off=FIFTH + 182)) == Cost(hands=2)
    begun = HOUSE._replace(now=FIFTH + 22)
    assert cost_of(begun, BATCH, WAY) == Cost(hands=1)  # who was called in was called in


@pytest.mark.parametrize(
    ("what", "watched"),
    [
        ({"waters": (6, 26)}, 0),
        ({"waters": (6, 27)}, 1),
        ({"drains": (14, 19)}, 0),
        ({"drains": (14, 18)}, 1),
        ({"waters": (6, 28), "drains": (14, 16)}, 2 + 3),
        ({"ready": 145}, 0),
        ({"ready": 144}, 1),
        ({"ready": 141, "drains": (14, 18)}, 4 + 1),
    ],
)
def test_hours_watched_are_those_past_what_is_accepted(what, watched):
    assert edge(REST.accept_high) == 12 and edge(READY_HOURS.accept_high) == 6
    way = moved(**what)
    assert cost_of(HOUSE, BATCH, way).watched == watched
    cast = BATCH._replace(stood=Stood(bed=0, cast=WAY.cast))
    assert cost_of(HOUSE, cast, way).watched == max(0, way.load - way.ready - 6)
    kilned = BATCH._replace(stood=Stood(bed=0, cast=WAY.cast, kiln=0, load=WAY.load))
    assert cost_of(HOUSE, kilned, way).watched == 0


@pytest.mark.parametrize(
    ("stood", "lines"),
    [
        (Stood(), {"fill": 1, "cast": 1, "load": 1}),
        (Stood(steep=0, fill=WAY.fill), {"fill": 0, "cast": 1, "load": 1}),
        (Stood(bed=0, cast=WAY.cast), {"fill": 0, "cast": 0, "load": 1}),
        (Stood(bed=0, cast=WAY.cast, kiln=0, load=WAY.load), {"fill": 0, "cast": 0, "load": 0}),
    ],
)
def test_a_line_is_written_anew_when_its_hour_or_its_place_is_another(stood, lines):
    batch = BATCH._replace(stood=stood)
    others: dict[str, list[dict[str, Any]]] = {
        "fill": [{"waters": (7, 21)}, {"steep": 1}],
        "cast": [{"cast": 32}, {"bed": 1}],
        "load": [{"load": 152}, {"kiln": 1}],
    }
    assert cost_of(HOUSE, batch, WAY, WAY).changed == 0 and cost_of(HOUSE, batch, WAY).changed == 0
    for line, counts in lines.items():
        for other in others[line]:
            assert cost_of(HOUSE, batch, moved(**other), WAY).changed == counts
    every = WAY._replace(steep=1, bed=1, kiln=1)
    assert cost_of(HOUSE, batch, every, WAY).changed == sum(lines.values())


def test_a_plan_costs_what_its_batches_cost_and_a_new_batch_changes_no_line():
    late = BATCH._replace(id="c", due=FIFTH + 180)
    plan: Plan = {"b": WAY, "c": WAY._replace(steep=1)}
    assert whole_cost(HOUSE, (BATCH, late), plan) == Cost(hands=4, late=1)
    assert whole_cost(HOUSE, (BATCH, late), plan, {"b": WAY._replace(load=1)}) == Cost(hands=4, late=1, changed=1)


def test_a_cost_in_one_number_weighs_the_aims_in_their_order():
    cost = Cost(hands=3, late=65535, watched=7, changed=2)
    assert unpacked(packed(cost)) == cost
    assert packed(Cost(late=1)) > packed(Cost(watched=65535, changed=65535))
    assert packed(Cost(hands=1)) > packed(Cost(late=65535, watched=65535))
    assert packed(cost, ("changed",)) == 2
