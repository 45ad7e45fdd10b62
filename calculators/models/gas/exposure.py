"""What a person has breathed over a day: means over 8 hours and over 15 minutes.

The values they are held against stand in ``rules.gases``. A mean says nothing of the next minute, and
nothing of a vessel.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..bounds import Bounds, OutOfRange

DAY_MINUTES = 480.0
"""Reference period of the day's limits [min]: 8 hours."""

SHORT_MINUTES = 15.0
"""Reference period of the short-term limits [min]."""

ROW_PPM = Bounds(0.0, 1_000_000.0)
ROW_MINUTES = Bounds(0.0, 1440.0)
"""How long a reading lasted [min]; 0 is a glance, of which nobody knows how long it lasted."""
UNMEASURED_PPM = Bounds(350.0, 1_000_000.0)
HOUSE_LIMIT_PPM = Bounds(400.0, 5000.0)
READING_LIMITS_TEMPERATURE_C = Bounds(-10.0, 45.0)
LOWEST_OUTDOOR_PPM = 350.0
"""A reading below this is lower than outdoor air anywhere: the meter is wrong, or was set wrong."""

Row = tuple[float, float]
"""A reading [ppm] and how long it lasted [min]."""


def measured_minutes(rows: Sequence[Row]) -> float:
    """Give how long was measured [min]."""
    return sum(minutes for _, minutes in rows)


def time_weighted_ppm(rows: Sequence[Row], unmeasured_ppm: float | None = None) -> float:
    """Give the mean over a working day of 8 hours.

    Parameters
    ----------
    rows : sequence of (float, float)
        Readings [ppm] with their minutes.
    unmeasured_ppm : float, optional
        What was breathed in the rest of the 8 hours [ppm]. It has no default: time that nobody
        measured is not clean air.

    Returns
    -------
    float
        Parts per million. A shift longer than 8 hours counts whole, over 8 hours.

    Raises
    ------
    OutOfRange
        When the rows are shorter than 8 hours and ``unmeasured_ppm`` is missing.

    References
    ----------
    29 CFR 1910.1000(d)(1): E = (Ca Ta + Cb Tb + ...) / 8.

    Examples
    --------
    >>> time_weighted_ppm([(150, 120), (75, 120), (50, 240)])
    81.25
    """
    measured = measured_minutes(rows)
    total = sum(ppm * minutes for ppm, minutes in rows)
    if measured < DAY_MINUTES:
        if unmeasured_ppm is None:
            raise OutOfRange(
                "unmeasured_ppm",
                *UNMEASURED_PPM,
                f"{DAY_MINUTES - measured:.6g} of the {DAY_MINUTES:.6g} minutes were not measured.",
            )
        total += unmeasured_ppm * (DAY_MINUTES - measured)
    return total / DAY_MINUTES


def _mean_from(rows: Sequence[Row], start: float) -> float:
    """Mean of 15 minutes of the rows laid end to end."""
    total, begin = 0.0, 0.0
    for ppm, lasted in rows:
        shared = min(begin + lasted, start + SHORT_MINUTES) - max(begin, start)
        total += ppm * max(0.0, shared)
        begin += lasted
    return total / SHORT_MINUTES


def highest_mean_ppm(rows: Sequence[Row], unmeasured_ppm: float | None = None) -> float:
    """Give the highest mean over any stretch of 15 minutes.

    Parameters
    ----------
    rows : sequence of (float, float)
        Readings [ppm] with their minutes, one straight after the other.
    unmeasured_ppm : float, optional
        What was breathed before and after; it fills the stretch where the rows are too short.

    Returns
    -------
    float
        Parts per million.

    Raises
    ------
    OutOfRange
        When the rows are shorter than the stretch and ``unmeasured_ppm`` is missing.

    Notes
    -----
    The mean over a moving stretch of a course of steps is highest where one of its ends is at a
    step, so only those are tried.
    """
    laid = list(rows)
    if unmeasured_ppm is not None and measured_minutes(rows) < DAY_MINUTES:
        laid = [(unmeasured_ppm, SHORT_MINUTES), *laid, (unmeasured_ppm, SHORT_MINUTES)]
    whole = measured_minutes(laid)
    if whole < SHORT_MINUTES - 1e-9:
        raise OutOfRange("unmeasured_ppm", *UNMEASURED_PPM, f"Fewer than {SHORT_MINUTES:.6g} minutes were measured.")
    edges = [0.0]
    for _, lasted in laid:
        edges.append(edges[-1] + lasted)
    starts = [s for edge in edges for s in (edge, edge - SHORT_MINUTES) if -1e-9 <= s <= whole - SHORT_MINUTES + 1e-9]
    return max(_mean_from(laid, start) for start in starts)
