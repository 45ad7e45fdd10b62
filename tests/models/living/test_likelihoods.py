"""How likely a reading is, against scipy's Student distribution."""

import math

import pytest
from scipy import stats

from calculators.models.bed.floor import apart_when_read
from calculators.models.bounds import OutOfRange
from calculators.models.living.batch import course
from calculators.models.living.chitting import Corns, from_counts, intervals
from calculators.models.living.lot_plan_state import BedSpell, Lot, Plan
from calculators.models.living.maths import FLOATS
from calculators.models.living.readings import (
    COUNT_WEIGHT,
    FREEDOM,
    AcrospireCount,
    Basket,
    BottomTop,
    Chits,
    Oven,
    Probe,
    Reading,
    Systematic,
    best_log_likelihood,
    expected,
    log_likelihood,
)
from calculators.models.steep.course import Stage

LOT = Lot(barley_moisture=12.5)
STATES = course(
    plan=Plan((Stage(8.0, 14.0), Stage(8.0, 14.0), Stage(20.0, 14.0)), (BedSpell(24.0, 15.0),) * 4), lot=LOT
)
NOW = next(state for state in STATES if state.hour >= 100.0)
BIAS = 0.4  # of the thermometer [K]


def ours(reading: Reading) -> float:
    return float(log_likelihood(FLOATS, reading, STATES, LOT, Systematic(0.0, BIAS, 0.0), 12.5))


def test_an_oven_reads_what_is_there_and_a_basket_by_the_barley_that_was_typed() -> None:
    """A basket knows dry matter only from the moisture typed for its barley: by a wrong one it is wrong itself."""
    alike = Systematic(0.6, BIAS, -0.3)
    typed, there = 14.0, float(NOW.drained)
    (oven,) = expected(FLOATS, Oven(NOW.hour, 44.0), STATES, LOT, alike, typed)
    assert oven == pytest.approx(there - 0.3, abs=1e-9)
    barley_kg = 100.0  # of it, truly, 87.5 kg are dry, and by what was typed 86.0
    wet_kg = barley_kg * (1.0 - 0.125) / (1.0 - (there - 0.3) / 100.0)
    (basket,) = expected(FLOATS, Basket(NOW.hour, 44.0), STATES, LOT, alike, typed)
    assert basket == pytest.approx(100.0 * (1.0 - 86.0 / wet_kg) + 0.6, abs=1e-9)


# A probe is good to 0.7 K, bottom and top apart to 0.7 K and three tenths of what is expected: our assumptions.
@pytest.mark.parametrize("off", [-3.0, -0.5, 0.2, 1.0, 5.0])
def test_a_probe_scatters_as_students_t(off: float) -> None:
    warm = float(NOW.temp_c)
    theirs = stats.t(FREEDOM, loc=warm + BIAS, scale=0.7)
    found = ours(Probe(NOW.hour, warm + off)) - ours(Probe(NOW.hour, warm))
    assert found == pytest.approx(float(theirs.logpdf(warm + off) - theirs.logpdf(warm)), abs=1e-9)


@pytest.mark.parametrize("hours", [1.0, 4.0, 10.0])
@pytest.mark.parametrize("apart", [0.0, 2.0, 6.0])
def test_bottom_and_top_scatter_the_more_the_further_apart_they_are_expected(hours: float, apart: float) -> None:
    warm = float(NOW.temp_c)
    held = apart_when_read(hours=hours, depth_m=0.15).of(warm - 11.0, float(NOW.heat_kw))

    def theirs(bottom: float, top: float) -> float:
        mean = stats.t(FREEDOM, loc=warm + BIAS, scale=0.7).logpdf((bottom + top) / 2.0)
        between = stats.t(FREEDOM, loc=held, scale=(0.7**2 + (0.3 * held) ** 2) ** 0.5).logpdf(bottom - top)
        return float(mean + between)

    cases = [(warm + apart, warm - 0.5), (warm + 1.0, warm + 1.0)]
    one, other = (ours(BottomTop(NOW.hour, bottom, top, hours, 0.15, 11.0)) for bottom, top in cases)
    assert one - other == pytest.approx(theirs(*cases[0]) - theirs(*cases[1]), abs=1e-9)


def test_corns_looked_at_from_one_to_a_hundred_thousand() -> None:
    for corns in (1, 100_000):
        assert intervals(times=[1.0], chitted=[0], corns=corns)[0].corns == corns
    for corns in (0, 100_001):
        with pytest.raises(OutOfRange):
            intervals(times=[1.0], chitted=[0], corns=corns)


def one_of_five(place: int) -> tuple[int, int, int, int, int]:
    a, b, c, d, e = (int(n == place) for n in range(5))
    return a, b, c, d, e


def test_what_a_count_can_show_adds_up_to_one() -> None:
    """Of one corn: chitted or not; of one acrospire: five classes. A count weighs half as much as its corns would."""
    for ways in (
        [Chits(NOW.hour, n, 1) for n in (0, 1)],
        [AcrospireCount(NOW.hour, one_of_five(place)) for place in range(5)],
    ):
        assert sum(math.exp(ours(way) / COUNT_WEIGHT) for way in ways) == pytest.approx(1.0)


def test_nothing_is_likelier_than_the_best_reading() -> None:
    warm = float(NOW.temp_c)
    exact = Probe(NOW.hour, warm + BIAS)
    assert ours(exact) == pytest.approx(best_log_likelihood(exact))
    for off in (-2.0, -0.1, 0.1, 3.0):
        other = Probe(NOW.hour, warm + BIAS + off)
        assert ours(other) < best_log_likelihood(other)
    level = BottomTop(NOW.hour, warm + BIAS, warm + BIAS, 0.1, 0.04)
    assert best_log_likelihood(level) - 0.05 < ours(level) < best_log_likelihood(level)


def test_a_count_that_says_little_leaves_what_was_held() -> None:
    """Against scipy: the share that grows is normal with 0.03, cut off at 1; hours as doubtful as before."""
    lot = Corns(grows=0.97)
    found = from_counts(counted=intervals(times=[200.0], chitted=[1], corns=1), corns=lot, middle_log_sd=0.3)
    held = stats.truncnorm((0.0 - 0.97) / 0.03, (1.0 - 0.97) / 0.03, loc=0.97, scale=0.03)
    assert found.corns.grows == pytest.approx(float(held.mean()), abs=0.006)
    assert found.middle_log_sd == pytest.approx(0.3, rel=0.05)
    assert found.corns.middle_h == pytest.approx(lot.middle_h, rel=0.02)
