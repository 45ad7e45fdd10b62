"""What this house's own batches say of its barley: fits by lot and harvest, averaged with their doubt.

A batch's readings say something of its lot, less what differs from batch to batch; a lot says something of the house
and its water, less what differs from lot to lot. So averages weigh each batch by the inverse of its own doubt and the
spread between batches together, and a new batch of a known lot begins from that instead of from the typical barley.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import exp, sqrt
from typing import NamedTuple

from ...models.steep.doubt import BAND_SD, TYPICAL, TYPICAL_BARLEY, UNKNOWNS, Matrix, Prior, solved, unit
from ...models.steep.first_uptake import MOISTURE_OFFSET, offset_points
from ...models.steep.fit import READING_SD
from ...models.steep.hydration import FIRST_UPTAKE_DB, MODEL_VERSION, RATE_FACTOR
from ..batch.batch import Batch, Told
from ..batch.course import Course, course_of

BETWEEN_BATCHES = (0.15, 0.16, 0.2, 0.3, 0.1, 0.3, 0.9, 0.6)
"""Standard deviations from batch to batch of one lot, of the unknowns, as shares of their typical doubt: our
assumption. That of the rate is held towards it and learned from four batches of a lot on."""

BETWEEN_LOTS = (0.97, 0.97, 0.3, 0.4, 0.2, 0.9, 0.3, 0.2)
"""The same from lot to lot of one house. The rate and the first uptake of the typical barley's doubt were taken from
published lots, so nearly all of it lies between lots; a house's drainage and rests change less: our assumption."""

FEWEST_LOTS = 3
"""A lot without a batch of its own begins from the typical barley until so many other lots are known: on invented years
one or two other lots made the forecast of a new one worse more often than better."""

_ASSUMED_WEIGHT = 3.0  # batches that the assumed spread counts for


class BatchFit(NamedTuple):
    """What the readings of one batch say by themselves.

    Attributes
    ----------
    batch : Told
        The batch.
    z : list of float
        The unknowns in standard deviations from the typical barley.
    covariance : list of list of float
        Their covariance after the readings.
    rate_factor, low, high : float
        The rate against that of the typical barley [-], with its band.
    offset : float
        Taken up at once beyond a typical barley [points].
    error_points : float
        Root mean square of reading less fit [points].
    readings : int
        How many it rests on.
    """

    batch: Told
    z: list[float]
    covariance: Matrix
    rate_factor: float
    low: float
    high: float
    offset: float
    error_points: float
    readings: int

    @property
    def lot(self) -> tuple[str, str]:
        """Barley lot and harvest."""
        return lot_of(self.batch)


class LotFit(NamedTuple):
    """What all batches of one lot say together.

    Attributes
    ----------
    lot, season : str
        The barley lot and its harvest.
    fits : list of BatchFit
        Its batches, the first one first.
    rate_factor, low, high : float
        The averaged rate factor [-] with the doubt of the average.
    next_low, next_high : float
        Where the rate factor of the next batch is expected [-].
    spread : float
        Standard deviation of the logarithm of the rate from batch to batch [-].
    sheet_rate, sheet_offset : float
        The pair to type into a sheet [-], [points]: the best one while everything else stays typical.
    """

    lot: str
    season: str
    fits: list[BatchFit]
    rate_factor: float
    low: float
    high: float
    next_low: float
    next_high: float
    spread: float
    sheet_rate: float
    sheet_offset: float


class _Said(NamedTuple):
    """A likelihood of the unknowns: information (8, 8) and information times mean (8,)."""

    information: Matrix
    weighted: list[float]


def lot_of(batch: Told) -> tuple[str, str]:
    """Lot and harvest of a batch, by which fits are kept; a batch without a lot stands alone."""
    lot = " ".join(batch.text("lot").lower().split())
    return (lot or f"\0{batch.id}", " ".join(batch.text("season").lower().split()))


def fit_of(batch: Batch, course: Course | str | None = None) -> BatchFit | None:
    """The fit of one batch by its own readings, held towards the typical barley; None without readings."""
    course = course_of(batch) if course is None else course
    if isinstance(course, str) or course.fitted is None:
        return None
    fitted = course.fitted
    z, covariance = [*fitted.trust.z], fitted.trust.covariance
    reach = BAND_SD * TYPICAL.rate * sqrt(covariance[0][0])
    settings = fitted.course.steeping
    return BatchFit(
        batch,
        z,
        covariance,
        fitted.rate_factor,
        fitted.rate_factor * exp(-reach),
        fitted.rate_factor * exp(reach),
        offset_points(barley_moisture=settings.barley_moisture, first_uptake_db=settings.first_uptake_db),
        fitted.error_points,
        len(course.readings),
    )


