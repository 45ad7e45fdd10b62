"""The verdict on a load names the lines that decided it: those that alone would give the word, and no others."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.rules.intake import FIGURES, GRAVEST, Germination, Signs, decide

CLEAN = Signs("clean", "none", "certificate")
MOST = {
    "screenings_percent": 7.0, "nitrogen_percent": 1.75, "pre_germinated_percent": 0.0, "split_skinned_percent": 6.0,
    "ergot_g_kg": 0.2, "admixture_percent": 2.0, "temperature_c": 30.0,
}  # fmt: skip


def load(moisture: float = 13.0, energy: float = 98.0, capacity: float = 99.0, **found: float):
    figures: dict[str, tuple[float | None, float]] = {
        question: (found.get(question, 0.0), MOST[question]) for question in FIGURES
    }
    return decide(CLEAN, moisture, 14.5, Germination(energy, capacity, 95.0, 98.0, 95.0), figures)


@pytest.mark.parametrize(
    ("found", "word", "decided"),
    [
        ({}, "take", []),
        ({"moisture": 14.5}, "take", []),
        ({"moisture": 14.6}, "dry", ["moisture"]),
        ({"energy": 94.9}, "rest", ["energy_percent"]),
        ({"capacity": 97.9}, "hold", ["capacity_percent"]),
        ({"capacity": 94.9}, "reject", ["capacity_percent"]),
        ({"moisture": 16.0, "energy": 90.0}, "dry-rest", ["moisture", "energy_percent"]),
        ({"moisture": 16.0, "energy": 90.0, "capacity": 96.0}, "dry", ["moisture"]),
        ({"moisture": 16.0, "energy": 90.0, "capacity": 94.0}, "reject", ["capacity_percent"]),
        (
            {"moisture": 16.0, "screenings_percent": 7.1, "ergot_g_kg": 0.3},
            "reject",
            ["screenings_percent", "ergot_g_kg"],
        ),
        ({"screenings_percent": 7.0, "split_skinned_percent": 6.0, "temperature_c": 30.0}, "take", []),
    ],
)
def test_the_lines_that_decide(found, word, decided):
    verdict = load(**found)
    assert verdict.word == word
    assert [line.id for line in verdict.decided] == decided


@given(st.floats(8, 25), st.floats(50, 100), st.floats(50, 100), st.floats(0, 15), st.floats(0, 40))
def test_the_gravest_line_decides(moisture, energy, capacity, screenings, warm):
    verdict = load(moisture, energy, capacity, screenings_percent=screenings, temperature_c=warm)
    calls = ["hold" if line.grey else line.says for line in verdict.lines]
    gravest = next((word for word in GRAVEST if word in calls), "take")
    if gravest == "dry" and "rest" in calls and "hold" not in calls:
        assert verdict.word == "dry-rest" and len(verdict.decided) == calls.count("dry") + calls.count("rest")
        return
    assert verdict.word == gravest
    assert len(verdict.decided) == (calls.count(gravest) if gravest != "take" else 0)
