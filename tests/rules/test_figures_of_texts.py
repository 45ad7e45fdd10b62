"""The guard of the table's figures reads a number however a sentence says it."""

from __future__ import annotations

import pytest

from tests.rules.figures import figures


@pytest.mark.parametrize(
    ("sentence", "value", "unit"),
    [
        ("Drain after 8 h.", 8.0, "h"),
        ("A rest of 6–12 h.", 12.0, "h"),
        ("the three within 2 °C", 2.0, "K"),
        ("If the grain warms by more than 1 °C in an hour, wet it.", 1.0, "K"),
        ("When grain warms more than\n1 °C an hour: drain.", 1.0, "K"),
        ("Air 4 °C cooler than the grain.", 4.0, "K"),
        ("Count again in six hours.", 6.0, "h"),
        ("From six to twelve hours cool it.", 12.0, "h"),
        ("Never over twenty-four hours.", 24.0, "h"),
        ("It rises by more than a degree an hour.", 1.0, "K"),
        ("Within half a degree.", 0.5, "K"),
    ],
)
def test_a_figure_is_read_as_it_is_said(sentence: str, value: float, unit: str):
    assert (value, unit) in {found[:2] for found in figures(sentence)}


@pytest.mark.parametrize("sentence", ["Over 18 °C is a stop.", "Outside 4 °C.", "It gains a degree.", "Someone hour."])
def test_a_reading_and_an_article_are_no_limit_of_a_difference(sentence: str):
    assert not [unit for _, unit, _ in figures(sentence) if unit in ("K", "h")]
