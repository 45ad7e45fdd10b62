"""What is said of a bed past its hours adds up as it is read, and one reading is said once."""

from __future__ import annotations

import re
from html import unescape

import pytest

from tests.daybook.book import START, Line, ask, line


def shown(now: str, *entries: Line, vessel: str = "floor") -> str:
    """The place of the next step, as it is read."""
    lines = [
        line("start", "2026-11-24T05:30", **{**START, "vessel": vessel}),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-25T06:00", ended="drained"),
        line("cast", "2026-11-25T08:00"),
        *entries,
    ]
    places = ask("batch", lines, batch="b1", date=now)["places"]
    return unescape(re.sub(r"<[^>]+>", " ", places["next"]))


@pytest.mark.parametrize(
    "now",
    [
        "2026-11-27T04:30",  # half an hour over
        "2026-11-27T05:20",
        "2026-11-27T04:02",  # two minutes over
        "2026-11-27T14:25",  # past the stop
    ],
)
def test_hours_since_a_turning_are_the_edge_and_what_is_past_it(now: str):
    text = shown(now, line("turned", "2026-11-26T16:00"))
    found = re.search(r"([\d.]+) h ago: ([\d.]+) h past (?:what is accepted|the stop), ([\d.]+) h", text)
    assert found
    lain, over, edge = map(float, found.groups())
    assert over > 0 and lain == pytest.approx(over + edge, abs=1e-9)


def test_twelve_hours_and_a_half_are_said_so():
    text = shown("2026-11-27T04:30", line("turned", "2026-11-26T16:00"))
    assert "12.5 h ago: 0.5 h past what is accepted, 12 h" in text


def test_what_was_ready_too_long_is_said_past_its_edge_and_not_at_it():
    count = line("readiness", "2026-11-29T23:42", counts=[["2"], ["3"], ["10"], ["85"], ["0"]])
    text = shown("2026-11-30T12:00", line("turned", "2026-11-30T08:00"), count)
    assert "Ready by the count for 12.3 h, not loaded: the stop is 12 h" in text


@pytest.mark.parametrize("vessel", ["floor", "drum"])
@pytest.mark.parametrize("reads", [[], [line("bed", "2026-11-26T17:00", bottom_c="15", top_c="14", room_c="12")]])
def test_one_moisture_is_a_stop_or_a_watch_and_not_both(vessel: str, reads: list[Line]):
    dry = line("moisture", "2026-11-26T18:00", moisture="39", method="oven")
    turned = line("drum" if vessel == "drum" else "turned", "2026-11-26T16:00")
    text = shown("2026-11-26T19:00", turned, *reads, dry, vessel=vessel)
    assert "Moisture 39 %: the stop is under 40 %." in text
    assert "watched under 42 %" not in text
