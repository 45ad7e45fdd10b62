"""The grid of a steep planned anew: each continuation against the whole steep worked out once more, and what the grid
promises of hours and stages.
"""

from __future__ import annotations

import pytest

from calculators.models.living.chitting import Corns
from calculators.models.living.steep_run import Rests
from calculators.models.steep.course import Stage
from calculators.models.steep.hydration import STAGES, steep
from calculators.rules.limits.steeping import IMMERSION, REST
from calculators.rules.replan.faults import Asked
from calculators.rules.replan.steep import already
from calculators.rules.replan.steep_grid import SteepNow, candidates
from calculators.rules.replan.ways import Move, Way, apart
from calculators.rules.steep_life import Lives
from calculators.rules.steep_order import LEAST_H

LIVES = Lives(Rests(), Corns(), "couch")
RESTING = ((8.0, 14.0), (8.0, 14.0), (8.0, 14.0), (6.0, 14.0))
WET = ((8.0, 14.0), (8.0, 14.0), (3.0, 14.0))


def now(done: tuple[tuple[float, float], ...], target: float = 44.0) -> SteepNow:
    return SteepNow(steep(barley_moisture=12.5, stages=done), target, (), 14.0, 14.0, LIVES)


@pytest.mark.parametrize("done", [RESTING, WET], ids=["resting", "wet"])
def test_each_continuation_is_the_whole_steep_worked_out_once_more(done: tuple[tuple[float, float], ...]) -> None:
    found = list(candidates(now(done), Asked()))
    assert len({len(one.hours) for one in found}) >= 3
    for one in found[:: max(1, len(found) // 60)]:
        first, *more = one.hours
        stages = [*done[:-1], (done[-1][0] + first, 14.0), *((hours, 14.0) for hours in more)]
        whole = steep(barley_moisture=12.5, stages=stages)
        assert one.drained == pytest.approx(whole.ends[-1].drained, abs=1e-6)
        assert one.end == pytest.approx(sum(one.hours))


@pytest.mark.parametrize("done", [RESTING, WET], ids=["resting", "wet"])
def test_rests_are_whole_hours_and_keep_the_table(done: tuple[tuple[float, float], ...]) -> None:
    for one in candidates(now(done), Asked()):
        rests = one.hours[0::2] if done is RESTING else one.hours[1::2]
        wets = one.hours[1::2] if done is RESTING else one.hours[0::2]
        so_far = [done[-1][0]] + [0.0] * len(one.hours)
        assert all(hours == int(hours) for hours in rests)  # an order is not for "3.1 hours"
        for hours, had in zip(rests, so_far if done is RESTING else so_far[1:], strict=False):
            assert hours + had <= REST.stop_high + 1e-9  # type: ignore[operator]
        for hours, had in zip(wets, so_far if done is WET else so_far[1:], strict=False):
            assert hours + had <= IMMERSION.stop_high + 1e-9  # type: ignore[operator]
        assert all(hours >= LEAST_H for hours in (wets if done is RESTING else wets[1:]))


@pytest.mark.parametrize("stages", [17, 18, 19, 20])
def test_no_continuation_has_more_stages_than_a_steep_may(stages: int) -> None:
    found = list(candidates(now(((2.0, 14.0),) * stages, target=46.0), Asked()))
    most = max(stages - 1 + len(one.hours) for one in found)
    assert STAGES.high - 2 < most <= STAGES.high  # a last immersion, or one more rest before it


def test_a_long_rest_is_no_long_immersion() -> None:
    rested = (*RESTING[:3], (IMMERSION.stop_high + 2.0, 14.0))  # type: ignore[operator]
    assert IMMERSION.id not in {one.line.rule for one in already(now(rested), Asked())}
    wet = (*RESTING[:2], (IMMERSION.stop_high + 2.0, 14.0))  # type: ignore[operator]
    assert IMMERSION.id in {one.line.rule for one in already(now(wet), Asked())}


def test_two_ways_are_one_at_the_very_hours_that_part_them() -> None:
    ways = [Way((), (Move(hour, "fill"), Move(20.0, "drain")), None, (Stage(8.0, 14.0),)) for hour in (6.0, 8.0, 8.1)]  # type: ignore[arg-type]
    assert not apart(ways[0], ways[1], 2.0) and apart(ways[0], ways[2], 2.0)
    assert apart(ways[0], ways[0]._replace(hold_c=15.0), 2.0)
