"""Sprinkling: the water, the rounds, and a dose past what is sensible."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer, example_of
from calculators.asking.declare import Refusal
from calculators.sheets import find_sheet
from tests.sheets.ask import notes, said, values, wrong

BED = {"bed_kg": "1000", "moisture_now": "43", "moisture_wanted": "45", "water_kept": "100"}


def test_a_tonne_from_43_to_45():
    # W = m (M2 - M1)/(100 - M2) = 36.4 kg (computed)
    found = values("sprinkling", **BED)
    assert found["water_l"] == pytest.approx(36.36, abs=0.01)
    assert found["runs_off_l"] == pytest.approx(0.0)
    assert found["bed_after_kg"] == pytest.approx(1036.36, abs=0.01)


def test_what_runs_off_comes_on_top():
    found = values("sprinkling", **{**BED, "water_kept": "80"})
    assert found["water_l"] == pytest.approx(36.36 / 0.8, abs=0.01)
    assert found["runs_off_l"] == pytest.approx(found["water_l"] * 0.2)


def test_the_bed_by_way_of_its_barley():
    barley = {**BED, "bed_kg": "", "barley_kg": "1000", "barley_moisture": "12"}
    found = values("sprinkling", **barley)
    bed = 880 / 0.57
    assert found["water_l"] == pytest.approx(bed * 2 / 55)
    lost = values("sprinkling", **barley, dry_matter_lost_so_far="5")
    assert lost["water_l"] == pytest.approx(0.95 * found["water_l"])


def test_both_or_neither_weight_is_asked_back():
    assert wrong("sprinkling", **{**BED, "bed_kg": ""})
    assert wrong("sprinkling", **BED, barley_kg="1000", barley_moisture="12")


def test_rounds_keep_to_what_clings():
    # 0.05 kg on each of 570 kg of dry matter is 28.5 L
    assert values("sprinkling", **BED)["rounds"] == 2
    assert values("sprinkling", **{**BED, "moisture_wanted": "44.5"})["rounds"] == 1
    assert values("sprinkling", **BED, rounds="5")["water_per_round_l"] == pytest.approx(36.36 / 5, abs=0.01)


def test_more_than_can_cling_in_one_round_is_noticed():
    # 0.12 kg on each of 570 kg of dry matter is 68.4 L
    big = {**BED, "moisture_wanted": "46.6"}
    assert "more than can cling" not in notes("sprinkling", **{**BED, "moisture_wanted": "46.5"}, rounds="1")
    assert "more than can cling" not in notes("sprinkling", **big)
    assert "more than can cling" in notes("sprinkling", **{**BED, "moisture_wanted": "47"}, rounds="1")


@pytest.mark.parametrize(("wanted", "expected"), [("46", False), ("46.1", True)])
def test_a_dose_past_what_is_sensible(wanted, expected):
    assert ("past a sensible dose" in notes("sprinkling", **{**BED, "moisture_wanted": wanted})) == expected


# The table of limits: 42 to 46 % accepted, stops under 40 and over 48.
@pytest.mark.parametrize(("wanted", "expected"), [("46", False), ("46.1", True), ("48", True)])
def test_wetter_than_is_accepted(wanted: str, expected: bool):
    case = {**BED, "moisture_now": "45", "moisture_wanted": wanted}
    assert ("watched over 46 %" in notes("sprinkling", **case)) == expected


def test_no_water_past_the_stop():
    text = said("sprinkling", **{**BED, "moisture_wanted": "48.1"})
    assert "from 30 to 48 %" in text and "Over 48 % is a stop" in text
    sheet = find_sheet("sprinkling")
    result = answer(sheet, {**example_of(sheet), **BED, "moisture_now": "48", "moisture_wanted": "48"})
    assert isinstance(result, Answered) and isinstance(result.outcome, Refusal)
    assert "No water" in result.outcome.text and "Tell the shift lead." in result.outcome.text


def test_a_bed_too_dry_is_said_first():
    assert notes("sprinkling", **{**BED, "moisture_now": "39.9"}).startswith("notice: Past a stop. Moisture 39.9 %")
    assert "Past a stop" not in notes("sprinkling", **{**BED, "moisture_now": "40"})
    assert "No water in the last 12 h before the kiln" in notes("sprinkling", **BED)


@pytest.mark.parametrize("wanted", ["43", "42"])
def test_nothing_to_sprinkle(wanted):
    text = said("sprinkling", **{**BED, "moisture_wanted": wanted})
    assert "nothing to sprinkle" in text and "over 43, up to 48 %" in text


def test_the_hazards_stand_beside_it():
    text = notes("sprinkling", **BED)
    assert "caution: Wet floors" in text and "warning: Water that stood" in text


@given(now=st.floats(30, 43), more=st.floats(0.1, 5), bed=st.floats(10, 50_000))
def test_the_water_brings_the_bed_to_its_moisture(now: float, more: float, bed: float) -> None:
    case = {"bed_kg": repr(bed), "moisture_now": repr(now), "moisture_wanted": repr(now + more)}
    found = values("sprinkling", **case, water_kept="90")
    water = bed * now / 100 + 0.9 * found["water_l"]
    assert 100 * water / found["bed_after_kg"] == pytest.approx(now + more, rel=1e-9)
