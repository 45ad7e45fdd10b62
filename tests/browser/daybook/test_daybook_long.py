"""A long house: a page draws what is seen, and looking back rests on sums that are kept beside the lines."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from bench.day_book_growth import as_file, house, long_batch
from tests.browser.book import PAGE, PUT, begin, line, made, opened, read_in, stored
from tests.browser.conftest import Open, engine_later, go
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.further]
BACK = "records/looking-back/"
SUMS = """async () => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split("records/")[0];
  const come = (request) => new Promise((done) => { request.onsuccess = () => done(request.result); });
  const db = await come(indexedDB.open(base + "day-book-beside"));
  const sums = await come(db.transaction("sums").objectStore("sums").getAll());
  db.close();
  return sums.map(({ id, lines, deep }) => [id, lines, Boolean(deep)]);
}"""
WHOLE = """async () => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split("records/")[0];
  const come = (request) => new Promise((done) => { request.onsuccess = () => done(request.result); });
  const db = await come(indexedDB.open(base + "day-book-beside"));
  const whole = await come(db.transaction("kept").objectStore("kept").get("whole"));
  db.close();
  return whole?.extent ?? "";
}"""
# How many lines went along with each question.
WATCH = """() => {
  window.sent = [];
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...more) {
    if (typeof message === "string" && message.includes('"daybook"')) {
      const { request } = JSON.parse(message);
      window.sent.push([request.daybook, request.entries.length, message.length]);
    }
    return post.call(this, message, ...more);
  };
}"""


# Lines that the page itself writes.
WORK = """() => {
  window.added = 0;
  const add = IDBObjectStore.prototype.add;
  IDBObjectStore.prototype.add = function (...what) {
    window.added += 1;
    return add.apply(this, what);
  };
}"""


# Lines that the page reads from the device.
READ = """(() => {
  window.read = 0;
  const all = IDBObjectStore.prototype.getAll;
  IDBObjectStore.prototype.getAll = function (...what) {
    const request = all.apply(this, what);
    const came = () => { window.read += request.result.length; };
    if (this.name === "entries") request.addEventListener("success", came);
    return request;
  };
})()"""


# What is said of the book, and when.
SAID = """() => {
  window.said = [];
  const line = document.querySelector("[data-daybook=state]");
  const watch = new MutationObserver(() => window.said.push([performance.now(), line.textContent]));
  watch.observe(line, { childList: true });
}"""
# Waits until for a second nothing more was asked; what waits until nobody types is asked 0.3 s after that.
ASKED_NO_MORE = """async () => {
  for (let before = -1; before !== window.sent.length; await new Promise((done) => setTimeout(done, 1000)))
    before = window.sent.length;
}"""
# Somebody who goes on typing elsewhere on the page.
TYPES = """() => { window.typing = setInterval(() => document.dispatchEvent(new KeyboardEvent("keydown")), 100); }"""


FEWEST = ("start", "stage-begun", "cast", "to-kiln")  # what a batch needs to stand in the table


def long_house(batches: int, whole: int) -> list[dict[str, Any]]:
    """Years of batches, of which only the last are written whole: each line costs time."""
    lines = house(batches)
    names = list(dict.fromkeys(one["batch"] for one in lines))
    return [one for one in lines if one["batch"] in names[-whole:] or one["kind"] in FEWEST]


def watched(page: Page) -> None:
    engine_later(page)
    page.add_init_script(f"({WATCH})()")


def counted(page: Page) -> None:
    page.add_init_script(f"({WATCH})()")
    page.add_init_script(f"({WORK})()")


@pytest.mark.parametrize("count", [1500, pytest.param(5000, marks=pytest.mark.long)])
def test_a_batch_of_thousands_of_lines_draws_what_is_seen(open_page: Open, count: int) -> None:
    page = opened(open_page(PAGE, before=engine_later))
    lines = long_batch(count)
    for at in range(0, len(lines), 1000):
        page.evaluate(PUT, lines[at : at + 1000])
    page.goto(f"{page.url}?batch=long")
    rows = page.locator("[data-place=lines] tr[data-entry]")
    expect(page.locator(".day-book tr[data-entry]").first).to_be_visible()  # before the calculator
    expect(rows).to_have_count(60, timeout=2 * READY)
    assert page.locator("[data-daybook=page]").evaluate("page => page.innerHTML.length") < 300_000
    line(page, "turned", depth_cm="98.7")
    expect(rows.last).to_contain_text("98.7", timeout=READY)
    expect(rows).to_have_count(60)
    expect(page.locator("[data-daybook=waiting]")).to_be_hidden()
    page.get_by_role("button", name="Show more lines").click()
    expect(rows).to_have_count(300, timeout=READY)
    assert len(stored(page)) == count + 1


def test_a_line_just_written_is_asked_about_at_once_and_once(open_page: Open) -> None:
    """Who has written it waits for what comes of it; what else Python is asked waits until nobody types."""
    page = opened(open_page(PAGE, before=counted))
    begin(page, "77")
    expect(page.locator("[data-place=next] .next-step")).to_be_visible(timeout=2 * READY)
    page.evaluate(ASKED_NO_MORE)  # because the page had opened
    page.evaluate(TYPES)
    page.evaluate("() => { window.sent = []; }")
    line(page, "turned", depth_cm="48.7")
    expect(page.locator("[data-place=lines] tr[data-entry]").last).to_contain_text("48.7", timeout=READY)
    page.evaluate("() => clearInterval(window.typing)")
    page.evaluate(ASKED_NO_MORE)
    batches = [one for one in page.evaluate("() => window.sent") if one[0] == "batch"]
    assert [lines for _, lines, _ in batches] == [2]


def asked(page: Page, *words: str) -> list[tuple[str, int, int]]:
    """What was sent to the engine, once all of these were asked."""
    page.wait_for_function(
        "words => words.every(word => window.sent.some(([one]) => one === word))", arg=list(words), timeout=3 * READY
    )
    sent: list[tuple[str, int, int]] = page.evaluate("() => window.sent")
    return sent


def test_looking_back_rests_on_sums(open_page: Open, address: str) -> None:
    page = opened(open_page(PAGE, before=watched))
    lines = long_house(62, whole=8)
    names = {one["batch"] for one in lines}
    page.evaluate(PUT, lines)
    page.goto(address + BACK)
    state = page.locator("[data-daybook=state]")
    expect(page.locator("[data-place=table] table.look-back tbody tr")).to_have_count(60, timeout=2 * READY)
    expect(state).to_contain_text("62 batches", timeout=3 * READY)
    assert {name for name, _, _ in page.evaluate(SUMS)} == names
    page.reload()
    expect(state).to_contain_text("62 batches", timeout=2 * READY)
    sent = asked(page, "look-back", "fits")  # what was drawn last stands there before
    # The forecast of the last finished batches is tried again with their lines.
    assert [one for one in sent if one[1] and one[0] != "held"] == [], "lines were looked at again"
    assert sum(deep for _, _, deep in page.evaluate(SUMS)) >= 5
    # A line that is added makes the sums of its batch old, and those alone.
    page.evaluate(PUT, [{**lines[-1], "id": "one-more-line"}])
    go(page, address)
    page.evaluate("() => { window.sent = []; }")
    go(page, address + BACK)
    expect(state).to_contain_text("62 batches", timeout=2 * READY)
    looked = [one for one in asked(page, "look-back") if one[0] == "look-back"]
    own = sum(one["batch"] == "b0061" for one in lines) + 1
    assert looked[0][1] == own


def test_the_home_page_reads_the_batches_at_work_alone(open_page: Open, address: str) -> None:
    page = opened(open_page(PAGE, before=watched))
    lines = house(40)
    names = {one["batch"] for one in lines}
    now = page.evaluate("() => new Date().toISOString()")
    running = made(1, "now", "start", at=now[:16], written=now, values={})
    more = made(2, "now", "water", at=now[:16], written=now, values={"water_temp_c": "14"})
    page.evaluate(PUT, [*lines, running, more])
    page.goto(address + PAGE)  # more batches than the shelf looks at: it works out sums of them
    for _ in range(3 * READY // 100):
        if page.evaluate(WHOLE):
            break
        page.wait_for_timeout(100)
    assert {name for name, _, _ in page.evaluate(SUMS)} == names | {"now"}
    page.evaluate(PUT, [made(3, "now", "stage-begun", at=now[:16], written=now, values={"stage": "wet"})])
    page.add_init_script(READ)
    page.goto(address)
    row = page.locator("[data-day-book=today] [data-today='now']")
    expect(row).to_contain_text("under water", timeout=2 * READY)  # the line written since counts too
    assert page.evaluate("() => window.read") < len(lines) / 4


def test_a_long_file_is_written_beside_the_page(open_page: Open) -> None:
    """What the page does not do cannot stop it: no line is written by it, and few are handed over at once."""
    page = opened(open_page(PAGE, before=counted))
    lines = house(40)
    page.evaluate(SAID)
    state = read_in(page, as_file([{**one, "batch": f"b{n // 400}"} for n, one in enumerate(lines)], 1_500_000))
    expect(state).to_contain_text("added", timeout=3 * READY)
    said: list[tuple[float, str]] = page.evaluate("() => window.said")
    progress = [(at, words) for at, words in said if words.startswith(("Read ", "Written "))]
    assert progress, said
    # Each is read out to who cannot see it, and each picture of the page takes time from the reading.
    seconds = (said[-1][0] - said[0][0]) / 1000
    assert len(progress) <= 2 * seconds + 4
    expect(page.locator("[data-daybook=state] + [data-daybook=progress]")).to_have_count(1)  # the bar beside its words
    expect(page.locator("[data-place=batches] table")).to_be_visible(timeout=READY)
    count = len(stored(page))
    assert count > 4000
    expect(state).to_contain_text(f"{count} lines added")
    assert page.evaluate("() => window.added") == 0
    shelf = [entries for words, entries, _ in page.evaluate("() => window.sent") if words == "book"]
    assert shelf and max(shelf) <= 1500
