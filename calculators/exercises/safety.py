"""Exercises on gas readings: sums only; none of them allows anyone to go in anywhere."""

from __future__ import annotations

from random import Random

from ..asking.figures import fixed
from ..models.gas.shut_vessel import GIVEN_DOUBT
from .exercise import Case, Draw, Exercise, Made, Pick, Slip

CHAPTER = "safety"

_SHIFT_MINUTES = 480


def _shift(random: Random) -> tuple[str, ...]:
    """Four readings and how long each lasted, over eight hours."""
    high = random.choice((10, 15, 20, 30))
    some = random.choice((30, 45, 60, 90))
    most = random.choice((150, 180, 210, 240))
    last = _SHIFT_MINUTES - most - some - high
    ppm = (random.randrange(600, 1000, 50), random.randrange(2000, 4500, 250), random.randrange(6000, 9500, 500))
    return (f"{ppm[0]} {most}; {ppm[1]} {some}; {ppm[2]} {high}; {random.randrange(900, 1600, 100)} {last}",)


def _plain_mean(case: Case) -> float:
    ppm = [float(row.split()[0]) for row in case.typed["rows"].split(";")]
    return sum(ppm) / len(ppm)


def _kilowatt_hours_for_megajoules(case: Case) -> float:
    return case.answers["co2_kg_h"] / 3.6


def _one_tonne(case: Case) -> float:
    return case.answers["co2_kg_h"] * 1000 / case.values["barley_kg"]


def _doubt_left_out(case: Case) -> float:
    return case.answers["k_per_h"] / GIVEN_DOUBT


def _all_water(case: Case) -> float:
    wet = 10.0 * (100.0 - case.values["barley_moisture"]) * 100.0 / (100.0 - case.values["bed_moisture"])
    return case.answers["heat_kw_t"] * 3600.0 / (wet * 4.19)


def _barley_as_weighed(case: Case) -> float:
    return case.answers["heat_kw_t"] * 3600.0 / (1000.0 * (1.3 * 0.88 + 4.19 * 0.12))


EXERCISES = (
    Exercise(
        "mean-over-a-shift",
        CHAPTER,
        "exposure",
        (Made(("rows",), _shift),),
        "twa_ppm",
        "A meter on the floor read carbon dioxide over a shift of 8 hours (ppm, then minutes): {rows}. "
        "What is the mean over the 8 hours, in ppm?",
        20.0,
        (
            Slip(
                "plain-mean",
                "You took the mean of the readings. Each counts for as long as it lasted: multiply by the "
                "minutes, add, and divide by 480.",
                formula=_plain_mean,
            ),
            Slip("highest-for-mean", "That is the highest 15 minutes.", instead="highest_15_min_ppm"),
        ),
        "safety/carbon-dioxide",
    ),
    Exercise(
        "gas-of-growing-grain",
        CHAPTER,
        "gas-build-up",
        (
            Draw("barley_kg", 2000, 8000, 500),
            Pick("respiration_kw_t", ("0.8", "1", "1.2", "1.5", "2")),
            Pick("day", ("3",)),
            Pick("grain_temp_c", ("16",)),
            Pick("hours_closed", ("1",)),
            Pick("free_m3", ("15",)),
            Pick("start_ppm", ("420",)),
        ),
        "co2_kg_h",
        "A piece grown from {barley_kg} of barley gives off heat at {respiration_kw_t}, and 10.6 MJ come "
        "with each kilogram of carbon dioxide. How many kilograms of the gas does it breathe out in an hour?",
        0.05,
        (
            Slip(
                "kilowatt-hours-for-megajoules",
                "You divided kilowatts by megajoules. A kilowatt for an hour is 3.6 MJ.",
                formula=_kilowatt_hours_for_megajoules,
            ),
            Slip("one-tonne", "That is for one tonne. The piece has more.", formula=_one_tonne),
        ),
        "safety/carbon-dioxide",
    ),
    Exercise(
        "grain-without-air",
        CHAPTER,
        "fan-stopped",
        (
            Pick("place", ("drum", "box")),
            Pick("barley_moisture", ("12", "13", "14")),
            Pick("day", ("3", "4")),
            Pick("grain_temp_c", ("15", "16", "17")),
            Draw("bed_moisture", 42, 46, 1),
            Pick("respiration_kw_t", ("2.8", "3", "3.2", "3.4")),
        ),
        "k_per_h",
        "A fan has stopped, and everybody is away from the hatches. For the grain alone: a tonne of barley that was "
        "{barley_moisture} now lies at {bed_moisture}, and its heat was worked out as {respiration_kw_t}. The soonest "
        f"case takes {fixed(GIVEN_DOUBT, 2)} times that. Dry matter takes 1.3 kJ for each kilogram and kelvin, water "
        "4.19. By how many kelvin does the grain warm in an hour?",
        0.06,
        (
            Slip(
                "doubt-left-out",
                "That is by the heat worked out. A warning goes by the soonest case, which makes more.",
                formula=_doubt_left_out,
            ),
            Slip(
                "all-water",
                "You took the whole weight as water. Dry matter takes a third of the heat of water.",
                formula=_all_water,
            ),
            Slip(
                "barley-as-weighed",
                "You took the barley as it was weighed. It has drunk since: take its dry matter and its water now.",
                formula=_barley_as_weighed,
            ),
        ),
        "calculators/fan-stopped",
    ),
)