def fits_of(batches: Iterable[Batch]) -> list[BatchFit]:
    """The fits of all batches that have readings, in the order in which they were begun."""
    found = [fit for fit in map(fit_of, batches) if fit is not None]
    return sorted(found, key=lambda fit: fit.batch.begun or fit.batch.last_utc)


def _product(matrix: Matrix, vector: Sequence[float]) -> list[float]:
    return [sum(a * b for a, b in zip(row, vector, strict=True)) for row in matrix]


def _own(fit: BatchFit) -> _Said:
    """What the readings alone say: the fit with its own leaning towards the typical barley taken out.

    Readings that miss their own fit by more than one may miss it count for less, in the proportion of the squares: so a
    basket that was written wrong does not speak for its lot.
    """
    precision = solved(fit.covariance, unit())
    less = max(1.0, (fit.error_points / READING_SD) ** 2)
    information = [[(precision[n][m] - float(n == m)) / less for m in range(UNKNOWNS)] for n in range(UNKNOWNS)]
    return _Said(information, [value / less for value in _product(precision, fit.z)])


def _spread_out(said: _Said, sds: Sequence[float]) -> _Said:
    """What is said of one member as said of its family, whose members differ by these standard deviations."""
    inverse = [1.0 / sd**2 for sd in sds]
    middle = [
        [said.information[n][m] + (inverse[n] if n == m else 0.0) for m in range(UNKNOWNS)] for n in range(UNKNOWNS)
    ]
    solution = solved(middle, unit())
    information = [
        [(inverse[n] if n == m else 0.0) - inverse[n] * solution[n][m] * inverse[m] for m in range(UNKNOWNS)]
        for n in range(UNKNOWNS)
    ]
    weighted = [inverse[n] * value for n, value in enumerate(_product(solution, said.weighted))]
    return _Said(information, weighted)


def _sum(parts: Iterable[_Said]) -> _Said:
    total = _Said([[0.0] * UNKNOWNS for _ in range(UNKNOWNS)], [0.0] * UNKNOWNS)
    for part in parts:
        for n in range(UNKNOWNS):
            total.weighted[n] += part.weighted[n]
            for m in range(UNKNOWNS):
                total.information[n][m] += part.information[n][m]
    return total


def between_batches(fits: Sequence[BatchFit]) -> tuple[float, ...]:
    """The spread from batch to batch of one lot; that of the rate learned from the batches as far as they tell it.

    Notes
    -----
    The moment estimator of DerSimonian and Laird (from memory) for the variance between batches, averaged with the
    assumed variance, which counts for three batches.
    """
    pairs = []
    for fit in fits:
        left = fit.covariance[0][0]
        if left < 0.99:
            pairs.append((fit.z[0] / (1.0 - left), left / (1.0 - left)))
    assumed = BETWEEN_BATCHES[0] ** 2
    if len(pairs) < 2:
        return BETWEEN_BATCHES
    weights = [1.0 / variance for _, variance in pairs]
    total = sum(weights)
    mean = sum(w * y for w, (y, _) in zip(weights, pairs, strict=True)) / total
    q = sum(w * (y - mean) ** 2 for w, (y, _) in zip(weights, pairs, strict=True))
    found = max(0.0, (q - len(pairs) + 1) / (total - sum(w * w for w in weights) / total))
    freedom = len(pairs) - 1.0
    learned = (found * freedom + assumed * _ASSUMED_WEIGHT) / (freedom + _ASSUMED_WEIGHT)
    return (max(sqrt(learned), 0.05), *BETWEEN_BATCHES[1:])


def _by_lot(fits: Iterable[BatchFit]) -> dict[tuple[str, str], list[BatchFit]]:
    lots: dict[tuple[str, str], list[BatchFit]] = {}
    for fit in fits:
        lots.setdefault(fit.lot, []).append(fit)
    return lots


def _lot_says(fits: Sequence[BatchFit]) -> _Said:
    sds = between_batches(fits)
    return _sum(_spread_out(_own(fit), sds) for fit in fits)


def _joined(prior: Prior, said: _Said) -> Prior:
    """A prior and what was said since, put together."""
    held = solved(prior.covariance, unit())
    weighted = [a + b for a, b in zip(_product(held, prior.mean), said.weighted, strict=True)]
    precision = [[a + b for a, b in zip(*rows, strict=True)] for rows in zip(held, said.information, strict=True)]
    covariance = solved(precision, unit())
    return Prior(_product(covariance, weighted), covariance)


def _wider(prior: Prior, sds: Sequence[float]) -> Prior:
    """A prior of a family as one of a member, whose members differ by these standard deviations."""
    rows = enumerate(prior.covariance)
    return Prior(prior.mean, [[v + (sds[n] ** 2 if n == m else 0.0) for m, v in enumerate(row)] for n, row in rows])


