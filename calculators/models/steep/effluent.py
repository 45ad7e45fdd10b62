"""What steep water carries away: the oxygen demand of what leached, its strength, and persons that load as much."""

from ..bed.respiration import O2_PER_KG
from ..bounds import BARLEY_MOISTURE, WEIGHT_KG, Bounds, check

LEACHED_PERCENT = Bounds(0.1, 5.0)
"""Dry matter that leaves with the water [%]."""
WATER_M3 = Bounds(0.01, 10_000.0)
LOAD_KG = Bounds(0.0, 100_000.0)
STRENGTH_MG_L = Bounds(1.0, 100_000.0)

LEAST_SHARE, MOST_SHARE = 0.5, 1.5
"""Ends of what leaches against its middle: 0.5 to 1.5 % beside 1 % (from memory; Ure has 1.4)."""
BOD_OF_COD = 0.5
"""Biochemical oxygen demand in five days for a kilogram of chemical [-]: 5 to 6 kg beside 10 to 12 kg for a tonne of
barley steeped (design notes, read)."""
BOD_OF_COD_ENDS = Bounds(0.42, 0.67)
"""Least: 5 beside 12 kg of the same notes. Most: one to one and a half, of a brewery's water (trade press, read)."""
PERSON_G_DAY = 60.0
"""Five-day demand that stands for one person and day [g]: Directive 91/271/EEC, article 2 (second-hand)."""


def leached_demand_kg(*, barley_kg: float, barley_moisture: float, leached_percent: float) -> float:
    """Give the chemical oxygen demand of what leaves barley with its steep water.

    Parameters
    ----------
    barley_kg : float
        Barley as weighed in [kg].
    barley_moisture : float
        Its moisture [% of wet weight].
    leached_percent : float
        Dry matter that leaves with the water [%], 0.1 to 5.

    Returns
    -------
    float
        Oxygen demand [kg].

    Raises
    ------
    OutOfRange
        When a value is outside.

    Notes
    -----
    What leaves is burnt as if it were starch, 1.184 kg of oxygen a kilogram. Dust and husk that wash off are in it only
    as far as the share counts them; minerals take up no oxygen, protein more.

    Examples
    --------
    >>> round(leached_demand_kg(barley_kg=1000, barley_moisture=12, leached_percent=1), 1)
    10.4
    """
    check("barley_kg", barley_kg, WEIGHT_KG)
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    check("leached_percent", leached_percent, LEACHED_PERCENT)
    return barley_kg * (100.0 - barley_moisture) / 100.0 * leached_percent / 100.0 * O2_PER_KG


def strength_mg_l(*, load_kg: float, water_m3: float) -> float:
    """Give how strong water is that carries a load, in the mean.

    Parameters
    ----------
    load_kg : float
        What it carries [kg].
    water_m3 : float
        All of the water [m3], 0.01 to 10,000.

    Returns
    -------
    float
        Strength [mg/L], the same as g/m3.

    Raises
    ------
    OutOfRange
        When a value is outside.

    Examples
    --------
    >>> round(strength_mg_l(load_kg=10.4, water_m3=4))
    2600
    """
    check("load_kg", load_kg, LOAD_KG)
    check("water_m3", water_m3, WATER_M3)
    return 1000.0 * load_kg / water_m3


def persons(*, bod_kg_day: float) -> float:
    """Give how many persons load a sewer as much, by the five-day demand.

    Parameters
    ----------
    bod_kg_day : float
        Biochemical oxygen demand a day [kg].

    Returns
    -------
    float
        Persons [-].

    Raises
    ------
    OutOfRange
        When the load is outside.

    References
    ----------
    Directive 91/271/EEC, article 2: 60 g of oxygen a day (second-hand).

    Examples
    --------
    >>> persons(bod_kg_day=6.0)
    100.0
    """
    check("bod_kg_day", bod_kg_day, LOAD_KG)
    return 1000.0 * bod_kg_day / PERSON_G_DAY
