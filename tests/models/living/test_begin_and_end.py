"""How a batch begins before anything has been done to it, and what its members say of themselves."""

from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from calculators.asking.answer import example_of
from calculators.models.living.batch import course
from calculators.models.living.ensemble import LAST_MOVES, Ensemble, ensemble
from calculators.models.living.fan_stopped import after_fan_stops
from calculators.models.living.lot_plan_state import BedSpell, Lot, Plan, State
from calculators.models.living.pace import air_share_at, air_shares
from calculators.models.living.readings import Chits
from calculators.models.living.warmth import air_on, rest_warmth
from calculators.models.steep.course import Stage
from calculators.sheets import find_sheet

PLAN = Plan(tuple(Stage(h, 14.0) for h in (8, 8, 8, 12, 3)), (BedSpell(24.0, 15.0),) * 2)


def test_before_the_first_wetting_nothing_has_happened() -> None:
    first = course(plan=PLAN, lot=Lot(barley_moisture=12.5, water_warmer_k=0.5))[0]
    assert first == State(
        hour=0.0, wet=True, steeping=True, temp_c=14.5, net=12.5, drained=12.5, dry_kg=875.0,
        chit_h=0.0, growth_h=0.0, respired_kg=0.0, heat_kw=0.0, evaporated_kg=0.0, sprinkled_kg=0.0,
    )  # fmt: skip


@pytest.mark.parametrize("members", [100, 250])
def test_without_a_reading_every_member_counts(members: int) -> None:
    taken = ensemble(plan=Plan(PLAN.stages[:1]), members=members).taken
    assert taken == (members, 0, 1.0, 0.0, False)


def test_a_reading_that_says_little_is_let_in_at_once_and_moved_three_times_more() -> None:
    before = ensemble(plan=Plan(PLAN.stages[:1]))
    after = before.corrected([Chits(1.0, 0, 1)])
    assert after.taken.share == 1.0 and after.taken.draws == 1 + LAST_MOVES == 4
    assert after.taken.effective > 0.99 * before.members


def test_dry_matter_lost_is_that_of_the_usual_batch() -> None:
    states = course(plan=PLAN, lot=Lot(barley_moisture=12.5))
    theirs = 100.0 * (1.0 - states[-1].dry_kg / 875.0)
    lost = ensemble(plan=PLAN, lot=Lot(barley_moisture=12.5)).lost()
    assert lost.low[0] < theirs < lost.high[0]
    assert lost.middle[0] == pytest.approx(theirs, rel=0.1)
    assert lost.low[0] > 0.0


class Known(Ensemble):
    """Members of which the first comes to the whole share at hour 1, the second at hour 2, and so on."""

    def __init__(self, members: int) -> None:
        self.z = np.zeros((1, members))
        self._figures, self._when = {}, {}
        self.states = [State(float(h), False, False, *[0.0] * 10) for h in range(members + 1)]

    def _chitted(self, state: State) -> np.ndarray:
        return np.minimum(1.0, state.hour / np.arange(1.0, self.members + 1.0))


@pytest.mark.parametrize("members", [100, 300, 999])
def test_hours_until_are_the_places_of_an_interval_for_one_more_batch(members: int) -> None:
    """As numpy's quantiles by Weibull's places, to the nearest member."""
    found = Known(members).hours_until(1.0)
    theirs = np.quantile(np.arange(1.0, members + 1.0), (0.025, 0.5, 0.975), method="weibull")
    assert np.abs(np.array(found) - theirs).max() <= 0.5


def test_a_rest_of_the_batch_warms_as_a_rest_by_itself() -> None:
    """By steps of an hour against those of a tenth, from the same beginning: heat, air, wall and the water held."""
    states = course(plan=PLAN)
    begins, water = (next(s for s in states if s.hour == hour) for hour in (24.0, 30.0))
    alone = rest_warmth(
        barley_moisture=12.0,
        net_moisture=float(water.net),
        start_c=float(begins.temp_c),
        hours=12.0,
        growth_h=float(begins.growth_h),
        air=air_on(temp_c=PLAN.air_c, relative_humidity=PLAN.rest_air_rh),
        suction_m3_h_t=PLAN.suction_m3_h_t,
    )
    ends = next(s for s in states if s.hour == 36.0)
    assert alone.end_c - begins.temp_c > 1.0
    assert ends.temp_c - begins.temp_c == pytest.approx(alone.end_c - begins.temp_c, rel=0.1)


