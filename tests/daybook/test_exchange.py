"""Out and in: nothing lost, nothing doubled, clear words."""

from __future__ import annotations

import csv
import io
import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.daybook.lines import exchange, schema
from calculators.daybook.lines.cells import undone
from calculators.daybook.lines.entry import in_order, plain
from calculators.daybook.lines.kinds import KINDS, question_ids
from tests.daybook.book import Line, ask, line, steeping

ROOT = "2026-11-25T14:00"


def book() -> list[Line]:
    return [
        *steeping(),
        line("basket", "2026-11-24T12:00", gross_g="168,5 g", remark="=cmd|' /C calc'!A0", who="-5"),
        line(
            "readiness",
            "2026-11-24T12:30",
            counts=[["1"], ["3"], ["9"], ["84"], ["3"]],
            remark="two\nlines; \"quoted\", 'so'",
        ),
        line("readiness", "2026-11-24T12:40", counts=[["1"], [""], ["9"], ["84"], ["3"]]),
        line("remark", "2026-11-24T12:50", remark="'=1+1", batch="b2"),
        line("bed", "2026-11-24T13:00", bottom_c="5,000", top_c="15", room_c="-3"),
    ]


def taken(entries, text):
    return exchange.take(text, in_order(entries))


@pytest.mark.parametrize("form", ["json", "csv"])
def test_the_same_export_twice_adds_nothing(form):
    entries = book()
    out = ask("export", entries, **{"as": form})
    assert out["name"] == f"day-book-2026-11-24.{form}"
    once = ask("import", [], text=out["text"], name=out["name"])
    stored = [{**entry, "seq": n} for n, entry in enumerate(once["new"], 1)]
    twice = ask("import", stored, text=out["text"], name=out["name"])
    assert twice["new"] == [] and twice["same"] == len(stored)
    # What came by JSON and what came by CSV are the same lines.
    other = ask("export", entries, **{"as": "csv" if form == "json" else "json"})
    again = ask("import", stored, text=other["text"], name=other["name"])
    assert again["same"] == min(len(stored), 5)


def test_json_is_a_backup_without_loss():
    entries = book()
    back = ask("import", [], text=ask("export", entries, **{"as": "json"})["text"], name="x.json")
    assert back["new"] == [plain(entry) for entry in in_order(entries)]
    assert back["refused"] == 0 and "to be put right: 1 line." in back["report"]


@pytest.mark.parametrize("form", ["json", "csv"])
def test_a_remark_that_says_nothing_comes_back_too(form):
    out = ask("export", [line("remark", "2026-11-24T12:50")], **{"as": form})
    back = ask("import", [], text=out["text"], name=out["name"])
    assert len(back["new"]) == 1 and back["refused"] == 0


def test_csv_asks_back_what_can_be_read_in_two_ways():
    back = ask("import", [], text=ask("export", book(), **{"as": "csv"})["text"], name="x.csv")
    assert back["refused"] == 2 and len(back["new"]) == 5
    assert "two ways" in back["report"] and "5000 or 5" in back["report"]
    values = {entry["id"]: entry for entry in back["new"]}
    for entry in in_order(book()[:4]):
        assert plain(entry)["who"] in {e["who"] for e in values.values()}
    assert {e["remark"] for e in values.values()} >= {"=cmd|' /C calc'!A0", "'=1+1", "two\nlines; \"quoted\", 'so'"}


def test_no_cell_is_a_formula_for_a_spreadsheet():
    text = ask("export", book(), **{"as": "csv"})["text"]
    rows = list(csv.reader(io.StringIO(text.lstrip("\ufeff"))))
    assert rows[0] == list(exchange.columns()) and len(rows) == 8
    for row in rows[1:]:
        for cell in row:
            assert not cell.startswith(("=", "@", "+", "\t")) and (cell[:1] != "-" or re.fullmatch(r"-[\d.,]+", cell))


def test_semicolons_and_decimal_commas_as_in_german_spreadsheets():
    text = (
        "batch;kind;at;gross_g;bottom_c;top_c\r\n"
        "b7;basket;2026-03-01 08:00;212,5;;\r\n"
        "b7;bed;2026-03-03T08:00;;16,5;15,2\r\n"
        "b7;basket;2026-03-01 09:00;5,000;;\r\n"
    )
    got = taken([], text)
    assert [entry.values for entry in got.new] == [{"gross_g": "212,5"}, {"bottom_c": "16,5", "top_c": "15,2"}]
    assert [one.row for one in got.refused] == [4] and "two ways" in got.refused[0].why
    assert got.new[0].at == "2026-03-01T08:00"
    # Rows of a hand-made table have no ids: they get the same ones each time.
    again = exchange.take(text, got.new)
    assert again.new == [] and again.same == 2


