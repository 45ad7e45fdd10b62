"""How far to trust a forecast of the steep, and how readings correct it.

Five things about a lot are not known when it goes into the steep; each has a typical
value and a spread (:class:`Doubt`).  Together they give the band before any reading.
Readings then move all five at once, each in proportion to how much it can explain:
the most probable values given spread and readings (least squares with shrinkage).
One early reading moves the forecast a little; several late ones move it a lot.
"""

from collections.abc import Callable, Sequence
from math import exp, sqrt
from typing import NamedTuple

from .basket import FILM_DB_LIMITS
from .hydration import (
    ACTIVATION,
    FIRST_UPTAKE_DB,
    RATE_FACTOR,
    REST_FACTOR_LIMITS,
    run,
)
from .limits import MOISTURE, STEEPED_MOISTURE, Limits, check
from .steep_course import Steep, Steeping


class Doubt(NamedTuple):
    """Standard deviations of what is not known about a lot before any reading.

    Parameters
    ----------
    rate : float
        Of the logarithm of the rate factor [-].  Four lots of Molina-Cano et al. 1995
        (data read) give 0.24; 0.28 allows for four being few.
    first_uptake_db : float
        Of the water taken up at once, kg per kg of dry matter.  The same lots give
        0.057, about a mean of 0.00.
    rest_factor : float
        Of the factor after air rests [-]: 1.3 to 1.7 is two of it each way.  Trade
        judgement, not measured.
    film_db : float
        Of the clinging film, kg per kg of dry matter.  Trade judgement.
    activation_kj_mol : float
        Of the activation energy [kJ/mol].  Our judgement: published values for
        cereals run from 25 to 50.
    shape_points : float
        What the model misses on the same lots with rate and first uptake fitted, root
        mean square [points of moisture].
    """

    rate: float = 0.28
    first_uptake_db: float = 0.06
    rest_factor: float = 0.1
    film_db: float = 0.03
    activation_kj_mol: float = 5.0
    shape_points: float = 0.2


TYPICAL = Doubt()
"""The doubt of a barley that this house has not steeped before."""

READING_SD = 0.3
"""Standard deviation of one basket reading against the model [points].

0.2 for the shape of the curve and 0.2 for weighing and draining (trade judgement);
what the film does to all readings alike is counted apart.
"""

BAND_SD = 2.0
"""Half width of every band, in standard deviations: about 95 of 100."""

_ODD_SD = 3.0
_COUNT = 5
_SETTLED = 1e-5  # of a standard deviation
_STEP = 1e-3  # of a standard deviation; the courses are smooth to 1e-9
_FIRST_READING_H = 0.25
Matrix = list[list[float]]


class Reading(NamedTuple):
    """One moisture that was found in the steep.

    Parameters
    ----------
    hours : float
        Hours from the start [h], not under 0.25.
    moisture : float
        What was found, % of wet weight.
    drained : bool, optional
        True when the film was weighed with the corns, False when it was blotted off.
    sd_points : float, optional
        Standard deviation of the reading [points].
    """

    hours: float
    moisture: float
    drained: bool = True
    sd_points: float = READING_SD


class Band(NamedTuple):
    """Lowest and highest moisture that the doubt allows, % of wet weight, as lists."""

    low: list[float]
    high: list[float]


def _clip(value: float, limits: Limits) -> float:
    return min(max(value, limits.low), limits.high)


def _moved(base: Steeping, doubt: Doubt, z: Sequence[float]) -> Steeping:
    """Give the settings with each unknown moved by z of its standard deviations."""
    energy = base.activation_kj_mol + doubt.activation_kj_mol * z[4]
    first = base.first_uptake_db + doubt.first_uptake_db * z[1]
    rest = base.rest_factor + doubt.rest_factor * z[2]
    return base._replace(
        rate_factor=_clip(base.rate_factor * exp(doubt.rate * z[0]), RATE_FACTOR),
        first_uptake_db=_clip(first, FIRST_UPTAKE_DB),
        rest_factor=_clip(rest, REST_FACTOR_LIMITS),
        film_db=_clip(base.film_db + doubt.film_db * z[3], FILM_DB_LIMITS),
        activation_kj_mol=_clip(energy, ACTIVATION),
    )


_Values = Callable[[Steep], list[float]]


def _values_and_slopes(
    base: Steeping, doubt: Doubt, z: Sequence[float], values: _Values
) -> tuple[list[float], Matrix]:
    """Give values at z, and for each value its slopes along the five unknowns."""
    here = values(run(_moved(base, doubt, z)))
    columns = []
    for n in range(_COUNT):
        step = _STEP if z[n] <= 0.0 else -_STEP  # away from the limits, if any is near
        aside = [*z]
        aside[n] += step
        there = values(run(_moved(base, doubt, aside)))
        columns.append([(b - a) / step for a, b in zip(here, there, strict=True)])
    return here, [list(row) for row in zip(*columns, strict=True)]


