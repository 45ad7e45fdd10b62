"""Every edge of the steep, the fill and the sensitivity is moved: the sheets and the day-book say the new one."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from calculators.rules.limit import Limit
from calculators.rules.limits import of_page
from calculators.rules.limits.casting import MOISTURE, OFF_TARGET
from calculators.rules.limits.germination_test import WATER_SENSITIVITY
from site_src.settings import ROOT
from tests.rules.test_edges_move import EDGES, MOVED_BY, UNITS, _figures

ROWS = [
    *(row for page in ("steeping", "filling-the-steep") for row in of_page(page) if isinstance(row, Limit)),
    OFF_TARGET,
    WATER_SENSITIVITY,
]
SAID = ("immersion-hours", "rest-hours", "steep-water-temp", "cast-moisture", "first-drain-moisture", "drain-minutes",
        "fill-minutes", "water-sensitivity")  # fmt: skip
"""Limits that these cases pass: their moved stops have to be said."""

KEPT = {
    ("sheet steep-plan", "30 points: Montana State University"): "what a source says",
    ("sheet steep-plan", "no rest is shorter than 12 h"): "the rest of water-sensitive barley, and no edge",
    ("day-book", "after 12 h of rest"): "the rest of water-sensitive barley, and no edge",
    ("day-book", "to 37 %, rest it"): "what the model comes to",
}
"""Text and words: why an old figure may still stand there."""


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    edges = {
        row.id: {edge: value + MOVED_BY for edge in EDGES if (value := getattr(row, edge)) is not None} for row in ROWS
    }
    run = subprocess.run(
        [sys.executable, "-m", "tests.rules.moved_steep"],
        input=json.dumps(edges), capture_output=True, text=True, cwd=ROOT,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    found: dict[str, str] = json.loads(run.stdout)
    return found


def test_no_old_stop_is_said(texts: dict[str, str]):
    """The stops alone: a figure such as 8 h or 30 % also stands for many other things."""
    stops = {
        (float(value), UNITS[row.unit])
        for row in ROWS
        if row.id in SAID and row.unit in UNITS
        for edge in ("stop_low", "stop_high")
        if (value := getattr(row, edge)) is not None
    }
    said = {
        (name, around)
        for name, text in texts.items()
        for value, unit, around in _figures(text)
        if (value, unit) in stops
    }
    by_hand = [one for one in said if not any(one[0] == name and words in one[1] for name, words in KEPT)]
    assert by_hand == []
    assert [one for one in KEPT if not any(one[0] == name and one[1] in around for name, around in said)] == []


def test_the_new_stops_are_said(texts: dict[str, str]):
    for name in ("sheet steep-timing", "sheet steep-fit", "sheet steep-plan", "sheet cast-decision", "day-book"):
        assert "over 12.13 h" in texts[name], name
    for words in ("over 24.13 h", "under 5.13 °C", f"over {MOISTURE.stop_high}.13 %"):
        assert words in texts["sheet steep-timing"], words
    for words in ("over 120.13 min", "over 90.13 min", "over 20.13 °C", "30.13 points or more"):
        assert words in texts["sheet steep-plan"], words
    assert "over 24.13 h" in texts["day-book"] and "under 5.13 °C" in texts["day-book"]
    assert "30.13 to 35.13 % is right" in texts["day-book"]
