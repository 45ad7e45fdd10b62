"""Mixing waters: the heat balance turned back, known mixtures, waters that cannot do it."""

from __future__ import annotations

from math import exp
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.models.bounds import OutOfRange
from calculators.models.steep.hydration import steep
from calculators.models.steep.mixing import (
    DRY_HEAT_LIMITS,
    WETTING_DOUBT,
    WETTING_FALL,
    barley_heat,
    heat_of_wetting,
    mix_temp,
    wetting_rise,
)
from calculators.sheets import find_sheet
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
        usual_water_c="10",
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
    sheet = find_sheet("mixing-waters")
    typed = {
        "barley_kg": barley,
        "barley_temp_c": barley_temp,
        "water_kg": water,
        "usual_water_c": cold,
        "second_temp_c": warm,
        "wanted_temp_c": wanted,
    }
    result = answer(sheet, {**example_of(sheet), **{name: repr(value) for name, value in typed.items()}})
    assume(isinstance(result, Answered))  # else no water that does no harm would do it
    assert isinstance(result, Answered)
    found = {name: entry["value"] for name, entry in as_json(result)["answers"].items()}
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
    assert set(found) == {"mix_temp_c", "wetting_rise_k", "later_temp_c", "water_temp_needed_c"}


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
        ({"usual_water_c": "0"}, "from 0.5 to 80 °C"),
        ({"usual_water_c": "81"}, "from 0.5 to 80 °C"),
        ({"barley_temp_c": "-16"}, "from -15 to 45 °C"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in said("mixing-waters", **given_values)


def test_the_heat_of_wetting_is_the_published_one_for_flour():
    # A bakers' dictionary (read): 6.5 Btu/lb on average at 11 to 12 %; 1 Btu/lb is 2.326 kJ/kg exactly.
    published = 6.5 * 2.326
    assert heat_of_wetting(barley_moisture=12.0) == pytest.approx(published, rel=0.005)
    assert heat_of_wetting(barley_moisture=11.0) == pytest.approx(published, rel=0.25)
    # A textbook's 15 kJ/kg of dough, two parts flour to one of water (in a copy), lies inside the doubt.
    assert heat_of_wetting(barley_moisture=12.0) * WETTING_DOUBT.high > 15.0 * 3.0 / 2.0


def test_the_heat_of_wetting_agrees_with_an_isotherm_of_barley():
    # Chung-Pfost, ln(rh) = -A/(T + C) exp(-B X), barley in ASAE D245.5: A 475.12, B 0.14843, C 71.996 (from memory).
    # Heat above that of water: R T^2 d ln(rh)/dT, summed over the moisture from 12 % upward; R 461.5 J/kg K.
    a, b, c, temp_c, start = 475.12, 0.14843, 71.996, 15.0, 100 * 12 / 88
    first = 461.5 * (temp_c + 273.15) ** 2 * a / (temp_c + c) ** 2 * exp(-b * start) / 1000
    whole = first / b / 100 * 0.88
    low, high = (heat_of_wetting(barley_moisture=12.0) * share for share in (WETTING_DOUBT.low, WETTING_DOUBT.high))
    assert low < whole < high and whole == pytest.approx(18.8, abs=0.1)
    assert pytest.approx(b, abs=0.001) == WETTING_FALL


def test_wetter_barley_gives_off_less_and_dry_starch_is_met_at_the_other_end():
    heats = [heat_of_wetting(barley_moisture=m) for m in (5.0, 10.0, 12.0, 14.0, 20.0, 25.0)]
    assert heats == sorted(heats, reverse=True) and heats[-1] > 0
    bone_dry = 15.1 / 0.88 * exp(WETTING_FALL * 100 * 12 / 88)
    assert 100 < bone_dry < 140  # dry starch, about 100 to 120 kJ/kg (from memory)


@pytest.mark.parametrize(("m3_per_t", "rise"), [(1.2, 2.3), (2.0, 1.5)])
def test_the_steep_warms_by_itself(m3_per_t, rise):
    found = values("mixing-waters", barley_kg="1000", water_kg=str(1000 * m3_per_t), barley_moisture="12")
    assert round(found["wetting_rise_k"], 1) == rise
    assert found["later_temp_c"] == pytest.approx(14 + found["wetting_rise_k"])
    # Energy balance by hand: what the corns give off warms barley and water together.
    heat = barley_heat(barley_moisture=12) * 1000 + 4.19 * 1000 * m3_per_t
    assert found["wetting_rise_k"] * heat == pytest.approx(1000 * heat_of_wetting(barley_moisture=12), rel=1e-9)


def test_the_course_over_the_hours_is_that_of_the_steep_model():
    # Each layer has given off what its own moisture says; the sheet's words give the shares.
    def share(hours: float) -> float:
        course = steep(barley_moisture=12.0, stages=[(hours, 14.0)])
        radii = [(n + 0.5) / 300 for n in range(300)]
        start = 12 / 88
        given_off = [
            (1 - exp(-100 * WETTING_FALL * (moisture / (100 - moisture) - start)), r * r)
            for moisture, r in zip(course.profile(hours, radii), radii, strict=True)
        ]
        return sum(part * shell for part, shell in given_off) / sum(shell for _, shell in given_off)

    assert share(1) == pytest.approx(1 / 3, abs=0.04)
    assert share(3) == pytest.approx(0.5, abs=0.04)
    assert share(8) == pytest.approx(0.7, abs=0.04)


def test_it_says_how_much_lower_to_aim_and_names_the_stop():
    text = notes("mixing-waters")
    assert "aim 2.1 K lower at filling: 11.9 °C" in text and "stop and ask" not in text
    warm = notes("mixing-waters", wanted_temp_c="18")
    assert "notice: The steep may warm to" in warm and "Over 20 °C is stop and ask" in warm


@pytest.mark.parametrize(("wanted", "aims"), [("7.2", True), ("7", False), ("3", False)])
def test_it_never_says_to_fill_colder_than_the_stop_of_steep_water(wanted, aims):
    """The rise is 2.1 K; under 5 °C is stop."""
    text = notes("mixing-waters", wanted_temp_c=wanted)
    assert ("K lower at filling" in text) is aims
    assert ("K colder to make up for the wetting: under 5 °C is stop and ask" in text) is not aims


@pytest.mark.parametrize(
    "change",
    [{"barley_kg": 0.0}, {"water_kg": 0.0}, {"wetting_kj": -0.1}, {"wetting_kj": 201.0}],
)
def test_limits_of_the_rise(change):
    case = {"barley_kg": 1000.0, "barley_heat_kj": 1.65, "water_kg": 1200.0, "wetting_kj": 15.0}
    assert wetting_rise(**case) > 0
    with pytest.raises(OutOfRange):
        wetting_rise(**{**case, **change})


def test_the_page_no_longer_calls_it_a_little():
    page = (Path(__file__).parents[2] / "docs" / "calculators" / "mixing-waters.md").read_text("utf-8")
    assert "gives off a little" not in page
    assert "15 kJ for each kilogram" in page and "2.3 K" in page and "read" in page
