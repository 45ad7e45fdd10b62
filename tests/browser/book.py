"""What the tests of the day-book do in its page: begin a batch, write a line, look into the device's store."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

from tests.browser.sheets import READY

PAGE = "records/day-book/"
# The store as the browser holds it, read past the page's own scripts.
START = {
    "barley": "two-row",
    "lot": "3",
    "season": "2026",
    "barley_kg": "6000",
    "barley_moisture": "12.5",
    "target_moisture": "44",
    "water_temp_c": "14",
    "basket_g": "84",
    "sample_g": "100",
}
"""A batch begun, as it is typed."""
STORED = """async (demo) => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split("records/")[0];
  const come = (request) => new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
  const db = await come(indexedDB.open(base + (demo ? "day-book-demo" : "day-book")));
  const lines = await come(db.transaction("entries").objectStore("entries").getAll());
  db.close();
  return lines;
}"""
PUT = """async (entries) => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split("records/")[0];
  const request = indexedDB.open(base + "day-book");
  const db = await new Promise((done) => { request.onsuccess = () => done(request.result); });
  await new Promise((done, fail) => {
    const work = db.transaction("entries", "readwrite");
    for (const entry of entries) work.objectStore("entries").add(entry);
    work.oncomplete = done;
    work.onabort = () => fail(work.error);
  });
  db.close();
}"""


def stored(page: Page, *, demo: bool = False) -> list[dict[str, Any]]:
    """Return every entry on the device, in the order of writing."""
    lines: list[dict[str, Any]] = page.evaluate(STORED, demo)
    return lines


def opened(page: Page) -> Page:
    """Wait until the page's own script has come and has read the book."""
    begun = page.locator(".entry-all:visible, .entry-sheet:visible")
    expect(page.get_by_role("button", name="Begin a batch").or_(begun).first).to_be_visible()
    return page


def write_it(page: Page) -> None:
    page.get_by_role("button", name="Write it").click()
    expect(page.locator(".entry-sheet")).to_be_hidden()
    expect(page.locator("[data-daybook=state]")).to_contain_text("Written")


def begin(page: Page, batch: str, **values: str) -> None:
    """Begin a batch from the shelf; values by the words of their labels."""
    page.get_by_role("button", name="Begin a batch").click()
    sheet = page.locator(".entry-sheet")
    sheet.get_by_label("Batch number").fill(batch)
    sheet.locator("details").evaluate_all("all => all.forEach((more) => { more.open = true; })")
    for question, text in values.items():
        sheet.locator(f"[data-question={question}] input").first.fill(text)
    write_it(page)
    expect(page.locator("[data-daybook=batch]")).to_have_text(f"Batch {batch}")


def choose(page: Page, kind: str) -> Locator:
    """Press the button of a kind in the list of all kinds; return the form."""
    page.locator(f".entry-all [data-kind-of-entry={kind}]").click()
    sheet = page.locator(".entry-sheet")
    expect(sheet).to_be_visible()
    return sheet


def line(page: Page, kind: str, **values: str) -> None:
    """Write one line of a batch."""
    sheet = choose(page, kind)
    for question, text in values.items():
        radio = sheet.locator(f"[data-question={question}] input[value='{text}']")
        if radio.count():
            radio.check()
        else:
            sheet.locator(f"[data-question={question}] input").first.fill(text)
    write_it(page)


def drawn(page: Page) -> Locator:
    """Return the lines as Python drew them, all of them."""
    expect(page.locator("[data-daybook=waiting]")).to_be_hidden(timeout=READY)
    return page.locator("[data-place=lines] tr[data-entry]")


def save(page: Page, button: str, folder: Path) -> Path:
    """Press a button that saves a file; return the file."""
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    with page.expect_download(timeout=READY) as coming:
        page.locator("details.day-book-files").get_by_role("button", name=button).click()
    file = folder / coming.value.suggested_filename
    coming.value.save_as(file)
    return file


def read_in(page: Page, text: str, name: str = "book.json") -> Locator:
    """Give the page a file; return the line that says what came of it."""
    page.locator("section.day-book input[type=file]").set_input_files(
        {"name": name, "mimeType": "application/octet-stream", "buffer": text.encode()}
    )
    return page.locator("[data-daybook=state]")


def made(number: int, batch: str = "77", kind: str = "basket", **more: Any) -> dict[str, Any]:
    """Return an entry as a file holds it."""
    return {
        "schema": 1,
        "id": f"made-{number:06d}-here",
        "batch": batch,
        "kind": kind,
        "at": f"2026-02-{1 + number // 1440 % 28:02d}T{number // 60 % 24:02d}:{number % 60:02d}",
        "written": "2026-02-01T08:00:00.000Z",
        "zone": 0,
        "values": {"gross_g": str(700 + number % 200), "drained": "drained"},
        "who": "AB",
        "remark": "",
        "replaces": None,
        **more,
    }


def as_file(entries: list[dict[str, Any]], schema: int = 1) -> str:
    """Return a saved day-book with these entries."""
    return json.dumps(
        {
            "schema": schema,
            "kind": "steep-to-kiln day-book",
            "version": "1",
            "saved": "2026-02-01T08:00",
            "entries": entries,
        }
    )
