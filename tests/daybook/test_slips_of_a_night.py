"""What a tired hand writes: a wrong day, too many chits, water on too early, a weight without its last figure."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest

from calculators.daybook.batch.batch import Batch
from calculators.daybook.house.sums import doubts_of
from calculators.daybook.lines.entry import in_order
from tests.daybook.book import START, Line, ask, line

BOX = {**START, "vessel": "box"}
STEEPED = [
    line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
    line("stage-ended", "2026-11-25T06:00", ended="drained"),
    line("cast", "2026-11-25T08:00"),
]


TURNED = line("drum", "2026-11-26T06:00")


def told(now: str, *entries: Line, **start: str) -> tuple[str, str, str]:
    """The next step, all that stands with it, and what the lines say together."""
    lines = [line("start", "2026-11-24T05:30", **{**BOX, **start}), *entries]
    reply = ask("batch", lines, batch="b1", date=f"2026-11-{now}")
    beside, checks = (unescape(re.sub(r"<[^>]+>", " ", reply["places"][place])) for place in ("next", "checks"))
    return str(reply["status"]), beside, checks


def counts(at: str, *corns: int) -> Line:
    return line("readiness", f"2026-11-{at}", counts=[[str(n)] for n in corns], rub=[["2"], ["8"], ["90"]])


@pytest.mark.parametrize("later", ["27T09:00", "30T09:40"])
def test_a_line_of_tomorrow_hides_no_fan_that_stands_today(later):
    """It is the newest by its date; what was read since is what is true."""
    stands = line("air", "2026-11-26T10:00", fan="stopped")
    runs = line("air", f"2026-11-{later}", fan="running")
    step, beside, _ = told("26T10:05", *STEEPED, TURNED, runs, stands)
    assert step.startswith("Past a stop. Fan with grain in: stopped")
    assert "Air of drum or box is dated" in beside and "after now: it counts for nothing until then" in beside
    assert "Correct its date" in beside and "Fan" in step
    today = ask(
        "book", [line("start", "2026-11-24T05:30", **BOX), *STEEPED, TURNED, runs, stands], date="2026-11-26T10:05"
    )
    assert "Fan with grain in: stopped" in today["places"]["today"]
    assert told("26T10:05", *STEEPED, TURNED, line("air", "2026-11-26T10:04", fan="running"), stands)[0].startswith(
        "Turn"
    )


def test_once_its_hour_has_come_a_line_counts():
    runs = line("air", "2026-11-26T10:30", fan="running")
    stands = line("air", "2026-11-26T10:00", fan="stopped")
    assert told("26T10:31", *STEEPED, TURNED, runs, stands)[0].startswith("Turn the bed")


def test_a_count_that_is_past_its_stop_leads_and_its_act_stands():
    step, *_ = told("29T10:00", *STEEPED, line("drum", "2026-11-29T06:00"), counts("29T09:40", 0, 0, 5, 65, 30))
    assert step.startswith("Past a stop. Overshot 30 %") and "to the kiln now" in step
    assert "Tell the shift lead" in step
    below, *_ = told("29T10:00", *STEEPED, line("drum", "2026-11-29T06:00"), counts("29T09:40", 0, 5, 5, 81, 9))
    assert below.startswith("Ready by the count of 09:40: 90 % at three quarters and beyond, 75 % are wanted.")
    under, *_ = told("29T10:00", *STEEPED, line("drum", "2026-11-29T06:00"), counts("29T09:40", 5, 10, 11, 70, 4))
    assert under.startswith("Turn the bed")


def test_water_on_corns_that_have_not_chitted_is_a_stop_until_it_is_drained():
    plan = {"stages": [["8", ""], ["8", ""], ["8", ""], ["12", ""], ["3", ""]]}
    course = [
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-24T14:00", ended="drained"),
        line("stage-begun", "2026-11-24T22:00", stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-25T06:00", ended="drained"),
    ]
    last = line("stage-begun", "2026-11-25T17:00", stage="wet", water_temp_c="14")

    def after(chitted: str) -> str:
        count = line("chits", "2026-11-25T16:00", chitted=chitted, counted="200")
        return told("25T17:10", *course, count, last, **plan)[0]  # type: ignore[arg-type]

    assert after("90").startswith("Past a stop. 45 % had chitted at the count before this water")
    assert "Drain now" in after("90") and "Drain now" in after("99")
    assert "had chitted at the count" not in after("100")


@pytest.mark.parametrize(
    ("water", "past"), [("15.2", False), ("15.1", True), ("12", True), ("18.8", False), ("19.2", True)]
)
def test_water_far_from_the_grain_it_covers_is_said(water, past):
    course = [
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="15"),
        line("stage-ended", "2026-11-24T14:00", ended="drained"),
        line("bed", "2026-11-24T21:00", bottom_c="17.2", top_c="16.8"),
        line("stage-begun", "2026-11-24T22:00", stage="wet", water_temp_c=water),
    ]
    assert ("at its " in told("24T22:05", *course)[0]) is past
    assert ("than the grain was read at 21:00" in told("24T22:05", *course)[0]) is past


def test_more_chits_than_corns_are_named_at_the_top():
    _, beside, checks = told("25T06:30", *STEEPED[:2], line("chits", "2026-11-25T06:10", chitted="120", counted="100"))
    assert "120 chitted of 100 counted cannot be, and is not used. Correct the line." in beside
    assert "120 chitted of 100" in checks and "contradicts itself" not in checks


def test_what_of_the_start_cannot_be_read_is_told_with_what_to_type():
    _, beside, checks = told("24T05:40", barley_moisture="44", target_moisture="450", barley_kg="6.000")
    assert "“6.000” can be read in two ways. Type 6000 or 6, whichever you mean" in beside
    assert "44 is too high. Type a number from 5 to 25 %" in beside and "Correct the start." in beside
    assert "own moisture is not written" not in beside and "450 is too high" in checks


def test_a_figure_that_is_left_out_says_what_to_type():
    deep = line("bed", "2026-11-25T10:00", bottom_c="15", top_c="16", depth_cm="1,200")
    assert "“1,200” can be read in two ways" in told("25T10:05", *STEEPED, deep)[1]


@pytest.mark.parametrize(("depth", "doubted"), [("100", True), ("80", False)])
def test_a_metre_is_a_depth_for_a_box_and_for_no_floor(depth, doubted):
    deep = line("bed", "2026-11-25T10:00", bottom_c="15", top_c="16", depth_cm=depth)
    assert "left out" not in told("25T10:05", *STEEPED, deep)[1]
    on_floor: dict[str, Any] = {"vessel": "floor"}
    assert ("100 cm on a floor" in told("25T10:05", *STEEPED, deep, **on_floor)[2]) is doubted


@pytest.mark.parametrize(("green", "doubted"), [("860", True), ("8000", True), ("8200", False), ("8600", False)])
def test_a_weight_at_the_kilns_door_without_its_last_figure_is_doubted(green, doubted):
    leaves = line("to-kiln", "2026-11-30T08:00", green_malt_kg=green, moisture="43")
    start = {"barley_kg": "6000", "barley_moisture": "12"}
    checks = told("30T08:10", *STEEPED, leaves, **start)[2]
    assert ("under plan. Weight against plan" in checks) is doubted


@pytest.mark.parametrize("minute", ["30", "33", "35", "37"])
def test_the_moisture_of_the_cast_lies_in_the_steep(minute):
    """Its hours are added up from the stages: the last bits put no reading outside."""
    course = [
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("stage-ended", f"2026-11-24T14:{minute}", ended="drained"),
        line("stage-begun", "2026-11-24T22:07", stage="wet", water_temp_c="14"),
        line("stage-ended", f"2026-11-25T03:{minute}", ended="drained"),
        line("cast", f"2026-11-25T14:{minute}", moisture="43"),
    ]
    assert "outside the steep" not in told("25T15:00", *course)[2]


@pytest.mark.parametrize("kind", ["turned", "drum"])
def test_a_turning_counts_by_whichever_button_was_pressed(kind):
    assert "between 18:00 and 22:00" in told("25T12:00", *STEEPED, line(kind, "2026-11-25T10:00"))[0]


def test_a_standing_stop_says_when_it_was_read_and_what_else_is_due():
    warm = line("air", "2026-11-25T20:00", fan="running", air_on_c="13", air_off_c="19.5")
    step, beside, _ = told("26T09:30", *STEEPED, warm, line("drum", "2026-11-26T01:00"), line(
        "bed", "2026-11-26T09:20", bottom_c="14", top_c="16"))  # fmt: skip
    assert "Read: air Wed 25 Nov 20:00." in step and "Turn the bed between 09:00 and 13:00" in beside


def test_looking_back_names_the_stops_that_were_passed_each_where_it_began():
    lines = [
        line("start", "2026-11-24T05:30", **BOX),
        *STEEPED,
        line("bed", "2026-11-25T14:00", bottom_c="21", top_c="21.5"),
        line("bed", "2026-11-25T15:00", bottom_c="21", top_c="21.5"),
        line("drum", "2026-11-25T16:00"),
        line("air", "2026-11-25T17:00", fan="stopped"),
        line("to-kiln", "2026-11-30T08:00", green_malt_kg="8600", moisture="43"),
    ]
    said = [what for _, what in doubts_of(Batch("b1", in_order(lines))) if what.startswith("Past a stop")]
    assert len([what for what in said if "Bed 21.5 °C" in what]) == 1
    assert len([what for what in said if "Fan with grain in: stopped" in what]) == 1
