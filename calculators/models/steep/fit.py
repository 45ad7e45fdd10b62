"""How readings correct a forecast of the steep.

A reading moves all that is not known about the lot at once, each in proportion to how
much it can explain: the most probable values, given their spread (``steep_doubt``) and
the readings; least squares held towards the typical barley.  One early reading moves
the forecast a little; several late ones move it a lot.
"""

from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

from ..bounds import STEEPED_MOISTURE, Bounds, check
from .course import Stage, Steep, Steeping
from .doubt import (
    BASKET,
    TYPICAL,
    TYPICAL_BARLEY,
    UNKNOWNS,
    Doubt,
    Matrix,
    Prior,
    Trust,
    clip,
    moved,
    nearby,
    quadratic,
    reach,
    solved,
    unit,
)
from .hydration import run

READING_SD = 0.3
"""Standard deviation of one basket reading against the model [points].

0.2 for the shape of the curve and 0.2 for weighing and draining (trade judgement);
what the film, the barley's moisture and the basket do to all readings alike is counted apart.
"""

ODD_SD = 3.0
"""A reading further than this from what the others forecast contradicts them [SDs]."""

READING_SDS = Bounds(0.01, 10.0)
_SETTLED = 1e-5  # of a standard deviation
FIRST_READING_H = 0.25


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


def fit(course: Steep, readings: Sequence[Reading], doubt: Doubt = TYPICAL, prior: Prior = TYPICAL_BARLEY) -> Fit:
    """Give the forecast that fits some readings best, held towards the typical barley.

    Parameters
    ----------
    course : Steep
        The forecast before the readings.
    readings : sequence of Reading
        One or more; hours within the stages of the course.
    doubt : Doubt, optional
        The spread of what is not known before the readings.
    prior : Prior, optional
        What is known of this barley from elsewhere, such as its earlier steeps; held
        towards that instead.

    Returns
    -------
    Fit
        The corrected forecast with its band.

    Raises
    ------
    OutOfRange
        When there is no reading, or one is before 0.25 h, after the last stage, under
        the barley's own moisture or above 65 %; ``table`` is ``readings`` and ``row``
        the number of the reading from 0.

    Notes
    -----
    Minimises sum((reading - forecast)/sd)^2 + sum(z^2), where z are the unknowns in
    standard deviations from typical, by damped Gauss-Newton steps.  A basket shows the
    weight that its barley would have at the moisture that was typed for it, and its own bias; an unknown that
    comes to a limit of what it stands for stays there as long as it is pushed beyond.
    With a prior, (z - mean)' covariance^-1 (z - mean) stands in place of sum(z^2).
    Where the readings miss the fit by more than their own standard deviation, the rest of that miss, as a mean
    square, is added to the variance of the band: a convention of this handbook.
    """
    base = course.steeping
    check("readings", len(readings), Bounds(1, 1000))
    for number, reading in enumerate(readings):
        hours = Bounds(FIRST_READING_H, course.hours)
        moistures = Bounds(base.barley_moisture, STEEPED_MOISTURE.high)
        check("hours", reading.hours, hours, "", "readings", number)
        check("moisture", reading.moisture, moistures, "", "readings", number)
        check("sd_points", reading.sd_points, READING_SDS, "", "readings", number)
    z, covariance, residuals, left_out = _most_probable(base, doubt, readings, prior)
    error_points = sqrt(sum(e * e for e in residuals) / len(residuals))
    read_points = sqrt(sum(reading.sd_points**2 for reading in readings) / len(readings))
    return Fit(
        course=run(moved(base, doubt, z)),
        trust=Trust(base, doubt, z, covariance, sqrt(max(0.0, error_points**2 - read_points**2))),
        error_points=error_points,
        residuals=residuals,
        odd=_contradicting(base, doubt, readings, prior, left_out),
    )


def _stages_until(base: Steeping, hours: float) -> tuple[Stage, ...]:
    """Give the stages that have begun by an hour: later ones cannot bear on readings."""
    count, start_h = 0, 0.0
    for stage in base.stages:
        if start_h >= hours:
            break
        count += 1
        start_h += stage.hours
    return base.stages[: max(2, count)]  # two hold at least one immersion


