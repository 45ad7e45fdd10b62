"""Gas in a vessel that is shut with growing barley in it.

The sum shows how fast the air turns deadly. It is never time allowed inside.
"""

from __future__ import annotations

from . import respiration
from .gas import OUTDOOR_PPM, PPM, gas_m3_h
from .limits import Limits, check

FRESH_OXYGEN_PERCENT = 20.9
"""What an oxygen meter is set to in fresh air [% by volume] (common practice)."""

OXYGEN_ALARM_PERCENT = 19.5
"""Oxygen below which American law calls an atmosphere hazardous, 29 CFR 1910.146 [%]."""

DAY = Limits(0.0, 10.0)
RESPIRATION_KW_T = Limits(0.05, 10.0)
GRAIN_TEMP_C = Limits(2.0, 40.0)
FREE_M3 = Limits(0.5, 5000.0)
BARLEY_KG = Limits(10.0, 100_000.0)
HOURS_CLOSED = Limits(0.05, 240.0)

MEAN_KW_T = respiration.heat_kw(respired_kg_day=8.6)
"""Mean heat of breathing of a tonne of barley [kW]: 860 kg of dry matter, 1 % of it a day, 1.72."""

TYPICAL_DOUBT = 2.0
"""Factor by which the typical heat may be off, either way."""

GIVEN_DOUBT = 1.25
"""Factor by which a heat that was worked out for this bed may be off, either way (a judgement)."""

Q10 = 2.25
"""Growth of breathing for 10 K more: 2 to 2.5 (from memory)."""


def typical_kw_t(*, day: float, grain_temp_c: float) -> float:
    """Give a typical heat of breathing, for want of anything measured.

    Parameters
    ----------
    day : float
        Day after the cast, from 0 (still in the steep, counted as day 1) to 10.
    grain_temp_c : float
        Temperature of the grain [C].

    Returns
    -------
    float
        kW a tonne of barley, good to a factor of two.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("day", day, DAY)
    check("grain_temp_c", grain_temp_c, GRAIN_TEMP_C)
    share = respiration.day_share(day=max(day, respiration.DAY.low))
    return MEAN_KW_T * share * float(Q10 ** ((grain_temp_c - 15.0) / 10.0))


def co2_kg_h(*, barley_kg: float, respiration_kw_t: float) -> float:
    """Give the carbon dioxide that barley breathes out.

    Parameters
    ----------
    barley_kg : float
        Barley as it was filled into the steep [kg].
    respiration_kw_t : float
        Heat of breathing [kW a tonne of that barley].

    Returns
    -------
    float
        kg/h.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> round(co2_kg_h(barley_kg=1000, respiration_kw_t=1), 4)
    0.3391
    """
    check("barley_kg", barley_kg, BARLEY_KG)
    check("respiration_kw_t", respiration_kw_t, RESPIRATION_KW_T)
    return respiration.co2_kg_h_at(heat_kw=barley_kg / 1000.0 * respiration_kw_t)


def rise_ppm_min(*, barley_kg: float, respiration_kw_t: float, grain_temp_c: float, free_m3: float) -> float:
    """Give how fast carbon dioxide rises in a shut vessel.

    Parameters
    ----------
    barley_kg, respiration_kw_t
        As for :func:`co2_kg_h`.
    grain_temp_c : float
        Temperature of the grain and the air round it [C].
    free_m3 : float
        Air in the vessel: above the grain and between the corns [m3].

    Returns
    -------
    float
        Parts per million a minute, as long as there is oxygen.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    One volume of oxygen goes for each volume of carbon dioxide, so the pressure stays and the
    rise is a straight line. Leaks are left out.
    """
    check("grain_temp_c", grain_temp_c, GRAIN_TEMP_C)
    check("free_m3", free_m3, FREE_M3)
    made = co2_kg_h(barley_kg=barley_kg, respiration_kw_t=respiration_kw_t)
    return 1e6 * gas_m3_h(source_kg_h=made, temperature_c=grain_temp_c) / free_m3 / 60.0


def oxygen_percent(*, ppm: float) -> float:
    """Give what an oxygen meter shows where the grain itself made the gas.

    Parameters
    ----------
    ppm : float
        Carbon dioxide.

    Returns
    -------
    float
        Oxygen [% by volume], not below 0.

    Raises
    ------
    OutOfRange
        When the concentration is outside its limits.

    Notes
    -----
    Gas that flowed in from elsewhere pushes oxygen away much more slowly: see
    :func:`oxygen_displaced_percent`.
    """
    check("ppm", ppm, PPM)
    return min(FRESH_OXYGEN_PERCENT, max(0.0, FRESH_OXYGEN_PERCENT - (ppm - OUTDOOR_PPM) / 1e4))


def oxygen_displaced_percent(*, ppm: float) -> float:
    """Give what an oxygen meter shows where carbon dioxide flowed in and pushed the air away.

    Parameters
    ----------
    ppm : float
        Carbon dioxide.

    Returns
    -------
    float
        Oxygen [% by volume].

    Raises
    ------
    OutOfRange
        When the concentration is outside its limits.
    """
    check("ppm", ppm, PPM)
    return FRESH_OXYGEN_PERCENT * (1.0 - ppm / 1e6)


def highest_ppm(*, start_ppm: float) -> float:
    """Give the concentration at which the oxygen of a shut vessel is used up.

    Parameters
    ----------
    start_ppm : float
        Carbon dioxide when it was shut.

    Returns
    -------
    float
        Parts per million. Grain without oxygen goes on to make gas by fermenting, which this
        model leaves out.

    Raises
    ------
    OutOfRange
        When the concentration is outside its limits.
    """
    return start_ppm + 1e4 * oxygen_percent(ppm=start_ppm)


def shut_ppm(*, minutes: float, start_ppm: float, rise: float) -> float:
    """Give the concentration some time after a vessel was shut.

    Parameters
    ----------
    minutes : float
        Since it was shut.
    start_ppm : float
        Carbon dioxide when it was shut.
    rise : float
        ppm a minute, from :func:`rise_ppm_min`.

    Returns
    -------
    float
        Parts per million, not above :func:`highest_ppm`.

    Raises
    ------
    OutOfRange
        When the concentration at the start is outside its limits.
    """
    return min(start_ppm + rise * minutes, highest_ppm(start_ppm=start_ppm))


def minutes_until(*, ppm: float, start_ppm: float, rise: float) -> float | None:
    """Give the minutes from shutting until a concentration is reached.

    Parameters
    ----------
    ppm : float
        The concentration asked for.
    start_ppm, rise
        As for :func:`shut_ppm`.

    Returns
    -------
    float or None
        Minutes; 0 when it was there from the start; None when oxygen runs out before.

    Raises
    ------
    OutOfRange
        When a concentration is outside its limits.
    """
    check("ppm", ppm, PPM)
    if ppm <= start_ppm:
        return 0.0
    if ppm > highest_ppm(start_ppm=start_ppm):
        return None
    return (ppm - start_ppm) / rise
