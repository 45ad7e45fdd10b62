"""An analysis on one basis, against its order, and two results of one sample."""

from __future__ import annotations

import pytest

from calculators.daybook.house.summary import FIGURES
from calculators.models.weights.analysed import as_is_of, on_dry_matter
from calculators.rules.analysed import Ordered, as_ordered
from tests.sheets.ask import notes, said, values


def test_as_is_and_dry_are_each_others_way_back():
    for moisture in (0.0, 4.4, 12.0):
        assert as_is_of(dry=on_dry_matter(as_is=80.0, moisture=moisture), moisture=moisture) == pytest.approx(80.0)
    assert values("analysis-sheet")["extract_dry"] == pytest.approx(100 * 80.9 / 95.6)
    assert values("analysis-sheet", extract_basis="dry")["extract_as_is"] == pytest.approx(80.9 * 0.956)


@pytest.mark.parametrize(
    ("nitrogen", "word"),
    [("1.58", "ordered"), ("1.7", "ordered"), ("1.71", "open"), ("1.78", "open"), ("1.79", "off"), ("1.41", "off")],
)
def test_nitrogen_is_held_against_its_order_with_the_doubt_of_one_result(nitrogen, word):
    # 0.116 points between two laboratories (EBC trial, abstract): 0.082 for one.
    assert values("analysis-sheet", nitrogen_percent=nitrogen, extract_from="")["verdict"] == word


@pytest.mark.parametrize("end", [0.3, 1.7, 80.1])
def test_an_end_reached_by_a_sum_is_still_in_order(end):
    # 0.1 + 0.2 is more than 0.3 in the machine's numbers.
    for past in (4e-17, 1e-12):
        assert as_ordered(Ordered(end * (1.0 + past) + past, 0.0, None, end)) == "ordered"
        assert as_ordered(Ordered(end - 2.0 * past, 0.0, end, None)) == "ordered"
    assert as_ordered(Ordered(end + 1e-6, 0.0, None, end)) == "off"
    assert as_ordered(Ordered(end + 0.2 + 1e-12, 0.2, None, end)) == "open"


def test_near_an_end_it_is_said_that_a_second_result_may_fall_past_it():
    assert "a second result may fall past it" in notes("analysis-sheet", nitrogen_percent="1.68")
    assert "a second result" not in notes("analysis-sheet", nitrogen_percent="1.6")


def test_protein_is_nitrogen_times_six_and_a_quarter():
    assert values("analysis-sheet", nitrogen_percent="", protein_percent="10")["nitrogen"] == pytest.approx(1.6)


@pytest.mark.parametrize(("other", "word"), [("1.64", "same"), ("1.69", "same"), ("1.70", "differ")])
def test_two_laboratories_of_one_sample(other, word):
    assert values("analysis-sheet", other_nitrogen=other)["same"] == word


def test_nothing_ordered_nothing_judged():
    blank = dict.fromkeys(("extract_from", "nitrogen_from", "nitrogen_most", "moisture_most"), "")
    assert "verdict" not in values("analysis-sheet", **blank)


def test_what_does_not_fit_is_asked_back():
    assert "Is it given on dry matter already" in said("analysis-sheet", extract_percent="92", malt_moisture="6")
    assert "1.5 % or more" in said("analysis-sheet", nitrogen_most="1.4")
    assert "blank what was ordered" in said("analysis-sheet", nitrogen_percent="")


def test_the_day_book_puts_extracts_on_the_same_basis():
    assert any(figure.id == "extract_dry" for figure in FIGURES)


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"other_nitrogen": "1.9"}, "disputed"),
        ({"other_extract": "82.0"}, "disputed"),  # both over what was ordered, and still not one malt
        ({"other_nitrogen": "1.9", "nitrogen_percent": "1.85"}, "off"),
        ({"other_nitrogen": "1.9", "nitrogen_percent": "2.1"}, "disputed"),
        ({"other_nitrogen": "1.64", "other_extract": "84.0"}, "ordered"),
    ],
)
def test_no_verdict_on_the_order_stands_before_a_dispute_is_settled(change, word):
    found = values("analysis-sheet", **change)
    text = notes("analysis-sheet", **change)
    assert found["verdict"] == word and (found["same"] == "differ") == (word == "disputed")
    assert text.startswith("notice: Two results of one sample lie farther apart") == (word == "disputed")
    assert ("What follows is by this sheet alone" in text) == (word == "disputed")


def test_a_dispute_without_an_order_is_said_and_judges_nothing():
    blank = {"extract_from": "", "nitrogen_from": "", "nitrogen_most": "", "moisture_most": ""}
    assert "verdict" not in values("analysis-sheet", **blank, other_nitrogen="1.9")
    assert notes("analysis-sheet", **blank, other_nitrogen="1.9").startswith("notice: Two results of one sample")
