"""How far to trust a forecast of the steep.

Eight things about a lot and its basket are not known when it goes into the steep; each has
a typical value and a spread (:class:`Doubt`).  Carried through the model they give the band of
doubt; ``steep_fit`` narrows it with readings.
"""

from collections.abc import Callable, Sequence
from math import exp, inf, log, sqrt
from operator import mul
from typing import NamedTuple

from ..bounds import BARLEY_MOISTURE, MOISTURE, Bounds
from ..weights.basket import FILM_DB_LIMITS
from .course import Stage, Steep, Steeping
from .hydration import ACTIVATION, FIRST_UPTAKE_DB, RATE_FACTOR, REST_FACTOR_LIMITS, SURFACE, run


class Doubt(NamedTuple):
    """Standard deviations of what is not known about a lot before any reading.

    Parameters
    ----------
    rate : float
        Of the logarithm of the rate factor [-].  Eight lots of Molina-Cano et al. 1995 (data
        read) come from four sites and years, which differ by 0.26; two lots of one site and
        year differ by 0.05.  A lot of a fifth lies within 3.18 times 0.29 of their mean, 3.18
        being Student's t of three degrees of freedom: 0.46 makes two of it as wide.
    first_uptake_db : float
        Of the water taken up at once, kg per kg of dry matter: 0.052 between sites and years,
        made as wide in the same way.
    rest_factor : float
        Of the factor after air rests [-]: 1.0 to 2.1 is two of it each way, from no effect to
        twice the usual.  Trade judgement, not measured.
    film_db : float
        Of the clinging film, kg per kg of dry matter.  Trade judgement.
    activation_kj_mol : float
        Of the activation energy [kJ/mol].  Our judgement: published values for
        cereals run from 25 to 50.
    surface_db : float
        Of the value at the surface, kg per kg of dry matter.  From 0.85 to 1.05 the same lots
        are fitted about as well, each with a rate and first uptake that follow.
    barley_moisture : float
        Of the moisture of the barley as filled [points]: sampling and meter, trade judgement.
    basket_points : float
        Of what a basket shows beyond the batch, at every reading alike [points]: place,
        drainage and scale, trade judgement.
    shape_points : float
        What the model misses on the same lots with rate and first uptake fitted, root
        mean square [points of moisture].
    """

    rate: float = 0.46
    first_uptake_db: float = 0.093
    rest_factor: float = 0.3
    film_db: float = 0.03
    activation_kj_mol: float = 5.0
    surface_db: float = 0.07
    barley_moisture: float = 0.3
    basket_points: float = 0.3
    shape_points: float = 0.2


TYPICAL = Doubt()
"""The doubt of a barley that this house has not steeped before."""

BAND_SD = 2.0
"""Half width of every band, in standard deviations: about 95 of 100."""

UNKNOWNS = 8
BASKET = 7  # the unknown that moves readings and not the course
_STEP = 1e-2  # of a standard deviation; less would let the last bits of a course into its slopes
Matrix = list[list[float]]


class Band(NamedTuple):
    """Lowest and highest moisture that the doubt allows, % of wet weight, as lists."""

    low: list[float]
    high: list[float]


def clip(value: float, limits: Bounds) -> float:
    """Give the value, or the limit that it is beyond."""
    return min(max(value, limits.low), limits.high)


def moved(base: Steeping, doubt: Doubt, z: Sequence[float]) -> Steeping:
    """Give the settings with each unknown moved by z of its standard deviations."""
    energy = base.activation_kj_mol + doubt.activation_kj_mol * z[4]
    first = base.first_uptake_db + doubt.first_uptake_db * z[1]
    rest = base.rest_factor + doubt.rest_factor * z[2]
    return base._replace(
        barley_moisture=clip(base.barley_moisture + doubt.barley_moisture * z[6], BARLEY_MOISTURE),
        surface_db=clip(base.surface_db + doubt.surface_db * z[5], SURFACE),
        rate_factor=clip(base.rate_factor * exp(doubt.rate * z[0]), RATE_FACTOR),
        first_uptake_db=clip(first, FIRST_UPTAKE_DB),
        rest_factor=clip(rest, REST_FACTOR_LIMITS),
        film_db=clip(base.film_db + doubt.film_db * z[3], FILM_DB_LIMITS),
        activation_kj_mol=clip(energy, ACTIVATION),
    )


def reach(base: Steeping, doubt: Doubt) -> list[Bounds]:
    """Give how far each unknown can be moved, in its standard deviations: to the limits of what it stands for."""

    def between(value: float, sd: float, low: float, high: float) -> Bounds:
        return Bounds((low - value) / sd, (high - value) / sd) if sd > 0.0 else Bounds(-inf, inf)

    return [
        between(log(base.rate_factor), doubt.rate, log(RATE_FACTOR.low), log(RATE_FACTOR.high)),
        between(base.first_uptake_db, doubt.first_uptake_db, *FIRST_UPTAKE_DB),
        between(base.rest_factor, doubt.rest_factor, *REST_FACTOR_LIMITS),
        between(base.film_db, doubt.film_db, *FILM_DB_LIMITS),
        between(base.activation_kj_mol, doubt.activation_kj_mol, *ACTIVATION),
        between(base.surface_db, doubt.surface_db, *SURFACE),
        between(base.barley_moisture, doubt.barley_moisture, *BARLEY_MOISTURE),
        Bounds(-inf, inf),
    ]


