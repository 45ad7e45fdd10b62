"""Humid air, by psychrolib: the ASHRAE formulas for moist air as floats in and floats out.

psychrolib is imported when it is first needed, because a page that only lists the
sheets has no use for it.
"""

from typing import NamedTuple

from ..bounds import Bounds, check

AIR_C = Bounds(0.0, 40.0)
"""Air for growing barley [C]: below 0 C nothing grows, above 40 C barley dies."""

AIR_RH = Bounds(1.0, 100.0)
ALTITUDE_M = Bounds(-100.0, 4000.0)
FAN_PA = Bounds(0.0, 5000.0)
FAN_EFFICIENCY = Bounds(0.1, 1.0)

WATER_KJ_KG_K = 4.186
"""Specific heat of liquid water [kJ/kg K], as the sums of humid air take it.

Not the rounder 4.19 of ``steep.mixing``, which its sheets print: one in place of the other moves figures that are
shown.
"""

DRY_AIR_KJ_KG_K = 1.006
"""Specific heat of dry air [kJ/kg K]; that of water vapour is 1.86."""

AIR_KG_KMOL = 28.966
"""Molar mass of dry air [kg/kmol]."""


class MoistAir(NamedTuple):
    """A state of moist air; what is for a kilogram is for a kilogram of dry air."""

    temp_c: float
    humidity_ratio: float  # kg water / kg dry air
    enthalpy_kj: float  # kJ / kg dry air, from 0 C and liquid water
    volume_m3: float  # m3 of moist air / kg dry air
    pressure_pa: float

    @property
    def heat_kj_k(self) -> float:
        """Heat to warm it by one kelvin [kJ/K for each kg of dry air]."""
        return DRY_AIR_KJ_KG_K + 1.86 * self.humidity_ratio

    @property
    def relative_humidity(self) -> float:
        """Relative humidity [%]; 100 also for what is just saturated."""
        import psychrolib as air

        air.SetUnitSystem(air.SI)
        share: float = air.GetRelHumFromHumRatio(self.temp_c, self.humidity_ratio, self.pressure_pa)
        return min(100.0, 100.0 * share)


def pressure_at(*, altitude_m: float) -> float:
    """Give the pressure of the standard atmosphere.

    Parameters
    ----------
    altitude_m : float
        Height above the sea [m].

    Returns
    -------
    float
        Pressure [Pa].

    Raises
    ------
    OutOfRange
        Outside -100 to 4,000 m.

    References
    ----------
    ASHRAE Handbook, Fundamentals, as coded in psychrolib.

    Examples
    --------
    >>> round(pressure_at(altitude_m=500.0))
    95461
    """
    import psychrolib as air

    check("altitude_m", altitude_m, ALTITUDE_M)
    air.SetUnitSystem(air.SI)
    pressure: float = air.GetStandardAtmPressure(altitude_m)
    return pressure


def _state(temp_c: float, humidity_ratio: float, pressure_pa: float) -> MoistAir:
    import psychrolib as air

    return MoistAir(
        temp_c,
        humidity_ratio,
        air.GetMoistAirEnthalpy(temp_c, humidity_ratio) / 1000.0,
        air.GetMoistAirVolume(temp_c, humidity_ratio, pressure_pa),
        pressure_pa,
    )


def moist_air(*, temp_c: float, relative_humidity: float, pressure_pa: float) -> MoistAir:
    """Give the state of moist air.

    Parameters
    ----------
    temp_c : float
        Temperature [C].
    relative_humidity : float
        Relative humidity [%].
    pressure_pa : float
        Pressure [Pa].

    Returns
    -------
    MoistAir
        Humidity ratio, enthalpy and volume for a kilogram of dry air.

    Raises
    ------
    OutOfRange
        Outside 0 to 40 C or 1 to 100 %.

    Notes
    -----
    The enhancement factor is left out: saturated air holds 0.42 to 0.46 % less water
    than handbook tables say.

    References
    ----------
    ASHRAE Handbook, Fundamentals, as coded in psychrolib.

    Examples
    --------
    >>> round(moist_air(temp_c=14.0, relative_humidity=100.0, pressure_pa=101325.0).enthalpy_kj, 2)
    39.28
    """
    import psychrolib as air

    check("temp_c", temp_c, AIR_C)
    check("relative_humidity", relative_humidity, AIR_RH)
    air.SetUnitSystem(air.SI)
    ratio = air.GetHumRatioFromRelHum(temp_c, relative_humidity / 100.0, pressure_pa)
    return _state(temp_c, ratio, pressure_pa)


def warmed(state: MoistAir, *, by_k: float) -> MoistAir:
    """Give air that was warmed without taking up or losing water.

    Parameters
    ----------
    state : MoistAir
        The air before.
    by_k : float
        Rise in temperature [K].

    Returns
    -------
    MoistAir
        The air after: drier by relative humidity, with the same water in it.
    """
    import psychrolib as air

    air.SetUnitSystem(air.SI)
    return _state(state.temp_c + by_k, state.humidity_ratio, state.pressure_pa)


def fan_warming(state: MoistAir, *, fan_pa: float, fan_efficiency: float) -> float:
    """Give how far a fan warms the air that it moves.

    Parameters
    ----------
    state : MoistAir
        The air at the fan.
    fan_pa : float
        Total pressure that the fan makes [Pa].
    fan_efficiency : float
        Of fan, drive and motor together where the motor stands in the air [-].

    Returns
    -------
    float
        Rise in temperature [K].

    Raises
    ------
    OutOfRange
        Outside 0 to 5,000 Pa or an efficiency of 0.1 to 1.

    Notes
    -----
    dT = dp v / (cp eta), with v and cp for a kilogram of dry air: all the power of the
    fan ends as heat in the air.

    Examples
    --------
    >>> air = moist_air(temp_c=14.0, relative_humidity=100.0, pressure_pa=101325.0)
    >>> round(fan_warming(air, fan_pa=800.0, fan_efficiency=0.6), 2)
    1.08
    """
    check("fan_pa", fan_pa, FAN_PA)
    check("fan_efficiency", fan_efficiency, FAN_EFFICIENCY)
    return fan_pa * state.volume_m3 / (1000.0 * state.heat_kj_k * fan_efficiency)
