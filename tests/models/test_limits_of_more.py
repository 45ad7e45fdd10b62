"""Limits of single formulas, as their descriptions tell them: accepted exactly, refused just outside."""

import pytest

from calculators.models.bounds import OutOfRange
from calculators.models.counts.acrospire import growth_needed, growth_rate, mean_length, ready_after
from calculators.models.counts.distributions import beta_share, normal_quantile
from calculators.models.counts.enough import corns_for_margin, corns_to_decide, decides
from calculators.models.counts.intervals import clopper_pearson, lower_bound, upper_bound, wilson
from calculators.models.counts.posterior import expected_over, likely_outcomes
from calculators.models.counts.replicates import exact_range
from calculators.models.gas.dilution import gas_m3_h, mg_m3, molar_volume_l
from calculators.models.grain.drying import drying_air
from calculators.models.grain.tests import germination_index, newly_from_running
from calculators.models.lifting.equation import frequency_multiplier, multipliers
from calculators.models.lifting.guideline_filter import pace_share, twist_share, zone_weight_kg
from calculators.models.steep.oxygen import minutes_to_half, oxygen_saturation, pressure_at
from calculators.models.weights.basket import (
    basket_dry_matter,
    basket_gross,
    basket_moisture,
    film_added,
    film_removed,
    points_per_gram,
)
from calculators.models.weights.batch import moisture_at_weight
from calculators.models.weights.losses import malt_from, malting_loss, share_of_dry_matter
from calculators.models.weights.moisture import dry_basis, water_to_add, water_to_remove, weight_after, wet_basis
from calculators.models.weights.oven import allowed_difference, dish_moisture, oven_moisture, two_stage_moisture
from calculators.models.weights.sprinkling import clings_l, water_needed
from tests.models.both_sides import Case, cases

EVEN = (0, 0, 100, 0, 0)
LIFT = {
    "hands_forward_cm": 30.0, "height_cm": 75.0, "from_cm": 75.0, "travel_cm": 25.0, "twist_degrees": 0.0,
    "lifts_a_minute": 1.0, "hours": 1.0, "grip": "good",
}  # fmt: skip
BASKET = {"basket_g": 50.0, "sample_g": 100.0, "barley_moisture": 12.0}
MALT = {"barley_kg": 1000.0, "barley_moisture": 12.0, "malt_moisture": 5.0}


def dishes(*, dishes: int) -> None:
    oven_moisture(dishes=[(20.0, 25.0, 24.0)] * dishes)


def running(*, running: float) -> None:
    newly_from_running(running=[3.0, running])


def sown(*, sown: float) -> None:
    wilson(min(1.0, sown), sown)


def grown(*, grown: float) -> None:
    wilson(grown, 100.0)


def germinated(*, newly_grown: float) -> None:
    germination_index(newly_grown=[5.0, newly_grown])


def dish(*, empty_g: float = 20.0, sample_g: float = 5.0) -> None:
    dish_moisture(empty_g=empty_g, wet_g=empty_g + sample_g, dry_g=empty_g + 0.5 * sample_g)


def wet(*, wet_g: float) -> None:
    dish_moisture(empty_g=0.0, wet_g=wet_g, dry_g=0.5 * wet_g)


