"""Heat balance of barley and waters in a steep."""

from math import exp

from ..bounds import BARLEY_MOISTURE, WEIGHT_KG, Bounds, check

WATER_HEAT = 4.19
"""Specific heat of water [kJ/kg K]; from 4.22 at 0 C to 4.18 at 30 C.

Sums of humid air take 4.186 (``bed.humid_air``): one in place of the other moves figures that are shown.
"""

DRY_HEAT = 1.3
"""Specific heat of barley's dry matter [kJ/kg K]: as models of drying take it (second-hand)."""

DRY_HEAT_LIMITS = Bounds(0.84, 1.6)
"""Lowest and highest published.

0.84 is the general rule for foodstuffs (Earle, Unit Operations in Food Processing,
appendix 7, read).  1.6 gives the lowest value measured on covered barley, 1.886 kJ/kg K
(Kim and Chang 1980, abstract read), at 11 %: its moisture is not in the abstract.
"""

WETTING_HEAT = 15.1
"""Heat that a kilogram of barley at 12 % gives off as it is wetted through [kJ/kg].

Flour at 11 to 12 % gives 6.5 Btu/lb on average (a bakers' dictionary, read). No figure for
barley was found.
"""

WETTING_MOISTURE = 12.0
"""Moisture that :data:`WETTING_HEAT` stands for, % of wet weight."""

WETTING_FALL = 0.148
"""How fast that heat falls with the moisture barley starts from, for each % on the dry matter.

The constant of barley in the Chung-Pfost law of ASAE D245.5, which bounds the heat of sorption
to fall so (from memory).  It leaves 120 kJ/kg for dry matter without water; dry starch gives
about 100 to 120 (from memory).
"""

WETTING_DOUBT = Bounds(2.0 / 3.0, 1.5)
"""Factors for the doubt of :data:`WETTING_HEAT`: from 10 to 22 kJ/kg.

A textbook's dough of 15 kJ/kg makes 22 on its flour (in a copy); the isotherm above makes 19.
"""

TEMP_C = Bounds(-15.0, 45.0)
TAP_TEMP_C = Bounds(0.5, 80.0)
WATER_KG = Bounds(0.001, 5_000_000.0)


def barley_heat(*, barley_moisture: float, dry_heat: float = DRY_HEAT) -> float:
    """Give the specific heat of barley.

    Parameters
    ----------
    barley_moisture : float
        Moisture, % of wet weight.
    dry_heat : float, optional
        Specific heat of the dry matter [kJ/kg K].

    Returns
    -------
    float
        Specific heat [kJ/kg K].

    Raises
    ------
    OutOfRange
        When the moisture is not from 5 to 25 % or the dry matter's not from 0.84 to 1.6.

    Examples
    --------
    >>> round(barley_heat(barley_moisture=12.0), 3)
    1.647
    """
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    check("dry_heat", dry_heat, DRY_HEAT_LIMITS)
    return (WATER_HEAT * barley_moisture + dry_heat * (100.0 - barley_moisture)) / 100.0


def mix_temp(*, parts: list[tuple[float, float, float]]) -> float:
    """Give the temperature of things put together, no heat lost.

    Parameters
    ----------
    parts : list of (kg, specific heat, temperature)
        Weights [kg], specific heats [kJ/kg K] and temperatures [C].

    Returns
    -------
    float
        Temperature [C].

    Raises
    ------
    OutOfRange
        When nothing is put together.

    Notes
    -----
    The vessel's own heat is not counted.  What corns give off as they are wetted comes
    over hours: :func:`wetting_rise`.

    Examples
    --------
    >>> round(mix_temp(parts=[(1.0, 4.19, 10.0), (1.0, 4.19, 20.0)]), 9)
    15.0
    """
    whole = sum(kg * heat for kg, heat, _ in parts)
    check("parts", whole, Bounds(1e-9, 1e12))
    return sum(kg * heat * temp for kg, heat, temp in parts) / whole


