"""The plan of a week: against every way tried, against another solver, and never past a stop.

CP-SAT of OR-Tools (test only) is given the same houses in its own terms: ``week_other``.
"""

from __future__ import annotations

from random import Random

import pytest

from calculators.rules.limit import edge
from calculators.rules.limits.kiln_hand_over import READY_HOURS
from calculators.rules.limits.steeping import REST
from calculators.rules.week.draws import Doubt, weeks
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
    acts_alone,
    people_needed,
    water_lasts,
    whole_cost,
)
from calculators.rules.week.judge import broken
from calculators.rules.week.reasons import against, helps, loads, slipped
from calculators.rules.week.search import search
from tests.drawn import drawn
from tests.rules.week_other import by_cp_sat, by_trying_all, drawn_again, drawn_house

DAYTIME = tuple(2 if 6 <= hour < 14 else 1 if 14 <= hour < 20 else 0 for hour in range(24))
PLAIN = House(
    (Steep("A", 6000.0), Steep("B", 6000.0)),
    (Bed("floor", "floor", 12000.0, True), Bed("drum", "drum", 6500.0)),
    (Kiln("kiln", 7000.0, 32, 4),),
    tuple(2 if 5 <= hour < 15 else 1 if hour < 22 and hour >= 15 else 0 for hour in range(24)),
    now=18,
    horizon=24 * 35,
)
STAGES = (8.0, 8.0, 8.0, 12.0, 3.0)


def wanted(count: int, due: int | None = None, step: int = 48) -> tuple[Batch, ...]:
    return tuple(
        Batch(f"b{n}", 6000.0, None if due is None else due + step * n, STAGES, (127, 120)) for n in range(count)
    )


def tiny(seed: int) -> tuple[House, tuple[Batch, ...]]:
    """A house so small that every plan of it can be tried."""
    draw = Random(seed)
    hands = tuple(2 if h in (6, 7) else 1 if 5 <= h < 16 else 0 for h in range(24))
    house = House(
        (Steep("A", 6.0),) * draw.choice((1, 2)),
        (Bed("floor", "floor", draw.choice((6.0, 12.0)), True),),
        (Kiln("kiln", 6.0, draw.choice((8, 20)), 2),),
        hands,
        clean_steep=1,
        clean_bed=1,
        stretch=draw.choice((0, 1)),
        now=4,
        horizon=24 * draw.choice((4, 5)),
    )
    grow = (draw.choice((10, 22, 25)),)
    due = draw.choice((40, 60, 80))
    stages = draw.choice(((3.0,), (2.0, 2.0, 2.0)))
    return house, tuple(Batch(f"b{n}", 5.0, due + 12 * n, stages, grow) for n in range(2))


@pytest.mark.further(keep=1)
@pytest.mark.drawn
@pytest.mark.parametrize("seed", range(drawn(8, 4)))
def test_on_a_tiny_house_it_is_the_best_of_all_plans(seed):
    house, batches = tiny(seed)
    found = search(house, batches, looks=4000)
    best = by_trying_all(house, batches)
    assert found.proved
    if best is None:
        assert found.plan is None
    else:
        assert found.plan is not None and broken(house, batches, found.plan) == []
        assert found.cost == best == whole_cost(house, batches, found.plan)


@pytest.mark.drawn
@pytest.mark.parametrize("seed", range(drawn(12, 6)))
def test_no_drawn_house_is_planned_better_by_another_solver(seed):
    house, batches = drawn_house(seed, most_batches=3)
    found = search(house, batches, looks=4000)
    best, sure = by_cp_sat(house, batches)
    assert sure
    assert (found.plan is None) == (best is None)
    if found.plan is not None and best is not None:
        assert broken(house, batches, found.plan) == []
        assert found.cost == whole_cost(house, batches, found.plan)
        assert found.least <= best <= found.cost  # what is said to be unbeatable is
        assert found.cost == best


