"""Exercises on the drum and its air."""

from __future__ import annotations

from ..asking.figures import fixed
from ..models.bed.respiration import CO2_PER_KG
from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "drum"


def _whole_cylinder(case: Case) -> float:
    v = case.values
    drum = 3.141592653589793 / 4 * v["drum_diameter_m"] ** 2 * v["drum_length_m"]
    return 100 * v["barley_kg"] / v["bulk_density"] * v["swelling_grown"] / drum


def _wet_for_dry(case: Case) -> float:
    return case.answers["co2_kg_h"] * 100 / (100 - case.values["barley_moisture"])


def _a_day(case: Case) -> float:
    return 24 * case.answers["co2_kg_h"]


EXERCISES = (
    Exercise(
        "drum-fill",
        CHAPTER,
        "drum-fill",
        (
            Draw("barley_kg", 5000, 6500, 100),
            Draw("drum_diameter_m", 2.4, 2.8, 0.1),
            Draw("drum_length_m", 5, 6, 0.2),
            Pick("ducts_m3", ("1.6", "2", "2.4")),
            Pick("bulk_density", ("600", "618", "640")),
            Pick("swelling_cast", ("1.4",)),
            Pick("swelling_grown", ("2",)),
            Pick("fill_limit_percent", ("95",)),
        ),
        "fill_percent_grown",
        "A drum is {drum_diameter_m} across and {drum_length_m} long; false floor and ducts take {ducts_m3}. "
        "{barley_kg} of barley ({bulk_density} dry) swells to {swelling_grown} times its volume by the time it is "
        "fully grown. How full is the drum then, in per cent of the room the grain can have?",
        1.0,
        (
            Slip(
                "forgot-ducts",
                "You took the whole cylinder. False floor and ducts take room away.",
                formula=_whole_cylinder,
            ),
            Slip(
                "cast-for-grown",
                "That is the fill at the cast. The piece goes on swelling as roots grow.",
                instead="fill_percent_cast",
            ),
        ),
        "procedures/drum-germination",
        (55.0, 98.0),
    ),
    Exercise(
        "carbon-dioxide-of-a-bed",
        CHAPTER,
        "bed-heat",
        (
            Draw("barley_kg", 4000, 6500, 100),
            Draw("barley_moisture", 11, 14, 0.5),
            Pick("dry_matter_loss_per_day", ("0.6", "0.8", "1")),
            Pick("air_on_c", ("14",)),
            Pick("air_on_rh", ("100",)),
            Pick("air_off_c", ("16.5",)),
        ),
        "co2_kg_h",
        "A bed was made from {barley_kg} of barley at {barley_moisture}. It breathes away {dry_matter_loss_per_day} "
        f"of its dry matter a day, and each kilogram of that gives {fixed(CO2_PER_KG, 2)} kg of carbon dioxide. How "
        "many kilograms of the gas does it give off in an hour?",
        0.08,
        (
            Slip(
                "wet-for-dry",
                "You took the share of the barley with its water. It is a share of the dry matter.",
                formula=_wet_for_dry,
            ),
            Slip("day-for-hour", "That is for a day. Divide by 24.", formula=_a_day),
        ),
        "procedures/floor-germination",
    ),
)
