"""Every limit is accepted exactly, refused just outside, and named in the error."""

import math
from collections.abc import Callable

import pytest

from calculators.models.bounds import Bounds, OutOfRange, check
from calculators.models.steep.fit import Reading, fit
from calculators.models.steep.hydration import steep, uptake_rate
from calculators.models.weights.basket import basket_gross, basket_moisture, film_removed
from calculators.models.weights.batch import moisture_at_weight, target_weight
from calculators.models.weights.moisture import water_to_add, water_to_remove, weight_after
from calculators.models.weights.oven import allowed_difference, dish_moisture, oven_moisture


def test_error_carries_its_limits() -> None:
    with pytest.raises(OutOfRange) as caught:
        check("water_temp_c", 60.0, Bounds(2.0, 30.0), "It kills.", "stages", 1)
    error = caught.value
    assert (error.parameter, error.low, error.high) == ("water_temp_c", 2.0, 30.0)
    assert (error.table, error.row, error.reason) == ("stages", 1, "It kills.")
    assert str(error) == "stages row 2: water_temp_c must be from 2 to 30. It kills."
    assert isinstance(error, ValueError)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_no_number_is_out_of_every_range(value: float) -> None:
    with pytest.raises(OutOfRange):
        check("x", value, Bounds(0.0, 1.0))


def one_steep(**changes: float) -> float:
    settings = {"barley_moisture": 12.5, "hours": 8.0, "water_temp_c": 14.0, **changes}
    stage = (settings.pop("hours"), settings.pop("water_temp_c"))
    return steep(stages=[stage], **settings).ends[-1].net  # type: ignore[arg-type]


def one_target(**changes: float) -> float:
    case = {"barley_kg": 1000.0, "barley_moisture": 12.0, "target_moisture": 45.0}
    return target_weight(**{**case, **changes})


def one_basket(**changes: float) -> float:
    case = {"gross_g": 180.0, "basket_g": 50.0, "sample_g": 100.0, "barley_moisture": 12.0}
    return basket_moisture(**{**case, **changes})


@pytest.mark.parametrize(
    ("work", "parameter", "low", "high"),
    [
        (one_steep, "barley_moisture", 5.0, 25.0),
        (one_steep, "hours", 0.25, 72.0),
        (one_steep, "water_temp_c", 2.0, 30.0),
        (one_steep, "corn_weight_g", 20.0, 70.0),
        (one_steep, "rate_factor", 0.25, 4.0),
        (one_steep, "film_db", 0.0, 0.12),
        (one_steep, "first_uptake_db", -0.2, 0.2),
        (one_steep, "rest_factor", 1.0, 2.5),
        (one_steep, "activation_kj_mol", 20.0, 80.0),
        (one_target, "barley_kg", 0.001, 1e6),
        (one_target, "barley_moisture", 5.0, 25.0),
        (one_target, "target_moisture", 20.0, 55.0),
        (one_target, "dry_matter_lost", 0.0, 5.0),
        (one_target, "skimmings_percent", 0.0, 20.0),
        (one_basket, "gross_g", 138.0, 50.0 + 88.0 / 0.35),
        (one_basket, "film_db", 0.0, 0.12),
    ],
)
def test_limits_from_both_sides(work: Callable[..., float], parameter: str, low: float, high: float) -> None:
    for exact in (low, high):
        assert math.isfinite(work(**{parameter: exact}))
    for outside in (low - 1e-6 * max(1.0, high), high + 1e-6 * max(1.0, high)):
        with pytest.raises(OutOfRange) as caught:
            work(**{parameter: outside})
        assert caught.value.parameter == parameter
        assert (caught.value.low, caught.value.high) == pytest.approx((low, high))


def test_target_under_the_barleys_own_moisture() -> None:
    assert one_target(barley_moisture=22.0, target_moisture=22.0) == pytest.approx(1000.0)
    with pytest.raises(OutOfRange) as caught:
        one_target(barley_moisture=22.0, target_moisture=21.9)
    assert (caught.value.parameter, caught.value.low) == ("target_moisture", 22.0)
    course = steep(barley_moisture=22.0, stages=[(8, 14)])
    with pytest.raises(OutOfRange):
        course.time_to_moisture(21.9)


def test_basket_lighter_than_its_tare() -> None:
    with pytest.raises(OutOfRange) as caught:
        basket_moisture(gross_g=49.0, basket_g=50.0, sample_g=100.0, barley_moisture=12.0)
    assert (caught.value.parameter, caught.value.low) == ("gross_g", 138.0)
    with pytest.raises(OutOfRange):
        moisture_at_weight(current_kg=870.0, barley_kg=1000.0, barley_moisture=12.0)


