"""Exercises on the hour of the cast."""

from __future__ import annotations

from ..rules.limit import edge
from ..rules.limits.casting import CHIT, CHIT_COUCH, OFF_TARGET
from .exercise import Beside, Case, Draw, Exercise, Pick, Slip

CHAPTER = "casting"
_VERDICTS = ("hold", "wet-again", "cast")
_HOLD, _WET, _CAST = range(1, 4)


def _by_moisture(case: Case) -> float:
    short = case.values["target_moisture"] - case.values["moisture_drained"]
    return _WET if short > edge(OFF_TARGET.accept_high) else _CAST


def _chit_wanted(case: Case) -> float:
    return edge((CHIT if case.typed["cast_to"] == "drum" else CHIT_COUCH).accept_low)


def _by_chit(case: Case) -> float:
    return _CAST if case.answers["chit_share"] >= _chit_wanted(case) else _HOLD


def _push_with_water(case: Case) -> float:
    return _WET if case.answers["chit_share"] < _chit_wanted(case) else _CAST


def _still_waiting(_: Case) -> float:
    return _HOLD


def _chitted_of_counted(case: Case) -> float:
    return case.values["chitted"]


def _ungrown(case: Case) -> float:
    return 100 - 100 * case.values["chitted"] / case.values["counted"]


_CAST_GIVEN = (
    Draw("moisture_drained", 41, 46, 0.5),
    Pick("target_moisture", ("44", "45")),
    Draw("chitted", 110, 196, 2),
    Pick("counted", ("200",)),
    Pick("cast_to", ("couch", "drum")),
    Pick("smell", ("fresh",)),
    Draw("grain_temp_c", 14, 16.5, 0.5),
    Draw("hours_since_drain", 4, 12, 1),
)
_BATCH = (
    "A steep: drained it holds {moisture_drained}, the target is {target_moisture}. {chitted} of {counted} corns "
    "have chitted. It smells fresh, the grain stands at {grain_temp_c}, and was drained {hours_since_drain} ago. It "
    "goes to: "
    "{cast_to}."
)

EXERCISES = (
    Exercise(
        "hold-wet-or-cast",
        CHAPTER,
        "cast-decision",
        _CAST_GIVEN,
        "verdict",
        _BATCH + " What does the sheet for the cast decide?",
        0.4,
        (
            Slip(
                "moisture-alone",
                "You went by the moisture alone. Is the chit there?",
                formula=_by_moisture,
                always=False,
            ),
            Slip(
                "chit-alone",
                "You went by the chit alone. Is the water there, and where does it go?",
                formula=_by_chit,
                always=False,
            ),
            Slip(
                "push-with-water",
                "Water brings no late chit: it takes the air that the chit wants.",
                formula=_push_with_water,
                always=False,
            ),
            Slip(
                "still-waiting",
                "All of it is in order. Waiting lets roots tangle.",
                formula=_still_waiting,
                always=False,
            ),
        ),
        "procedures/casting",
        among=_VERDICTS,
    ),
    Exercise(
        "chit-share",
        CHAPTER,
        "cast-decision",
        (*_CAST_GIVEN, Beside("hands", 2, 5, 1, "{} people stand ready")),
        "chit_share",
        _BATCH + " {hands}. How many per cent have chitted? Not every number here is needed.",
        0.5,
        (
            Slip("corns-for-percent", "That is corns. Divide by those counted.", formula=_chitted_of_counted),
            Slip("the-others", "That is the share that has not chitted.", formula=_ungrown),
        ),
        "procedures/steeping",
    ),
    Exercise(
        "highest-chit-still-open",
        CHAPTER,
        "cast-decision",
        _CAST_GIVEN,
        "chit_share",
        _BATCH
        + " Put it into the sheet for the cast and read the interval of the chit. What is the highest share that "
        "this count leaves open, in per cent?",
        0.6,
        (Slip("share-for-end", "That is the share counted. The interval ends above it.", instead="chit_share"),),
        "procedures/steeping",
        edge="high",
    ),
)
