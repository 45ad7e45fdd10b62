"""Rounds of sprinkling: none more than can cling, and none too many for a rounding of the machine."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.bounds import OutOfRange
from calculators.models.weights.sprinkling import clings_l, rounds_needed, water_needed


@given(st.integers(1, 20), st.floats(0.5, 500.0))
def test_water_that_fills_whole_rounds_takes_no_further_one(rounds: int, one_round: float) -> None:
    assert rounds_needed(water_l=rounds * one_round, one_round_l=one_round) == rounds
    assert rounds_needed(water_l=sum([one_round] * rounds), one_round_l=one_round) == rounds


@given(st.integers(1, 20), st.floats(0.5, 500.0))
def test_a_drop_more_than_the_rounds_hold_takes_another(rounds: int, one_round: float) -> None:
    assert rounds_needed(water_l=rounds * one_round + 0.001, one_round_l=one_round) == rounds + 1


@given(st.integers(1, 10_000), st.integers(1, 500))
def test_rounds_are_those_of_whole_numbers(water: int, one_round: int) -> None:
    """In fractions, where nothing is rounded."""
    assert rounds_needed(water_l=water, one_round_l=one_round) == max(1, ceil(Fraction(water, one_round)))


def test_no_water_is_one_round_of_none() -> None:
    assert rounds_needed(water_l=0.0, one_round_l=28.5) == 1


def test_what_clings_by_hand() -> None:
    # 1,000 kg at 43 % hold 570 kg of dry matter; 0.05 kg a kilogram clings to drained corns, 0.12 to dripping ones.
    assert clings_l(bed_kg=1000.0, moisture_now=43.0) == pytest.approx(28.5)
    assert clings_l(bed_kg=1000.0, moisture_now=43.0, film_db=0.12) == pytest.approx(68.4)


def test_both_ends_of_the_limits() -> None:
    bed = {"bed_kg": 1000.0, "moisture_now": 43.0}
    # m (M2 - M1)/(100 - M2), by hand; a tenth kept needs ten times as much.
    assert water_needed(moisture_wanted=55.0, water_kept=100.0, **bed) == pytest.approx(12000 / 45)
    assert water_needed(moisture_wanted=45.0, water_kept=10.0, **bed) == pytest.approx(20000 / 55)
    assert water_needed(bed_kg=1000.0, moisture_now=30.0, moisture_wanted=30.0, water_kept=50.0) == 0.0
    for wrong in ({"moisture_wanted": 55.1}, {"moisture_wanted": 42.9}, {"water_kept": 9.9}, {"water_kept": 100.1}):
        with pytest.raises(OutOfRange):
            water_needed(**{"moisture_wanted": 45.0, "water_kept": 100.0, **bed, **wrong})
    with pytest.raises(OutOfRange):
        clings_l(bed_kg=1000.0, moisture_now=29.9)
    with pytest.raises(OutOfRange):
        clings_l(bed_kg=1000.0, moisture_now=43.0, film_db=0.121)
