"""The ensemble: its members against the exact batch, its draws against brute force, and how it takes readings."""

import subprocess
import sys
from itertools import pairwise

import numpy as np
import pytest
from scipy.stats import t as student_t

from bench.worlds import PLAN as WORLD_PLAN
from bench.worlds import own, readings
from calculators.models.bounds import OutOfRange
from calculators.models.living.arrays import ARRAYS
from calculators.models.living.batch import course, drive
from calculators.models.living.doubts import UNKNOWNS, moved, student
from calculators.models.living.draws import drawn_anew
from calculators.models.living.ensemble import Ensemble, ensemble
from calculators.models.living.lot_plan_state import BedSpell, Lot, Plan
from calculators.models.living.maths import FLOATS
from calculators.models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Probe, Reading
from calculators.models.living.shells import ShellWater
from calculators.models.steep.course import Stage
from calculators.rules.forecast import LEAST_EFFECTIVE
from tests.drawn import drawn

PLAN = Plan(tuple(Stage(h, 14.0) for h in (8, 8, 8, 12, 3)), tuple(BedSpell(24.0, 15.0) for _ in range(6)))
BASE = Lot(barley_moisture=12.5)
BEFORE = ensemble(plan=PLAN, lot=BASE)
CAST_H = 39.0


def width(one: Ensemble, hour: float = CAST_H) -> float:
    band = one.moisture([hour])
    return band.high[0] - band.low[0]


def test_the_laws_do_without_numpy() -> None:
    names = "batch, breathing, chitting, acrospires, doubts, fan_stopped, pace, readings, warmth"
    code = f"from calculators.models.living import {names}; import sys; assert 'numpy' not in sys.modules"
    subprocess.run([sys.executable, "-c", code], check=True)


def test_shells_against_the_exact_series() -> None:
    # 25 lots drawn from the doubts: moistures off by 0.15 points at most, and by 0.12 once two hours are over.
    z = np.random.default_rng(3).standard_normal((len(UNKNOWNS), 25))
    z[:2] *= 0.5
    z[[u.name for u in UNKNOWNS].index("water")] = 0.0
    lots = moved(ARRAYS, BASE, list(z))
    many = drive(ARRAYS, lots, PLAN, ShellWater(lots, 25))
    for n in range(25):
        one = moved(FLOATS, BASE, [float(v) for v in z[:, n]])
        for ours, exact in zip(many, course(plan=PLAN, lot=one), strict=True):
            near = 0.15 if exact.hour < 2.5 else 0.12
            assert float(np.broadcast_to(ours.drained, 25)[n]) == pytest.approx(exact.drained, abs=near)
            assert float(np.broadcast_to(ours.temp_c, 25)[n]) == pytest.approx(exact.temp_c, abs=0.02)
            assert float(np.broadcast_to(ours.growth_h, 25)[n]) == pytest.approx(exact.growth_h, abs=1.0)


def test_no_flux_and_no_film_change_nothing() -> None:
    lots = Lot(barley_moisture=np.full(3, 12.0), film_db=0.0)
    water = ShellWater(lots, 3)
    water.go(0.0, 6.0, True, 0, np.full(3, 0.0018))
    before = np.array(water.net_db)
    water.film_db = np.zeros(3)
    water.go(6.0, 30.0, False, 1, np.full(3, 0.003))
    assert np.allclose(water.net_db, before, atol=1e-12)


def test_a_film_feeds_what_it_holds() -> None:
    lots = Lot(barley_moisture=np.full(2, 12.0), film_db=np.array([0.02, 0.05]))
    water = ShellWater(lots, 2)
    water.go(0.0, 6.0, True, 0, np.full(2, 0.0018))
    before = np.array(water.net_db)
    water.go(6.0, 18.0, False, 1, np.full(2, 0.0018))
    assert np.allclose(water.net_db - before, [0.02, 0.05], atol=2e-4)
    assert np.allclose(water.film_db, 0.0)


def test_the_middle_is_the_typical_batch() -> None:
    typical = course(plan=PLAN, lot=BASE)
    for hour in (8.0, 24.0, CAST_H, CAST_H + 48.0):
        theirs = next(s for s in typical if s.hour == hour)
        assert BEFORE.moisture([hour]).middle[0] == pytest.approx(theirs.drained, abs=0.4)
        assert BEFORE.warmth([hour]).middle[0] == pytest.approx(theirs.temp_c, abs=0.15)


def test_student_against_scipy() -> None:
    z = np.array([-1.96, -1.0, 0.0, 0.5, 1.0, 1.96])
    from scipy.stats import norm

    assert np.allclose(student(z), student_t.ppf(norm.cdf(z), 3), atol=0.07)