def _most_probable(
    base: Steeping, doubt: Doubt, readings: Sequence[Reading], prior: Prior
) -> tuple[list[float], Matrix, list[float], list[float]]:
    """Give z, its covariance, the residuals, and each one's left-out size in SDs."""

    def forecast(steep: Steep) -> list[float]:
        # What a scale says was worked out with the barley's moisture as typed, not as it is.
        drier = (100.0 - base.barley_moisture) / (100.0 - steep.steeping.barley_moisture)
        return [100.0 - (100.0 - steep.at(r.hours)[int(r.drained)]) * drier for r in readings]

    def shown(values: list[float], z: Sequence[float]) -> list[float]:
        return [value + doubt.basket_points * z[BASKET] for value in values]

    def misfit(values: list[float], z: Sequence[float]) -> float:
        pairs = zip(readings, values, strict=True)
        missed = sum(((r.moisture - v) / r.sd_points) ** 2 for r, v in pairs)
        return missed + quadratic([a - b for a, b in zip(z, prior.mean, strict=True)], held)

    held = solved(prior.covariance, unit())
    last_h = max((reading.hours for reading in readings), default=0.0)
    base = base._replace(stages=_stages_until(base, last_h))
    limits = reach(base, doubt)
    z = [clip(mean, limit) for mean, limit in zip(prior.mean, limits, strict=True)]
    for _ in range(25):
        values, slopes = nearby(base, doubt, z).values_and_slopes(forecast)
        values = shown(values, z)
        for row in slopes:
            row[BASKET] = doubt.basket_points
        normal = [[*row] for row in held]
        right = [[sum(row[m] * (prior.mean[m] - z[m]) for m in range(UNKNOWNS))] for row in held]
        for reading, value, row in zip(readings, values, slopes, strict=True):
            weight = reading.sd_points**-2
            for n in range(UNKNOWNS):
                right[n][0] += weight * row[n] * (reading.moisture - value)
                for m in range(UNKNOWNS):
                    normal[n][m] += weight * row[n] * row[m]
        move = _move(normal, right, z, limits)
        if max(map(abs, move)) < _SETTLED:
            break
        before, share = misfit(values, z), 1.0
        while share > 1e-3:
            trial = [clip(a + share * b, limit) for a, b, limit in zip(z, move, limits, strict=True)]
            if misfit(shown(forecast(run(moved(base, doubt, trial))), trial), trial) < before:
                break
            share *= 0.5
        else:
            break
        z = trial
    covariance = solved(normal, unit())
    residuals = [r.moisture - v for r, v in zip(readings, values, strict=True)]
    left_out = []
    for reading, row, residual in zip(readings, slopes, residuals, strict=True):
        explained = quadratic(row, covariance) / reading.sd_points**2
        # Left out, a residual grows by 1/(1 - h) and its variance by the same.
        alone = sqrt(max(1e-9, 1.0 - explained))
        left_out.append(abs(residual) / (alone * reading.sd_points))
    return z, covariance, residuals, left_out


def _move(normal: Matrix, right: Matrix, z: Sequence[float], limits: Sequence[Bounds]) -> list[float]:
    """Give the step to the least misfit, without the unknowns that it would push beyond a limit they stand at."""
    normal, right = [[*row] for row in normal], [[*row] for row in right]
    while True:
        move = [row[0] for row in solved(normal, right)]
        pushed = [
            n
            for n, (step, at, limit) in enumerate(zip(move, z, limits, strict=True))
            if (step < 0.0 and at <= limit.low) or (step > 0.0 and at >= limit.high)
        ]
        if not pushed:
            return move
        for n in pushed:
            for m in range(UNKNOWNS):
                normal[n][m] = normal[m][n] = float(n == m)
            right[n] = [0.0]


def _contradicting(
    base: Steeping, doubt: Doubt, readings: Sequence[Reading], prior: Prior, left_out: Sequence[float]
) -> list[bool]:
    """Flag the reading furthest from what the others forecast, then the next, and so on."""
    odd = [False] * len(readings)
    kept = list(range(len(readings)))
    while kept:
        worst = max(range(len(kept)), key=left_out.__getitem__)
        if left_out[worst] <= ODD_SD:
            break
        odd[kept.pop(worst)] = True
        left_out = _most_probable(base, doubt, [readings[n] for n in kept], prior)[3]
    return odd
