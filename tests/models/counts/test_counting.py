"""What must hold for every count, and the limits of the counting models."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from calculators.models.bounds import OutOfRange
from calculators.models.counts import acrospire
from calculators.models.counts.distributions import normal_quantile
from calculators.models.counts.enough import MOST_CORNS, corns_for_margin, corns_to_decide, decides
from calculators.models.counts.intervals import (
    at_least,
    at_most,
    clopper_pearson,
    lower_bound,
    newcombe,
    upper_bound,
    wilson,
)
from calculators.models.counts.replicates import exact_range, tabled_range
from calculators.models.grain.tests import germination_index, newly_from_running
from calculators.models.weights.losses import malt_from, malting_loss

a_count = st.integers(1, 600).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@given(a_count)
def test_an_interval_holds_its_share_and_keeps_within_0_and_1(count):
    grown, sown = count
    for low, high in (wilson(grown, sown), clopper_pearson(grown, sown)):
        assert 0 <= low <= grown / sown <= high <= 1


@given(a_count)
def test_counting_the_others_mirrors_the_interval(count):
    grown, sown = count
    for method in (wilson, clopper_pearson):
        low, high = method(grown, sown)
        other_low, other_high = method(sown - grown, sown)
        assert (low, high) == pytest.approx((1 - other_high, 1 - other_low), abs=1e-12)


@given(a_count)
def test_at_the_ends_of_the_exact_interval_the_tails_are_half_the_doubt(count):
    grown, sown = count
    low, high = clopper_pearson(grown, sown)
    if grown > 0:
        assert at_least(grown, sown, low) == pytest.approx(0.025, rel=1e-9)
    if grown < sown:
        assert at_most(grown, sown, high) == pytest.approx(0.025, rel=1e-9)


@given(a_count, st.floats(0, 1))
def test_tails_are_binomial_sums(count, share):
    grown, sown = min(count[0], 40), min(count[1], 40)
    grown = min(grown, sown)
    terms = [math.comb(sown, k) * share**k * (1 - share) ** (sown - k) for k in range(sown + 1)]
    assert at_least(grown, sown, share) == pytest.approx(sum(terms[grown:]), abs=1e-10)
    assert at_most(grown, sown, share) == pytest.approx(sum(terms[: grown + 1]), abs=1e-10)


@given(a_count)
def test_more_confidence_is_wider(count):
    grown, sown = count
    sure, less = clopper_pearson(grown, sown, 0.99), clopper_pearson(grown, sown, 0.9)
    assert sure.low <= less.low and less.high <= sure.high
    assert lower_bound(grown, sown) >= clopper_pearson(grown, sown).low - 1e-12
    assert upper_bound(grown, sown) <= clopper_pearson(grown, sown).high + 1e-12


@given(a_count, a_count)
def test_a_difference_turns_its_sign(one, two):
    low, high = newcombe(*one, *two)
    assert low <= one[0] / one[1] - two[0] / two[1] <= high
    assert newcombe(*two, *one) == pytest.approx((-high, -low), abs=1e-12)


def test_counts_keep_their_limits():
    for wrong in ((3, 2), (-1, 5), (0, 0), (math.nan, 5)):
        with pytest.raises(OutOfRange):
            wilson(*wrong)
        with pytest.raises(OutOfRange):
            clopper_pearson(*wrong)
    assert clopper_pearson(0, 1).low == 0 and clopper_pearson(1, 1).high == 1
    with pytest.raises(OutOfRange):
        normal_quantile(0.0)
    with pytest.raises(OutOfRange):
        wilson(1, 2, 1.0)


@given(st.floats(0, 1), st.floats(0, 1))
def test_the_count_that_decides_is_the_smallest(share, limit):
    corns = corns_to_decide(share=share, limit=limit)
    if corns is None:
        assert not decides(share=share, corns=MOST_CORNS, limit=limit) or abs(share - limit) < 0.05
    else:
        assert decides(share=share, corns=corns, limit=limit)
        assert corns == 1 or not decides(share=share, corns=corns - 1, limit=limit)


def test_what_decides_is_what_the_interval_says():
    for grown, sown, limit in ((389, 400, 0.95), (388, 400, 0.95), (368, 400, 0.95), (372, 400, 0.95)):
        low, high = clopper_pearson(grown, sown)
        assert decides(share=grown / sown, corns=sown, limit=limit) == (low >= limit or high <= limit)


def test_no_count_shows_that_all_or_none_do():
    assert corns_to_decide(share=1, limit=1) is None
    assert corns_to_decide(share=0, limit=0) is None
    assert corns_to_decide(share=0.95, limit=0.95) is None


@given(st.floats(0, 1), st.floats(0.005, 0.3))
def test_the_margin_is_kept_by_wilsons_interval(share, margin):
    corns = corns_for_margin(share=share, margin=margin)
    low, high = wilson(share * corns, corns)
    assert high - low <= 2 * margin + 1e-9


@given(st.integers(2, 6), st.integers(5, 120), st.floats(0, 1))
def test_the_exact_range_mirrors_and_fits_the_dish(replicates, size, share):
    widest = exact_range(replicates=replicates, size=size, share=share)
    assert 0 <= widest <= size
    assert abs(exact_range(replicates=replicates, size=size, share=1 - share) - widest) <= (share in (0, 1) or 1)


def test_the_table_ends_where_it_was_read():
    assert tabled_range(replicates=4, size=100, mean_percent=70.4) is None
    assert tabled_range(replicates=4, size=100, mean_percent=70.5) == 18
    assert tabled_range(replicates=4, size=100, mean_percent=99.5) is None
    assert tabled_range(replicates=4, size=100, mean_percent=99.49) == 5
    assert tabled_range(replicates=2, size=100, mean_percent=98) is None
    assert tabled_range(replicates=3, size=100, mean_percent=90) is None
    assert tabled_range(replicates=4, size=50, mean_percent=90) is None


classes = st.lists(st.integers(0, 200), min_size=5, max_size=5).filter(any)


@given(classes)
def test_acrospires_stay_within_their_bounds(counts):
    lower, middle, upper = (acrospire.mean_length(counts=counts, place=p) for p in (0, 0.5, 1))
    assert 0 <= lower <= middle <= upper <= 1.25
    assert upper - lower == pytest.approx(0.25)
    assert 0 <= acrospire.spread(counts=counts) <= 0.5
    assert 100 / 3 - 1e-9 <= acrospire.evenness(counts=counts) <= 100


def _piece(counts):
    return [count + half for count, half in zip(counts, acrospire.PRIOR, strict=True)]


@given(classes)
def test_the_curve_of_lengths_goes_through_the_counts_and_rises(counts):
    weights = _piece(counts)
    piece = acrospire.curve(weights=weights)
    for number, end in enumerate(acrospire.CLASS_ENDS[:4], 1):
        assert piece.below(end) == pytest.approx(sum(weights[:number]) / sum(weights), abs=1e-5)
    shares = [piece.below(0.01 * step) for step in range(-10, 101)]
    assert shares == sorted(shares) and shares[0] == 0


@given(classes, st.floats(0.001, 0.999))
def test_the_length_at_a_share_is_the_inverse(counts, share):
    piece = acrospire.curve(weights=_piece(counts))
    length = piece.length_at(share)
    assert 0 <= length <= 1
    assert piece.below(length) == pytest.approx(min(share, piece.shares[3]), abs=1e-6)


@given(st.floats(0.5, 1.0), st.floats(0.06, 0.2), st.floats(0.0, 0.25))
def test_between_the_classes_the_curve_is_a_normal_piece(mean, sd, grown):
    # a piece whose lengths are normally spread (scipy.stats.norm) is followed as it grows on, but for its far tails
    ends = stats.norm.cdf([*acrospire.CLASS_ENDS[:4]], mean, sd)
    weights = [*ends[:1], *(ends[1:] - ends[:-1]), 1.0 - ends[-1]]
    ready, over = acrospire.ready_after(weights=[1e4 * max(w, 1e-9) for w in weights], grown=grown)
    assert ready == pytest.approx(stats.norm.sf(0.75 - grown, mean, sd), abs=0.01)
    assert over == pytest.approx(stats.norm.sf(1.0 - grown, mean, sd), abs=0.01)


@given(classes, st.floats(0.5, 0.99))
def test_after_the_growth_needed_the_share_is_there(counts, target):
    weights = _piece(counts)
    grown = acrospire.growth_needed(weights=weights, target=target)
    assert 0 <= grown <= 0.75
    assert acrospire.ready_after(weights=weights, grown=grown)[0] >= target - 1e-6
    if grown > 0.001:
        assert acrospire.ready_after(weights=weights, grown=grown - 0.001)[0] <= target + 1e-6


@given(classes, st.floats(0, 2))
def test_growing_on_makes_more_overshot(counts, grown):
    weights = _piece(counts)
    ready, over = acrospire.ready_after(weights=weights, grown=grown)
    assert 0 <= over <= ready + 1e-12 <= 1 + 2e-12
    now = acrospire.ready_after(weights=weights, grown=0)
    assert over >= now[1] - 1e-12 and ready >= now[0] - 1e-12


def test_evenness_by_hand():
    assert acrospire.evenness(counts=(1, 0, 1, 0, 1)) == pytest.approx(100 / 3)
    assert acrospire.evenness(counts=(20, 20, 20, 20, 20)) == 40
    assert acrospire.evenness(counts=(0, 0, 10, 90, 0)) == 100


def test_growth_rate_by_hand():
    rate = acrospire.growth_rate(today=(0, 0, 0, 100, 0), before=(0, 0, 100, 0, 0), hours=12)
    assert rate.value == pytest.approx(0.5)
    assert rate.low < 0.5 < rate.high
    with pytest.raises(OutOfRange):
        acrospire.growth_rate(today=(0, 0, 0, 1, 0), before=(0, 0, 1, 0, 0), hours=0.5)
    with pytest.raises(OutOfRange):
        acrospire.mean_length(counts=(0, 0, 0, 0, 0))
    with pytest.raises(OutOfRange):
        acrospire.mean_length(counts=(1, 2, 3))


@given(st.lists(st.integers(0, 100), min_size=3, max_size=3).filter(any))
def test_the_index_lies_between_its_ends_and_running_totals_give_the_same(newly):
    running = [sum(newly[: n + 1]) for n in range(3)]
    assert newly_from_running(running=running) == newly
    assert 10 / 3 - 1e-9 <= germination_index(newly_grown=newly) <= 10


def test_index_errors():
    with pytest.raises(OutOfRange):
        germination_index(newly_grown=(0, 0, 0))
    with pytest.raises(OutOfRange):
        newly_from_running(running=(5, 4, 6))


@given(st.floats(100, 10_000), st.floats(8, 20), st.floats(2, 8), st.floats(0, 30))
def test_malt_and_loss_are_each_others_inverse(barley, moisture, malt_moisture, loss):
    malt = malt_from(barley_kg=barley, barley_moisture=moisture, malt_moisture=malt_moisture, loss_percent=loss)
    back = malting_loss(barley_kg=barley, barley_moisture=moisture, malt_kg=malt, malt_moisture=malt_moisture)
    assert back == pytest.approx(loss, abs=1e-9)


def test_malt_never_holds_more_than_its_barley():
    most = 1000 * 88 / 95
    assert malting_loss(barley_kg=1000, barley_moisture=12, malt_kg=most, malt_moisture=5) == 0
    with pytest.raises(OutOfRange):
        malting_loss(barley_kg=1000, barley_moisture=12, malt_kg=most + 0.01, malt_moisture=5)
