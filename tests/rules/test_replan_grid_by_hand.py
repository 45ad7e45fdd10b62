"""The grid of a steep planned anew laid out a second time: every continuation, and what is done when."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from calculators.models.steep.course import Stage
from calculators.models.steep.hydration import STAGES, run, steep
from calculators.rules.replan.faults import Asked
from calculators.rules.replan.steep_grid import Candidate, SteepNow, candidates, moves_of, price
from calculators.rules.replan.ways import PUTS_FIRST, Move
from tests.rules.replan_steeps import DIPPED, RESTING, TARGET, USUAL, at, hours_of


def drained(now: SteepNow, more: tuple[float, ...], last: float = 0.0) -> float:
    """What the steep ends on with the open stage longer and more stages by turns, its last one longer by so much."""
    stages = list(now.course.steeping.stages)
    stages[-1] = stages[-1]._replace(hours=stages[-1].hours + more[0])
    stages += [Stage(hours, now.water_temp_c) for hours in more[1:]]
    stages[-1] = stages[-1]._replace(hours=stages[-1].hours + last)
    return run(now.course.steeping._replace(stages=tuple(stages))).ends[-1].drained


def to_the_target(now: SteepNow, before: tuple[float, ...], low: float, high: float) -> float | None:
    """How long one more immersion must be, by halving, to the quarter of an hour."""
    if not drained(now, (*before, low)) <= now.target <= drained(now, (*before, high)):
        return None
    while high - low > 1e-6:
        middle = (low + high) / 2.0
        low, high = (middle, high) if drained(now, (*before, middle)) < now.target else (low, middle)
    return round(low * 4.0) / 4.0 if before else low


def steps(least: float, most: float, step: float) -> list[float]:
    return [round(least + n * step, 4) for n in range(200) if least + n * step <= most + 1e-9]


def rests(now: SteepNow, asked: Asked, rested: float, begins: float, tick: float) -> list[float]:
    fill_from = max(0.0, asked.fill_from_h - begins)
    if asked.fill_by_h is not None:
        return steps(fill_from, min(24.0 - rested, max(0.0, asked.fill_by_h - begins)), tick)
    return steps(max(fill_from, now.rest_h - rested), 24.0 - rested, tick)


def laid_out(now: SteepNow, asked: Asked, tick: float = 1.0) -> Iterator[tuple[float, ...]]:
    """Every continuation: hours by turns."""
    if not now.wet:
        for rest in rests(now, asked, now.elapsed_h, 0.0, tick):
            if rest >= asked.cast_from_h:
                yield (rest,)
            yield from watered(now, (rest,), tick, True)
        return
    open_h = [0.0] if asked.drain_now or now.elapsed_h >= 12.0 else steps(0.0, 12.0 - now.elapsed_h, tick)
    for wet in open_h:
        if wet + 1.0 >= asked.cast_from_h:
            yield (wet,)
        for rest in rests(now, asked, 0.0, wet, tick):
            yield from watered(now, (wet, rest), tick, True)
    if not asked.drain_now and now.elapsed_h < 12.0:
        needed = to_the_target(now, (), 0.3 - now.elapsed_h, 12.0 - now.elapsed_h)
        needed = None if needed is None else round(4.0 * (needed + now.elapsed_h)) / 4.0
        if needed is not None and needed >= now.elapsed_h:
            yield (needed - now.elapsed_h,)


def watered(now: SteepNow, hours: tuple[float, ...], tick: float, more: bool) -> Iterator[tuple[float, ...]]:
    """One more immersion of every length, and of the one that the target needs; or a second one behind a rest."""
    many = len(hours_of(now)) + len(hours) - 1
    if many + 1 > STAGES.high:
        return
    yield from ((*hours, wet) for wet in steps(1.0, 12.0, tick))
    needed = to_the_target(now, hours, 0.01, 12.0)
    if needed is not None and needed >= 1.0:
        yield (*hours, needed)
    if more and many + 3 <= STAGES.high and (len(hours) == 1 or hours[-1] % 3.0 == 0.0):
        for first in (8.0, 12.0) if drained(now, (*hours, 12.0)) < now.target - 1.0 else (4.0, 8.0):
            if drained(now, (*hours, first)) < now.target:
                for rest in steps(now.rest_h, 24.0, 6.0):
                    yield from watered(now, (*hours, first, rest), 2.0 * tick, False)


NEARLY_TWELVE = steep(barley_moisture=12.5, stages=[(11.9, 14.0)]).ends[-1].drained
GRIDS: dict[str, tuple[SteepNow, Asked]] = {
    "rest": (at(RESTING), Asked(fill_from_h=8.0)),
    "long-rest": (at((*USUAL[:3], (21.5, 14.0))), Asked()),
    "no-water-before": (at(RESTING), Asked(fill_from_h=9.25, cast_from_h=10.0)),
    "cast-from-the-hour": (at(RESTING), Asked(fill_from_h=9.0, cast_from_h=9.0)),
    "warm": (at((*USUAL[:3], (2.0, 14.0))), Asked(fill_by_h=2.0)),
    "warm-and-not-before": (at((*USUAL[:3], (2.0, 14.0))), Asked(fill_by_h=4.0, fill_from_h=1.0)),
    "rests-longer": (at(RESTING, rest_h=10.0), Asked(fill_from_h=10.0)),
    "first-rest": (at(USUAL[:2]), Asked(fill_from_h=13.0)),
    "under-water": (at((*USUAL[:2], (9.5, 14.0))), Asked(fill_from_h=20.0)),
    "under-water-at-its-stop": (at((*USUAL[:2], (12.0, 14.0))), Asked(fill_from_h=18.0)),
    "drained-at-once": (at(DIPPED), Asked(drain_now=True, fill_from_h=16.0, cast_from_h=16.0)),
    "cast-in-an-hour-and-more": (at(DIPPED), Asked(drain_now=True, fill_from_h=22.0, cast_from_h=1.05)),
    "early-under-water": (at(((10.0, 14.0),), target=43.0), Asked(fill_from_h=22.0)),
    "needs-the-longest": (at(((4.5, 14.0),), target=NEARLY_TWELVE), Asked(fill_from_h=23.5)),
    "as-long-as-the-target-needs": (at(((4.0, 14.0),), target=33.0), Asked(fill_from_h=23.0)),
    "warm-under-water": (at((*USUAL[:2], (9.0, 14.0))), Asked(fill_by_h=3.0, fill_from_h=2.0)),
    "cast-late": (at(DIPPED), Asked(drain_now=True, fill_from_h=20.0, cast_from_h=1.0)),
    "last-dip": (at((*USUAL[:4], (1.0, 14.0))), Asked(fill_from_h=22.0)),
    "room-for-four-stages": (at(((2.0, 14.0),) * (int(STAGES.high) - 4), target=46.0), Asked(fill_from_h=16.0)),
    "room-for-two-stages": (at(((2.0, 14.0),) * (int(STAGES.high) - 2), target=46.0), Asked(fill_from_h=16.0)),
    "room-for-one-stage": (at(((2.0, 14.0),) * (int(STAGES.high) - 1), target=46.0), Asked(fill_from_h=16.0)),
}


@pytest.mark.parametrize("case", list(GRIDS))
def test_the_grid_holds_every_continuation_that_is_asked_for_and_no_other(case: str) -> None:
    now, asked = GRIDS[case]
    every = list(candidates(now, asked))
    assert [one.end for one in every] == pytest.approx([sum(one.hours) for one in every])
    found = [tuple(round(hours, 4) for hours in one.hours) for one in every]
    assert set(found) == {tuple(round(hours, 4) for hours in one) for one in laid_out(now, asked)}


def test_a_coarser_grid_is_coarser_in_all_but_the_rests_before_a_second_immersion() -> None:
    now, asked = at((*USUAL[:3], (9.0, 14.0)), target=46.0), Asked(fill_from_h=6.0)
    assert {one.hours for one in candidates(now, asked, 3.0)} == set(laid_out(now, asked, 3.0))


def test_a_steep_s_moves_are_told_from_now_on() -> None:
    rest, wet = at(RESTING), at(DIPPED)
    assert moves_of((2.0,), rest) == (Move(2.0, "cast"),)
    assert moves_of((2.0,), wet) == (Move(2.0, "drain"), Move(3.0, "cast"))  # an hour to drain
    assert moves_of((2.0, 4.0), rest) == (Move(2.0, "fill", 14.0), Move(6.0, "drain"), Move(7.0, "cast"))
    told = moves_of((1.0, 6.0, 4.0, 6.0, 2.0), wet, [15.0])
    assert told == (
        Move(1.0, "drain"), Move(7.0, "fill", 15.0), Move(11.0, "drain"), Move(17.0, "fill", 14.0), Move(19.0, "drain"),
        Move(20.0, "cast"),
    )  # fmt: skip
    assert at(USUAL[:1], ()).planned_end_h is None and at(USUAL[:1], (1.0, 9.0)).planned_end_h == 10.0


def test_a_plan_that_is_not_written_is_as_short_as_it_can_be() -> None:
    one, weights = Candidate((6.0, 4.0), 10.0, TARGET), PUTS_FIRST["day"]
    now = at((*USUAL[:3], (6.0, 14.0)), (), clock_h=6.0)
    assert price(one, now, weights, Asked()) == pytest.approx(weights.hour * 5.0 + 0.5)
    planned = now._replace(ahead_h=(6.0, 2.0))
    assert price(one, planned, weights, Asked()) == pytest.approx(weights.hour * 2.0 + 0.5)
    assert price(one, planned, weights, Asked(load_from_h=5.0)) == pytest.approx(weights.hour * 3.0 + 0.5)
