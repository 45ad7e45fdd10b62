"""What the warmth and the chits of a steep pass, and what would help, tried one change at a time."""

from __future__ import annotations

from math import ceil
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from calculators.models.living.chitting import MIDDLE, Corns, chitted
from calculators.models.living.pace import paces
from calculators.models.living.steep_run import Rests, driven, rest_places, rise, warmed
from calculators.models.steep.course import Stage, Steep
from calculators.models.steep.hydration import run, steep
from calculators.rules import steep_life
from calculators.rules.cast import CHITS_OF, limit_of
from calculators.rules.limit import Limit, broken_by, edge
from calculators.rules.limits.casting import CHIT
from calculators.rules.limits.steeping import CHIT_LAST_DIP, REST, REST_RISE, REST_TEMP, WATER_TEMP
from calculators.rules.steep_life import SUCTIONS_M3_H_T, Lives, Remedy, alive_order, chits_passed, corns_of, judged
from calculators.rules.steep_order import Order, Way, before_last, with_stages

LIVES = Lives(Rests(), Corns(), "couch")
HOURS = (8.0, 8.0, 8.0, 12.0, 3.0)


def course(water_c: float = 14.0, hours: tuple[float, ...] = HOURS) -> Steep:
    return steep(barley_moisture=12.5, stages=[(h, water_c) for h in hours])


def percent(clock: float, corns: Corns) -> float:
    return 100.0 * chitted(clock_h=clock, corns=corns)


@pytest.mark.parametrize("chit_h", [28.0, 33.5, 38.9, 39.0, 45.0])
def test_a_barley_that_chits_by_the_house_s_records_does_so_at_that_hour(chit_h: float) -> None:
    """Within the steep along its states; past its end it rests on, as warm as it ended."""
    states = driven(course())
    corns = corns_of(states, LIVES._replace(chit_h=chit_h))
    hours, clocks = [s.hour for s in states], [float(s.chit_h) for s in states]
    clock = float(np.interp(chit_h, hours, clocks))
    if chit_h > hours[-1]:
        clock += (chit_h - hours[-1]) * paces(net_moisture=float(states[-1].net), temp_c=float(states[-1].temp_c)).chit
    assert percent(clock, corns) == pytest.approx(edge(CHIT.accept_low), abs=1e-6)
    assert corns_of(states, LIVES) == Corns()


def test_a_barley_of_which_few_grow_has_chitted_when_nearly_all_that_can_have() -> None:
    states, few = driven(course()), Corns(grows=0.6)
    corns = corns_of(states, LIVES._replace(corns=few, chit_h=30.0))
    clock = next(float(s.chit_h) for s in states if s.hour == 30.0)
    assert percent(clock, corns) == pytest.approx(99.0 * 0.6, abs=1e-6)
    assert corns_of(states, LIVES._replace(chit_h=0.5)).middle_h == MIDDLE.low
    assert corns_of(states, LIVES._replace(chit_h=500.0)).middle_h == MIDDLE.high


def held(limit: Limit, value: float, number: int = 0) -> set[tuple[str, int, str]]:
    broken = broken_by(limit, value)
    return {(limit.id, number, broken.mark)} if broken else set()


