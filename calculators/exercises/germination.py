"""Exercises on the growing bed."""

from __future__ import annotations

from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "germination"


def _by_points(case: Case) -> float:
    v = case.values
    return v["bed_kg"] * (v["moisture_wanted"] - v["moisture_now"]) / 100


def _whole_cylinder(case: Case) -> float:
    v = case.values
    drum = 3.141592653589793 / 4 * v["drum_diameter_m"] ** 2 * v["drum_length_m"]
    return 100 * v["barley_kg"] / v["bulk_density"] * v["swelling_grown"] / drum


def _wet_for_dry(case: Case) -> float:
    return case.answers["co2_kg_h"] * 100 / (100 - case.values["barley_moisture"])


def _a_day(case: Case) -> float:
    return 24 * case.answers["co2_kg_h"]


def _wrong_way(case: Case) -> float:
    v = case.values
    pace: float = v["q10"] ** ((v["reference_temp_c"] - v["bed_temp_c"]) / 10)
    return (v["reference_days"] - v["days_done"] * pace) / pace


def _no_pace(case: Case) -> float:
    return case.values["reference_days"] - case.values["days_done"]


def _from_the_wetting(case: Case) -> float:
    return case.answers["count_from_h"] + case.values["now_h"]


def _by_the_middle(case: Case) -> float:
    return case.answers["chit_h"] - case.values["now_h"]


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
        "of its dry matter a day, and each kilogram of that gives 1.63 kg of carbon dioxide. How many kilograms of "
        "the gas does it give off in an hour?",
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
    Exercise(
        "days-to-go",
        CHAPTER,
        "days-to-ready",
        (
            Draw("bed_temp_c", 11, 18, 1),
            Pick("reference_temp_c", ("14", "15")),
            Pick("reference_days", ("5", "6")),
            Draw("days_done", 1, 3, 0.5),
            Pick("q10", ("2.25",)),
        ),
        "days_to_ready",
        "At {reference_temp_c} this house’s barley is ready after {reference_days}. Ten degrees more make growth "
        "{q10} times as fast. A piece has lain at {bed_temp_c} for {days_done}. How many days more does it need there?",
        0.1,
        (
            Slip(
                "wrong-way",
                "You turned the pace round. Warmer grows faster, so a warm piece needs fewer days.",
                formula=_wrong_way,
            ),
            Slip(
                "forgot-days-done",
                "That is from the beginning. Take off what has been done.",
                changed=(("days_done", "0"),),
            ),
            Slip(
                "no-pace",
                "You counted each day as one. A day at another temperature counts for more or less than a day.",
                formula=_no_pace,
            ),
        ),
        "calculators/days-to-ready",
        (0.3, 12.0),
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
)
