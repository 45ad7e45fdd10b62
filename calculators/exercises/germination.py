"""Exercises on the growing bed."""

from __future__ import annotations

from ..exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "germination"


def _by_points(case: Case) -> float:
    v = case.values
    return v["bed_kg"] * (v["moisture_wanted"] - v["moisture_now"]) / 100


def _whole_cylinder(case: Case) -> float:
    v = case.values
    drum = 3.141592653589793 / 4 * v["drum_diameter_m"] ** 2 * v["drum_length_m"]
    return 100 * v["barley_kg"] / v["bulk_density"] * v["swelling_grown"] / drum


EXERCISES = (
    Exercise(
        "sprinkle",
        CHAPTER,
        "sprinkling",
        (
            Draw("bed_kg", 3000, 9000, 500),
            Draw("moisture_now", 41, 43.5, 0.5),
            Draw("moisture_wanted", 44, 45.5, 0.5),
            Pick("water_kept", ("80", "85", "90")),
        ),
        "water_l",
        "A bed of {bed_kg} has dried to {moisture_now} and should hold {moisture_wanted}. The grain keeps "
        "{water_kept} of the water sprinkled. How many litres must be sprinkled?",
        6.0,
        (
            Slip(
                "points-for-percent",
                "The points of moisture are not per cent of the bed’s weight, and some water runs off. "
                "The dry matter stays: divide by what is not water, then by the share kept.",
                formula=_by_points,
            ),
            Slip(
                "forgot-runoff",
                "That would do if the grain kept all of it. Divide by the share it keeps.",
                changed=(("water_kept", "100"),),
            ),
        ),
        "procedures/floor-germination",
    ),
    Exercise(
        "drum-fill",
        CHAPTER,
        "drum-fill",
        (
            Draw("barley_kg", 5000, 6500, 100),
            Draw("drum_diameter_m", 2.8, 3.4, 0.1),
            Draw("drum_length_m", 5.6, 7.0, 0.2),
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
    ),
)