@pytest.mark.parametrize("water_c", [10.0, 14.0, 19.0])
@pytest.mark.parametrize("hours", [(8.0,), (8.0, 12.0), (8.0, 16.0, 6.0), HOURS, (8.0, 8.0, 8.0, 20.0)], ids=str)
def test_chits_are_looked_at_before_a_last_dip_and_after_a_rest_that_follows(
    water_c: float, hours: tuple[float, ...]
) -> None:
    one = course(water_c, hours)
    states = driven(one)
    clocks, ends = [float(s.chit_h) for s in states], np.cumsum(hours)
    after = clocks[-1] + edge(REST.accept_high) * paces(net_moisture=float(states[-1].net), temp_c=water_c).chit
    wanted = held(limit_of("drum"), percent(after, Corns()))
    if len(hours) > 2:
        last = (len(hours) - 1) // 2 * 2
        dip = float(np.interp(ends[last - 1], [s.hour for s in states], clocks))
        wanted |= held(CHIT_LAST_DIP, percent(dip, Corns()), last // 2 + 1)
    found = chits_passed(states, one.steeping.stages, LIVES._replace(to="drum"))
    assert {(p.line.rule, p.number, p.line.mark) for p in found} == wanted


@pytest.mark.parametrize("water_c", [10.0, 14.0, 18.0, 20.0])
def test_each_rest_is_held_at_its_warmest_and_at_its_fastest_and_what_counts_is_told(water_c: float) -> None:
    lives = LIVES._replace(rests=Rests(suction_m3_h_t=3.0))
    one = course(water_c)
    whole, states = warmed(one, lives.rests)
    wanted: set[tuple[str, int, str]] = set()
    against = 0.0
    for number, places in enumerate(rest_places(states), 1):
        top = max(float(states[n].temp_c) for n in places[1:])
        wanted |= held(REST_TEMP, top, number) | held(REST_RISE, rise(states, places), number)
        against += max(0.0, top - edge(REST_TEMP.accept_high))
    chits = chits_passed(states, whole.steeping.stages, lives)
    few = [p.line.value for p in chits if p.line.rule == CHIT_LAST_DIP.id]
    against += sum(0.05 * (edge(CHIT_LAST_DIP.accept_low) - float(value or 0.0)) for value in few)
    found = judged(one, lives)
    stops = {(p.line.rule, p.number, p.line.mark) for p in found.passed}
    wanted |= {(p.line.rule, p.number, p.line.mark) for p in chits}
    assert stops == {line for line in wanted if line[2] == "stop"}
    assert sum(term.cost for term in found.against) == pytest.approx(against)
    assert found.course.ends[-1].drained == pytest.approx(whole.ends[-1].drained)


def test_a_first_reckoning_leaves_out_what_is_far_from_any_hope_and_nothing_else() -> None:
    """By rests as warm as the steep: a rest too warm, or chits two points and more under their stop."""
    for water_c in (8.0, 10.0, 11.0, 12.0, 13.0, 14.0, 18.0, 20.0):
        for last_rest in (8.0, 12.0, 16.0):
            one = course(water_c, (8.0, 8.0, 8.0, last_rest, 3.0))
            first = driven(one, LIVES.rests)
            hopeless = [p for p in steep_life.warmth_passed(first) if p.is_stop]
            for p in chits_passed(first, one.steeping.stages, LIVES):
                assert isinstance(p.line.value, float) and isinstance(p.line.edge, (int, float))
                hopeless += [p] if p.is_stop and p.line.value < p.line.edge - 2.0 else []
            quick, whole = judged(one, LIVES, quick=True), judged(one, LIVES)
            assert quick.passed == (tuple(hopeless) or whole.passed)
            assert (quick.course is one) == bool(hopeless)


CASES = {
    "warm": (course(20.0, (8.0, 10.0, 8.0, 14.0, 4.0)), Lives(Rests(3.0), Corns(), "couch")),
    "more-air": (course(16.0, (8.0, 10.0, 8.0, 14.0, 4.0)), Lives(Rests(25.0), Corns(), "couch")),
    "warm-and-odd": (course(19.5, (8.0, 10.0, 8.0, 14.0, 4.0)), Lives(Rests(3.0), Corns(), "couch")),
    "warm-with-suction": (course(19.0, (8.0, 10.0, 8.0, 14.0, 4.0)), Lives(Rests(25.0, 19.0), Corns(), "couch")),
    "few-chits": (course(10.0), LIVES),
    "few-chits-odd": (course(11.5, (8.0, 6.0, 8.0, 8.0, 4.0)), LIVES),
    "late-barley": (course(12.0, (8.0, 8.0, 8.0, 20.0, 3.0)), LIVES._replace(corns=Corns(middle_h=24.0))),
    "one-immersion": (course(12.0, (8.0,)), LIVES._replace(to="drum")),
    "both": (course(19.0, (8.0, 8.0, 4.0)), Lives(Rests(1.0), Corns(middle_h=40.0), "drum")),
    "neither": (course(14.0, (8.0, 8.0, 8.0, 16.0, 3.0)), LIVES),
}


def by_trial(one: Steep, lives: Lives) -> list[Remedy]:
    """The least of each kind that is enough: for warmth suction or colder water, for chits warmer or a longer rest."""
    rules = {p.line.rule for p in judged(one, lives).passed}
    few, warm = bool(rules & set(CHITS_OF)), bool(rules - set(CHITS_OF))
    stages = one.steeping.stages
    water = stages[0].water_temp_c

    def helps(row: list[Stage], suction: float | None = None) -> bool:
        rests = lives.rests if suction is None else lives.rests._replace(suction_m3_h_t=suction)
        return not judged(with_stages(one, row), lives._replace(rests=rests), quick=True).passed

    def with_water(temp: float) -> list[Stage]:
        return [stage._replace(water_temp_c=temp) for stage in stages]

    def with_rest(hours: float) -> list[Stage]:
        return [*stages[:-2], stages[-2]._replace(hours=hours), stages[-1]]

    suctions = [
        air for air in SUCTIONS_M3_H_T if warm and air > lives.rests.suction_m3_h_t and helps(list(stages), air)
    ]
    low, high = edge(WATER_TEMP.accept_low), edge(WATER_TEMP.accept_high)
    colder = [t for t in np.arange(low, 30.0) if warm and t < water and helps(with_water(float(t)))]
    warmer = [t for t in np.arange(0.0, high + 1.0) if not warm and t > water - water % 1 and t <= high]
    warmer = [t for t in warmer if helps(with_water(float(t)))]
    found = [Remedy("suction", min(suctions))] if suctions else []
    found += [Remedy("colder", float(max(colder)))] if colder else []
    found += [Remedy("warmer", float(min(warmer)))] if warmer else []
    if few and not warm and len(stages) > 2:
        most, had = edge(REST.stop_high), stages[-2].hours
        longer = [min(had + 2.0 * n, most) for n in range(1, ceil((most - had) / 2.0) + 1)]
        found += [Remedy("rest", h) for h in longer if helps(with_rest(h))][:1]
    return found


@pytest.mark.parametrize("case", list(CASES))
def test_what_would_help_is_the_least_of_each_kind(case: str) -> None:
    one, lives = CASES[case]
    assert steep_life.remedies(one, lives) == by_trial(one, lives)


def test_remedies_of_every_kind_are_among_them() -> None:
    words = {remedy.word for one, lives in CASES.values() for remedy in steep_life.remedies(one, lives)}
    assert words == {"suction", "colder", "warmer", "rest"}


def test_an_order_keeps_the_ways_that_pass_no_stop_of_life_which_the_steep_itself_keeps() -> None:
    one = course(16.0, (8.0, 8.0, 8.0, 12.0, 14.0))
    lives = LIVES._replace(rests=Rests(6.0))
    ways = (
        Way("split", (8.0, 23.0, 4.0), 16.0, 45.0),  # so long a rest gets too warm
        Way("again", (8.0,), 16.0, 44.0),
        Way("warm", (8.0,), 19.0, 45.0),
    )
    order = Order(14.0, "stop", ways)
    for begun in (True, False):
        found = alive_order(order, one, lives, begun=begun)
        assert found is not None
        before, _ = before_last(one)
        known = {(p.line.rule, p.number) for p in steep_life.life_stops(one, lives)}
        kept: list[Way] = []
        left_out: list[Way] = []
        for way in ways:
            begins = before
            if way.word == "warm" and not begun:
                begins = [s._replace(water_temp_c=max(s.water_temp_c, way.water_temp_c)) for s in before]
            added = [Stage(h, before[-1].water_temp_c if n % 2 else way.water_temp_c) for n, h in enumerate(way.hours)]
            new = {(p.line.rule, p.number) for p in steep_life.life_stops(with_stages(one, [*begins, *added]), lives)}
            (left_out if new - known else kept).append(way)
        assert list(found.ways) == kept and [way for way, _ in found.left_out] == left_out
    assert ways[0] in left_out and ways[1] in kept
    assert alive_order(None, one, lives, begun=True) is None
    assert alive_order(order._replace(ways=()), one, lives, begun=True) == order._replace(ways=())
    (only,) = alive_order(order._replace(ways=ways[:1]), one, lives, begun=True).ways  # type: ignore[union-attr]
    assert only.word == "again"


@pytest.mark.parametrize(
    ("water_c", "warm", "tried"),
    [
        (19.3, True, [16.0, 14.0]),  # the warmest that is accepted, then the usual
        (15.0, True, [14.0]),  # the next whole degree is the usual
        (13.5, True, [13.0]),
        (10.0, False, [13.0, 14.0]),
        (12.0, False, [15.0, 14.0]),
        (18.0, False, []),  # 21 C is a stop, and 14 C no warmer
        (17.0, False, [20.0]),
    ],
)
def test_another_water_is_looked_for_on_the_side_that_helps_and_never_past_its_stop(
    monkeypatch: pytest.MonkeyPatch, water_c: float, warm: bool, tried: list[float]
) -> None:
    looked: list[float] = []
    good: list[float] = []

    def choose(base: Any, temp: float, wishes: Any, most: int, judge: Any) -> Any:
        looked.append(temp)
        assert most == 1
        return SimpleNamespace(plans=["a plan"] if temp in good else [])

    monkeypatch.setattr(steep_life, "choose", choose)
    base: Any = run(course().steeping).steeping
    assert steep_life.water_that_would_do(base, water_c, None, LIVES, warm) is None  # type: ignore[arg-type]
    assert looked == tried
    for temp in tried:
        good[:] = [temp]
        assert steep_life.water_that_would_do(base, water_c, None, LIVES, warm) == temp  # type: ignore[arg-type]