def test_wetting_and_drying_run_one_way() -> None:
    assert water_to_remove(weight_kg=1.0, moisture=12.0, final_moisture=12.0) == 0.0
    assert water_to_add(weight_kg=1.0, moisture=12.0, final_moisture=12.0) == 0.0
    with pytest.raises(OutOfRange):
        water_to_remove(weight_kg=1.0, moisture=12.0, final_moisture=12.1)
    with pytest.raises(OutOfRange):
        water_to_add(weight_kg=1.0, moisture=12.0, final_moisture=11.9)
    with pytest.raises(OutOfRange):
        weight_after(weight_kg=1.0, moisture=100.0, new_moisture=12.0)


def test_film_that_is_more_than_all_the_water() -> None:
    low = 100.0 * 0.05 / 1.05
    assert film_removed(drained_moisture=low, film_db=0.05) == pytest.approx(0.0, abs=1e-12)
    with pytest.raises(OutOfRange):
        film_removed(drained_moisture=low - 0.01, film_db=0.05)
    with pytest.raises(OutOfRange):
        basket_gross(moisture=66.0, basket_g=50.0, sample_g=100.0, barley_moisture=12.0)


def test_dishes() -> None:
    assert dish_moisture(empty_g=20.0, wet_g=30.0, dry_g=22.0) == pytest.approx(80.0)
    assert dish_moisture(empty_g=20.0, wet_g=30.0, dry_g=30.0) == 0.0
    for wet, dry in ((30.0, 30.01), (30.0, 21.9), (20.5, 20.4), (19.0, 18.0)):
        with pytest.raises(OutOfRange):
            dish_moisture(empty_g=20.0, wet_g=wet, dry_g=dry)
    with pytest.raises(OutOfRange) as caught:
        oven_moisture(dishes=[(20, 25, 24), (20, 25, 26)])
    assert (caught.value.table, caught.value.row, caught.value.parameter) == ("dishes", 1, "dry_g")
    with pytest.raises(OutOfRange):
        oven_moisture(dishes=[])
    assert allowed_difference(material="green_malt", dishes=1) is None
    with pytest.raises(KeyError):
        allowed_difference(material="oats", dishes=2)


def test_stages() -> None:
    with pytest.raises(OutOfRange) as caught:
        steep(barley_moisture=12.0, stages=[(8, 14), (200, 14)])
    assert (caught.value.table, caught.value.row, caught.value.parameter) == ("stages", 1, "hours")
    with pytest.raises(OutOfRange):
        steep(barley_moisture=12.0, stages=[])
    with pytest.raises(OutOfRange):
        steep(barley_moisture=12.0, stages=[(1, 14)] * 21)
    assert len(steep(barley_moisture=12.0, stages=[(1, 14)] * 20).ends) == 20
    with pytest.raises(OutOfRange, match="30 °C barley is harmed"):
        uptake_rate(water_temp_c=31.0)
    with pytest.raises(OutOfRange, match="A rest alone"):
        steep(barley_moisture=12.0, stages=[(8, 14)], begins_wet=False)


def test_hours_of_a_course() -> None:
    course = steep(barley_moisture=12.0, stages=[(8, 14), (4, 14)])
    assert course.at(0.0).net == pytest.approx(12.0)
    assert course.at(12.0).drained == course.ends[-1].drained
    for hours in (-0.01, 12.01):
        with pytest.raises(OutOfRange):
            course.at(hours)
    with pytest.raises(OutOfRange):
        course.profile(4.0, [1.01])


@pytest.mark.parametrize(
    ("reading", "parameter"),
    [
        (Reading(0.0, 30.0), "hours"),
        (Reading(12.1, 30.0), "hours"),
        (Reading(4.0, 11.9), "moisture"),
        (Reading(4.0, 65.1), "moisture"),
        (Reading(4.0, 30.0, True, 0.0), "sd_points"),
    ],
)
def test_readings_that_cannot_be(reading: Reading, parameter: str) -> None:
    course = steep(barley_moisture=12.0, stages=[(8, 14), (4, 14)])
    with pytest.raises(OutOfRange) as caught:
        fit(course, [Reading(8.0, 33.0), reading])
    assert (caught.value.table, caught.value.row, caught.value.parameter) == ("readings", 1, parameter)


def test_a_fit_needs_a_reading() -> None:
    with pytest.raises(OutOfRange):
        fit(steep(barley_moisture=12.0, stages=[(8, 14)]), [])
