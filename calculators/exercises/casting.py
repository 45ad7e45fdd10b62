"""Exercises on the hour of the cast."""

from __future__ import annotations

from ..rules.limit import edge
from ..rules.limits.casting import CHIT, CHIT_COUCH, OFF_TARGET
from .exercise import Beside, Case, Draw, Exercise, Pick, Slip

CHAPTER = "casting"
_VERDICTS = ("hold", "wet-again", "cast")
_HOLD, _WET, _CAST = range(1, 4)


def _short(case: Case) -> bool:
    return case.values["target_moisture"] - case.values["moisture_drained"] > edge(OFF_TARGET.accept_high)


def _by_moisture(case: Case) -> float | None:
    if case.words["verdict"] != "hold":
        return None
    return _WET if _short(case) else _CAST


def _chit_wanted(case: Case) -> float:
    return edge((CHIT if case.typed["cast_to"] == "drum" else CHIT_COUCH).accept_low)


def _by_chit(case: Case) -> float | None:
    if case.words["verdict"] == "wet-again":
        return _CAST if case.answers["chit_share"] >= _chit_wanted(case) else _HOLD
    return None


def _not_there_yet(case: Case) -> float | None:
    """The chit is short of what is accepted, and the couch finishes it."""
    return _HOLD if case.words["verdict"] == "cast" and case.answers["chit_share"] < _chit_wanted(case) else None


def _push_with_water(case: Case) -> float | None:
    late = case.words["verdict"] != "wet-again" and case.answers["chit_share"] < _chit_wanted(case)
    return _WET if late and not _short(case) else None


def _wet_without_need(case: Case) -> float | None:
    return _WET if case.words["verdict"] == "cast" and not _short(case) else None


def _still_waiting(case: Case) -> float | None:
    return _HOLD if case.words["verdict"] == "cast" else None


def _cast_short(case: Case) -> float | None:
    return _CAST if case.words["verdict"] == "wet-again" else None


def _held_short(case: Case) -> float | None:
    return _HOLD if case.words["verdict"] == "wet-again" else None


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
                "the-couch-finishes",
                "You went by the chit alone. Where does it go? What is short of it finishes in the couch.",
                formula=_not_there_yet,
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
            Slip(
                "wet-without-need",
                "It is within what is accepted of its target. More water takes air from it.",
                formula=_wet_without_need,
                always=False,
            ),
            Slip(
                "held-short",
                "It is short of its target, by more than is accepted. Waiting brings no water.",
                formula=_held_short,
                always=False,
            ),
            Slip(
                "cast-short",
                "It is short of its target, by more than is accepted. Give the water before it is cast.",
                formula=_cast_short,
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
