"""How long the stages of a batch take, and what they ask of a house: by the living model, each as a range."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from math import ceil
from typing import NamedTuple

from ...models.bed.floor import BARLEY_KG_M3
from ...models.bed.latent_heat import latent_heat
from ...models.living.bed_days import AT_CAST_PERCENT, BARLEY_PERCENT, breathed_away
from ...models.living.pace import GROWTH_Q10
from ...models.living.ready import Q10_DOUBT, REFERENCE_DAYS, days_left
from ...models.nature import KJ_KWH
from ...models.steep.mixing import WATER_HEAT
from ..limit import edge
from ..limits.kiln_hand_over import MOISTURE

KILNED_PERCENT, KILN_C = 4.0, 60.0
"""Moisture of malt off the kiln [%], and at which temperature its water is taken to leave [C]: common practice."""


class Growth(NamedTuple):
    """Days from the cast to ready: the middle, the soonest and the latest [days]."""

    middle: float
    soonest: float
    latest: float


def growth(*, bed_c: float, reference_temp_c: float, reference_days: float, doubt: float) -> Growth:
    """Give how long a batch grows in a bed.

    Parameters
    ----------
    bed_c : float
        Temperature of the bed [C].
    reference_temp_c, reference_days : float
        Days that a batch takes at a temperature [days, C].
    doubt : float
        How far those days may be off [-].

    Returns
    -------
    Growth
        Days, as ``models.living.ready`` has them; soonest and latest by the doubt of the days and of the pace for 10 K.

    Raises
    ------
    OutOfRange
        When a value is outside the limits of the model.

    Examples
    --------
    >>> [round(days, 1) for days in growth(bed_c=15.0, reference_temp_c=15.0, reference_days=5.0, doubt=0.1)]
    [5.0, 4.5, 5.5]
    """

    def days(q10: float, off: float) -> float:
        given = min(max(reference_days * (1.0 + off), REFERENCE_DAYS.low), REFERENCE_DAYS.high)
        return days_left(
            share=0.0,
            temp_c=bed_c,
            reference_temp_c=reference_temp_c,
            reference_days=given,
            q10=q10,
        )

    some = [days(GROWTH_Q10 + step, off) for step in (-Q10_DOUBT, 0.0, Q10_DOUBT) for off in (-doubt, 0.0, doubt)]
    return Growth(days(GROWTH_Q10, 0.0), min(some), max(some))


def bed_hours(days: float) -> int:
    """Days of growth in whole hours, rounded up: nothing is loaded before it is ready [h]."""
    return ceil(days * 24.0 - 1e-9)


def floor_holds_kg(*, area_m2: float, depth_cm: float) -> float:
    """Give the barley whose piece covers a floor at a depth [kg], from its area [m2] and the depth [cm].

    Examples
    --------
    >>> floor_holds_kg(area_m2=100.0, depth_cm=10.0)
    4500.0
    """
    return area_m2 * depth_cm / 100.0 * BARLEY_KG_M3


def depth_for(*, area_m2: float, barley_kg: float) -> float:
    """Give how deep barley lies that covers a whole floor [cm], from the area [m2] and the barley [kg].

    Examples
    --------
    >>> depth_for(area_m2=100.0, barley_kg=4500.0)
    10.0
    """
    return barley_kg / (area_m2 * BARLEY_KG_M3) * 100.0


SEASON_DEPTH_CM = {"winter": 15.0, "between": 12.0, "summer": 9.0}
"""Depth of the young piece, the thinnest of a batch's days and so what its floor is reckoned by, by season [cm]:
common practice, within what the page of the floor has for it."""


def kiln_heat_kwh(*, barley_kg: float, grown_days: float, bed_c: float) -> float:
    """Give the heat that the water of a batch takes away on the kiln, and no more than that [kWh].

    Parameters
    ----------
    barley_kg : float
        Barley, at the usual moisture [kg].
    grown_days : float
        Days from the cast to the kiln [days].
    bed_c : float
        Temperature of the bed [C].

    Returns
    -------
    float
        Heat [kWh].  A works uses about one and a half times as much (750 against 488 kWh a tonne of malt).

    Examples
    --------
    >>> round(kiln_heat_kwh(barley_kg=1000.0, grown_days=5.0, bed_c=15.0))
    377
    """
    lost = AT_CAST_PERCENT + breathed_away(days=grown_days, temp_c=bed_c)
    dry = barley_kg * (1.0 - BARLEY_PERCENT / 100.0) * (1.0 - lost / 100.0)
    wet = (edge(MOISTURE.accept_low) + edge(MOISTURE.accept_high)) / 2.0
    water = dry * (wet / (100.0 - wet) - KILNED_PERCENT / (100.0 - KILNED_PERCENT))
    return water * latent_heat(temperature_c=KILN_C) / KJ_KWH


def warm_m3_h(*, heat_kw: float, mains_c: float, warm_c: float) -> float:
    """Give the warm water that a heater makes of the mains in an hour [m3/h].

    Parameters
    ----------
    heat_kw : float
        Heat that goes into the tank [kW].
    mains_c, warm_c : float
        Water as it comes, and as the tank holds it [C].

    Examples
    --------
    >>> round(warm_m3_h(heat_kw=58.2, mains_c=10.0, warm_c=60.0), 3)
    1.0
    """
    return heat_kw * KJ_KWH / (1000.0 * WATER_HEAT * max(warm_c - mains_c, 1e-6))


class Mixed(NamedTuple):
    """Warm water of a mixture [m3], and the heat to warm all of it from the mains [kWh]."""

    warm_m3: float
    heat_kwh: float


def warmed(*, m3: float, water_c: float, mains_c: float, warm_c: float) -> Mixed:
    """Give the warm water and the heat that steep water asks for.

    Parameters
    ----------
    m3 : float
        Steep water [m3].
    water_c, mains_c, warm_c : float
        As wanted in the steep, as it comes, and as the warm tank holds it [C].

    Returns
    -------
    Mixed
        Nothing where the water comes as warm as it is wanted, or warmer.

    Examples
    --------
    >>> mixed = warmed(m3=6.0, water_c=14.0, mains_c=6.0, warm_c=54.0)
    >>> round(mixed.warm_m3, 9), round(mixed.heat_kwh, 1)
    (1.0, 55.9)
    """
    reached = min(water_c, warm_c)
    if reached <= mains_c:
        return Mixed(0.0, 0.0)
    warmer = reached - mains_c
    return Mixed(m3 * warmer / (warm_c - mains_c), m3 * 1000.0 * WATER_HEAT * warmer / KJ_KWH)