def _solved(matrix: Matrix, right: Matrix) -> Matrix:
    """Solve matrix x = right for a small, symmetric, positive matrix (Gauss-Jordan)."""
    size = len(matrix)
    rows = [[*a, *b] for a, b in zip(matrix, right, strict=True)]
    for n in range(size):
        pivot = rows[n][n]
        rows[n] = [value / pivot for value in rows[n]]
        for m in range(size):
            if m != n and rows[m][n]:
                factor = rows[m][n]
                rows[m] = [a - factor * b for a, b in zip(rows[m], rows[n], strict=True)]
    return [row[size:] for row in rows]


def _quadratic(row: Sequence[float], matrix: Matrix) -> float:
    return sum(a * b * matrix[n][m] for n, a in enumerate(row) for m, b in enumerate(row))


def _unit() -> Matrix:
    return [[float(n == m) for m in range(_COUNT)] for n in range(_COUNT)]


class Trust:
    """What a forecast is worth: its spread, before or after readings.

    Parameters
    ----------
    base : Steeping
        The settings that the five unknowns are moved from.
    doubt : Doubt
        Their spread before any reading.
    z : sequence of float
        Where they are now, in standard deviations from the typical.
    covariance : list of list of float
        Their covariance now, in the same units.
    """

    __slots__ = ("base", "covariance", "doubt", "z")

    def __init__(self, base: Steeping, doubt: Doubt, z: Sequence[float], covariance: Matrix) -> None:
        self.base = base
        self.doubt = doubt
        self.z = z
        self.covariance = covariance

    def spread(self, values: _Values) -> list[float]:
        """Give the standard deviation of any figures that a course yields.

        Parameters
        ----------
        values : callable
            Takes a ``Steep``, gives a list of floats, always as many.

        Returns
        -------
        list of float
            One standard deviation for each figure, in its own unit, to first order.
        """
        _, slopes = _values_and_slopes(self.base, self.doubt, self.z, values)
        return [
            sqrt(sum(a * b * self.covariance[n][m] for n, a in enumerate(row) for m, b in enumerate(row)))
            for row in slopes
        ]

    def band(self, hours: Sequence[float], stage: Sequence[int] | None = None) -> Band:
        """Give the band of doubt about the drained moisture.

        Parameters
        ----------
        hours : sequence of float
            Hours from the start [h].
        stage : sequence of int, optional
            The stage of each hour, as ``Steep.curve`` gives it, for both sides of edges.

        Returns
        -------
        Band
            Two standard deviations each way, as long as `hours`.

        Raises
        ------
        OutOfRange
            When an hour is outside the steep.
        """
        stages: Sequence[int | None] = [None] * len(hours) if stage is None else stage

        def drained(course: Steep) -> list[float]:
            return [course.at(h, n).drained for h, n in zip(hours, stages, strict=True)]

        middle = drained(run(_moved(self.base, self.doubt, self.z)))
        band = Band([], [])
        for value, sd in zip(middle, self.spread(drained), strict=True):
            wide = BAND_SD * sqrt(sd * sd + self.doubt.shape_points**2)
            band.low.append(max(value - wide, self.base.barley_moisture))
            band.high.append(min(value + wide, MOISTURE.high))
        return band


def trust(course: Steep, doubt: Doubt = TYPICAL) -> Trust:
    """Give what a forecast is worth before any reading.

    Parameters
    ----------
    course : Steep
        The forecast.
    doubt : Doubt, optional
        The spread of what is not known.

    Returns
    -------
    Trust
        Its ``band`` and the ``spread`` of other figures.

    Notes
    -----
    About 4.5 points each way at the end of usual steeps: mostly the rate of the lot.
    """
    return Trust(course.steeping, doubt, [0.0] * _COUNT, _unit())


class Fit(NamedTuple):
    """A forecast corrected by readings.

    Attributes
    ----------
    course : Steep
        The corrected forecast; ``course.steeping`` holds the fitted settings.
    trust : Trust
        Its band.
    error_points : float
        Root mean square of reading less forecast [points].
    residuals : list of float
        Reading less forecast [points], in the order of the readings.
    odd : list of bool
        True for a reading that contradicts the others: more than three standard
        deviations from what they forecast.  It still counts in the fit.  A single
        reading is held against the typical barley.
    """

    course: Steep
    trust: Trust
    error_points: float
    residuals: list[float]
    odd: list[bool]

    @property
    def rate_factor(self) -> float:
        """Give the fitted rate factor [-], 1 for a typical barley."""
        return self.course.steeping.rate_factor


