"""House fits: averages with their doubt, and whether they forecast better than the typical barley."""

from __future__ import annotations

from math import log, sqrt

import numpy as np
import pytest
from numpy.typing import NDArray

from bench.day_book_files import ASSETS, DEMO_NAME
from bench.demo_batches import FAULT, demo_text
from calculators.daybook.batch.batch import Batch, batches_of
from calculators.daybook.batch.checks import doubtful
from calculators.daybook.batch.course import course_of
from calculators.daybook.house.fits import (
    BETWEEN_BATCHES,
    BETWEEN_LOTS,
    BatchFit,
    fits_before,
    fits_of,
    for_a_sheet,
    lot_fits,
    lot_of,
    lot_prior,
    prior_for,
)
from calculators.daybook.lines.entry import plain
from calculators.daybook.lines.exchange import take
from calculators.models.steep.doubt import TYPICAL, Prior, moved, trust
from calculators.models.steep.first_uptake import first_uptake
from calculators.models.steep.fit import Reading, fit
from calculators.models.steep.hydration import run, steep
from tests.daybook.book import START, line
from tests.published.uptake_lots import HOURS, MOISTURE, START_MOISTURE, WATER_TEMP_C

Matrix = NDArray[np.float64]


@pytest.fixture(scope="module")
def year() -> list[Batch]:
    text = (ASSETS / DEMO_NAME).read_text(encoding="utf-8")
    return batches_of([plain(entry) for entry in take(text, []).new])


@pytest.fixture(scope="module")
def fits(year) -> list[BatchFit]:
    return fits_of(year)


def test_the_invented_year_is_what_the_script_makes():
    assert (ASSETS / DEMO_NAME).read_text(encoding="utf-8") == demo_text(), "run: python -m bench.day_book_files"


def test_the_year_has_twelve_batches_and_says_that_it_is_invented(year):
    assert [batch.id for batch in year] == [f"example-{n:02d}" for n in range(1, 13)]
    assert all(batch.left and batch.of("start")[0].remark == "Invented." for batch in year)
    assert not any(batch.problems for batch in year)
    temps = [float(batch.value(e, "water_temp_c")) for batch in year for e in batch.of("stage-begun")]
    assert min(temps) < 5 and max(temps) > 17


def test_the_fault_of_the_year_is_found_and_nothing_else(year):
    found = {batch.id: [one.text for one in doubtful(batch, course_of(batch))] for batch in year}
    assert [name for name, texts in found.items() if texts] == [FAULT]
    assert any("Weigh the empty basket again" in text for text in found[FAULT])


def test_the_fault_put_right_is_a_fault_no_more(year):
    batch = next(one for one in year if one.id == FAULT)
    start = plain(batch.of("start")[0])
    right = {**start, "id": "put-right", "replaces": start["id"], "written": "2026-11-25T10:00:00Z"}
    right["values"] = {**start["values"], "basket_g": "84"}
    mended = batches_of([*map(plain, batch.entries), right])[0]
    assert doubtful(mended, course_of(mended)) == []
    before, after = fits_of([batch])[0], fits_of([mended])[0]
    # What was put in (bench/demo_batches.py): lot 5, a slow barley.
    assert after.rate_factor < before.rate_factor and after.error_points < 0.4


def rms(batch: Batch, prior: Prior | None = None) -> float:
    """What a forecast before any weighing misses on the batch's own readings [points]."""
    course = course_of(batch) if prior is None else course_of(batch, prior)
    assert not isinstance(course, str)
    missed = [r.moisture - course.before.at(r.hours).drained for r in course.readings]
    return sqrt(sum(m * m for m in missed) / len(missed))


def test_a_batch_of_a_known_lot_is_forecast_nearer_than_by_the_typical_barley(year, fits):
    """Held back one after the other: each batch is forecast from those before it alone."""
    typical, house, sheet = [], [], []
    for batch in year:
        before = fits_before(batch, fits)
        prior, same = prior_for(lot_of(batch), before)
        if not same or batch.id == FAULT:
            continue
        typical.append(rms(batch))
        house.append(rms(batch, prior))
        rate, offset = for_a_sheet(lot_prior(lot_of(batch), before)[0], batch.number("barley_moisture") or 0)
        sheet.append(rms_in_a_sheet(batch, rate, offset))
    assert len(house) == 8
    # One of the eight, the second batch of lot 5, was forecast 0.3 points worse: batches of a lot differ, too.
    assert sum(near < far for near, far in zip(house, typical, strict=True)) >= 7
    assert sum(near < far for near, far in zip(sheet, typical, strict=True)) >= 6
    mean = [sum(values) / len(values) for values in (typical, house, sheet)]
    # Measured [points]: 1.66 typical, 0.60 with the house's fit, 0.67 with the two numbers that a sheet takes; over six
    # invented years, with the narrower doubt of before, 1.70, 0.64 and 0.65, nearer in 42 of 48 batches.
    assert mean[1] < 0.45 * mean[0] and mean[2] < 0.45 * mean[0]


