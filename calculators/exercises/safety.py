"""Exercises on gas readings: sums only; none of them allows anyone to go in anywhere."""

from __future__ import annotations

from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "safety"

_ROWS = (
    "900 240; 2500 60; 6000 20; 1500 160",
    "800 200; 3500 90; 8000 15; 1200 175",
    "700 300; 4000 45; 9000 10; 1000 125",
)


def _plain_mean(case: Case) -> float:
    ppm = [float(row.split()[0]) for row in case.typed["rows"].split(";")]
    return sum(ppm) / len(ppm)


def _kilowatt_hours_for_megajoules(case: Case) -> float:
    return case.answers["co2_kg_h"] / 3.6


def _one_tonne(case: Case) -> float:
    return case.answers["co2_kg_h"] * 1000 / case.values["barley_kg"]


EXERCISES = (
    Exercise(
        "mean-over-a-shift",
        CHAPTER,
        "exposure",
        (Pick("rows", _ROWS),),
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
)
