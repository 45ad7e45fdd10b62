"""What stands beside the lines: the chart, the fit, the links to sheets, the printed record."""

from __future__ import annotations

import re
from urllib.parse import parse_qsl, urlsplit

import pytest

from bench.day_book_files import ASSETS, DEMO_NAME
from calculators.asking.answer import Answered, answer
from calculators.daybook.batch.batch import Batch, batches_of
from calculators.daybook.batch.course import course_of
from calculators.daybook.batch.openings import OPENINGS
from calculators.daybook.house.days import average, days_of
from calculators.daybook.house.house import book_of, known_of
from calculators.daybook.lines.entry import plain
from calculators.daybook.lines.exchange import take
from calculators.sheets import find_sheet
from tests.daybook.book import START, Line, ask, line, steeping
from tests.safety.phrases import faults, shown


@pytest.fixture(scope="module")
def entries() -> list[Line]:
    text = (ASSETS / DEMO_NAME).read_text(encoding="utf-8")
    return [{**plain(entry), "seq": n} for n, entry in enumerate(take(text, []).new, 1)]


def until(entries: list[Line], batch: str, kind: str) -> list[Line]:
    """The book as it stood when a batch's first line of a kind had been written."""
    lines = []
    for one in entries:
        lines.append(one)
        if one["batch"] == batch and one["kind"] == kind:
            return lines
    raise AssertionError(kind)


def links(places: Line) -> dict[str, dict[str, str]]:
    found = {}
    for address in re.findall(r'href="([^"]*calculators/[^"]*)"', places["sheets"].replace("&amp;", "&")):
        parts = urlsplit(address)
        given = dict(parse_qsl(parts.query, strict_parsing=True))
        assert parts.path == f"../../calculators/{given['sheet']}/" and parts.fragment == given["sheet"]
        assert given.pop("batch").startswith("example-")
        found[given.pop("sheet")] = given
    return found


STEPS = ["start", "stage-begun", "basket", "cast", "bed", "readiness", "to-kiln"]


@pytest.mark.further(keep=4)
@pytest.mark.parametrize("kind", STEPS)
@pytest.mark.parametrize("name", ["example-06", "example-09"])
def test_every_link_opens_a_sheet_that_takes_the_numbers(entries, name, kind):
    book = until(entries, name, kind)
    reply = ask("batch", book, batch=name, date=book[-1]["at"], zone=60)
    opened = links(reply["places"])
    assert opened
    for sheet_id, given in opened.items():
        sheet = find_sheet(sheet_id)
        assert not sheet.guarded
        result = answer(sheet, given)
        wrong = [] if isinstance(result, Answered) else [p for p in result.problems if not p.missing]
        assert wrong == [], (sheet_id, given)


def test_the_links_are_those_of_the_work_in_hand(entries):
    seen = {}
    for kind in STEPS:
        book = until(entries, "example-06", kind)
        seen[kind] = set(links(ask("batch", book, batch="example-06", date=book[-1]["at"])["places"]))
    assert {"steep-plan", "steep-timing"} <= seen["start"]
    assert {"steep-fit", "sample-basket"} <= seen["basket"]
    assert {"floor-round", "days-to-ready"} <= seen["bed"] and "steep-fit" in seen["bed"]
    assert {"kiln-water", "malting-loss"} <= seen["to-kiln"]
    assert not {"gas-build-up", "dilution-estimate", "exposure", "lifting-index", "shovel-pace"} & set(OPENINGS)


def test_the_steep_fit_sheet_gives_the_same_fit_as_the_book(entries):
    # Without earlier batches both begin from the typical barley.
    book = [one for one in entries if one["batch"] == "example-06"]
    batch = batches_of(book)[0]
    given = links(ask("batch", book, batch="example-06")["places"])["steep-fit"]
    result = answer(find_sheet("steep-fit"), given)
    assert isinstance(result, Answered)
    in_sheet = next(found for found in result.outcome.answers if found.id == "rate_factor")  # type: ignore[union-attr]
    baskets = Batch("example-06", [e for e in batch.entries if e.kind != "moisture"])
    course = course_of(baskets)
    assert not isinstance(course, str) and course.fitted
    assert in_sheet.value == pytest.approx(course.fitted.rate_factor, abs=0.02)


def test_a_known_lot_offers_its_rate_to_timing_and_plan(entries):
    book = until(entries, "example-06", "start")
    opened = links(ask("batch", book, batch="example-06", date=book[-1]["at"])["places"])
    assert 1.1 < float(opened["steep-timing"]["rate_factor"]) < 1.7
    assert opened["steep-plan"]["rate_factor"] == opened["steep-timing"]["rate_factor"]
    new_lot = until(entries, "example-03", "start")
    assert "rate_factor" not in links(ask("batch", new_lot, batch="example-03")["places"])["steep-timing"]