CASES = [
    *cases(pressure_at, {}, altitude_m=(-400.0, 4000.0)),
    *cases(oxygen_saturation, {}, water_temp_c=(0.0, 40.0)),
    *cases(
        minutes_to_half, {"oxygen_mg_l": 10, "water_m3": 1, "grain_kg": 1000, "uptake_mg_kg_h": 1},
        oxygen_mg_l=(0.0, 20.0), water_m3=(0.001, 5000.0), uptake_mg_kg_h=(0.1, 10_000.0),
    ),
    *cases(molar_volume_l, {}, temperature_c=(-30.0, 60.0)),
    *cases(mg_m3, {"temperature_c": 20}, ppm=(0.0, 1e6)),
    *cases(gas_m3_h, {"temperature_c": 20}, source_kg_h=(0.0, 10_000.0)),
    *cases(mean_length, {"counts": EVEN}, place=(0.0, 1.0)),
    *cases(ready_after, {"weights": EVEN}, grown=(0.0, 10.0)),
    *cases(growth_needed, {"weights": EVEN}, target=(0.0, 1.0)),
    *cases(growth_rate, {"today": EVEN, "before": EVEN}, hours=(1.0, 96.0)),
    *cases(normal_quantile, {}, probability=(1e-9, 1.0 - 1e-9)),
    *cases(beta_share, {"x": 0.5, "a": 2.0, "b": 2.0}, x=(0.0, 1.0), a=(5e-324, 1e9), b=(5e-324, 1e9)),
    *cases(corns_for_margin, {"share": 0.5}, margin=(0.005, 0.3)),
    *cases(corns_for_margin, {"margin": 0.1}, share=(0.0, 1.0)),
    *cases(corns_to_decide, {"share": 0.9}, limit=(0.0, 1.0)),
    *cases(corns_to_decide, {"limit": 0.95}, share=(0.0, 1.0)),
    *cases(decides, {"share": 0.9, "corns": 100.0}, limit=(0.0, 1.0)),
    *cases(wilson, {"grown": 90, "sown": 100}, confidence=(0.5, 0.9999)),
    *cases(clopper_pearson, {"grown": 90, "sown": 100}, confidence=(0.5, 0.9999)),
    *cases(lower_bound, {"grown": 90, "sown": 100}, confidence=(0.5, 0.9999)),
    *cases(upper_bound, {"grown": 90, "sown": 100}, confidence=(0.5, 0.9999)),
    *cases(grown, {}, grown=(0.0, 100.0)),
    *cases(sown, {}, sown=(1.0, 1_000_000.0)),
    *cases(expected_over, {"above": 2.0, "below": 3.0, "limit": 0.5}, limit=(0.0, 1.0), above=(1e-6, 1e7)),
    *cases(likely_outcomes, {"above": 2.0, "below": 3.0, "corns": 100}, corns=(1, 2000), parts=(1, 100)),
    *cases(exact_range, {"size": 20, "replicates": 2}, share=(0.0, 1.0)),
    *cases(exact_range, {"share": 1.0, "replicates": 2}, size=(1, 1000)),
    *cases(exact_range, {"share": 1.0, "size": 10}, replicates=(2, 50)),
    *cases(drying_air, {}, moisture=(5.0, 40.0)),
    *cases(germinated, {}, newly_grown=(0.0, 1e6)),
    *cases(running, {}, running=(3.0, 1e6)),
    *cases(
        multipliers, LIFT, hands_forward_cm=(0.0, 120.0), height_cm=(0.0, 220.0), travel_cm=(0.0, 220.0),
        twist_degrees=(0.0, 180.0), lifts_a_minute=(0.0, 30.0), hours=(0.02, 8.0),
    ),
    *cases(frequency_multiplier, {"hours": 1.0, "from_cm": 75.0, "lifts_a_minute": 1.0}, hours=(0.02, 8.0)),
    *cases(zone_weight_kg, {"low_cm": 50.0, "high_cm": 75.0, "who": "men"}, hands_forward_cm=(0.0, 120.0)),
    *cases(pace_share, {}, lifts_a_minute=(0.0, 30.0)),
    *cases(twist_share, {}, twist_degrees=(0.0, 180.0)),
    *cases(two_stage_moisture, {"second_moisture": 10.0}, predry_loss_percent=(0.0, 60.0)),
    *cases(two_stage_moisture, {"predry_loss_percent": 10.0}, second_moisture=(0.0, 80.0)),
    *cases(dish, {}, empty_g=(0.0, 2000.0)),
    *cases(wet, {}, wet_g=(1.0, 2000.0)),
    *cases(dish_moisture, {"empty_g": 20.0, "wet_g": 30.0}, dry_g=(22.0, 30.0)),
    *cases(dishes, {}, dishes=(1, 10)),
    *cases(allowed_difference, {"material": "green_malt", "dishes": 2}, dishes=(1, 10)),
    *cases(allowed_difference, {"material": "green_malt", "dishes": 2}, predry_loss_percent=(0.0, 60.0)),
    *cases(film_added, {"net_moisture": 40.0}, film_db=(0.0, 0.12), net_moisture=(0.0, 99.0)),
    *cases(film_removed, {"drained_moisture": 40.0}, film_db=(0.0, 0.12)),
    *cases(
        basket_dry_matter, {"sample_g": 100.0, "barley_moisture": 12.0}, sample_g=(10.0, 20_000.0),
        barley_moisture=(5.0, 25.0), dry_matter_lost=(0.0, 5.0),
    ),
    *cases(basket_gross, {"moisture": 40.0, **BASKET}, moisture=(0.0, 65.0), basket_g=(0.0, 20_000.0)),
    *cases(points_per_gram, {"moisture": 40.0, "sample_g": 100.0, "barley_moisture": 12.0}, moisture=(0.0, 65.0)),
    *cases(basket_moisture, {"gross_g": 180.0, **BASKET}, film_db=(0.0, 0.12)),
    *cases(malting_loss, {**MALT, "malt_kg": 1.0}, barley_moisture=(0.0, 99.0), malt_moisture=(0.0, 99.0)),
    *cases(malt_from, {**MALT, "loss_percent": 10.0}, barley_moisture=(0.0, 99.0), malt_moisture=(0.0, 99.0),
           loss_percent=(0.0, 30.0)),
    *cases(share_of_dry_matter, {"part_kg": 1.0, "part_moisture": 5.0, "barley_kg": 1000.0, "barley_moisture": 12.0},
           part_moisture=(0.0, 99.0), barley_moisture=(0.0, 99.0), part_kg=(0.0, 1e9)),
    *cases(dry_basis, {}, moisture=(0.0, 99.0)),
    *cases(wet_basis, {}, moisture_db=(0.0, 9900.0)),
    *cases(
        weight_after, {"weight_kg": 1000.0, "moisture": 12.0, "new_moisture": 45.0}, weight_kg=(0.001, 1e6),
        moisture=(0.0, 99.0), new_moisture=(0.0, 99.0), dry_matter_lost=(0.0, 30.0),
    ),
    *cases(water_to_remove, {"weight_kg": 1000.0, "moisture": 45.0}, final_moisture=(0.0, 45.0)),
    *cases(water_to_add, {"weight_kg": 1000.0, "moisture": 12.0}, final_moisture=(12.0, 99.0)),
    *cases(moisture_at_weight, {"barley_kg": 1000.0, "barley_moisture": 12.0}, current_kg=(880.0, 880.0 / 0.35)),
    *cases(
        water_needed, {"bed_kg": 1000.0, "moisture_now": 43.0, "moisture_wanted": 45.0, "water_kept": 50.0},
        moisture_wanted=(43.0, 55.0), water_kept=(10.0, 100.0),
    ),
    *cases(clings_l, {"bed_kg": 1000.0, "moisture_now": 43.0}, moisture_now=(30.0, 55.0), film_db=(0.0, 0.12)),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=str)
def test_limits_from_both_sides(case: Case) -> None:
    case.hold()


def test_counts_of_corns_from_both_sides() -> None:
    counts: tuple[float, ...]
    for counts in ((0, 0, 1, 0, 0), (0, 0, 1e6, 0, 0)):
        assert mean_length(counts=counts) == 0.625
    for counts in ((0, 0, 0.9, 0, 0), (0, 0, 1e6 + 1, 0, 0), (0, -1, 3, 0, 0), (0, 0, 1, 0)):
        with pytest.raises(OutOfRange):
            mean_length(counts=counts)
