"""The moisture that barley comes to in air of a humidity, by three published forms that disagree."""

from math import log
from typing import NamedTuple

from ..bounds import Bounds, check

HUMIDITY = Bounds(20.0, 90.0)
TEMP_C = Bounds(0.0, 40.0)


class Equilibrium(NamedTuple):
    """The lowest and the highest of the three [% of wet weight]."""

    low: float
    high: float


_HENDERSON = (2.2919e-5, 2.0123, 195.267)
_CHUNG_PFOST = ((761.66, 0.19889, 91.323), (475.12, 0.14843, 71.996))


def equilibrium_moisture(*, humidity: float, temp_c: float) -> Equilibrium:
    """Give the moisture that barley comes to in air, as the span of three sets of constants.

    Parameters
    ----------
    humidity : float
        Relative humidity of the air [%], 20 to 90.
    temp_c : float
        Temperature of air and grain [C], 0 to 40.

    Returns
    -------
    Equilibrium
        Moistures, % of wet weight.

    Raises
    ------
    OutOfRange
        When a value is outside.

    Notes
    -----
    Modified Henderson, 1 − rh = exp(−K (T + C) M^N), and twice Chung-Pfost, rh = exp(−A/(T + C) exp(−B M)), with M on
    dry matter. Grain that dries lies above grain that takes up water; none of the forms knows that.

    References
    ----------
    The forms of ASAE D245 (not read); the constants for barley are from memory.

    Examples
    --------
    >>> found = equilibrium_moisture(humidity=65.0, temp_c=15.0)
    >>> round(found.low, 1), round(found.high, 1)
    (12.4, 14.6)
    """
    check("humidity", humidity, HUMIDITY)
    check("temp_c", temp_c, TEMP_C)
    part = humidity / 100.0
    k, n, c = _HENDERSON
    dry = [(-log(1.0 - part) / (k * (temp_c + c))) ** (1.0 / n)]
    dry += [-log(-(temp_c + c) * log(part) / a) / b for a, b, c in _CHUNG_PFOST]
    wet = sorted(100.0 * one / (100.0 + one) for one in dry)
    return Equilibrium(wet[0], wet[-1])
