"""Exercises on losses and the hand-over at the kiln."""

from __future__ import annotations

from ..asking.figures import carried, fixed
from ..models.living.pace import GROWTH_Q10
from ..models.weights.moisture import weight_after
from .exercise import Case, Draw, Exercise, Slip

CHAPTER = "kiln"


def _by_points(case: Case) -> float:
    v = case.values
    return v["green_malt_kg"] * (v["green_malt_moisture"] - v["malt_moisture"]) / 100


def _loss_as_weighed(case: Case) -> float:
    v = case.values
    return 100 * (1 - v["malt_kg"] / v["barley_kg"])


def _less_the_points(case: Case) -> float:
    return case.values["green_malt_kg"] - _by_points(case)


def _dry_matter(case: Case) -> float:
    v = case.values
    return weight_after(weight_kg=v["green_malt_kg"], moisture=v["green_malt_moisture"], new_moisture=0.0)


_FREE_H = 96.0
"""Hours until the kiln is free, in the exercise on waiting for it: invented."""


def _wait(days: float) -> float:
    return _FREE_H - 24.0 * days


def _waits(case: Case) -> tuple[float, str, int, str]:
    days = case.answers["days_to_ready"]
    hours = _wait(days)
    working = f"{fixed(_FREE_H, 0)} − 24 × {carried(days, 4)} = {fixed(hours, 0)} h"
    return hours, "h", 0, working


def _no_pace(case: Case) -> float:
    return _wait(case.values["reference_days"] - case.values["days_done"])


def _from_the_cast(case: Case) -> float:
    return _wait(case.answers["days_to_ready"] + case.values["days_done"])


EXERCISES = (
    Exercise(
        "kiln-water",
        CHAPTER,
        "kiln-water",
        (
            Draw("green_malt_kg", 5000, 9500, 100),
            Draw("green_malt_moisture", 42, 46, 0.5),
            Draw("malt_moisture", 4, 5, 0.5),
        ),
        "water_to_remove_kg",
        "{green_malt_kg} of green malt at {green_malt_moisture} is to be dried to {malt_moisture}. "
        "How many kilograms of water must go?",
        20.0,
        (
            Slip(
                "points-for-percent",
                "The points of moisture are not per cent of the weight. The dry matter stays: the malt weighs "
                "less than you took, so more water has to go.",
                formula=_by_points,
            ),
            Slip("malt-for-water", "That is the malt left, not the water.", instead="malt_kg"),
        ),
        "procedures/kiln-hand-over",
    ),
    Exercise(
        "malting-loss",
        CHAPTER,
        "malting-loss",
        (
            Draw("barley_kg", 4000, 6000, 100),
            Draw("barley_moisture", 11, 14, 0.5),
            Draw("malt_kg", 3200, 5000, 50),
            Draw("malt_moisture", 4, 6, 0.5),
        ),
        "loss_percent",
        "{barley_kg} of barley at {barley_moisture} gave {malt_kg} of malt at {malt_moisture}, rootlets taken "
        "off. What part of the dry matter was lost, in per cent?",
        0.3,
        (
            Slip(
                "forgot-moistures",
                "That is the loss of weight as weighed. Compare dry matter with dry matter.",
                formula=_loss_as_weighed,
            ),
            Slip("yield-for-loss", "That is the yield, not the loss.", instead="yield_percent"),
        ),
        "procedures/kiln-hand-over",
        (6.0, 14.0),
    ),
    Exercise(
        "malt-from-green-malt",
        CHAPTER,
        "kiln-water",
        (
            Draw("green_malt_kg", 5000, 9500, 100),
            Draw("green_malt_moisture", 42, 46, 0.5),
            Draw("malt_moisture", 4, 5, 0.5),
        ),
        "malt_kg",
        "{green_malt_kg} of green malt at {green_malt_moisture} comes off the kiln at {malt_moisture}, rootlets still "
        "on. How many kilograms of malt is that?",
        20.0,
        (
            Slip(
                "points-for-percent",
                "You took the points of moisture off the weight. The dry matter stays: work that out first, then "
                "divide by what is not water.",
                formula=_less_the_points,
            ),
            Slip(
                "dry-for-malt",
                "That is the dry matter. Malt still holds some water.",
                formula=_dry_matter,
            ),
            Slip("water-for-malt", "That is the water that goes, not the malt.", instead="water_to_remove_kg"),
        ),
        "procedures/kiln-hand-over",
    ),
    Exercise(
        "wait-for-the-kiln",
        CHAPTER,
        "days-to-ready",
        (
            Draw("bed_temp_c", 12, 18, 0.5),
            Draw("days_done", 1, 3, 0.5),
            Draw("reference_temp_c", 15, 15, 1),
            Draw("reference_days", 4.5, 6, 0.5),
        ),
        "days_to_ready",
        "A batch has lain {days_done} on the floor at {bed_temp_c}, and stays at it. In this house a batch takes "
        "{reference_days} at {reference_temp_c}; "
        f"10 K more make it {GROWTH_Q10:g} times as fast. The kiln is taken for another {_FREE_H:.0f} h. "
        "How many hours will the batch lie ready before the kiln is free?",
        2.0,
        (
            Slip(
                "no-pace",
                "That is at your usual temperature. The bed is cooler or warmer: work out its pace first.",
                formula=_no_pace,
                always=False,
            ),
            Slip(
                "from-the-cast",
                "You counted the days from the cast again. Some of them are done.",
                formula=_from_the_cast,
            ),
        ),
        "calculators/house-week",
        (6.0, 90.0),
        sum=_waits,
    ),
)