def lot_prior(lot: tuple[str, str], fits: Sequence[BatchFit]) -> tuple[Prior, int]:
    """What is known of a lot from the batches before, and how many of them were of the lot itself.

    Notes
    -----
    Three levels: the house about the typical barley, lots about the house, batches about their lot; the variances of
    the three add up to those of the typical barley's doubt.
    """
    lots = _by_lot(fits)
    same = lots.pop(lot, [])
    if not same and len(lots) < FEWEST_LOTS:
        return TYPICAL_BARLEY, 0
    spare = [1.0 - lots**2 - batches**2 for lots, batches in zip(BETWEEN_LOTS, BETWEEN_BATCHES, strict=True)]
    house = Prior([0.0] * UNKNOWNS, [[spare[n] if n == m else 0.0 for m in range(UNKNOWNS)] for n in range(UNKNOWNS)])
    house = _joined(house, _sum(_spread_out(_lot_says(others), BETWEEN_LOTS) for others in lots.values()))
    known = _wider(house, BETWEEN_LOTS)
    return (_joined(known, _lot_says(same)) if same else known), len(same)


def prior_for(lot: tuple[str, str], fits: Sequence[BatchFit]) -> tuple[Prior, int]:
    """What is known of the next batch of a lot before it is weighed.

    Parameters
    ----------
    lot : tuple of str
        Lot and harvest, as ``lot_of`` gives them.
    fits : sequence of BatchFit
        Those of the batches before.

    Returns
    -------
    Prior, int
        For ``course_of``; and the batches of the same lot among them.
    """
    known, same = lot_prior(lot, fits)
    if known is TYPICAL_BARLEY:
        return known, same
    return _wider(known, between_batches([fit for fit in fits if fit.lot == lot])), same


def fits_before(batch: Batch, fits: Iterable[BatchFit]) -> list[BatchFit]:
    """The fits of batches that were begun before another one."""
    begun = batch.begun or (batch.standing[-1].utc if batch.standing else None)
    return [
        fit
        for fit in fits
        if fit.batch.id != batch.id and fit.batch.begun is not None and (begun is None or fit.batch.begun < begun)
    ]


def for_a_sheet(known: Prior, barley_moisture: float) -> tuple[float, float]:
    """The rate factor [-] and the first uptake [points] to type into a sheet, which knows nothing else of the lot.

    The two at their most likely while film, rest and warmth stay typical, as they do in the sheets.
    """
    free, fixed = (0, 1), tuple(range(2, UNKNOWNS))
    between = [[known.covariance[n][m] for m in fixed] for n in fixed]
    lean = solved(between, [[known.mean[n]] for n in fixed])
    z = [known.mean[n] - sum(known.covariance[n][m] * lean[k][0] for k, m in enumerate(fixed)) for n in free]
    rate = min(max(exp(TYPICAL.rate * z[0]), RATE_FACTOR.low), RATE_FACTOR.high)
    first = min(max(TYPICAL.first_uptake_db * z[1], FIRST_UPTAKE_DB.low), FIRST_UPTAKE_DB.high)
    offset = offset_points(barley_moisture=barley_moisture, first_uptake_db=first)
    return rate, min(max(offset, MOISTURE_OFFSET.low), MOISTURE_OFFSET.high)


def lot_fits(fits: Sequence[BatchFit]) -> list[LotFit]:
    """The averages by lot and harvest, the lot steeped last coming first."""
    found = []
    for lot, members in _by_lot(fits).items():
        others = [fit for fit in fits if fit.lot != lot]
        known, _ = lot_prior(lot, [*others, *members])
        coming, _ = prior_for(lot, [*others, *members])
        middle = TYPICAL.rate * known.mean[0]
        own = BAND_SD * TYPICAL.rate * sqrt(known.covariance[0][0])
        wide = BAND_SD * TYPICAL.rate * sqrt(coming.covariance[0][0])
        last = members[-1].batch
        rate, offset = for_a_sheet(known, last.number("barley_moisture") or 12.0)
        found.append(
            LotFit(
                last.text("lot") or f"batch {last.id}",
                last.text("season"),
                members,
                exp(middle),
                exp(middle - own),
                exp(middle + own),
                exp(middle - wide),
                exp(middle + wide),
                TYPICAL.rate * between_batches(members)[0],
                rate,
                offset,
            )
        )
    return sorted(found, key=lambda one: one.fits[-1].batch.last_utc, reverse=True)


__all__ = ["MODEL_VERSION", "BatchFit", "LotFit", "fit_of", "fits_of", "lot_fits", "prior_for"]