@pytest.mark.further(keep=1)
@pytest.mark.drawn
@pytest.mark.parametrize("seed", range(drawn(6, 3)))
def test_a_running_plan_is_kept_as_far_as_another_solver_keeps_it(seed):
    house, batches = drawn_house(40 + seed, most_batches=3)
    first = search(house, batches, looks=1500)
    assert first.plan is not None
    later = house._replace(kilns=(house.kilns[0]._replace(hours=house.kilns[0].hours + 3),))
    found = search(later, batches, first.plan, looks=4000)
    best, sure = by_cp_sat(later, batches, first.plan)
    assert sure and best is not None and found.plan is not None
    assert broken(later, batches, found.plan) == []
    assert found.least <= best and found.cost == best


@pytest.mark.further(keep=2)
@pytest.mark.drawn
@pytest.mark.parametrize("seed", [0, *range(2, 2 + drawn(8, 4))])
def test_a_week_that_runs_is_planned_again_with_as_few_lines_as_another_solver_changes(seed):
    again = drawn_again(seed, most_batches=4)
    assert again is not None
    house, batches, running = again
    found = search(house, batches, running)
    best, sure = by_cp_sat(house, batches, running)
    assert sure
    assert (found.plan is None) == (best is None)
    if found.plan is not None and best is not None:
        assert broken(house, batches, found.plan) == []
        assert found.cost == whole_cost(house, batches, found.plan, running)
        assert found.least <= best and found.cost == best


def test_of_a_batch_that_is_cast_no_fill_is_written_anew():
    batches = wanted(1)
    plan = search(PLAIN, batches).plan
    assert plan is not None
    way = plan["b0"]
    cast = batches[0]._replace(stood=Stood(bed=way.bed, cast=way.cast))
    gone = way._replace(waters=(way.cast,), drains=(way.cast,))
    assert whole_cost(PLAIN, (cast,), {"b0": gone}, {"b0": way}).changed == 0


@pytest.mark.drawn
@pytest.mark.parametrize("seed", range(drawn(60)))
def test_no_plan_passes_a_stop_or_holds_a_place_twice(seed):
    house, batches = drawn_house(100 + seed)
    found = search(house, batches, looks=120)
    if found.plan is None:
        return
    assert broken(house, batches, found.plan) == []
    for batch in batches:
        way = found.plan[batch.id]
        assert 0 <= way.load - way.ready <= edge(READY_HOURS.stop_high)
        if batch.stood.cast is None:
            assert way.cast - way.drains[-1] <= edge(REST.stop_high)


def test_the_check_of_a_plan_sees_what_is_wrong():
    batches = wanted(2)
    plan = search(PLAIN, batches).plan
    assert plan is not None
    one, other = plan["b0"], plan["b1"]
    taken = other._replace(load=one.load, off=one.off)
    assert any("kiln 1 is full" in text for text in broken(PLAIN, batches, {**plan, "b1": taken}))
    late = one._replace(load=one.ready + 13, off=one.ready + 45)
    assert any("waits 13 h" in text for text in broken(PLAIN, batches, {**plan, "b0": late}))
    assert any("drained for" in t for t in broken(PLAIN, batches, {**plan, "b0": one._replace(cast=one.cast + 30)}))
    assert any("closed" in t for t in broken(PLAIN._replace(closed=(Closed("kiln", 0, 800),)), batches, plan))
    assert any("water" in t for t in broken(PLAIN._replace(water_m3_h=1.0), batches, plan))
    assert any("let go" in t for t in broken(PLAIN._replace(effluent_m3_day=5.0), batches, plan))


def test_the_same_house_is_planned_the_same_each_time():
    batches = wanted(4, 260)
    assert search(PLAIN, batches) == search(PLAIN, batches)


def test_a_place_that_is_closed_is_left_alone():
    shut = PLAIN._replace(closed=(Closed("drum", 0, 24 * 35), Closed("kiln", 190, 230)))
    batches = wanted(2)
    found = search(shut, batches)
    assert found.plan is not None and broken(shut, batches, found.plan) == []
    assert all(way.bed == 0 for way in found.plan.values())
    assert all(way.off + 4 <= 190 or way.load >= 230 for way in found.plan.values())


