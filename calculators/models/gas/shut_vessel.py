"""Gas in a vessel that is shut with growing barley in it.

The sum shows how fast the air turns deadly. It is never time allowed inside. Whoever shows a figure
about gas in a vessel takes it from :func:`shut`.
"""

from __future__ import annotations

from typing import NamedTuple

from ..bed import respiration
from ..bounds import Bounds, OutOfRange, check
from ..living.breathing import SOONEST_FACTOR
from ..living.by_day import soonest_breath, typical_breath
from ..nature import FRESH_OXYGEN_PERCENT, OUTDOOR_PPM
from .dilution import PPM, gas_m3_h
from .ranges import DAY as DAY
from .ranges import GRAIN_TEMP_C as GRAIN_TEMP_C

RESPIRATION_KW_T = Bounds(0.01, 10.0)
BARLEY_KG = Bounds(50.0, 300_000.0)
HOURS_CLOSED = Bounds(0.05, 240.0)

FREE_M3_T = Bounds(0.3, 10.0)
"""Air left in a shut vessel for each tonne of barley [m3/t] (common practice).

Grown grain of a tonne of barley fills some 2.4 m3, and two fifths of that are air: a vessel filled to
the top has about 1 m3/t, one that is a third full some 5. What has more is a room, or all but empty.
"""

FREE_M3 = Bounds(0.05, FREE_M3_T.high * BARLEY_KG.high / 1000.0)

GROWING_KW_T = Bounds(0.3, 10.0)
"""Heat of breathing of growing barley [kW/t].

From 0.2 to 2 % of the dry matter a day is usual (common practice), which is 0.34 to 3.4 kW/t.
"""

GIVEN_DOUBT = SOONEST_FACTOR
"""Factor by which a heat that was worked out for this bed may be too low [-]: the law's, since it may come from it."""


def typical_kw_t(*, day: float, grain_temp_c: float) -> float:
    """Give a typical heat of breathing, for want of anything measured.

    Parameters
    ----------
    day : float
        Day after the cast, from 0 (still in the steep) to 10.
    grain_temp_c : float
        Temperature of the grain [C].

    Returns
    -------
    float
        kW a tonne of barley, by the one law of breathing (``living.breathing``).

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("day", day, DAY)
    check("grain_temp_c", grain_temp_c, GRAIN_TEMP_C)
    return typical_breath(day=day, temp_c=grain_temp_c).heat_kw


def soonest_kw_t(*, day: float, grain_temp_c: float) -> float:
    """Give the most heat of breathing that is reckoned with, for want of anything measured.

    Parameters
    ----------
    day, grain_temp_c
        As for :func:`typical_kw_t`.

    Returns
    -------
    float
        kW a tonne of barley, at most 10: the far end of the law (``living.by_day``).

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("day", day, DAY)
    check("grain_temp_c", grain_temp_c, GRAIN_TEMP_C)
    return min(soonest_breath(day=day, temp_c=grain_temp_c).heat_kw, RESPIRATION_KW_T.high)


def soonest_of_given(*, given_kw_t: float, soonest_kw_t: float) -> float:
    """Give the most heat of breathing that is reckoned with where a heat was worked out.

    Parameters
    ----------
    given_kw_t : float
        Heat of breathing that was worked out for this bed [kW/t].
    soonest_kw_t : float
        The far end of the law for its day and temperature [kW/t].

    Returns
    -------
    float
        kW a tonne of barley: never less than the law's far end, so that no figure of one's own slows a warning.

    Examples
    --------
    >>> soonest_of_given(given_kw_t=0.3, soonest_kw_t=4.9), round(soonest_of_given(given_kw_t=3.0, soonest_kw_t=4.9), 1)
    (4.9, 6.7)
    """
    return max(GIVEN_DOUBT * given_kw_t, soonest_kw_t)


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


