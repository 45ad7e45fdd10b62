"""Exercises on the store: its time is spent once."""

from __future__ import annotations

from ..asking.figures import fixed, plain_number
from ..models.grain.storage_time import PUBLISHED_AT_C, PUBLISHED_DAYS
from .exercise import Case, Exercise, Pick, Slip

CHAPTER = "store"

_WARM = fixed(PUBLISHED_AT_C, 1)
_DAYS = dict(PUBLISHED_DAYS)
_EACH = [f"{plain_number(days)} at {plain_number(moisture)} %" for moisture, days in PUBLISHED_DAYS]
_KEEPS = f"{', '.join(_EACH[:-1])} and {_EACH[-1]}".replace(" at", " days at", 1)
_LAIN = tuple(f"{days} {wet} {_WARM}" for wet in (16, 17, 18) for days in (6, 8, 10, 12, 14))


def _begins_anew(case: Case) -> float:
    return case.answers["days_all"]


def _days_taken_off(case: Case) -> float:
    days = float(case.typed["spells"].split()[0])
    return case.answers["days_all"] - days


EXERCISES = (
    Exercise(
        "store-time-left",
        CHAPTER,
        "storage-time",
        (Pick("spells", _LAIN), Pick("kept_moisture", ("13", "14")), Pick("kept_temp_c", (_WARM,))),
        "days_left",
        "Barley has lain wet: {spells} (days, moisture, warmth). "
        f"At {_WARM} °C malting barley keeps {_KEEPS}. "
        "Now it is dried to {kept_moisture} and kept as warm. How many days are left?",
        3.0,
        (
            Slip(
                "begins-anew",
                "Drying gives no time back. What was spent of the wet days is spent of the dry ones too.",
                formula=_begins_anew,
            ),
            Slip(
                "days-taken-off",
                "A day at 17 % is not a day at 13 %. Take off the part that was spent, not the days.",
                formula=_days_taken_off,
                always=False,
            ),
        ),
        "procedures/store-through-the-year",
        (10.0, 250.0),
    ),
    Exercise(
        "store-time-spent",
        CHAPTER,
        "storage-time",
        (
            Pick("spells", tuple(
                f"{first} 17 {_WARM}; {second} 13 {_WARM}" for first in (5, 8, 11) for second in (54, 81, 108)
            )),
            Pick("kept_moisture", ("13",)),
            Pick("kept_temp_c", (_WARM,)),
        ),
        "spent",
        "A lot has lain: {spells} (days, moisture, warmth). "
        f"At {_WARM} °C malting barley keeps {plain_number(_DAYS[17])} days at 17 % and {plain_number(_DAYS[13])} "
        "at 13 %. What part of its time has it spent, in per cent?",
        2.0,
        (
            Slip(
                "only-the-last",
                "That is the dry spell alone. The wet days count too: add both parts.",
                formula=lambda case: 100.0 * float(case.typed["spells"].split("; ")[1].split()[0]) / _DAYS[13],
            ),
            Slip(
                "left-for-spent",
                "That is what is left. It was asked what is spent.",
                formula=lambda case: 100.0 - case.answers["spent"],
                always=False,
            ),
        ),
        "procedures/store-through-the-year",
        (20.0, 95.0),
    ),
)  # fmt: skip
