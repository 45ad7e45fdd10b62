"""Days to ready: a forecast from temperatures, with the grain's word last."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sheets.ask import ask, notes, said, values

HOUSE = {"reference_temp_c": "15", "reference_days": "5", "q10": "2.25"}
TABLE = {**HOUSE, "bed_temp_c": "", "days_done": ""}


def test_at_home_it_takes_the_houses_own_days():
    found = values("days-to-ready", **HOUSE, bed_temp_c="15", days_done="0")
    assert found["days_to_ready"] == pytest.approx(5.0)
    assert found["share_done_percent"] == 0.0
    assert values("days-to-ready", **HOUSE, bed_temp_c="15", days_done="3.5")["days_to_ready"] == pytest.approx(1.5)


def test_ten_degrees_warmer_is_two_and_a_quarter_times_as_fast():
    found = values("days-to-ready", **HOUSE, bed_temp_c="25", days_done="0")
    assert found["days_to_ready"] == pytest.approx(5 / 2.25)


def test_thomsons_floors():
    # Thomson 1824 (read): 14 days at about 62 F; 18 to 21 at 55 F.
    case = {"reference_temp_c": "62 F", "reference_days": "14", "bed_temp_c": "55 F", "days_done": "0"}
    entry = ask("days-to-ready", **case)["answers"]["days_to_ready"]
    assert 18 <= entry["value"] <= 21
    assert entry["low"] < 18 and entry["high"] > 21


def test_a_table_of_days():
    found = values("days-to-ready", **TABLE, temperatures="1 13; 2 14; 3 16")
    done = sum(2.25 ** ((t - 15) / 10) for t in (13, 14, 16)) / 5
    assert found["share_done_percent"] == pytest.approx(100 * done)
    assert found["days_to_ready"] == pytest.approx((1 - done) * 5 / 2.25**0.1)


def test_a_day_left_out_counts_as_the_one_before():
    given_all = values("days-to-ready", **TABLE, temperatures="1 13; 2 13; 3 13; 4 16")
    left_out = values("days-to-ready", **TABLE, temperatures="1 13; 4 16")
    assert left_out == given_all


def test_days_out_of_order_and_a_late_start_are_asked_back():
    assert "Type the days in order" in said("days-to-ready", **TABLE, temperatures="1 13; 3 14; 2 15")
    assert "Begin with day 1" in said("days-to-ready", **TABLE, temperatures="2 13; 3 14")


def test_a_table_and_other_days_done_contradict():
    text = said("days-to-ready", **{**TABLE, "days_done": "2"}, temperatures="1 13; 2 14; 3 16")
    assert "ends on day 3" in text


def test_testing_starts_a_day_before_the_earliest():
    entry = ask("days-to-ready", **HOUSE, bed_temp_c="14", days_done="1")["answers"]
    assert entry["test_from_h"]["value"] == pytest.approx((entry["days_to_ready"]["low"] - 1) * 24)
    late = ask("days-to-ready", **HOUSE, bed_temp_c="14", days_done="4.5")["answers"]
    assert late["test_from_h"]["value"] == 0.0


def test_the_grain_decides():
    assert "The grain decides, not the clock" in notes("days-to-ready", **HOUSE, bed_temp_c="14")


def test_past_its_time():
    found = values("days-to-ready", **HOUSE, bed_temp_c="15", days_done="5")
    assert found["days_to_ready"] == 0.0
    assert "Count today" in notes("days-to-ready", **HOUSE, bed_temp_c="15", days_done="5")
    assert "Count today" not in notes("days-to-ready", **HOUSE, bed_temp_c="15", days_done="4.9")


# The table of limits: 42 to 46 % accepted, stops under 40 and over 48; a piece under 8 or over 20 C is a stop.
@pytest.mark.parametrize(("moisture", "word"), [("41.9", "drier"), ("42", ""), ("46", ""), ("46.1", "wetter")])
def test_moisture_only_warns(moisture: str, word: str):
    text = notes("days-to-ready", **HOUSE, bed_temp_c="14", moisture=moisture)
    assert (f"{word} than the 42 to 46 %" in text) if word else ("than the 42 to 46 %" not in text)
    assert "Past a stop" not in text


@pytest.mark.parametrize(
    ("case", "stop"),
    [
        ({"bed_temp_c": "14", "moisture": "39.9"}, "Moisture 39.9 %: the stop is under 40 %."),
        ({"bed_temp_c": "14", "moisture": "48.1"}, "Moisture 48.1 %: the stop is over 48 %."),
        ({"bed_temp_c": "20.1"}, "Piece on the whole 20.1 °C: the stop is over 20 °C."),
        ({"bed_temp_c": "7.9"}, "Piece on the whole 7.9 °C: the stop is under 8 °C."),
    ],
)
def test_a_stop_is_said_first(case: dict[str, str], stop: str):
    assert notes("days-to-ready", **HOUSE, **case).startswith(f"notice: Past a stop. {stop}")


def test_far_from_home_is_said():
    assert "forecast is weak" in notes("days-to-ready", **HOUSE, bed_temp_c="21.1")
    assert "forecast is weak" not in notes("days-to-ready", **HOUSE, bed_temp_c="21")


def test_the_clock_time():
    entry = ask("days-to-ready", **HOUSE, bed_temp_c="15", days_done="0", now="2026-11-25 06:00")["answers"]
    assert entry["test_at"]["value"].startswith("2026-11-28")


@settings(max_examples=50, deadline=None)
@given(bed=st.floats(8, 20), done=st.floats(0, 4), more=st.floats(0.5, 5))
def test_the_band_holds_the_figure_and_warmer_is_sooner(bed: float, done: float, more: float) -> None:
    cool = ask("days-to-ready", **HOUSE, bed_temp_c=repr(bed), days_done=repr(done))["answers"]["days_to_ready"]
    warm = ask("days-to-ready", **HOUSE, bed_temp_c=repr(bed + more), days_done=repr(done))["answers"]
    assert cool["low"] <= cool["value"] <= cool["high"]
    assert warm["days_to_ready"]["value"] <= cool["value"]