def fit(course: Steep, readings: Sequence[Reading], doubt: Doubt = TYPICAL) -> Fit:
    """Give the forecast that fits some readings best, held towards the typical barley.

    Parameters
    ----------
    course : Steep
        The forecast before the readings.
    readings : sequence of Reading
        One or more; hours within the stages of the course.
    doubt : Doubt, optional
        The spread of what is not known before the readings.

    Returns
    -------
    Fit
        The corrected forecast with its band.

    Raises
    ------
    OutOfRange
        When there is no reading, or one is before 0.25 h, after the last stage, under
        the barley's own moisture or above 65 %; ``parameter`` is
        ``readings[1].moisture`` and the like (counted from 0).

    Notes
    -----
    Minimises sum((reading - forecast)/sd)^2 + sum(z^2), where z are the five unknowns
    in standard deviations from typical, by damped Gauss-Newton steps.
    """
    base = course.steeping
    check("readings", len(readings), Limits(1, 1000))
    for number, reading in enumerate(readings):
        name = f"readings[{number}]"
        check(f"{name}.hours", reading.hours, Limits(_FIRST_READING_H, course.hours))
        moistures = Limits(base.barley_moisture, STEEPED_MOISTURE.high)
        check(f"{name}.moisture", reading.moisture, moistures)
        check(f"{name}.sd_points", reading.sd_points, Limits(0.01, 10.0))

    z, covariance, residuals, _ = _most_probable(base, doubt, readings)
    return Fit(
        course=run(_moved(base, doubt, z)),
        trust=Trust(base, doubt, z, covariance),
        error_points=sqrt(sum(e * e for e in residuals) / len(residuals)),
        residuals=residuals,
        odd=_contradicting(base, doubt, readings),
    )


def _most_probable(
    base: Steeping, doubt: Doubt, readings: Sequence[Reading]
) -> tuple[list[float], Matrix, list[float], list[float]]:
    """Give z, its covariance, the residuals, and each one's left-out size in SDs."""

    def forecast(steep: Steep) -> list[float]:
        return [steep.at(r.hours)[int(r.drained)] for r in readings]

    def misfit(values: list[float], z: Sequence[float]) -> float:
        pairs = zip(readings, values, strict=True)
        missed = sum(((r.moisture - v) / r.sd_points) ** 2 for r, v in pairs)
        return missed + sum(a * a for a in z)

    z = [0.0] * _COUNT
    for _ in range(25):
        values, slopes = _values_and_slopes(base, doubt, z, forecast)
        normal, right = _unit(), [[-a] for a in z]
        for reading, value, row in zip(readings, values, slopes, strict=True):
            weight = reading.sd_points**-2
            for n in range(_COUNT):
                right[n][0] += weight * row[n] * (reading.moisture - value)
                for m in range(_COUNT):
                    normal[n][m] += weight * row[n] * row[m]
        move = [row[0] for row in _solved(normal, right)]
        if max(map(abs, move)) < _SETTLED:
            break
        before, share = misfit(values, z), 1.0
        while share > 1e-3:
            trial = [a + share * b for a, b in zip(z, move, strict=True)]
            if misfit(forecast(run(_moved(base, doubt, trial))), trial) < before:
                break
            share *= 0.5
        else:
            break
        z = trial
    covariance = _solved(normal, _unit())
    residuals = [r.moisture - v for r, v in zip(readings, values, strict=True)]
    left_out = []
    for reading, row, residual in zip(readings, slopes, residuals, strict=True):
        explained = _quadratic(row, covariance) / reading.sd_points**2
        # Left out, a residual grows by 1/(1 - h) and its variance by the same.
        alone = sqrt(max(1e-9, 1.0 - explained))
        left_out.append(abs(residual) / (alone * reading.sd_points))
    return z, covariance, residuals, left_out


def _contradicting(base: Steeping, doubt: Doubt, readings: Sequence[Reading]) -> list[bool]:
    """Flag the reading furthest from what the others forecast, then the next, and so on."""
    odd = [False] * len(readings)
    kept = list(range(len(readings)))
    while kept:
        left_out = _most_probable(base, doubt, [readings[n] for n in kept])[3]
        worst = max(range(len(kept)), key=left_out.__getitem__)
        if left_out[worst] <= _ODD_SD:
            break
        odd[kept.pop(worst)] = True
    return odd
