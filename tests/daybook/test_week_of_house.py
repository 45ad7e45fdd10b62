"""The week of a house from the day-book: where all batches at work stand, and its plan as lines of the book."""

from __future__ import annotations

from typing import Any

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.daybook.house.week_opening import OF_HOUSE
from calculators.sheets import find_sheet
from tests.daybook.book import START, Line, ask, line, steeping

SHEET = find_sheet(OF_HOUSE)


def lying(batch: str = "b2") -> list[Line]:
    return [
        line("start", "2026-11-18T05:30", batch, **{**START, "barley_kg": "5800"}),
        line("stage-begun", "2026-11-18T06:00", batch, stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-18T14:00", batch, ended="drained"),
        line("cast", "2026-11-20T08:00", batch),
        line("bed", "2026-11-22T12:00", batch, bottom_c="15", top_c="14"),
    ]


def lent(entries: list[Line], **more: Any) -> Line:
    return ask("lend", entries, sheet=OF_HOUSE, zone=60, **more)


def test_all_batches_at_work_go_into_the_sheet_and_not_one():
    reply = lent([*steeping(), *lying()])
    assert reply["whole_house"] and reply["batch"] == ""
    given = {name: one["value"] for name, one in reply["lent"].items()}
    assert given["planned_at"] == "2026-11-24 13:00"
    assert sorted(given["batches"]) == [["b1", "6000"], ["b2", "5800"]]
    told = {row[0]: row[1:] for row in given["happened"]}
    assert told["b2"] == ["cast", "2026-11-20 08:00", "floor"]
    assert told["b1"][0] == "filled"


def test_what_the_book_lends_is_planned_with():
    given = {name: one["value"] for name, one in lent(lying())["lent"].items()}
    example = {**example_of(SHEET), "reference_temp_c": "15", "reference_days": "5", "slip_batch": ""}
    found = answer(SHEET, {**example, **given})
    assert isinstance(found, Answered), found.problems
    (row,) = as_json(found)["tables"]["batches"]["rows"]
    assert row[0] == "b2" and "2026-11-20T08:00" in row


def test_a_batch_in_one_of_two_steeps_is_taken_to_lie_in_the_first_that_is_free():
    own = {"reference_temp_c": "15", "reference_days": "5", "slip_batch": ""}
    given = {name: one["value"] for name, one in lent(steeping())["lent"].items()}
    found = answer(SHEET, {**example_of(SHEET), **own, **given})
    assert isinstance(found, Answered), found.problems
    result = as_json(found)
    assert "Taken: b1 in A. Write it" in " ".join(note["text"] for note in result["notes"])
    batches, told = given["batches"], given["happened"]
    other = {"batches": [*batches, ["b9", "5000"]], "happened": [*told, ["b9", "filled", "2026-11-24 09:00", "A"]]}
    found = answer(SHEET, {**example_of(SHEET), **own, **given, **other})
    assert isinstance(found, Answered), found.problems
    assert "Taken: b1 in B. Write it" in " ".join(note["text"] for note in as_json(found)["notes"])


def test_a_book_with_nothing_at_work_lends_nothing():
    done = [*lying(), line("to-kiln", "2026-11-24T10:00", "b2", green_malt_kg="8000")]
    assert lent(done)["lent"] == {}


def test_the_plan_becomes_lines_of_the_batches_that_are_in_the_book():
    given = {name: one["value"] for name, one in lent(lying())["lent"].items()}
    questions = {**example_of(SHEET), "reference_temp_c": "15", "reference_days": "5", "slip_batch": "", **given}
    questions["batches"] = [*given["batches"], ["new-1", "6000"]]
    reply = ask("week-plans", lying(), questions=questions)
    (one,) = reply["lines"]
    assert one["batch"] == "b2" and reply["strange"] == ["new-1"]
    entry = line("plan", "2026-11-24T13:00", "b2", load_at=one["load_at"], remark=one["remark"])
    assert ask("entry", lying(), entry=entry)["faults"] == []
    assert "cast Fri 20 Nov 08:00, floor" in one["remark"] and "load" in one["remark"]
    no_plan = ask("week-plans", lying(), questions={**questions, "hands": ""})
    assert no_plan["lines"] == []
