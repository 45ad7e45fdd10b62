"""What the page of the week of a house says of its worked weeks is what the sheet gives for them."""

from __future__ import annotations

from typing import Any

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.sheets import find_sheet
from site_src.settings import ROOT

SHEET = find_sheet("house-week")
PAGE = " ".join((ROOT / "docs" / "calculators" / "house-week.md").read_text("utf-8").split())
AUGUST = {
    "planned_at": "2026-08-02 18:00",
    "batches": example_of(SHEET)["batches"]
    .replace("2026-01-21", "2026-08-12")
    .replace("2026-01-23", "2026-08-14")
    .replace("2026-01-25", "2026-08-16")
    .replace("2026-01-28", "2026-08-19")
    .replace("2026-01-30", "2026-08-21")
    .replace("2026-02-01", "2026-08-23"),
    "floors": "floor 245 9 17.5",
    "vessels": "drum drum 6500 16.5",
    "mains_c": "19.5",
    "steep_c": "15",
}


def worked(**more: str) -> dict[str, Any]:
    case = {**example_of(SHEET), "reference_temp_c": "15", "reference_days": "5", "slip_batch": "example-22", **more}
    found = answer(SHEET, case)
    assert isinstance(found, Answered), found.problems
    return as_json(found)


def told(result: dict[str, Any]) -> str:
    return " ".join(note["text"] for note in result["notes"])


def side_by_side(result: dict[str, Any]) -> float:
    """How many of the smallest batches the floor carries at its fullest."""
    rows = result["tables"]["floor_room"]["rows"]
    return max(float(row[2]) for row in rows) / 5500.0


def test_the_winter_week():
    result = worked()
    answers = result["answers"]
    assert answers["plan"]["value"] == "kept" and "That is proved" in told(result)
    assert "All six are done in time, nobody is called in" in PAGE
    assert side_by_side(result) > 2.0
    drawn = {row[0]: row for row in result["tables"]["drawn"]["rows"]}
    last = max(result["tables"]["batches"]["rows"], key=lambda row: row[8])[0]
    assert 45.0 <= drawn[last][5] <= 55.0 and "in half of the drawn weeks the last batch waits" in PAGE
    assert answers["gives_way"]["value"] == drawn[last][5]


def test_one_batch_a_day_late_in_winter():
    result = worked()
    rows = {(row[0], row[1]): row[2] for row in result["tables"]["slip"]["rows"]}
    assert len(rows) == 4 and "Four lines of the paper are written anew" in PAGE
    assert rows["example-24", "cast"] == "floor, now drum" and rows["example-25", "cast"] == "drum, now floor"
    assert "4 lines are written anew" in told(result) and "called in 2 times" in told(result)
    assert "two waters fall into the night" in PAGE


def test_the_week_in_august():
    result = worked(**AUGUST)
    assert result["answers"]["plan"]["value"] == "kept" and "All six are still done in time" in PAGE
    assert side_by_side(result) < 2.0
    (row,) = result["tables"]["slip"]["rows"]
    assert row[:2] == ["example-22", "load"] and row[5] == 24.0
    assert "one line is written anew" in told(result) and "0 h late" in told(result)
    assert "So one line of the paper is written anew, the load of example-22, and no malt is late" in PAGE
    assert "warmer than the 15 °C" in told(result)
