"""Intake of barley: what is checked, against which limit, and how hot drying air may be."""

from ..bounds import Bounds, check

GRAIN_MOISTURE = Bounds(5.0, 40.0)
PERCENT = Bounds(0.0, 100.0)

GRAIN_AT_MOST_C = 50.0
"""The grain itself never warmer than this while it dries (HGCA Topic Sheet 60, in a copy)."""
AIR_STRICT_C = 43.0
"""Drying air at most, whatever the moisture (BMBRI Canada, read)."""
_AIR_AT_20_C, _AIR_FROM = 65.0, 20.0

REST_DAYS = 14.0
"""Two weeks warm, then cool and test again (Oxford Companion to Beer, read)."""
REST_MOISTURE = Bounds(11.0, 12.0)
"""How dry barley is that is rested warm, % of wet weight (Oxford Companion to Beer, read)."""
REST_C = Bounds(25.0, 30.0)
"""How warm it is rested (Oxford Companion to Beer, read)."""
REST_THEN_C = 17.0
"""Under this it is cooled after its rest (Oxford Companion to Beer, read)."""


def drying_air(*, moisture: float) -> float:
    """Give the hottest drying air for malting barley by its moisture.

    Parameters
    ----------
    moisture : float
        Moisture of the barley as it enters the drier, % of wet weight, 5 to 40.

    Returns
    -------
    float
        Air temperature at most [C].

    Raises
    ------
    OutOfRange
        When the moisture is outside its limits.

    Notes
    -----
    65 C up to 20 % moisture, 1 C less for each 1 % above.  Another published limit is 43 C
    at any moisture; the two differ by 22 C, and the lower costs time, not germination.

    References
    ----------
    HGCA Topic Sheet 60 (2002), in a copy.  BMBRI Canada, read.

    Examples
    --------
    >>> drying_air(moisture=18.0), drying_air(moisture=24.0)
    (65.0, 61.0)
    """
    check("moisture", moisture, GRAIN_MOISTURE)
    return _AIR_AT_20_C - max(0.0, moisture - _AIR_FROM)
