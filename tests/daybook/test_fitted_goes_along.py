"""What the book fits of a barley goes along to the sheets that ask for it: book and sheet say the same of one batch."""

from __future__ import annotations

import json
import re
from datetime import datetime, timedelta
from html import unescape
from typing import Any
from urllib.parse import parse_qsl, urlsplit

import pytest

from calculators.asking.declare import Table
from calculators.asking.reading import split_rows
from calculators.daybook.batch.course import Course, course_of
from calculators.page import respond
from calculators.sheets import find_sheet
from tests.daybook.book import START, Line, ask, batch_of, line

NOW = "2026-11-24T13:10"
_HOUR = r"(?:\w{3} (\d+) Nov (?:\d{4} )?)?(\d\d):(\d\d)"


def steeped(*baskets: tuple[str, str], **start: object) -> list[Line]:
    return [
        line("start", "2026-11-24T05:30", **{**START, "corn_weight_g": "45", **start}),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        *(line("basket", at, gross_g=grams, drained="drained") for at, grams in baskets),
    ]


def plain(drawn: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", drawn)))


def hour_after(words: str, text: str) -> datetime:
    found = re.search(words + _HOUR, text)
    assert found, text[:600]
    return datetime(2026, 11, int(found[1] or 24), int(found[2]), int(found[3]))


def link(sheet: str, lines: list[Line]) -> tuple[dict[str, str], str]:
    """What the link of a sheet carries, and what is written beside it."""
    drawn = ask("batch", lines, batch="b1", date=NOW)["places"]["sheets"]
    found = re.search(rf'<li><a href="([^"]*/{sheet}/[^"]*)">[^<]*</a>([^<]*)</li>', drawn)
    assert found
    return dict(parse_qsl(urlsplit(unescape(found[1])).query)), unescape(found[2])


def opened(sheet: str, carried: dict[str, str]) -> str:
    """What a sheet says that was opened by its link."""
    questions: dict[str, Any] = {}
    for one in find_sheet(sheet).questions:
        value = carried.get(one.id, str(getattr(one, "default", None) or ""))
        questions[one.id] = split_rows(one, value) if isinstance(one, Table) else value
    asked = {"sheet": sheet, "questions": questions, "root": "../../", "prefix": "x", "from_example": [], "date": NOW}
    reply = json.loads(respond(json.dumps(asked)))
    assert reply["state"] == "answered", reply
    return plain(" ".join(reply["places"].values()))


@pytest.mark.parametrize(
    ("baskets", "apart_h"),
    [
        ([("2026-11-24T13:00", "216")], 0.75),
        ([("2026-11-24T13:00", "203")], 0.75),
        ([("2026-11-24T10:00", "209"), ("2026-11-24T13:00", "217")], 0.75),
        ([("2026-11-24T08:00", "223.3")], 1.5),  # 12 points at once: more than the sheet takes
    ],
)
def test_the_chits_come_at_the_same_hour_in_book_and_sheet(baskets: list[tuple[str, str]], apart_h: float):
    lines = steeped(*baskets)
    book = hour_after(
        r"80 %, as the cast wants, come at about ", plain(ask("batch", lines, batch="b1", date=NOW)["places"]["next"])
    )
    sheet = hour_after(r"Chitted at ", opened("chitting", link("chitting", lines)[0]))
    assert abs(book - sheet) <= timedelta(hours=apart_h)
    unread = hour_after(r"Chitted at ", opened("chitting", link("chitting", steeped())[0]))
    assert abs(book - unread) > timedelta(hours=apart_h + 1)  # the typical barley says another hour


def test_steep_timing_ends_on_what_the_book_has():
    lines = steeped(("2026-11-24T10:00", "209"), ("2026-11-24T13:00", "217"))
    carried, _ = link("steep-timing", lines)
    assert {"rate_factor", "moisture_offset", "reading"} <= set(carried)
    course = course_of(batch_of(lines, "b1"), now=datetime.fromisoformat(NOW))
    told = re.search(r"Moisture at the end[^\d]*([\d.]+)", opened("steep-timing", carried))
    assert told and isinstance(course, Course)
    assert float(told[1]) == pytest.approx(course.best.ends[-1].drained, abs=0.6)


def test_a_steep_plan_begins_from_the_fitted_barley():
    lent = ask("lend", steeped(("2026-11-24T13:00", "216")), sheet="steep-plan", batch="b1", date=NOW)["lent"]
    assert float(lent["rate_factor"]["value"]) > 1.1
    assert "basket weighed" in lent["rate_factor"]["source"]


def test_a_forecast_that_takes_every_basket_fits_them_itself():
    carried, beside = link("batch-forecast", steeped(("2026-11-24T13:00", "216")))
    assert "baskets" in carried and "rate_factor" not in carried and "fitted" not in beside


def test_it_is_said_beside_the_link_how_near_the_sheet_comes():
    carried, beside = link("chitting", steeped(("2026-11-24T13:00", "216")))
    assert float(carried["rate_factor"]) > 1.1
    assert "the barley as it is fitted here" in beside and "as long as it is planned" in beside
    carried, beside = link("chitting", steeped(("2026-11-24T08:00", "223.3")))
    assert float(carried["moisture_offset"]) == 8.0
    assert "as near to the one fitted here as the sheet takes it" in beside and "−8 to 8 points" in beside
    carried, beside = link("chitting", steeped())
    assert "rate_factor" not in carried and "fitted" not in beside
