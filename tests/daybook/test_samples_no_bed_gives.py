"""A moisture that no bed comes to in that time is doubted: another sample is asked for, and it is not lent as sure."""

from __future__ import annotations

import re
from html import unescape

import pytest

from tests.daybook.book import START, Line, ask, line

NOW = "2026-11-27T06:30"


def oven(at: str, moisture: str, method: str = "oven") -> Line:
    return line("moisture", at, moisture=moisture, method=method)


def bed(*more: Line, vessel: str = "floor") -> list[Line]:
    """A batch cast on the 25th, with 43.9 % by the oven on the evening of the 26th."""
    turned = "drum" if vessel == "drum" else "turned"
    return [
        line("start", "2026-11-24T05:30", **{**START, "vessel": vessel}),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-25T06:00", ended="drained"),
        line("cast", "2026-11-25T08:00"),
        line(turned, "2026-11-26T16:00"),
        oven("2026-11-26T18:00", "43.9"),
        line(turned, "2026-11-27T05:00"),
        *more,
    ]


def plain(drawn: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", drawn)))


def places(lines: list[Line], now: str = NOW) -> dict[str, str]:
    return {name: plain(drawn) for name, drawn in ask("batch", lines, batch="b1", date=now)["places"].items()}


def lent(lines: list[Line], sheet: str, now: str = NOW) -> Line:
    given: Line = ask("lend", lines, sheet=sheet, batch="b1", date=now)["lent"]
    return given


DRY = oven("2026-11-27T06:00", "33.9")


@pytest.mark.parametrize("vessel", ["floor", "drum"])
def test_a_fall_that_no_bed_makes_orders_another_sample_and_no_water(vessel: str):
    reply = ask("batch", bed(DRY, vessel=vessel), batch="b1", date=NOW)
    text = reply["status"]
    assert text.startswith("Doubtful. Moisture, Fri 27 Nov 06:00: 33.9 % is 10.0 points under the 43.9 % of Thu 26 Nov")
    assert "In 12 h no bed dries by more than" in text and "our judgement" in text
    assert "Take another sample before any water" in text and "Sprinkle" not in text
    assert "If that shows the same, it is past a stop. Moisture 33.9 %: the stop is under 40 %." in text
    assert reply["likely"][0] == "moisture" and "sprinkled" not in reply["likely"] and not reply["stop"]
    over = plain(ask("hand-over", bed(DRY, vessel=vessel), date=NOW)["places"]["hand-over"])
    assert "Doubtful. Moisture" in over and "Outside what is accepted: Moisture" not in over


def test_it_stands_among_what_cannot_be_right():
    assert "33.9 % is 10.0 points under the 43.9 %" in places(bed(DRY))["checks"]
    assert "until another sample shows the same" in places(bed(DRY))["checks"]


def test_nothing_is_lent_of_it_until_another_sample():
    assert "moisture_now" not in lent(bed(DRY), "sprinkling")
    assert "moisture" not in lent(bed(DRY), "floor-round")
    rows = lent(bed(DRY), "batch-forecast")["ovens"]["value"]
    assert [float(row[1]) for row in rows] == [43.9]


def test_another_sample_that_shows_the_same_makes_it_so():
    lines = bed(DRY, oven("2026-11-27T06:20", "34.5"))
    text = ask("batch", lines, batch="b1", date=NOW)["status"]
    assert text.startswith("Past a stop. Moisture 34.5 %: the stop is under 40 %. Sprinkle it in rounds")
    assert lent(lines, "sprinkling")["moisture_now"]["value"] == "34.5"
    assert "10.0 points under" not in places(lines)["checks"]


def test_another_sample_that_shows_the_bed_as_it_was_leaves_it_out():
    lines = bed(DRY, oven("2026-11-27T06:20", "43.4"))
    text = ask("batch", lines, batch="b1", date=NOW)["status"]
    assert "Doubtful" not in text and "Past a stop" not in text
    assert lent(lines, "sprinkling")["moisture_now"]["value"] == "43.4"
    assert "10.0 points under the 43.9 %" in places(lines)["checks"]  # the line still is one to correct


@pytest.mark.parametrize(
    ("at", "moisture"),
    [
        ("2026-11-27T06:00", "40.5"),  # a draught dries a piece so
        ("2026-11-27T06:00", "44.8"),  # two samples scatter so
        ("2026-11-28T06:00", "39"),
        ("2026-11-29T18:00", "34"),  # three days
    ],
)
def test_what_a_bed_may_come_to_is_believed(at: str, moisture: str):
    lines = bed(oven(at, moisture))
    assert "Doubtful" not in ask("batch", lines, batch="b1", date=at)["status"]
    assert lent(lines, "sprinkling", at)["moisture_now"]["value"] == moisture


def test_a_rise_without_water_is_doubted_and_one_after_water_is_not():
    wet = oven("2026-11-27T06:00", "49")
    text = ask("batch", bed(wet), batch="b1", date=NOW)["status"]
    assert text.startswith("Doubtful. ") and "no bed rises without water by more than" in text
    assert "or water went on that is not written" in text
    watered = bed(line("sprinkled", "2026-11-26T20:00", water_l="300"), wet)
    assert ask("batch", watered, batch="b1", date=NOW)["status"].startswith("Past a stop. Moisture 49 %")


def test_the_quick_way_scatters_more_than_the_oven():
    quick, slow = oven("2026-11-27T06:00", "46", "quick"), oven("2026-11-27T06:00", "46")
    assert "Doubtful" not in ask("batch", bed(quick), batch="b1", date=NOW)["status"]
    assert "Doubtful" in ask("batch", bed(slow), batch="b1", date=NOW)["status"]


def test_a_stop_of_warmth_stays_before_a_doubtful_sample():
    hot = line("bed", "2026-11-27T06:10", bottom_c="24", top_c="20", room_c="12")
    reply = ask("batch", bed(DRY, hot), batch="b1", date=NOW)
    assert reply["stop"] and reply["status"].startswith("Past a stop. Bottom 24 °C") and "Doubtful." in reply["status"]
