"""Oven moisture: one and two stages, and a difference that the method does not support."""

from __future__ import annotations

import pytest

from tests.sheets.ask import ask, notes, said, values, wrong


def oven(**given_values: object) -> dict[str, float]:
    return values("oven-moisture", **given_values)


def test_one_stage():
    found = oven(dishes="20 25 24.4; 20 25 24.4")
    assert found["moisture"] == pytest.approx(12.0)
    assert found["moisture_db"] == pytest.approx(100 * 12 / 88)
    assert found["difference"] == pytest.approx(0.0)


def test_44_wet_is_78_571_on_dry_matter():
    assert oven(dishes="0 100 56; 0 100 56", material="green-malt")["moisture_db"] == pytest.approx(78.571, abs=1e-3)


def test_two_stages_multiply_what_stays():
    # Both losses as shares of what was there: 100 - 60 x 90 / 100.
    found = oven(dishes="20 25 24.5; 20 25 24.5", predry_loss_percent="40", material="steeped-corn")
    assert found["moisture"] == pytest.approx(46.0)


@pytest.mark.parametrize(("dry", "agrees"), [("24.3925", True), ("24.3920", False)])  # 0.15 and 0.16 points of 5 g
def test_the_limit_of_ground_barley_from_both_sides(dry, agrees):
    text = notes("oven-moisture", dishes=f"20 25 24.4; 20 25 {dry}")
    assert ("dishes agree" in text) == agrees
    assert ("notice: The dishes differ" in text) == (not agrees)
    assert "1272/2009" in text and "from memory" in text


def test_one_dish_has_no_difference():
    found = ask("oven-moisture", dishes="20 25 24.4")
    assert "difference" not in found["answers"] and "One dish" in found["notes"][0]["text"]


def test_wet_barley_is_dried_whole_first():
    assert "Dry it whole first" in notes("oven-moisture", dishes="20 25 24.0; 20 25 24.0")
    assert "Dry it whole first" not in notes("oven-moisture", dishes="20 25 24.15; 20 25 24.15")


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        ({"dishes": "20 25 26"}, "Dishes, row 1, with grain, after: type a number from 21 to 25 g"),
        ({"dishes": "20 19 18"}, "Dishes, row 1, with grain, before: type a number from 21 to 2020 g"),
        ({"dishes": "20 25"}, "Dishes, row 1, with grain, after: Type a number"),
        ({"dishes": ""}, "Fill in from 1 to 10 rows"),
        ({"predry_loss_percent": "61"}, "from 0 to 60 %"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in said("oven-moisture", **given_values)


def test_the_row_is_named():
    (problem,) = wrong("oven-moisture", dishes="20 25 24.4; 20 25 30")
    assert (problem.row, problem.column) == (2, "dry_g")
