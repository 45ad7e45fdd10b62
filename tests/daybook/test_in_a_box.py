"""A batch in a box: it is aired as in a drum, and told of as what it is."""

from __future__ import annotations

from calculators.daybook.pages.view import state_words
from tests.daybook.book import START, Line, ask, batch_of, line


def boxed(vessel: str = "box") -> list[Line]:
    return [
        line("start", "2026-11-24T05:30", **{**START, "vessel": vessel}),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("cast", "2026-11-26T06:00", moisture="44.5"),
        line("drum", "2026-11-26T14:00", drum_minutes="40"),
        line("air", "2026-11-26T15:00", fan="running", air_on_c="14", air_off_c="16.4"),
    ]


def test_its_next_step_is_the_bed_and_its_danger_the_screws():
    assert batch_of(boxed(), "b1").in_box and not batch_of(boxed("drum"), "b1").in_box
    page = str(ask("batch", boxed(), batch="b1", date="2026-11-26T16:00")["places"])
    assert "Turn the bed between" in page and "screws start without warning" in page
    assert state_words(batch_of(boxed(), "b1")).startswith("in the box since")
    drum = str(ask("batch", boxed("drum"), batch="b1", date="2026-11-26T16:00")["places"])
    assert "Turn the drum between" in drum and "screws" not in drum


def test_a_fan_that_stopped_sends_everybody_away():
    lines = [*boxed(), line("air", "2026-11-26T15:50", fan="stopped")]
    page = str(ask("batch", lines, batch="b1", date="2026-11-26T16:00")["places"])
    assert "everybody away from the hatches, ducts and drains" in page
