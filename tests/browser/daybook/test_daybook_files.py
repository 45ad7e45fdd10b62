"""The book out to files and in from them: nothing lost, nothing doubled, and clear words."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.book import PAGE, as_file, begin, line, made, opened, read_in, save, stored
from tests.browser.conftest import Open, without_engine
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
START = made(
    0,
    kind="start",
    values={"barley": "two-row", "lot": "lot 3", "season": "2025", "barley_kg": "5000"},
    id="begun-77-here",
)


def without_key(entries: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [{name: value for name, value in one.items() if name != "seq"} for one in entries]


def report(page: Page) -> Any:
    return expect(page.locator("[data-daybook=report]"))


def test_a_saved_book_read_in_elsewhere_is_the_same_and_twice_is_once(visit: Open, tmp_path: Path) -> None:
    page = opened(visit(PAGE))
    begin(page, "77", barley_kg="5000", lot="lot 3; the “old” one")
    line(page, "basket", gross_g="171,5")
    line(page, "turned", depth_cm="12")
    json_file = save(page, "Save the book as a file", tmp_path)
    csv_file = save(page, "Save it as a table", tmp_path)
    first = without_key(stored(page))

    other = opened(visit(PAGE))  # on a device that keeps nothing
    assert stored(other) == []
    for _ in range(2):
        state = read_in(other, json_file.read_text(), json_file.name)
        expect(state).to_contain_text("added", timeout=READY)
        assert without_key(stored(other)) == first
    expect(state).to_contain_text("0 lines added. 3 were here already.")
    expect(read_in(other, csv_file.read_text(), csv_file.name)).to_contain_text("0 refused", timeout=READY)
    assert without_key(stored(other)) == first, "the table says another thing than the file"

    third = opened(visit(PAGE))
    assert stored(third) == []
    expect(read_in(third, csv_file.read_text(), csv_file.name)).to_contain_text("3 lines added", timeout=READY)
    assert without_key(stored(third)) == first


def test_what_is_not_a_book_is_refused_whole(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(page, "77")
    before = stored(page)
    newer = as_file([{**made(1), "schema": 2}], schema=2)
    for text, words in ((newer, "newer"), ("<b>no</b>", ""), ("[]", ""), ("{" * 5000, ""), ("\x00\xff" * 100, "")):
        read_in(page, text)
        report(page).to_be_visible(timeout=READY)
        report(page).to_contain_text(words)
        expect(page.locator("[data-daybook=state]")).to_contain_text("0 lines added")
        expect(page.locator("[data-daybook=state]")).to_contain_text("Nothing was taken.")
        assert stored(page) == before
    read_in(page, '{"kind": "shopping list", "entries": []}')
    expect(page.locator("[data-daybook=state]")).to_contain_text("The file is no day-book", timeout=READY)
    expect(page.locator("[data-daybook=state]")).to_contain_text("Choose a file that was saved from a day-book.")


def test_rows_of_a_table_are_checked_one_by_one(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(page, "77")
    text = (
        "batch;kind;at;gross_g;drained;water_temp_c\n"
        "77;water;2026-02-01T08:00;;;12,5\n"
        "77;basket;2026-02-01T09:00;5,000;drained;\n"
        "77;no-such-kind;2026-02-01T09:00;;;\n"
        "77;water;yesterday;;;14\n"
    )
    expect(read_in(page, text, "table.csv")).to_contain_text("1 line added", timeout=READY)
    assert stored(page)[1]["values"]["water_temp_c"] in ("12,5", "12.5")
    assert len(stored(page)) == 2
    for words in ("5,000", "no-such-kind", "yesterday"):
        report(page).to_contain_text(words)


def test_the_first_line_stays_where_another_has_its_id(visit: Open) -> None:
    page = opened(visit(PAGE))
    expect(read_in(page, as_file([START, made(1)]))).to_contain_text("2 lines added", timeout=READY)
    before = stored(page)
    bad = "<img src=x onerror=alert(1)>"
    expect(read_in(page, as_file([START, {**made(1), "remark": bad}, made(2)]))).to_contain_text(
        "1 line added", timeout=READY
    )
    report(page).to_contain_text("other words")
    assert stored(page)[:2] == before and len(stored(page)) == 3
    assert page.locator("main img").count() == 0


def test_everything_is_removed_by_two_presses_in_every_tab(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    other = page.context.new_page()
    without_engine(other)
    other.goto(page.url.split("?")[0])
    expect(other.locator("[data-place=batches] a")).to_have_count(1)
    page.locator("details.day-book-files summary").click()
    page.get_by_role("button", name="Remove everything").click()
    assert len(stored(page)) == 1
    expect(page.get_by_role("button", name="Remove all 1 lines for good: press again")).to_be_visible()
    begin(other, "78")  # what was asked is not so any more
    other.get_by_role("link", name="All batches").click()
    expect(other.locator("[data-place=batches] a")).to_have_count(2)
    page.get_by_role("button", name="Remove everything").click()
    assert len(stored(page)) == 2
    page.get_by_role("button", name="Remove all 2 lines for good: press again").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("Removed")
    assert stored(page) == []
    expect(other.locator("[data-place=batches] a")).to_have_count(0)


@pytest.mark.further
@pytest.mark.parametrize("count", [5200, pytest.param(10_000, marks=pytest.mark.long)])
def test_thousands_of_lines(visit: Open, tmp_path: Path, count: int) -> None:
    """Read in from a file, more than are taken at a time; shown by batch, written to, saved; twice is once."""
    entries = [made(number, batch=f"b-{number // 80:03d}") for number in range(count)]
    page = opened(visit(PAGE))
    state = read_in(page, as_file(entries))
    expect(state).to_contain_text(f"{count} lines added", timeout=2 * READY)
    expect(page.locator("[data-place=batches] a")).to_have_count(60, timeout=READY)
    page.get_by_role("button", name="Show more batches").click()
    expect(page.locator("[data-place=batches] a")).to_have_count(count // 80, timeout=READY)
    page.goto(f"{page.url.split('?')[0]}?batch=b-042")
    expect(page.locator("[data-daybook=waiting] tr[data-entry]").first).to_be_visible()  # before the calculator
    line(page, "water", water_temp_c="14")
    expect(page.locator("[data-place=lines] tr[data-entry]")).to_have_count(60, timeout=READY)
    page.get_by_role("button", name="Show more lines").click()
    expect(page.locator("[data-place=lines] tr[data-entry]")).to_have_count(81, timeout=READY)
    file = save(page, "Save the book as a file", tmp_path)
    saved = json.loads(file.read_text())["entries"]
    assert len(saved) == len({one["id"] for one in saved}) == count + 1
    assert saved[:-1] == entries
    expect(read_in(page, file.read_text())).to_contain_text(f"{count + 1} were here already", timeout=2 * READY)
    assert len(stored(page)) == count + 1
