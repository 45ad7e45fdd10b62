"""Exercises on water and air by turns."""

from __future__ import annotations

from random import Random

from .exercise import Case, Draw, Exercise, Made, Pick, Slip

CHAPTER = "steeping"


def _suction_of_a_tonne(case: Case) -> float:
    return case.values["suction_m3_h_t"]


def _suction_by_wet_weight(case: Case) -> float:
    v = case.values
    return case.answers["fan_m3_h"] * (100 - v["barley_moisture"]) / (100 - v["drained_moisture"])


def _suction_by_kilograms(case: Case) -> float:
    return case.answers["fan_m3_h"] * 1000


def _from_the_wetting(case: Case) -> float:
    return case.answers["count_from_h"] + case.values["now_h"]


def _by_the_middle(case: Case) -> float:
    return case.answers["chit_h"] - case.values["now_h"]


def _two_weighings(random: Random) -> tuple[str, ...]:
    """The basket at the first and the second drain, of a lot that drinks fast or slowly."""
    first = random.randint(207, 219)
    return (f"8 {first}; 24 {first + random.randint(13, 19)}",)


def _no_fit(_: Case) -> float:
    return 1.0


def _the_wrong_way_round(case: Case) -> float:
    return 1 / case.answers["rate_factor"]


EXERCISES = (
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
    Exercise(
        "count-from",
        CHAPTER,
        "batch-forecast",
        (
            Pick("barley_moisture", ("11.5", "12.5", "13.5")),
            Pick("water_temp_c", ("12", "14", "16")),
            Pick("stages", ("8; 8; 8; 12; 3", "6; 10; 6; 14; 4")),
            Pick("now_h", ("16", "24")),
            Pick("bed", ("48 15",)),
        ),
        "count_from_h",
        "Barley at {barley_moisture} is steeped in water at {water_temp_c}, wet and in air by turns: {stages}. The bed "
        "is planned so: {bed}. It is now {now_h} after the first wetting and nothing has been read. Put this into the "
        "batch forecast. In how many hours do you begin to count chits?",
        0.5,
        (
            Slip(
                "from-the-wetting",
                "That is counted from the first wetting. Take off the hours that are past.",
                formula=_from_the_wetting,
            ),
            Slip(
                "by-the-middle",
                "That is the middle of the band. Of the batches it could be, half have chitted by then: begin at the "
                "soonest.",
                formula=_by_the_middle,
            ),
        ),
        "procedures/steeping",
        (1.0, 60.0),
    ),
    Exercise(
        "last-immersion",
        CHAPTER,
        "steep-timing",
        (
            Draw("barley_moisture", 11.5, 13.5, 0.5),
            Draw("water_temp_c", 11, 17, 1),
            Pick("corn_weight_g", ("42", "45", "48")),
            Pick("stages", ("8; 8; 8; 12; 3", "7; 9; 7; 12; 3", "8; 10; 6; 12; 3")),
            Pick("target_moisture", ("43.5", "44", "44.5", "45")),
        ),
        "last_immersion_needed_h",
        "Barley at {barley_moisture}, a thousand corns weighing {corn_weight_g}, water at {water_temp_c}. Stages "
        "in hours, wet and dry by turns: {stages}. By the sheet for the timing of the steep, how many hours must "
        "the last "
        "immersion take for {target_moisture}?",
        0.4,
        (
            Slip(
                "at-fourteen",
                "That is for water at 14 °C. Type the water you have: cold water takes longer.",
                changed=(("water_temp_c", "14"),),
            ),
            Slip(
                "a-point-less",
                "That is for a lower aim. Type the moisture that is wanted.",
                changed=(("target_moisture", "43"),),
            ),
        ),
        "procedures/steeping",
        (0.5, 9.0),
    ),
    Exercise(
        "chits-of-a-plan",
        CHAPTER,
        "steep-plan",
        (
            Pick("barley_moisture", ("12", "12.5", "13")),
            Draw("water_temp_c", 12, 16, 1),
            Pick("corn_weight_g", ("45",)),
            Pick("target_moisture", ("44", "45")),
            Pick("start", ("06:00", "08:00")),
            Pick("water_sensitivity", ("0", "8", "20")),
            Pick("cast_to", ("couch", "drum")),
        ),
        "chit_end",
        "Have a steep planned. Barley at {barley_moisture}, a thousand corns weighing {corn_weight_g}, water at "
        "{water_temp_c}, aim {target_moisture}, begun at {start}, water sensitivity {water_sensitivity}. It goes to: "
        "{cast_to}. How many per cent have chitted at the cast?",
        0.6,
        (
            Slip("moisture-for-chit", "That is the moisture, not the chit.", instead="moisture_end"),
            Slip(
                "sensitivity-left-out",
                "You left out that it minds water. Such barley chits more slowly.",
                changed=(("water_sensitivity", "0"),),
                always=False,
            ),
        ),
        "procedures/steeping",
        (50.0, 99.9),
    ),
    Exercise(
        "how-fast-this-lot-drinks",
        CHAPTER,
        "steep-fit",
        (
            Pick("basket_g", ("84",)),
            Pick("sample_g", ("100",)),
            Pick("barley_moisture", ("12", "12.5", "13")),
            Pick("water_temp_c", ("12", "14", "16")),
            Pick("corn_weight_g", ("45",)),
            Pick("stages", ("8; 8; 8; 12; 3",)),
            Made(("weighings",), _two_weighings),
        ),
        "rate_factor",
        "Open the sheet that fits a steep to its readings. Basket {basket_g} wet, {sample_g} of barley at "
        "{barley_moisture}, water at {water_temp_c}, a thousand corns weighing {corn_weight_g}. Stages: {stages}. "
        "Weighed, hours and grams: {weighings}. How many times as fast as usual does this lot drink?",
        0.03,
        (
            Slip("as-usual", "That is a usual lot. The two weighings say how this one drinks.", formula=_no_fit),
            Slip(
                "other-way",
                "You turned it round. Over 1 drinks faster than usual.",
                formula=_the_wrong_way_round,
            ),
        ),
        "calculators/steep-fit",
        (0.6, 1.8),
    ),
)
