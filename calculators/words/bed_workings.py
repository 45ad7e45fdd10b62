"""How the figures of the air of a bed came about: what is breathed away, what the bed dries by, what the fan does."""

from __future__ import annotations

from typing import NamedTuple

from ..asking.declare import Found
from ..asking.figures import carried, fixed, plain_number
from ..models.bed import respiration
from ..models.bed.humid_air import MoistAir
from ..models.living.bed_days import breathed_a_day, breathed_a_mean_day, breathed_at_most, middle_of
from ..models.living.breathing import SOONEST_FACTOR


class Breath(NamedTuple):
    """Dry matter breathed away a day [%]: for the heat asked, and when it is highest; the factor of its doubt."""

    percent_day: float
    peak: float
    doubt: float
    words: str


def breath_of(day: float | None, own: float | None, factor: float, temp_c: float, moisture: float) -> Breath:
    """By the one law on that day, or as the reader's own losses have it."""
    peak = breathed_at_most(temp_c=temp_c, moisture=moisture)
    if day is None:
        assert own is not None
        return Breath(own, own * peak / breathed_a_mean_day(temp_c=temp_c, moisture=moisture), 1.0, "your own figure")
    that_day = middle_of(int(day))
    by_law = factor * breathed_a_day(day=that_day, temp_c=temp_c, moisture=moisture)
    house = "" if factor == 1.0 else f", × {plain_number(factor)} of this house"
    words = f"the one law on day {plain_number(int(day))}, between air on and off at {fixed(temp_c, 1)} °C{house}"
    return Breath(by_law, factor * peak, SOONEST_FACTOR, words)


def dried(dry: float, moisture: float, after: float, evaporated: float, respired: float) -> str:
    """The bed's water and dry matter a day later, and the points between the two moistures."""
    water, formed = dry * moisture / (100.0 - moisture), respiration.water_formed_kg_day(respired_kg_day=respired)
    left = water - evaporated + formed
    if left <= 0.0:
        return f"{plain_number(moisture)} % − 0 % = {fixed(moisture, 2)} points, all the water there is"
    return (
        f"{carried(dry)} × {plain_number(moisture)} / (100 − {plain_number(moisture)}) − {carried(evaporated)} + "
        f"{carried(formed)} formed = {carried(left)} kg of water then; {plain_number(moisture)} − 100 × "
        f"{carried(left)} / ({carried(left)} + {carried(dry)} − {carried(respired)}) = "
        f"{fixed(moisture - after, 2)} points"
    )


def fan_figures(pa: float, efficiency: float, air: MoistAir, warming: float, volume: float) -> list[Found]:
    """What the fan warms its air by, and the power that it takes."""
    power = pa * volume / 3600.0 / efficiency / 1000.0
    return [
        Found(
            "fan_warming_k",
            warming,
            f"{plain_number(pa)} Pa × {fixed(air.volume_m3, 4)} m³/kg / (1000 × {fixed(air.heat_kj_k, 3)} "
            f"kJ/kg K × {plain_number(efficiency)}) = {fixed(warming, 2)} K",
        ),
        Found(
            "fan_kw",
            power,
            f"{plain_number(pa)} Pa × {carried(volume)} m³/h / 3600 / {plain_number(efficiency)} / 1000 "
            f"= {fixed(power, 2)} kW",
        ),
    ]