def weighed(plan: Plan, seen: list[Reading], count: int) -> tuple[list[Ensemble], np.ndarray]:
    """So many members drawn at random, with the weights that readings give them (importance sampling)."""
    random = np.random.default_rng(9)
    until_h = max(one.hour for one in seen) + 1.0  # nothing is asked of what comes after
    parts = [Ensemble(plan, BASE, random.standard_normal((len(UNKNOWNS), 4000)), until_h=until_h) for _ in range(count)]
    likely = np.concatenate([one.likelihoods(seen).sum(axis=0) for one in parts])
    weights = np.exp(likely - likely.max())
    weights /= weights.sum()
    return parts, weights


def mean_and_spread(values: np.ndarray, weights: np.ndarray) -> tuple[float, float]:
    mean = float(weights @ values)
    return mean, float(np.sqrt(weights @ (values - mean) ** 2))


def test_draws_against_brute_force() -> None:
    # 32,000 members weighed by one basket and one count: the same means and spreads.
    seen: list[Reading] = [Basket(8.0, 32.0), Chits(CAST_H, 50, 100)]
    parts, weights = weighed(PLAN, seen, 8)
    assert 1.0 / np.square(weights).sum() > 500
    # Three draws of 300, as one alone is off by a seventh of the spread (measured over eight).
    after = [BEFORE.corrected(seen, seed=seed) for seed in (2, 3, 4)]
    figures = {
        "drained": (lambda e: np.asarray(e.states[39].drained), 0.35),
        "middle": (lambda e: np.log(e.lot.corns.middle_h), 0.03),
        "rate": (lambda e: np.log(e.lot.rate_factor), 0.08),
    }
    for figure, near in figures.values():
        mean, sd = mean_and_spread(np.concatenate([figure(one) for one in parts]), weights)
        ours = np.array([figure(one) for one in after])
        assert float(ours.mean()) == pytest.approx(mean, abs=near)
        assert float(ours.std()) == pytest.approx(sd, rel=0.2)


@pytest.mark.drawn
def test_four_readings_leave_no_more_spread_than_they_should() -> None:
    """Of the batch at the cast, over some batches: moves that are hardly ever right would leave a fourth too much."""
    world = own(12, 20)
    before = ensemble(plan=WORLD_PLAN, lot=BASE)
    ratios = []
    for number in range(2, 2 + drawn(5, least=2)):
        seen = readings(world, number, 20)[:4]
        parts, weights = weighed(WORLD_PLAN, seen, 6)
        assert 1.0 / np.square(weights).sum() > 60
        _, sd = mean_and_spread(np.concatenate([one.values("moisture", CAST_H) for one in parts]), weights)
        ratios += [before.corrected(seen, seed=seed).values("moisture", CAST_H).std() / sd for seed in (1, 2)]
    assert 0.9 < np.mean(ratios) < 1.1


def test_readings_narrow_the_band_and_enough_members_count() -> None:
    seen: list[Reading] = [Basket(8.0, 32.5), Basket(24.0, 40.0), Probe(36.0, 15.5), Chits(CAST_H, 60, 100)]
    widths = [width(BEFORE)]
    for count in (1, 2, 4):
        after = BEFORE.corrected(seen[:count])
        assert after.taken.effective >= LEAST_EFFECTIVE
        assert after.taken.share == 1.0 and not after.taken.widened
        widths.append(width(after))
    assert widths[1] < 0.6 * widths[0] and widths[2] < 0.6 * widths[1] and widths[3] < 1.2 * widths[2]
    chits = [BEFORE.chitted([CAST_H + 4.0]), after.chitted([CAST_H + 4.0])]
    assert chits[1].high[0] - chits[1].low[0] < 0.5 * (chits[0].high[0] - chits[0].low[0])


def test_eight_readings_keep_members_enough() -> None:
    world = own(1, 7)
    before = ensemble(plan=WORLD_PLAN, lot=BASE)
    after = before.corrected(readings(world, 0, 7))
    assert after.taken.effective >= LEAST_EFFECTIVE
    assert len(np.unique(after.z[0])) > 200
    ready = after.ready([CAST_H + 126.0])
    assert ready.high[0] - ready.low[0] < 0.6


