"""Time in store is spent once; what has no published figure is refused or reckoned on the hard side."""

from __future__ import annotations

import pytest

from tests.sheets.ask import notes, values, wrong

F70 = "21.1111111"


def test_half_of_the_wet_days_is_half_of_the_dry_ones():
    found = values("storage-time", spells=f"13.75 17 {F70}", kept_moisture="13", kept_temp_c=F70)
    assert found["spent"] == pytest.approx(50) and found["days_left"] == pytest.approx(135, abs=0.1)


@pytest.mark.parametrize(
    ("days", "said"),
    [("13.7", ""), ("13.8", "watched over 50 % of its time"), ("27.6", "stop is over 100 % of its time")],
)
def test_the_edges_of_what_is_spent(days, said):
    told = notes("storage-time", spells=f"{days} 17 {F70}")
    assert said in told if said else "watched" not in told and "stop" not in told


def test_with_all_of_it_spent_no_days_are_given():
    assert "days_left" not in values("storage-time", spells=f"30 17 {F70}")


def test_cool_and_dry_grain_is_reckoned_on_the_hard_side():
    cold = values("storage-time", spells="10 12 2", kept_moisture="11", kept_temp_c="0")
    assert cold == values("storage-time", spells="10 13 15.5", kept_moisture="13", kept_temp_c="15.5")
    assert "it keeps longer" in notes("storage-time", kept_temp_c="0")


def test_what_has_no_figure_says_what_to_do():
    (wet,) = wrong("storage-time", kept_moisture="18.5")
    assert "dry it now" in wet.text
    (warm,) = wrong("storage-time", spells="5 17 30")
    assert "cool it now" in warm.text


@pytest.mark.parametrize(
    ("moisture", "temp_c", "said"),
    [
        ("16", "22", ("over 14.5 %", "over 20 °C", "Dry it")),
        ("14.6", "15", ("over 14.5 %",)),
        ("13", "20.1", ("over 20 °C",)),
        ("14", "15", ("watched over 13 %",)),
    ],
)
def test_what_the_store_may_not_be_is_said_before_its_days(moisture, temp_c, said):
    told = notes("storage-time", spells="1 13 15", kept_moisture=moisture, kept_temp_c=temp_c)
    assert all(one in told for one in said)
    assert told.startswith("notice: Past a stop") == (moisture != "14")


def test_a_store_as_it_should_be_is_told_nothing_of_limits():
    told = notes("storage-time", spells="1 13 15", kept_moisture="13", kept_temp_c="15")
    assert "stop" not in told and "watched" not in told
