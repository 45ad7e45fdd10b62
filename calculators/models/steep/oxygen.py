"""Oxygen in steep water, how soon it would be half gone, and the process air a steep is given."""

from math import exp

from ..bounds import WEIGHT_KG, Bounds, check
from ..nature import ZERO_C

WATER_TEMP_C = Bounds(0.0, 40.0)
ALTITUDE_M = Bounds(-400.0, 4000.0)
UPTAKE = Bounds(0.1, 10_000.0)
WATER_M3 = Bounds(0.001, 5000.0)

TAKEN_FIRST, TAKEN_THIRD = 1.0, 10.0
"""Oxygen seen taken from the water [mg/kg h]: about 1 in the first steep, ten times that by the third.

A textbook whose title was not noted: not citable.  It is what water brought, not what corns would use:
that is ``living.by_day.breath_of_immersion``.
"""

_FT3 = 0.3048**3
_BUSHELS_KG = 1000.0 * 48.0 * 0.45359237
AIR_M3_T_H = 25.0 * _FT3 * 60.0 / _BUSHELS_KG * 1000.0
"""Least air while wet [m3/t h]: 25 ft3/min for 1,000 bushels of 48 lb (Haley and Stokes
1987, MBAA Technical Quarterly 24:33, abstract read)."""
SUCTION_M3_T_H = 4.0 * AIR_M3_T_H
"""Least suction while dry [m3/t h]: 100 ft3/min for 1,000 bushels, same source."""


def pressure_at(*, altitude_m: float) -> float:
    """Give the usual pressure of the air at a height.

    Parameters
    ----------
    altitude_m : float
        Height above the sea [m].

    Returns
    -------
    float
        Pressure [atm].

    Raises
    ------
    OutOfRange
        When the height is not from -400 to 4,000 m.

    Notes
    -----
    Standard atmosphere: (1 - 2.25577e-5 h)^5.2559.

    Examples
    --------
    >>> round(101325 * pressure_at(altitude_m=500.0))
    95461
    """
    check("altitude_m", altitude_m, ALTITUDE_M)
    pressure: float = (1.0 - 2.25577e-5 * altitude_m) ** 5.2559
    return pressure


def oxygen_saturation(*, water_temp_c: float, altitude_m: float = 0.0) -> float:
    """Give the oxygen in water that has stood long in moist air.

    Parameters
    ----------
    water_temp_c : float
        Temperature of the water [C].
    altitude_m : float, optional
        Height above the sea [m].

    Returns
    -------
    float
        Oxygen [mg/L].

    Raises
    ------
    OutOfRange
        When the water is not from 0 to 40 C or the height not from -400 to 4,000 m.

    Notes
    -----
    APHA 4500-O: ln C = -139.34411 + 1.575701e5/T - 6.642308e7/T^2 + 1.243800e10/T^3
    - 8.621949e11/T^4 at 1 atm; at pressure p times
    p (1 - pw/p)(1 - theta p) / ((1 - pw)(1 - theta)), with the vapour pressure pw
    [atm], ln pw = 11.8571 - 3840.70/T - 216961/T^2, and theta = 0.000975 - 1.426e-5 t
    + 6.436e-8 t^2 (the pressure law from memory).

    References
    ----------
    American Public Health Association, Standard Methods, 4500-O.

    Examples
    --------
    >>> round(oxygen_saturation(water_temp_c=10.0), 3)
    11.288
    """
    check("water_temp_c", water_temp_c, WATER_TEMP_C)
    t = water_temp_c
    k = t + ZERO_C
    at_sea = exp(-139.34411 + 1.575701e5 / k - 6.642308e7 / k**2 + 1.243800e10 / k**3 - 8.621949e11 / k**4)
    p = pressure_at(altitude_m=altitude_m)
    vapour = exp(11.8571 - 3840.70 / k - 216961.0 / k**2)
    theta = 0.000975 - 1.426e-5 * t + 6.436e-8 * t * t
    return at_sea * (p - vapour) * (1.0 - theta * p) / ((1.0 - vapour) * (1.0 - theta))


def minutes_to_half(*, oxygen_mg_l: float, water_m3: float, grain_kg: float, uptake_mg_kg_h: float) -> float:
    """Give the longest that half of the oxygen in stirred water could last, with none coming in.

    Parameters
    ----------
    oxygen_mg_l : float
        Oxygen in the water at the start [mg/L].
    water_m3 : float
        Water in the steep, between the corns too [m3].
    grain_kg : float
        Barley as filled [kg].
    uptake_mg_kg_h : float
        Oxygen the grain takes [mg/kg h].

    Returns
    -------
    float
        Minutes.  At the corns it runs short much sooner, since still water brings
        none.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> round(minutes_to_half(oxygen_mg_l=10.0, water_m3=8.0, grain_kg=6000.0, uptake_mg_kg_h=10.0), 6)
    40.0
    """
    check("oxygen_mg_l", oxygen_mg_l, Bounds(0.0, 20.0))
    check("water_m3", water_m3, WATER_M3)
    check("grain_kg", grain_kg, WEIGHT_KG)
    check("uptake_mg_kg_h", uptake_mg_kg_h, UPTAKE)
    return 60.0 * 0.5 * oxygen_mg_l * water_m3 * 1000.0 / (grain_kg * uptake_mg_kg_h)
