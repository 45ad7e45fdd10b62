"""What a fit of the steep says: the barley, where it ends, reading by reading, and what is kept."""

from __future__ import annotations

from math import exp, sqrt

from ..asking.declare import Found, Note, Rows
from ..asking.figures import fixed, plain_number
from ..models.steep.course import Steep
from ..models.steep.doubt import BAND_SD
from ..models.steep.first_uptake import offset_points
from ..models.steep.fit import Fit, Reading
from ..models.steep.hydration import MODEL_VERSION

CARRIED = 0.25
"""The first uptake is told only when the readings halve its standard deviation."""

ONE = Note(
    "remark",
    "One reading moves the forecast only part of the way. A second one, late in the next immersion, tells the rate "
    "from a bad start.",
)
FAR_OFF = 1.0
"""Points by which readings miss the fit, over what reading explains, from which on it is said (trade judgement)."""

KEEP = Note(
    "remark",
    f"Made with the steep model {MODEL_VERSION}. Keep the readings, not only the factor: a better model can fit "
    "them again.",
)


def barley_found(fitted: Fit, taken: list[Reading]) -> list[Found]:
    """The rate, the first uptake where it can be told, and the error of the fit."""
    factor = fitted.rate_factor
    doubt, covariance = fitted.trust.doubt, fitted.trust.covariance
    reach = BAND_SD * doubt.rate * sqrt(covariance[0][0])
    many = len(taken)
    found = [
        Found(
            "rate_factor",
            factor,
            f"least squares over {many} reading{'s' if many > 1 else ''}, held towards the typical barley: "
            f"{fixed(factor, 2)} times its rate",
            factor * exp(-reach),
            factor * exp(reach),
        )
    ]
    if many > 1 and covariance[1][1] <= CARRIED:
        own, first = fitted.trust.base.barley_moisture, fitted.course.steeping.first_uptake_db
        reach = BAND_SD * doubt.first_uptake_db * sqrt(covariance[1][1])
        value, low, high = (
            offset_points(barley_moisture=own, first_uptake_db=first + side * reach) for side in (0.0, -1.0, 1.0)
        )
        found.append(
            Found(
                "moisture_offset",
                value,
                f"husk and coats behave as if the barley had come in at {fixed(own + value, 1)} % instead of "
                f"{plain_number(own)} %",
                low,
                high,
            )
        )
    misses = " + ".join(f"{fixed(abs(miss), 3)}²" for miss in fitted.residuals)
    found.append(
        Found(
            "fit_error_points",
            fitted.error_points,
            f"readings less forecast: √(({misses}) / {many}) = {fixed(fitted.error_points, 2)} points",
        )
    )
    return found


def end_found(course: Steep, fitted: Fit) -> Found:
    """Where the steep ends as planned, by the readings, with its band."""
    end = fitted.course.ends[-1]
    band = fitted.trust.band([fitted.course.hours])
    low, high = band.low[0], band.high[0]
    typical = course.ends[-1].drained
    return Found(
        "moisture_end",
        end.drained,
        f"a typical barley would end on {fixed(typical, 1)} %; with these readings "
        + ", ".join(fixed(e.drained, 1) for e in fitted.course.ends)
        + " % at the stage ends",
        low,
        high,
        0 if high - low > 3 else 1,
    )


def misfit_notes(fitted: Fit) -> list[Note]:
    """That the readings do not fit one barley, and what that does to the end."""
    if fitted.trust.misfit_points <= FAR_OFF:
        return []
    text = (
        f"The readings miss the best fit by {fixed(fitted.error_points, 1)} points, more than weighing explains. That "
        "counts in the range of the end. Weigh again before you act on it."
    )
    return [Note("notice", text)]


def reading_rows(taken: list[Reading], fitted: Fit, alone: list[bool]) -> Rows:
    """Each reading against the fit, and whether it contradicts the others."""
    rows = []
    for reading, miss, odd in zip(taken, fitted.residuals, alone, strict=True):
        against = "contradicts the others" if odd else "fits"
        rows.append((reading.hours, reading.moisture, reading.moisture - miss, miss, against))
    return Rows("readings", rows)


def kept_rows(fitted: Fit, count: int) -> Rows:
    """What a later, better model needs beside the readings."""
    course = fitted.course.steeping
    offset = offset_points(barley_moisture=course.barley_moisture, first_uptake_db=course.first_uptake_db)
    row = (MODEL_VERSION, count, fitted.rate_factor, offset, fitted.error_points)
    return Rows("fit", [row])