def test_water_and_effluent_are_kept():
    scarce = PLAIN._replace(water_m3_h=3.0, tank_m3=6.0, effluent_m3_day=12.0)
    batches = wanted(4, 300, 24)
    found = search(scarce, batches)
    assert found.plan is not None and broken(scarce, batches, found.plan) == []


def test_a_tank_gives_what_it_holds_and_what_comes():
    assert water_lasts([(0, 6.0), (3, 6.0)], 3.0, 6.0)
    assert not water_lasts([(0, 6.0), (1, 9.0), (2, 3.1)], 3.0, 6.0)
    assert water_lasts([(0, 9.0), (1, 3.0)], 3.0, 6.0) and not water_lasts([(0, 9.0), (1, 3.1)], 3.0, 6.0)
    assert not water_lasts([(5, 9.1)], 3.0, 6.0)


@pytest.mark.parametrize("by_day", [0, 1, 2, 3])
def test_at_night_two_are_needed_or_more_where_the_house_says_so(by_day):
    house = PLAIN._replace(cast_hands=by_day)
    for hour in range(24, 72):
        night = hour % 24 >= 22 or hour % 24 < 6
        assert people_needed(house, hour) == (max(2, by_day) if night else by_day)


def test_nobody_casts_or_loads_alone_at_night():
    night = tuple(1 for _ in range(24))
    assert search(PLAIN._replace(hands=night, cast_hands=1), wanted(1)).plan is not None
    found = search(PLAIN._replace(hands=night, cast_hands=1), wanted(3, 200, 6))
    assert found.plan is not None
    for way in found.plan.values():
        assert 6 <= way.cast % 24 < 22 and 6 <= way.load % 24 < 22
    assert search(PLAIN._replace(hands=night, cast_hands=2), wanted(1)).plan is None


def test_two_that_are_ready_together_cannot_both_be_kept():
    both = (
        Batch("b0", 6000.0, None, STAGES, (127, 120), stood=Stood(bed=0, cast=0)),
        Batch("b1", 6000.0, None, STAGES, (127, 120), stood=Stood(bed=0, cast=3)),
        Batch("b2", 6000.0, None, STAGES, (127, 120)),
    )
    house = PLAIN._replace(now=100)
    found = search(house, both)
    assert found.plan is None
    pair = against(house, both)
    assert pair is not None and {pair.one, pair.other} == {"b0", "b1"}
    helped = {one.word: one.plan for one in helps(house, both)}
    assert helped["kiln"] is not None and helped["steep"] is None


def test_a_batch_that_is_a_day_late_changes_as_little_as_can_be():
    batches = wanted(3, 24 * 14, 144)
    plan = search(PLAIN, batches).plan
    assert plan is not None
    late = min(plan, key=lambda name: plan[name].load)
    found = slipped(PLAIN, batches, plan, late, 24)
    assert found.result.plan is not None
    house = PLAIN._replace(now=found.seen)
    assert broken(house, found.batches, found.result.plan) == []
    assert found.result.plan[late].load >= plan[late].ready + 24
    whole = whole_cost(house, found.batches, found.result.plan, plan)
    anew = search(house, found.batches, looks=200).plan
    assert anew is not None
    assert 1 <= whole.changed == found.result.cost.changed <= whole_cost(house, found.batches, anew, plan).changed


def test_costs_are_ordered_by_the_aims():
    assert Cost(0, 500, 0, 0) < Cost(1, 0, 0, 0) and Cost(0, 0, 99, 9) < Cost(0, 1, 0, 0)
    assert Cost(1, 2, 3, 4).and_also(Cost(1, 1, 1, 1)) == Cost(2, 3, 4, 5)
    empty: Plan = {}
    assert whole_cost(PLAIN, (), empty) == Cost()


