"""What a bed is judged by: what was read of it as it lies now, and nothing that cannot be so."""

from __future__ import annotations

import re
from datetime import datetime
from html import unescape
from typing import Any

from tests.daybook.book import START, Line, ask, line
from tests.daybook.test_what_now import on_the_floor, taken

STEEPED = [
    line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
    line("stage-ended", "2026-11-25T06:00", ended="drained"),
    line("cast", "2026-11-25T08:00", moisture="44"),
]


def book(*entries: Line, **start: str) -> list[Line]:
    return [line("start", "2026-11-24T05:30", **{**START, **start}), *entries]


def told(now: str, *entries: Line, **start: str) -> tuple[str, str, str]:
    """The next step, all that stands with it, and what the lines say together."""
    reply = ask("batch", book(*entries, **start), batch="b1", date=f"2026-11-{now}")
    beside, checks = (words(reply["places"][place]) for place in ("next", "checks"))
    return str(reply["status"]), beside, checks


def words(page: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", page)))


def ways(now: str, fault: str, entries: list[Line], **more: Any) -> str:
    return words(ask("ways", entries, batch="b1", fault=fault, date=f"2026-11-{now}", **more)["places"]["ways"])


def lent(sheet: str, now: str, entries: list[Line]) -> dict[str, Any]:
    reply = ask("lend", entries, sheet=sheet, prefer="b1", date=f"2026-11-{now}", quick=True)
    return {name: one["value"] for name, one in reply["lent"].items()}


def test_the_sheet_of_a_stopped_fan_is_told_what_to_type_and_promises_no_numbers():
    bed = line("bed", "2026-11-25T18:50", bottom_c="16", top_c="18")
    stands = line("air", "2026-11-25T19:00", fan="stopped")
    said = ways("25T19:05", "blower", book(*STEEPED, bed, stands, vessel="drum"), hours="4")
    assert "opened from this batch" not in said
    assert "Where the grain is: In a drum; Barley moisture: 12.5 %" in said
    assert "Day of germination: 1; Grain temperature: 18 °C" in said


def test_a_reading_of_a_thick_piece_is_not_held_against_a_thin_one():
    read = line("bed", "2026-11-27T03:00", bottom_c="21.5", top_c="17", depth_cm="12")
    turned = line("turned", "2026-11-27T03:30", depth_cm="8")
    before = line("turned", "2026-11-26T20:00", depth_cm="12")
    step, *_ = told("27T03:40", *STEEPED, before, read, turned)
    assert "windows open" not in step and "Past a stop" not in step, step
    again = line("bed", "2026-11-27T04:00", bottom_c="21.5", top_c="17")
    assert "windows open" in told("27T04:05", *STEEPED, before, read, turned, again)[0]


def test_a_depth_past_its_stop_is_said_whenever_it_was_written():
    read = line("bed", "2026-11-27T03:00", bottom_c="16", top_c="15", depth_cm="12")
    thick, thin = (line("turned", "2026-11-27T03:30", depth_cm=cm) for cm in ("45", "12"))
    assert "Depth of a growing piece 45 cm: the stop is over 40 cm" in told("27T03:40", *STEEPED, read, thick)[0]
    heaped = line("turned", "2026-11-26T20:00", depth_cm="45")
    bare = line("bed", "2026-11-27T03:00", bottom_c="16", top_c="15")
    assert "45 cm" in told("27T03:10", *STEEPED, heaped, bare)[0]
    assert "45 cm" not in told("27T03:40", *STEEPED, heaped, bare, thin)[0]


def test_a_way_samples_before_it_waters_what_nobody_has_sampled():
    entries = on_the_floor()
    said = ways("24T00:00", "turning-missed", entries)
    assert "Now: sample first; under 42 %, or where roots wither, sprinkle: " in said and "Now: sprinkle" not in said
    sampled = line("moisture", "2026-11-23T23:40", moisture="41", method="oven")
    said = ways("24T00:00", "turning-missed", [*entries, sampled])
    assert "Now: sprinkle: " in said and "sample first" not in said


def test_a_floor_that_dries_is_told_before_its_stop():
    entries = [*STEEPED, line("turned", "2026-11-26T07:00", depth_cm="12")]
    bed = line("bed", "2026-11-26T08:00", bottom_c="16", top_c="15.5", room_c="12")
    dry = line("moisture", "2026-11-26T08:10", moisture="41", method="oven")
    for lines in ([*entries, dry], [*entries, bed, dry]):
        beside = told("26T08:20", *lines)[1]
        assert "Moisture 41 %: watched under 42 %." in beside
        assert "it is sprinkled, unless it is all but ready" in beside
    wet = line("moisture", "2026-11-26T08:10", moisture="44", method="oven")
    assert "watched under" not in told("26T08:20", *entries, bed, wet)[1]


def test_what_is_watched_stands_with_its_figure_and_is_not_off_the_plan():
    entries = [*STEEPED, line("turned", "2026-11-26T07:00", depth_cm="12")]

    def off(bottom: str, top: str) -> tuple[str, list[str]]:
        bed = line("bed", "2026-11-26T08:00", bottom_c=bottom, top_c=top, room_c="12")
        reply = ask("batch", book(*entries, bed), batch="b1", date="2026-11-26T08:10")
        return words(reply["places"]["next"]), reply["off"]

    assert off("18.2", "17") == (off("18.2", "17")[0], []) and "17.6 °C: watched over 17 °C" in off("18.2", "17")[0]
    assert off("22.5", "20.5")[1] == ["warm"] and off("7", "7")[1] == []


def test_a_moisture_that_is_not_counted_leads_to_its_correction_and_to_no_order():
    steeped = [
        *STEEPED[:2],
        line("moisture", "2026-11-25T07:00", moisture="0.452", method="oven"),
        line("cast", "2026-11-25T08:00"),
    ]
    step, _, checks = told("25T08:30", *steeped)
    assert "Cast at" not in step and "wet it again" not in step
    assert step.startswith("Moisture, Wed 25 Nov 07:00: 0.5 % is less than the barley’s own 12.5 %")
    assert "Correct the line" in step and "Cast at" not in checks
    slip = line("cast", "2026-11-25T08:00", moisture="0.44")
    assert told("25T08:30", *STEEPED[:2], slip)[0].startswith("Cast, Wed 25 Nov 08:00: 0.4 % is less")
    sampled = line("moisture", "2026-11-26T07:00", moisture="0.452", method="oven")
    step = told("26T08:30", *STEEPED, line("turned", "2026-11-26T07:30", depth_cm="12"), sampled)[0]
    assert step.startswith("Moisture, Thu 26 Nov 07:00") and "sprinkle" not in step.lower()


def test_a_way_taken_for_a_bed_stands_in_the_next_step():
    entries = on_the_floor()
    page = ask("ways", entries, batch="b1", fault="warm", date="2026-11-24T00:00")["places"]["ways"]
    way = taken(page)
    for vessel in ("floor", "drum"):
        lines = [*on_the_floor(vessel), line("plan", "2026-11-24T00:05", told="shift lead", **way)]
        step = ask("batch", lines, batch="b1", date="2026-11-24T00:10")["status"]
        loaded = datetime.strptime(way["load_at"], "%Y-%m-%d %H:%M")
        assert f"keep the bed at {way['hold_c']} °C. Load it on the kiln {loaded:%a %d %b %H:%M}." in step, step
    hot = line("plan", "2026-11-24T00:05", told="shift lead", hold_c="21", load_at=way["load_at"])
    step = ask("batch", [*entries, hot], batch="b1", date="2026-11-24T00:10")["status"]
    assert "Past a stop by the plan. Piece on the whole 21 °C" in step and "keep the bed at" not in step


def test_a_cast_with_too_few_chits_is_named_until_it_is_turned_and_kept_in_the_checks():
    def at(now: str, chitted: str, vessel: str, *more: Line) -> tuple[str, str]:
        count = line("chits", "2026-11-25T07:00", chitted=chitted, counted="200")
        step, _, checks = told(now, *STEEPED, count, *more, vessel=vessel)
        return step, checks

    step, checks = at("25T09:00", "150", "drum")
    assert step.startswith("Past a stop. Chit at the cast, to a drum or a box 75 %: the stop is under 80 %")
    assert "Tell the shift lead" in step and "75 %: the stop is under 80 %" in checks
    turned = at("25T19:00", "150", "drum", line("drum", "2026-11-25T18:00"))
    assert not turned[0].startswith("Past a stop") and "75 %: the stop" in turned[1]
    assert "Chit" not in at("25T09:00", "160", "drum")[0] and "Chit" not in at("25T09:00", "150", "floor")[0]
    assert "to a couch 49.5 %" in at("25T09:00", "99", "floor")[0]
