"""The pressure that it takes to blow air through a bed of grain, by two published ways."""

from math import log

from ..bounds import Bounds, check

AIR_M_S = Bounds(0.005, 0.3)
"""Air over the empty floor [m/s]."""
DEPTH_M = Bounds(0.05, 3.0)
POROSITY = Bounds(0.25, 0.65)

CURVE_A, CURVE_B = 2.14e4, 13.2
"""Constants of the agricultural standard's curve for barley, a [Pa s2/m3] and b [m2 s/m3]: from memory."""
WET_SHARE = 0.8
"""Moist clean grain, loose, against the dry curve [-]: ASAE D272.3, note to its chart (read in a copy)."""
PACKED_SHARE = 1.5
"""Packed grain against the curve: up to so much [-]: the same note."""
VISCOSITY_PA_S = 1.8e-5
"""Of air near 15 C [Pa s]: from memory."""
AIR_KG_M3 = 1.22
"""Of air near 15 C [kg/m3]: from memory."""
LIKE_A_BALL_MM = 3.8
"""Diameter of a ball that has a wet corn's surface for its volume [mm]: 4.75 mm in the mean (Tavakoli 2009, abstract)
times a sphericity of 0.8, our estimate."""
OPEN = Bounds(0.40, 0.50)
"""Air between the corns of a bed [-]: 0.51 was published for wet corns poured loose; a settled bed has less."""


def curve_pa_m(*, air_m_s: float) -> float:
    """Give the pressure for each metre of dry, clean, loosely filled barley, by the agricultural standard's curve.

    Parameters
    ----------
    air_m_s : float
        Air over the empty floor [m/s], 0.005 to 0.3; the curve was made for 0.0056 to 0.203 (from memory).

    Returns
    -------
    float
        Pressure [Pa/m].

    Raises
    ------
    OutOfRange
        When the air is outside.

    Notes
    -----
    Δp/L = a Q²/ln(1 + b Q).

    References
    ----------
    ASAE D272.3, Resistance to airflow of grains (its scope and notes read in a copy; the constants from memory).

    Examples
    --------
    >>> round(curve_pa_m(air_m_s=0.06), 1)
    132.1
    """
    check("air_m_s", air_m_s, AIR_M_S)
    return CURVE_A * air_m_s**2 / log(1.0 + CURVE_B * air_m_s)


def ergun_pa_m(*, air_m_s: float, porosity: float) -> float:
    """Give the pressure for each metre of a bed of balls like wet corns in air near 15 C, by Ergun's equation.

    Parameters
    ----------
    air_m_s : float
        Air over the empty floor [m/s], 0.005 to 0.3.
    porosity : float
        Room between the corns, a part of the whole [-], 0.25 to 0.65.

    Returns
    -------
    float
        Pressure [Pa/m].

    Raises
    ------
    OutOfRange
        When a value is outside.

    Notes
    -----
    Δp/L = 150 μ u (1 − ε)²/(ε³ d²) + 1.75 ρ u² (1 − ε)/(ε³ d). Made for balls, sand and coke; with corn, wheat and
    soybeans it came within 76 Pa/m of what was measured, over all densities (Molenda and others, abstract read).

    References
    ----------
    Ergun 1952, Chem. Eng. Prog. 48:89 (not read; as in the documentation of the library fluids, read).

    Examples
    --------
    >>> round(ergun_pa_m(air_m_s=0.06, porosity=0.45), 1)
    49.5
    """
    check("air_m_s", air_m_s, AIR_M_S)
    check("porosity", porosity, POROSITY)
    return _ergun(air_m_s, porosity, 0.001 * LIKE_A_BALL_MM, AIR_KG_M3, VISCOSITY_PA_S)


def _ergun(speed: float, porosity: float, ball_m: float, density: float, viscosity: float) -> float:
    solid = 1.0 - porosity
    creeping = 150.0 * viscosity * speed * solid**2 / (porosity**3 * ball_m**2)
    return creeping + 1.75 * density * speed**2 * solid / (porosity**3 * ball_m)
