"""Growth, day by day: what the page says of it, its stops, and what cannot be."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.asking.declare.pictures import Chart
from calculators.drawing.chart import data_of
from tests.sheets.ask import ask, drawn, notes, said, values
from tests.sheets.stops import asked, check, past

PAGE = Path("docs/calculators/growth-by-day.md").read_text("utf-8")


def test_the_page_says_what_the_sheet_gives():
    found = ask("growth-by-day", bed_temp_c="15", moisture="45", day="3")["answers"]
    shown = {name: f"{entry['value']:.{entry['decimals']}f}" for name, entry in found.items()}
    assert f"at {shown['acrospire_percent']} % of the corn, likely {found['acrospire_percent']['low']:.0f} to "\
        f"{found['acrospire_percent']['high']:.0f}" in PAGE  # fmt: skip
    assert f"makes {shown['heat_kw']} kW" in PAGE and f"lost {shown['lost_percent']} %" in PAGE
    later = values("growth-by-day", bed_temp_c="15", moisture="45", day="5")
    assert f"After five days {later['three_quarters_percent']:.0f} of 100" in PAGE
    assert f"A day later {values('growth-by-day', day='6')['overshot_percent']:.0f} have overshot" in PAGE


def test_dry_grain_that_grows_is_asked_back_with_the_limits():
    text = said("growth-by-day", moisture="14")
    assert "26 to 50 %" in text and "Drier corns do not grow" in text
    assert "5 to 30" in said("growth-by-day", bed_temp_c="45")
    assert "0 to 12" in said("growth-by-day", day="20")


@settings(max_examples=40, deadline=None)
@given(st.floats(5, 30), st.floats(26, 50), st.floats(0, 12))
def test_no_figure_past_a_stop_unless_the_stop_is_said_before_it(temp, moisture, day):
    result = asked("growth-by-day", bed_temp_c=repr(temp), moisture=repr(moisture), day=repr(day))
    assert result is not None
    check(result, past("floor-piece", temp))
    check(result, past("germination-moisture", moisture))
    check(result, past("overshot-share", result["answers"]["overshot_percent"]["value"]))
    levels = [note["level"] for note in result["notes"]]
    assert levels == sorted(levels, key=lambda level: level != "notice")


def test_it_never_calls_a_piece_ready_or_a_place_clear():
    told = notes("growth-by-day", day="6")
    assert "says nothing about the air" in told and "judged by its corns" in told
    assert not re.search(r"\b(ready now|safe|acceptable|clear)\b", told)


@pytest.mark.parametrize("day", ["0", "0.25", "12"])
def test_both_ends_of_the_days_are_answered(day):
    assert values("growth-by-day", day=day)["lost_percent"] >= 1.0


def test_half_days_are_told_apart_in_the_charts_numbers():
    charts = [one for one in drawn("growth-by-day", day="3") if isinstance(one, Chart)]
    assert charts
    for chart in charts:
        days = [row[0] for row in data_of(chart).rows]
        assert len(set(days)) == len(days) and "0.5" in days
