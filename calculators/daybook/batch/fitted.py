"""What the readings of a batch make of its barley, as two numbers that the sheets of the steep take."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp
from typing import NamedTuple

from ...models.steep.doubt import TYPICAL, UNKNOWNS, Matrix, solved
from ...models.steep.first_uptake import MOISTURE_OFFSET, first_uptake, offset_points
from ...models.steep.hydration import RATE_FACTOR
from .course import Course


class ForSheets(NamedTuple):
    """Rate factor [-] and first uptake [points]; ``whole`` is false where the sheets do not take so much of either."""

    rate: float
    offset: float
    whole: bool


def for_sheets(course: Course, barley_moisture: float) -> ForSheets | None:
    """The two at their likeliest by the readings, while film, rest and warmth stay typical, as they do in the sheets.

    Parameters
    ----------
    course : Course
        The steep of the batch.
    barley_moisture : float
        As it is typed into the sheet, % of wet weight.

    Returns
    -------
    ForSheets or None
        None where nothing was fitted.
    """
    if course.fitted is None:
        return None
    trust = course.fitted.trust
    typical = dict.fromkeys(range(2, UNKNOWNS), 0.0)
    first = TYPICAL.first_uptake_db * _given(trust.z, trust.covariance, 1, typical)
    wanted = offset_points(barley_moisture=barley_moisture, first_uptake_db=first)
    offset = min(max(wanted, MOISTURE_OFFSET.low), MOISTURE_OFFSET.high)
    taken = first_uptake(barley_moisture=barley_moisture, moisture_offset=offset) / TYPICAL.first_uptake_db
    free = exp(TYPICAL.rate * _given(trust.z, trust.covariance, 0, {**typical, 1: taken}))
    rate = min(max(free, RATE_FACTOR.low), RATE_FACTOR.high)
    return ForSheets(rate, offset, rate == free and offset == wanted)


def _given(mean: Sequence[float], covariance: Matrix, one: int, held: dict[int, float]) -> float:
    """Where an unknown is expected, given where some of the others are, in standard deviations."""
    between = [[covariance[n][m] for m in held] for n in held]
    lean = solved(between, [[held[n] - mean[n]] for n in held])
    return mean[one] + sum(covariance[one][n] * row[0] for n, row in zip(held, lean, strict=True))
