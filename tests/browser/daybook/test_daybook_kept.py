"""A book that vanishes, a store that does not open, a line half typed, a clock that jumps: said, and nothing lost."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.book import PAGE, PUT, begin, choose, line, opened, save, stored
from tests.browser.conftest import Open, engine_may_come, without_engine

pytestmark = [pytest.mark.browser, pytest.mark.python_here]

DELETE = """async () => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split(/records|reference/)[0];
  await new Promise((done) => {
    const request = indexedDB.deleteDatabase(base + "day-book");
    request.onsuccess = request.onerror = done;
  });
}"""
# The book's own store answers nothing until `let` is called, as when another process holds it.
STUCK = """() => {
  const open = IDBFactory.prototype.open;
  let let_go;
  const going = new Promise((done) => { let_go = done; });
  window.letGo = () => let_go();
  IDBFactory.prototype.open = function (name, version) {
    if (!name.endsWith("day-book")) return open.call(this, name, version);
    const stuck = {};
    going.then(() => {
      const request = open.call(this, name, version);
      for (const one of ["onsuccess", "onerror", "onupgradeneeded"]) request[one] = (event) => stuck[one]?.(event);
      Object.defineProperty(stuck, "result", { get: () => request.result });
    });
    return stuck;
  };
}"""


def vanish(page: Page) -> None:
    """Delete the book as a browser does: from outside, with nothing open."""
    path = page.url.split("records/")[0] + "reference/sources/"
    home = page.url.split("?")[0]
    page.goto(path)
    page.evaluate(DELETE)
    page.goto(home)
    opened(page)


def test_a_vanished_book_is_said_with_what_was_saved(open_page: Open, tmp_path: Path) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    line(page, "turned", depth_cm="12")
    file = save(page, "Save the book as a file", tmp_path)
    line(page, "turned", depth_cm="13")
    vanish(page)
    gone = page.locator("[data-daybook=gone]")
    expect(gone).to_contain_text("There was a book of 3 lines")
    expect(gone).to_contain_text("last saved as a file on")
    expect(page.locator("[data-daybook=backup]")).not_to_contain_text("since the book was last saved")
    page.reload()
    expect(gone).to_contain_text("There was a book of 3 lines")
    begin(page, "78")
    expect(gone).to_be_visible()
    files = page.locator("[data-daybook=backup]")
    expect(files).to_have_text("1 lines in this book; 1 written and the book was never saved as a file.")
    engine_may_come(page)
    page.goto(page.url.split("?")[0])
    opened(page)
    page.locator("section.day-book input[type=file]").set_input_files(file)
    expect(page.locator("[data-daybook=state]")).to_contain_text("2 lines added", timeout=60_000)
    assert len(stored(page)) == 3
    expect(gone).to_be_hidden()


def test_a_book_that_was_removed_on_purpose_is_not_missed(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    page.locator("details.day-book-files summary").click()
    page.get_by_role("button", name="Remove everything").click()
    page.get_by_role("button", name="press again").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("Removed")
    page.reload()
    opened(page)
    expect(page.locator("[data-daybook=backup]")).to_have_text("There is nothing in this book.")
    expect(page.locator("[data-daybook=gone]")).to_be_hidden()


def test_what_the_browser_promises_stands_in_words(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    page.locator("details.day-book-files summary").click()
    promise = page.locator("[data-daybook=promise]")
    expect(promise).to_contain_text("promise")
    promise.get_by_role("button", name="Ask it to keep the book").click()
    expect(promise).to_contain_text("was asked and did not promise")  # a browser without a window never does


# What is asked for of the drafts comes a second later.
LATE = """() => {
  const begin = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (stores, mode, ...more) {
    const transaction = begin.call(this, stores, mode, ...more);
    if (stores === "drafts" && mode === "readonly") {
      const later = (done) => transaction.addEventListener("complete", () => setTimeout(done, 1000));
      Object.defineProperty(transaction, "oncomplete", { set: later });
    }
    return transaction;
  };
}"""


def test_a_store_that_does_not_open_is_said_and_nothing_is_lost(open_page: Open) -> None:
    def stuck(page: Page) -> None:
        without_engine(page)
        page.clock.install()
        page.add_init_script(f"({STUCK})()")

    page = open_page(PAGE, before=stuck)
    state = page.locator("[data-daybook=state]")
    page.clock.fast_forward(4000)
    expect(state).not_to_contain_text("has not opened")
    page.clock.fast_forward(1000)
    expect(state).to_contain_text("has not opened for 5 seconds")
    page.get_by_role("button", name="Begin a batch").click()
    sheet = page.locator(".entry-sheet")
    sheet.get_by_label("Batch number").fill("77")
    page.get_by_role("button", name="Write it").click()
    page.clock.fast_forward(5000)
    expect(sheet.locator(".entry-fault")).to_contain_text("is not written")
    expect(sheet.get_by_label("Batch number")).to_have_value("77")
    page.evaluate("() => window.letGo()")
    expect(state).not_to_contain_text("has not opened")
    page.get_by_role("button", name="Write it").click()
    expect(page.locator("[data-daybook=batch]")).to_have_text("Batch 77")
    assert [entry["batch"] for entry in stored(page)] == ["77"]


def test_a_line_written_while_the_book_opens_is_not_called_unwritten(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    for script in (STUCK, LATE):
        page.add_init_script(f"({script})()")
    page.reload()
    choose(page, "water").locator("[data-question=water_temp_c] input").fill("14")
    page.get_by_role("button", name="Write it").click()
    page.evaluate("() => window.letGo()")
    expect(page.locator(".entry-sheet")).to_be_hidden()
    page.wait_for_timeout(1500)
    expect(page.locator(".entry-sheet")).to_be_hidden()
    assert [entry["kind"] for entry in stored(page)] == ["start", "water"]


def test_each_batch_has_its_own_half_typed_line(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    shelf = page.url
    for batch, depth in (("77", "11"), ("78", "12")):
        page.goto(shelf)
        opened(page)
        begin(page, batch)
        choose(page, "turned").locator("[data-question=depth_cm] input").fill(depth)
    for batch, depth in (("77", "11"), ("78", "12")):
        page.goto(f"{shelf}?batch={batch}")
        expect(page.locator(".entry-sheet [data-question=depth_cm] input")).to_have_value(depth)
    page.get_by_role("button", name="Leave it").click()
    page.reload()
    opened(page)
    expect(page.locator(".entry-sheet")).to_be_hidden()
    page.goto(f"{shelf}?batch=77")
    expect(page.locator(".entry-sheet [data-question=depth_cm] input")).to_have_value("11")


def test_lines_written_after_another_deleted_the_book_show(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    for depth in ("11", "12"):
        line(page, "turned", depth_cm=depth)
    other = page.context.new_page()
    other.goto(page.url.split("records/")[0] + "reference/sources/")
    other.evaluate(DELETE)
    line(page, "turned", depth_cm="13")
    expect(page.locator(".day-book tr[data-entry]").last).to_contain_text("13")
    assert [entry["values"].get("depth_cm") for entry in stored(page)] == ["13"]
    lost = page.locator("[data-daybook=lost]")
    expect(lost).to_contain_text("still holds 3 lines of it")
    lost.get_by_role("button", name="Put them back").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("3 lines put back")
    expect(lost).to_be_hidden()
    assert sorted(entry["values"].get("depth_cm", "") for entry in stored(page)) == ["", "11", "12", "13"]


def test_a_book_that_is_another_by_now_is_read_anew(open_page: Open) -> None:
    """A tab that heard nothing of it: the store was emptied and filled past it."""
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    for depth in ("11", "12"):
        line(page, "turned", depth_cm=depth)
    former = stored(page)
    page.evaluate(PUT.replace("for (const", 'work.objectStore("entries").clear(); for (const'), former[:1])
    line(page, "turned", depth_cm="13")
    expect(page.locator(".day-book tr[data-entry]")).to_have_count(2)
    expect(page.locator("[data-daybook=lost]")).to_contain_text("2 lines")


@pytest.mark.parametrize("days", [0, 400])
def test_a_clock_that_jumps_ahead_is_asked_about_before_the_line(open_page: Open, days: int) -> None:
    def before(page: Page) -> None:
        without_engine(page)
        page.clock.install()

    page = opened(open_page(PAGE, before=before))
    begin(page, "77")
    sheet = choose(page, "turned")
    sheet.locator("[data-question=depth_cm] input").fill("11")
    ahead = datetime.datetime.now() + datetime.timedelta(days=days, hours=3)
    page.clock.set_system_time(ahead)
    page.get_by_role("button", name="Write it").click()
    expect(sheet.locator(".entry-fault")).to_contain_text("It went ahead by")
    assert len(stored(page)) == 1
    page.get_by_role("button", name="Write it").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("Written")
    assert len(stored(page)) == 2
    line(page, "turned", depth_cm="12")


def test_a_clock_that_was_put_ahead_between_two_visits_is_asked_about(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    page.clock.install(time=datetime.datetime.now() + datetime.timedelta(days=400))
    page.reload()
    sheet = choose(opened(page), "turned")
    sheet.locator("[data-question=depth_cm] input").fill("11")
    page.get_by_role("button", name="Write it").click()
    expect(sheet.locator(".entry-fault")).to_contain_text("after the day-book was open last")
    assert len(stored(page)) == 1
