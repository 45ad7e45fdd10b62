"""A steep planned anew: the choice against trying all ways, and no way past a stop.

What a whole steep comes to is worked out a second time here by another driver (``living.batch.course``), and the table
of limits is read edge by edge.
"""

from __future__ import annotations

from functools import cache
from itertools import product
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.models.living.batch import course
from calculators.models.living.chitting import Corns, chitted
from calculators.models.living.lot_plan_state import Lot, Plan
from calculators.models.living.steep_run import Rests, warmed
from calculators.models.steep.course import Stage
from calculators.models.steep.hydration import steep
from calculators.rules.limits.casting import MOISTURE, OFF_TARGET
from calculators.rules.limits.steeping import CHIT_LAST_DIP, IMMERSION, REST, REST_TEMP, STEEP, WATER_TEMP
from calculators.rules.replan import steep as replan
from calculators.rules.replan.faults import FAULTS, HOURS_TAKEN, Asked, Fault, asked_by
from calculators.rules.replan.steep_grid import SteepNow, candidates, price
from calculators.rules.replan.ways import PUTS_FIRST, Cost, Move, Way, chosen
from calculators.rules.steep_life import Lives

USUAL = ((8.0, 14.0), (8.0, 14.0), (8.0, 14.0), (12.0, 14.0), (3.0, 14.0))
TARGET = 44.0


def at(done: tuple[tuple[float, float], ...], ahead: tuple[float, ...], clock_h: float = 14.0) -> SteepNow:
    return SteepNow(
        steep(barley_moisture=12.5, stages=done), TARGET, ahead, clock_h, 14.0, Lives(Rests(), Corns(), "couch")
    )


def night_hands(hours: list[float], clock_h: float) -> int:
    return len({h for h in hours if h > 0 and ((clock_h + h) % 24 >= 22 or (clock_h + h) % 24 < 6)})


