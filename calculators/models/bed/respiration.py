"""What growing barley breathes: gas, water and heat for the dry matter that it burns.

Everything is on one basis: a kilogram of dry matter respired is counted as starch,
C6H10O5 + 6 O2 -> 6 CO2 + 5 H2O.  A kilogram of glucose is more oxygen and less fuel:
its figures (1.466 kg CO2, 15.6 MJ) are 10 % lower and must not be mixed in.
"""

from ..bounds import BARLEY_MOISTURE, WEIGHT_KG, Bounds, check

# Molar masses [g/mol], from the standard atomic weights.
CO2_G_MOL = 44.0095
O2_G_MOL = 31.9988
WATER_G_MOL = 18.0153
STARCH_UNIT_G_MOL = 162.1406  # C6H10O5

HEAT_KJ_MOL = 2803.0
"""Heat of burning one mole of glucose, and of one glucose unit of starch [kJ/mol].

2,803 kJ/mol.  For starch itself: 17.39 MJ/kg (both from tables not noted), 0.6 % more than
the 17.29 MJ/kg that follows from 2,803.
"""

CO2_PER_KG = 6.0 * CO2_G_MOL / STARCH_UNIT_G_MOL
"""Carbon dioxide for each kilogram of dry matter respired [kg/kg], 1.629."""

O2_PER_KG = 6.0 * O2_G_MOL / STARCH_UNIT_G_MOL
"""Oxygen taken up for each kilogram of dry matter respired [kg/kg], 1.184."""

WATER_PER_KG = 5.0 * WATER_G_MOL / STARCH_UNIT_G_MOL
"""Water formed for each kilogram of dry matter respired [kg/kg], 0.556."""

HEAT_MJ_PER_KG = HEAT_KJ_MOL / STARCH_UNIT_G_MOL
"""Heat for each kilogram of dry matter respired [MJ/kg], 17.29."""

LOSS_PER_DAY = Bounds(0.01, 5.0)
"""Dry matter respired a day, % of the dry matter: far wider than 0.2 to 2, which is usual."""

_SECONDS_A_DAY = 86_400.0
_HOURS_A_DAY = 24.0


def barley_dry_matter(*, barley_kg: float, barley_moisture: float) -> float:
    """Give the dry matter of the barley that was filled in.

    Parameters
    ----------
    barley_kg : float
        Barley as weighed [kg].
    barley_moisture : float
        Its moisture, % of wet weight.

    Returns
    -------
    float
        Dry matter [kg].

    Raises
    ------
    OutOfRange
        When the weight or the moisture is outside the limits named in ``limits``.

    Examples
    --------
    >>> barley_dry_matter(barley_kg=1000.0, barley_moisture=14.0)
    860.0
    """
    check("barley_kg", barley_kg, WEIGHT_KG)
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    return barley_kg * (100.0 - barley_moisture) / 100.0


def respired_per_day(*, dry_matter_kg: float, dry_matter_loss_per_day: float) -> float:
    """Give the dry matter that the batch breathes away in a day.

    Parameters
    ----------
    dry_matter_kg : float
        Dry matter of the batch [kg].
    dry_matter_loss_per_day : float
        Share of it respired a day [%].

    Returns
    -------
    float
        Dry matter respired [kg/day].

    Raises
    ------
    OutOfRange
        When the share is not from 0.01 to 5 % a day.

    Examples
    --------
    >>> respired_per_day(dry_matter_kg=860.0, dry_matter_loss_per_day=1.0)
    8.6
    """
    check("dry_matter_loss_per_day", dry_matter_loss_per_day, LOSS_PER_DAY)
    return dry_matter_kg * dry_matter_loss_per_day / 100.0


def heat_kw(*, respired_kg_day: float) -> float:
    """Give the heat of respiration.

    Parameters
    ----------
    respired_kg_day : float
        Dry matter respired [kg/day].

    Returns
    -------
    float
        Heat [kW].

    Notes
    -----
    All the energy of what is burnt is counted as heat: what the seedling keeps in
    new tissue is small and not known.

    Examples
    --------
    >>> round(heat_kw(respired_kg_day=8.6), 2)
    1.72
    """
    return respired_kg_day * HEAT_MJ_PER_KG * 1000.0 / _SECONDS_A_DAY


def co2_kg_h(*, respired_kg_day: float) -> float:
    """Give the carbon dioxide breathed out.

    Parameters
    ----------
    respired_kg_day : float
        Dry matter respired [kg/day].

    Returns
    -------
    float
        Carbon dioxide [kg/h].

    Examples
    --------
    >>> round(co2_kg_h(respired_kg_day=43.0 / 5) * 24 * 5, 1)
    70.0
    """
    return respired_kg_day * CO2_PER_KG / _HOURS_A_DAY


def water_formed_kg_day(*, respired_kg_day: float) -> float:
    """Give the water that respiration makes inside the grain.

    Parameters
    ----------
    respired_kg_day : float
        Dry matter respired [kg/day].

    Returns
    -------
    float
        Water [kg/day].

    Examples
    --------
    >>> round(water_formed_kg_day(respired_kg_day=10.0), 2)
    5.56
    """
    return respired_kg_day * WATER_PER_KG


def co2_kg_h_at(*, heat_kw: float) -> float:
    """Give the carbon dioxide that goes with a rate of heat.

    Parameters
    ----------
    heat_kw : float
        Heat of respiration [kW].

    Returns
    -------
    float
        Carbon dioxide [kg/h], the same for starch and for glucose: 10.6 MJ/kg.

    Examples
    --------
    >>> round(co2_kg_h_at(heat_kw=1.0), 3)
    0.339
    """
    return heat_kw * 3.6 * CO2_PER_KG / HEAT_MJ_PER_KG
