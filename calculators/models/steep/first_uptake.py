"""Water that husk and coats take up at once, as points of moisture that a maltster can carry on.

The steep model counts it on the dry matter.  A house that has fitted a barley wants one
number to type for the next steep of it: how many points the barley seems wetter (or
drier) at the start than it was filled in.
"""

from ..bounds import BARLEY_MOISTURE, Bounds, check

MOISTURE_OFFSET = Bounds(-8.0, 8.0)
"""Wider than any published lot: those of Molina-Cano et al. 1995 run from -4 to +4 points."""


def first_uptake(*, barley_moisture: float, moisture_offset: float) -> float:
    """Give the first uptake on the dry matter that an offset in points stands for.

    Parameters
    ----------
    barley_moisture : float
        Moisture of the barley filled in, % of wet weight.
    moisture_offset : float
        Points by which it behaves as if it were wetter when the water comes.

    Returns
    -------
    float
        Water taken up at once beyond a typical barley, kg per kg of dry matter.

    Raises
    ------
    OutOfRange
        When the barley is not from 5 to 25 % or the offset not from -8 to 8 points.

    Examples
    --------
    >>> round(first_uptake(barley_moisture=12.0, moisture_offset=3.0), 4)
    0.0401
    """
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    check("moisture_offset", moisture_offset, MOISTURE_OFFSET)
    wetter = barley_moisture + moisture_offset
    return wetter / (100.0 - wetter) - barley_moisture / (100.0 - barley_moisture)


def offset_points(*, barley_moisture: float, first_uptake_db: float) -> float:
    """Give the offset in points that a first uptake stands for; undoes :func:`first_uptake`.

    Parameters
    ----------
    barley_moisture : float
        Moisture of the barley filled in, % of wet weight.
    first_uptake_db : float
        Water taken up at once, kg per kg of dry matter.

    Returns
    -------
    float
        Points of moisture at the start.

    Raises
    ------
    OutOfRange
        When the barley is not from 5 to 25 %.

    Examples
    --------
    >>> round(offset_points(barley_moisture=12.0, first_uptake_db=0.0401), 2)
    3.0
    """
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    water = barley_moisture / (100.0 - barley_moisture) + first_uptake_db
    return 100.0 * water / (1.0 + water) - barley_moisture
