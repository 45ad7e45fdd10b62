"""A steep planned anew by hand: each way driven by another driver, what it passes edge by edge, and what it costs."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import pytest

from calculators.models.living.batch import course
from calculators.models.living.chitting import Corns, chitted
from calculators.models.living.fan_stopped import hours_to, stopped_courses
from calculators.models.living.lot_plan_state import Lot, Plan, State
from calculators.models.living.pace import paces
from calculators.models.living.steep_run import Rests, warmed
from calculators.models.steep.course import Stage
from calculators.models.steep.hydration import STAGES, run
from calculators.rules.cast import limit_of
from calculators.rules.limit import Limit, broken_by, edge
from calculators.rules.limits.casting import MOISTURE, OFF_TARGET
from calculators.rules.limits.steeping import (
    CHIT_LAST_DIP,
    FILL_AGAINST_GRAIN,
    FIRST_DRAIN,
    IMMERSION,
    REST,
    REST_RISE,
    REST_TEMP,
    SECOND_DRAIN,
    STEEP,
    WATER_TEMP,
)
from calculators.rules.lines import Line
from calculators.rules.replan import steep as replan
from calculators.rules.replan.faults import Asked, Fault, asked_by
from calculators.rules.replan.steep_grid import Candidate, SteepNow, candidates, moves_of, price
from calculators.rules.replan.ways import PUTS_FIRST, hands_at_night
from calculators.rules.steep_life import Lives
from calculators.rules.steep_order import Passed
from tests.rules.replan_steeps import DIPPED, LIVES, RESTING, TARGET, USUAL, at, hours_of

# What a continuation passes


def driven(now: SteepNow, stages: tuple[Stage, ...]) -> list[State]:
    """The batch by the driver that knows no course of water."""
    kept = now.lives.rests
    plan = Plan(stages, (), kept.suction_m3_h_t, stages[0].water_temp_c, held_c=kept.held_c)
    return course(plan=plan, lot=Lot(barley_moisture=12.5))


def percent(clock: float) -> float:
    """Corns that have chitted, % of all."""
    return 100.0 * chitted(clock_h=clock, corns=Corns())


def grain_at_fill(states: list[State], stages: tuple[Stage, ...], place: int) -> float:
    hour = sum(stage.hours for stage in stages[:place])
    return next(float(state.temp_c) for state in states if abs(state.hour - hour) < 1e-6)


class ByHand(NamedTuple):
    stages: tuple[Stage, ...]
    states: list[State]
    found: set[tuple[str, int, str]]


def by_hand(now: SteepNow, more: tuple[float, ...], accepted: bool = False) -> ByHand:
    """A continuation with its waters fitted to the grain, and all that it passes, limit by limit."""
    done = list(now.course.steeping.stages)
    stages = [*done[:-1], done[-1]._replace(hours=done[-1].hours + more[0])]
    stages += [Stage(hours, now.water_temp_c) for hours in more[1:]]
    states = driven(now, tuple(stages))
    near = edge(FILL_AGAINST_GRAIN.accept_high) - 0.2
    for _ in range(2 if accepted else 1):
        for place in range(2, len(stages), 2):
            if place >= len(done):
                temp = stages[place].water_temp_c
                if accepted:
                    temp = float(np.clip(temp, edge(WATER_TEMP.accept_low), edge(WATER_TEMP.accept_high)))
                grain = grain_at_fill(states, tuple(stages), place)
                temp = round(float(np.clip(temp, grain - near, grain + near)), 1)
                stages[place] = stages[place]._replace(water_temp_c=temp)
        states = driven(now, tuple(stages))
    return ByHand(tuple(stages), states, set(passes(now, tuple(stages), states)))


def passes(now: SteepNow, stages: tuple[Stage, ...], states: list[State]) -> Iterator[tuple[str, int, str]]:
    hours, count = [stage.hours for stage in stages], len(stages)
    ends = np.cumsum(hours)
    # The water in a rest is drunk as warm as the grain gets on the mean, so the moistures come from the living batch.
    drains = [
        next(float(s.drained) for s in states if abs(s.hour - ends[n]) < 1e-6) for n in range(0, count, 2)
    ]  # fmt: skip

    def held(limit: Limit, value: float, number: int = 0) -> Iterator[tuple[str, int, str]]:
        broken = broken_by(limit, value)
        if broken:
            yield limit.id, number, broken.mark

    for n in range(count):
        yield from held(REST if n % 2 else IMMERSION, hours[n], n // 2 + 1)
        if n % 2 == 0:
            yield from held(WATER_TEMP, stages[n].water_temp_c, n // 2 + 1)
    for number, (limit, value) in enumerate(zip((FIRST_DRAIN, SECOND_DRAIN), drains[:-1], strict=False), 1):
        yield from held(limit, value, number)
    yield from held(MOISTURE, drains[-1])
    if drains[-1] >= edge(MOISTURE.stop_low):
        yield from held(STEEP, float(ends[(count - 1) // 2 * 2]))
    yield from held(OFF_TARGET, abs(drains[-1] - now.target))
    for n in range(1, count, 2):
        inside = [s for s in states if ends[n - 1] - 1e-6 <= s.hour <= ends[n] + 1e-6 and s.steeping]
        yield from held(REST_TEMP, max(float(s.temp_c) for s in inside[1:]), n // 2 + 1)
        rise = max(0.0, *(float(b.temp_c - a.temp_c) / (b.hour - a.hour) for a, b in pairwise(inside)))
        if n >= len(now.lives.rests.held_c) or now.lives.rests.held_c[n] is None:
            yield from held(REST_RISE, rise, n // 2 + 1)
        if n + 1 < count and n + 1 >= len(hours_of(now)):
            apart = abs(stages[n + 1].water_temp_c - float(inside[-1].temp_c))
            yield from held(FILL_AGAINST_GRAIN, apart, n // 2 + 2)
    clocks = [float(s.chit_h) for s in states]
    last = (count - 1) // 2 * 2
    if count > 2 and last >= len(hours_of(now)):
        clock = float(np.interp(ends[last - 1], [s.hour for s in states], clocks))
        yield from held(CHIT_LAST_DIP, percent(clock), last // 2 + 1)
    pace = paces(net_moisture=float(states[-1].net), temp_c=stages[-1].water_temp_c).chit
    yield from held(limit_of("couch"), percent(clocks[-1] + 12.0 * pace))


STEEPS: dict[str, SteepNow] = {
    "rest": at(RESTING),
    "cold-water": at((*((hours, 10.0) for hours, _ in USUAL[:3]), (6.0, 14.0)), water=10.0),
    "warm-water": at(RESTING, water=19.0),
    "under-water": at(DIPPED),
    "read": at(RESTING)._replace(lives=Lives(Rests(held_c=(None, 15.0, None, 17.5)), Corns(), "couch")),
    "last-dip": at((*USUAL[:4], (1.0, 14.0))),
    "in-colder-water": at((*USUAL[:2], (3.0, 11.0)), water=12.5),
}


def looked_at(now: SteepNow, count: int = 7) -> list[Candidate]:
    """Some continuations of each kind; in a rest much longer the grain gets too warm for any water."""
    found = [one for one in candidates(now, Asked()) if max(one.hours) <= 14.0]
    return found[:: max(1, len(found) // count)]


@pytest.mark.parametrize(
    ("case", "accepted"),
    [*((case, False) for case in STEEPS), *((case, True) for case in ("rest", "cold-water", "warm-water"))],
)
def test_a_continuation_is_offered_if_it_passes_no_stop_and_costs_what_it_comes_to(case: str, accepted: bool) -> None:
    now = STEEPS[case]
    for one in looked_at(now):
        way = replan.judged(one, now, [], 40.0, replan.Remedy(water=accepted, suction_m3_h_t=None))
        hand = by_hand(now, one.hours, accepted)
        assert (way is None) == any(mark == "stop" for _, _, mark in hand.found), (one, hand.found)
        if way is None:
            continue
        assert [stage.water_temp_c for stage in way.stages[::2]] == [s.water_temp_c for s in hand.stages[::2]]
        assert [stage.hours for stage in way.stages] == [stage.hours for stage in hand.stages]
        assert sorted(line.rule for line in way.watched) == sorted(rule for rule, _, _ in hand.found)
        end, cost = hand.states[-1], way.cost
        assert now.planned_end_h is not None and cost.later_h == pytest.approx(sum(one.hours) - now.planned_end_h)
        assert cost.moisture == pytest.approx(float(end.drained), abs=0.002)
        assert cost.off_points == pytest.approx(cost.moisture - TARGET)
        assert cost.chit_percent == pytest.approx(percent(float(end.chit_h)), abs=0.01)
        assert cost.growth_h == pytest.approx(float(end.growth_h), abs=0.01)
        assert cost.growth_off_h == pytest.approx(cost.growth_h - 40.0, abs=1e-6)
        assert cost.night_hands == hands_at_night(way.moves, now.clock_h)
        fills = [move.figure for move in way.moves if move.act == "fill"]
        assert fills == [s.water_temp_c for n, s in enumerate(hand.stages) if n % 2 == 0 and n >= len(hours_of(now))]
        assert (way.hold_c, way.suction_m3_h_t, way.words) == (None, None, ())


@pytest.mark.parametrize("case", list(STEEPS))
def test_all_that_a_whole_steep_passes_is_named_with_its_immersion_or_rest(case: str) -> None:
    now = STEEPS[case]
    for one in looked_at(now, 4):
        hand = by_hand(now, one.hours)
        whole, states = warmed(run(now.course.steeping._replace(stages=hand.stages)), now.lives.rests)
        found = {(p.line.rule, p.number, p.line.mark) for p in replan.passed_by(whole, states, now)}
        assert found == hand.found


def test_water_far_from_the_grain_is_named_where_it_is_still_to_come() -> None:
    for done, more, number in ((RESTING, (6.0, 4.0), 3), ((*USUAL[:3], (12.0, 14.0), (1.0, 8.0)), (2.0,), 0)):
        now = at(done)
        stages = [Stage(hours, temp) for hours, temp in done]
        stages[-1] = stages[-1]._replace(hours=stages[-1].hours + more[0])
        stages += [Stage(hours, 8.0) for hours in more[1:]]
        whole, states = warmed(run(now.course.steeping._replace(stages=tuple(stages))), now.lives.rests)
        found = {(p.line.rule, p.number, p.line.mark) for p in replan.passed_by(whole, states, now)}
        assert found == set(passes(now, tuple(stages), driven(now, tuple(stages))))
        assert ((FILL_AGAINST_GRAIN.id, number, "stop") in found) == bool(number)


def test_without_a_plan_nothing_is_later_and_nothing_grown_further() -> None:
    now = at(RESTING, ())
    way = replan.judged(Candidate((6.0, 3.0), 9.0, TARGET), now, [])
    assert way and way.cost.later_h is None and way.cost.growth_off_h is None
    assert replan._planned_growth(now) is None


@pytest.mark.parametrize("ahead", [(6.0, 3.0), (2.0, 0.0, 6.0, 3.0), (0.0,)])
@pytest.mark.parametrize("done", [RESTING, (*USUAL[:2], (3.0, 11.0))], ids=["resting", "wet"])
def test_the_growth_of_the_plan_is_that_of_the_whole_steep_as_it_stood(
    done: tuple[tuple[float, float], ...], ahead: tuple[float, ...]
) -> None:
    """A stage of no time is the least that can be reckoned with."""
    now = at(done, ahead)
    more = [Stage(max(hours, 0.25), 14.0) for hours in ahead[1:]]
    stages = (*now.course.steeping.stages[:-1], Stage(done[-1][0] + ahead[0], done[-1][1]), *more)
    assert replan._planned_growth(now) == pytest.approx(float(driven(now, stages)[-1].growth_h), abs=0.02)


def test_a_plan_of_more_stages_than_a_steep_may_have_is_not_followed() -> None:
    most = int(STAGES.high)
    now = at(((2.0, 14.0),) * (most - 2), (1.0, 2.0, 2.0))
    assert replan._planned_growth(now) is not None
    assert replan._planned_growth(now._replace(ahead_h=(1.0, 2.0, 2.0, 2.0))) is None


# What is passed already


def line(value: float, bound: float, limit: Limit = REST_TEMP, number: int = 1) -> Passed:
    return Passed(Line(limit.id, "stop", value, bound, limit), number)


def test_what_is_passed_already_may_be_passed_no_further() -> None:
    warm, dry = [line(19.0, 18.0)], [line(40.0, 41.0, MOISTURE, 0)]
    assert replan._no_further(line(19.0, 18.0), warm) and replan._no_further(line(18.5, 18.0), warm)
    assert replan._no_further(line(19.0 + 5e-7, 18.0), warm) and not replan._no_further(line(19.01, 18.0), warm)
    assert all(replan._no_further(line(value, 41.0, MOISTURE, 0), dry) for value in (40.0, 40.5))
    assert replan._no_further(line(40.0 - 5e-7, 41.0, MOISTURE, 0), dry)
    assert not replan._no_further(line(39.9, 41.0, MOISTURE, 0), dry)
    assert not replan._no_further(line(18.5, 18.0, REST_TEMP, 2), warm)  # another rest
    assert not replan._no_further(line(49.0, 48.0, MOISTURE, 0), dry) and not replan._no_further(line(18.5, 18.0), [])
    both = [line(30.0, 28.0, IMMERSION, 1), *warm]
    assert replan._no_further(line(19.0, 18.0), both) and not replan._no_further(line(20.0, 18.0), both)


def told(now: SteepNow, asked: Asked = Asked()) -> list[tuple[str, int]]:  # noqa: B008
    return [(one.line.rule, one.number) for one in replan.already(now, asked)]


def test_a_steep_within_its_limits_has_passed_nothing_and_what_it_has_passed_is_named() -> None:
    assert told(at(RESTING)) == told(at(DIPPED)) == told(at(USUAL[:1])) == []
    over, rested = edge(IMMERSION.stop_high), edge(REST.stop_high)
    for hours, found in ((over, []), (over + 0.5, [(IMMERSION.id, 2)])):
        now = at((*USUAL[:2], (hours, 14.0)))
        assert [one for one in told(now) if one[0] == IMMERSION.id] == found
        assert [one for one in told(now, Asked(drain_now=True)) if one[0] == IMMERSION.id] == found
    assert [one for one in told(at((*USUAL[:3], (rested, 14.0)))) if one[0] == REST.id] == []
    assert [one for one in told(at((*USUAL[:3], (rested + 0.5, 14.0)))) if one[0] == REST.id] == [(REST.id, 2)]
    assert told(at(((2.0, 14.0), (8.0, 14.0)))) == [(FIRST_DRAIN.id, 1)]  # drained too dry
    assert told(at(((2.0, 14.0),))) == [] and told(at(((2.0, 14.0),)), Asked(drain_now=True)) == [(FIRST_DRAIN.id, 1)]
    assert told(at(((8.0, 21.0),))) == [(WATER_TEMP.id, 1)]


def test_a_rest_read_too_warm_is_a_stop_by_its_warmth_and_not_by_its_rise() -> None:
    for done, number in ((RESTING, 2), (USUAL[:2], 1)):
        now = at(done, grain_c=19.0)
        found = told(replan._standing_still(now, Asked()))
        assert found == [(REST_TEMP.id, number)]
    # The rise of a rest that nobody read still counts.
    wild = at((*((hours, 19.0) for hours, _ in USUAL[:3]), (6.0, 19.0)), water=19.0, grain_c=19.0)
    assert {rule for rule, _ in told(replan._standing_still(wild, Asked()))} >= {REST_TEMP.id}


# How warm it stands


def stood(now: SteepNow, temp_c: float | None = None) -> tuple[object, object]:
    last = driven(now, now.course.steeping.stages)[-1]
    return stopped_courses(
        place="rest", barley_moisture=12.5, net_moisture=float(last.net), growth_h=float(last.growth_h),
        temp_c=float(last.temp_c) if temp_c is None else temp_c, room_c=now.room_c,
    )  # fmt: skip


@pytest.mark.parametrize("grain_c", [None, 17.0, 0.0, 31.0])
def test_grain_without_air_is_as_warm_as_it_gets_and_its_stop_is_told_in_hours(grain_c: float | None) -> None:
    now = at(RESTING, grain_c=grain_c, room_c=20.0)
    usual, fast = stood(now, grain_c if grain_c is None else min(max(grain_c, 1.0), 30.0))
    for fan_off in (3.0, 6.0):
        asked = Asked(fan_off_h=fan_off, drain_now=True)
        kept = replan._standing_still(now, asked).lives.rests.held_c
        reached = [t for h, t in zip(usual.hours, usual.temps_c, strict=True) if h <= fan_off]  # type: ignore[attr-defined]
        assert kept[:3] == (None, None, None) and kept[3] == pytest.approx(max(reached), abs=0.02)
        hours = hours_to(usual, edge(REST_TEMP.stop_high)), hours_to(fast, edge(REST_TEMP.stop_high))  # type: ignore[arg-type]
        assert replan._to_the_stop(now, asked) == pytest.approx(hours, abs=0.02)
    assert replan._to_the_stop(now, Asked()) is None


def test_what_was_read_in_earlier_rests_stays_as_it_was() -> None:
    now = at(RESTING, grain_c=16.0)._replace(lives=Lives(Rests(held_c=(None, 15.0)), Corns(), "couch"))
    assert replan._standing_still(now, Asked()).lives.rests.held_c == (None, 15.0, None, 16.0)
    wet = at(DIPPED, grain_c=16.0)
    assert replan._standing_still(wet, Asked()) == wet  # nothing is read of a rest under water


@pytest.mark.parametrize(("fault", "grain_c"), [("warm", 24.0), ("sour", 19.0)])
def test_grain_far_too_warm_is_answered_and_no_water_is_warmer_than_steeping_water_can_be(
    fault: Fault, grain_c: float
) -> None:
    found = replan.ways_of(at(RESTING, grain_c=grain_c), asked_by(fault, hours=4.0))
    assert REST_TEMP.id in {line.rule for line in found.already}
    fills = [move.figure or 0.0 for way in found.ways for move in way.moves if move.act == "fill"]
    assert all(WATER_TEMP.stop_low <= temp <= WATER_TEMP.stop_high for temp in fills)  # type: ignore[operator]


# The ways


def test_what_is_changed_beside_the_hours_comes_last_and_the_least_suction_first() -> None:
    def tried(suction: float) -> list[tuple[bool, float | None]]:
        return list(replan._remedies(at(RESTING)._replace(lives=LIVES._replace(rests=Rests(suction)))))

    usual = [(False, None), (True, None)]
    assert tried(7.8) == [*usual, *((True, air) for air in (25.0, 50.0, 100.0, 200.0))]
    assert tried(50.0) == [*usual, (True, 100.0), (True, 200.0)] and tried(200.0) == usual


@pytest.mark.parametrize(("stages", "water"), [(2, 14.0), (4, 14.0), (3, 12.0), (1, 16.0)])
def test_a_last_dip_that_comes_long_before_the_chits_is_looked_at_last(stages: int, water: float) -> None:
    """By a clock of grain a degree warmer than the water: no hope under nine tenths of the stop."""
    now = at({2: USUAL[:2], 4: RESTING, 3: DIPPED, 1: USUAL[:1]}[stages], water=water)
    last = driven(now, now.course.steeping.stages)[-1]
    pace = paces(net_moisture=45.0, temp_c=water + 1.0).chit
    clock, seen = replan._Clock(now), set()
    for one in looked_at(now, 40):
        before = one.hours[: -1 if (stages + len(one.hours) - 1) % 2 else -2]
        chits = percent(float(last.chit_h) + pace * sum(before))
        late = bool(before) and chits < 0.9 * edge(CHIT_LAST_DIP.stop_low)
        assert clock.is_late(one) is late, one
        seen.add(late)
    assert seen == {True, False}


def test_a_cast_out_of_a_rest_is_judged_by_the_dip_before_it() -> None:
    dip_and_rest = Candidate((4.0, 4.0, 4.0), 12.0, TARGET)  # a cast out of a rest: the dip before it counts
    assert replan._Clock(at(USUAL[:2])).is_late(dip_and_rest)
    assert not replan._Clock(at(USUAL[:2])).is_late(Candidate((60.0, 4.0, 4.0), 68.0, TARGET))
    assert replan._Clock(at(USUAL[:2])).is_late(Candidate((4.0, 60.0, 4.0), 68.0, TARGET))
    assert not replan._Clock(at(USUAL[:1])).is_late(Candidate((4.0, 4.0), 8.0, TARGET))  # no dip is to come


def test_by_each_measure_the_cheapest_of_all_that_pass_no_stop_is_given() -> None:
    now = at((*USUAL[:3], (19.0, 14.0)))
    clock, growth, ways = replan._Clock(now), replan._planned_growth(now), replan.ways_of(now, Asked())
    kept = [one for one in candidates(now, Asked()) if replan.judged(one, now, []) is not None]
    assert ways.ways and ways.already == () and ways.fan_off_h is None and growth is not None
    for word, weights in PUTS_FIRST.items():
        best = min((clock.is_late(one), price(one, now, weights, Asked()), one.hours) for one in kept)
        way = next(way for way in ways.ways if word in way.words)
        assert [move.hour for move in way.moves] == pytest.approx([m.hour for m in moves_of(best[2], now)], abs=1.0)
        assert way.cost.growth_off_h == pytest.approx(way.cost.growth_h - growth)
