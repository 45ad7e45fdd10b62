"""Sums kept beside the lines say what the lines say, and a page draws what is seen."""

from __future__ import annotations

import json
import re

import pytest

from bench.day_book_files import ASSETS, DEMO_NAME
from calculators.daybook.house import house
from calculators.daybook.house.summary import against, summaries
from calculators.daybook.house.sums import Brief, fitted, grown, heated, sum_of, summed
from calculators.daybook.lines.entry import in_order
from tests.daybook.book import Line, ask, line, steeping

YEAR: list[Line] = [
    {**one, "seq": n}
    for n, one in enumerate(json.loads((ASSETS / DEMO_NAME).read_text(encoding="utf-8"))["entries"], 1)
]


@pytest.fixture(scope="module")
def deep() -> list[Line]:
    """The sums of the invented year, through JSON as the page keeps them."""
    made: list[Line] = json.loads(json.dumps(ask("sums", YEAR, deep=True)["sums"]))
    return made


def test_sums_say_what_the_lines_say(deep: list[Line]) -> None:
    book = house.book_of(YEAR)
    assert [one["id"] for one in deep] == list(book)
    for data, (name, entries) in zip(deep, book.items(), strict=True):
        batch, brief = house.kept_batch(name, entries), Brief(data)
        assert (data["lines"], data["last"]) == (len(entries), entries[-1].id)
        for told in ("id", "begun", "first_local", "last_utc", "vessel", "finished"):
            assert getattr(brief, told) == getattr(batch, told), told
        assert brief.number("target_moisture") == batch.number("target_moisture")
        own = fitted(batch)
        assert summed(brief, own)._replace(batch=batch) == summed(batch, own)
        for one in (fitted, heated, grown):
            told_by = [result and result._replace(batch=batch) for result in (one(batch), one(brief))]
            assert told_by[0] == told_by[1], one.__name__


@pytest.mark.parametrize("do", ["look-back", "fits"])
def test_looking_back_needs_no_lines(do: str, deep: list[Line]) -> None:
    assert ask(do, YEAR, batch="example-09") == {
        **ask(do, [], batch="example-09", sums=deep),
        **({"wanted": []} if do == "look-back" else {}),
    }
    last = [one for one in YEAR if one["batch"] == "example-12"]
    mixed = ask(do, last, batch="example-09", sums=[one for one in deep if one["id"] != "example-12"])
    assert mixed["places"] == ask(do, YEAR, batch="example-09")["places"]


def test_looking_back_names_what_it_wants() -> None:
    quick = ask("sums", YEAR)["sums"]
    assert all(one["deep"] is None for one in quick)
    reply = ask("look-back", [], sums=quick)
    assert sorted(reply["wanted"]) == sorted(one["id"] for one in quick)
    assert "Batches side by side" in reply["places"]["table"]


def test_a_batch_is_told_by_kept_fits_as_by_lines(deep: list[Line], monkeypatch: pytest.MonkeyPatch) -> None:
    without = ask("batch", YEAR, batch="example-12")
    house._heats.clear()
    house._courses.clear()
    house._told.clear()

    def must_not(*_: object) -> None:
        raise AssertionError("it was worked out again")

    monkeypatch.setattr(house, "heat_of", must_not)
    monkeypatch.setattr(house, "fit_of", must_not)
    assert ask("batch", YEAR, batch="example-12", sums=deep)["places"] == without["places"]
    house._told.clear()


def test_sums_of_other_lines_are_not_believed(deep: list[Line]) -> None:
    house._told.clear()
    house.take_kept([{**deep[0], "last": "another-line"}])
    assert not house._told.get(house._key(deep[0]["id"], in_order(YEAR)[: deep[0]["lines"]]))
    house._told.clear()


def test_a_thousand_batches_are_held_against_the_ten_before() -> None:
    """The figures of the last ten, however many lie before; the time does not grow with their square."""
    sums = ask("sums", YEAR)["sums"]
    many = [
        Brief({**sums[n % 12], "id": f"b{n}", "begun": f"2026-01-01T{n // 60:02d}:{n % 60:02d}:00"}) for n in range(400)
    ]
    rows = summaries(many, fitted, 40, summed)
    whole = [against(one, rows[:n]) for n, one in enumerate(rows)]
    assert whole[-1] == against(rows[-1], rows[-40:-1]) and all(one.others <= 10 for found in whole for one in found)


def test_long_tables_show_the_last_ones_and_say_how_many_there_are() -> None:
    book = [*steeping(), *(line("remark", "2026-11-24T08:00", remark=f"r{n}") for n in range(998))]
    places = ask("batch", book, batch="b1")["places"]
    assert len(re.findall("data-entry=", places["lines"])) == 60 and "the last 60 of 1000" in places["lines"]
    assert "r997" in places["lines"] and "r900<" not in places["lines"]
    assert 'data-action="more-lines"' in places["lines"]
    assert "print" not in places and sum(map(len, places.values())) < 60_000
    more = ask("batch", book, batch="b1", most=300)["places"]["lines"]
    assert len(re.findall("data-entry=", more)) == 300
    printed = ask("batch", book, batch="b1", print=True)["places"]["print"]
    assert len(re.findall("data-entry=", printed)) == 1000


def test_the_shelf_shows_batches_by_lines_and_by_sums() -> None:
    sums = {one["id"]: one for one in ask("sums", YEAR)["sums"]}
    last = [one for one in YEAR if one["batch"] == "example-12"]
    older = [{"id": name, "shelf": one["shelf"]} for name, one in reversed(sums.items()) if name != "example-12"]
    whole = ask("book", YEAR)["places"]["batches"]
    assert ask("book", last, sums=older)["places"]["batches"] == whole
    assert "Show more batches (5 older)" in ask("book", last, sums=older, more=5)["places"]["batches"]


def test_a_batch_that_breaks_the_calculator_hides_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    from calculators.daybook.pages.view import shelf_cells as cells

    def breaks(batch: object) -> object:
        if getattr(batch, "id", "") == "example-05":
            raise RuntimeError("nobody foresaw this")
        return cells(batch)  # type: ignore[arg-type]

    monkeypatch.setattr("calculators.daybook.page.shelf_cells", breaks)
    shelf = ask("book", YEAR)["places"]["batches"]
    assert "example-04" in shelf and "could not be read" in shelf and "nobody foresaw this" in shelf
    assert "example-05: 4" in shelf or "example-05: 5" in shelf


def test_sum_of_a_batch_without_water() -> None:
    data = sum_of(house.kept_batch("x", in_order([line("remark", "2026-11-24T08:00", batch="x", remark="r")])))
    assert Brief(data).begun is None and data["days"] is None