def rms_in_a_sheet(batch: Batch, rate: float, offset: float) -> float:
    course = course_of(batch)
    assert not isinstance(course, str)
    own = batch.number("barley_moisture") or 0
    told = steep(
        barley_moisture=own,
        stages=course.stages.pairs,
        corn_weight_g=batch.number("corn_weight_g") or 45,
        rate_factor=round(rate, 2),
        first_uptake_db=first_uptake(barley_moisture=own, moisture_offset=round(offset, 1)),
    )
    missed = [r.moisture - told.at(r.hours).drained for r in course.readings]
    return sqrt(sum(m * m for m in missed) / len(missed))


def test_the_first_batch_of_a_lot_begins_from_the_typical_barley(year, fits):
    # Begun from one or two other lots, five invented years were forecast 1.5 points off instead of 1.2.
    for batch in year:
        prior, same = prior_for(lot_of(batch), fits_before(batch, fits))
        if not same:
            assert rms(batch, prior) == rms(batch)


def test_the_band_holds_the_readings_of_batches_to_come(year, fits):
    inside = count = 0
    for batch in year:
        if batch.id == FAULT:
            continue
        prior, _ = prior_for(lot_of(batch), fits_before(batch, fits))
        course = course_of(batch, prior)
        assert not isinstance(course, str)
        band = course.doubt_before.band([r.hours for r in course.readings])
        inside += sum(
            low <= r.moisture <= high for r, low, high in zip(course.readings, band.low, band.high, strict=True)
        )
        count += len(course.readings)
    assert inside / count >= 0.9


UNDER_WATER = TYPICAL._replace(film_db=0.0)


def published_fit(lot: str, hours: tuple[float, ...]) -> tuple[Prior, float]:
    """What readings of a published lot at some hours say by themselves."""
    typical = steep(barley_moisture=START_MOISTURE, stages=[(HOURS[-1], WATER_TEMP_C)], film_db=0.0)
    readings = [Reading(h, MOISTURE[lot][HOURS.index(h)], False, 0.2) for h in hours]
    found = fit(typical, readings, UNDER_WATER)
    return Prior([*found.trust.z], found.trust.covariance), found.rate_factor


def entry_fit(lot: str, name: str, hours: tuple[float, ...]) -> BatchFit:
    said, rate = published_fit(lot, hours)
    batch = batches_of([line("start", "2026-01-01T06:00", batch=name, **{**START, "lot": lot, "season": ""})])[0]
    return BatchFit(batch, said.mean, said.covariance, rate, rate, rate, 0.0, 0.0, len(hours))


def missed(lot: str, prior: Prior | None, hours: tuple[float, ...]) -> float:
    typical = steep(barley_moisture=START_MOISTURE, stages=[(HOURS[-1], WATER_TEMP_C)], film_db=0.0)
    course = typical if prior is None else run(moved(typical.steeping, UNDER_WATER, prior.mean))
    errors = [MOISTURE[lot][HOURS.index(h)] - course.at(h).net for h in hours]
    return sqrt(sum(e * e for e in errors) / len(errors))


# A batch of the lot weighed at 10 and 20 h, and the lot's next steep at the hours that the first did not see.
SEEN, UNSEEN = (10.0, 20.0), (5.0, 15.0, 30.0, 35.0)


@pytest.mark.parametrize("lot", MOISTURE)
def test_a_published_lot_weighed_once_is_forecast_nearer(lot):
    # Molina-Cano et al. 1995 (data read). Measured, typical and house [points]: S91 3.27 and 0.31, S92 2.42 and 0.16,
    # D91 0.58 and 0.27, D92 0.86 and 0.45.
    prior, same = prior_for((lot.lower(), ""), [entry_fit(lot, "one", SEEN)])
    assert same == 1
    house, typical = missed(lot, prior, UNSEEN), missed(lot, None, UNSEEN)
    assert house < typical


