"""How the day-book bears a long house: ``python -m bench.day_book_growth``.

A thousand batches, a batch of five thousand lines and a file of 29 MB, in a real browser that has a quarter of one core
where this machine lets a process be held to it; else the page alone is slowed four times by the browser, which leaves
the calculator's worker as fast as it is, and the table says so. Beside each time stands its ratio to the invented year.
"""

from __future__ import annotations

import base64
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from playwright.sync_api import Error, Page, Playwright, sync_playwright

from bench.browser import CountingServer, running
from bench.day_book_files import ASSETS, DEMO_NAME
from site_src.build import build
from tests.browser.book import PUT

Line = dict[str, Any]
PAGE, BACK = "records/day-book/", "records/looking-back/"
BATCHES, LINES, FILE_BYTES = 1000, 5000, 29_000_000
_LISTED = "[data-place=batches] a"
_LINES_SHOWN, _STEP = ".day-book tr[data-entry]", "[data-place=next] .next-step"
_TABLE, _CHARTS = "[data-place=table] table", "[data-place=charts] svg"
QUARTER = Path("/sys/fs/cgroup/cpu/steep-to-kiln-bench")
_WAIT = 600_000  # ms
_FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]
# Looking costs nothing: it is done when the page changes, and what is found counts once it has been painted.
_SEEN = """(() => {
  const wanted = %s;
  window.seenAt = {};
  const left = new Set(wanted);
  const look = () => {
    for (const selector of left) {
      const one = document.querySelector(selector);
      if (!one || one.closest("[hidden]")) continue;
      left.delete(selector);
      requestAnimationFrame(() => {
        const painted = new MessageChannel();
        painted.port1.onmessage = () => { window.seenAt[selector] = Date.now() / 1000; };
        painted.port2.postMessage(0);
      });
    }
    if (!left.size) watch.disconnect();
  };
  const watch = new MutationObserver(look);
  watch.observe(document, { childList: true, subtree: true, attributes: true, attributeFilter: ["hidden"] });
  const asked = new Map();
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...more) {
    if (typeof message === "string" && message.includes('"daybook"')) {
      if (!asked.size) this.addEventListener("message", answered);
      const { id, request } = JSON.parse(message);
      asked.set(id, request.daybook);
    }
    return post.call(this, message, ...more);
  };
  const answered = ({ data }) => {
    const [, id] = /^\\{"id":(\\d+),"kind":"reply"/.exec(data) ?? [];
    if (asked.has(Number(id))) window.seenAt[`answer ${asked.get(Number(id))}`] ??= Date.now() / 1000;
  };
})()"""
_WRITE = """() => new Promise((done) => {
  const began = performance.now();
  const rows = (where) => [...document.querySelectorAll(`${where} tr[data-entry]`)].slice(-3);
  const seen = (where) => rows(where).some((row) => row.textContent.includes("98.7"));
  let shown = 0;
  const watch = new MutationObserver(() => {
    if (!shown && (seen("[data-daybook=waiting]") || seen("[data-place=lines]"))) shown = performance.now() - began;
    if (!shown || !seen("[data-place=lines]") || !document.querySelector("[data-daybook=waiting]").hidden) return;
    watch.disconnect();
    done([shown, performance.now() - began]);
  });
  const changes = { childList: true, subtree: true, attributes: true, attributeFilter: ["hidden"] };
  watch.observe(document.querySelector(".day-book"), changes);
  document.querySelector(".entry-sheet [type=submit]").click();
})"""


def year() -> list[Line]:
    """The invented year."""
    entries: list[Line] = json.loads((ASSETS / DEMO_NAME).read_text("utf-8"))["entries"]
    return entries


