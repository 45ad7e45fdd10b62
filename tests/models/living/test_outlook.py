"""What a reading would narrow: against normal theory, statsmodels, and all members weighed by what it could show."""

from itertools import pairwise

import numpy as np
import pytest
import statsmodels.api as sm

from calculators.models.living.ensemble import Ensemble, ensemble
from calculators.models.living.lot_plan_state import BedSpell, Lot, Plan
from calculators.models.living.outlook import (
    Sought,
    furthest,
    least_known,
    readings_to_take,
    variance_left,
    warmest_bottom,
    would_show,
)
from calculators.models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Probe, Reading
from calculators.models.steep.course import Stage

PLAN = Plan(tuple(Stage(h, 14.0) for h in (8, 8, 8, 12, 3)), tuple(BedSpell(24.0, 15.0) for _ in range(6)))
CAST_H = 39.0
LOT = Lot(barley_moisture=12.5)
FEW = ensemble(plan=PLAN, lot=LOT)


@pytest.mark.parametrize("noise", [0.25, 1.0, 3.0])
def test_a_straight_reading_against_normal_theory(noise):
    # Var(x | x + e) = s²e²/(s² + e²): the textbook's posterior of a normal mean.
    random = np.random.default_rng(4)
    x = random.standard_normal(200_000)
    read = x + noise * random.standard_normal(x.size)
    left = variance_left(x[np.newaxis, :], read[np.newaxis, :])
    assert float(left[0]) == pytest.approx(noise**2 / (1.0 + noise**2), abs=0.01)


def test_the_fit_against_statsmodels():
    random = np.random.default_rng(5)
    columns = random.standard_normal((4, 300))
    values = 2.0 * columns[0] - columns[1] ** 2 + random.standard_normal(300)
    found = sm.OLS(values, sm.add_constant(columns.T)).fit()
    assert float(variance_left(values[np.newaxis, :], columns)[0]) == pytest.approx(1.0 - found.rsquared_adj, abs=1e-9)


def weighed(many: Ensemble, values: np.ndarray, reading: Reading, truths: int) -> float:
    """The spread left on the mean over what a reading may show, by weighing all members: sd after over sd before."""
    random = np.random.default_rng(6)
    shown = would_show(many, reading, random)
    after = []
    for n in random.choice(many.members, truths, replace=False):
        seen = [float(x) for x in shown[:, n]]
        if isinstance(reading, Basket):
            one: Reading = Basket(reading.hour, seen[0])
        elif isinstance(reading, Chits):
            one = Chits(reading.hour, round(seen[0] * 100), 100)
        else:
            counts = [round(x * 100) for x in seen]
            one = AcrospireCount(reading.hour, (counts[0], counts[1], counts[2], counts[3], counts[4]))
        likely = many.likelihoods([one])[0]
        weights = np.exp(likely - likely.max())
        weights /= weights.sum()
        mean = weights @ values
        after.append(float(weights @ np.square(values - mean)))
    return float(np.mean(after) ** 0.5 / values.std())


@pytest.mark.parametrize(
    ("reading", "of", "hour"),
    [
        (Basket(24.0, 0.0), "moisture", CAST_H),
        (Basket(8.0, 0.0), "moisture", CAST_H),
        (Chits(36.0, 0, 100), "chitted", CAST_H),
        (Chits(28.0, 0, 100), "chitted", CAST_H),
        (AcrospireCount(CAST_H + 96.0, (100, 0, 0, 0, 0)), "ready", CAST_H + 120.0),
    ],
)
def test_what_a_reading_leaves_against_all_members_weighed(reading, of, hour):
    many = ensemble(plan=PLAN, lot=LOT, members=5000, seed=9)
    real = weighed(many, many.values(of, hour), reading, 150)
    (step,) = readings_to_take(FEW, [Sought(of, hour, FEW.values(of, hour))], [reading], most=1)
    assert step.left[of] == pytest.approx(real, abs=0.1)


