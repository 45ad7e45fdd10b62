"""Intervals, ranges and losses against what others printed or compute."""

from __future__ import annotations

import pytest
from scipy import special, stats
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

from calculators.models.bed.latent_heat import latent_heat
from calculators.models.counts.acrospire import mean_length
from calculators.models.counts.distributions import beta_share, normal_quantile
from calculators.models.counts.enough import corns_for_margin
from calculators.models.counts.intervals import clopper_pearson, lower_bound, newcombe, wilson
from calculators.models.counts.posterior import expected_over, expected_short, likely_outcomes
from calculators.models.counts.replicates import exact_range, tabled_range
from calculators.models.grain.drying import drying_air
from calculators.models.grain.tests import germination_index
from calculators.models.weights.losses import malting_loss, share_of_dry_matter
from calculators.models.weights.moisture import water_to_remove

COUNTS = [(0, 1), (1, 1), (0, 30), (30, 30), (1, 50), (34, 120), (98, 100), (388, 400), (5990, 6000)]


def test_vectors_published_for_34_of_120_and_42_of_100():
    """Printed with the methods of Wilson and of Clopper and Pearson (read)."""
    assert wilson(34, 120) == pytest.approx((0.210406, 0.369702), abs=1e-6)
    assert clopper_pearson(34, 120) == pytest.approx((0.204856, 0.372821), abs=1e-6)
    assert clopper_pearson(42, 100) == pytest.approx((0.3220, 0.5229), abs=5e-5)


@pytest.mark.parametrize(("grown", "sown"), COUNTS)
@pytest.mark.parametrize("confidence", [0.9, 0.95, 0.99])
def test_intervals_agree_with_statsmodels(grown, sown, confidence):
    """statsmodels.stats.proportion, methods wilson and beta."""
    alpha = 1 - confidence
    assert wilson(grown, sown, confidence) == pytest.approx(
        proportion_confint(grown, sown, alpha, method="wilson"), abs=1e-12
    )
    low, high = proportion_confint(grown, sown, alpha, method="beta")
    wanted = (0.0 if grown == 0 else low, 1.0 if grown == sown else high)
    assert clopper_pearson(grown, sown, confidence) == pytest.approx(wanted, abs=1e-12)


@pytest.mark.parametrize(
    ("one", "two", "low", "high"),
    [
        ((56, 70), (48, 80), 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.1705, 0.8090),
    ],
)
def test_newcombe_1998_table(one, two, low, high):
    """Newcombe 1998, method 10, as quoted in the tests of a program library (second-hand)."""
    assert newcombe(*one, *two) == pytest.approx((low, high), abs=5e-5)


@pytest.mark.parametrize(("one", "two"), [((98, 100), (88, 100)), ((392, 400), (300, 400)), ((10, 10), (0, 20))])
def test_newcombe_agrees_with_statsmodels(one, two):
    """statsmodels, method newcomb."""
    wanted = confint_proportions_2indep(*one, *two, method="newcomb")
    assert newcombe(*one, *two) == pytest.approx(wanted, abs=1e-12)


def test_98_and_88_of_100_leave_3_to_18_points():
    """The printed steps of Newcombe's method 10 from two Wilson intervals, here statsmodels' (alpha 5 %)."""
    (low_1, high_1), (low_2, high_2) = (proportion_confint(n, 100, method="wilson") for n in (98, 88))
    low, high = newcombe(98, 100, 88, 100)
    assert low == pytest.approx(0.1 - ((0.98 - low_1) ** 2 + (high_2 - 0.88) ** 2) ** 0.5, abs=1e-9)
    assert high == pytest.approx(0.1 + ((high_1 - 0.98) ** 2 + (0.88 - low_2) ** 2) ** 0.5, abs=1e-9)
    assert (round(100 * low), round(100 * high)) == (3, 18)


@pytest.mark.parametrize(
    ("x", "a", "b"), [(0.01, 0.5, 3), (0.5, 2, 3), (0.95, 390, 11), (0.999, 5999, 2), (0.3, 70, 90)]
)
def test_incomplete_beta_agrees_with_scipy(x, a, b):
    """scipy.special.betainc."""
    assert beta_share(x, a, b) == pytest.approx(special.betainc(a, b, x), rel=1e-11, abs=1e-14)