def end_of(stages: tuple[Stage, ...], suction: float = 7.8) -> tuple[float, float, float, float]:
    """Drained moisture, warmest rest, chits at the end, hours to the last drain: by the living batch."""
    lot = Lot(barley_moisture=12.5)
    states = course(plan=Plan(stages, (), suction, stages[0].water_temp_c), lot=lot)
    rests = [state.temp_c for state in states if not state.wet]
    wet_h = sum(s.hours for s in stages[: (len(stages) - 1) // 2 * 2 + 1])
    return (
        float(states[-1].drained),
        max([0.0, *map(float, rests)]),
        100.0 * chitted(clock_h=float(states[-1].chit_h), corns=Corns()),
        wet_h,
    )


def allowed(stages: tuple[Stage, ...]) -> bool:
    drained, warmest, chits, steep_h = end_of(stages)
    return (
        MOISTURE.stop_low <= drained <= MOISTURE.stop_high  # type: ignore[operator]
        and abs(drained - TARGET) <= OFF_TARGET.stop_high  # type: ignore[operator]
        and warmest <= REST_TEMP.stop_high  # type: ignore[operator]
        and steep_h >= STEEP.stop_low  # type: ignore[operator]
        and chits > 30.0
    )


def priced(now: SteepNow, weights: tuple[float, float, float], hours: list[float], drained: float) -> float:
    """What counts against a rest and one more immersion, added up by hand."""
    hour, off, night = weights
    rest, wet = hours
    end = rest + wet
    hands = night_hands([rest, end, end + 1.0], now.clock_h)
    costs = hour * abs(end - sum(now.ahead_h)) + off * abs(drained - TARGET) + night * hands
    return costs + 0.4 * max(0.0, wet - 8) + 0.25 * max(0.0, now.elapsed_h + rest - 12) + 0.5


@cache
def drained_by(stages: tuple[Stage, ...]) -> float:
    """What a steep drains at: the same, whatever it is weighed by and whenever it ends."""
    return steep(barley_moisture=12.5, stages=stages).ends[-1].drained


def brute(now: SteepNow, weights: tuple[float, float, float]) -> float:
    """The least price of every rest followed by one more immersion, on the half hours, among those that may be."""
    done = now.course.steeping.stages
    found = []
    rests = [now.rest_h - now.elapsed_h + 0.5 * n for n in range(int(2 * (24 - now.rest_h)) + 1)]
    for rest, halves in product(rests, range(2, 25)):
        wet = halves / 2.0
        stages = (*done[:-1], Stage(done[-1].hours + rest, 14.0), Stage(wet, 14.0))
        found.append((priced(now, weights, [rest, wet], drained_by(stages)), stages))
    for cost, stages in sorted(found):
        if allowed(stages):
            return cost
    return inf


@pytest.mark.parametrize("word", ["target", "clock", "day"])
@pytest.mark.parametrize("clock_h", [2.0, 14.0, 20.0])
def test_no_continuation_of_a_rest_is_much_cheaper_than_the_one_chosen(word: str, clock_h: float) -> None:
    now = at((*USUAL[:3], (6.0, 14.0)), (6.0, 3.0), clock_h)
    weights = PUTS_FIRST[word]  # type: ignore[index]
    way = next(way for way in replan.ways_of(now, Asked()).ways if word in way.words)
    least = brute(now, weights)
    assert least < inf
    if [move.act for move in way.moves] == ["fill", "drain", "cast"]:
        hours = [way.moves[0].hour, way.moves[1].hour - way.moves[0].hour]
        drained = steep(barley_moisture=12.5, stages=(*USUAL[:3], (6.0 + hours[0], 14.0), (hours[1], 14.0))).ends[-1]
        chosen = priced(now, weights, hours, drained.drained)
    else:  # two more immersions, or a cast out of the rest: only what is cheaper may be chosen over these
        found = {one.end: price(one, now, weights, Asked()) for one in candidates(now, Asked())}
        chosen = min(found[way.moves[-1].hour - d] for d in (0.0, 1.0) if way.moves[-1].hour - d in found)
    # Half an hour of the finer grid is worth so much at the most: an hour off the plan, what it drinks, a hand.
    assert chosen <= least + 0.5 * (weights.hour + weights.off * 0.3 + 0.4 + 0.25) + 1e-6


@pytest.mark.parametrize("done", [USUAL[:1], USUAL[:2], USUAL[:3], (*USUAL[:3], (6.0, 14.0))])
def test_each_continuation_is_priced_as_by_hand(done: tuple[tuple[float, float], ...]) -> None:
    """Hours off the plan, points off the target, hands at night, what is too long from its beginning, and waters."""
    now = at(done, (2.0, 9.0, 4.0), 20.0)
    weights = PUTS_FIRST["day"]
    long = set()
    for one in candidates(now, Asked()):
        if len(one.hours) == 1:
            continue
        ends = [sum(one.hours[: n + 1]) for n in range(len(one.hours))]
        hands = night_hands([*ends, ends[-1] + 1.0], now.clock_h)
        costs = weights.hour * abs(ends[-1] - 15.0) + weights.off * abs(one.drained - TARGET) + weights.night * hands
        for n, hours in enumerate(one.hours):
            wet = now.wet is (n % 2 == 0)
            over = hours + (now.elapsed_h if n == 0 else 0.0) - (8.0 if wet else 12.0)
            costs += (0.4 if wet else 0.25) * max(0.0, over)
            long |= {n} if over > 0.0 else set()
        costs += 0.5 * (len(one.hours) // 2)
        assert price(one, now, weights, Asked()) == pytest.approx(costs, abs=1e-6), one.hours
    assert 0 in long and len(long) > 1
    most = 5 if now.wet else 4  # two more immersions, each behind a rest
    assert {len(one.hours) for one in candidates(now, Asked())} <= set(range(1, most + 1))


@pytest.mark.parametrize(("done", "place"), [(USUAL[:2], 1), ((*USUAL[:3], (6.0, 14.0)), 3)])
def test_the_warmth_read_in_the_open_rest_is_that_rest_s(done: tuple[tuple[float, float], ...], place: int) -> None:
    now = at(done, (6.0, 3.0))._replace(grain_c=17.5)
    held = replan._standing_still(now, Asked()).lives.rests.held_c
    assert len(held) == len(done) and held[place] == 17.5
    assert [n for n, temp in enumerate(held) if temp is not None] == [place]


def test_grain_that_will_stand_still_is_as_warm_as_it_gets_in_the_stage_to_come() -> None:
    """Under water the stop is of the rest that follows; in a rest, of that one."""
    for done in (USUAL[:1], USUAL[:3]):
        now = at(done, (2.0, 8.0, 3.0))
        held = replan._standing_still(now, Asked(fan_off_h=6.0)).lives.rests.held_c
        assert len(held) == len(done) + 1 and held[-1] is not None and held[-1] >= 14.0


def test_of_many_ways_that_differ_three_are_given_and_of_two_alike_one() -> None:
    cost = Cost(None, 44.0, 0.0, None, 40.0, None, 0)
    ways = [Way((), (Move(hour, "drain"), Move(hour + 4.0, "cast")), cost) for hour in (1.0, 1.5, 4.0, 8.0, 12.0)]
    words = ("target", "clock", "day", "other", "other")
    given = chosen(list(zip(words, [[way] for way in ways], strict=True)))  # type: ignore[arg-type]
    assert [way.moves[0].hour for way in given] == [1.0, 4.0, 8.0]
    assert given[0].words == ("target", "clock")
    spare = chosen([("target", [ways[0], None, ways[1], ways[2]]), ("clock", [ways[0]])])
    assert [way.words for way in spare] == [("target", "clock"), ("other",)]


@pytest.mark.parametrize("done", [USUAL[:1], USUAL[:2], (*USUAL[:3], (6.0, 14.0))])
def test_each_fill_to_come_has_the_water_of_its_immersion(done: tuple[tuple[float, float], ...]) -> None:
    now = at(done, (4.0, 8.0, 8.0, 8.0, 3.0))
    ways = replan.ways_of(now, Asked()).ways
    assert any(move.act == "fill" for way in ways for move in way.moves)
    for way in ways:
        fills = [move.figure for move in way.moves if move.act == "fill"]
        ahead = [stage.water_temp_c for n, stage in enumerate(way.stages) if n % 2 == 0 and n >= len(done)]
        assert fills == ahead


def test_chits_before_a_last_dip_are_judged_where_it_is_still_to_come() -> None:
    """In the first rest a second immersion would be the last: far too few have chitted for it."""
    now = at(USUAL[:2], (8.0,))
    whole = steep(barley_moisture=12.5, stages=[*USUAL[:2], (8.0, 14.0)])
    warm, states = warmed(whole, now.lives.rests)
    found = [one for one in replan.passed_by(warm, states, now) if one.line.rule == CHIT_LAST_DIP.id]
    assert [(one.number, one.is_stop) for one in found] == [(2, True)]
    under_water = at((*USUAL[:2], (1.0, 14.0)), (7.0,))  # it has begun: there is nothing to decide any more
    assert not [one for one in replan.passed_by(warm, states, under_water) if one.line.rule == CHIT_LAST_DIP.id]


def stops_by_hand(stages: tuple[Stage, ...], suction: float) -> set[str]:
    """Stops of a whole steep, edge by edge."""
    drained, warmest, _, steep_h = end_of(stages, suction)
    wets, rests = stages[::2], stages[1::2]
    found = set()
    found |= {"immersion"} if max(s.hours for s in wets) > IMMERSION.stop_high + 1e-9 else set()  # type: ignore[operator]
    found |= {"rest"} if rests and max(s.hours for s in rests) > REST.stop_high + 1e-9 else set()  # type: ignore[operator]
    water = [s.water_temp_c for s in wets]
    found |= {"water"} if min(water) < WATER_TEMP.stop_low or max(water) > WATER_TEMP.stop_high else set()  # type: ignore[operator]
    found |= {"moisture"} if not MOISTURE.stop_low <= drained <= MOISTURE.stop_high else set()  # type: ignore[operator]
    found |= {"target"} if abs(drained - TARGET) > OFF_TARGET.stop_high + 0.05 else set()  # type: ignore[operator]
    found |= {"warm"} if warmest > REST_TEMP.stop_high + 0.05 else set()  # type: ignore[operator]
    found |= {"short"} if steep_h < STEEP.stop_low - 1e-9 else set()  # type: ignore[operator]
    return found


@st.composite
def states(draw: st.DrawFn) -> tuple[SteepNow, Fault, Asked]:
    count = draw(st.integers(1, 4))
    done = [list(USUAL[n]) for n in range(count)]
    for stage in done:
        stage[0] += draw(st.floats(-2.0, 2.0))
    temp = draw(st.floats(11.0, 16.0))
    done[-1][0] = draw(st.floats(0.5, 11.0))
    ahead = (max(0.0, USUAL[count - 1][0] - done[-1][0]), *(h for h, _ in USUAL[count:]))
    now = SteepNow(
        steep(barley_moisture=12.5, stages=[(hours, temp) for hours, _ in done]),
        TARGET, ahead, draw(st.floats(0.0, 23.9)), temp, Lives(Rests(), Corns(), "couch"),
    )  # fmt: skip
    place = "wet" if count % 2 else "rest"
    fault = draw(st.sampled_from([one for one, where in FAULTS.items() if place in where]))
    hours = draw(st.floats(1.0, 12.0)) if fault in HOURS_TAKEN else 0.0
    begins = draw(st.floats(0.0, 12.0))
    rested = 0.0 if now.wet else now.elapsed_h
    return now, fault, asked_by(fault, hours=hours, begins_h=begins, rested_h=rested)


@settings(max_examples=25, deadline=None)
@given(states())
def test_no_way_passes_a_stop_and_each_keeps_what_the_fault_asks(case: tuple[SteepNow, Fault, Asked]) -> None:
    now, fault, asked = case
    found = replan.ways_of(now, asked)
    for way in found.ways:
        assert way.words
        held = any(line.rule == REST_TEMP.id for line in found.already) or now.lives.rests.held_c or asked.fan_off_h
        past = stops_by_hand(way.stages, way.suction_m3_h_t or 7.8)
        assert not past - ({"warm"} if held else set()), (way, past)
        hours = [move.hour for move in way.moves]
        assert hours == sorted(hours) and hours[0] >= 0.0
        fills = [move.hour for move in way.moves if move.act == "fill"]
        casts = [move.hour for move in way.moves if move.act == "cast"]
        assert all(hour >= asked.fill_from_h - 1e-3 for hour in fills)
        assert all(hour >= asked.cast_from_h - 1e-3 for hour in casts)
        if now.wet and asked.drain_now:
            assert way.moves[0].act == "drain" and way.moves[0].hour == 0.0
        if asked.quiet_h:
            low, high = asked.quiet_h
            assert not [hour for hour in hours if low <= hour < high and hour > 0.0]
        if asked.fill_by_h is not None and fills:
            assert fills[0] <= asked.fill_by_h + 1e-9
    if fault == "blower":
        assert found.fan_off_h is not None and found.fan_off_h[1] <= found.fan_off_h[0]


def test_a_blower_that_dies_at_night_drains_at_once_and_wets_nothing_before_it_runs() -> None:
    now = at((*USUAL[:2], (4.0, 14.0)), (4.0, 12.0, 3.0), 23.0)
    found = replan.ways_of(now, asked_by("blower", hours=4.0))
    assert len(found.ways) >= 2
    assert all(way.moves[0].act == "drain" for way in found.ways)
    assert all(way.moves[0].hour == 0.0 and way.moves[1].hour >= 4.0 for way in found.ways)
    day = next(way for way in found.ways if "day" in way.words)
    assert day.cost.night_hands == min(way.cost.night_hands for way in found.ways)


def test_an_immersion_past_its_stop_is_named_and_drained_at_once() -> None:
    now = at((*USUAL[:2], (13.0, 14.0)), (0.0, 12.0, 3.0))
    found = replan.ways_of(now, Asked())
    assert IMMERSION.id in [line.rule for line in found.already]
    assert all(way.moves[0].act == "drain" and way.moves[0].hour == 0.0 for way in found.ways)


def test_grain_that_is_sour_is_not_cast_and_not_wetted_before_a_long_rest() -> None:
    now = at((*USUAL[:4], (2.0, 14.0)), (1.0,))
    found = replan.ways_of(now, asked_by("sour"))
    assert found.ways
    for way in found.ways:
        assert way.moves[0].act == "drain" and way.moves[0].hour == 0.0
        assert all(move.hour >= REST.accept_high - 1e-3 for move in way.moves[1:])  # type: ignore[operator]


@pytest.mark.parametrize("open_h", [3.0, None], ids=["in a rest", "under water"])
def test_more_suction_changes_no_rest_that_is_over(open_h: float | None) -> None:
    """The grain has come so far as it has; only what comes is drawn through otherwise."""
    done = ((8.0, 18.0), (16.0, 18.0), (6.0, 18.0), *([(open_h, 18.0)] if open_h else [(14.0, 18.0), (2.0, 18.0)]))
    now = at(done, (6.0,))
    more = replan.drawn_through(now, 100.0)
    assert more.lives.rests.suction_m3_h_t == 100.0 and now.lives.rests.suction_m3_h_t == 7.8
    (was, _), (is_now, states) = (warmed(now.course, one.lives.rests) for one in (now, more))
    for n in range(1, len(done) - 1, 2):
        assert is_now.steeping.stages[n].water_temp_c == pytest.approx(was.steeping.stages[n].water_temp_c, abs=0.2)
    other = now.lives.rests._replace(suction_m3_h_t=100.0)
    as_it_was, as_if_always = (float(warmed(now.course, one)[1][-1].chit_h) for one in (now.lives.rests, other))
    assert as_it_was - as_if_always > 0.5, "suction must matter, or this tells nothing"
    # The mean of a rest is held, not its course; and what is open so far counts by the suction to come.
    assert abs(float(states[-1].chit_h) - as_it_was) < 0.25 * (as_it_was - as_if_always)


def test_a_rest_that_was_read_stays_as_it_was_read() -> None:
    now = at(((8.0, 18.0), (16.0, 18.0), (6.0, 18.0), (3.0, 18.0)), (6.0,))
    read = now._replace(lives=now.lives._replace(rests=Rests(held_c=(None, 16.5, None, 17.5))))
    assert replan.drawn_through(read, 50.0).lives.rests.held_c == (None, 16.5, None, 17.5)
