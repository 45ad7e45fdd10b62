"""What a person has breathed over a day: means over 8 hours and over 15 minutes, and the limits.

A limit is a legal or an advised figure for rooms where people work. It says nothing of the next
minute, and nothing of a vessel.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from .limits import Limits, OutOfRange

DAY_MINUTES = 480.0
"""Reference period of the day's limits [min]: 8 hours."""

SHORT_MINUTES = 15.0
"""Reference period of the short-term limits [min]."""

ROW_PPM = Limits(0.0, 1_000_000.0)
ROW_MINUTES = Limits(0.1, 1440.0)
UNMEASURED_PPM = Limits(350.0, 1_000_000.0)
HOUSE_LIMIT_PPM = Limits(400.0, 5000.0)
READING_LIMITS_TEMPERATURE_C = Limits(-10.0, 45.0)
LOWEST_OUTDOOR_PPM = 350.0
"""A reading below this is lower than outdoor air anywhere: the meter is wrong, or was set wrong."""

LEAVE_PPM = 15_000.0
"""Lowest short-term limit of those listed: a reading over it means leave, in any country."""

IDLH_PPM = 40_000.0
"""Immediately dangerous to life or health (NIOSH)."""


class Limit(NamedTuple):
    """One published limit for carbon dioxide.

    ``minutes`` is the period it is a mean over (0: for a reading); ``printed_mg_m3`` and
    ``printed_at_c`` are what is printed beside it, and the temperature that figure fits.
    ``standing`` says so where the printed limit itself was not read.
    """

    id: str
    country: str
    name: str
    ppm: float
    minutes: float
    printed_mg_m3: float | None
    printed_at_c: float | None
    source: str
    standing: str


LIMITS = (
    Limit("uk-day", "uk", "UK, 8 h, in law", 5000, 480, 9150, 20, "eh40", "second-hand"),
    Limit("uk-short", "uk", "UK, 15 min, in law", 15_000, 15, 27_400, 20, "eh40", "second-hand"),
    Limit("eu-day", "eu", "EU, 8 h, indicative", 5000, 480, 9000, None, "eu-2006-15", "second-hand"),
    Limit("us-day", "us", "US, 8 h, in law", 5000, 480, 9000, 25, "niosh-co2", ""),
    Limit("us-ten", "us", "US, 10 h, advised", 5000, 600, 9000, 25, "niosh-co2", ""),
    Limit("us-short", "us", "US, short term, advised", 30_000, 15, None, None, "niosh-co2", ""),
    Limit("idlh", "any", "Dangerous at once (IDLH)", IDLH_PPM, 0, None, None, "niosh-co2", ""),
)
"""Limits for carbon dioxide by country.

9,000 and 9,150 are the same 5,000 ppm at 25 C and at 20 C; the EU's 9,000 is 9,148 rounded.
The UK and EU rows are second-hand: several works quote them alike, the printed rows were not seen.
"""

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
                f"{DAY_MINUTES - measured:.6g} of the 480 minutes were not measured.",
            )
        total += unmeasured_ppm * (DAY_MINUTES - measured)
    return total / DAY_MINUTES


def _mean_from(rows: Sequence[Row], start: float, minutes: float) -> float:
    """Mean of a stretch of the rows laid end to end."""
    total, begin = 0.0, 0.0
    for ppm, lasted in rows:
        shared = min(begin + lasted, start + minutes) - max(begin, start)
        total += ppm * max(0.0, shared)
        begin += lasted
    return total / minutes


def highest_mean_ppm(rows: Sequence[Row], unmeasured_ppm: float | None = None, minutes: float = SHORT_MINUTES) -> float:
    """Give the highest mean over any stretch of a length, by default 15 minutes.

    Parameters
    ----------
    rows : sequence of (float, float)
        Readings [ppm] with their minutes, one straight after the other.
    unmeasured_ppm : float, optional
        What was breathed before and after; it fills the stretch where the rows are too short.
    minutes : float, optional
        Length of the stretch.

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
        laid = [(unmeasured_ppm, minutes), *laid, (unmeasured_ppm, minutes)]
    whole = measured_minutes(laid)
    if whole < minutes - 1e-9:
        raise OutOfRange("unmeasured_ppm", *UNMEASURED_PPM, f"Fewer than {minutes:.6g} minutes were measured.")
    edges = [0.0]
    for _, lasted in laid:
        edges.append(edges[-1] + lasted)
    starts = [s for edge in edges for s in (edge, edge - minutes) if -1e-9 <= s <= whole - minutes + 1e-9]
    return max(_mean_from(laid, start, minutes) for start in starts)
