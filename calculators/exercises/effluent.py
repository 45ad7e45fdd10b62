"""Exercises on what the drains carry away."""

from __future__ import annotations

from ..asking.figures import fixed
from ..models.bed.respiration import O2_PER_KG
from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "effluent"

_OXYGEN = fixed(O2_PER_KG, 3)

_WATERS = ("9; 8; 7", "8; 8; 8", "10; 8; 6", "9; 9; 9", "7; 6; 5")
_REST = (Pick("batches_week", ("3",)), Pick("dry_matter_lost", ("1",)))


def _wet(case: Case) -> float:
    return case.answers["cod_kg"] * 100.0 / (100.0 - case.values["barley_moisture"])


def _matter_for_oxygen(case: Case) -> float:
    v = case.values
    return v["barley_kg"] * (100.0 - v["barley_moisture"]) / 100.0 * v["dry_matter_lost"] / 100.0


def _kilos_a_litre(case: Case) -> float:
    return case.answers["cod_kg"] / case.answers["water_m3"]


def _turned_over(case: Case) -> float:
    return 1000.0 * case.answers["water_m3"] / case.answers["cod_kg"]


EXERCISES = (
    Exercise(
        "load-of-a-batch",
        CHAPTER,
        "steep-effluent",
        (Draw("barley_kg", 4000, 8000, 250), Draw("barley_moisture", 11, 14, 0.5), Pick("waters", _WATERS), *_REST),
        "cod_kg",
        "{barley_kg} of barley at {barley_moisture} are steeped; {dry_matter_lost} of the dry matter leaches away. It "
        "takes "
        f"up {_OXYGEN} kg of oxygen a kilogram, as starch does. How many kilograms of oxygen demand go down the drain?",
        1.0,
        (
            Slip("wet-weight", "You reckoned with the whole barley. What leaches is dry matter.", formula=_wet),
            Slip(
                "matter-for-oxygen",
                f"Those are the kilograms that leach. Each takes up {_OXYGEN} kg of oxygen.",
                formula=_matter_for_oxygen,
            ),
        ),
        "learning/steep-water",
    ),
    Exercise(
        "strength-of-the-water",
        CHAPTER,
        "steep-effluent",
        (Pick("barley_kg", ("5000", "6000", "7000")), Pick("barley_moisture", ("12",)), Pick("waters", _WATERS),
         *_REST),
        "strength",
        "A batch of {barley_kg} sends away {waters}, and with it 10.4 kg of oxygen demand for each tonne of barley. "
        "How "
        "strong are all its waters mixed, in mg/L?",
        40.0,
        (
            Slip(
                "kilos-a-cubic-metre",
                "Those are kilograms in a cubic metre. A thousand times as many milligrams are in a litre.",
                formula=_kilos_a_litre,
            ),
            Slip("turned-over", "You divided the water by the load. It is load over water.", formula=_turned_over,
                 always=False),
        ),
        "learning/steep-water",
    ),
)  # fmt: skip
