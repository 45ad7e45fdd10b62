"""Exercises on the charge, its water and its weight."""

from __future__ import annotations

from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "filling"


def _points_for_percent(case: Case) -> float:
    v = case.values
    return v["barley_kg"] * (1 + (v["target_moisture"] - v["barley_moisture"]) / 100)


def _water_by_points(case: Case) -> float:
    v = case.values
    return v["barley_kg"] * (v["target_moisture"] - v["barley_moisture"]) / 100


def _gain_for_water(case: Case) -> float:
    return case.answers["target_kg"] - case.values["barley_kg"]


def _plain_mean(case: Case) -> float:
    return (case.values["barley_temp_c"] + case.values["usual_water_c"]) / 2


def _mean_by_weight(case: Case) -> float:
    v = case.values
    heat = v["barley_kg"] * v["barley_temp_c"] + v["water_kg"] * v["usual_water_c"]
    return heat / (v["barley_kg"] + v["water_kg"])


def _in_fahrenheit(case: Case) -> float:
    return case.answers["mix_temp_c"] * 9 / 5 + 32


def _weight_as_volume(case: Case) -> float:
    return case.values["barley_kg"] / 1000 * case.values["swelling"]


FORGOT_LEACHED = Slip(
    "forgot-leached",
    "You left out the dry matter that leaches into the water. Take it off first.",
    changed=(("dry_matter_lost", "0"),),
)
_BATCH = (
    Draw("barley_kg", 3000, 6000, 100),
    Draw("barley_moisture", 11, 14, 0.5),
    Draw("target_moisture", 43, 46, 0.5),
)

EXERCISES = (
    Exercise(
        "target-weight",
        CHAPTER,
        "moisture-target",
        (*_BATCH, Pick("dry_matter_lost", ("0.5", "1", "1.5"))),
        "target_kg",
        "{barley_kg} of barley at {barley_moisture} moisture goes into the steep. {dry_matter_lost} of its "
        "dry matter leaches away. What does the batch weigh, in kg, when it holds {target_moisture} water?",
        20.0,
        (
            FORGOT_LEACHED,
            Slip(
                "points-for-percent",
                "You added the points of moisture as per cent of the barley’s weight. The dry matter stays: "
                "work that out first, then divide by what is not water.",
                formula=_points_for_percent,
            ),
            Slip(
                "water-for-weight",
                "That is the water taken up, not the weight of the batch.",
                instead="water_taken_up_kg",
            ),
        ),
        "procedures/steeping",
    ),
    Exercise(
        "water-taken-up",
        CHAPTER,
        "moisture-target",
        (*_BATCH, Pick("dry_matter_lost", ("1",))),
        "water_taken_up_kg",
        "{barley_kg} of barley at {barley_moisture} is steeped to {target_moisture}. {dry_matter_lost} of its "
        "dry matter leaches away. How many kilograms of water does it take up?",
        20.0,
        (
            Slip(
                "weight-for-water",
                "That is the weight of the batch, not the water it has taken up.",
                instead="target_kg",
            ),
            Slip(
                "points-for-percent",
                "The points of moisture are not per cent of the barley’s weight. Work out the dry matter first.",
                formula=_water_by_points,
            ),
            Slip(
                "gain-for-water",
                "That is the gain in weight. Dry matter leached away, so the grain drank more than it gained.",
                formula=_gain_for_water,
            ),
        ),
        "procedures/steeping",
    ),
    Exercise(
        "mix-temperature",
        CHAPTER,
        "mixing-waters",
        (
            Draw("barley_kg", 4000, 6000, 500),
            Draw("barley_temp_c", 1, 6, 1),
            Draw("water_kg", 5000, 9000, 500),
            Draw("usual_water_c", 13, 18, 1),
            Pick("wanted_temp_c", ("14",)),
            Pick("barley_moisture", ("12",)),
        ),
        "mix_temp_c",
        "{barley_kg} of barley at {barley_temp_c} runs into {water_kg} of water at {usual_water_c}. A kilogram of "
        "this barley takes 1.65 kJ to warm by a degree, a kilogram of water 4.19 kJ. How warm is the mixture, in °C?",
        0.2,
        (
            Slip(
                "plain-mean",
                "You took the middle of the two temperatures. Water holds more heat, and there is more of it.",
                formula=_plain_mean,
            ),
            Slip(
                "by-weight",
                "You weighed the temperatures by kilograms alone. A kilogram of water holds about two and a half "
                "times the heat of a kilogram of barley.",
                formula=_mean_by_weight,
            ),
            Slip("fahrenheit", "That is in degrees Fahrenheit. Here all are in Celsius.", formula=_in_fahrenheit),
        ),
        "calculators/mixing-waters",
    ),
    Exercise(
        "swollen-volume",
        CHAPTER,
        "steep-vessel",
        (
            Draw("barley_kg", 4000, 6500, 100),
            Draw("bulk_density", 570, 650, 10),
            Pick("swelling", ("1.3", "1.4", "1.45")),
            Pick("vessel_m3", ("30",)),
            Pick("surface_m2", ("8",)),
        ),
        "grain_swollen_m3",
        "{barley_kg} of barley, {bulk_density} dry, swells to {swelling} times its volume in the steep. How many "
        "cubic metres does the grain take when it is swollen?",
        0.15,
        (
            Slip("dry-for-swollen", "That is the dry volume. It still has to swell.", instead="grain_m3"),
            Slip(
                "weight-as-volume",
                "You took a tonne for a cubic metre, as of water. Divide by the bulk density of the barley.",
                formula=_weight_as_volume,
            ),
        ),
        "procedures/filling-the-steep",
    ),
)
