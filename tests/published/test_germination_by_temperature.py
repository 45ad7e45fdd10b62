"""The law of chitting against a published series of counts: fitted on some temperatures, foretelling the others.

Data set ``barley`` of drcSeedGerm (Onofri and others 2018, read): see ``data/README.md``.
"""

from functools import lru_cache

import pytest

from calculators.models.living.chitting import MIDDLE_LOG_SD, SPREAD, SPREAD_LOG_SD
from calculators.models.living.pace import CHIT_BASE_C, CHIT_BASE_SD_C, CHIT_C
from tests.published.germination_counts import SEEDS, TEMPS, SeriesFit, counts

LIVING = [3.0, 7.0, 10.0, 15.0, 25.0]


@lru_cache(maxsize=8)
def fitted(*temps: float, slope: str = "straight") -> SeriesFit:
    return SeriesFit(list(temps), slope=slope)


def half_seen(temp_c: float) -> tuple[float, float]:
    """The two inspections between which half of those that germinated in the end had."""
    days, germinated = counts(temp_c)
    half = germinated[-1] / 2.0
    at = next(n for n, count in enumerate(germinated) if count >= half)
    before = max((n for n in range(at) if germinated[n] < germinated[at]), default=0)
    moved = next(n for n in range(at) if germinated[n] == germinated[before])
    return (days[moved] if germinated[moved] else 0.0), days[at]


def test_base_temperature_is_what_the_series_gives() -> None:
    found = fitted(*LIVING)
    assert found.base_c == pytest.approx(CHIT_BASE_C, abs=0.2)
    # A lot's doubt covers fits on parts of the series.
    for part in ([7.0, 10.0, 15.0, 25.0], [3.0, 10.0, 25.0], [1.0, *LIVING]):
        assert abs(fitted(*part).base_c - CHIT_BASE_C) < 2.0 * CHIT_BASE_SD_C


def test_a_straight_line_fits_better_than_arrhenius() -> None:
    assert fitted(*LIVING).log_likelihood - fitted(*LIVING, slope="arrhenius").log_likelihood > 20.0


def test_spread_of_corns() -> None:
    assert abs(fitted(*LIVING).spread / SPREAD - 1.0) < 2.0 * SPREAD_LOG_SD


@pytest.mark.parametrize("temp_c", [7.0, 15.0])
def test_temperatures_left_out_are_foretold(temp_c: float) -> None:
    # Fitted at 3, 10 and 25 C: half of them within a fifth of the inspections that saw it: 5.8 days at 7 C, where it
    # was between 7 and 8; 3.1 at 15 C, where it was between 3 and 4.
    low, high = half_seen(temp_c)
    assert 0.8 * low <= fitted(3.0, 10.0, 25.0).half_day(temp_c) <= 1.15 * high


def test_30_c_goes_on_along_the_line_but_thins() -> None:
    low, high = half_seen(30.0)
    assert 0.85 * low <= fitted(3.0, 10.0, 25.0).half_day(30.0) <= 1.15 * high
    assert counts(30.0)[1][-1] / SEEDS == pytest.approx(0.77, abs=0.01)


@pytest.mark.parametrize(("temp_c", "in_the_end"), [(35.0, 0.19), (40.0, 0.0)])
def test_where_the_law_fails(temp_c: float, in_the_end: float) -> None:
    # Foretold: nearly all within three days.  Counted: one in five at 35 C after a week, none at 40 C.
    assert fitted(3.0, 10.0, 25.0).share(temp_c, 3.0) > 0.95
    assert counts(temp_c)[1][-1] / SEEDS == pytest.approx(in_the_end, abs=0.01)
    assert temp_c > CHIT_C.high and temp_c in TEMPS


def test_wet_paper_gives_no_hours_of_a_steep() -> None:
    # Two lots taken to 15 C: 74 h here; McCafferty & Bryce 1999 (abstract read): germination index 5.71 at 20 C, so
    # a mean day of 10/5.71 = 1.75, less half a day as counts are made at the end of a day: 30 h, or 39 at 15 C.
    theirs = 24.0 * (10.0 / 5.71 - 0.5) * (20.0 - CHIT_BASE_C) / (15.0 - CHIT_BASE_C)
    ratio = fitted(*LIVING).middle_h / theirs
    assert 1.5 < ratio < 2.2
    assert ratio < 2.718 ** (2.0 * 2.0**0.5 * MIDDLE_LOG_SD)  # two lots differ by no more than their doubt
