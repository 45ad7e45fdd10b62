"""Exercises on counting corns."""

from __future__ import annotations

from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "counts"


def _last_days_index(case: Case) -> float | None:
    x, y, z = (float(text) for text in case.typed["daily"].split(";"))
    running = (x, x + y, x + y + z)
    return 10 * sum(running) / (running[0] + 2 * running[1] + 3 * running[2])


def _relative(case: Case) -> float:
    return 100 * case.answers["water_sensitivity"] / case.answers["energy"]


def _four_times_too_few(case: Case) -> float:
    return case.answers["corns_to_count"] / 4


def _grown(case: Case) -> list[float]:
    return [float(row.split()[0]) for row in case.typed["replicates"].split(";")]


def _mean_grown(case: Case) -> float:
    grown = _grown(case)
    return sum(grown) / len(grown)


def _worst_dish(case: Case) -> float:
    return 2 * min(_grown(case))


def _classes(case: Case) -> list[float]:
    return [float(row) for row in case.typed["counts"].split(";")]


def _in_the_class(case: Case) -> float:
    counts = _classes(case)
    return 100 * counts[3] / sum(counts)


def _of_all_but_overshot(case: Case) -> float:
    counts = _classes(case)
    return 100 * counts[3] / sum(counts[:4])


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
            Pick("replicates", ("97 100; 98 100",)),
            Pick("daily", ("130; 50; 15", "150; 35; 10", "110; 65; 20", "90; 85; 20", "60; 100; 35")),
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
        (
            Pick("replicates", ("98 100; 97 100", "96 100; 98 100", "95 100; 97 100")),
            Pick("replicates_8ml", ("60 100; 64 100", "70 100; 68 100", "82 100; 80 100", "88 100; 86 100")),
        ),
        "water_sensitivity",
        "Two dishes of 100 corns were given 4 ml of water each; grown and sown: {replicates}. Two more "
        "were given 8 ml; grown and sown: {replicates_8ml}. What is the water sensitivity, in points?",
        0.4,
        (
            Slip(
                "percent-for-points",
                "That is the drop as per cent of the energy. Water sensitivity is the difference in points.",
                formula=_relative,
            ),
            Slip("energy-for-difference", "That is the energy in 4 ml. Take the 8 ml from it.", instead="energy"),
        ),
        "procedures/germination-test",
    ),
    Exercise(
        "corns-to-count",
        CHAPTER,
        "sample-size",
        (
            Draw("expected_percent", 75, 92, 1),
            Pick("margin_points", ("5", "10")),
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
    ),
    Exercise(
        "energy",
        CHAPTER,
        "germination-test",
        (
            Pick(
                "replicates",
                (
                    "47 50; 49 50; 46 50; 48 50",
                    "45 50; 47 50; 48 50; 49 50",
                    "44 50; 46 50; 47 50; 48 50",
                    "48 50; 49 50; 50 50; 47 50",
                    "43 50; 45 50; 47 50; 46 50",
                ),
            ),
        ),
        "energy",
        "Four dishes of 50 corns each; grown and sown: {replicates}. What is the energy, in per cent?",
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
        "three-quarters-and-beyond",
        CHAPTER,
        "readiness",
        (
            Pick(
                "counts",
                (
                    "5; 5; 10; 65; 15",
                    "2; 4; 14; 66; 14",
                    "8; 10; 32; 130; 20",
                    "3; 8; 22; 57; 10",
                    "6; 14; 36; 120; 24",
                    "4; 6; 20; 60; 10",
                ),
            ),
        ),
        "share_ready",
        "Corns by the length of the acrospire, in parts of the corn: {counts}. "
        "How many per cent have come three quarters of the way or further?",
        0.5,
        (
            Slip(
                "without-those-beyond",
                "You left out the corns past the end. They have three quarters too, and wait for nothing.",
                formula=_in_the_class,
            ),
            Slip(
                "overshot-not-counted",
                "You took the corns past the end out of the count. They are corns of the piece like the others.",
                formula=_of_all_but_overshot,
            ),
        ),
        "procedures/readiness",
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
