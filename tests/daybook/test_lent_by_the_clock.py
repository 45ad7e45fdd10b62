"""What a batch lends to a sheet says of itself whether it is another number an hour later."""

from __future__ import annotations

from typing import Any

import pytest

from tests.daybook.book import START, Line, ask, line


def resting() -> list[Line]:
    """A batch in its first air rest, drained at two in the afternoon."""
    return [
        line("start", "2026-11-24T05:30", **START),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-24T14:00", ended="drained"),
        line("basket", "2026-11-24T14:20", gross_g="190"),
    ]


def lent(sheet: str, date: str) -> Line:
    given: dict[str, Any] = ask("lend", resting(), sheet=sheet, date=date)["lent"]
    return given


@pytest.mark.parametrize("sheet", ["rest-warmth", "steep-timing", "sample-basket", "moisture-target", "cast-decision"])
def test_what_does_not_move_is_the_same_an_hour_later(sheet: str):
    now, later = lent(sheet, "2026-11-24T16:00"), lent(sheet, "2026-11-24T17:00")
    assert now
    assert {name for name, one in now.items() if one["moves"]} == {
        name for name, one in now.items() if later.get(name, {}).get("value") != one["value"]
    }


def test_the_hours_since_the_drain_move_and_the_weighing_does_not():
    assert lent("cast-decision", "2026-11-24T16:00")["hours_since_drain"]["moves"] is True
    assert lent("sample-basket", "2026-11-24T16:00")["gross_now_g"]["moves"] is False
