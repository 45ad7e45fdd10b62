"""A sheet whose hours go over a change of the clocks says so first; where none is among them it says nothing."""

from __future__ import annotations

import json
from typing import Any

import pytest

from calculators.asking.answer import example_of
from calculators.page import respond
from calculators.sheets import find_sheet

CLOCKS = [["", 60], ["2026-03-29T01:00", 120], ["2026-10-25T01:00", 60]]
STAGES = [["8", "14"], ["8", "14"], ["8", "14"]]


def answered(clocks: Any, **typed: Any) -> str:
    sheet = find_sheet("steep-timing")
    asked = {"sheet": sheet.id, "prefix": "p", "root": "../", "questions": {**example_of(sheet), **typed}, "date": ""}
    reply = json.loads(respond(json.dumps({**asked, "clocks": clocks})))
    assert reply["state"] == "answered", reply
    return str(reply["places"]["notes"])


@pytest.mark.parametrize(
    ("start", "said"),
    [
        ("2026-10-24 22:00", ("put back on Sun 25 Oct 03:00.", "from then on the wall shows 1 h less")),
        ("2026-03-28 22:00", ("put forward on Sun 29 Mar 02:00.", "from then on the wall shows 1 h more")),
    ],
)
def test_hours_that_go_over_a_change_of_the_clocks_are_said_to(start: str, said: tuple[str, str]) -> None:
    text = answered(CLOCKS, start=start, stages=STAGES)
    assert all(words in text for words in said)


@pytest.mark.parametrize("start", ["2026-10-25 04:00", "2026-10-20 06:00", "2026-03-29 03:00", "06:00", ""])
def test_hours_beside_it_and_without_a_date_are_not(start: str) -> None:
    assert "clocks are put" not in answered(CLOCKS, start=start, stages=STAGES)


@pytest.mark.parametrize("clocks", [None, [], [["", 60]], "x", [["2026-10-25T99:00", 60]]])
def test_where_none_is_known_nothing_is_said(clocks: Any) -> None:
    assert "clocks are put" not in answered(clocks, start="2026-10-24 22:00", stages=STAGES)
