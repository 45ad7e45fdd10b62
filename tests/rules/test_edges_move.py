"""Every edge of every procedure is moved at once; the old figures must be gone from all that the book shows and orders.

What still repeats one by hand is listed with its reason in ``kept.toml``: the list may only grow shorter.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from calculators.asking.units import shown
from calculators.rules.limit import Limit
from calculators.rules.limits import PAGES, every, of_page
from site_src.settings import ROOT

EDGES = ("stop_low", "accept_low", "accept_high", "stop_high")
MOVED_BY = 0.13
ROWS = tuple({row.id: row for row in every() if isinstance(row, Limit)}.values())
OLD = {
    (float(value), shown(row.unit))
    for row in ROWS
    for edge in EDGES
    if (value := getattr(row, edge))  # nothing at all, such as no mould, is no figure
}
_NUMBER = r"\d+(?:\.\d+)?"
_UNITS = {"hours": "h", "hour": "h", "point": "points", "minutes": "min", "minute": "min", "corn": "corns"}
_WITH_UNIT = re.compile(
    rf"(?<![\d.,])({_NUMBER}(?:(?:\s*[–-]\s*|,? (?:to|or|over|and|under) |, ){_NUMBER})*)"
    r"[ \u00a0]*(°C|K|%|hours?|h|cm|points?|minutes?|min|µg/kg|g/kg|g|corns?|times the corn)(?![\w/])"
)


class Repeat(NamedTuple):
    """An old figure: the text it stands in, and the words around it."""

    name: str
    around: str


def moved() -> dict[str, str]:
    """All texts with every edge moved, from a Python of its own."""
    edges = {
        row.id: {edge: value + MOVED_BY for edge in EDGES if (value := getattr(row, edge)) is not None} for row in ROWS
    }
    run = subprocess.run(
        [sys.executable, "-m", "tests.rules.moved"],
        input=json.dumps({"edges": edges}), capture_output=True, text=True, cwd=ROOT,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    texts: dict[str, str] = json.loads(run.stdout)
    return texts


def figures(text: str) -> Iterator[tuple[float, str, str]]:
    """Every number with its unit, those of a range too, with the words that they stand in."""
    for found in _WITH_UNIT.finditer(text):
        around = " ".join(text[max(0, found.start() - 60) : found.end() + 30].split())
        for number in re.findall(_NUMBER, found[1]):
            yield float(number), _UNITS.get(found[2], found[2]), around


def repeats(texts: dict[str, str]) -> list[Repeat]:
    """Where an old figure still stands."""
    return [
        Repeat(name, around)
        for name, text in texts.items()
        for value, unit, around in figures(text)
        if (value, unit) in OLD
    ]


KEPT: dict[str, dict[str, Any]] = tomllib.loads(Path(__file__).with_name("kept.toml").read_text("utf-8"))
"""By reason: the reason in words, and by text the words at which an old figure may still stand; all of it for ``*``."""
_BY_TEXT: dict[str, list[str]] = {}
for _group in KEPT.values():
    for _name, _words in _group["texts"].items():
        _BY_TEXT.setdefault(_name, []).extend(_words)


def kept(one: Repeat) -> bool:
    return any(words == "*" or words in one.around for words in _BY_TEXT.get(one.name, ()))


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    return moved()


def test_every_edge_that_moves_takes_its_figure_along(texts: dict[str, str]):
    assert [one for one in repeats(texts) if not kept(one)] == []


def test_what_is_kept_by_hand_still_stands_there(texts: dict[str, str]):
    found: dict[str, list[str]] = {}
    for one in repeats(texts):
        found.setdefault(one.name, []).append(one.around)
    gone = [
        (name, words)
        for name, many in _BY_TEXT.items()
        for words in many
        if not any(words == "*" or words in around for around in found.get(name, ()))
    ]
    assert gone == []


def test_each_reason_is_told():
    assert all(group["reason"] for group in KEPT.values())


def test_every_kind_of_text_is_drawn(texts: dict[str, str]):
    kinds = ("procedures/", "training/", "reference/", "records/", "questions ", "sheet ", "paper ", "exercise ")
    assert all(any(name.startswith(kind) for name in texts) for kind in kinds) and texts["day-book"]


@pytest.mark.parametrize("page", [page.replace("_", "-") for page in PAGES])
def test_the_new_figures_are_drawn_on_the_page_of_each_procedure(page: str, texts: dict[str, str]):
    for row in of_page(page):
        if isinstance(row, Limit):
            for edge in EDGES:
                if getattr(row, edge) is not None:
                    new = f"{getattr(row, edge) + MOVED_BY:.9g}"
                    assert new in texts[f"procedures/{page}.md"], (row.id, edge)


def test_the_new_stops_are_said(texts: dict[str, str]):
    for words in ("past the stop, 16.13 h", "the stop is over 22.13 °C", "past the stop, 24.13 h", "over 18.13 °C"):
        assert words in texts["day-book"], words
    assert "over 24.13 h" in texts["day-book"] and "under 5.13 °C" in texts["day-book"]
    assert "30.13 to 35.13 % is right" in texts["day-book"]
    for name in ("sheet steep-timing", "sheet steep-fit", "sheet steep-plan", "sheet cast-decision", "day-book"):
        assert "over 12.13 h" in texts[name], name
    for words in ("over 24.13 h", "under 5.13 °C", "over 48.13 %"):
        assert words in texts["sheet steep-timing"], words
    for words in ("over 120.13 min", "over 90.13 min", "over 20.13 °C", "the stop is over 30.13 points"):
        assert words in texts["sheet steep-plan"], words
    for name in ("moisture-target", "sample-basket", "days-to-ready"):
        assert "over 48.13 %" in texts[f"sheet {name}"], name
    assert "Over 48.13 %" in texts["sheet sprinkling"]
    assert "the stop is over 20.13 °C" in texts["sheet mixing-waters"]
    assert "over 47.13 %" in texts["sheet kiln-water"] and "under 38.13 %" in texts["sheet kiln-water"]
    assert "30.13 points or more" in texts["sheet germination-test"]
