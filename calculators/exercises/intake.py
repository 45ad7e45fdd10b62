"""Exercises on the gate: which verdict, and which numbers do not matter."""

from __future__ import annotations

from ..rules.limit import edge
from ..rules.limits.germination_test import CAPACITY, ENERGY
from ..rules.limits.intake_and_storage import GATE_MOISTURE
from .exercise import Beside, Case, Draw, Exercise, Pick, Slip

CHAPTER = "intake"
_VERDICTS = ("take", "dry", "dry-rest", "hold", "rest", "reject", "stop")
_TAKE, _DRY, _DRY_REST, _HOLD, _REST, _REJECT, _STOP = range(1, 8)


def _by_moisture(case: Case) -> float | None:
    if case.words["verdict"] in ("take", "dry"):
        return None
    return _DRY if case.values["moisture"] > edge(GATE_MOISTURE.accept_high) else _TAKE


def _asleep_or_dead(case: Case) -> float | None:
    low = case.values["energy_percent"] < edge(ENERGY.accept_low)
    low = low and case.words["verdict"] in ("rest", "dry-rest", "reject")
    return (_REJECT if case.values["capacity_percent"] >= edge(CAPACITY.stop_low) else _REST) if low else None


def _it_can_be_mended(case: Case) -> float | None:
    return None if case.words["verdict"] in ("take", "dry") else _DRY


def _held_for_nothing(case: Case) -> float | None:
    sure = case.values["capacity_percent"] >= edge(CAPACITY.accept_low)
    return _HOLD if sure and case.words["verdict"] in ("take", "dry", "dry-rest", "rest") else None


def _held_while_wet(case: Case) -> float | None:
    unsure = case.values["capacity_percent"] < edge(CAPACITY.accept_low)
    return _HOLD if unsure and case.words["verdict"] == "dry" else None


def _held_for_a_grave_thing(case: Case) -> float | None:
    return _HOLD if case.words["verdict"] in ("reject", "stop") else None


def _not_looked_at_papers(case: Case) -> float | None:
    if case.typed["fumigated"] == "nobody-knows":
        return _TAKE
    asked = case.typed["insects"] == "found" or case.typed["fumigated"] != "written-no"
    return None if asked else _STOP


def _rather_not(case: Case) -> float | None:
    return _REJECT if case.words["verdict"] != "stop" else None


def _sent_on(case: Case) -> float | None:
    return _REJECT if case.words["verdict"] == "stop" else None


EXERCISES = (
    Exercise(
        "verdict-at-the-gate",
        CHAPTER,
        "intake-check",
        (
            Pick("smell", ("clean",) * 5 + ("dusty", "sour")),
            Pick("insects", ("none",) * 8 + ("found",)),
            Pick("fumigated", ("written-no",) * 6 + ("certificate", "nobody-knows")),
            Draw("moisture", 12.5, 16, 0.1),
            Draw("temperature_c", 12, 24, 0.5),
            Pick("energy_percent", ("82", "90", "97", "98", "99")),
            Pick("capacity_percent", ("92", "96", "99", "99", "100")),
            Draw("screenings_percent", 1, 7.5, 0.1),
            Beside("lorries", 2, 12, 1, "{} more lorries wait"),
        ),
        "verdict",
        "A load at the gate; {lorries}. Smell: {smell}. Insects: {insects}. Fumigated: {fumigated}. Moisture "
        "{moisture}, "
        "grain at {temperature_c}, energy {energy_percent}, capacity {capacity_percent}, screenings "
        "{screenings_percent}. Put what is needed into the intake check. What does it say first?",
        0.4,
        (
            Slip(
                "by-moisture-alone",
                "You judged by the moisture alone. Smell, papers and a dead or sleeping lot come before it.",
                formula=_by_moisture,
                always=False,
            ),
            Slip(
                "asleep-for-dead",
                "Low energy with a high capacity sleeps; with a low capacity it is dead.",
                formula=_asleep_or_dead,
                always=False,
            ),
            Slip(
                "mended",
                "Drying mends water. It wakes nothing and cleans nothing.",
                formula=_it_can_be_mended,
                always=False,
            ),
            Slip(
                "held-for-nothing",
                "A load is held where a capacity is in doubt and has to be tested again. Here it is not.",
                formula=_held_for_nothing,
                always=False,
            ),
            Slip(
                "held-while-wet",
                "The capacity is tested again, and rightly. Wet barley cannot lie so long: it is dried meanwhile.",
                formula=_held_while_wet,
                always=False,
            ),
            Slip(
                "held-for-a-grave-thing",
                "A load is held for a test that can be made again. Something graver than that has decided here.",
                formula=_held_for_a_grave_thing,
                always=False,
            ),
            Slip(
                "sent-on",
                "What can hurt people, or spread, comes first: stop, before any yes or no.",
                formula=_sent_on,
                always=False,
            ),
            Slip(
                "rather-not",
                "A no needs a line that decided. Every check that was made keeps its limit, or the trouble can be "
                "mended.",
                formula=_rather_not,
                always=False,
            ),
            Slip(
                "papers",
                "Look at the papers once more: nobody knows is not no, and a written no is one.",
                formula=_not_looked_at_papers,
                always=False,
            ),
        ),
        "procedures/intake-and-storage",
        among=_VERDICTS,
    ),
)
