"""A bed of growing barley with air blown through it: the air that carries its heat off."""

from typing import NamedTuple

from ..bounds import BED_MOISTURE, Bounds, OutOfRange, check
from ..nature import OUTDOOR_PPM
from .humid_air import AIR_KG_KMOL, WATER_KJ_KG_K, MoistAir
from .respiration import CO2_G_MOL, WATER_PER_KG

FRESH_AIR_PERCENT = Bounds(1.0, 100.0)
"""With no fresh air at all the gas rises without end, so there is no figure to give."""

OUTDOOR_CO2_PERCENT = OUTDOOR_PPM / 1e4
"""Carbon dioxide in air from outside [% by volume]."""


class BedAir(NamedTuple):
    """What each kilogram of dry air does on its way through the bed."""

    heat_kj: float  # heat carried off, kJ / kg dry air
    sensible_kj: float  # of it, what warmed the air
    water_kg: float  # water taken along, kg / kg dry air

    @property
    def sensible_share(self) -> float:
        """Share of the heat that warms the air [-]; the rest goes off as vapour."""
        return self.sensible_kj / self.heat_kj


def bed_air(*, air_on: MoistAir, air_off: MoistAir) -> BedAir:
    """Give the heat and the water that a kilogram of dry air takes out of the bed.

    Parameters
    ----------
    air_on : MoistAir
        The air as it meets the bed.
    air_off : MoistAir
        The air as it leaves the bed; the grain there is taken to be as warm as the air.

    Returns
    -------
    BedAir
        Heat, the part of it that warmed the air, and water, for a kilogram of dry air.

    Raises
    ------
    OutOfRange
        When the air off is not warmer than the air on, or carries less water: then it
        does not cool a growing bed.

    Notes
    -----
    Steady state of the open bed: Q = m [(h_off - h_on) - (W_off - W_on) c_w T_off].
    The evaporated water enters the balance as liquid at the temperature of the grain;
    leaving that term out gives 2 % too little air.

    Examples
    --------
    >>> from calculators.models.bed.humid_air import moist_air
    >>> on = moist_air(temp_c=14.0, relative_humidity=100.0, pressure_pa=101325.0)
    >>> off = moist_air(temp_c=16.5, relative_humidity=100.0, pressure_pa=101325.0)
    >>> round(3600.0 / bed_air(air_on=on, air_off=off).heat_kj, 1)
    520.1
    """
    if not air_off.temp_c > air_on.temp_c:
        raise OutOfRange("air_off_c", air_on.temp_c, 40.0, "The air off must be warmer than the air on.")
    water = air_off.humidity_ratio - air_on.humidity_ratio
    if water < 0.0:
        low = air_off._replace(humidity_ratio=air_on.humidity_ratio).relative_humidity
        raise OutOfRange("air_off_rh", low, 100.0, "Drier, it would have left water in the grain.")
    heat = air_off.enthalpy_kj - air_on.enthalpy_kj - water * WATER_KJ_KG_K * air_off.temp_c
    sensible = air_on.heat_kj_k * (air_off.temp_c - air_on.temp_c)
    return BedAir(heat, sensible, water)


def dry_air_kg_h(*, heat_kw: float, through: BedAir) -> float:
    """Give the dry air that carries a rate of heat off.

    Parameters
    ----------
    heat_kw : float
        Heat to carry off [kW].
    through : BedAir
        From :func:`bed_air`.

    Returns
    -------
    float
        Dry air [kg/h].
    """
    return heat_kw * 3600.0 / through.heat_kj


def co2_percent(*, co2_kg_h: float, dry_air_kg_h: float, fresh_air_percent: float) -> float:
    """Give the carbon dioxide in the air that comes out of the bed, once it no longer changes.

    Parameters
    ----------
    co2_kg_h : float
        Carbon dioxide that the bed breathes out [kg/h].
    dry_air_kg_h : float
        Dry air through the bed [kg/h].
    fresh_air_percent : float
        Share of that air which comes from outside [%]; the rest goes round again.

    Returns
    -------
    float
        Carbon dioxide [% by volume of dry air].

    Raises
    ------
    OutOfRange
        When the share is not from 1 to 100 %.

    Notes
    -----
    The bed adds the same at each pass; what goes round keeps what it has, so the end
    value is outdoor + added / share of fresh air.  A mean of well-mixed air in the duct:
    it says nothing about the gas in a vessel, a pit or below a floor.

    Examples
    --------
    >>> round(co2_percent(co2_kg_h=0.339, dry_air_kg_h=520.0, fresh_air_percent=10.0), 2)
    0.47
    """
    check("fresh_air_percent", fresh_air_percent, FRESH_AIR_PERCENT)
    added = 100.0 * (co2_kg_h / CO2_G_MOL) / (dry_air_kg_h / AIR_KG_KMOL)
    return OUTDOOR_CO2_PERCENT + added * 100.0 / fresh_air_percent


def moisture_after_a_day(
    *, dry_matter_kg: float, bed_moisture: float, evaporated_kg_day: float, respired_kg_day: float
) -> float:
    """Give the moisture of the bed after a day of growing and drying.

    Parameters
    ----------
    dry_matter_kg : float
        Dry matter at the start of the day [kg].
    bed_moisture : float
        Moisture at the start of the day, % of wet weight.
    evaporated_kg_day : float
        Water that the air took along [kg/day].
    respired_kg_day : float
        Dry matter respired [kg/day]; the water that this makes stays in the grain.

    Returns
    -------
    float
        Moisture at the end of the day, % of wet weight; 0 when the day would take more
        water than there is.

    Raises
    ------
    OutOfRange
        When the moisture is not from 30 to 55 %.

    Examples
    --------
    >>> round(moisture_after_a_day(dry_matter_kg=880.0, bed_moisture=45.0,
    ...       evaporated_kg_day=22.1, respired_kg_day=5.0), 2)
    44.47
    """
    check("bed_moisture", bed_moisture, BED_MOISTURE)
    water = dry_matter_kg * bed_moisture / (100.0 - bed_moisture)
    water = max(0.0, water - evaporated_kg_day + WATER_PER_KG * respired_kg_day)
    return 100.0 * water / (water + dry_matter_kg - respired_kg_day)
