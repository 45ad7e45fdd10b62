"""The backup that writes itself to a file chosen once; what stops it is said, and it never eats lines."""

from __future__ import annotations

import json
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.book import PAGE, as_file, begin, line, made, opened, stored
from tests.browser.conftest import Open, without_engine
from tests.browser.daybook.test_daybook_kept import DELETE
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.python_here, pytest.mark.further]

# A test cannot work the browser's own window. The file that comes is a real one, in the browser's private folder, and
# is written, kept and asked about by the same functions.
CHOSEN = """() => {
  const folder = () => navigator.storage.getDirectory();
  window.showSaveFilePicker = async () => (await folder()).getFileHandle("backup.json", { create: true });
  window.permission = localStorage.getItem("permission") ?? "granted";
  FileSystemHandle.prototype.queryPermission = async () => window.permission;
  FileSystemHandle.prototype.requestPermission = async () => {
    localStorage.setItem("permission", "granted");
    return (window.permission = "granted");
  };
}"""
READ = """async () => {
  const folder = await navigator.storage.getDirectory();
  return (await (await folder.getFileHandle("backup.json")).getFile()).text();
}"""
OVERWRITE = """async (text) => {
  const folder = await navigator.storage.getDirectory();
  const out = await (await folder.getFileHandle("backup.json", { create: true })).createWritable();
  await out.write(text);
  await out.close();
}"""


def able(page: Page) -> None:
    page.add_init_script(f"({CHOSEN})()")


def able_without_engine(page: Page) -> None:
    able(page)
    without_engine(page)


def own_file(page: Page) -> Any:
    return page.locator("[data-daybook=own-file]")


def choose_file(page: Page) -> None:
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    own_file(page).get_by_role("button", name="Choose a file").click()
    expect(own_file(page)).to_contain_text("Backup by itself to backup.json")


def backed_up(page: Page, count: int) -> list[dict[str, Any]]:
    expect(own_file(page)).to_contain_text(f"with {count} lines")
    entries: list[dict[str, Any]] = json.loads(page.evaluate(READ))["entries"]
    return entries


def without_place(entries: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [{name: value for name, value in one.items() if name != "seq"} for one in entries]


def test_each_line_is_in_the_file_without_a_press(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=able_without_engine))
    begin(page, "77")
    choose_file(page)
    assert backed_up(page, 1) == without_place(stored(page))
    line(page, "turned", depth_cm="12")
    assert backed_up(page, 2) == without_place(stored(page))
    expect(page.locator("[data-daybook=backup]")).to_contain_text("2 lines in this book; 0 written since")
    page.reload()
    opened(page)
    line(page, "turned", depth_cm="13")
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    assert backed_up(page, 3) == without_place(stored(page))


def test_a_permission_that_lapsed_is_said_and_asked_for_again(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=able_without_engine))
    begin(page, "77")
    choose_file(page)
    backed_up(page, 1)
    page.evaluate("() => localStorage.setItem('permission', 'prompt')")
    page.reload()
    opened(page)
    line(page, "turned", depth_cm="12")
    reminder = page.locator("[data-daybook=reminder]")
    expect(reminder).to_contain_text("1 line is on this device only")
    expect(reminder).to_contain_text("does not let this page write to backup.json any more")
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    own_file(page).get_by_role("button", name="Allow it again").click()
    assert len(backed_up(page, 2)) == 2
    expect(reminder).to_be_hidden()


def test_a_file_that_something_else_changed_is_read_before_it_is_written(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=able))
    begin(page, "77")
    choose_file(page)
    mine = backed_up(page, 1)
    page.wait_for_timeout(20)
    page.evaluate(OVERWRITE, as_file([*mine, made(1), made(2)]))
    line(page, "turned", depth_cm="12")
    expect(own_file(page)).to_contain_text("was changed by something else, so it is not written over")
    assert len(json.loads(page.evaluate(READ))["entries"]) == 3
    own_file(page).get_by_role("button", name="Read it in, then go on").click()
    expect(own_file(page)).to_contain_text("with 4 lines", timeout=READY)
    assert len(stored(page)) == 4 and len(backed_up(page, 4)) == 4


def test_a_vanished_book_does_not_empty_its_backup(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=able_without_engine))
    begin(page, "77")
    line(page, "turned", depth_cm="12")
    choose_file(page)
    backed_up(page, 2)
    home = page.url.split("?")[0]
    page.goto(page.url.split("records/")[0] + "reference/sources/")
    page.evaluate(DELETE)
    page.goto(home)
    opened(page)
    expect(page.locator("[data-daybook=gone]")).to_contain_text("There was a book of 2 lines")
    begin(page, "78")
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    expect(own_file(page)).to_contain_text("holds lines that this book does not have")
    assert len(json.loads(page.evaluate(READ))["entries"]) == 2


def test_a_browser_without_the_means_says_so(open_page: Open) -> None:
    def unable(page: Page) -> None:
        page.add_init_script("delete window.showSaveFilePicker;")
        without_engine(page)

    page = opened(open_page(PAGE, before=unable))
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    expect(own_file(page)).to_contain_text("cannot write a backup by itself")
