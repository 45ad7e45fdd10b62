"""The week of a house as its owner plans it on a phone: on Sunday, stopped once, pinned up, and again on Wednesday."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from time import monotonic
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from calculators.sheets import find_sheet
from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.book import begin, opened, stored
from tests.browser.conftest import Open
from tests.browser.printed import expect_readable, needs_poppler, text_of
from tests.browser.sheets import READY, expect_standing, path_of, section, type_in

pytestmark = [pytest.mark.browser, pytest.mark.further]

SHEET = find_sheet("house-week")
WORKING = re.compile("(Planning the week|Trying|Playing the plan|Letting one batch).* …")
SUNDAY, WEDNESDAY = datetime(2026, 1, 11, 18), datetime(2026, 1, 14, 6)
OWN: dict[str, Any] = {
    "planned_at": f"{SUNDAY:%Y-%m-%d %H:%M}",
    "batches": [
        ["w-1", "6000", "2026-01-21 18:00"],
        ["w-2", "5800", "2026-01-23 18:00"],
    ],
    "steeps": [["A", "6000"], ["B", "6000"]],
    "floors": [["floor", "245", "11", "14"]],
    "vessels": [["drum", "drum", "6500", "15"]],
    "kilns": [["kiln", "7000", "32", "4"]],
    "hands": [["05:00", "15:00", "2"], ["15:00", "22:00", "1"]],
    "stages": [["8"], ["8"], ["8"], ["12"], ["3"]],
    "reference_temp_c": "15",
    "reference_days": "5",
    "chit_hours": "40",
}


def go(page: Page, address: str, path: str) -> None:
    page.evaluate("target => helpers.follow(target)", address + path)
    expect(page.locator("main[data-left]")).to_have_count(0)
    expect(page).to_have_url(re.compile(path))


def rows(place: Locator, table: str) -> list[list[str]]:
    found: list[list[str]] = place.locator(f"table[data-table={table}] tbody").evaluate(
        "body => [...body.rows].map((row) => [...row.cells].map((cell) => cell.textContent.trim()))"
    )
    return found


def answer_of(place: Locator, name: str) -> str:
    return place.locator(f"[data-answer={name}] .figure").inner_text()


def put(place: Locator, question: str, row: int, cells: list[str]) -> None:
    """Type a row more into a table."""
    field = place.locator(f".field[data-question={question}]")
    while field.locator("tr[data-row]").count() <= row:
        field.locator("[data-action=add-row]").tap()
    for box, text in zip(field.locator("tr[data-row]").nth(row).locator("[data-column]").all(), cells, strict=False):
        if box.evaluate("box => box.tagName") == "SELECT":
            box.select_option(text)
        else:
            box.fill(text)


STOP_IN_VIEW = """(working) => {
  const whole = (part) => {
    const box = part?.getBoundingClientRect();
    const inside = box?.top >= 0 && box.bottom <= innerHeight && box.left >= 0 && box.right <= innerWidth;
    return Boolean(box?.height) && inside;
  };
  const stop = document.querySelector("[data-action=stop]");
  const bar = document.querySelector("[data-sheet=house-week] progress");
  const state = document.querySelector("[data-state]").textContent;
  return whole(stop) && whole(bar) && bar.value > 0 && new RegExp(working).test(state);
}"""


SLOW_DEVICE = """
const add = Worker.prototype.addEventListener;
Worker.prototype.addEventListener = function (kind, heard, ...rest) {
  const slow = (event) => window.slowDevice && event.data.includes('"kind":"reply"');
  const late = (event) => setTimeout(() => heard(event), slow(event) ? 6000 : 0);
  return add.call(this, kind, kind === "message" ? late : heard, ...rest);
};
"""
"""Answers come late, as on a slow device; this machine is done before a finger is there."""


def stop_it_in_the_midst(page: Page, place: Locator, change: Callable[[], None]) -> None:
    """Change a number and press Stop while it works."""
    page.evaluate("() => { window.slowDevice = true; }")
    change()
    page.wait_for_function(STOP_IN_VIEW, arg=WORKING.pattern, polling=20, timeout=5000)
    place.locator("[data-action=stop]").tap()
    expect(place.locator("[data-state]")).to_contain_text("Stopped. What you typed is kept.")
    page.evaluate("() => { window.slowDevice = false; }")


def before(page: Page) -> None:
    page.clock.install(time=SUNDAY)
    page.add_init_script(SLOW_DEVICE)


@needs_poppler
def test_a_week_is_planned_stopped_pinned_up_and_planned_again(open_page: Open, address: str, tmp_path: Path) -> None:
    page = open_page(DAY_BOOK, before=before, has_touch=True, timezone_id="Europe/London")
    page.evaluate("() => { window.print = () => {}; }")
    opened(page)
    begin(page, "w-1", barley_kg="6000")

    # Sunday evening: two batches typed; what the book knows of the first stands there already.
    go(page, address, path_of(SHEET))
    place = section(page, SHEET)
    expect(place.locator("[data-question=batches] .lent-mark")).to_contain_text("The book’s", timeout=READY)
    type_in(place, SHEET, OWN)
    expect_standing(place, "answered")

    later = place.locator("[data-question=kiln_later_h] input")
    stop_it_in_the_midst(page, place, lambda: later.fill("2"))
    again = place.get_by_role("button", name="Work it out again")
    expect(again).to_be_in_viewport()
    assert later.input_value() != "" and place.locator("[data-question=batches] tr[data-row]").count() == 2
    again.tap()
    expect_standing(place, "answered")
    expect(again).to_have_count(0)
    sunday = {row[0]: row for row in rows(place, "batches")}
    assert sorted(sunday) == ["w-1", "w-2"]
    assert answer_of(place, "late_h").startswith("0")

    # Its paper is one page; then it hangs on the wall, and its line is taken into the book.
    place.locator("[data-action=print]").tap()
    expect(page.locator("body.prints-card")).to_have_count(1, timeout=READY)
    expect_readable(page, "a short plan, which fills its paper")
    text, count = text_of(page, tmp_path)
    assert count == 1 and all(batch in text for batch in sunday) and "load w-2, kiln" in " ".join(text.split())
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    hang = place.get_by_role("button", name="hangs on the wall now")
    mark = (re.search(r"Plan (\w{4})", hang.inner_text()) or [""])[1]
    assert f"Plan {mark}" in text
    hang.tap()
    expect(place.locator("[data-state]")).to_contain_text(f"counted against plan {mark}")
    expect_standing(place, "answered")
    assert place.locator("[data-question=wall] tr[data-row]").count() == 2
    assert answer_of(place, "changed") == "0"
    place.get_by_role("button", name="Take the plan into the day-book").tap()
    expect(place.locator("[data-state]")).to_contain_text("The plan of 1 batch stands in the day-book", timeout=READY)
    expect(place.locator("[data-state]")).to_contain_text("so begin it there first: w-2.")
    go(page, address, DAY_BOOK)
    (taken,) = [line for line in stored(page) if line["kind"] == "plan"]
    assert taken["batch"] == "w-1" and taken["remark"].startswith("Plan of the week: fill Sun 11 Jan")

    # Wednesday morning, back at the sheet: the first batch will be a day late.
    page.clock.set_system_time(WEDNESDAY)
    go(page, address, path_of(SHEET))
    place = section(page, SHEET)
    expect_standing(place, "answered")
    begun = monotonic()
    place.locator("[data-question=again_at] [data-action=now]").tap()
    ready = datetime.strptime(f"{sunday['w-1'][7]} 2026", "%a %d %b %H:%M %Y") + timedelta(hours=24)
    put(place, "happened", 0, ["w-1", "ready", f"{ready:%Y-%m-%d %H:%M}"])
    page.evaluate("() => document.activeElement.blur()")
    expect_standing(place, "answered")
    expect(place.locator("[data-place=remarks]")).to_contain_text(f"in place of plan {mark}", timeout=READY)
    assert monotonic() - begun < 60
    wednesday = {row[0]: row for row in rows(place, "batches")}
    assert wednesday["w-1"][8] != sunday["w-1"][8]  # its load
    counted = sum(wednesday[name][at] != sunday[name][at] for name in sunday for at in (1, 4, 8))
    assert 1 <= counted <= int(answer_of(place, "changed"))
    place.locator("[data-action=print]").tap()
    expect(page.locator("body.prints-card")).to_have_count(1, timeout=READY)
    text, count = text_of(page, tmp_path)
    assert count == 1 and f"in place of plan {mark}" in " ".join(text.split())
