"""Limits of single formulas, as their descriptions tell them: accepted exactly, refused just outside."""

from collections.abc import Callable
from typing import Any

import pytest

from calculators.models.bounds import OutOfRange
from calculators.models.counts.acrospire import growth_rate, mean_length, ready_after
from calculators.models.counts.enough import corns_for_margin
from calculators.models.counts.intervals import wilson
from calculators.models.counts.replicates import exact_range
from calculators.models.gas.dilution import gas_m3_h, mg_m3, molar_volume_l
from calculators.models.steep.oxygen import minutes_to_half, oxygen_saturation, pressure_at
from calculators.models.weights.oven import two_stage_moisture

EVEN = (0, 0, 100, 0, 0)
CASES: list[tuple[Callable[..., Any], dict[str, Any], str, float, float]] = [
    (pressure_at, {}, "altitude_m", -400.0, 4000.0),
    (oxygen_saturation, {}, "water_temp_c", 0.0, 40.0),
    *(
        (minutes_to_half, {"oxygen_mg_l": 10, "water_m3": 1, "grain_kg": 1000, "uptake_mg_kg_h": 1}, name, low, high)
        for name, low, high in (
            ("oxygen_mg_l", 0.0, 20.0),
            ("water_m3", 0.001, 5000.0),
            ("uptake_mg_kg_h", 0.1, 10_000.0),
        )
    ),
    (molar_volume_l, {}, "temperature_c", -30.0, 60.0),
    (mg_m3, {"temperature_c": 20}, "ppm", 0.0, 1e6),
    (gas_m3_h, {"temperature_c": 20}, "source_kg_h", 0.0, 10_000.0),
    (mean_length, {"counts": EVEN}, "place", 0.0, 1.0),
    (ready_after, {"weights": EVEN}, "grown", 0.0, 10.0),
    (growth_rate, {"today": EVEN, "before": EVEN}, "hours", 1.0, 96.0),
    (corns_for_margin, {"share": 0.5}, "margin", 0.005, 0.3),
    (wilson, {"grown": 90, "sown": 100}, "confidence", 0.5, 0.9999),
    (exact_range, {"size": 20, "replicates": 2}, "share", 0.0, 1.0),
    (two_stage_moisture, {"second_moisture": 10.0}, "predry_loss_percent", 0.0, 60.0),
    (two_stage_moisture, {"predry_loss_percent": 10.0}, "second_moisture", 0.0, 80.0),
]


@pytest.mark.parametrize(
    ("work", "case", "parameter", "low", "high"), CASES, ids=[f"{case[0].__name__}-{case[2]}" for case in CASES]
)
def test_limits_from_both_sides(
    work: Callable[..., Any], case: dict[str, Any], parameter: str, low: float, high: float
) -> None:
    for exact in (low, high):
        work(**{**case, parameter: exact})
    for outside in (low - 1e-6 * max(1.0, abs(low)), high + 1e-6 * max(1.0, high)):
        with pytest.raises(OutOfRange) as caught:
            work(**{**case, parameter: outside})
        assert (caught.value.parameter, caught.value.low, caught.value.high) == (parameter, low, high)
