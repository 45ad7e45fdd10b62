"""How water-sensitive barley is steeped: longer rests, shorter immersions."""

from .limit import edge, judge
from .limits.germination_test import WATER_SENSITIVITY
from .limits.steeping import IMMERSION

_SENSITIVE = {
    "accept": (0.0, edge(IMMERSION.stop_high)),
    "watch": (8.0, edge(IMMERSION.accept_high)),
    "stop": (12.0, 6.0),
}
"""By how the sensitivity is judged: hours of rest at least, hours of an immersion at most (common practice)."""


def rest_for(*, water_sensitivity: float) -> float:
    """Give the shortest air rest that water-sensitive barley is given.

    Parameters
    ----------
    water_sensitivity : float
        Energy in 4 ml less energy in 8 ml [points].

    Returns
    -------
    float
        Hours; 0 when it is not sensitive.

    Notes
    -----
    That the rest grows with the sensitivity: MEBAK R-110.34.612 (read). The hours are common practice.

    Examples
    --------
    >>> [rest_for(water_sensitivity=s) for s in (9, 11, 31, 60)]
    [0.0, 8.0, 12.0, 12.0]
    """
    return _SENSITIVE[judge(WATER_SENSITIVITY, water_sensitivity)][0]


def longest_for(*, water_sensitivity: float) -> float:
    """Give the longest immersion that water-sensitive barley is wished; the table's stop when it is not sensitive.

    Parameters
    ----------
    water_sensitivity : float
        Energy in 4 ml less energy in 8 ml [points].

    Returns
    -------
    float
        Hours: common practice.
    """
    return _SENSITIVE[judge(WATER_SENSITIVITY, water_sensitivity)][1]