def house(batches: int) -> list[Line]:
    """Years of batches after one another, made of the invented one."""
    own: dict[str, list[Line]] = {}
    for one in year():
        own.setdefault(one["batch"], []).append(one)
    lines: list[Line] = []
    for number in range(batches):
        turn, place = divmod(number, len(own))
        days = timedelta(days=365 * (turn - batches // len(own)))
        for one in list(own.values())[place]:
            ids = {name: one[name] and f"{one[name]}-{turn}" for name in ("id", "replaces")}
            at = (datetime.fromisoformat(one["at"]) + days).isoformat()[:16]
            lines.append({**one, **ids, "batch": f"b{number:04d}", "at": at, "written": f"{at}:00.000Z"})
    return [line for line in lines if line["at"] > "1901"]


def long_batch(count: int) -> list[Line]:
    """One batch in the steep whose basket, bed and remarks were written so many times."""
    first = year()[:2]
    begun = datetime.fromisoformat(first[0]["at"])
    kinds = [
        ("remark", {}, "looked at"),
        ("bed", {"bottom_c": "16.8", "top_c": "15.2"}, ""),
        ("water", {"water_temp_c": "14"}, ""),
        ("gas", {"gas_meter": "CO2 meter 2", "gas_reading": "0.31", "gas_unit": "% CO2"}, ""),
    ]
    lines = [{**one, "batch": "long"} for one in first]
    for number in range(count - len(lines)):
        kind, values, remark = kinds[number % len(kinds)]
        at = (begun + timedelta(minutes=number + 60)).isoformat()[:16]
        own = {"id": f"long-{number:06d}", "batch": "long", "kind": kind, "values": values, "remark": remark}
        lines.append({**first[1], **own, "at": at, "written": f"{at}:00.000Z"})
    return lines


def as_file(entries: list[Line], size: int) -> str:
    """A saved day-book of about that many bytes."""
    each = len(json.dumps(entries, indent=1)) / len(entries)
    wanted = int(size / each)
    lines = [{**entries[n % len(entries)], "id": f"file-{n:07d}"} for n in range(wanted)]
    book = {"schema": 1, "kind": "steep-to-kiln day-book", "version": "1", "saved": "", "entries": lines}
    return json.dumps(book, indent=1)


def quarter() -> bool:
    """Whether a process can be held to a quarter of one core here."""
    try:
        QUARTER.mkdir(exist_ok=True)
        (QUARTER / "cpu.cfs_period_us").write_text("20000")
        (QUARTER / "cpu.cfs_quota_us").write_text("5000")
        (QUARTER / "cpu.shares").write_text("16384")  # it is there whatever else this machine does
    except OSError:
        return False
    return True


@contextmanager
def browsing(playwright: Playwright, profile: Path) -> Iterator[tuple[Page, Callable[[bool], None]]]:
    """A page, and what slows its browser or lets it go."""
    held, whole = quarter(), os.sched_getaffinity(0)
    words = [shutil.which("chromium") or "chromium", "--headless=new", "--remote-debugging-port=0"]
    words += [f"--user-data-dir={profile}", *_FLAGS]
    port = profile / "DevToolsActivePort"
    port.unlink(missing_ok=True)
    process = subprocess.Popen(words, start_new_session=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        while not port.exists() or "\n" not in port.read_text():
            time.sleep(0.05)
        address = f"http://127.0.0.1:{port.read_text().splitlines()[0]}"
        found = playwright.chromium.connect_over_cdp(address, timeout=_WAIT)
        page = found.contexts[0].new_page()
        page.set_default_timeout(_WAIT)

        def slow(yes: bool) -> None:
            if not held:
                session = page.context.new_cdp_session(page)
                session.send("Emulation.setCPUThrottlingRate", {"rate": 4 if yes else 1})
                return
            place = QUARTER if yes else QUARTER.parent
            # On two cores a thread that works all the time takes the whole quarter of each turn before others wake.
            cores = {min(whole)} if yes else whole
            for one in _family(process.pid):
                with suppress(OSError):
                    (place / "cgroup.procs").write_text(str(one))
                    for thread in Path(f"/proc/{one}/task").iterdir():
                        os.sched_setaffinity(int(thread.name), cores)

        yield page, slow
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()


def _family(pid: int) -> list[int]:
    """A process and all that it has started."""
    parents = {}
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            parents[int(stat.parent.name)] = int(stat.read_text().rsplit(")", 1)[1].split()[1])
    found = [pid]
    for one in found:
        found += [child for child, parent in parents.items() if parent == one]
    return found


def _until(page: Page, selector: str) -> float:
    """Seconds from now until something is seen."""
    began = time.monotonic()
    page.locator(selector).first.wait_for(timeout=_WAIT)
    return time.monotonic() - began


def _open(page: Page, address: str, *selectors: str) -> list[float]:
    page.goto("about:blank")
    page.wait_for_timeout(500)
    began = time.time()
    page.goto(address, wait_until="commit")
    while True:
        time.sleep(0.5)
        with suppress(Error):  # it is on its way
            seen: dict[str, float] = page.evaluate("() => window.seenAt ?? {}")
            if all(selector in seen for selector in selectors):
                return [seen[selector] - began for selector in selectors]
        if time.time() - began > _WAIT / 1000:
            raise TimeoutError(f"{address} does not show {selectors}")


def fill(page: Page, address: str, lines: list[Line]) -> None:
    """Put lines into the store of a fresh profile."""
    page.goto(address + PAGE)
    page.locator("[data-daybook=shelf]").wait_for()
    for at in range(0, len(lines), 2000):
        page.evaluate(PUT, lines[at : at + 2000])


def looked_at(playwright: Playwright, address: str, lines: list[Line], batch: str) -> dict[str, float]:
    """Open shelf, batch, line and look-back of a book; seconds of each."""
    times: dict[str, float] = {}
    with tempfile.TemporaryDirectory() as profile, browsing(playwright, Path(profile)) as (page, slow):
        fill(page, address, lines)
        page.add_init_script(_SEEN % json.dumps([_LISTED, _LINES_SHOWN, _STEP, _TABLE, _CHARTS]))
        page.goto(address + PAGE)
        _until(page, "[data-place=batches] table")
        page.goto(address + BACK)
        began = time.monotonic()
        _until(page, "[data-place=table] table")
        _settled(page)
        times["look-back, the first time, whole core"] = time.monotonic() - began
        _until(page, "[data-place=held] table")
        page.wait_for_timeout(3000)
        page.goto(address + PAGE)
        _until(page, "[data-place=batches] table")
        page.wait_for_timeout(3000)
        page.goto(f"{address}{PAGE}?batch={batch}")
        _until(page, "[data-place=next] .next-step")
        page.wait_for_timeout(3000)
        slow(True)
        times["shelf, listed"], times["shelf, worked out"] = _open(page, address + PAGE, _LISTED, "answer book")
        times["look-back, table"], times["look-back, charts"] = _open(page, address + BACK, _TABLE, _CHARTS)
        opened = _open(page, f"{address}{PAGE}?batch={batch}", _LINES_SHOWN, _STEP)
        times["batch, lines"], times["batch, worked out"] = opened
        page.locator(".entry-all [data-kind-of-entry=turned]").click()
        page.locator(".entry-sheet [data-question=depth_cm] input").fill("98.7")
        page.wait_for_timeout(1500)
        shown, drawn = page.evaluate(_WRITE)
        times["line, written"], times["line, worked out"] = shown / 1000, drawn / 1000
        (times["shelf, listed, a line later"],) = _open(page, address + PAGE, _LISTED)
        (times["batch, lines, a line later"],) = _open(page, f"{address}{PAGE}?batch={batch}", _LINES_SHOWN)
        back = _open(page, address + BACK, _TABLE, "answer look-back")
        times["look-back, table, a line later"], times["look-back, worked out, a line later"] = back
    return times


def _settled(page: Page) -> None:
    """Wait until nothing more is being summed up."""
    while "…" in page.locator("[data-daybook=state]").inner_text():
        page.wait_for_timeout(200)


def _choose(page: Page, selector: str, file: Path) -> None:
    """Choose a file by its path, as a reader does: Playwright would have the page itself put it together from text."""
    session = page.context.new_cdp_session(page)
    root = session.send("DOM.getDocument", {"depth": 0})["root"]["nodeId"]
    node = session.send("DOM.querySelector", {"nodeId": root, "selector": selector})["nodeId"]
    session.send("DOM.setFileInputFiles", {"files": [str(file)], "nodeId": node})


@contextmanager
def traced(page: Page) -> Iterator[dict[str, float]]:
    """What the longest task of the page took meanwhile: seconds by the clock, and of its thread's own time.

    Of a quarter of one core the page's thread gets what the worker, the disk's and the screen's threads leave.
    """
    assert page.context.browser
    session = page.context.browser.new_browser_cdp_session()
    ends: list[dict[str, Any]] = []
    session.on("Tracing.tracingComplete", lambda end: ends.append(end))
    kinds = {"includedCategories": ["disabled-by-default-devtools.timeline"], "excludedCategories": ["*"]}
    session.send("Tracing.start", {"transferMode": "ReturnAsStream", "traceConfig": kinds})
    longest: dict[str, float] = {}
    yield longest
    session.send("Tracing.end")
    while not ends:
        page.wait_for_timeout(100)
    pieces = []
    while not (piece := session.send("IO.read", {"handle": ends[0]["stream"], "size": 4_000_000})).get("eof"):
        data = piece["data"]
        pieces.append(base64.b64decode(data).decode() if piece.get("base64Encoded") else data)
    longest |= _longest(json.loads("".join([*pieces, piece["data"]]))["traceEvents"])


def _longest(events: list[dict[str, Any]]) -> dict[str, float]:
    """The longest tasks of the busiest page: others are the browser's own windows."""
    threads = {
        (one["pid"], one["tid"])
        for one in events
        if one["name"] == "thread_name" and one["args"]["name"] == "CrRendererMain"
    }
    tasks: dict[tuple[int, int], list[dict[str, Any]]] = {thread: [] for thread in threads}
    for one in events:
        if one["name"] == "RunTask" and "dur" in one and (one["pid"], one["tid"]) in tasks:
            tasks[one["pid"], one["tid"]].append(one)
    own = max(tasks.values(), key=lambda some: sum(one.get("tdur", 0) for one in some))
    by_clock = sorted(own, key=lambda one: -one["dur"])
    return {
        "longest task meanwhile, by the clock": by_clock[0]["dur"] / 1e6,
        "longest task meanwhile, its own time": max(one.get("tdur", 0) for one in own) / 1e6,
        "tasks of more than 0.1 s by the clock": sum(one["dur"] > 1e5 for one in own),
    }


def read_in(playwright: Playwright, address: str, size: int) -> dict[str, float]:
    """Read a long file in; seconds, and the longest tasks of the page."""
    with tempfile.TemporaryDirectory() as profile, browsing(playwright, Path(profile)) as (page, slow):
        file = Path(profile) / "long-book.json"
        file.write_text(as_file(house(200), size))
        page.goto(address + PAGE)
        page.locator("[data-daybook=shelf]").wait_for()
        page.wait_for_timeout(3000)
        slow(True)
        with traced(page) as longest:
            began = time.monotonic()
            _choose(page, "section.day-book input[type=file]", file)
            page.locator("[data-daybook=state]", has_text="added").wait_for(timeout=_WAIT)
            took = time.monotonic() - began
            page.wait_for_timeout(2000)
            slow(False)
    return {"file of 29 MB": took, **longest}


def main(address: str = "") -> None:
    """Measure a site that is served, or one built for it; print the table."""
    if not address:
        with tempfile.TemporaryDirectory() as scratch:
            server = CountingServer(Path(scratch) / "site")
            build(server.site, site_url=server.address)
            with running(server):
                main(server.address)
        return
    print("a quarter of one core" if quarter() else "the page alone slowed four times; the worker is not slowed")
    with sync_playwright() as playwright:
        small = looked_at(playwright, address, year(), "example-12")
        long = [*house(BATCHES), *long_batch(LINES)]
        large = looked_at(playwright, address, long, "long")
        for name, took in large.items():
            ratio = took / max(small[name], 0.001)
            print(f"{name:42}{took:>8.2f} s  {ratio:>6.1f} times the invented year", flush=True)
        for name, took in read_in(playwright, address, FILE_BYTES).items():
            print(f"{name:42}{took:>8.3f}{'' if name.startswith('tasks') else ' s'}", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:2])