def test_the_same_readings_give_the_same_bands_in_any_order() -> None:
    one = BEFORE.corrected([Basket(8.0, 32.0), Probe(36.0, 15.0)])
    again = BEFORE.corrected([Basket(8.0, 32.0), Probe(36.0, 15.0)])
    turned = BEFORE.corrected([Probe(36.0, 15.0), Basket(8.0, 32.0)])
    assert one.moisture([CAST_H]) == again.moisture([CAST_H])
    assert turned.moisture([CAST_H]).middle[0] == pytest.approx(one.moisture([CAST_H]).middle[0], abs=0.3)
    assert BEFORE.corrected([]) is BEFORE


def test_readings_that_contradict_are_said_to_and_widen() -> None:
    after = BEFORE.corrected([Basket(8.0, 40.0), Basket(24.0, 33.0), Basket(30.0, 44.0)])
    assert after.taken.widened
    assert width(after) > width(BEFORE.corrected([Basket(8.0, 33.0), Basket(24.0, 40.5), Basket(30.0, 40.7)]))


@pytest.mark.parametrize(
    "wrong",
    [
        Basket(50.0, 40.0),
        Basket(8.0, 66.0),
        Oven(300.0, 40.0),
        Probe(20.0, 61.0),
        Chits(CAST_H, 101, 100),
        BottomTop(20.0, 18.0, 15.0, 8.0, 0.15),
        BottomTop(80.0, 18.0, 15.0, 8.0, 0.02),
        AcrospireCount(100.0, (0, 0, 0, 0, 0)),
        AcrospireCount(100.0, (-1, 0, 5, 0, 0)),
    ],
)
def test_readings_that_cannot_be_are_asked_back(wrong: object) -> None:
    with pytest.raises(OutOfRange) as error:
        BEFORE.corrected([Basket(8.0, 33.0), wrong])  # type: ignore[list-item]
    assert (error.value.table, error.value.row) == ("readings", 1)


def test_limits_of_the_members() -> None:
    for inside in (100, 5000):
        assert ensemble(plan=Plan(PLAN.stages[:1]), members=inside).members == inside
    for outside in (99, 5001):
        with pytest.raises(OutOfRange):
            ensemble(plan=PLAN, members=outside)


def test_a_band_beyond_use_says_that_it_knows_nothing() -> None:
    assert not BEFORE.knows(BEFORE.ready([CAST_H + 126.0]), "ready")
    assert BEFORE.knows(BEFORE.moisture([CAST_H]), "moisture")
    wild = ensemble(plan=PLAN, lot=BASE, scale={"rate": 3.0, "first_uptake": 3.0})
    assert not wild.knows(wild.moisture([8.0]), "moisture")


def test_hours_until() -> None:
    early, middle, late = BEFORE.hours_until(0.8)
    assert 24.0 < early < middle < late < 90.0
    at = BEFORE.chitted([middle])
    assert at.low[0] < 0.8 < at.high[0]
    assert at.middle[0] == pytest.approx(0.8, abs=0.05)
    assert BEFORE.hours_until(0.999)[1] == float("inf")


def test_what_is_better_known_narrows() -> None:
    known = ensemble(plan=PLAN, lot=BASE, scale={"rate": 0.2, "first_uptake": 0.2})
    assert width(known) < 0.6 * width(BEFORE)


def test_bands_hold_in_the_model_s_own_world() -> None:
    # A small share of ``python -m bench.calibration``, which is the measurement.
    world = own(12, 5)
    before = ensemble(plan=WORLD_PLAN, lot=BASE)
    held = []
    for number in range(world.batches):
        band = before.corrected(readings(world, number, 5)[:2], seed=number).moisture([CAST_H])
        held.append(band.low[0] <= float(world.drained(CAST_H)[number]) <= band.high[0])
    assert sum(held) >= 9


class Highest:
    """A generator whose number is the last one below 1."""

    def random(self) -> float:
        return 1.0 - 2.0**-53


def test_the_last_member_is_drawn_where_weights_fall_short_of_one_by_rounding() -> None:
    short = np.array([0.25, 0.25, 0.4999999])
    assert list(drawn_anew(short, Highest())) == [1, 2, 2]  # type: ignore[arg-type]
    even = drawn_anew(np.full(8, 0.125), np.random.default_rng(1))
    assert list(even) == list(range(8))


def test_between_two_states_a_figure_goes_straight() -> None:
    before, after = next(
        (a.hour, b.hour) for a, b in pairwise(BEFORE.states) if not a.steeping and b.hour - a.hour > 1.0
    )
    ends = [BEFORE.values("moisture", hour) for hour in (before, after)]
    for share in (0.25, 0.5, 0.9):
        between = BEFORE.values("moisture", before + share * (after - before))
        assert np.allclose(between, ends[0] + share * (ends[1] - ends[0]), atol=1e-9)
    assert float(np.abs(ends[1] - ends[0]).max()) > 0.01
