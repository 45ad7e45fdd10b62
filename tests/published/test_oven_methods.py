"""Oven moisture against the methods and against scipy."""

import pytest
from scipy.stats import studentized_range

from calculators.models.weights.moisture import weight_after
from calculators.models.weights.oven import (
    allowed_difference,
    oven_moisture,
    two_stage_moisture,
)
from calculators.words.oven import METHODS
from tests.sheets.ask import notes


def test_two_stage_by_weighing_the_whole_way() -> None:
    # The balance itself: 100 g at 46 % dried whole to 10 %, then a ground dish dried out.
    after_first = weight_after(weight_kg=100, moisture=46, new_moisture=10)
    loss = 100.0 - after_first
    found = oven_moisture(dishes=[(20, 25, 24.5)], predry_loss_percent=loss)
    assert found.moisture == pytest.approx(46.0)
    assert found.moisture_db == pytest.approx(100 * 46 / 54)
    # Adding the two losses, a common mistake, reads 4 points high.
    assert loss + 10.0 - found.moisture == pytest.approx(4.0)


def test_one_stage_is_two_stages_without_the_first() -> None:
    assert two_stage_moisture(predry_loss_percent=0.0, second_moisture=12.3) == 12.3


@pytest.mark.parametrize(("dried", "asked"), [("24.15", False), ("24.149", True)])
def test_barley_above_17_percent_is_dried_whole_first(dried: str, asked: bool) -> None:
    # MEBAK, after ISO 712:2009 (abstract read): above 17 % dry whole first.  Of 5 g, 17.00 and 17.02 %.
    assert ("Dry it whole first" in notes("oven-moisture", dishes=f"20 25 {dried}; 20 25 {dried}")) == asked


def test_repeatability_of_ground_dry_barley() -> None:
    # ISO 712 and Regulation (EU) 1272/2009, annex I part VI: 0.12 to 0.15 g in 100 g (from
    # memory; conditions of the method read).
    assert 0.12 <= (allowed_difference(material="dry_barley", dishes=2) or 0.0) <= 0.15
    assert "from memory" in METHODS["dry_barley"].rests_on


def test_whole_corns_are_held_to_no_less_than_dry_grain_dried_whole() -> None:
    # Purdue University, course on grain moisture (read): replicates of whole grain after
    # ASAE S352.2 within 0.2 %.  Steeped corns differ among themselves, so no less than that.
    for material in ("steeped_corn", "green_malt"):
        assert (allowed_difference(material=material, dishes=2) or 0.0) >= 0.2
        assert "our judgement" in METHODS[material].rests_on


@pytest.mark.parametrize("dishes", range(2, 11))
def test_range_of_several_dishes(dishes: int) -> None:
    # scipy's studentised range with known spread: its 95 % point for n over that for 2.
    q = [float(studentized_range.ppf(0.95, n, 1e7)) for n in (2, dishes)]
    allowed = allowed_difference(material="dry_barley", dishes=dishes)
    assert allowed == pytest.approx(0.15 * q[1] / q[0], rel=0.003)


def test_second_stage_repeats_on_less_of_the_grain() -> None:
    # Of 100 g with 40 g dried off, the dishes' 0.15 points count on 60 g.
    allowed = allowed_difference(material="steeped_corn", dishes=2, predry_loss_percent=40)
    assert allowed == pytest.approx(0.09)


def test_mean_and_difference() -> None:
    found = oven_moisture(dishes=[(10, 20, 18.8), (12, 22, 20.76), (11, 21, 19.81)])
    assert found.dishes == pytest.approx([12.0, 12.4, 11.9])
    assert found.moisture == pytest.approx(12.1)
    assert found.difference == pytest.approx(0.5)
