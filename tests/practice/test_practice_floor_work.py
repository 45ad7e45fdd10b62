"""What a turning costs, and what the good hand comes to beside others; on numbers that rules are tuned on."""

from __future__ import annotations

import statistics
from collections.abc import Callable
from functools import cache

import pytest

from calculators.practice.grain import grain_of
from calculators.practice.hidden import hidden
from calculators.practice.kinds import Grain
from calculators.practice.players import BY_COUNT, PLAYERS, run_on
from calculators.practice.run import Run
from calculators.practice.world import TOO_SOON_H, World
from tests.drawn import drawn

NUMBERS = [number for number in range(1, 80) if not Run(number, 4, None, "").faults][: drawn(10, 5)]
"""The first ten of those without a fault, or some of them."""


@cache
def come_to(name: str, number: int) -> tuple[str, Grain]:
    """How one of them ends with a number, and with what grain."""
    run, _ = run_on(Run(number, 4, None, ""), BY_COUNT[name])
    return run.ended, grain_of(run)


def outcomes(name: str) -> list[Grain]:
    return [come_to(name, number)[1] for number in NUMBERS]


@pytest.fixture(scope="module")
def grains() -> dict[str, list[Grain]]:
    return {name: outcomes(name) for name in BY_COUNT}


def mean(grains: list[Grain], figure: Callable[[Grain], float]) -> float:
    return statistics.mean(figure(one) for one in grains)


def test_turning_where_nothing_asks_for_it_costs_evenness_dry_matter_water_and_hours(grains):
    good, busy = grains["good hand"], grains["good hand, turning at every round"]
    assert mean(busy, lambda one: one.turned) > 1.5 * mean(good, lambda one: one.turned)
    assert mean(busy, lambda one: one.loss) > mean(good, lambda one: one.loss) + 0.3
    assert mean(busy, lambda one: one.even) < mean(good, lambda one: one.even) - 1.0
    assert mean(busy, lambda one: one.at_kiln) < mean(good, lambda one: one.at_kiln) - 1.0
    assert mean(busy, lambda one: one.bed_h) > mean(good, lambda one: one.bed_h) + 4.0


@pytest.mark.parametrize("name", ["by the clock", "turn at every round", "plan only"])
def test_at_the_same_ripeness_the_good_hand_is_the_more_even_and_loses_no_more(grains, name):
    good, other = grains["good hand"], grains[name]
    assert mean(good, lambda one: one.even) > mean(other, lambda one: one.even)
    assert mean(good, lambda one: one.loss) < mean(other, lambda one: one.loss)


@pytest.mark.further(keep=1)
@pytest.mark.parametrize("name", BY_COUNT)
def test_each_of_them_comes_to_the_kiln(name):
    assert {come_to(name, number)[0] for number in range(1, 13)} == {"kiln"}


def test_all_but_the_good_hand_are_what_they_were_where_they_go_by_hours():
    run, _ = run_on(Run(NUMBERS[0], 4, None, ""), PLAYERS["by the clock"])
    assert run.ended == "kiln" and not any(code == "ac" for _, code, _, _ in run.done)


def grown(growth_h: float) -> World:
    world = World(5, hidden(5, ()))
    world.where, world.turned = "floor", -24 * 60
    for zone in world.zones:
        zone.growth_h, zone.water, zone.layers = growth_h, 0.8, [15.0] * len(zone.layers)
    return world


def test_a_turning_takes_roots_water_and_warmth_and_one_too_soon_lets_corns_grow_apart():
    world = grown(100.0)
    dry, water = world.mean(lambda z: z.dry), world.mean(lambda z: z.water)
    world.turn()
    assert world.mean(lambda z: z.dry) < dry and world.mean(lambda z: z.water) < water
    assert world.mean(lambda z: z.temp_c) < 15.0
    assert world.mean(lambda z: z.apart) == 0.0, "what usual turnings tear is in the spread of corns already"
    world.minute += int(60 * TOO_SOON_H)
    world.turn()
    assert world.mean(lambda z: z.apart) == 0.0
    world.minute += int(60 * TOO_SOON_H) - 1
    world.turn()
    assert world.mean(lambda z: z.apart) > 0.0


def test_before_there_are_roots_none_are_broken():
    world = grown(10.0)
    dry = world.mean(lambda z: z.dry)
    world.turn()
    world.turn()
    assert world.mean(lambda z: z.dry) == dry and world.mean(lambda z: z.apart) == 0.0
