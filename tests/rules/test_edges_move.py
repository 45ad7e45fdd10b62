"""Every edge of every procedure is moved, each by a step of its own, in all that the book shows and orders.

Two things are shown by that. The old figures are gone: what still repeats one by hand is listed with its reason in
``kept.toml``, and the list may only grow shorter. And no figure stands in for another: on a page, a paper or an
exercise each number that changes goes from the old value of one edge to the new value of the same edge, as if the edges
had been moved in turn. Of what sheets and the day-book work out from edges, only the first is claimed.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from calculators.asking.units import shown
from calculators.rules.limit import Limit
from calculators.rules.limits import PAGES, every, of_page
from site_src.settings import ROOT
from tests.rules.figures import figures

EDGES = ("stop_low", "accept_low", "accept_high", "stop_high")
ROWS = tuple({row.id: row for row in every() if isinstance(row, Limit)}.values())


def _moves() -> dict[str, dict[str, float]]:
    """A new value for each edge, by row; edges of a row that are one value stay one."""
    found: dict[str, dict[str, float]] = {}
    step = 0.101
    for row in ROWS:
        new: dict[float, float] = {}
        for edge in EDGES:
            value = getattr(row, edge)
            if value is not None and value not in new:
                new[value] = round(value + step, 6)
                step += 0.002
            if value is not None:
                found.setdefault(row.id, {})[edge] = new[value]
    return found


MOVES = _moves()
OLD = {
    (float(value), shown(row.unit))
    for row in ROWS
    for edge in EDGES
    if (value := getattr(row, edge))  # nothing at all, such as no mould, is no figure
}
_NUMBER = r"\d+(?:\.\d+)?"


class Repeat(NamedTuple):
    """An old figure: the text it stands in, and the words around it."""

    name: str
    around: str


def drawn(edges: dict[str, dict[str, float]]) -> dict[str, str]:
    """All texts with these edges, from a Python of its own."""
    run = subprocess.run(
        [sys.executable, "-m", "tests.rules.moved"],
        input=json.dumps({"edges": edges}), capture_output=True, text=True, cwd=ROOT,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    texts: dict[str, str] = json.loads(run.stdout)
    return texts


def repeats(texts: dict[str, str]) -> list[Repeat]:
    """Where an old figure still stands."""
    return [
        Repeat(name, around)
        for name, text in texts.items()
        for value, unit, around in figures(text)
        if (value, unit) in OLD
    ]


KEPT: dict[str, dict[str, Any]] = tomllib.loads(Path(__file__).with_name("kept.toml").read_text("utf-8"))
"""By reason: the reason in words, and by text the words at which an old figure may still stand; all of it for ``*``.

``everywhere`` are words that several texts share, such as a box that many pages include.
"""
_EVERYWHERE: list[str] = []
_BY_TEXT: dict[str, list[str]] = {}
for _group in KEPT.values():
    _EVERYWHERE.extend(_group.get("everywhere", ()))
    for _name, _words in _group["texts"].items():
        _BY_TEXT.setdefault(_name, []).extend(_words)


def kept(one: Repeat) -> bool:
    by_text = _BY_TEXT.get(one.name, ())
    return "*" in by_text or any(words in one.around for words in (*by_text, *_EVERYWHERE))


@pytest.fixture(scope="module")
def before() -> dict[str, str]:
    return drawn({})


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    return drawn(MOVES)


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
    around = {one.name: " ".join(found.get(one.name, ())) for one in repeats(texts)}
    for words in _EVERYWHERE:
        assert sum(words in text for text in around.values()) > 1, f"{words!r} belongs to the one text it stands in"


_WORKED_OUT = ("sheet ", "day-book")
_PLAIN = re.compile(rf"(?<![\w.,]){_NUMBER}")


def test_each_figure_that_moves_is_that_of_one_edge_and_goes_with_it(before: dict[str, str], texts: dict[str, str]):
    ways = {(float(getattr(row, edge)), new) for row in ROWS for edge, new in MOVES[row.id].items()}
    shown = set()
    for name in before:
        if name.startswith(_WORKED_OUT):
            continue
        for old, new in zip(before[name].splitlines(), texts[name].splitlines(), strict=True):
            words = [re.sub(r"\bpoints\b", "point", _PLAIN.sub("#", line)) for line in (old, new)]
            if words[0] != words[1]:  # none became some
                assert "none" in old, (name, old, new)
                continue
            for one, other in zip(_PLAIN.findall(old), _PLAIN.findall(new), strict=True):
                if one != other:
                    assert (float(one), float(other)) in ways, (name, one, other, old)
                    shown.add(float(other))
    everything = " ".join(texts.values())
    never = [(row, edge) for row, new in MOVES.items() for edge, value in new.items() if f"{value:g}" not in everything]
    assert len(shown) > 100 and never == []


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
                    new = f"{MOVES[row.id][edge]:.9g}"
                    assert new in texts[f"procedures/{page}.md"], (row.id, edge)


def new(row: str, edge: str = "stop_high") -> str:
    return f"{MOVES[row][edge]:g}"


def test_the_new_stops_are_said(texts: dict[str, str]):
    immersion, rest, cold = new("immersion-hours"), new("rest-hours"), new("steep-water-temp", "stop_low")
    for words in (
        f"past the stop, {new('floor-turning-hours')} h",
        f"the stop is over {new('floor-bottom')} °C",
        f"past the stop, {new('drum-turning-hours')} h",
        f"over {new('drum-air-on')} °C",
        f"over {rest} h",
        f"under {cold} °C",
        f"{new('first-drain-moisture', 'accept_low')} to {new('first-drain-moisture', 'accept_high')} % is right",
    ):
        assert words in texts["day-book"], words
    for name in ("sheet steep-timing", "sheet steep-fit", "sheet cast-decision", "day-book"):
        assert f"over {immersion} h" in texts[name], name
    assert f"One immersion stops at {immersion} h" in texts["sheet steep-plan"]
    for words in (f"over {rest} h", f"under {cold} °C", f"over {new('cast-moisture')} %"):
        assert words in texts["sheet steep-timing"], words
    for words in (
        f"over {new('fill-minutes')} min",
        f"over {new('drain-minutes')} min",
        f"over {new('steep-water-temp')} °C",
        f"the stop is over {new('water-sensitivity')} points",
    ):
        assert words in texts["sheet steep-plan"], words
    for name in ("moisture-target", "sample-basket"):
        assert f"over {new('cast-moisture')} %" in texts[f"sheet {name}"], name
    assert f"over {new('germination-moisture')} %" in texts["sheet days-to-ready"]
    assert f"Over {new('germination-moisture')} %" in texts["sheet sprinkling"]
    assert f"the stop is over {new('steep-water-temp')} °C" in texts["sheet mixing-waters"]
    for words in (f"over {new('kiln-moisture')} %", f"under {new('kiln-moisture', 'stop_low')} %"):
        assert words in texts["sheet kiln-water"], words
    assert f"{new('water-sensitivity')} points or more" in texts["sheet germination-test"]