@pytest.mark.parametrize(("misfit", "wider"), [(3.0, 1.0), (3.75, 1.25**0.5), (12.0, 2.0), (27.0, 3.0), (300.0, 3.0)])
def test_bands_widen_with_the_root_of_the_misfit_to_three_times(
    monkeypatch: pytest.MonkeyPatch, misfit: float, wider: float
) -> None:
    before = ensemble(plan=Plan(PLAN.stages[:1]))
    spreads = []
    for found in (1.0, misfit):
        monkeypatch.setattr(Ensemble, "misfit", lambda self, readings, found=found: found)
        after = before.corrected([Chits(1.0, 0, 1)])
        spreads.append(after.z.std(axis=1))
    assert spreads[1] / spreads[0] == pytest.approx(np.full(len(spreads[0]), wider))
    assert after.taken.widened == (misfit > 3.0)


def test_a_limit_hardly_over_the_grain_is_reached_at_its_first_pace() -> None:
    grain: dict[str, Any] = {"barley_moisture": 14.0, "net_moisture": 45.0, "temp_c": 17.0, "growth_h": 78.0}
    found = after_fan_stops(place="box", **grain, limit_c=17.02, room_c=15.0)
    assert found.hours_to_limit == pytest.approx(0.02 / found.k_per_h, rel=0.05)
    assert 0.0 < found.hours_to_limit_soonest < found.hours_to_limit < 0.05


def test_a_batch_of_which_nothing_is_said_is_of_the_worked_case_s_barley() -> None:
    example = example_of(find_sheet("moisture-target"))["barley_moisture"]
    assert course(plan=Plan(PLAN.stages[:1]))[0].net == float(str(example))


@pytest.mark.parametrize(("hours", "steps"), [(0.25, 1), (1.0, 1), (1.01, 2), (8.0, 8), (8.5, 9)])
def test_a_steep_is_stepped_by_the_hour_and_no_finer(hours: float, steps: int) -> None:
    assert [s.hour for s in course(plan=Plan((Stage(hours, 14.0),)))] == pytest.approx(
        [hours * n / steps for n in range(steps + 1)]
    )


def test_what_is_under_water_and_in_the_steep_is_told_hour_by_hour() -> None:
    for state in course(plan=PLAN)[1:]:
        immersed = state.hour <= 8.0 or 16.0 < state.hour <= 24.0 or 36.0 < state.hour <= 39.0
        assert state.wet == immersed, state.hour
        assert state.steeping == (state.hour <= 39.0), state.hour


@pytest.mark.parametrize("over", [0.04, 0.2, 4.0])
def test_every_hour_over_twelve_is_paid_for_by_a_quarter_at_once(over: float) -> None:
    shares = air_shares(stage_hours=[12.0 + over, 8.0])
    begins, debt = 12.0 + over, 0.25 * over
    assert air_share_at(shares, 12.0, begins) == 0.0
    assert air_share_at(shares, begins, begins + debt) == pytest.approx(0.0, abs=1e-9)
    assert air_share_at(shares, begins, begins + 8.0) == pytest.approx((8.0 - debt) / 8.0)


@pytest.mark.parametrize("rest", [1.0, 2.9, 3.0, 3.1, 8.0])
def test_no_hour_of_a_steep_has_two_shares_of_air(rest: float) -> None:
    """Also where a rest is just as long as what it has to make good: 12 h too many under water, a quarter each."""
    hours = [one.from_h for one in air_shares(stage_hours=[24.0, rest, 8.0, 8.0])]
    assert all(before < after for before, after in pairwise(hours))
