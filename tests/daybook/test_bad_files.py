"""Files that would do harm: what is odd is named and set aside, and the rest is taken."""

from __future__ import annotations

import csv
import io
import json
import re
import unicodedata
from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.daybook import load
from calculators.daybook.lines import exchange
from calculators.daybook.lines.cells import defused, undone
from calculators.daybook.lines.entry import in_order, plain
from tests.daybook.book import Line, ask, line, steeping


def as_file(entries: Sequence[object], schema: str = "1") -> str:
    body = json.dumps(entries)
    return f'{{"schema": {schema}, "kind": "{exchange.FILE_KIND}", "version": "x", "saved": "", "entries": {body}}}'


@pytest.mark.parametrize(
    "text",
    [
        "[" * 5000,
        '{"a":' * 5000,
        as_file([]).replace("[]", "[" * 3000 + "]" * 3000),
        '{"schema": 1, "entries": ' + "[" * 21,
    ],
)
def test_deep_lists_are_counted_before_they_are_read(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def must_not(*_: object, **__: object) -> None:
        raise AssertionError("it was given to the parser")

    monkeypatch.setattr("json.loads", must_not)
    with pytest.raises(exchange.Unreadable, match=r"deep in one another, and 20 at most are read\. Nothing was taken"):
        exchange.take(text, [])


def test_brackets_within_texts_are_not_counted() -> None:
    odd = "[{" * 40 + '\\" ' + "]}"
    out = ask("import", [], text=as_file([plain(in_order([line("remark", "2026-11-24T12:50", remark=odd)])[0])]))
    assert [entry["remark"] for entry in out["new"]] == [odd]


@pytest.mark.parametrize("schema", ["²", "٣٢", "-1", "0", "1.0", "x", "9" * 5000])
def test_a_table_of_an_odd_version_is_a_message(schema: str) -> None:
    text = f"schema,batch,kind,at,remark\n{schema},b1,remark,2026-01-01T00:00,x\n"
    out = ask("import", [], text=text, name="x.csv")
    assert out["new"] == [] and "no version of the day-book; write 1 in each row" in out["report"]
    assert len(out["report"]) < 400, "the message repeats what is far too long"


@pytest.mark.parametrize("schema", ["9" * 5000, '"²"', "true", "null", "1.5", "1e400"])
def test_a_file_of_an_odd_version_is_a_message(schema: str) -> None:
    out = ask("import", [], text=as_file([], schema), name="x.json")
    assert out["new"] == [] and "version" in out["report"] and len(out["report"]) < 400


def test_a_row_of_an_odd_version_is_set_aside_alone() -> None:
    good = plain(in_order(steeping())[0])
    rows = [{**good, "id": "a", "schema": "²"}, {**good, "id": "b", "schema": 10**30}, good]
    out = ask("import", [], text=as_file(rows), name="x.json")
    assert [entry["id"] for entry in out["new"]] == [good["id"]]
    assert [json.loads(one["text"])["id"] for one in out["aside"]] == ["a", "b"]
    assert all("version" in one["why"] for one in out["aside"])


def test_half_a_sign_hides_neither_shelf_nor_batch() -> None:
    half = "ab\ud83d"
    book = [*steeping(), {**line("remark", "2026-11-24T12:00", remark=f"x{half}"), "batch": half}]
    shelf = ask("book", book)["places"]["batches"]
    assert "ab�" in shelf and "b1" in shelf and "\ud83d" not in shelf
    assert "ab�" in ask("batch", book, batch="ab�")["places"]["lines"]
    for form in ("json", "csv"):
        text = ask("export", book, **{"as": form})["text"]
        text.encode()
        assert [entry["batch"] for entry in ask("import", [], text=text)["new"]][-1] == "ab�"


def test_what_is_set_aside_comes_with_its_words() -> None:
    table = "batch,kind,at,remark\nb1,brewed,2026-01-01T00:00,the words of it\nb1,remark,2026-01-01T00:00,good\n"
    out = ask("import", [], text=table, name="x.csv", first=400)
    assert len(out["new"]) == 1 and out["refused"] == 1
    (aside,) = out["aside"]
    assert aside["row"] == 402 and "the words of it" in aside["text"] and "brewed" in aside["why"]


_SIGN = "=+-@＝＋－＠"
_PARTS = [*_SIGN, "'", '"', " ", "\n", "\t", "\u200b", "\ufeff", "\u2060", "\xa0", ",", ";", "|", "5", "x", "=1", "-5"]
_ODD = st.lists(st.sampled_from(_PARTS), max_size=9).map("".join)


_ONE = r"\s*\d[\d., ]*\s?x{0,8}\s*"
_NUMBERS = re.compile(rf"{_ONE}(?:[,;|\t\r\n]+(?:[-+]?{_ONE})?)*")  # a row of numbers, with their units


def formula(cell: str) -> bool:
    """Whether a spreadsheet could work the cell out: an independent reading, letter by letter."""
    for number, letter in enumerate(cell):
        unseen = unicodedata.category(letter) in ("Cc", "Cf", "Zs", "Zl", "Zp") or letter in '"'
        if not unseen:
            begins = unicodedata.normalize("NFKC", letter) in tuple("=+-@")
            return begins and not _NUMBERS.fullmatch(cell[number + 1 :])
    return False


@settings(max_examples=400)
@given(_ODD)
def test_no_part_of_a_cell_is_a_formula_and_the_text_comes_back(text: str) -> None:
    cell = defused(text)
    assert undone(cell) == text
    for mark in (",", ";", "\t", "|", "\n", "\r"):
        assert not [part for part in cell.split(mark) if formula(part)], (text, cell, mark)


@pytest.mark.parametrize(
    "text",
    ["\n=1+1", " =1+1", "\u200b=1+1", "\ufeff@x", "＝1+1", "＋1+x", "－x", "＠x", "a;=1+1", "a\t@x", 'a;"=1"'],
)
def test_formulas_behind_what_is_not_seen(text: str) -> None:
    assert defused(text) != text
    assert undone(defused(text)) == text


def test_numbers_stay_numbers() -> None:
    for text in ("-3", "-12,5", "+4 %", "168,5 g", "8 14; 16 13; 8 14", "1; 3; 9; 84; 3"):
        assert defused(text) == text


def test_the_table_of_an_earlier_edition_is_read_as_it_was_written() -> None:
    remarks = ["=1+1", "'=1+1", "'quoted'", "@home", "\ttabbed", "plain"]
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(["batch", "kind", "at", "remark"])
    for number, remark in enumerate(remarks):
        guarded = f"'{remark}" if remark.startswith(("=", "+", "-", "@", "\t", "\r", "'")) else remark
        writer.writerow(["b1", "remark", f"2026-01-01T00:{number:02d}", guarded])
    taken = ask("import", [], text=out.getvalue())["new"]
    assert [entry["remark"] for entry in taken] == remarks


def test_a_library_does_not_guess_at_letters(tmp_path: Path) -> None:
    table = tmp_path / "table.csv"
    table.write_bytes("batch,kind,at,remark\nb1,remark,2026-01-01T00:00,Grünmalz\n".encode("cp1252"))
    with pytest.raises(exchange.Unreadable, match="not written in UTF-8"):
        load(table)


def test_a_long_table_comes_in_parts(tmp_path: Path) -> None:
    book: list[Line] = [line("remark", f"2026-11-24T12:{n:02d}", remark=f"r{n}") for n in range(20)]
    whole = ask("export", book, **{"as": "csv"})["text"]
    first = ask("export", book[:7], **{"as": "csv"})["text"]
    assert first + ask("export", book[7:], **{"as": "csv", "part": True})["text"] == whole
