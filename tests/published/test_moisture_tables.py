"""Moisture arithmetic against published tables, each source beside its check."""

import pytest

from calculators.models.weights.basket import basket_moisture, film_added, points_per_gram
from calculators.models.weights.batch import moisture_at_weight, target_weight, water_taken_up
from calculators.models.weights.moisture import dry_basis, shrink_per_point, water_to_add, water_to_remove, weight_after


def test_irri_rice_knowledge_bank() -> None:
    # read: 1,000 kg at 25 % dried to 14 % leaves 872 kg.
    assert weight_after(weight_kg=1000, moisture=25, new_moisture=14) == pytest.approx(872, abs=0.5)


def test_pioneer_shrink_table() -> None:
    # read: 25.5 to 15.5 %: 1.1834 % a point, 11.83 % in all.
    assert shrink_per_point(final_moisture=15.5) == pytest.approx(1.1834, abs=5e-5)
    water = water_to_remove(weight_kg=1000, moisture=25.5, final_moisture=15.5)
    assert water / 10 == pytest.approx(11.83, abs=0.005)


def test_extension_leaflet_on_shrink() -> None:
    # read: 25 to 12 %: 13 points at 1.136 each are 14.77 %.
    assert shrink_per_point(final_moisture=12) == pytest.approx(1.136, abs=0.0005)
    assert water_to_remove(weight_kg=100, moisture=25, final_moisture=12) == pytest.approx(14.77, abs=0.005)


def test_printed_mistakes_are_not_reproduced() -> None:
    # A printed shrink of 1.13 at 11 %, and 18 t x 0.9412 printed as 16.938 (it is 16.941).
    assert shrink_per_point(final_moisture=11) == pytest.approx(1.1236, abs=5e-5)
    assert abs(shrink_per_point(final_moisture=11) - 1.13) > 0.005
    left = weight_after(weight_kg=18.0, moisture=20.0, new_moisture=15.0)
    assert left == pytest.approx(16.941, abs=5e-4)
    assert abs(left - 16.938) > 0.002


def test_a_trade_discount_is_not_shrink() -> None:
    # "1.2 % a point" stands in trade contracts; water alone is less for all malting moistures.
    for final in (10.0, 12.0, 14.0, 16.0):
        assert shrink_per_point(final_moisture=final) < 1.2


def test_malt_from_barley() -> None:
    # Maltsters' Association of Great Britain, malt facts (read): 1 t of barley at 12 % gives
    # about 830 kg of malt at 5 %, so 10.4 % of the dry matter is lost.
    malt = weight_after(weight_kg=1000, moisture=12, new_moisture=5, dry_matter_lost=10.4)
    assert malt == pytest.approx(830, abs=1)


def test_dry_basis() -> None:
    assert dry_basis(moisture=44) == pytest.approx(78.571, abs=5e-4)  # computed
    assert dry_basis(moisture=20) == pytest.approx(25.0)  # computed


def test_a_tonne_in_the_steep() -> None:
    # computed: 12 to 44 %, nothing lost, 1,571.43 kg; 12 to 45 % 1,600.00 kg.
    case = {"barley_kg": 1000.0, "barley_moisture": 12.0}
    assert target_weight(target_moisture=44, **case) == pytest.approx(1571.43, abs=0.005)
    assert target_weight(target_moisture=45, **case) == pytest.approx(1600.00, abs=0.005)
    # A textbook's 0.94 m3 of water a tonne contradicts the balance: it is 0.60.
    assert water_taken_up(target_moisture=45, **case) == pytest.approx(600.0)


def test_water_to_kiln_off() -> None:
    # computed: 1,000 kg from 45 to 5 % loses 421.05 kg.
    water = water_to_remove(weight_kg=1000, moisture=45, final_moisture=5)
    assert water == pytest.approx(421.05, abs=0.005)


def test_sprinkling() -> None:
    # computed: 1,000 kg from 43 to 45 % takes 36.4 kg.
    assert water_to_add(weight_kg=1000, moisture=43, final_moisture=45) == pytest.approx(36.4, abs=0.05)


def test_laboratory_mill_manual() -> None:
    # read: 10 to 16.5 % takes 7.8 ml for 100 g; not 6.5, the difference of the moistures.
    water = water_to_add(weight_kg=100, moisture=10, final_moisture=16.5)
    assert water == pytest.approx(7.8, abs=0.05)
    assert abs(water - 6.5) > 1


def test_a_single_corn() -> None:
    # Modares article 23-10966 (read): 0.048 g at 10.12 % becomes 0.074 g at 42.17 %; weights
    # are printed to 1 mg: half of it is 0.6 points by the dry weight and 0.4 by the wet one.
    found = moisture_at_weight(current_kg=0.074, barley_kg=0.048, barley_moisture=10.12)
    assert found == pytest.approx(42.17, abs=1.0)


def test_what_errors_of_weighing_do_near_45() -> None:
    # computed: 1 % of clinging water reads 0.55 high, 1 % leached and forgotten 0.55 low,
    # 0.5 points in the barley's moisture 0.31.
    case = {"barley_kg": 1000.0, "barley_moisture": 12.0}
    assert moisture_at_weight(current_kg=1616.0, **case) - 45 == pytest.approx(0.545, abs=0.005)
    leached = target_weight(target_moisture=45, dry_matter_lost=1.0, **case)
    assert moisture_at_weight(current_kg=leached, **case) - 45 == pytest.approx(-0.556, abs=0.005)
    other = moisture_at_weight(current_kg=1600.0, barley_kg=1000.0, barley_moisture=12.5)
    assert other - 45 == pytest.approx(0.3125, abs=0.005)


def test_a_dripping_basket() -> None:
    # Common practice, weakly known: the film reads about 1.5 points above net at 45 %.
    assert film_added(net_moisture=45) == pytest.approx(46.5, abs=0.1)
    case = {"basket_g": 40.0, "sample_g": 100.0, "barley_moisture": 12.0}
    with_film = basket_moisture(gross_g=40.0 + 88 / 0.55 + 0.05 * 88, **case)
    without = basket_moisture(gross_g=40.0 + 88 / 0.55 + 0.05 * 88, film_db=0.05, **case)
    assert with_film - without == pytest.approx(1.47, abs=0.01)
    assert without == pytest.approx(45.0)


def test_one_gram_on_a_basket_of_100() -> None:
    # computed: 0.55^2 x 100 / 88.
    slope = points_per_gram(moisture=45, sample_g=100, barley_moisture=12)
    assert slope == pytest.approx(0.34375)
