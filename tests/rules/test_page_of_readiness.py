"""What the page of readiness tells of its costs and conventions is what the rule goes by."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from calculators.models.counts import acrospire
from calculators.rules import counting
from calculators.rules import readiness as rule

PAGE = (Path(__file__).parents[2] / "docs/calculators/readiness.md").read_text("utf-8")


@pytest.mark.parametrize(
    ("what", "cost"),
    [
        ("a corn of a hundred that the target still wants at three quarters", rule.SHORT),
        ("a corn of a hundred overshot beyond the limit", rule.OVERSHOT),
        ("a day’s wait: dry matter breathed away", rule.DAY_BREATHED),
        ("a day’s wait: the floor, drum or box stands for it", rule.DAY_OF_THE_PLACE),
        ("a hundred corns counted", rule.HUNDRED_COUNTED),
    ],
)
def test_points_of_the_table(what: str, cost: rule.Cost) -> None:
    row = re.search(rf"\| {what} \| ([\d.]+) \| ([^|]+?) \|", PAGE)
    assert row, "the table no longer has this row"
    assert float(row[1]) == cost.points
    assert row[2].startswith(cost.standing)


def test_conventions_told_in_words() -> None:
    for words in (
        "at the earliest in six hours",
        "Waits of six, twelve and twenty-four hours are then weighed",
        "have under seven tenths of the corns",
        "for a third of its own at most",
        "never more than 200 at a time",
        "a typical 0.18 of a corn a day, give or take 0.12",
        "An even piece has 85 % or more there",
    ):
        assert words in PAGE, words
    assert rule.LEAST_WAIT_H == 6.0 and rule.SHORTER_WAITS_H == (6.0, 12.0, 24.0)
    assert rule.UNEVEN_UNDER == 70.0 and pytest.approx(1.0 / 3.0) == rule.BEFORE_AT_MOST
    assert counting.ACROSPIRES.in_half_an_hour == 200 == max(rule.STEPS)
    assert pytest.approx((0.18, 0.12), abs=0.005) == (acrospire.TYPICAL_GROWTH, 2 * acrospire.TYPICAL_GROWTH_SD)


def test_a_person_s_pace_in_seconds_a_corn() -> None:
    # Common practice: three seconds for a white tip, nine to split a corn; a whole test is eight hundreds.
    assert [30 * 60 / pace.in_half_an_hour for pace in (counting.CHITS, counting.ACROSPIRES)] == [3.0, 9.0]
    assert counting.DISHES.in_half_an_hour == 8 * 100


def test_five_points_of_gauss_and_hermite() -> None:
    """Against numpy; weights over the root of two pi are chances."""
    points, weights = np.polynomial.hermite_e.hermegauss(5)
    found = np.array(rule._NODES)
    assert found[:, 0] == pytest.approx(points, abs=1e-9)
    assert found[:, 1] == pytest.approx(weights / np.sqrt(2.0 * np.pi), abs=1e-9)


def test_more_likely_late_than_not() -> None:
    assert rule.LATE_FROM == 1.0 - rule.LATE_FROM
