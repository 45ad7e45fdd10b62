"""What must hold for every input: dry matter is conserved, and what is done can be undone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.weights import basket, moisture, oven
from calculators.models.weights import batch as steep_weight

percent = st.floats(0.0, 95.0)
barley = st.floats(5.0, 25.0)
target = st.floats(25.0, 55.0)
lost = st.floats(0.0, 5.0)
skimmed = st.floats(0.0, 20.0)
film = st.floats(0.0, 0.12)
kilos = st.floats(0.01, 1e5)


@given(kilos, percent, percent)
def test_weight_there_and_back(weight: float, wet: float, other: float) -> None:
    there = moisture.weight_after(weight_kg=weight, moisture=wet, new_moisture=other)
    dry = weight * (100.0 - wet)
    assert there * (100.0 - other) == pytest.approx(dry, rel=1e-12)
    if 0.001 <= there <= 1e6:
        back = moisture.weight_after(weight_kg=there, moisture=other, new_moisture=wet)
        assert back == pytest.approx(weight, rel=1e-12)


@given(percent)
def test_bases_there_and_back(wet: float) -> None:
    there = moisture.dry_basis(moisture=wet)
    assert moisture.wet_basis(moisture_db=there) == pytest.approx(wet, rel=1e-12, abs=1e-12)
    assert there >= wet - 1e-12


@given(kilos, percent, percent)
def test_water_is_the_change_in_weight(weight: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    dried = moisture.weight_after(weight_kg=weight, moisture=high, new_moisture=low)
    water = moisture.water_to_remove(weight_kg=weight, moisture=high, final_moisture=low)
    assert weight - dried == pytest.approx(water, rel=1e-9, abs=1e-9 * weight)
    wetted = moisture.weight_after(weight_kg=weight, moisture=low, new_moisture=high)
    water = moisture.water_to_add(weight_kg=weight, moisture=low, final_moisture=high)
    assert wetted - weight == pytest.approx(water, rel=1e-9, abs=1e-9 * weight)


@given(kilos, barley, target, lost, skimmed)
def test_target_weight_and_back(kg: float, m0: float, m: float, leached: float, floated: float) -> None:
    batch = {
        "barley_kg": kg,
        "barley_moisture": m0,
        "dry_matter_lost": leached,
        "skimmings_percent": floated,
    }
    weight = steep_weight.target_weight(target_moisture=m, **batch)
    assert steep_weight.moisture_at_weight(current_kg=weight, **batch) == pytest.approx(m, rel=1e-10)
    dry = steep_weight.steeped_dry_matter(**batch)
    water = steep_weight.water_taken_up(target_moisture=m, **batch)
    brought = kg * (1.0 - floated / 100.0) * m0 / 100.0
    assert dry + brought + water == pytest.approx(weight, rel=1e-10)
    gain = steep_weight.weight_gain(barley_moisture=m0, target_moisture=m, dry_matter_lost=leached)
    assert kg * (1.0 - floated / 100.0) * (1.0 + gain / 100.0) == pytest.approx(weight, rel=1e-10)


@given(barley, target, lost)
def test_wetter_is_heavier_and_leaching_lighter(m0: float, m: float, leached: float) -> None:
    case = {"barley_kg": 1000.0, "barley_moisture": m0}
    weight = steep_weight.target_weight(target_moisture=m, dry_matter_lost=leached, **case)
    if m < 54.9:
        wetter = steep_weight.target_weight(target_moisture=m + 0.1, dry_matter_lost=leached, **case)
        assert wetter > weight
    if leached < 4.9:
        poorer = steep_weight.target_weight(target_moisture=m, dry_matter_lost=leached + 0.1, **case)
        assert poorer < weight


@given(st.floats(25.0, 60.0), st.floats(10.0, 2000.0), st.floats(0.0, 3000.0), barley, lost, film)
def test_basket_there_and_back(
    m: float, sample: float, tare: float, m0: float, leached: float, clinging: float
) -> None:
    case = {
        "basket_g": tare,
        "sample_g": sample,
        "barley_moisture": m0,
        "dry_matter_lost": leached,
        "film_db": clinging,
    }
    gross = basket.basket_gross(moisture=m, **case)
    assert basket.basket_moisture(gross_g=gross, **case) == pytest.approx(m, rel=1e-9)
    # One gram on the scale: the slope is the limit of a small change.
    clean = {k: v for k, v in case.items() if k not in ("basket_g", "film_db")}
    slope = basket.points_per_gram(moisture=m, **clean)
    step = 1e-4 * sample
    moved = basket.basket_moisture(gross_g=gross + step, **case)
    assert (moved - m) / step == pytest.approx(slope, rel=2e-3)


@given(st.floats(12.0, 60.0), film)
def test_film_on_and_off(net: float, clinging: float) -> None:
    drained = basket.film_added(net_moisture=net, film_db=clinging)
    assert drained >= net - 1e-12
    back = basket.film_removed(drained_moisture=drained, film_db=clinging)
    assert back == pytest.approx(net, rel=1e-10)


@given(st.floats(0.0, 55.0), st.floats(0.0, 30.0))
def test_two_stages_are_one_balance(first: float, second: float) -> None:
    found = oven.two_stage_moisture(predry_loss_percent=first, second_moisture=second)
    dry_of_100 = (100.0 - first) * (1.0 - second / 100.0)
    assert 100.0 - found == pytest.approx(dry_of_100, rel=1e-12)
    assert found <= first + second + 1e-9
