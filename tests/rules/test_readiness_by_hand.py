"""The verdict on a piece worked out a second time: growth, the days before, the hours of a wait, and the roads."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from calculators.models.counts import acrospire
from calculators.models.counts.posterior import likely_outcomes
from calculators.rules import readiness as rule
from calculators.rules.readiness import Seen, Verdict, decide

Day = tuple[float, ...]
TYPICAL, TYPICAL_SD = acrospire.TYPICAL_GROWTH, acrospire.TYPICAL_GROWTH_SD
Z = float(stats.norm.ppf(0.975))

PIECES: dict[str, Seen] = {
    "early": Seen(((3, 12, 45, 40, 0),), 24.0, 75.0, 10.0),
    "nearly": Seen(((2, 4, 24, 69, 1),), 24.0, 75.0, 10.0),
    "at-its-target": Seen(((1, 3, 20, 75, 1),), 24.0, 75.0, 10.0),
    "good": Seen(((1, 3, 6, 86, 4),), 24.0, 75.0, 10.0),
    "uneven": Seen(((20, 20, 20, 37, 3),), 24.0, 75.0, 10.0),
    "wide": Seen(((5, 20, 27, 40, 8),), 24.0, 80.0, 10.0),
    "of-three-hundred": Seen(((6, 12, 70, 206, 6),), 24.0, 75.0, 10.0),
    "two-days": Seen(((1, 4, 45, 50, 0), (8, 23, 62, 7, 0)), 24.0, 75.0, 10.0),
    "two-days-of-few": Seen(((0, 2, 8, 15, 0), (2, 8, 12, 3, 0)), 20.0, 75.0, 10.0),
    "three-days": Seen(((2, 4, 19, 74, 1), (3, 17, 60, 20, 0), (12, 50, 38, 0, 0)), 24.0, 75.0, 10.0),
    "three-days-half-a-day-apart": Seen(((2, 8, 30, 60, 0), (3, 17, 55, 25, 0), (6, 30, 60, 4, 0)), 12.0, 75.0, 10.0),
    "slow": Seen(((4, 20, 56, 20, 0), (6, 24, 58, 12, 0)), 24.0, 75.0, 10.0),
    "far-behind": Seen(((60, 30, 10, 0, 0),), 24.0, 75.0, 10.0),
    "nothing-long": Seen(((25, 0, 0, 0, 0),), 24.0, 90.0, 10.0),
    "not-growing": Seen(((10, 40, 40, 10, 0), (10, 40, 40, 10, 0)), 24.0, 75.0, 10.0),
    "went-back": Seen(((20, 40, 35, 5, 0), (2, 20, 50, 28, 0), (2, 20, 50, 28, 0)), 24.0, 75.0, 10.0),
}


def named(*names: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("name", names or list(PIECES))


def with_prior(day: Day) -> np.ndarray:
    found: np.ndarray = np.array(day) + np.array(acrospire.PRIOR)
    return found


def weighed(counted: acrospire.Rate) -> tuple[float, float]:
    """Two measurements of one growth, each by one over its variance (JCGM 100:2008, from memory)."""
    sd = np.hypot((counted.high - counted.low) / (2.0 * Z), rule.DAY_TO_DAY_SD)
    worth = np.array([TYPICAL_SD**-2, sd**-2])
    return float(np.average([TYPICAL, counted.value], weights=worth)), float(worth.sum() ** -0.5)


@named()
def test_growth_is_the_typical_and_the_counted_each_by_its_doubt(name: str) -> None:
    seen, growth = PIECES[name], decide(PIECES[name]).growth
    if len(seen.days) == 1:
        assert growth == (TYPICAL, TYPICAL_SD, None, True)
        return
    many = len(seen.days) - 1
    counted = acrospire.growth_rate(today=seen.days[0], before=seen.days[-1], hours=seen.hours * many)
    assert growth.counted == counted and growth.sure == (counted.low > 0.0)
    assert (growth.value, growth.sd) == pytest.approx(weighed(counted) if growth.sure else (TYPICAL, TYPICAL_SD))


@named("two-days", "two-days-of-few", "three-days", "three-days-half-a-day-apart", "slow", "not-growing", "went-back")
def test_yesterday_moved_on_by_its_growth_is_worth_as_many_corns_as_a_beta_of_its_variance(name: str) -> None:
    seen, found = PIECES[name], decide(PIECES[name])
    today, yesterday = with_prior(seen.days[0]), acrospire.curve(weights=tuple(with_prior(seen.days[1])))
    growth, sd = TYPICAL, TYPICAL_SD
    if len(seen.days) > 2:
        growth, sd = weighed(acrospire.growth_rate(today=seen.days[1], before=seen.days[2], hours=seen.hours))
    slow, usual, fast = (
        yesterday.after(max(growth + side * sd, 0.0) * seen.hours / 24.0)[0] for side in (-1.0, 0.0, 1.0)
    )
    usual, corns = float(np.clip(usual, 0.01, 0.99)), sum(seen.days[1])
    variance = ((fast - slow) / 2.0) ** 2 + usual * (1.0 - usual) / corns
    worth = float(np.clip(usual * (1.0 - usual) / variance - 1.0, 0.0, corns / 3.0))
    if worth:  # a beta distribution of so many corns has that variance (scipy)
        free = usual * (1.0 - usual) / variance - 1.0
        assert stats.beta(usual * free, (1.0 - usual) * free).var() == pytest.approx(variance)
    assert found.before == pytest.approx((usual, worth))
    more = np.array([(1.0 - usual) * worth / today[:3].sum()] * 3 + [usual * worth / today[3:].sum()] * 2)
    assert found.weights == pytest.approx(tuple(today * (1.0 + more)))


def test_one_day_stands_by_itself() -> None:
    found = decide(PIECES["early"])
    assert found.before is None and found.weights == pytest.approx(tuple(with_prior((3, 12, 45, 40, 0))))


def moved(weights: np.ndarray, corns: float) -> tuple[float, ...]:
    """So many corns from the short side of three quarters to the long one."""
    low, high = weights[:3].sum(), weights[3:].sum()
    return tuple(np.concatenate([weights[:3] * (1.0 - corns / low), weights[3:] * (1.0 + corns / high)]))


@named()
def test_hours_of_a_wait_have_the_doubts_of_count_and_growth_as_squares(name: str) -> None:
    seen, found = PIECES[name], decide(PIECES[name])
    weights, growth = np.array(found.weights), found.growth
    told = rule._wait(found.weights, seen, growth)
    if not growth.sure:
        assert told is None
        return
    grown = acrospire.growth_needed(weights=found.weights, target=seen.target / 100.0)
    best, corns, ready = 24.0 * grown / growth.value, weights.sum(), weights[3:].sum()
    doubt = Z * np.sqrt(corns * (ready / corns) * (1.0 - ready / corns))
    more, fewer = min(doubt, 0.9 * (corns - ready)), min(doubt, 0.9 * ready)
    reach = Z * np.hypot(growth.sd, rule.DAY_TO_DAY_SD)
    ends = []
    for corns_moved, speed in ((more, growth.value + reach), (-fewer, growth.value - reach)):
        needed = acrospire.growth_needed(weights=moved(weights, corns_moved), target=seen.target / 100.0)
        by_count = 24.0 * needed / growth.value - best
        by_growth = 24.0 * grown / max(speed, 0.25 * growth.value) - best
        ends.append(float(np.hypot(by_count, by_growth)))
    wanted = (grown, *(max(hours, 6.0) for hours in (best, best - ends[0], best + ends[1])))
    assert told == pytest.approx(wanted, rel=1e-6)


def points_of(seen: Seen, weights: Day, hours: float, growth: rule.Growth) -> float:
    """What a wait costs: short, overshot, its time and another count."""
    piece, corns = acrospire.curve(weights=weights), sum(weights)
    nodes, chances = np.polynomial.hermite_e.hermegauss(5)
    total = 3.0 * hours / 24.0 + 0.5
    for node, chance in zip(nodes, chances / chances.sum(), strict=True):
        grown = max(growth.value + node * growth.sd, 0.0) * hours / 24.0
        total += chance * rule._cost(*piece.after(grown), corns, seen).total
    return total


@named()
def test_the_wait_is_until_the_target_or_the_cheapest_where_too_many_run_out_by_then(name: str) -> None:
    seen, found = PIECES[name], decide(PIECES[name])
    told = rule._waiting(found.weights, seen, found.growth)
    piece, limit = acrospire.curve(weights=found.weights), seen.overshot_limit / 100.0
    grown = acrospire.growth_needed(weights=found.weights, target=seen.target / 100.0)
    until = float(np.clip(24.0 * grown / found.growth.value, 6.0, 72.0))
    over = grown > 0.0 and piece.after(grown)[1] > limit
    hours = [until, *(h for h in (24.0, 12.0, 6.0) if over and h < until)]
    costs = {h: points_of(seen, found.weights, h, found.growth) for h in hours}
    wide = acrospire.evenness(counts=seen.days[0]) < 70.0
    uneven = over and (wide or costs[until] >= found.kiln.total)
    if uneven:
        within = [h for h in hours[1:] if piece.after(found.growth.value * h / 24.0)[1] <= limit]
        hours = within or hours[-1:]
    best = min(hours, key=lambda h: costs[h])
    assert told.points.total == pytest.approx(costs[best], rel=1e-6)
    assert told.hours == pytest.approx(best)
    assert (told.there, told.uneven) == (not uneven and best == until, uneven)


def test_pieces_of_every_kind_of_wait_are_among_them() -> None:
    waits = [rule._waiting(v.weights, seen, v.growth) for seen in PIECES.values() for v in (decide(seen),)]
    assert {one.uneven for one in waits} == {one.there for one in waits} == {True, False}
    assert {6.0, 72.0} <= {one.hours for one in waits}


@named()
def test_a_further_count_is_asked_for_where_it_saves_more_than_its_quarters_of_an_hour(name: str) -> None:
    seen, found = PIECES[name], decide(PIECES[name])
    weights = np.array(found.weights)
    goes = found.kiln.total <= found.waiting.total and sum(seen.days[0][3:]) * 100.0 >= seen.target * sum(seen.days[0])
    costs = found.kiln.total if goes else found.waiting.total

    def saves(shown: int, corns: int) -> float:
        today = sum(seen.days[0])
        if not goes and 100.0 * (sum(seen.days[0][3:]) + shown) < seen.target * (today + corns):
            return 0.0
        low, high = weights[:3].sum(), weights[3:].sum()
        then = tuple(np.concatenate([weights[:3] * (1 + (corns - shown) / low), weights[3:] * (1 + shown / high)]))
        gain = rule._kiln(then, seen).total - rule._waiting(then, seen, found.growth).points.total
        return max(0.0, gain if goes else -gain)

    best: tuple[float, int | None, float] = (0.0, None, 0.0)
    for corns in (200, 150, 100, 50) if costs > 0.25 else ():
        outcomes = likely_outcomes(above=float(weights[3:].sum()), below=float(weights[:3].sum()), corns=corns)
        if not saves(outcomes[0], corns) and not saves(outcomes[-1], corns):
            break
        saved = float(np.mean([saves(shown, corns) for shown in outcomes]))
        if saved - 0.005 * corns > best[0]:
            best = (saved - 0.005 * corns, corns, saved)
    told = rule._more(found.weights, seen, found.growth, goes, costs)
    assert told[0] == best[1] and told[1] == pytest.approx(best[2])
    assert (found.word == "count-more") == bool(best[1])


def verdict(day: Day, **more: object) -> Verdict:
    return decide(Seen((day,), 24.0, 75.0, 10.0)._replace(**more))  # type: ignore[arg-type]


def test_a_piece_is_late_where_it_is_likelier_than_not_by_scipy() -> None:
    for over in range(3, 16):
        found = verdict((0.0, 2.0, 4.0, 94.0 - over, float(over)))
        chance = stats.beta(over + 0.5, 100.0 - over + 0.5).sf(0.10)
        assert found.late == pytest.approx(chance, abs=1e-9) and (found.word == "late") == (chance >= 0.5)


def test_hard_corns_are_rubbed_again_in_half_a_day_or_when_the_target_is_there() -> None:
    ripe, young = (0.0, 1.0, 4.0, 93.0, 2.0), (0.0, 10.0, 80.0, 10.0, 0.0)
    found = verdict(ripe, flour=(20, 50)).wait
    assert found is not None and (found.hours, found.high) == (12.0, 12.0) and found.low == 6.0
    longer, usual = verdict(young, flour=(20, 50)).wait, verdict(young).wait
    assert longer is not None and longer == usual and longer.hours > 12.0
    still = (10.0, 40.0, 40.0, 10.0, 0.0)
    assert decide(Seen((still, still), 24.0, 75.0, 10.0, (20, 50))).wait is None


def test_a_wait_that_ends_before_the_target_says_only_when_to_count_again() -> None:
    found = verdict((20.0, 20.0, 20.0, 37.0, 3.0))
    assert found.uneven and found.wait is not None
    assert found.wait[1:] == (found.after_h,) * 3 == (6.0,) * 3


def test_the_prior_alone_goes_to_the_two_sides_as_the_others_lie() -> None:
    found = rule._scaled((1.0, 2.0, 3.0, 8.0, 2.0), 3.0, 5.0)
    assert found == pytest.approx((1.5, 3.0, 4.5, 12.0, 3.0))