def test_the_chart_holds_forecast_fit_band_and_readings(entries):
    places = ask("batch", until(entries, "example-06", "cast"), batch="example-06")["places"]
    assert "by 3 earlier batches of its lot, without the readings" in places["course"]
    assert (
        places["course"].count('class="dot"') >= 4
        and "<title" in places["course"]
        and "band of doubt" in places["course"]
    )
    assert "3 earlier batches of the same lot" in places["fit"] and "Steep model sphere-2" in places["fit"]
    assert "air on" in ask("batch", entries, batch="example-09")["places"]["course"]


def test_what_is_known_comes_from_batches_before_never_after(entries):
    book = book_of(entries)
    first, last = (Batch(name, book[name]) for name in ("example-01", "example-09"))
    assert known_of(first, book).same == known_of(first, book).others == 0
    assert known_of(last, book).same == 4 and known_of(last, book).others == 3


def test_a_quick_answer_holds_the_lines_and_forecasts_nothing(entries):
    book = until(entries, "example-09", "cast")
    quick, full = (ask("batch", book, batch="example-09", quick=yes) for yes in (True, False))
    assert quick["glance"] and "glance" not in full
    assert quick["places"]["lines"] == full["places"]["lines"]
    assert set(quick["places"]) == {"lines", "next"} and "earlier batches" in quick["places"]["next"]
    assert "4 earlier batches" in full["places"]["fit"]


def test_a_batch_alone_in_its_book_is_answered_whole_at_once(entries):
    alone = [line for line in until(entries, "example-09", "cast") if line["batch"] == "example-09"]
    quick, full = (ask("batch", alone, batch="example-09", quick=yes) for yes in (True, False))
    assert quick == full


def test_the_printed_record_is_complete(entries):
    places = ask("batch", entries, batch="example-03", date="2026-11-25T10:00", print=True)["places"]
    lines = [one for one in entries if one["batch"] == "example-03"]
    printed = places["print"]
    assert all(f'data-entry="{one["id"]}"' in printed for one in lines) and "<button" not in printed
    assert "Wed 25 Nov 2026 10:00" in printed and "Read by" in printed and "<svg" in printed
    ids = re.findall(r' id="([^"]+)"', places["print"] + places["course"])
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("batch", ["example-03", "example-07", "example-09"])
def test_no_place_allows_an_entry(entries, batch):
    for kind in ["stage-ended", "cast", "gas", "to-kiln"]:
        try:
            book = until(entries, batch, kind)
        except AssertionError:
            continue
        reply = ask("batch", book, batch=batch, date=book[-1]["at"], demo=True)
        assert faults(shown(" ".join(reply["places"].values()))) == []


def test_the_invented_book_says_so_in_every_place(entries):
    reply = ask("batch", entries, batch="example-01", demo=True)
    for name, place in reply["places"].items():
        assert place.startswith('<p class="invented">INVENTED'), name
    assert "&amp;book=demo" in reply["places"]["sheets"]
    assert "book=demo" in ask("book", entries, demo=True)["places"]["batches"]


def test_days_are_brought_to_one_temperature():
    # Two batches of one barley, by hand with a pace of 2.25 for 10 K: 5 days at 15 C are 5; 5 days at 17 C are
    # 5 x 2.25^0.2 = 5.88.
    lines = []
    for name, temp in (("b1", "15"), ("b2", "17")):
        lines += [line("start", "2026-11-01T05:00", batch=name, **START), line("cast", "2026-11-02T06:00", batch=name)]
        for day in range(2, 7):
            lines.append(line("bed", f"2026-11-{day:02d}T18:00", batch=name, bottom_c=temp, top_c=temp))
        lines.append(line("to-kiln", "2026-11-07T06:00", batch=name))
    batches = batches_of(lines)
    found = [days_of(batch) for batch in batches]
    assert [round(one.at_reference, 2) for one in found if one] == [5.0, 5.88]
    fitted = average([one for one in found if one])
    assert fitted and fitted.days == pytest.approx(5.44, abs=0.01) and fitted.spread > fitted.doubt


def test_the_year_gives_back_the_days_that_were_put_in(entries):
    # 5.25 days at 15 C were put in (bench/demo_batches.py); counts are made once or twice a day, so a little more.
    fitted = average([one for one in map(days_of, batches_of(entries)) if one])
    assert fitted and len(fitted.batches) == 12
    assert 5.0 < fitted.days < 5.9


def test_hostile_numbers_of_stages_do_not_stop_the_page():
    for stages in ([["0", ""]], [["72", "30"]] * 20, [["8", "1"]], "x"):
        reply = ask(
            "batch", [line("start", "2026-11-24T05:30", **{**START, "stages": stages}), *steeping()[1:]], batch="b1"
        )
        assert reply["places"]["next"]