@pytest.mark.parametrize("probability", [1e-8, 0.025, 0.05, 0.5, 0.8, 0.975, 0.99999])
def test_normal_quantile_agrees_with_scipy(probability):
    """scipy.stats.norm.ppf."""
    assert normal_quantile(probability) == pytest.approx(stats.norm.ppf(probability), abs=1e-9)


@pytest.mark.parametrize(
    ("above", "below", "limit"),
    [(75.5, 25.5, 0.75), (4.5, 96.5, 0.1), (0.5, 100.5, 0.1), (80.5, 20.5, 0.6), (1, 1, 0.5)],
)
def test_means_over_and_short_of_a_limit_agree_with_scipy(above, below, limit):
    """scipy.stats.beta.expect: quadrature over the density."""
    beta = stats.beta(above, below)
    over = beta.expect(lambda share: share - limit, lb=limit, ub=1.0)
    short = beta.expect(lambda share: limit - share, lb=0.0, ub=limit)
    assert expected_over(above=above, below=below, limit=limit) == pytest.approx(over, abs=1e-9)
    assert expected_short(above=above, below=below, limit=limit) == pytest.approx(short, abs=1e-9)
    assert over - short == pytest.approx(beta.mean() - limit, abs=1e-9)


@pytest.mark.parametrize(("above", "below"), [(75.5, 25.5), (3.5, 97.5), (0.5, 50.5), (90.5, 0.5), (1000.5, 300.5)])
@pytest.mark.parametrize("corns", [1, 50, 200])
def test_likely_outcomes_agree_with_scipy(above, below, corns):
    """scipy.stats.betabinom: its quantiles at the middles of nine equal parts."""
    wanted = stats.betabinom(corns, above, below).ppf([(part + 0.5) / 9 for part in range(9)])
    assert likely_outcomes(above=above, below=below, corns=corns) == tuple(wanted)


def test_all_of_100_grown_means_at_least_97():
    """One side, 95 %: 0.05 to the power 1/100, by hand."""
    assert lower_bound(100, 100) == pytest.approx(0.05**0.01, abs=1e-12)
    assert round(100 * lower_bound(100, 100), 2) == 97.05


def test_corns_needed_near_80_percent():
    """z²p(1−p)/d², by hand: 61.5 and 245.9."""
    assert corns_for_margin(share=0.8, margin=0.1) == 62
    assert corns_for_margin(share=0.8, margin=0.05) == 246


FOUR = {99: 5, 98: 6, 97: 7, 96: 8, 95: 9, 94: 10, 92: 11, 89: 12, 87: 13, 84: 14, 81: 15, 78: 16, 73: 17, 71: 18}
TWO = {97: 6, 95: 7, 94: 8, 90: 9, 88: 10, 84: 11, 81: 12, 76: 13, 72: 14}


@pytest.mark.parametrize(("replicates", "table"), [(4, FOUR), (2, TWO)])
def test_greatest_ranges_of_7_cfr_201_55(replicates, table):
    """7 CFR 201.55(a) (read), rows copied here apart from the module, and their mirrors."""
    for mean, widest in table.items():
        assert tabled_range(replicates=replicates, size=100, mean_percent=mean) == widest
        assert tabled_range(replicates=replicates, size=100, mean_percent=101 - mean) == widest


@pytest.mark.parametrize(("replicates", "table", "last"), [(4, FOUR, 99), (2, TWO, 97)])
def test_a_mean_between_two_printed_rows_has_the_range_of_the_one_above_or_below(replicates, table, last):
    """A worse mean never allows a smaller range, and no whole mean that was read is left out."""
    read = [tabled_range(replicates=replicates, size=100, mean_percent=mean) for mean in range(71, last + 1)]
    ranges = [widest for widest in read if widest is not None]
    assert len(ranges) == len(read)
    assert ranges == sorted(ranges, reverse=True)
    assert set(ranges) == set(table.values())


