"""How long a batch grows and what water, heat and room it asks for: reckoned by hand, and at the limits."""

from __future__ import annotations

from itertools import product

import pytest

from calculators.models.bed.floor import BARLEY_KG_M3
from calculators.models.bed.latent_heat import latent_heat
from calculators.models.living.bed_days import AT_CAST_PERCENT, BARLEY_PERCENT, breathed_away
from calculators.models.living.pace import GROWTH_Q10
from calculators.models.living.ready import Q10_DOUBT, REFERENCE_DAYS
from calculators.models.weights.moisture import water_to_remove
from calculators.rules.limit import edge
from calculators.rules.limits.kiln_hand_over import MOISTURE
from calculators.rules.week.stages import (
    bed_hours,
    depth_for,
    floor_holds_kg,
    growth,
    kiln_heat_kwh,
    warm_m3_h,
    warmed,
)

KJ_KG_K = 4.19  # heat of water, as handbooks have it (from memory)


@pytest.mark.parametrize("bed_c", [10.0, 15.0, 18.0])
def test_growth_is_faster_by_its_factor_for_each_ten_kelvin(bed_c):
    """The days at the house's own temperature, over the pace for 10 K; soonest and latest by every doubt at once."""
    found = growth(bed_c=bed_c, reference_temp_c=15.0, reference_days=6.0, doubt=0.2)
    some = [
        6.0 * (1 + off) * factor ** ((15.0 - bed_c) / 10.0)
        for off, factor in product((-0.2, 0.0, 0.2), (GROWTH_Q10 - Q10_DOUBT, GROWTH_Q10, GROWTH_Q10 + Q10_DOUBT))
    ]
    assert found.middle == pytest.approx(6.0 * GROWTH_Q10 ** ((15.0 - bed_c) / 10.0))
    assert found[1:] == pytest.approx((min(some), max(some)))


def test_a_doubt_leads_to_no_days_outside_the_model():
    low, high = REFERENCE_DAYS
    short = growth(bed_c=15.0, reference_temp_c=15.0, reference_days=low, doubt=0.3)
    long = growth(bed_c=15.0, reference_temp_c=15.0, reference_days=high, doubt=0.3)
    assert short == pytest.approx((low, low, 1.3 * low))
    assert long == pytest.approx((high, 0.7 * high, high))


@pytest.mark.parametrize(("days", "hours"), [(5.0, 120), (5.01, 121), (120.2 / 24.0, 121), (0.1 + 0.2, 8), (0.0, 0)])
def test_a_batch_is_never_loaded_before_it_is_ready(days, hours):
    assert bed_hours(days) == hours


def test_the_rounding_of_the_machine_is_no_hour():
    assert bed_hours(7 / 24) == 7 and bed_hours(7 / 24 + 1e-12) == 7 and bed_hours(7 / 24 + 1e-6) == 8


def test_a_floor_and_the_barley_on_it_are_the_same_from_both_sides():
    kg = floor_holds_kg(area_m2=245.0, depth_cm=12.0)
    assert kg == pytest.approx(245.0 * 0.12 * BARLEY_KG_M3)
    assert depth_for(area_m2=245.0, barley_kg=kg) == pytest.approx(12.0)


@pytest.mark.parametrize(("days", "bed_c"), [(4.0, 18.0), (6.0, 14.0)])
def test_the_kiln_has_to_take_the_water_between_green_and_finished_malt(days, bed_c):
    """From the middle of what the kiln accepts down to 4 %, all of it leaving at 60 C (common practice)."""
    lost = AT_CAST_PERCENT + breathed_away(days=days, temp_c=bed_c)
    dry = 5000.0 * (1 - BARLEY_PERCENT / 100) * (1 - lost / 100)
    green = (edge(MOISTURE.accept_low) + edge(MOISTURE.accept_high)) / 2
    water = water_to_remove(weight_kg=dry / (1 - green / 100), moisture=green, final_moisture=4.0)
    found = kiln_heat_kwh(barley_kg=5000.0, grown_days=days, bed_c=bed_c)
    assert found == pytest.approx(water * latent_heat(temperature_c=60.0) / 3600)


def test_a_heater_makes_what_its_heat_allows():
    # 1 m3 by 40 K in an hour takes 46.6 kW
    assert warm_m3_h(heat_kw=1000 * KJ_KG_K * 40 / 3600, mains_c=8.0, warm_c=48.0) == pytest.approx(1.0)
    assert warm_m3_h(heat_kw=10.0, mains_c=15.0, warm_c=15.0) > 1e6  # nothing to heat: the heater is no limit
    assert warm_m3_h(heat_kw=10.0, mains_c=15.0, warm_c=16.0) == pytest.approx(10.0 * 3600 / (1000 * KJ_KG_K))


def test_warm_water_is_asked_for_only_as_far_as_it_warms():
    assert warmed(m3=6.0, water_c=12.0, mains_c=12.0, warm_c=50.0) == (0.0, 0.0)
    assert warmed(m3=6.0, water_c=12.0, mains_c=8.0, warm_c=8.0) == (0.0, 0.0)
    assert warmed(m3=6.0, water_c=12.0, mains_c=8.0, warm_c=6.0) == (0.0, 0.0)
    half = warmed(m3=6.0, water_c=12.0, mains_c=8.0, warm_c=16.0)
    assert half == pytest.approx((3.0, 6000 * KJ_KG_K * 4 / 3600))
    # a tank no warmer than the water wanted gives all of it, and as warm as the tank is
    assert warmed(m3=6.0, water_c=12.0, mains_c=8.0, warm_c=12.0) == pytest.approx((6.0, 6000 * KJ_KG_K * 4 / 3600))
    assert warmed(m3=6.0, water_c=14.0, mains_c=8.0, warm_c=10.0) == pytest.approx((6.0, 6000 * KJ_KG_K * 2 / 3600))
