"""A house's file moves edges of the book's limits, within bounds, and every slip is named with its line."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from calculators.asking.figures import plain_number
from calculators.rules.limit import Limit
from calculators.rules.limits import PAGES, of_page
from site_src.house import read
from site_src.settings import ROOT, BuildError

RIGHT = """
[limits.immersion-hours]
stop_high = 10
reason = "thin husks"
office = "head of malting"
"""


def but(old: str, new: str) -> str:
    return RIGHT.replace(old, new)


def written(tmp_path: Path, text: str) -> Path:
    file = tmp_path / "house.toml"
    file.write_text(text, "utf-8")
    return file


def test_edges_are_read(tmp_path: Path):
    assert read(written(tmp_path, RIGHT)) == {"immersion-hours": {"stop_high": 10.0}}


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("name = 1", "house.toml, line 1: “name” is not known"),
        (but("immersion-hours", "imersion-hours"), "line 2: there is no limit “imersion-hours”. Did you mean: "),
        (but("stop_high = 10", "stop_high = 25"), "line 3: One immersion: stop_high can be moved from 1 to 24 h, not"),
        (but("stop_high = 10", "stop_high = 7"), "the edges cross: accept_high 8, stop_high 7"),
        (but("stop_high = 10", "stop_low = 2"), "has no stop_low. Its edges: accept_high 8, stop_high 12"),
        (but("10", '"10"'), "line 3: stop_high is a number, such as stop_high = 10, not '10'"),
        (but("10", "nan"), "stop_high is a number"),
        (but("10", "true"), "stop_high is a number"),
        (but('office = "head of malting"', ""), "line 2: One immersion: write office"),
        (but("thin husks", "a\\nb"), "reason is one line of text"),
        (but("stop_high", "highest"), "line 3: “highest” is not known. Known are: stop_low"),
        ("[limits.steep-smell]\nstop_high = 1\n", "Smell has no edges in numbers"),
        ("[limits\n", "house.toml: "),
        ("limits = 3", "limits is a table"),
    ],
)  # fmt: skip
def test_every_slip_is_named(tmp_path: Path, text: str, says: str):
    with pytest.raises(BuildError) as caught:
        read(written(tmp_path, text))
    assert says in str(caught.value)


def test_what_is_not_utf8_is_said(tmp_path: Path):
    file = tmp_path / "house.toml"
    file.write_bytes("[limits]\n# Mälzerei".encode("latin-1"))
    with pytest.raises(BuildError, match="not written in UTF-8"):
        read(file)


def test_the_pages_table_shows_the_house_and_the_book(tmp_path: Path):
    """In a Python of its own, since limits are read once."""
    code = (
        "import sys, types; held = types.ModuleType('calculators.house_limits');"
        "held.EDGES = {'immersion-hours': {'stop_high': 10.0}}; held.MALTS = held.REASONS = {}; "
        "sys.modules['calculators.house_limits'] = held;"
        "from site_src.limits_table import limit_lines; print('\\n'.join(limit_lines('steeping')))"
    )
    said = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True, cwd=ROOT).stdout
    line = next(line for line in said.splitlines() if "One immersion" in line)
    assert "this house: 8–10 h, with air all through; the book: 8–12 h, with air all through" in line
    assert "this house: over 10 h" in line and "the book: over 12 h" in line


NONE_TO_MOVE = {"hand-over"}  # how old a look may be is no quantity of the grain


def moved_edge(page: str) -> tuple[Limit, str, float]:
    """An edge of a procedure's own that a house may move outward, and where to."""
    for row in of_page(page):
        if not isinstance(row, Limit) or row.page != page or row.safety or row.lowest is None or row.highest is None:
            continue
        if row.stop_high is not None and row.highest > row.stop_high:
            return row, "stop_high", round((row.stop_high + row.highest) / 2, 3)
        if row.stop_low is not None and row.lowest < row.stop_low:
            return row, "stop_low", round((row.stop_low + row.lowest) / 2, 3)
    raise AssertionError(f"no edge of {page} can be moved")


def test_the_page_of_each_procedure_shows_a_moved_edge_beside_the_books(tmp_path: Path):
    """One edge of each procedure in one file, read and checked as the build does, drawn in a Python of its own."""
    moves = {page: moved_edge(page) for page in (name.replace("_", "-") for name in PAGES) if page not in NONE_TO_MOVE}
    tables = [
        f'[limits.{row.id}]\n{edge} = {value}\nreason = "our grain"\noffice = "head of malting"\n'
        for row, edge, value in moves.values()
    ]
    edges = read(written(tmp_path, "\n".join(tables)))
    assert edges == {row.id: {edge: value} for row, edge, value in moves.values()}
    assert len(edges) == len(PAGES) - len(NONE_TO_MOVE)
    run = subprocess.run(
        [sys.executable, "-m", "tests.rules.moved"],
        input=json.dumps({"edges": edges, "house": True}), capture_output=True, text=True, cwd=ROOT,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    pages: dict[str, str] = json.loads(run.stdout)
    for page, (row, edge, value) in moves.items():
        (line,) = (one for one in pages[page].splitlines() if one.startswith(f"| {row.quantity} |"))
        house, book = (re.findall(rf"{who}: ([^;|]*)", line) for who in ("this house", "the book"))
        assert any(plain_number(value) in one for one in house), (page, line)
        assert any(plain_number(getattr(row, edge)) in one for one in book), (page, line)
        assert len(house) == len(book) > 0
