"""Every edge that a house can move is moved: wherever its figure is named, the book's own stands beside it."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from calculators.asking.figures import plain_number
from calculators.rules.limit import Limit
from calculators.rules.limits import every
from site_src.settings import ROOT
from tests.rules.test_edges_move import MOVES

pytestmark = pytest.mark.further

_NUMBER = re.compile(r"(?<![\w.,])\d+(?:\.\d+)?(?![\d])")
ROWS = {row.id: row for row in every() if isinstance(row, Limit)}

ALONE = {
    "a bare figure: a default that stands in a box, to be typed over": re.compile(r"^-?[\d.]+$"),
    "hours of a rest that were reckoned": re.compile(r"after [\d.]+ h of rest"),
    "a water that was found by trying": re.compile(r"Water at [\d.]+ °C, by \[\[sheet:mixing-waters"),
}
"""Why a figure may stand without the book's. A working may too: its figures are those that were reckoned with."""
_BARE, *_RECKONED = ALONE.values()


def moves() -> dict[str, dict[str, float]]:
    """A new value for each edge, each its own, with more decimals than any text works out."""
    return {name: {edge: round(value + 0.00013, 6) for edge, value in row.items()} for name, row in MOVES.items()}


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    asked = json.dumps({"edges": moves(), "house": "all"})
    command = [sys.executable, "-m", "tests.rules.moved"]
    run = subprocess.run(command, input=asked, capture_output=True, text=True, cwd=ROOT, check=False)
    assert run.returncode == 0, run.stderr
    found: dict[str, str] = json.loads(run.stdout)
    return found


def has_the_book(line: str, start: int, end: int) -> bool:
    """Whether the book’s own stands beside a figure: behind it in its sentence, or in its cell of a table."""
    behind = line[end : end + 80]
    sentence = re.split(r"(?<=[a-z)%°])\. |\|", behind)[0]
    cell = line[:start].rsplit("|", 1)[-1]
    return "the book: " in sentence or "this house: " in cell or "; the book: " in cell


def lonely(texts: dict[str, str]) -> list[tuple[str, str]]:
    """Where the house’s figure of an edge is named and the book’s is not."""
    new = {plain_number(value) for row in moves().values() for value in row.values()}
    found = []
    for name, text in texts.items():
        if name.startswith("working "):
            continue
        for line in text.splitlines():
            if _BARE.match(line) or any(one.search(line) for one in _RECKONED):
                continue
            for figure in _NUMBER.finditer(line):
                if figure[0] in new and not has_the_book(line, *figure.span()):
                    found.append((name, line[max(0, figure.start() - 60) : figure.end() + 40]))
    return found


def test_the_book_s_figure_stands_beside_each_that_a_house_has_moved(texts: dict[str, str]):
    assert lonely(texts) == []


def test_each_edge_that_shows_shows_both(texts: dict[str, str]):
    """Not for want of figures: most moved edges are named somewhere with the book’s beside them."""
    everything = "\n".join(texts.values())
    both = {
        (name, edge)
        for name, row in moves().items()
        for edge, value in row.items()
        if f"{plain_number(value)}" in everything
    }
    assert len(both) > 150 and everything.count("the book: ") > 400
    old = plain_number(ROWS["immersion-hours"].stop_high or 0)
    new = plain_number(moves()["immersion-hours"]["stop_high"])
    for name in ("sheet steep-timing", "sheet cast-decision", "day-book"):
        assert f"over {new} h (this house; the book: {old} h)" in texts[name], name


def test_a_limit_that_stands_on_another_says_the_book_s_own_too(tmp_path: Path):
    """A house moves the bottom of a piece; the summer's stop follows it, and the book's own is still shown."""
    code = (
        "import sys, types; held = types.ModuleType('calculators.house_limits');"
        "held.EDGES = {'floor-bottom': {'accept_high': 19.0}, 'cast-off-target': {'accept_high': 2.0},"
        "'floor-depth': {'accept_low': 9.0}}; held.MALTS = held.REASONS = {};"
        "sys.modules['calculators.house_limits'] = held;"
        "from site_src.limits_table import limit_lines; from site_src.house.box import limit_lines as box;"
        "print('\\n'.join([*limit_lines('floor-germination'), *limit_lines('casting'), *box('procedures/casting'),"
        "*box('procedures/floor-germination')]))"
    )
    said = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True, cwd=ROOT).stdout
    summer = next(line for line in said.splitlines() if "windows open all night" in line and line.startswith("|"))
    assert "Bottom at 9 cm" in summer and "the book: Bottom at 8 cm" in summer
    assert "this house: over 19 °C; the book: over 20 °C" in summer
    cast = next(line for line in said.splitlines() if line.startswith("| Moisture at the cast, drained"))
    assert "this house: 43–47 %, within 2 points of the target; the book: 43–47 %, within 1 point of the" in cast
    assert "It follows another limit of this house" in said.replace("&#46;", ".")
    assert "drained, ." not in said


