"""A book shared by several devices: whatever goes wrong, in whatever order, no line is lost and all books end alike."""

from __future__ import annotations

import json
import random
import subprocess
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.daybook.lines.entry import Entry, in_order
from calculators.daybook.lines.exchange import as_json, take
from site_src.node_run import node
from site_src.settings import ROOT
from tests.drawn import drawn as so_many

SCRIPTS = ROOT / "site_src" / "theme" / "assets" / "browser"
FAULTS = ("password", "offline", "lost", "full", "closed", "cut", "no answer", "no calculator")
RUNS = 400


def ended(runs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    request = json.dumps({"runs": runs, "scripts": str(SCRIPTS)})
    with NamedTemporaryFile("w", suffix=".json") as asked:
        asked.write(request)
        asked.flush()
        command = [str(node()), str(Path(__file__).with_name("sharing_run.mjs")), asked.name]
        done = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    ends: list[dict[str, Any]] = json.loads(done.stdout)
    return ends


def line(number: int, **more: Any) -> dict[str, Any]:
    return {
        "schema": 1,
        "id": f"line-{number:05d}-here",
        "batch": "77",
        "kind": "water",
        "at": "2026-02-01T08:00",
        "written": "2026-02-01T08:00:00.000Z",
        "zone": 0,
        "values": {"water_temp_c": "12"},
        "who": "",
        "remark": "",
        "replaces": None,
        **more,
    }


def drawn(seed: int) -> dict[str, Any]:
    """A run: two or three devices write and take turns; clocks are years off, and half of the turns meet a fault."""
    dice = random.Random(seed)
    devices = dice.choice((2, 2, 3))
    years = [dice.choice((1970, 2026, 2026, 2099)) for _ in range(devices)]
    steps: list[dict[str, Any]] = []
    for number in range(dice.randint(5, 40)):
        device = dice.randrange(devices)
        what = dice.choices(("write", "turn", "forget", "clear"), (50, 46, 3, 1))[0]
        step: dict[str, Any] = {"device": device, "what": what, "fault": ""}
        if what == "write":
            step["line"] = line(
                number + 1000 * seed, at=f"{years[device]}-02-01T08:00", remark="x" * dice.randint(0, 50)
            )
        if what == "turn":
            step["fault"] = dice.choice(FAULTS) if dice.random() < 0.5 else ""
            step["line"] = dice.choice(("alone", "together"))
        steps.append(step)
    return {"steps": steps, "devices": devices}


def by_id(book: list[dict[str, Any]]) -> dict[str, dict[str, Any]]:
    assert len({one["id"] for one in book}) == len(book), "a line stands twice"
    return {one["id"]: one for one in book}


@pytest.mark.drawn
def test_random_interleavings_lose_no_line_and_end_in_one_book() -> None:
    runs = [drawn(seed) for seed in range(so_many(RUNS))]
    met: set[str] = set()
    for seed, (asked, end) in enumerate(zip(runs, ended(runs), strict=True)):
        written = by_id([step["line"] for step in asked["steps"] if step["what"] == "write"])
        for book in end["books"]:
            assert by_id(book) == written, f"seed {seed}"
        assert all(last == {**last, "waiting": 0, "fault": ""} for last in end["waiting"]), f"seed {seed}"
        met.update(one["fault"] for one in end["told"])
    assert {"password", "network", "full", "closed", "", "Error: no calculator"} <= met


def faulty(fault: str) -> dict[str, Any]:
    steps: list[dict[str, Any]] = [{"device": 0, "what": "write", "line": line(1)}]
    steps += [{"device": 0, "what": "turn", "fault": fault, "line": "alone"}]
    return {"steps": [*steps, {"device": 1, "what": "turn", "fault": "", "line": "alone"}], "devices": 2}


@pytest.mark.parametrize("fault", ["password", "offline", "full", "closed", "cut"])
def test_what_did_not_arrive_waits_and_goes_out_later(fault: str) -> None:
    (end,) = ended([faulty(fault)])
    assert end["told"][0]["waiting"] == 1
    assert end["before"][1] == [], "half a file, or none, was read as whole"
    assert end["books"] == [[line(1)], [line(1)]]
    assert end["waiting"][0]["halves"] == (1 if fault == "cut" else 0)


def test_a_file_whose_answer_was_lost_is_there_once() -> None:
    (end,) = ended([faulty("no answer")])
    assert end["files"] == 1
    assert end["books"] == [[line(1)], [line(1)]]


def test_what_goes_out_does_not_wait_for_the_calculator() -> None:
    steps: list[dict[str, Any]] = [{"device": n, "what": "write", "line": line(n)} for n in (0, 1)]
    steps += [{"device": n, "what": "turn", "fault": "no calculator", "line": "alone"} for n in (0, 1)]
    (end,) = ended([{"steps": steps, "devices": 2}])
    assert [one["waiting"] for one in end["told"]] == [0, 0]
    assert end["before"] == [[line(0)], [line(1)]]


def test_lines_go_out_again_when_the_folder_was_emptied() -> None:
    steps: list[dict[str, Any]] = [
        {"device": 0, "what": "write", "line": line(1)},
        {"device": 0, "what": "turn", "fault": "", "line": "alone"},
        {"device": 0, "what": "clear"},
    ]
    (end,) = ended([{"steps": steps, "devices": 2}])
    assert end["books"] == [[line(1)], [line(1)]]


def test_a_long_book_goes_out_in_files_that_servers_take() -> None:
    steps: list[dict[str, Any]] = [{"device": 0, "what": "write", "line": line(n)} for n in range(1000)]
    steps.append({"device": 0, "what": "turn", "fault": "", "line": "alone"})
    (end,) = ended([{"steps": steps, "devices": 1}])
    assert end["files"] == 3


@given(st.permutations(range(6)), st.lists(st.integers(0, 5), max_size=4))
@settings(max_examples=60)
def test_files_give_the_same_book_in_whatever_order_they_are_read(order: list[int], again: list[int]) -> None:
    """The merge itself, by the rules of every file that is read in: the order and a second reading change nothing."""
    entries = in_order([line(number) for number in range(12)])
    files = [as_json(entries[number : number + 5], "2026-02-01T08:00") for number in range(0, 12, 2)]
    book: list[Entry] = []
    for number in [*order, *again]:
        found = take(files[number], book)
        assert (found.refused, found.differing) == ([], [])
        book += found.new
    assert {entry.id: entry for entry in book} == {entry.id: entry._replace(seq=0) for entry in entries}
    assert len(book) == len(entries)
