"""Exercises on the dishes of the germination test."""

from __future__ import annotations

from .corns import by_the_formula, day_by_day, energy_dishes, one_dish, with_much_water
from .exercise import Case, Draw, Exercise, Made, Pick, Slip

CHAPTER = "counts"


def _last_days_index(case: Case) -> float | None:
    x, y, z = (float(text) for text in case.typed["daily"].split(";"))
    running = (x, x + y, x + y + z)
    return 10 * sum(running) / (running[0] + 2 * running[1] + 3 * running[2])


def _relative(case: Case) -> float:
    return 100 * case.answers["water_sensitivity"] / case.answers["energy"]


def _by_the_short_formula(case: Case) -> float:
    share = case.answers["energy"] / 100
    sown = float(case.typed["replicates"].split()[1])
    return float(100 * (share - 1.96 * (share * (1 - share) / sown) ** 0.5))


def _four_times_too_few(case: Case) -> float:
    return case.answers["corns_to_count"] / 4


def _grown(case: Case) -> list[float]:
    return [float(row.split()[0]) for row in case.typed["replicates"].split(";")]


def _mean_grown(case: Case) -> float:
    grown = _grown(case)
    return sum(grown) / len(grown)


def _worst_dish(case: Case) -> float:
    return 2 * min(_grown(case))


def _portions(case: Case) -> list[tuple[float, float]]:
    rows = [row.split() for row in case.typed["portions"].split(";")]
    return [(float(corns), float(grams)) for corns, grams in rows]


def _of_five_hundred(case: Case) -> float:
    portions = _portions(case)
    return sum(grams for _, grams in portions) / len(portions)


def _all_grams(case: Case) -> float:
    return sum(grams for _, grams in _portions(case))


EXERCISES = (
    Exercise(
        "germination-index",
        CHAPTER,
        "germination-test",
        (
            Made(("replicates", "daily"), day_by_day),
            Pick("daily_kind", ("newly",)),
        ),
        "germination_index",
        "Of two dishes of 100 corns these grew newly on each of three days and were taken out: {daily}. "
        "What is the germination index?",
        0.1,
        (
            Slip(
                "running-totals",
                "You counted running totals. The index takes the corns newly grown each day.",
                formula=_last_days_index,
            ),
        ),
        "procedures/germination-test",
    ),
    Exercise(
        "water-sensitivity",
        CHAPTER,
        "germination-test",
        (Made(("replicates", "replicates_8ml"), with_much_water),),
        "water_sensitivity",
        "Two dishes of 100 corns were given 4 ml of water each; grown and sown: {replicates}. Two more "
        "were given 8 ml; grown and sown: {replicates_8ml}. What is the water sensitivity, in points?",
        0.4,
        (
            Slip(
                "percent-for-points",
                "That is the drop as per cent of the energy. Water sensitivity is the difference in points.",
                formula=_relative,
                always=False,
            ),
            Slip("energy-for-difference", "That is the energy in 4 ml. Take the 8 ml from it.", instead="energy"),
        ),
        "procedures/germination-test",
        (-5.0, 100.0),
    ),
    Exercise(
        "corns-to-count",
        CHAPTER,
        "sample-size",
        (
            Draw("expected_percent", 60, 96, 1),
            Draw("margin_points", 4, 10, 1),
        ),
        "corns_to_count",
        "You expect about {expected_percent} of the corns to be ready and want to know it within "
        "{margin_points}. How many corns must you count?",
        4.0,
        (
            Slip(
                "half-margin",
                "That is for twice the margin. Half the margin takes about four times the corns.",
                formula=_four_times_too_few,
            ),
        ),
        "procedures/readiness",
        also=by_the_formula,
    ),
    Exercise(
        "energy",
        CHAPTER,
        "germination-test",
        (Made(("replicates",), energy_dishes),),
        "energy",
        "Four dishes; grown and sown: {replicates}. What is the energy, in per cent?",
        0.4,
        (
            Slip(
                "corns-for-percent",
                "That is corns a dish. Of how many? Divide by what was sown.",
                formula=_mean_grown,
            ),
            Slip(
                "worst-dish",
                "That is the worst dish. The energy is all that grew of all that was sown.",
                formula=_worst_dish,
            ),
        ),
        "procedures/germination-test",
    ),
    Exercise(
        "lowest-still-open",
        CHAPTER,
        "germination-test",
        (Made(("replicates",), one_dish),),
        "energy",
        "One dish was sown; grown and sown: {replicates}. Put it into the germination test and read the interval. "
        "What is the lowest energy that this count leaves open, in per cent?",
        0.3,
        (
            Slip("share-for-end", "That is the share counted. The interval begins well below it.", instead="energy"),
            Slip(
                "plain-formula",
                "That is by the short formula, which is wrong near 0 and 100 %. The sheet takes one that holds there.",
                formula=_by_the_short_formula,
            ),
        ),
        "procedures/germination-test",
        edge="low",
    ),
    Exercise(
        "thousand-corns",
        CHAPTER,
        "corn-weight",
        (
            Pick(
                "portions",
                (
                    "500 22.4; 500 22.7; 500 22.5",
                    "500 20.1; 500 20.5; 500 20.2",
                    "500 24.8; 500 24.4; 500 24.9",
                    "400 17.8; 500 22.6; 600 26.7",
                    "600 25.3; 500 21.4; 400 16.9",
                    "500 18.9; 500 19.3; 500 19.1",
                ),
            ),
        ),
        "corn_weight_g",
        "Portions were counted and weighed, corns and grams: {portions}. What do a thousand corns weigh, in grams?",
        0.3,
        (
            Slip(
                "one-portion",
                "That is the mean of the portions’ grams. Divide by the corns, and take a thousand.",
                formula=_of_five_hundred,
            ),
            Slip("all-grams", "Those are all the grams. They belong to all the corns counted.", formula=_all_grams),
        ),
        "learning/barleys-own-nature",
    ),
)
