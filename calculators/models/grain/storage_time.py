"""How long barley keeps its germination in store, by published figures, and how much of that has been spent."""

from collections.abc import Sequence
from itertools import pairwise
from math import exp, log

from ..bounds import Bounds, check

MOISTURE = Bounds(8.0, 18.0)
TEMP_C = Bounds(-10.0, 27.0)
DAYS = Bounds(0.1, 1000.0)
SPELLS = Bounds(1, 12)

PUBLISHED_AT_C = (70.0 - 32.0) * 5.0 / 9.0
"""The warmth of the published row: 70 °F [C]."""
PUBLISHED_DAYS = ((13.0, 270.0), (14.0, 175.0), (16.0, 50.0), (17.0, 27.5), (18.0, 18.0))
"""Moisture [%] and days until the germination of malting barley suffers, at 70 °F: North Dakota State University."""
COOLEST_C = (60.0 - 32.0) * 5.0 / 9.0
"""Coolest warmth with a published figure: 60 °F, 430 days at 14 % [C]. Cooler barley is reckoned as this: it keeps
longer, and nobody was found to say how much."""
PER_KELVIN = log(430.0 / 70.0) / ((80.0 - 60.0) * 5.0 / 9.0)
"""How the days shrink with warmth [1/K]: 430 days at 60 °F and 70 at 80 °F, both at 14 %; 175 at 70 °F lies on it."""
DOUBT = Bounds(0.67, 1.5)
"""Range of the days against the figure [-]: our judgement. The source calls its figures approximate."""


def allowed_days(*, moisture: float, temp_c: float) -> float:
    """Give how long malting barley keeps its germination at one moisture and one warmth.

    Parameters
    ----------
    moisture : float
        Moisture [% of wet weight], 8 to 18; drier than 13 % is reckoned as 13 %.
    temp_c : float
        Warmth of the grain [C], -10 to 27; cooler than 15.6 °C is reckoned as that.

    Returns
    -------
    float
        Days from harvest-fresh until germination suffers.

    Raises
    ------
    OutOfRange
        When a value is outside.

    Notes
    -----
    Between the published moistures the logarithm of the days goes in a straight line.

    References
    ----------
    Hellevang, North Dakota State University, 2009 (read) and 2019 (in a copy).

    Examples
    --------
    >>> round(allowed_days(moisture=14.0, temp_c=(60.0 - 32.0) * 5.0 / 9.0), 1)
    433.7
    """
    check("moisture", moisture, MOISTURE)
    check("temp_c", temp_c, TEMP_C)
    return _at_21(max(moisture, PUBLISHED_DAYS[0][0])) * exp(PER_KELVIN * (PUBLISHED_AT_C - max(temp_c, COOLEST_C)))


def _at_21(moisture: float) -> float:
    for (low, long), (high, short) in pairwise(PUBLISHED_DAYS):
        if moisture <= high:
            part = (moisture - low) / (high - low)
            return float(exp(log(long) + part * (log(short) - log(long))))
    return PUBLISHED_DAYS[-1][1]


def spent_share(*, spells: Sequence[tuple[float, float, float]]) -> float:
    """Give what part of its time barley has spent in all its spells.

    Parameters
    ----------
    spells : sequence of (float, float, float)
        Days [days], moisture [%] and warmth [C] of each, 1 to 12 of them.

    Returns
    -------
    float
        Part of the whole [%]; over 100 where more is spent than there was.

    Raises
    ------
    OutOfRange
        When a value is outside, or there are too few or too many spells.

    Notes
    -----
    The parts add up: half of the days at one moisture leave half of the days at any other.

    Examples
    --------
    >>> round(spent_share(spells=[(13.75, 17.0, (70.0 - 32.0) * 5.0 / 9.0)]), 1)
    50.0
    """
    check("spells", len(spells), SPELLS)
    total = 0.0
    for row, (days, moisture, temp_c) in enumerate(spells):
        check("days", days, DAYS, table="spells", row=row)
        check("moisture", moisture, MOISTURE, table="spells", row=row)
        check("temp_c", temp_c, TEMP_C, table="spells", row=row)
        total += days / allowed_days(moisture=moisture, temp_c=temp_c)
    return 100.0 * total