def test_a_newer_file_is_refused_whole():
    out = json.loads(ask("export", book(), **{"as": "json"})["text"])
    newer = ask("import", [], text=json.dumps({**out, "schema": 2}), name="new.json")
    assert newer["new"] == [] and "version 2" in newer["report"] and "Nothing was taken" in newer["report"]
    rows = ask("export", book(), **{"as": "csv"})["text"].replace("\r\n1,", "\r\n2,")
    assert "version 2" in ask("import", [], text=rows, name="new.csv")["report"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "empty"),
        ("{", "cut off"),
        ('{"schema": 1, "entries": []}', "no day-book"),
        ("[1]", "no day-book"),
        ("a,b\n1,2\n", "no day-book: its first row names none of the columns batch, kind, at"),
        ("a,batch\n1,2\n", "Missing: kind, at"),
        ("batch,kind,at,beer\n1,remark,2026-01-01T00:00,x\n", "column beer"),
        ("batch,kind,at,at\n", "stands twice"),
        ("[" * 100_000, "100000 deep"),
    ],
)
def test_what_is_no_file_of_ours_is_refused_with_a_reason(text, words):
    assert words in ask("import", book(), text=text, name="x")["report"]


def test_the_same_id_with_other_words_leaves_the_book_as_it_is():
    entries = book()
    changed = [{**entry} for entry in entries]
    changed[2] = {**changed[2], "values": {"gross_g": "999"}}
    out = ask("import", entries, text=ask("export", changed, **{"as": "json"})["text"], name="x.json")
    assert out["new"] == [] and out["same"] == len(entries) - 1 and "other words" in out["report"]


def test_rows_that_cannot_be_entries_are_named_one_by_one():
    good = plain(in_order(book())[0])
    odd = [
        1,
        {**good, "id": ""},
        {**good, "id": "x" * 90},
        {**good, "id": "b", "batch": " "},
        {**good, "id": "c", "kind": "brewed"},
        {**good, "id": "d", "at": "then", "written": "later"},
        {**good, "id": "e", "schema": 2},
        {**good, "id": "f", "remark": "x" * 2001},
        {**good, "id": "g", "zone": 9000},
        good,
        good,
    ]
    text = json.dumps({"schema": 1, "kind": exchange.FILE_KIND, "version": "x", "saved": "", "entries": odd})
    got = taken([], text)
    assert [one.row for one in got.refused] == list(range(1, 10))
    assert [entry.id for entry in got.new] == [good["id"]] and got.same == 1


_TEXT = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00\r"), max_size=30)


@settings(max_examples=60, deadline=None)
@given(who=_TEXT.map(lambda t: t.strip()[:40]), remark=_TEXT.map(str.strip), meter=_TEXT.map(str.strip))
def test_any_text_survives_the_csv_file(who, remark, meter):
    entry = in_order([line("gas", "2026-11-24T12:00", who=who, remark=remark, gas_meter=meter)])
    rows = list(csv.DictReader(io.StringIO(exchange.as_csv(entry).lstrip("\ufeff"), newline="")))
    cells = {name: undone(cell) for name, cell in rows[0].items()}
    assert (cells["who"], cells["remark"], cells["gas_meter"]) == (who, remark, meter)


def test_every_column_is_documented_once():
    rows = schema.column_rows()
    assert tuple(row[0] for row in rows) == exchange.columns()
    assert all(label and limits and kinds for _, label, limits, kinds in rows)
    assert len(schema.kind_lines()) == len(KINDS) + 3


def test_the_lines_of_a_file_come_as_one_text_where_a_page_hands_them_on():
    """What is in it, and what is not, is the same; a page that only passes lines on is spared reading them."""
    lines = [line("turned", f"2026-02-0{day}T08:00", id=f"line-{day:06d}") for day in range(1, 6)]
    there = [{**one, "seq": n} for n, one in enumerate(lines[:2])]
    asked = {"text": exchange.export(in_order(lines), "json", "2026-02-10T08:00")[0], "name": "a file"}
    plainly, apart = ask("import", there, **asked), ask("import", there, **asked, apart=True)
    assert json.loads(apart.pop("lines")) == plainly["new"]
    ids = [one["id"] for one in plainly.pop("new")]
    assert apart.pop("ids") == ids == ["line-000003", "line-000004", "line-000005"]
    assert apart == plainly and apart["same"] == 2


def test_the_published_schema_is_up_to_date():
    from pathlib import Path

    path = Path(__file__).parents[2] / "docs" / "assets" / schema.FILE_NAME
    assert path.read_text(encoding="utf-8") == schema.schema_text(), "run: python -m bench.day_book_files"


def test_the_schema_names_what_the_export_holds():
    entry = schema.json_schema()["properties"]["entries"]["items"]
    made = plain(in_order(book())[0])
    assert set(made) == set(entry["properties"]) and set(entry["required"]) == set(made) - {"replaces"}
    named = {name for rule in entry["allOf"] for name in rule["then"]["properties"]["values"]["properties"]}
    assert named == set(question_ids())


def test_ten_thousand_lines_come_and_go():
    entries = [{**line("water", "2026-11-24T12:00", water_temp_c="14"), "batch": f"b{n % 50}"} for n in range(10_000)]
    text = exchange.as_json(in_order(entries), ROOT)
    assert len(exchange.take(text, []).new) == 10_000
    assert exchange.take(text, in_order(entries)).same == 10_000
