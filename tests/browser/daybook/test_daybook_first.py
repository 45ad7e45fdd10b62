"""What a reader sees first: what was drawn of the book last stands while Python does not answer at all."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from bench.day_book_growth import year
from tests.browser.book import PAGE, PUT, choose, drawn, made, opened, stored
from tests.browser.conftest import NO_ENGINE, Open, engine_later
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.python_here, pytest.mark.further]
BACK = "records/looking-back/"
KEPT = """async () => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split("records/")[0];
  const come = (request) => new Promise((done) => { request.onsuccess = () => done(request.result); });
  const db = await come(indexedDB.open(base + "day-book-beside"));
  const store = db.transaction("kept").objectStore("kept");
  const [keys, views] = await Promise.all([come(store.getAllKeys()), come(store.getAll())]);
  db.close();
  return Object.fromEntries(keys.map((key, at) => [key, [...Object.keys(views[at].places ?? {}), views[at].last?.id]]));
}"""
OTHER_CALCULATORS = """async () => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split("records/")[0];
  const come = (request) => new Promise((done) => { request.onsuccess = () => done(request.result); });
  const db = await come(indexedDB.open(base + "day-book-beside"));
  const work = db.transaction("kept", "readwrite");
  const [keys, views] = await Promise.all([
    come(work.objectStore("kept").getAllKeys()), come(work.objectStore("kept").getAll())
  ]);
  keys.forEach((key, at) => views[at].places && work.objectStore("kept").put({ ...views[at], mark: "other" }, key));
  await new Promise((done) => { work.oncomplete = done; });
  db.close();
}"""
NEVER = f"delete sessionStorage.engineMayCome; {NO_ENGINE}"
NAMES = list(dict.fromkeys(one["batch"] for one in year()))[-3:]  # each of them costs time, and shows the same


def part_of_a_year() -> list[dict[str, Any]]:
    return [one for one in year() if one["batch"] in NAMES]


def kept(page: Page, key: str, place: str) -> None:
    """Wait until a view is kept with a place of it, or of the book up to a line."""
    for _ in range(2 * READY // 250):
        if place in page.evaluate(KEPT).get(key, []):
            return
        page.wait_for_timeout(250)
    raise AssertionError(f"no {place} of the {key} is kept: {page.evaluate(KEPT)}")


def a_book(page: Page) -> str:
    """Put a part of a year into the book; return its last batch, of which a view is kept, as of the shelf."""
    page.evaluate(PUT, part_of_a_year())
    page.goto(page.url)
    expect(page.locator("[data-place=batches] table")).to_be_visible(timeout=READY)
    kept(page, "view of the shelf", "batches")
    name = page.locator("[data-place=batches] tbody tr a").first.inner_text()
    page.locator("[data-place=batches] tbody tr a").first.click()
    drawn(page)
    kept(page, f"view of batch {name}", "lines")
    return name


def test_the_shelf_and_the_lines_stand_before_python_is_asked(open_page: Open, address: str) -> None:
    page = opened(open_page(PAGE, before=engine_later))
    name = a_book(page)
    lines = page.locator("[data-place=lines] tr[data-entry]")
    expect(lines.last.get_by_role("button", name="Correct")).to_be_visible()
    before = lines.all_inner_texts()
    page.add_init_script(NEVER)
    page.goto(address + PAGE)
    rows = page.locator("[data-place=batches] tbody tr")
    expect(rows.first).to_contain_text(name)
    assert rows.count() == len(NAMES)
    page.goto(f"{address}{PAGE}?batch={name}")
    expect(lines.last.get_by_role("button", name="Correct")).to_be_visible()
    assert lines.all_inner_texts() == before
    expect(page.locator("[data-daybook=waiting]")).to_be_hidden()
    lines.last.get_by_role("button", name="Correct").click()  # of a line that the page may not have read so far
    expect(page.locator(".entry-sheet")).to_be_visible()
    page.get_by_role("button", name="Leave it").click()

    # A line shows before Python has seen it, and so does what another tab has written since, below what was kept.
    waiting = page.locator("[data-daybook=waiting] tr[data-entry]")
    choose(page, "turned").locator("[data-question=depth_cm] input").fill("98.7")
    page.get_by_role("button", name="Write it").click()
    expect(waiting).to_have_count(1)
    expect(waiting.first).to_contain_text("98.7")
    expect(page.locator("[data-daybook=state]")).to_contain_text("Written")
    assert stored(page)[-1]["values"]["depth_cm"] == "98.7"
    page.evaluate(PUT, [made(1, NAMES[0], "remark", values={}, remark="of another tab", at="2031-01-01T10:00")])
    page.goto(f"{address}{PAGE}?batch={name}")
    expect(waiting).to_have_count(1)
    expect(waiting.first).to_contain_text("98.7")
    # The shelf shows only what still holds.
    page.goto(address + PAGE)
    listed = page.locator("[data-place=batches] li")
    expect(listed.first).to_contain_text(f"{NAMES[0]} Wed 1 Jan")
    expect(page.locator("[data-place=batches] table")).to_have_count(0)  # its rows would be those of before
    assert listed.count() == len(NAMES)

    # What other calculators drew is not shown: all lines stand as they were typed.
    page.evaluate(OTHER_CALCULATORS)
    page.goto(f"{address}{PAGE}?batch={name}")
    expect(waiting).to_have_count(len(before) + 1)
    expect(page.locator("[data-place=lines] tr")).to_have_count(0)


def test_looking_back_on_the_same_book_waits_for_nothing_and_reads_no_line(open_page: Open, address: str) -> None:
    page = opened(open_page(PAGE, before=engine_later))
    page.evaluate(PUT, part_of_a_year())
    page.goto(address + BACK)
    state = page.locator("[data-daybook=state]")
    expect(state).to_contain_text("batches,", timeout=2 * READY)
    kept(page, "view of all", "fits")
    kept(page, "view of all", "held")
    # One more line: it is looked at again, and kept anew.
    page.evaluate(PUT, [made(1, NAMES[-1], "remark", values={}, remark="later")])
    page.reload()
    kept(page, "view of all", "made-000001-here")
    kept(page, "view of all", "held")
    said, table = state.inner_text(), page.locator("[data-place=table]").inner_html()
    assert "As it stood" not in said
    page.add_init_script(NEVER)
    page.add_init_script("""
      window.read = 0;
      const all = IDBObjectStore.prototype.getAll;
      IDBObjectStore.prototype.getAll = function (...what) {
        if (this.name === "entries") window.read += 1;
        return all.apply(this, what);
      };
    """)
    page.reload()
    expect(state).to_have_text(said)
    expect(page.locator("[data-place=charts] svg").first).to_be_visible()
    expect(page.locator("[data-daybook=against] option")).to_have_count(len(NAMES))
    assert page.locator("[data-place=table]").inner_html() == table
    assert page.evaluate("() => window.read") == 0
    # What is older says so.
    page.evaluate(PUT, [made(2, NAMES[-1], "remark", values={}, remark="later still")])
    page.reload()
    expect(state).to_contain_text("As it stood before the last line. It is being looked at again.")
    expect(page.locator("[data-place=table] table").first).to_be_visible()
