"""What the page of the week of a house says of its worked weeks is what the sheet gives for them."""

from __future__ import annotations

from typing import Any

from calculators.plates.week import AUGUST, side_by_side, walked, worked
from site_src.settings import ROOT

PAGE = " ".join((ROOT / "docs" / "calculators" / "house-week.md").read_text("utf-8").split())


def told(result: dict[str, Any], level: str = "") -> str:
    return " ".join(note["text"] for note in result["notes"] if level in ("", note["level"]))


def test_the_winter_week():
    result = worked()
    answers = result["answers"]
    assert answers["plan"]["value"] == "kept" and "That is proved" in told(result)
    assert "All six are done in time, nobody is called in" in PAGE
    assert side_by_side(result) > 2.0
    drawn = {row[0]: row for row in result["tables"]["drawn"]["rows"]}
    last = max(result["tables"]["batches"]["rows"], key=lambda row: row[8])[0]
    assert f"So in {drawn[last][5]:.0f} of 100 drawn weeks the last batch waits for the kiln past its stop" in PAGE
    assert answers["gives_way"]["value"] == drawn[last][5]


def test_a_second_pair_of_hands_in_the_evening_mends_what_gives_way_first():
    alone, helped = worked(), worked(hands="05:00 22:00 2")
    assert "a second pair of hands in the evening would mend it" in PAGE
    stops = [max(row[5] for row in one["tables"]["drawn"]["rows"]) for one in (alone, helped)]
    assert stops[1] < stops[0] / 2


def test_one_batch_a_day_late_in_winter():
    result = worked()
    rows = {(row[0], row[1]): row[2] for row in result["tables"]["slip"]["rows"]}
    assert len(rows) == 5 and "Five lines of the paper are written anew" in PAGE
    assert rows["example-24", "cast"] == "floor, now drum" and rows["example-25", "cast"] == "drum, now floor"
    assert "5 lines are written anew" in told(result) and "called in 0 times, 0 h late" in told(result)
    assert "Nobody is called in, and no malt is late" in PAGE


def test_the_week_in_august():
    result = worked(**AUGUST)
    assert result["answers"]["plan"]["value"] == "kept" and "All six are still done in time" in PAGE
    assert side_by_side(result) < 2.0
    (row,) = result["tables"]["slip"]["rows"]
    assert row[:2] == ["example-22", "load"] and row[5] == 24.0
    assert "one line is written anew" in told(result) and "0 h late" in told(result)
    assert "So one line of the paper is written anew, the load of example-22, and no malt is late" in PAGE
    assert "warmer than the 15 °C" in told(result)
    assert AUGUST["mains_c"] == "18" and "In August the water comes warm" in PAGE.replace("**", "")


def test_in_august_the_suction_decides_whether_a_rest_passes_its_stop():
    full, usual = worked(**AUGUST), worked(**{**AUGUST, "suction_m3_h_t": "60"})
    assert usual["answers"]["plan"]["value"] == "stop" and told(usual).startswith("Past a stop: these stages")
    assert "usual 60 m³/h for each tonne the sheet says first that a rest gets past its stop" in PAGE
    assert f"stays at {full['answers']['warmest_c']['value']:.1f} °C by the typical barley" in PAGE


def test_the_table_of_the_story_has_the_sheets_own_figures():
    assert "week-walked" in PAGE
    lines = {row[0]: row[1:] for row in walked().rows}
    for place, result in enumerate((worked(), worked(**AUGUST))):
        answers = result["answers"]
        assert lines["Malt late, all batches"][place] == f"{answers['late_h']['value']:.0f} h"
        assert lines["Warmest hour of a rest in the steep"][place] == f"{answers['warmest_c']['value']:.1f} °C"
        assert lines["First to give way, weeks drawn"][place] == f"{answers['gives_way']['value']:.0f} of 100"
        assert lines["One a day late: lines written anew"][place] == str(len(result["tables"]["slip"]["rows"]))
    assert lines["Batches side by side on the floor, at most"] == ("two", "one")
