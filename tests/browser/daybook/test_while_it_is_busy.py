"""What is pressed or typed while the page, or another tab, is at work: nothing typed is lost, nothing untrue said."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.book import PAGE, begin, choose, line, opened, stored, write_it
from tests.browser.conftest import Open, without_engine
from tests.browser.daybook.test_daybook_backup import READ, able_without_engine, backed_up, choose_file, own_file
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.python_here, pytest.mark.further]
# Another one at the book's store: a line waits until it lets go.
HOLD = """async () => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split("records/")[0];
  const request = indexedDB.open(base + "day-book");
  const db = await new Promise((done) => { request.onsuccess = () => done(request.result); });
  const work = db.transaction("entries", "readwrite");
  const turn = () => {
    if (!window.letGo) work.objectStore("entries").count().onsuccess = turn;
  };
  await new Promise((done) => {
    work.objectStore("entries").count().onsuccess = () => { turn(); done(); };
  });
  work.oncomplete = () => db.close();
}"""
# A device whose disk takes its time, until it is told to go on.
SLOW_DISK = """() => {
  const own = FileSystemFileHandle.prototype.createWritable;
  const going = new Promise((go) => { window.goOn = go; });
  FileSystemFileHandle.prototype.createWritable = async function () {
    window.writing = true;
    await going;
    return own.call(this);
  };
}"""
# No tab writes the backup any more.
QUIET = """async () => {
  const { held } = await navigator.locks.query();
  const names = held.map((one) => one.name).filter((name) => name.endsWith("-backup"));
  for (const name of names) await navigator.locks.request(name, () => {});
}"""


def test_the_boxes_are_shut_while_a_line_is_written(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    sheet = choose(page, "basket")
    box = sheet.locator("[data-question=gross_g] input")
    box.fill("711")
    page.evaluate(HOLD)
    page.get_by_role("button", name="Write it").click()
    expect(sheet.locator("button[type=submit]")).to_have_text("Writing …")
    box.evaluate("box => box.focus()")
    page.keyboard.type("9")
    assert box.input_value() == "711", "what is typed now would be lost"
    assert float(sheet.evaluate("sheet => getComputedStyle(sheet).opacity")) < 1, "nobody sees that they are shut"
    page.evaluate("() => { window.letGo = true; }")
    expect(sheet).to_be_hidden()
    assert stored(page)[-1]["values"]["gross_g"] == "711"
    sheet = choose(page, "basket")
    sheet.locator("[data-question=gross_g] input").fill("720")
    write_it(page)


def test_a_line_that_could_not_be_written_can_be_typed_on_at_once(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    box = choose(page, "basket").locator("[data-question=gross_g] input")
    box.fill("711")
    page.evaluate(
        "() => { IDBObjectStore.prototype.add = () => { throw new DOMException('no', 'QuotaExceededError'); }; }"
    )
    page.keyboard.press("Enter")
    expect(page.locator(".entry-fault")).to_contain_text("What you typed stands here")
    expect(box).to_be_focused()
    page.keyboard.type("5")
    expect(box).to_have_value("7115")


def half_typed(page: Page, depth: str) -> None:
    choose(page, "turned").locator("[data-question=depth_cm] input").fill(depth)


@pytest.mark.parametrize("newest", ["first", "second"])
@pytest.mark.parametrize("how", ["Write it", "Leave it"])
def test_a_tab_takes_no_half_typed_line_of_another(open_page: Open, newest: str, how: str) -> None:
    first = opened(open_page(PAGE, before=without_engine))
    begin(first, "77")
    second = first.context.new_page()
    second.goto(first.url)
    opened(second)
    pages = {"first": first, "second": second}
    half_typed(pages.pop("second" if newest == "first" else "first"), "11" if newest == "second" else "12")
    half_typed(pages[newest], "11" if newest == "first" else "12")
    first.get_by_role("button", name=how).click()
    expect(first.locator(".entry-sheet")).to_be_hidden()
    second.close()  # with its line half typed
    third = first.context.new_page()
    third.goto(first.url)
    box = third.locator(".entry-sheet [data-question=depth_cm] input")
    expect(box).to_have_value("12")
    third.get_by_role("button", name="Leave it").click()
    third.reload()
    opened(third)
    expect(third.locator(".entry-sheet")).to_be_hidden()


def test_a_line_written_while_a_table_is_made_counts_as_not_saved(open_page: Open, tmp_path: Path) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    page.evaluate("() => { sessionStorage.engineMayCome = 'yes'; }")
    held: list[Any] = []
    page.route("**/assets/browser/worker.*", lambda route: held.append(route))
    page.reload()
    opened(page)
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    page.locator("details.day-book-files").get_by_role("button", name="Save it as a table").click()
    line(page, "turned", depth_cm="12")
    with page.expect_download(timeout=READY) as coming:
        for route in held:
            route.continue_()
        page.unroute_all()
    file = tmp_path / "table.csv"
    coming.value.save_as(file)
    assert "turned" not in file.read_text("utf-8")
    expect(page.locator("[data-daybook=backup]")).to_contain_text("2 lines in this book; 1 written since")


@pytest.mark.parametrize("in_another_tab", [False, True])
def test_a_backup_that_is_stopped_while_it_is_written_stays_stopped(open_page: Open, *, in_another_tab: bool) -> None:
    page = opened(open_page(PAGE, before=able_without_engine))
    begin(page, "77")
    choose_file(page)
    assert len(backed_up(page, 1)) == 1
    page.evaluate(SLOW_DISK)
    line(page, "turned", depth_cm="12")
    page.wait_for_function("() => window.writing")
    other = page
    if in_another_tab:
        other = page.context.new_page()
        able_without_engine(other)
        other.goto(page.url)
        opened(other)
        other.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    own_file(other).get_by_role("button", name="Stop the backup").click()
    expect(own_file(other)).to_contain_text("Choose a file")
    page.evaluate("() => window.goOn()")
    page.evaluate(QUIET)
    expect(own_file(page)).to_contain_text("Choose a file")
    page.reload()
    opened(page)
    line(page, "turned", depth_cm="13")
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    expect(own_file(page)).to_contain_text("Choose a file")
    assert len(json.loads(page.evaluate(READ))["entries"]) <= 2
