"""The sheet of the thousand-corn weight: its sum, its doubt and what it gives to others."""

from __future__ import annotations

import pytest

from calculators.sheets import find_sheet
from tests.sheets.ask import ask, notes, said, values


def test_the_worked_case():
    found = ask("corn-weight")["answers"]["corn_weight_g"]
    assert found["value"] == pytest.approx(1000 * 67.6 / 1500)
    assert (round(found["low"], 1), round(found["high"], 1)) == (44.3, 45.8)


def test_it_gives_the_weight_that_the_plan_asks_for():
    (weight,) = [one for one in find_sheet("corn-weight").answers if one.id == "corn_weight_g"]
    assert weight.gives == "corn_weight_g" and find_sheet("steep-plan").question("corn_weight_g") is not None


def test_hours_go_as_the_plans_own_rule():
    # the rate of the steep model goes with weight to the power of -2/3
    from calculators.models.steep.hydration import uptake_rate

    ratio = uptake_rate(water_temp_c=14.0, corn_weight_g=45.0) / uptake_rate(water_temp_c=14.0, corn_weight_g=38.0)
    assert values("corn-weight", portions="1000 38")["hours_against_usual"] == pytest.approx(ratio)
    assert ratio == pytest.approx(0.893, abs=0.001)  # as the page of barley's own nature says


def test_few_or_unlike_portions_are_told():
    assert "One portion cannot show" in notes("corn-weight", portions="500 22.5")
    assert "Count a third" in notes("corn-weight", portions="500 22.0; 500 23.0")
    assert "differ more than chance" in notes("corn-weight", portions="500 20.0; 500 24.0; 500 22.0")
    assert "Count again" not in notes("corn-weight")


@pytest.mark.parametrize(
    ("portions", "words"),
    [
        # 44.8 and 60 g of a mean of 52.4; chance: 1.96 × 20 % × √(2 / 500) = 2.5 % (by hand)
        ("500 22.4; 500 30", "29.0 % apart, and chance leaves 2.5 %"),
        ("500 22.4; 1000 60", "27.7 % apart, and chance leaves 2.1 %"),
        ("500 22.4; 500 22.9", ""),
        ("500 22.4; 500 22.6", ""),
    ],
)
def test_two_portions_that_differ_more_than_chance_are_counted_again(portions, words):
    told = notes("corn-weight", portions=portions)
    assert ("Count both again" in told) == bool(words) and words in told


def test_what_cannot_be_is_asked_back_with_the_limits():
    assert "from 20 to 70 g" in said("corn-weight", portions="500 2.2; 500 2.3")
    assert "50" in said("corn-weight", portions="20 0.9; 500 22")


@pytest.mark.parametrize(
    ("error", "percent"),
    [(("495 22.5", "500 22.5"), 1.0), (("500 24.75", "500 22.5"), 10.0)],
)
def test_what_an_error_does_as_the_page_says(error, percent):
    false, true = (values("corn-weight", portions=rows) for rows in error)
    assert 100 * (false["corn_weight_g"] / true["corn_weight_g"] - 1) == pytest.approx(percent, abs=0.02)
    hours = 100 * (false["hours_against_usual"] / true["hours_against_usual"] - 1)
    assert hours == pytest.approx(100 * ((1 + percent / 100) ** (2 / 3) - 1), abs=0.02)
