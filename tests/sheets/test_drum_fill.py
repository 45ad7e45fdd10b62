"""Drum fill: geometry, and a batch that has no room is refused."""

from __future__ import annotations

from math import acos, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.sheets import find_sheet
from tests.sheets.ask import ask, notes, said, values

DRUM = {
    "drum_diameter_m": "2", "drum_length_m": "5", "ducts_m3": "0", "bulk_density": "600",
    "swelling_cast": "1", "swelling_grown": "1", "fill_limit_percent": "100",
}  # fmt: skip
WHOLE = pi * 5


def test_half_full_lies_up_to_the_axis():
    found = values("drum-fill", **DRUM, barley_kg=repr(600 * WHOLE / 2))
    assert found["fill_percent_cast"] == pytest.approx(50)
    assert found["bed_depth_m"] == pytest.approx(1.0)
    assert found["free_m3_cast"] == pytest.approx(WHOLE / 2)


@settings(max_examples=60, deadline=None)
@given(share=st.floats(0.02, 0.98))
def test_depth_by_a_librarys_root_finder(share: float) -> None:
    found = values("drum-fill", **DRUM, barley_kg=repr(600 * WHOLE * share))

    def area(h: float) -> float:  # of a segment of a circle of radius 1
        return acos(1 - h) - (1 - h) * sqrt(2 * h - h * h)

    depth = brentq(lambda h: area(h) - pi * share, 0, 2, xtol=1e-13)
    assert found["bed_depth_m"] == pytest.approx(depth, abs=1e-9)


def test_a_false_floor_and_ducts_among_the_grain():
    case = {**DRUM, "ducts_m3": "3", "barley_kg": repr(600 * (WHOLE / 2 - 3))}
    under, among = values("drum-fill", **case), values("drum-fill", **case, ducts_lie="among")
    assert among["bed_depth_m"] == pytest.approx(1.0)
    assert under["bed_depth_m"] < 0.7
    assert under["fill_percent_cast"] == among["fill_percent_cast"]
    assert under["fill_percent_cast"] == pytest.approx(100 * (WHOLE / 2 - 3) / (WHOLE - 3))


def test_the_limit_itself_is_filled_and_a_kilogram_more_is_refused():
    most = 0.75 * 600 * WHOLE
    case = {**DRUM, "fill_limit_percent": "75"}
    assert values("drum-fill", **case, barley_kg=repr(most))["fill_percent_grown"] == pytest.approx(75)
    refused = ask("drum-fill", **case, barley_kg=repr(most + 1))
    assert "refused" in refused and f"at most {int(most)} kg" in refused["refused"]
    assert refused["answers"] == {}


@pytest.mark.parametrize(
    ("kg", "words"),
    [("4500", "goes in at the cast"), ("9000", "needs more than that on the day of the cast"), ("3400", "your limit")],
)
def test_a_drum_smaller_than_its_grain(kg, words):
    case = {**DRUM, "swelling_cast": "1.4", "swelling_grown": "2.2", "fill_limit_percent": "75"}
    refused = ask("drum-fill", **case, barley_kg=kg)["refused"]
    assert "too large for the drum" in refused and words in refused and "A drum too full cannot mix" in refused


@pytest.mark.parametrize("diameter", [f"{tenths / 100}" for tenths in range(280, 380, 7)] + ["3.69"])
def test_the_most_that_is_shown_is_taken_and_named_again_where_more_is_refused(diameter):
    most = values("drum-fill", drum_diameter_m=diameter)["most_barley_kg"]
    assert most == int(most), "what is shown in whole kilograms is what is meant"
    assert 74.9 < values("drum-fill", drum_diameter_m=diameter, barley_kg=repr(most))["fill_percent_grown"] <= 75
    refused = ask("drum-fill", drum_diameter_m=diameter, barley_kg=repr(most + 1))["refused"]
    assert f"at most {most:.0f} kg" in refused


def test_a_batch_of_which_not_a_kilogram_has_room():
    tiny = {**DRUM, "drum_diameter_m": "0.5", "drum_length_m": "0.5", "fill_limit_percent": "10", "swelling_grown": "3"}
    tiny |= {"ducts_m3": "0.08"}
    assert "not a kilogram of this barley" in ask("drum-fill", **tiny, barley_kg="5")["refused"]


def test_ducts_that_fill_the_drum_are_asked_back():
    assert "leaves too little" in said("drum-fill", **{**DRUM, "ducts_m3": "15", "barley_kg": "100"})


def test_grain_that_shrinks_while_growing_is_asked_back():
    assert "takes more room" in said("drum-fill", **{**DRUM, "swelling_cast": "1.5", "swelling_grown": "1.4"})


def test_the_hazards_stand_beside_answer_and_refusal():
    text = notes("drum-fill")
    assert "danger: The room left over the grain" in text and "allows no entry" in text
    assert "engineer" in text
    big = ask("drum-fill", barley_kg="20000")
    assert any("allows no entry" in n["text"] for n in big["notes"])
    assert find_sheet("drum-fill").guarded


@settings(max_examples=60, deadline=None)
@given(kg=st.floats(100, 30_000), diameter=st.floats(1, 5), length=st.floats(1, 20), ducts=st.floats(0, 2))
def test_never_over_the_limit(kg: float, diameter: float, length: float, ducts: float) -> None:
    sheet = find_sheet("drum-fill")
    typed = {
        **example_of(sheet), "barley_kg": repr(kg), "drum_diameter_m": repr(diameter),
        "drum_length_m": repr(length), "ducts_m3": repr(ducts),
    }  # fmt: skip
    result = answer(sheet, typed)
    if isinstance(result, Answered):
        found = as_json(result)
        if "refused" not in found:
            assert found["answers"]["fill_percent_grown"]["value"] <= 75 + 1e-9
            assert found["answers"]["bed_depth_grown_m"]["value"] <= diameter + 1e-9