_Values = Callable[[Steep], list[float]]


class Nearby(NamedTuple):
    """The course at a z, and one a step aside along each unknown."""

    here: Steep
    aside: list[tuple[float, Steep]]

    def values_and_slopes(self, values: _Values) -> tuple[list[float], Matrix]:
        """Give values at z, and for each value its slopes along the unknowns; a course has none along the basket."""
        here = values(self.here)
        columns = []
        for step, course in self.aside:
            columns.append([(b - a) / step for a, b in zip(here, values(course), strict=True)])
        columns.append([0.0] * len(here))
        return here, [list(row) for row in zip(*columns, strict=True)]


def nearby(base: Steeping, doubt: Doubt, z: Sequence[float]) -> Nearby:
    """Give the courses at z and around it."""
    aside = []
    for n in range(BASKET):
        step = _STEP if z[n] <= 0.0 else -_STEP  # away from the limits, if any is near
        there = [*z]
        there[n] += step
        aside.append((step, run(moved(base, doubt, there))))
    return Nearby(run(moved(base, doubt, z)), aside)


def solved(matrix: Matrix, right: Matrix) -> Matrix:
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


def quadratic(row: Sequence[float], matrix: Matrix) -> float:
    """Give row x matrix x row."""
    total: float = sum(a * sum(map(mul, row, line)) for a, line in zip(row, matrix, strict=True))
    return total


def unit() -> Matrix:
    """Give the covariance of the unknowns before any reading."""
    return [[float(n == m) for m in range(UNKNOWNS)] for n in range(UNKNOWNS)]


class Prior(NamedTuple):
    """What is known of a barley before its readings, in standard deviations from the typical.

    Parameters
    ----------
    mean : list of float
        Where the unknowns are expected, shape (8,).
    covariance : list of list of float
        How far they may be off, shape (8, 8), symmetric and positive.
    """

    mean: list[float]
    covariance: Matrix


TYPICAL_BARLEY = Prior([0.0] * UNKNOWNS, unit())
"""Nothing is known but what barley is like."""


class Trust:
    """What a forecast is worth: its spread, before or after readings.

    Parameters
    ----------
    base : Steeping
        The settings that the unknowns are moved from.
    doubt : Doubt
        Their spread before any reading.
    z : sequence of float
        Where they are now, in standard deviations from the typical.
    covariance : list of list of float
        Their covariance now, in the same units.
    misfit_points : float, optional
        By how much readings miss the forecast beyond what reading them explains [points of moisture]: what made
        them miss may make the end miss as far.
    """

    __slots__ = ("_nearby", "base", "covariance", "doubt", "misfit_points", "z")

    def __init__(
        self, base: Steeping, doubt: Doubt, z: Sequence[float], covariance: Matrix, misfit_points: float = 0.0
    ) -> None:
        self.base = base
        self.doubt = doubt
        self.z = z
        self.covariance = covariance
        self.misfit_points = misfit_points
        self._nearby: Nearby | None = None

    def over(self, stages: Sequence[Stage]) -> "Trust":
        """Give the same doubt of the same barley, steeped in other stages."""
        base = self.base._replace(stages=tuple(stages))
        return Trust(base, self.doubt, self.z, self.covariance, self.misfit_points)

    @property
    def here(self) -> Steep:
        """Give the course that it is the doubt of."""
        return run(moved(self.base, self.doubt, self.z)) if self._nearby is None else self._nearby.here

    def values_and_spread(self, values: _Values) -> tuple[list[float], list[float]]:
        """Give the figures that a course yields, and the standard deviation of each; see `spread`."""
        if self._nearby is None:
            self._nearby = nearby(self.base, self.doubt, self.z)
        here, slopes = self._nearby.values_and_slopes(values)
        return here, [sqrt(quadratic(row, self.covariance)) for row in slopes]

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
        return self.values_and_spread(values)[1]

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
        band = Band([], [])
        drained = self.values_and_spread(lambda course: course.drained_along(hours, stage))
        for value, sd in zip(*drained, strict=True):
            wide = BAND_SD * sqrt(sd * sd + self.doubt.shape_points**2 + self.misfit_points**2)
            band.low.append(max(value - wide, min(value, self.base.barley_moisture)))
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
    About 7 points each way at the end of usual steeps: mostly the rate of the lot, known from
    four sites and years.
    """
    return Trust(course.steeping, doubt, [0.0] * UNKNOWNS, unit())
