"""Exercises on a laboratory's sheet: one basis, one convention, and what one result leaves open."""

from __future__ import annotations

from .exercise import Case, Draw, Exercise, Pick, Slip

CHAPTER = "analysis"

_BLANK = tuple(Pick(name, ("",)) for name in ("other_extract", "other_nitrogen"))


def _multiplied(case: Case) -> float:
    return case.values["extract_percent"] * (100.0 - case.values["malt_moisture"]) / 100.0


def _added(case: Case) -> float:
    return case.values["extract_percent"] + case.values["malt_moisture"]


def _times(case: Case) -> float:
    return case.values["protein_percent"] * 6.25


def _bare_figure(case: Case) -> float:
    inside = case.values["nitrogen_from"] <= case.values["nitrogen_percent"] <= case.values["nitrogen_most"]
    return 1.0 if inside else 3.0


EXERCISES = (
    Exercise(
        "extract-on-dry-matter",
        CHAPTER,
        "analysis-sheet",
        (Draw("extract_percent", 74, 82, 0.1), Pick("extract_basis", ("as-is",)), Draw("malt_moisture", 3.5, 6.5, 0.1),
         *_BLANK),
        "extract_dry",
        "A sheet says: extract {extract_percent} as is, moisture {malt_moisture}. What is the extract on dry matter, "
        "in "
        "per cent?",
        0.2,
        (
            Slip(
                "multiplied",
                "You took the water off once more. Dry matter is less than the malt, so its share is larger: divide.",
                formula=_multiplied,
            ),
            Slip(
                "added",
                "You added the points of moisture. Divide by what is not water.",
                formula=_added,
                always=False,
            ),
        ),
        "learning/reading-an-analysis-sheet",
        (76.0, 90.0),
    ),
    Exercise(
        "nitrogen-of-protein",
        CHAPTER,
        "analysis-sheet",
        (Draw("protein_percent", 9, 12.5, 0.1), Pick("extract_percent", ("81.5",)), Pick("extract_basis", ("dry",)),
         Pick("malt_moisture", ("4.5",)), *_BLANK),
        "nitrogen",
        "A sheet gives protein, {protein_percent} of the dry matter. The order is in nitrogen. How much nitrogen is "
        "that, "
        "in per cent?",
        0.02,
        (Slip("times", "You multiplied. Protein is the larger of the two: divide by 6.25.", formula=_times),),
        "learning/reading-an-analysis-sheet",
    ),
    Exercise(
        "nitrogen-as-ordered",
        CHAPTER,
        "analysis-sheet",
        (Draw("nitrogen_percent", 1.38, 1.84, 0.01), Pick("nitrogen_from", ("1.5",)), Pick("nitrogen_most", ("1.7",)),
         Pick("extract_percent", ("81.5",)), Pick("extract_basis", ("dry",)), Pick("malt_moisture", ("4.5",)), *_BLANK),
        "verdict",
        "A sheet says nitrogen {nitrogen_percent}. The order asks for {nitrogen_from} to {nitrogen_most}. One result "
        "may "
        "lie 0.08 points from the malt’s own figure. What is to be said?",
        0.4,
        (
            Slip(
                "bare-figure",
                "You held the bare figure against the order. So little past an end, one result does not tell: 0.08 "
                "points "
                "either way are open.",
                formula=_bare_figure,
                always=False,
            ),
            Slip(
                "never-sure",
                "Not every figure is open: this one lies farther from the ends than one result may err.",
                formula=lambda _: 2.0,
                always=False,
            ),
        ),
        "learning/reading-an-analysis-sheet",
        among=("ordered", "open", "off"),
    ),
)  # fmt: skip
