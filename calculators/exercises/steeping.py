"""Exercises on weights and moistures in the steep."""

from __future__ import annotations

from ..models.weights.basket import basket_dry_matter
from ..models.weights.moisture import dry_basis
from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "steeping"


def dry_basis_of(answer: str) -> Slip:
    """The moisture given on the dry matter instead of the wet weight."""

    def formula(case: Case) -> float:
        return dry_basis(moisture=case.answers[answer])

    return Slip(
        "dry-basis",
        "That is the water as a share of the dry matter. Moisture here is the share of the wet weight: "
        "divide by all of the grain, water included.",
        formula=formula,
    )


def _points_for_percent(case: Case) -> float:
    v = case.values
    return v["barley_kg"] * (1 + (v["target_moisture"] - v["barley_moisture"]) / 100)


def _water_by_points(case: Case) -> float:
    v = case.values
    return v["barley_kg"] * (v["target_moisture"] - v["barley_moisture"]) / 100


def _gain_for_water(case: Case) -> float:
    return case.answers["target_kg"] - case.values["barley_kg"]


def _water_share_of_gross(case: Case) -> float:
    v = case.values
    of = {name: v[name] for name in ("sample_g", "barley_moisture", "dry_matter_lost")}
    dry = basket_dry_matter(**of)
    return 100 * (1 - dry / v["gross_now_g"])


def _grain_without_basket(case: Case) -> float:
    return case.answers["gross_at_target_g"] - case.values["basket_g"]


def _share_of_dry(case: Case) -> float | None:
    return dry_basis(moisture=case.answers["moisture"])


def _added_losses(case: Case) -> float:
    first = case.values["predry_loss_percent"]
    second = 100 * (case.answers["moisture"] - first) / (100 - first)
    return first + second


def _plain_mean(case: Case) -> float:
    return (case.values["barley_temp_c"] + case.values["usual_water_c"]) / 2


def _mean_by_weight(case: Case) -> float:
    v = case.values
    heat = v["barley_kg"] * v["barley_temp_c"] + v["water_kg"] * v["usual_water_c"]
    return heat / (v["barley_kg"] + v["water_kg"])


def _in_fahrenheit(case: Case) -> float:
    return case.answers["mix_temp_c"] * 9 / 5 + 32


def _suction_of_a_tonne(case: Case) -> float:
    return case.values["suction_m3_h_t"]


def _suction_by_wet_weight(case: Case) -> float:
    v = case.values
    return case.answers["fan_m3_h"] * (100 - v["barley_moisture"]) / (100 - v["drained_moisture"])


def _suction_by_kilograms(case: Case) -> float:
    return case.answers["fan_m3_h"] * 1000


def _weight_as_volume(case: Case) -> float:
    return case.values["barley_kg"] / 1000 * case.values["swelling"]


