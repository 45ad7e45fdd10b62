"""Mixing waters: the heat balance turned back, known mixtures, waters that cannot do it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.models.mixing import DRY_HEAT_LIMITS, barley_heat, mix_temp
from tests.sheets.ask import ask, notes, said, values


def test_specific_heats_in_print():
    # Earle, Unit Operations in Food Processing, appendix 7 (read): 4.19 p/100 + 0.84 (100 - p)/100.
    low = barley_heat(barley_moisture=12, dry_heat=DRY_HEAT_LIMITS.low)
    assert low == pytest.approx(4.19 * 0.12 + 0.84 * 0.88)
    # Kim and Chang 1980 (abstract read): covered barley from 1.886 kJ/kg K.
    assert barley_heat(barley_moisture=11, dry_heat=DRY_HEAT_LIMITS.high) == pytest.approx(1.886, abs=0.01)


def test_equal_waters_meet_in_the_middle():
    # Exact: no barley to speak of, half of each.
    found = values(
        "mixing-waters",
        barley_kg="0.001",
        barley_temp_c="15",
        water_kg="1000",
        water_temp_c="10",
        second_temp_c="20",
        wanted_temp_c="15",
    )
    assert found["water_one_kg"] == pytest.approx(500, abs=0.01)
    assert found["mix_temp_c"] == pytest.approx(10, abs=0.001)


@settings(max_examples=60)
@given(
    st.floats(500, 9000),
    st.floats(-5, 25),
    st.floats(1000, 20000),
    st.floats(1, 12),
    st.floats(25, 60),
    st.floats(5, 20),
)
def test_what_is_told_to_mix_comes_out_as_wanted(barley, barley_temp, water, cold, warm, wanted):
    found = values(
        "mixing-waters",
        barley_kg=repr(barley),
        barley_temp_c=repr(barley_temp),
        water_kg=repr(water),
        water_temp_c=repr(cold),
        second_temp_c=repr(warm),
        wanted_temp_c=repr(wanted),
    )
    if "water_one_kg" not in found:
        needed = found["water_temp_needed_c"]
        assert needed < cold or needed > warm
        return
    assert found["water_one_kg"] + found["water_two_kg"] == pytest.approx(water)
    parts = [
        (barley, barley_heat(barley_moisture=12), barley_temp),
        (found["water_one_kg"], 4.19, cold),
        (found["water_two_kg"], 4.19, warm),
    ]
    assert mix_temp(parts=parts) == pytest.approx(wanted, abs=1e-6)


def test_out_of_reach_is_explained_with_the_nearest():
    text = notes("mixing-waters", second_temp_c="12")
    assert "cannot be reached" in text and "All of the second water comes nearest" in text
    text = notes("mixing-waters", wanted_temp_c="4")
    assert "cannot be reached" in text and "All of the first water comes nearest" in text
    assert "water_one_kg" not in values("mixing-waters", second_temp_c="12")


def test_no_second_water_still_says_how_warm_it_must_be():
    found = values("mixing-waters", second_temp_c="")
    assert set(found) == {"mix_temp_c", "water_temp_needed_c"}


def test_ranges_hold_the_value():
    for entry in ask("mixing-waters")["answers"].values():
        assert entry["low"] <= entry["value"] <= entry["high"]


def test_cautions():
    assert "scalds" in notes("mixing-waters", second_temp_c="60") and "scalds" not in notes("mixing-waters")
    assert "harms barley" in notes("mixing-waters")
    assert "harms barley" not in notes("mixing-waters", second_temp_c="25")


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        ({"second_temp_c": "7"}, "both waters are at 7 °C"),
        ({"wanted_temp_c": "31"}, "above 30 °C barley is harmed"),
        ({"water_temp_c": "0"}, "from 0.5 to 80 °C"),
        ({"water_temp_c": "81"}, "from 0.5 to 80 °C"),
        ({"barley_temp_c": "-16"}, "from -15 to 45 °C"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in said("mixing-waters", **given_values)
