"""The constants of the steep model against the published lots they were fitted to."""

import numpy as np
import pytest
from scipy.stats import t

from bench.fit_lots import fit_all, forecast_left_out, site_years
from calculators.models.steep.course import Steep
from calculators.models.steep.doubt import TYPICAL, trust
from calculators.models.steep.fit import Reading, fit
from calculators.models.steep.hydration import RATE_PER_H, SURFACE_DB, SURFACE_FIRST, SURFACE_RATE, steep
from tests.published.uptake_lots import HOURS, MOISTURE, START_MOISTURE, WATER_TEMP_C

# Lots lay under water all the time and are taken as blotted: no film, no doubt about one.
UNDER_WATER = TYPICAL._replace(film_db=0.0, basket_points=0.0, barley_moisture=0.0)
WEIGHED_IN_A_LABORATORY = 0.2  # the shape of the curve alone; weighing adds hardly anything


def typical() -> Steep:
    stages = [(HOURS[-1], WATER_TEMP_C)]
    return steep(barley_moisture=START_MOISTURE, stages=stages, film_db=0.0)


def corrected(lot: str, hours: tuple[float, ...]) -> Steep:
    readings = [
        Reading(h, MOISTURE[lot][HOURS.index(h)], drained=False, sd_points=WEIGHED_IN_A_LABORATORY) for h in hours
    ]
    return fit(typical(), readings, UNDER_WATER).course


def test_moistures_of_the_lots() -> None:
    # Second check of the data by hand: D92 at 35 h, 88 g of dry matter in 150.63 g.
    assert MOISTURE["D92"][-1] == pytest.approx(100 * (150.63 - 88) / 150.63)
    at_5_h = [MOISTURE[lot][0] for lot in MOISTURE]
    assert (min(at_5_h), max(at_5_h)) == pytest.approx((24.52, 31.19), abs=0.01)


def test_constants_are_what_the_lots_give() -> None:
    found = fit_all(surface_db=SURFACE_DB)
    assert found.rate_per_h == pytest.approx(RATE_PER_H, rel=0.03)
    assert found.first_uptake_db == pytest.approx(0.0, abs=0.005)
    assert found.error_points < 0.25
    # The spread that the band is made of is not smaller than that of the lots.
    assert TYPICAL.rate >= found.rate_spread
    assert TYPICAL.first_uptake_db >= found.first_uptake_spread
    assert TYPICAL.shape_points == pytest.approx(found.error_points, abs=0.02)


def test_surface_value_is_not_sharply_fixed() -> None:
    # From 0.9 to 1.1 the error changes by less than 0.03 points: 1.0 is an effective value.
    errors = [fit_all(surface_db=s).error_points for s in (0.9, 1.0, 1.1)]
    assert max(errors) - min(errors) < 0.03


@pytest.mark.parametrize("lot", MOISTURE)
def test_readings_at_10_and_20_h_give_35_h(lot: str) -> None:
    assert corrected(lot, (10.0, 20.0)).at(35.0).net == pytest.approx(MOISTURE[lot][-1], abs=0.7)


@pytest.mark.parametrize("lot", MOISTURE)
def test_constants_from_the_other_lots_do_as_well(lot: str) -> None:
    # Nothing of the lot itself: rate and surface fitted to the other three.
    assert forecast_left_out(lot, (10.0, 20.0)) == pytest.approx(MOISTURE[lot][-1], abs=0.72)


@pytest.mark.parametrize("lot", MOISTURE)
def test_one_reading_late_is_better_than_one_at_5_h(lot: str) -> None:
    # A reading at 5 h alone is weak: up to 1.1 points off here.
    assert corrected(lot, (5.0,)).at(35.0).net == pytest.approx(MOISTURE[lot][-1], abs=1.1)
    assert corrected(lot, (20.0,)).at(35.0).net == pytest.approx(MOISTURE[lot][-1], abs=0.8)


def test_band_before_any_reading_holds_the_lots() -> None:
    band = trust(typical(), UNDER_WATER).band(HOURS)
    inside = [
        low <= found <= high
        for lot in MOISTURE
        for found, low, high in zip(MOISTURE[lot], band.low, band.high, strict=True)
    ]
    assert sum(inside) >= 0.9 * len(inside)


def test_band_before_any_reading_is_student_s_for_four_sites_and_years() -> None:
    # Means of the two lots of each site and year: a fifth lies within t x SD x sqrt(1 + 1/4) of their mean.
    at_35_h = [(MOISTURE[lot][-1] + MOISTURE[f"{lot} mutant"][-1]) / 2.0 for lot in ("S91", "S92", "D91", "D92")]
    asked = float(t.ppf(0.975, 3)) * float(np.std(at_35_h, ddof=1)) * 1.25**0.5
    band = trust(typical(), UNDER_WATER).band([35.0])
    assert (band.high[0] - band.low[0]) / 2.0 == pytest.approx(asked, rel=0.25)
    drained = steep(barley_moisture=12.5, stages=[(h, 14) for h in (8, 8, 8, 12, 3)])
    end = trust(drained).band([39.0])
    assert 6.0 < (end.high[0] - end.low[0]) / 2.0 < 8.5


def test_spreads_are_those_of_sites_and_years() -> None:
    # What two lots of one site and year share is what varies: the doubt is its predictive spread, by its t.
    between, within = site_years(fit_all(surface_db=SURFACE_DB))
    stretch = float(t.ppf(0.975, 3)) / 2.0
    for n, asked in enumerate((TYPICAL.rate, TYPICAL.first_uptake_db)):
        assert within[n] < 0.35 * between[n]
        assert asked == pytest.approx(stretch * (1.25 * between[n] ** 2 + within[n] ** 2) ** 0.5, rel=0.03)


def test_rate_and_first_uptake_follow_the_surface() -> None:
    low, high = fit_all(surface_db=0.95), fit_all(surface_db=1.05)
    assert np.log(high.rate_per_h / low.rate_per_h) / 0.1 == pytest.approx(SURFACE_RATE, rel=0.05)
    assert (high.first_uptake_db - low.first_uptake_db) / 0.1 == pytest.approx(SURFACE_FIRST, rel=0.15)


@pytest.mark.parametrize("lot", MOISTURE)
def test_band_after_two_readings_holds_the_rest(lot: str) -> None:
    readings = [Reading(h, MOISTURE[lot][HOURS.index(h)], False) for h in (10.0, 20.0)]
    band = fit(typical(), readings, UNDER_WATER).trust.band([30.0, 35.0])
    for n, found in enumerate(MOISTURE[lot][-2:]):
        assert band.low[n] <= found <= band.high[n]
        assert band.high[n] - band.low[n] < 2.6
