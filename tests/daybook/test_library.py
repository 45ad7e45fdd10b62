"""The record as a library and on the command line."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from bench.day_book_files import ASSETS, DEMO_NAME
from calculators.cli import main
from calculators.daybook import load
from calculators.daybook.lines.exchange import Unreadable, as_csv
from tests.daybook.book import steeping

DEMO = ASSETS / DEMO_NAME


def test_a_book_is_read_from_json_and_from_csv_alike(tmp_path):
    book = load(DEMO)
    table = tmp_path / "book.csv"
    table.write_text(as_csv(book.entries), encoding="utf-8")
    both = load(DEMO, table)
    assert len(both.entries) == len(book.entries) and both.refused == []
    alone = load(table)
    assert [b.id for b in alone.batches] == [b.id for b in book.batches]
    for one, other in zip(book.batches, alone.batches, strict=True):
        assert one.readings and [r.moisture for r in one.readings] == [r.moisture for r in other.readings]


def test_the_tables_as_arrays():
    arrays = load(DEMO).arrays()
    for table in arrays.values():
        assert len({len(column) for column in table.values()}) == 1
    steep, stages = arrays["steep"], arrays["stages"]
    first = steep["moisture"][steep["batch"] == "example-01"]
    assert len(first) == 4 and np.all(np.diff(first) > -1)
    assert arrays["batches"]["batch"].tolist() == [f"example-{n:02d}" for n in range(1, 13)]
    assert np.all(stages["ends"] > stages["begins"]) and not np.isnan(stages["temp_c"][stages["wet"]]).any()
    assert np.all(arrays["counts"]["corns"].sum(axis=1) == 100)
    water, wet = arrays["batches"]["water_c"], arrays["batches"]["wet_h"]
    assert np.corrcoef(water, wet)[0, 1] < -0.7  # the colder the longer


def test_an_empty_book_has_empty_tables(tmp_path):
    path = tmp_path / "empty.csv"
    path.write_text("batch,kind,at\n", encoding="utf-8")
    arrays = load(path).arrays()
    assert all(len(column) == 0 for table in arrays.values() for column in table.values())
    assert arrays["counts"]["corns"].shape == (0, 5)


def test_importing_the_package_or_a_sheets_page_brings_no_records_along():
    code = (
        "import sys, calculators.daybook, calculators.page; "
        "assert not [m for m in sys.modules if m.startswith('calculators.daybook.') or m == 'numpy'], sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=Path(__file__).parents[2])


def test_fit_on_the_command_line(capsys):
    assert main(["fit", str(DEMO)]) == 0
    said = capsys.readouterr()
    assert said.err == "" and "example-12\tlot 1\t2026\t" in said.out and "Heat of the floor" in said.out
    assert main(["fit", "--json", str(DEMO)]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["schema"] == 1 and len(data["batches"]) == 12 and len(data["lots"]) == 3
    assert data["lots"][0]["low"] < data["lots"][0]["rate_factor"] < data["lots"][0]["high"]


@pytest.mark.parametrize("words", [["fit"], ["fit", "nowhere.json"], ["fit", "--jsn", str(DEMO)]])
@pytest.mark.parametrize("as_data", [False, True])
def test_a_wrong_call_says_one_line_and_gives_two(words, as_data, capsys):
    assert main([*words, *(["--json"] if as_data else [])]) == 2
    said = capsys.readouterr()
    assert said.out == "" and len(said.err.splitlines()) == 1
    assert not as_data or json.loads(said.err)["question"] == "file"


def test_a_newer_or_foreign_file_is_refused(tmp_path, capsys):
    path = tmp_path / "newer.json"
    path.write_text(DEMO.read_text(encoding="utf-8").replace('"schema": 1', '"schema": 2', 1), encoding="utf-8")
    assert main(["fit", str(path)]) == 2 and "version 2" in capsys.readouterr().err
    with pytest.raises(Unreadable, match="version 2"):
        load(path)
    path.write_bytes(b"\xff\xfe\x00")
    assert main(["fit", str(path)]) == 2


def test_refused_rows_are_named_and_do_not_stop_the_rest(tmp_path, capsys):
    text = DEMO.read_text(encoding="utf-8")
    data = json.loads(text)
    data["entries"].append({**data["entries"][0], "id": "odd", "kind": "brewed"})
    path = tmp_path / "book.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    assert main(["fit", str(path)]) == 0
    said = capsys.readouterr()
    assert "brewed" in said.err and len(said.err.splitlines()) == 1 and "example-12" in said.out


def test_nothing_to_fit_is_three(tmp_path, capsys):
    data = {"schema": 1, "kind": "steep-to-kiln day-book", "version": "", "saved": "", "entries": steeping()}
    path = tmp_path / "book.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    assert main(["fit", str(path)]) == 3 and "nothing to fit" in capsys.readouterr().err