def test_the_exact_range_reproduces_the_table_within_one():
    """Where the table has no row the exact range stands in; on the table's rows it must nearly be it."""
    rows = [(r, m) for r in (2, 4) for m in range(71, 100)]
    published = {k: tabled_range(replicates=k[0], size=100, mean_percent=k[1]) for k in rows}
    exact = {k: exact_range(replicates=k[0], size=100, share=k[1] / 100) for k in rows}
    known = {k: v for k, v in published.items() if v is not None}
    assert len(known) == 56
    assert max(abs(exact[k] - v) for k, v in known.items()) == 1
    assert sum(exact[k] == v for k, v in known.items()) == 47


def test_exact_range_agrees_with_sums_over_scipy_binomials():
    """Two replicates: P(range > r) summed over scipy.stats.binom by hand."""
    for size, share in ((20, 0.8), (50, 0.93)):
        pmf = stats.binom.pmf(range(size + 1), size, share)
        widest = exact_range(replicates=2, size=size, share=share)

        def beyond(r, pmf=pmf):
            return sum(p * q for i, p in enumerate(pmf) for j, q in enumerate(pmf) if abs(i - j) > r)

        assert beyond(widest) <= 0.025 < beyond(widest - 1)


def test_latent_heat_of_water():
    """IAPWS formulation of 1995, computed with a property library: kJ/kg at 10, 20, 60, 80 °C."""
    for temperature, heat in ((10, 2477.2), (20, 2453.5), (60, 2357.7), (80, 2308.0)):
        assert latent_heat(temperature_c=temperature) == pytest.approx(heat, abs=0.3)


def test_2257_is_the_value_at_100_degrees():
    """The figure of the steam tables at boiling, and why it is wrong at 60 °C."""
    assert latent_heat(temperature_c=100) == pytest.approx(2257, abs=1)
    assert latent_heat(temperature_c=60) > 1.04 * 2257


def test_kiln_water_and_heat_per_tonne():
    """45 to 4 %: 745 kg a tonne of malt, 488 kWh at 60 °C; 1000 kg from 45 to 5 %: 421.05 kg (computed)."""
    water = water_to_remove(weight_kg=1000, moisture=45, final_moisture=4)
    tonne = 1000 * water / (1000 - water)
    assert round(tonne) == 745
    assert round(tonne * latent_heat(temperature_c=60) / 3600) == 488
    assert water_to_remove(weight_kg=1000, moisture=45, final_moisture=5) == pytest.approx(421.05, abs=0.005)


def test_a_tonne_of_barley_gives_830_kg_of_malt():
    """Maltsters’ Association of Great Britain, malt facts (read): so 10.4 % of the dry matter is lost."""
    loss = malting_loss(barley_kg=1000, barley_moisture=12, malt_kg=830, malt_moisture=5)
    assert round(loss, 1) == 10.4


def test_thomsons_losses_add_up_to_8_percent():
    """Thomson 1824 (read): steep 1.5, floor 3.0, roots 3.0, waste 0.5 of a hundred dry."""
    malt_dry = 100 - 1.5 - 3.0 - 3.0 - 0.5
    assert malting_loss(barley_kg=100, barley_moisture=0, malt_kg=malt_dry, malt_moisture=0) == pytest.approx(8.0)
    assert share_of_dry_matter(part_kg=3, part_moisture=0, barley_kg=100, barley_moisture=0) == pytest.approx(3.0)


def test_germination_index_ends():
    """Its maximum of 10 is in McCafferty and Bryce 1999 (read); all on day 3 gives 3.33, by hand."""
    assert germination_index(newly_grown=(97, 0, 0)) == 10
    assert germination_index(newly_grown=(0, 0, 97)) == pytest.approx(10 / 3)
    assert round(germination_index(newly_grown=(60, 30, 7)), 2) == 6.88
    assert round(germination_index(newly_grown=(60, 90, 97)), 2) == 4.65  # running totals taken for new ones


def test_mean_acrospire_by_three_conventions():
    """Counts 2/4/14/76/4, by hand: 0.815 at class middles, 0.69 and 0.94 at the ends."""
    means = [mean_length(counts=(2, 4, 14, 76, 4), place=place) for place in (0.5, 0, 1)]
    assert means == pytest.approx([0.815, 0.69, 0.94])


def test_drying_air_of_topic_sheet_60():
    """HGCA Topic Sheet 60 (in a copy): 65 °C at 20 %, 1 °C less for each 1 % more."""
    assert [drying_air(moisture=m) for m in (14, 20, 21, 25)] == [65, 65, 64, 60]