class Shut(NamedTuple):
    """How carbon dioxide rises in one shut vessel: as reckoned, and at the fastest.

    Heats of breathing in kW a tonne of barley, rises in ppm a minute. The slow side of the doubt is nowhere:
    it would soothe.
    """

    start_ppm: float
    kw_t: float
    fastest_kw_t: float
    rise: float
    quick: float

    def minutes_until(self, ppm: float) -> tuple[float | None, float | None]:
        """Give the minutes until a concentration is reached: the soonest, and as reckoned."""
        return (
            minutes_until(ppm=ppm, start_ppm=self.start_ppm, rise=self.quick),
            minutes_until(ppm=ppm, start_ppm=self.start_ppm, rise=self.rise),
        )

    def ppm_after(self, minutes: float) -> tuple[float, float]:
        """Give the concentration some time after the vessel was shut: the most, and as reckoned."""
        return (
            shut_ppm(minutes=minutes, start_ppm=self.start_ppm, rise=self.quick),
            shut_ppm(minutes=minutes, start_ppm=self.start_ppm, rise=self.rise),
        )


def shut(
    *,
    barley_kg: float,
    day: float,
    grain_temp_c: float,
    free_m3: float,
    start_ppm: float = OUTDOOR_PPM,
    respiration_kw_t: float | None = None,
) -> Shut:
    """Give how carbon dioxide rises once a vessel with growing barley is shut and its fan stands.

    Parameters
    ----------
    barley_kg : float
        Barley as it was filled into the steep [kg].
    day, grain_temp_c
        As for :func:`typical_kw_t`.
    free_m3 : float
        Air in the vessel: above the grain and between the corns [m3], from 0.3 to 10 m3 a tonne.
    start_ppm : float, optional
        Carbon dioxide when it was shut [ppm].
    respiration_kw_t : float, optional
        Heat of breathing that was worked out for this bed [kW/t]; without it the law of breathing gives
        the typical one.  The soonest is never less than the law's.

    Returns
    -------
    Shut
        The rise as reckoned and at the fastest, which is the one to act by.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> drum = shut(**EXAMPLE_DRUM)
    >>> [round(minutes or 0.0, 1) for minutes in drum.minutes_until(40_000.0)]
    [4.1, 16.0]
    """
    within = free_m3_limits(barley_kg=barley_kg)
    if not within.low <= free_m3 <= within.high:
        raise OutOfRange("free_m3", *within, "No vessel with that much barley has it.")
    kw_t = typical_kw_t(day=day, grain_temp_c=grain_temp_c)
    fastest = soonest_kw_t(day=day, grain_temp_c=grain_temp_c)
    if respiration_kw_t is not None:
        kw_t = respiration_kw_t
        fastest = min(soonest_of_given(given_kw_t=kw_t, soonest_kw_t=fastest), RESPIRATION_KW_T.high)
    check("start_ppm", start_ppm, PPM)
    rises = [
        rise_ppm_min(barley_kg=barley_kg, respiration_kw_t=heat, grain_temp_c=grain_temp_c, free_m3=free_m3)
        for heat in (kw_t, fastest)
    ]
    return Shut(start_ppm, kw_t, fastest, *rises)


def free_m3_limits(*, barley_kg: float) -> Bounds:
    """Give how much air a shut vessel with that much barley may have left [m3].

    Raises
    ------
    OutOfRange
        When the weight is outside its limits.

    Examples
    --------
    >>> free_m3_limits(barley_kg=6000.0)
    Bounds(low=1.8, high=60.0)
    """
    check("barley_kg", barley_kg, BARLEY_KG)
    return Bounds(round(FREE_M3_T.low * barley_kg / 1000.0, 9), round(FREE_M3_T.high * barley_kg / 1000.0, 9))


EXAMPLE_DRUM = {"barley_kg": 6000.0, "day": 3.0, "grain_temp_c": 20.0, "free_m3": 15.0, "start_ppm": OUTDOOR_PPM}
"""The shut drum that pages, drawings and the sheet show: the example maltings, invented."""


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
