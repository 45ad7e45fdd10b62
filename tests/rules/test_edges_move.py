"""Every edge of floor, drum, kiln hand-over and cleaning is moved; the old figures must be gone from what shows them.

What still repeats one by hand is listed with its reason: the list may only grow shorter.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Iterator

import pytest

from calculators.rules.limit import Limit
from calculators.rules.limits import of_page
from site_src.settings import ROOT
from tests.rules.moved import PROCEDURES

EDGES = ("stop_low", "accept_low", "accept_high", "stop_high")
UNITS = {"C": "°C", "K": "K", "%": "%", "h": "h", "cm": "cm", "points": "points"}
MOVED_BY = 0.13
ROWS = [row for page in PROCEDURES for row in of_page(page) if isinstance(row, Limit)]
_NUMBER = r"\d+(?:\.\d+)?"
_WITH_UNIT = re.compile(
    rf"(?<![\d.,])({_NUMBER}(?:(?:\s*–\s*|,? (?:to|or|over|and|under) |, )?{_NUMBER})*)"
    r"\s*(°C|K|%|hours|h|cm|points?)(?!\w)"
)


def _figures(text: str) -> Iterator[tuple[float, str, str]]:
    """Every number with its unit, those of a range too, with the words that they stand in."""
    for found in _WITH_UNIT.finditer(text):
        unit = {"hours": "h", "point": "points"}.get(found[2], found[2])
        around = " ".join(text[max(0, found.start() - 60) : found.end() + 30].split())
        for number in re.findall(_NUMBER, found[1]):
            yield float(number), unit, around


def moved_texts() -> dict[str, str]:
    edges = {
        row.id: {edge: value + MOVED_BY for edge in EDGES if (value := getattr(row, edge)) is not None} for row in ROWS
    }
    run = subprocess.run(
        [sys.executable, "-m", "tests.rules.moved"], input=json.dumps(edges), capture_output=True, text=True, cwd=ROOT
    )
    assert run.returncode == 0, run.stderr
    texts: dict[str, str] = json.loads(run.stdout)
    return texts


def repeats(texts: dict[str, str]) -> set[tuple[str, str]]:
    """Where an old figure still stands: the name of the text, and the words around."""
    old = {
        (float(getattr(row, edge)), UNITS[row.unit]) for row in ROWS for edge in EDGES if getattr(row, edge) is not None
    }
    return {
        (name, around) for name, text in texts.items() for value, unit, around in _figures(text) if (value, unit) in old
    }


SOURCE = "what a source says"
CASE = "a reading of a worked case"
OTHER = "another quantity that happens to have the figure"
HOUSES = "the range in which a house sets its own limit; common practice, and no edge"

KEPT: dict[tuple[str, str], str] = {
    ("_includes/questions/casting-and-floor.toml", "bottom 21 °C at 8 cm"): CASE,
    ("calculators/days-to-ready.md", "takes 5 days at 15 °C"): CASE,
    ("calculators/floor-round.md", "So 3 K between bottom and top"): OTHER,
    ("calculators/floor-round.md", "The first limit comes in 6 hours"): CASE,
    ("calculators/sprinkling.md", "for a bed at 40 %"): SOURCE,
    ("procedures/between-batches.md", "Between 20 and 45 °C"): OTHER,
    ("procedures/drum-germination.md", "Between 20 and 45 °C"): OTHER,
    ("procedures/drum-germination.md", "warms its air by about 1 K"): OTHER,
    ("procedures/drum-germination.md", "Published: beds at"): SOURCE,
    ("procedures/drum-germination.md", "12–16 °C in humid air at 42–46 %"): SOURCE,
    ("procedures/drum-germination.md", "every 8 h on days 3 and 4"): OTHER,
    ("procedures/floor-germination.md", "Between 20 and 45 °C"): OTHER,
    ("procedures/floor-germination.md", "25 to 27.5 °C"): SOURCE,
    ("procedures/floor-germination.md", "turned every 6, later 8 hours"): SOURCE,
    ("procedures/floor-germination.md", "Published: 12–16 °C"): SOURCE,
    ("procedures/floor-germination.md", "12–16 °C and 42–46 %"): SOURCE,
    ("procedures/floor-germination.md", "no more than 3 to 5 K"): HOUSES,
    ("procedures/floor-germination.md", "alike within 0.5 K"): OTHER,
    ("procedures/floor-germination.md", "same all over within 2 cm"): OTHER,
    ("procedures/floor-germination.md", "seldom under 8 h"): OTHER,
    ("procedures/floor-germination.md", "thermometer reads 15 °C"): CASE,
    ("procedures/floor-germination.md", "never 25 °C"): SOURCE,
    ("procedures/kiln-hand-over.md", "Moisture: 40–45 %"): SOURCE,
    ("procedures/kiln-hand-over.md", "At 45 % moisture grain weighs"): OTHER,
    ("procedures/kiln-hand-over.md", "from 45 to 4 %"): OTHER,
    ("procedures/kiln-hand-over.md", "3 to 6 % of the dry matter"): OTHER,
    ("sheet bed-heat", "By day at 15 °C"): OTHER,
    ("sheet floor-round", "surface_w_m2_k"): OTHER,
    ("sheet kiln-water", "60 and 80 °C"): OTHER,
    ("sheet kiln-water", "45 to 4 %"): OTHER,
    ("sheet kiln-water", "1 point wrong"): OTHER,
    ("sheet kiln-water", "near 45 %"): OTHER,
    ("sheet sprinkling", "20 to 45 °C breeds"): OTHER,
    ("training/session-08-floor.md", "alike within 0.5 K"): OTHER,
    ("training/session-08-floor.md", "Top 15 °C, bottom 20.5"): CASE,
    ("training/session-08-floor.md", "your limit, 3 to 5 K"): HOUSES,
    ("training/session-09-drum.md", "a rise of 4 K"): CASE,
}
"""Text and words: why an old figure may still stand there."""


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    return moved_texts()


def test_every_edge_that_moves_takes_its_figure_along(texts: dict[str, str]):
    by_hand = [(name, around) for name, around in repeats(texts) if not _kept(name, around)]
    assert by_hand == []


def test_what_is_kept_by_hand_still_stands_there(texts: dict[str, str]):
    assert [
        one for one in KEPT if not any(one[0] == name and one[1] in around for name, around in repeats(texts))
    ] == []


def test_the_new_figures_are_drawn_where_the_old_ones_stood(texts: dict[str, str]):
    for name in ("floor-germination", "drum-germination", "kiln-hand-over", "between-batches"):
        assert f".{str(MOVED_BY)[2:]}" in texts[f"procedures/{name}.md"]
    assert "over 22.13 °C" in texts["procedures/floor-germination.md"]
    assert "up to 48.13" in texts["sheet sprinkling"] or "Over 48.13 %" in texts["sheet sprinkling"]
    for said in ("past the stop, 16.13 h", "the stop is over 22.13 °C", "past the stop, 24.13 h", "over 18.13 °C"):
        assert said in texts["day-book"]


def _kept(name: str, around: str) -> tuple[str, str] | None:
    return next((one for one in KEPT if one[0] == name and one[1] in around), None)