def test_a_reading_says_nothing_of_what_lies_before_it():
    sought = [Sought("moisture", CAST_H, FEW.values("moisture", CAST_H))]
    assert readings_to_take(FEW, sought, [Oven(CAST_H + 24.0, 0.0)]) == []
    assert readings_to_take(FEW, sought, [Basket(CAST_H, 0.0)]) == []
    assert readings_to_take(FEW, sought, [Basket(24.0, 0.0)]) != []


def test_a_reading_that_has_nothing_to_do_with_it_is_not_named():
    sought = [Sought("chitted", CAST_H, FEW.values("chitted", CAST_H))]
    assert readings_to_take(FEW, sought, [Probe(2.0, 0.0)]) == []
    assert readings_to_take(FEW, [], [Probe(2.0, 0.0)]) == [] and readings_to_take(FEW, sought, []) == []


def test_each_further_reading_leaves_less():
    figures = [Sought(of, CAST_H, FEW.values(of, CAST_H)) for of in ("moisture", "chitted")]
    candidates: list[Reading] = [Basket(8.0, 0.0), Basket(24.0, 0.0), Chits(30.0, 0, 100), Chits(36.0, 0, 100)]
    steps = readings_to_take(FEW, figures, candidates)
    assert len(steps) >= 2
    for before, after in pairwise(steps):
        assert all(after.left[name] <= before.left[name] for name in before.left)
    assert len({step.reading for step in steps}) == len(steps)


def test_what_members_would_show_scatters_about_what_they_are():
    random = np.random.default_rng(7)
    warm = would_show(FEW, Probe(CAST_H, 0.0), random)[0]
    off = warm - FEW.values("warmth", CAST_H)
    # 0.7 K of scatter by Student's t with five degrees, and 0.3 K alike at every reading.
    assert float(off.std()) == pytest.approx((0.7**2 * 5.0 / 3.0 + 0.3**2) ** 0.5, rel=0.15)
    shares = would_show(FEW, AcrospireCount(150.0, (100, 0, 0, 0, 0)), random)
    assert np.allclose(shares.sum(axis=0), 1.0)
    mean, apart = would_show(FEW, BottomTop(99.0, 0.0, 0.0, 8.0, 0.15), random)
    assert abs(float(apart.mean())) < 4.0 and abs(float(mean.mean()) - 15.0) < 0.3


def test_the_furthest_lies_beyond_every_hour_of_it():
    hours = [h for h in FEW.hours() if h <= CAST_H]
    most, least = furthest(FEW, "warmth", hours), furthest(FEW, "warmth", hours, lowest=True)
    for hour in hours:
        band = FEW.warmth([hour])
        assert most.high >= band.high[0] - 1e-9 and least.low <= band.low[0] + 1e-9
    assert most.hour in hours and least.low <= least.middle <= least.high


def test_the_bottom_is_warmer_the_deeper_and_the_longer_it_lies():
    bed = [h for h in FEW.hours() if h > CAST_H]
    thin = warmest_bottom(FEW, bed, turned_every_h=8.0, depth_m=0.10, room_c=12.0)
    assert thin.middle > furthest(FEW, "warmth", bed).middle
    assert warmest_bottom(FEW, bed, turned_every_h=8.0, depth_m=0.20, room_c=12.0).middle > thin.middle
    assert warmest_bottom(FEW, bed, turned_every_h=12.0, depth_m=0.10, room_c=12.0).middle > thin.middle


def test_what_is_least_known_is_where_members_differ_most():
    hours = [h for h in FEW.hours() if h > 0.0]
    found = least_known(FEW, "chitted", hours)
    assert found is not None and found.values.std() == max(FEW.values("chitted", h).std() for h in hours)
    assert least_known(FEW, "chitted", []) is None


@pytest.mark.parametrize("hour", [20.0, 30.0, 39.0])
def test_a_count_to_come_shows_the_share_that_each_member_has(hour):
    shown = would_show(FEW, Chits(hour, 0, 10_000), np.random.default_rng(7))
    share = FEW.rows("chitted", [hour])[0]
    assert shown.shape == (1, FEW.members)
    assert float(np.abs(shown[0] - share).max()) < 0.06  # some thousand corns tell: four standard deviations and more
    assert float((shown[0] - share).mean()) == pytest.approx(0.0, abs=0.002)
