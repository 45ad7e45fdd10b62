"""Exercises on a box: its floor, and what its gauge tells."""

from __future__ import annotations

from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "box"

_REST = (
    Pick("depth_m", ("1",)),
    Pick("bulk_density", ("618",)),
)


def _wet(case: Case) -> float:
    return 1.5 * case.answers["loading_kg_m2"]


def _upside_down(case: Case) -> float:
    return 1.0 / case.answers["pressure_times"]


def _with_the_empty_box(case: Case) -> float:
    return case.values["measured_pa"] / case.values["turned_pa"]


EXERCISES = (
    Exercise(
        "box-loading",
        CHAPTER,
        "bed-pressure",
        (Draw("barley_kg", 5000, 7000, 100), Pick("floor_m2", ("12", "13", "14", "15")), *_REST,
         Pick("airflow_m3_h", ("4000",)), Pick("measured_pa", ("",)), Pick("turned_pa", ("",))),
        "loading_kg_m2",
        "{barley_kg} of barley, as weighed dry, are cast into a box with a floor of {floor_m2}. How much barley lies "
        "on a "
        "square metre, in kg?",
        3.0,
        (Slip("wet-weight", "That is the wet bed. The trade’s figure is for barley as weighed dry.", formula=_wet),),
        "procedures/box-germination",
    ),
    Exercise(
        "box-gauge",
        CHAPTER,
        "bed-pressure",
        (Draw("measured_pa", 140, 220, 10), Draw("turned_pa", 100, 130, 10), Pick("other_pa", ("20", "30", "40")),
         Pick("barley_kg", ("6000",)), Pick("floor_m2", ("14",)), *_REST, Pick("airflow_m3_h", ("4000",))),
        "pressure_times",
        "Under the floor of a box the gauge shows {measured_pa}. A quarter of an hour after the last turning it showed "
        "{turned_pa}, at the same flow. The empty box takes {other_pa} of that. How many times is the pressure over "
        "the bed "
        "that after the turning?",
        0.02,
        (
            Slip("upside-down", "You divided the other way round: now over then.", formula=_upside_down),
            Slip("empty-box", "Take the empty box off both readings first.", formula=_with_the_empty_box),
        ),
        "procedures/box-germination",
    ),
)  # fmt: skip