def test_other_lots_say_little_of_a_new_one():
    # The typical barley was fitted to these four lots, so the other three cannot better it: here the two are held
    # against each other, and what is measured is written down. Mean of the four
    # [points]: 1.87 typical, 1.92 from the other lots alone.
    house, typical = [], []
    for lot in MOISTURE:
        others = [entry_fit(other, other, HOURS) for other in MOISTURE if other != lot]
        prior, same = prior_for((lot.lower(), ""), others)
        assert same == 0
        house.append(missed(lot, prior, HOURS))
        typical.append(missed(lot, None, HOURS))
    assert sum(house) / 4 < sum(typical) / 4 + 0.1


def exact(fits: list[BatchFit], lot: tuple[str, str]) -> Matrix:
    """The same three levels solved at one go by numpy: house, lots and batches as one set of unknowns."""
    lots = sorted({f.lot for f in fits} | {lot})
    wide = len(BETWEEN_LOTS)
    size = wide * (1 + len(lots) + len(fits))
    precision, right = np.zeros((size, size)), np.zeros(size)
    house_sd = np.sqrt(1 - np.square(BETWEEN_LOTS) - np.square(BETWEEN_BATCHES))

    def tie(child: int, parent: int | None, sds: Matrix) -> None:
        for n in range(wide):
            c = wide * child + n
            w = 1 / sds[n] ** 2
            precision[c, c] += w
            if parent is not None:
                p = wide * parent + n
                precision[p, p] += w
                precision[c, p] -= w
                precision[p, c] -= w

    tie(0, None, house_sd)
    for n, _ in enumerate(lots):
        tie(1 + n, 0, np.array(BETWEEN_LOTS))
    for n, one in enumerate(fits):
        place = 1 + len(lots) + n
        tie(place, 1 + lots.index(one.lot), np.array(BETWEEN_BATCHES))
        own = np.linalg.inv(np.array(one.covariance))
        block = slice(wide * place, wide * place + wide)
        precision[block, block] += own - np.eye(wide)
        right[block] += own @ np.array(one.z)
    place = 1 + lots.index(lot)
    return np.asarray(np.linalg.solve(precision, right)[wide * place : wide * place + wide], dtype=np.float64)


def test_the_average_is_the_exact_one_of_three_levels(fits):
    few = [f for f in fits if f.batch.id in ("example-03", "example-10", "example-01")]
    for lot in {f.lot for f in few}:
        known, _ = lot_prior(lot, few)
        assert np.allclose(known.mean, exact(few, lot), atol=1e-9)


def test_without_batches_it_is_the_typical_barley():
    prior, same = prior_for(("lot 9", "2026"), [])
    assert same == 0 and prior.mean == [0.0] * 8
    assert np.allclose(prior.covariance, np.eye(8))


def test_a_prior_narrows_the_fit_as_more_of_the_lot_is_known(fits):
    lot = lot_of(fits[0].batch)
    widths = []
    for count in range(4):
        known, _ = lot_prior(lot, [f for f in fits if f.lot == lot][:count])
        widths.append(known.covariance[0][0])
    assert widths == sorted(widths, reverse=True)


def test_averages_lie_among_their_batches_and_say_their_doubt(fits):
    lots = lot_fits(fits)
    assert [(one.lot, len(one.fits)) for one in lots] == [("lot 1", 3), ("lot 3", 5), ("lot 5", 4)]
    for one in lots:
        assert one.next_low < one.low < one.rate_factor < one.high < one.next_high
        assert min(f.low for f in one.fits) < one.rate_factor < max(f.high for f in one.fits)


def test_a_readings_prior_is_the_same_as_reading_both_batches_at_once():
    # Readings of one lot in two halves: the second fit, begun from the first, is the fit to all.
    course = steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)])
    first, second = [Reading(8, 34.0), Reading(16, 34.2)], [Reading(24, 42.5), Reading(39, 46.0)]
    both = fit(course, [*first, *second])
    one = fit(course, first)
    after = fit(course, second, prior=Prior([*one.trust.z], one.trust.covariance))
    assert log(after.rate_factor) == pytest.approx(log(both.rate_factor), abs=0.02)
    assert np.allclose(after.trust.covariance, both.trust.covariance, atol=0.05)


def test_the_doubt_without_readings_is_that_of_the_typical_barley():
    batch = batches_of([line("start", "2026-01-01T06:00", **START)])[0]
    course = course_of(batch)
    assert not isinstance(course, str)
    other = trust(course.before)
    assert course.doubt_before.band([8.0]) == other.band([8.0])
