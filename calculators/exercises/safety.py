"""Exercises on gas readings: sums only; none of them allows anyone to go in anywhere."""

from __future__ import annotations

from ..exercise import Case, Exercise, Pick, Slip

CHAPTER = "safety"

_ROWS = (
    "900 240; 2500 60; 6000 20; 1500 160",
    "800 200; 3500 90; 8000 15; 1200 175",
    "700 300; 4000 45; 9000 10; 1000 125",
)


def _plain_mean(case: Case) -> float:
    ppm = [float(row.split()[0]) for row in case.typed["rows"].split(";")]
    return sum(ppm) / len(ppm)


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
)