def heat_of_wetting(*, barley_moisture: float) -> float:
    """Give the heat that barley gives off from dry to wetted through.

    Parameters
    ----------
    barley_moisture : float
        Moisture it is filled in at, % of wet weight.

    Returns
    -------
    float
        Heat [kJ for each kg of barley]; true within a third less to a half more.

    Raises
    ------
    OutOfRange
        When the moisture is not from 5 to 25 %.

    Notes
    -----
    15.1 (100 - M)/88 exp(-0.148 (X - 13.6)), X the moisture on the dry matter: wetter barley has
    given off most of it already.

    References
    ----------
    A bakers' dictionary (read): flour at 11 to 12 %, 6.5 Btu/lb.

    Examples
    --------
    >>> round(heat_of_wetting(barley_moisture=12.0), 1)
    15.1
    """
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    dry = 100.0 - barley_moisture
    start = 100.0 * WETTING_MOISTURE / (100.0 - WETTING_MOISTURE)
    fall = exp(-WETTING_FALL * (100.0 * barley_moisture / dry - start))
    return WETTING_HEAT * dry / (100.0 - WETTING_MOISTURE) * fall


def wetting_rise(*, barley_kg: float, barley_heat_kj: float, water_kg: float, wetting_kj: float) -> float:
    """Give by how much barley and water warm as the corns are wetted through, no heat lost.

    Parameters
    ----------
    barley_kg, water_kg : float
        Weights [kg].
    barley_heat_kj : float
        Specific heat of the barley [kJ/kg K].
    wetting_kj : float
        Heat of wetting [kJ for each kg of barley].

    Returns
    -------
    float
        Rise [K], reached over hours.

    Raises
    ------
    OutOfRange
        When a weight is outside its limits or the heat of wetting is not from 0 to 200.

    Examples
    --------
    >>> round(wetting_rise(barley_kg=1000.0, barley_heat_kj=1.65, water_kg=1200.0, wetting_kj=15.1), 2)
    2.26
    """
    check("barley_kg", barley_kg, WEIGHT_KG)
    check("water_kg", water_kg, WATER_KG)
    check("wetting_kj", wetting_kj, Bounds(0.0, 200.0))
    return barley_kg * wetting_kj / (barley_kg * barley_heat_kj + water_kg * WATER_HEAT)


def water_temp_needed(
    *,
    barley_kg: float,
    barley_temp_c: float,
    barley_heat_kj: float,
    water_kg: float,
    wanted_temp_c: float,
) -> float:
    """Give the temperature all the water must have for water and barley to come out as wanted.

    Parameters
    ----------
    barley_kg, water_kg : float
        Weights [kg].
    barley_temp_c, wanted_temp_c : float
        Temperatures [C].
    barley_heat_kj : float
        Specific heat of the barley [kJ/kg K].

    Returns
    -------
    float
        Temperature [C]; it may be one that no water has.

    Raises
    ------
    OutOfRange
        When a weight or a temperature is outside its limits.

    Examples
    --------
    >>> needed = water_temp_needed(
    ...     barley_kg=1000.0, barley_temp_c=5.0, barley_heat_kj=1.65, water_kg=1200.0, wanted_temp_c=14.0)
    >>> round(needed, 2)
    16.95
    """
    check("barley_kg", barley_kg, WEIGHT_KG)
    check("water_kg", water_kg, WATER_KG)
    check("barley_temp_c", barley_temp_c, TEMP_C)
    check("wanted_temp_c", wanted_temp_c, TAP_TEMP_C)
    brought = barley_kg * barley_heat_kj * (wanted_temp_c - barley_temp_c)
    return wanted_temp_c + brought / (water_kg * WATER_HEAT)


def second_share(*, first_temp_c: float, second_temp_c: float, needed_temp_c: float) -> float:
    """Give the share of the second of two waters in a mixture of a temperature.

    Parameters
    ----------
    first_temp_c, second_temp_c : float
        Temperatures of the waters [C]; not the same.
    needed_temp_c : float
        Temperature of the mixture [C].

    Returns
    -------
    float
        Share by weight; under 0 or over 1 when the two waters cannot give it.

    Raises
    ------
    OutOfRange
        When both waters have the same temperature.

    Examples
    --------
    >>> second_share(first_temp_c=8.0, second_temp_c=48.0, needed_temp_c=18.0)
    0.25
    """
    difference = second_temp_c - first_temp_c
    check("second_temp_c", abs(difference), Bounds(1e-6, 1e6))
    return (needed_temp_c - first_temp_c) / difference
