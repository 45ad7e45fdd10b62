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


def lent(sheet: str, date: str, lines: list[Line] | None = None) -> Line:
    given: dict[str, Any] = ask("lend", lines or resting(), sheet=sheet, date=date)["lent"]
    return given


def cast_at(*beds: tuple[str, str], turned: str = "") -> list[Line]:
    """A batch cast at six in the morning of the 24th, read so warm at these times."""
    lines = [line("start", "2026-11-24T05:00", **START), line("cast", "2026-11-24T06:00", moisture="44")]
    lines += [line("turned", turned, depth_cm="15")] if turned else []
    return [*lines, *(line("bed", at, bottom_c=warm, top_c=warm, room_c="12") for at, warm in beds)]


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


@pytest.mark.parametrize(("turned", "lies_as"), [("", "couch"), ("2026-11-25T07:00", "piece")])
def test_what_was_turned_once_is_lent_as_a_piece_and_before_that_as_a_couch(turned: str, lies_as: str):
    given = lent("floor-round", "2026-11-25T09:00", cast_at(("2026-11-25T08:00", "16"), turned=turned))
    assert given["lies_as"]["value"] == lies_as


@pytest.mark.parametrize(
    ("date", "days"),
    [
        ("2026-11-25T17:00", [16.0]),  # 1 day 11 h: the second day is not half over
        ("2026-11-25T18:00", [16.0, 17.0]),
        ("2026-11-26T17:00", [16.0, 17.0]),
        ("2026-11-26T18:00", [16.0, 17.0, 17.0]),
    ],
)
def test_a_day_that_has_begun_counts_from_its_half_on(date: str, days: list[float]):
    lines = cast_at(("2026-11-24T18:00", "16"), ("2026-11-25T12:00", "17"), ("2026-11-26T12:00", "17"))
    rows = lent("days-to-ready", date, [one for one in lines if one["at"] <= date])["temperatures"]["value"]
    assert [float(warm) for _, warm in rows] == days


def test_before_the_first_whole_day_the_hours_are_lent_as_a_part_of_one():
    given = lent("days-to-ready", "2026-11-24T18:00", cast_at(("2026-11-24T12:00", "16")))
    assert given["days_done"]["value"] == "0.50" and given["bed_temp_c"]["value"] == "16.0"
    assert "temperatures" not in given
