"""Carbon dioxide in air: how much a volume is, and how a fan dilutes it.

Nothing here says what a person may do: a sum is not a reading.
"""

from __future__ import annotations

from math import exp, log

from ..bounds import Bounds, OutOfRange, check
from ..nature import GAS_CONSTANT, ZERO_C

CO2_G_MOL = 44.01
"""Molar mass of carbon dioxide [g/mol]; the figure behind the printed limits."""

PRESSURE_KPA = 101.325
"""Pressure that exposure limits refer to [kPa]."""

PPM = Bounds(0.0, 1_000_000.0)
TEMPERATURE_C = Bounds(-30.0, 60.0)
VOLUME_M3 = Bounds(0.1, 100_000.0)
AIRFLOW_M3_H = Bounds(1.0, 1_000_000.0)
SOURCE_KG_H = Bounds(0.0, 10_000.0)
MIXING = Bounds(1.0, 10.0)
VESSEL_MIXING = MIXING.high
"""What mixing counts in a vessel, always: corners, ducts and grain are badly swept (MMWR 43 (RR-13): up to 10)."""

AIR_CHANGES_H = Bounds(1.0, 400.0)
"""Air changes an hour that a fan gives a vessel (common practice): under one it airs nothing; a drum at full flow has
some 200."""


def molar_volume_l(*, temperature_c: float) -> float:
    """Give the volume of one mole of gas.

    Parameters
    ----------
    temperature_c : float
        Temperature [C], from -30 to 60.

    Returns
    -------
    float
        Litres a mole at 101.325 kPa: 24.055 at 20 C, 24.465 at 25 C (printed as 24.45).

    Raises
    ------
    OutOfRange
        When the temperature is outside its limits.
    """
    check("temperature_c", temperature_c, TEMPERATURE_C)
    return GAS_CONSTANT * (temperature_c + ZERO_C) / PRESSURE_KPA


def mg_m3(*, ppm: float, temperature_c: float) -> float:
    """Give the mass of carbon dioxide in a cubic metre of air.

    Parameters
    ----------
    ppm : float
        Parts per million by volume.
    temperature_c : float
        Temperature of that air [C]; without it the figure means nothing.

    Returns
    -------
    float
        Milligrams a cubic metre at 101.325 kPa.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> round(mg_m3(ppm=5000, temperature_c=20))
    9148
    """
    check("ppm", ppm, PPM)
    return ppm * CO2_G_MOL / molar_volume_l(temperature_c=temperature_c)


def gas_m3_h(*, source_kg_h: float, temperature_c: float) -> float:
    """Give the volume of the carbon dioxide that is made in an hour.

    Parameters
    ----------
    source_kg_h : float
        Carbon dioxide made [kg/h].
    temperature_c : float
        Temperature of the gas [C].

    Returns
    -------
    float
        Cubic metres an hour.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("source_kg_h", source_kg_h, SOURCE_KG_H)
    return source_kg_h * molar_volume_l(temperature_c=temperature_c) / CO2_G_MOL


def floor_ppm(*, airflow_m3_h: float, outdoor_ppm: float, source_m3_h: float = 0.0, mixing: float = 1.0) -> float:
    """Give the concentration that a fan never gets below, however long it runs.

    Parameters
    ----------
    airflow_m3_h : float
        Fresh air [m3/h].
    outdoor_ppm : float
        Carbon dioxide in the air that is blown in.
    source_m3_h : float, optional
        Carbon dioxide still being made [m3/h].
    mixing : float, optional
        1 for perfect mixing, up to 10 for very poor: the fresh air that counts is divided by it.

    Returns
    -------
    float
        Parts per million, mean of the whole space.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("airflow_m3_h", airflow_m3_h, AIRFLOW_M3_H)
    check("outdoor_ppm", outdoor_ppm, PPM)
    check("mixing", mixing, MIXING)
    return outdoor_ppm + 1e6 * source_m3_h * mixing / airflow_m3_h


def diluted_ppm(
    *,
    minutes: float,
    volume_m3: float,
    airflow_m3_h: float,
    start_ppm: float,
    outdoor_ppm: float,
    source_m3_h: float = 0.0,
    mixing: float = 1.0,
) -> float:
    """Give the mean concentration after a fan has run for some time.

    Parameters
    ----------
    minutes : float
        How long the fan has run.
    volume_m3 : float
        Volume of air in the space [m3].
    airflow_m3_h, outdoor_ppm, source_m3_h, mixing
        As for :func:`floor_ppm`.
    start_ppm : float
        Concentration when the fan started.

    Returns
    -------
    float
        Parts per million, mean of the whole space.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    C = F + (C1 - F) exp(-Q t / (K V)) with the floor F of :func:`floor_ppm`.
    """
    check("volume_m3", volume_m3, VOLUME_M3)
    check("start_ppm", start_ppm, PPM)
    floor = floor_ppm(airflow_m3_h=airflow_m3_h, outdoor_ppm=outdoor_ppm, source_m3_h=source_m3_h, mixing=mixing)
    return floor + (start_ppm - floor) * exp(-airflow_m3_h / mixing * minutes / 60.0 / volume_m3)


def dilution_minutes(
    *,
    volume_m3: float,
    airflow_m3_h: float,
    start_ppm: float,
    end_ppm: float,
    outdoor_ppm: float,
    source_m3_h: float = 0.0,
    mixing: float = 1.0,
) -> float:
    """Give the minutes a fan takes to bring the mean concentration down.

    Parameters
    ----------
    volume_m3, airflow_m3_h, start_ppm, outdoor_ppm, source_m3_h, mixing
        As for :func:`diluted_ppm`.
    end_ppm : float
        Concentration aimed at, below the start and above the floor.

    Returns
    -------
    float
        Minutes.

    Raises
    ------
    OutOfRange
        When ``end_ppm`` is not between the floor and the start: at or below the floor it is
        never reached, however long the fan runs.

    Notes
    -----
    t = K (V/Q) ln((C1 - F)/(C2 - F)). Its published use is rooms without growing grain. Table
    S3-1 of the source assumes K = 1 and no source of gas, and says that the time is to be
    multiplied by a mixing factor that could be as high as 10 where air is very poorly
    distributed.

    References
    ----------
    Centers for Disease Control and Prevention 1994, MMWR 43 (RR-13), Table S3-1.
    """
    check("volume_m3", volume_m3, VOLUME_M3)
    check("start_ppm", start_ppm, PPM)
    floor = floor_ppm(airflow_m3_h=airflow_m3_h, outdoor_ppm=outdoor_ppm, source_m3_h=source_m3_h, mixing=mixing)
    if not floor < end_ppm <= start_ppm:
        raise OutOfRange("end_ppm", floor, start_ppm, "At the lower end it is never reached.")
    return 60.0 * mixing * volume_m3 / airflow_m3_h * log((start_ppm - floor) / (end_ppm - floor))
