"""The heat that turns water into vapour, at the temperature at which it happens."""

import math
from typing import NamedTuple

from ..bounds import Bounds, check
from ..nature import ZERO_C

TEMPERATURE_C = Bounds(1.0, 120.0)
"""Range checked here [C]; the equations themselves hold from 0.01 to 374 C."""

_CRITICAL_K = 647.096
_CRITICAL_PA = 22.064e6
_CRITICAL_DENSITY = 322.0

# Auxiliary equations for the boundary between water and vapour, Wagner and Pruss 2002
# (read in the source text of a program library that prints them): (factor, power) of 1 - T/Tc.
_PRESSURE = (
    (-7.85951783, 1.0),
    (1.84408259, 1.5),
    (-11.7866497, 3.0),
    (22.6807411, 3.5),
    (-15.9618719, 4.0),
    (1.80122502, 7.5),
)
_LIQUID = (
    (1.99274064, 1 / 3),
    (1.09965342, 2 / 3),
    (-0.510839303, 5 / 3),
    (-1.75493479, 16 / 3),
    (-45.5170352, 43 / 3),
    (-6.74694450e5, 110 / 3),
)
_VAPOUR = (
    (-2.03150240, 2 / 6),
    (-2.68302940, 4 / 6),
    (-5.38626492, 8 / 6),
    (-17.2991605, 18 / 6),
    (-44.7586581, 37 / 6),
    (-63.9201063, 71 / 6),
)


def _sum(terms: tuple[tuple[float, float], ...], theta: float) -> float:
    return sum(factor * math.pow(theta, power) for factor, power in terms)


class Boundary(NamedTuple):
    """Water and its vapour side by side: pressure [Pa], its rise with temperature [Pa/K], both densities [kg/m3]."""

    pressure_pa: float
    rise_pa_k: float
    liquid_kg_m3: float
    vapour_kg_m3: float


def boundary(*, temperature_c: float) -> Boundary:
    """Give what holds where water and its vapour meet; range, source and errors are those of :func:`latent_heat`.

    Examples
    --------
    >>> round(boundary(temperature_c=100.0).pressure_pa), round(boundary(temperature_c=20.0).liquid_kg_m3, 1)
    (101418, 998.2)
    """
    check("temperature_c", temperature_c, TEMPERATURE_C)
    kelvin = temperature_c + ZERO_C
    theta = 1.0 - kelvin / _CRITICAL_K
    log_ratio = _CRITICAL_K / kelvin * _sum(_PRESSURE, theta)
    slope = sum(a * n * math.pow(theta, n - 1.0) for a, n in _PRESSURE)
    pressure = _CRITICAL_PA * math.exp(log_ratio)
    return Boundary(
        pressure,
        -pressure / kelvin * (log_ratio + slope),
        _CRITICAL_DENSITY * (1.0 + _sum(_LIQUID, theta)),
        _CRITICAL_DENSITY * math.exp(_sum(_VAPOUR, theta)),
    )


def latent_heat(*, temperature_c: float) -> float:
    """Give the heat of vaporisation of water.

    Parameters
    ----------
    temperature_c : float
        Temperature at which the water evaporates [C], 1 to 120.

    Returns
    -------
    float
        Heat [kJ/kg].

    Raises
    ------
    OutOfRange
        When the temperature is outside its limits.

    Notes
    -----
    Clapeyron's equation, h = T (dp/dT) (1/rho'' - 1/rho'), with pressure and densities on the
    saturation line from the auxiliary equations.  Pure water; the last water in grain is held
    and takes a little more.

    References
    ----------
    Wagner and Pruss 2002, J. Phys. Chem. Ref. Data 31:387, auxiliary equations (read in the
    source text of the R package CHNOSZ).  Checked against the IAPWS formulation of 1995:
    10 C 2477.2, 20 C 2453.5, 60 C 2357.7, 80 C 2308.0 kJ/kg.

    Examples
    --------
    >>> round(latent_heat(temperature_c=60.0), 1)
    2357.7
    """
    here = boundary(temperature_c=temperature_c)
    return (temperature_c + ZERO_C) * here.rise_pa_k * (1.0 / here.vapour_kg_m3 - 1.0 / here.liquid_kg_m3) / 1000.0