def test_how_full_a_place_is_counts_the_hours_of_its_day():
    """Held by hand, hour by hour, over a plan of three batches."""
    batches = wanted(3, 260)
    plan = search(PLAIN, batches).plan
    assert plan is not None
    last = max(way.off for way in plan.values())
    for one in loads(PLAIN, batches, plan):
        held = dict.fromkeys(range(PLAIN.now, last), 0.0)
        for batch in batches:
            way = plan[batch.id]
            spells = {
                "steep": (way.steep, way.fill, way.cast + PLAIN.clean_steep),
                "bed": (way.bed, way.cast, way.load + PLAIN.clean_bed),
                "kiln": (way.kiln, way.load, way.off + PLAIN.kilns[way.kiln].turn_round),
            }
            place, begin, end = spells[one.kind]
            if place == one.number:
                held.update({hour: held[hour] + batch.kg for hour in range(begin, min(end, last))})
        day = range(one.hour, one.hour + 24)
        if one.kind == "bed" and PLAIN.beds[one.number].shared:
            assert (one.used, one.of) == (max(held.values()), PLAIN.beds[one.number].most_kg)
            assert max(held.values()) in [held.get(hour) for hour in day]
        else:
            assert (one.used, one.of) == (sum(held.get(hour, 0.0) > 0.0 for hour in day), 24.0)
            assert one.share == pytest.approx(sum(kg > 0.0 for kg in held.values()) / len(held))


def test_what_is_done_at_this_hour_is_still_to_be_done():
    (batch,) = wanted(1)
    plan = search(PLAIN, (batch,)).plan
    assert plan is not None
    way = plan[batch.id]
    acts = sorted([*way.waters, *way.drains, way.off])
    assert sorted(acts_alone(PLAIN, batch, way)) == acts
    for number, hour in enumerate(acts):
        assert sorted(acts_alone(PLAIN._replace(now=hour), batch, way)) == acts[number:]


def test_a_kiln_that_is_let_go_later_is_loaded_later():
    """No doubt about anything; the first batch is ready later than planned, so its kiln is free later."""
    house = PLAIN._replace(hands=(2,) * 24)
    batches = wanted(2)
    plan = search(house, batches).plan
    assert plan is not None
    first, second = sorted(plan, key=lambda name: plan[name].load)
    kiln = house.kilns[0]
    way = plan[first]
    behind = plan[second]._replace(load=way.off + kiln.turn_round, off=way.off + kiln.turn_round + kiln.hours)
    behind = behind._replace(ready=behind.load - 1)
    sure = Doubt(0.0, (0.0, 0.0), 0.0, 0.0)
    usual = weeks(house, batches, {first: way, second: behind}, sure)[second]
    assert usual.waits_watched == 0.0
    slow = way._replace(ready=way.ready + 12)
    late = weeks(house, batches, {first: slow, second: behind}, sure)[second]
    assert late.waits_watched == 100.0  # twelve hours, and six are accepted
    stands = Stood(bed=way.bed, cast=way.cast, load=way.load)
    begun = tuple(one._replace(stood=stands) if one.id == first else one for one in batches)
    stood = weeks(house, begun, {first: slow, second: behind}, sure)[second]
    assert stood.waits_watched == 0.0  # it is on the kiln as planned, whenever it was ready


def test_who_is_called_in_is_counted_at_the_hours_to_which_a_fill_moves():
    """No doubt about anything, but the batch before drains late, so the next one is filled by as much later."""
    house = PLAIN._replace(steeps=(Steep("A", 6000.0),))
    batches = wanted(2)
    plan = search(house, batches).plan
    assert plan is not None
    first, second = sorted(plan, key=lambda name: plan[name].fill)
    before, way = plan[first], plan[second]
    house = house._replace(clean_steep=way.fill - before.cast)  # the steep is free for the fill and no sooner
    slow = before._replace(drains=(*before.drains[:-1], before.cast - house.drain + 1))
    played = weeks(house, batches, {first: slow, second: way}, Doubt(0.0, (0.0, 0.0), 0.0, 0.0))
    slid = int(played[first].cast_high) - before.cast
    assert slid == 1 and played[second].cast_high == way.cast
    acts = [hour + slid for hour in (*way.waters, *way.drains)]
    assert played[second].called == sum(house.hands[hour % 24] < 1 for hour in (*acts, way.off))
