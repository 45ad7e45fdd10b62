"""Grain that is read in an air rest: its two places apart, and the water that comes on it."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest

from tests.daybook.book import START, Line, ask, line

PLAN = [["8", ""], ["8", ""], ["8", ""], ["12", ""], ["3", ""]]


def rest(*more: Line, **start: Any) -> list[Line]:
    return [
        line("start", "2026-11-24T05:30", **{**START, "stages": PLAN, **start}),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-24T14:00", ended="drained"),
        *more,
    ]


def told(entries: list[Line], now: str) -> tuple[str, dict[str, str]]:
    reply = ask("batch", entries, batch="b1", date=f"2026-11-{now}")
    pages = {
        name: re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", html))) for name, html in reply["places"].items()
    }
    return str(reply["status"]), pages


@pytest.mark.parametrize(("top", "past"), [("12.5", True), ("13.4", True), ("13.5", False)])
@pytest.mark.parametrize("moisture", ["12.5", ""])
def test_two_places_too_far_apart_lead_whether_or_not_the_steep_is_known(top: str, past: bool, moisture: str) -> None:
    bed = line("bed", "2026-11-24T18:00", bottom_c="17.5", top_c=top)
    step, _ = told(rest(bed, barley_moisture=moisture), "24T18:10")
    assert step.startswith("Past a stop. Warmest minus coolest grain in an air rest") is past, step
    assert ("look for the corner that gets no air" in step) is past


def test_water_is_mixed_by_what_was_read_in_the_grain() -> None:
    cold = [["8", ""], ["8", ""], ["8", "13.9"], ["12", ""], ["3", ""]]
    bed = line("bed", "2026-11-24T18:00", bottom_c="16", top_c="15")
    _, pages = told(rest(bed, stages=cold), "24T18:10")
    assert "Read 18:00, 16.0 °C at its warmest, the grain is at about" in pages["next"]
    assert "mix the water to within 2 K" in pages["next"]
    warm = [["8", ""], ["8", ""], ["8", "16"], ["12", ""], ["3", ""]]
    assert "mix the water" not in told(rest(bed, stages=warm), "24T18:10")[1]["next"]


def test_water_on_is_held_against_the_warmest_that_was_read() -> None:
    bed = line("bed", "2026-11-24T21:00", bottom_c="16.5", top_c="14.5")
    on = line("stage-begun", "2026-11-24T22:00", stage="wet", water_temp_c="14")
    step, _ = told(rest(bed, on), "24T22:05")
    assert (
        "This water is 2.5 K colder than the grain was read at 21:00, 16.5 °C at its warmest: 2 K is the most" in step
    )


def test_filled_again_and_water_on_in_one_minute_are_one_change() -> None:
    again = line("stage-ended", "2026-11-24T22:00", ended="filled")
    on = line("stage-begun", "2026-11-24T22:00", stage="wet", water_temp_c="14")
    later = line("stage-begun", "2026-11-24T22:01", stage="wet", water_temp_c="14")
    assert "stands twice" not in told(rest(again, on), "24T22:05")[1]["checks"]
    assert "stands twice" in told(rest(again, later), "24T22:05")[1]["checks"]


def test_a_temperature_typed_in_fahrenheit_stands_with_one_decimal() -> None:
    _, pages = told(rest(water_temp_c="57 F"), "24T14:10")
    said = " ".join(pages.values())
    assert "13.9 °C" in said and "13.8889" not in said