_FORGOT_LEACHED = Slip(
    "forgot-leached",
    "You left out the dry matter that leaches into the water. Take it off first.",
    changed=(("dry_matter_lost", "0"),),
)
_BATCH = (
    Draw("barley_kg", 3000, 6000, 100),
    Draw("barley_moisture", 11, 14, 0.5),
    Draw("target_moisture", 43, 46, 0.5),
)
_BASKET = (
    Draw("basket_g", 60, 120, 1),
    Draw("sample_g", 100, 250, 50),
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
            _FORGOT_LEACHED,
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
        "basket-now",
        CHAPTER,
        "sample-basket",
        (
            *_BASKET,
            Pick("dry_matter_lost", ("1",)),
            Pick("drained", ("drained",)),
            Draw("gross_now_g", 200, 500, 1),
        ),
        "moisture_now",
        "A steep basket weighs {basket_g} wet and empty. {sample_g} of barley at {barley_moisture} went into "
        "it. Drained, it now weighs {gross_now_g}. {dry_matter_lost} of the dry matter has leached away. What is "
        "the moisture of the grain, in per cent?",
        0.3,
        (
            Slip(
                "forgot-tare",
                "You left the basket’s own weight in. Take it off first.",
                formula=_water_share_of_gross,
            ),
            dry_basis_of("moisture_now"),
            Slip(
                "net-for-drained",
                "That is the moisture inside the corns, without the film. A drained basket shows the film too.",
                instead="net_moisture_now",
            ),
        ),
        "procedures/measuring-moisture",
        (31.0, 47.0),
    ),
    Exercise(
        "basket-at-target",
        CHAPTER,
        "sample-basket",
        (
            *_BASKET,
            Pick("dry_matter_lost", ("1",)),
            Pick("drained", ("drained",)),
            Draw("gross_now_g", 240, 400, 1),
        ),
        "gross_at_target_g",
        "A steep basket weighs {basket_g} wet and empty and holds {sample_g} of barley at {barley_moisture}. "
        "{dry_matter_lost} of the dry matter leaches away. What must the drained basket read, in grams, at "
        "{target_moisture}?",
        1.0,
        (
            Slip(
                "forgot-tare",
                "That is the grain alone. The scale shows the basket too.",
                formula=_grain_without_basket,
            ),
            _FORGOT_LEACHED,
        ),
        "procedures/measuring-moisture",
    ),
    Exercise(
        "oven-two-stages",
        CHAPTER,
        "oven-moisture",
        (
            Pick("dishes", ("20 25 24.5", "20 25 24.45", "20 25 24.4", "20 30 29.1", "20 30 28.9")),
            Pick("material", ("steeped-corn",)),
            Draw("predry_loss_percent", 30, 42, 1),
        ),
        "moisture",
        "Wet grain lost {predry_loss_percent} of its weight when it was dried whole. A dish of the rest, ground, "
        "weighed (empty, before, after the oven): {dishes}. What was the moisture of the wet grain, in per cent?",
        0.2,
        (
            Slip(
                "added-losses",
                "You added the two losses. The second counts on what the first left, so multiply what stays.",
                formula=_added_losses,
            ),
            Slip(
                "forgot-first",
                "That is the moisture of the pre-dried grain alone. Bring in the first loss.",
                changed=(("predry_loss_percent", "0"),),
            ),
            Slip("dry-basis", dry_basis_of("moisture").says, formula=_share_of_dry),
        ),
        "procedures/measuring-moisture",
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
        "suction-of-a-rest",
        CHAPTER,
        "rest-warmth",
        (
            Draw("barley_kg", 3000, 8000, 500),
            Pick("barley_moisture", ("12", "13")),
            Draw("drained_moisture", 39, 43, 1),
            Pick("since_wetting_h", ("24",)),
            Pick("start_c", ("14",)),
            Pick("rest_h", ("12",)),
            Draw("suction_m3_h_t", 20, 60, 5),
            Pick("air_c", ("12",)),
            Pick("air_rh", ("80",)),
        ),
        "fan_m3_h",
        "A steep of {barley_kg} of barley at {barley_moisture} is drained at {drained_moisture}. Its rest wants a "
        "suction of {suction_m3_h_t}: a tonne of barley as it was filled. What must the fan draw, in m³ an hour?",
        5.0,
        (
            Slip("one-tonne", "That is for one tonne. The steep holds more.", formula=_suction_of_a_tonne),
            Slip(
                "wet-weight",
                "You took the weight of the wet grain. Figures for a tonne mean barley as it was filled.",
                formula=_suction_by_wet_weight,
            ),
            Slip(
                "kilograms", "You multiplied by kilograms. The suction is for a tonne.", formula=_suction_by_kilograms
            ),
        ),
        "calculators/rest-warmth",
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
    Exercise(
        "chits-by-count",
        CHAPTER,
        "chitting",
        (
            Pick("barley_moisture", ("12", "12.5", "13")),
            Pick("water_temp_c", ("13", "14", "15")),
            Pick("corn_weight_g", ("45",)),
            Pick("stages", ("8; 8; 8; 14; 3", "7; 9; 8; 14; 3")),
            Pick("count_h", ("32",)),
            Draw("chitted", 50, 120, 5),
            Pick("counted", ("200",)),
            Pick("wanted_percent", ("80",)),
        ),
        "chitted_after_h",
        "Open the sheet on chitting. Barley at {barley_moisture} is steeped in water at {water_temp_c}, a thousand "
        "corns weighing {corn_weight_g}. Stages, wet and dry by turns: {stages}. {count_h} after the start {chitted} "
        "of {counted} corns have chitted. After how many hours from the start have {wanted_percent} chitted?",
        0.8,
        (
            Slip(
                "without-the-count",
                "That is the usual lot. Your count says how fast this one is: type it in.",
                changed=(("count_h", ""), ("chitted", ""), ("counted", "")),
            ),
            Slip(
                "another-share",
                "That is for a larger share, which a drum wants. Type the share that is asked for.",
                changed=(("wanted_percent", "90"),),
            ),
        ),
        "procedures/steeping",
        (33.0, 60.0),
    ),
)
