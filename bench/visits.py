"""How long a reader waits, beside the runtime as published; how much is carried; how long one answer takes.

Both sites are served by the same server with the same compression, on this machine's loopback, in the same run.
A cold visit has a fresh profile; a warm one repeats a visit in a profile that has made it twice before.
"""

from __future__ import annotations

import shutil
import tempfile
import threading
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from typing import Any

from playwright.sync_api import BrowserContext, Page, Playwright, sync_playwright

from site_src.build import build
from site_src.compress import compress_site
from site_src.policy import policy, write_headers
from site_src.runtime import published_runtime, read_pins
from site_src.server import Handler, Server
from site_src.settings import ROOT

_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
_PATIENCE = 60_000  # ms
_CASES = {
    "moisture-target": "barley_kg=5000&barley_moisture=12.5&target_moisture=44",
    "steep-timing": "barley_moisture=12.5&water_temp_c=14&corn_weight_g=42&stages=8 14;16 13;8 14&target_moisture=45",
}


@dataclass
class Visit:
    """One visit: marks in milliseconds from the start of the navigation, and bytes that the server sent."""

    marks: dict[str, float]
    carried: int


class _CountingHandler(Handler):
    def send_header(self, keyword: str, value: str) -> None:
        if keyword == "Content-Length":
            assert isinstance(self.server, CountingServer)
            self.server.carried[self.path] += int(value)
        super().send_header(keyword, value)


class CountingServer(Server):
    """Counts the bytes of the bodies that it sends."""

    def __init__(self, site: Path) -> None:
        super().__init__(site)
        self.RequestHandlerClass = _CountingHandler
        self.carried: Counter[str] = Counter()


@contextmanager
def running(server: CountingServer) -> Iterator[CountingServer]:
    """Serve in the background."""
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()


def bare_site(folder: Path) -> Path:
    """Make the page that runs the published files and nothing else."""
    shutil.copytree(ROOT / "bench" / "bare", folder)
    shutil.copytree(published_runtime(read_pins()), folder / "runtime")
    write_headers(folder, policy([]))
    compress_site(folder)
    return folder


def see_bare(page: Page, address: str) -> dict[str, float]:
    """Open the bare page; return its marks."""
    page.goto(address)
    page.locator("#numpy", has_text="ms").wait_for(timeout=_PATIENCE)
    return _marks(page)


def see_sheet(sheet: str, case: str) -> Callable[[Page, str], dict[str, float]]:
    """Return a function that opens a sheet by a link that carries numbers, and waits for their answer."""

    def see(page: Page, address: str) -> dict[str, float]:
        page.goto(f"{address}calculators/{sheet}/?sheet={sheet}&{case}")
        page.locator(f"#{sheet} [data-standing=answered]").wait_for(timeout=_PATIENCE)
        return _marks(page)

    return see


def _marks(page: Page) -> dict[str, float]:
    found: dict[str, float] = page.evaluate(
        "() => Object.fromEntries(performance.getEntriesByType('mark').map(mark => [mark.name, mark.startTime]))"
    )
    return found


def visits(
    playwright: Playwright, server: CountingServer, see: Callable[[Page, str], dict[str, float]]
) -> tuple[Visit, Visit]:
    """Make a cold and a warm visit in one fresh profile."""
    with tempfile.TemporaryDirectory() as profile:
        context = browser(playwright, profile)
        made = []
        for _ in range(4):
            page = context.new_page()
            server.carried.clear()
            marks = see(page, server.address)
            made.append(Visit(marks, sum(server.carried.values())))
            page.wait_for_timeout(500)  # lets the browser keep its compiled code
            page.close()
        context.close()
    return made[0], made[-1]


def browser(playwright: Playwright, profile: str) -> BrowserContext:
    """Start Chromium with a profile of its own."""
    return playwright.chromium.launch_persistent_context(profile, executable_path=shutil.which("chromium"), args=_FLAGS)


def recomputes(playwright: Playwright, server: CountingServer, sheet: str, case: str, count: int) -> dict[str, float]:
    """Return medians, in milliseconds, of one recompute: in the worker, and there and back from the page."""
    with tempfile.TemporaryDirectory() as profile:
        context = browser(playwright, profile)
        page = context.new_page()
        page.add_init_script(path=ROOT / "bench" / "watch_worker.js")
        see_sheet(sheet, case)(page, server.address)
        times: dict[str, list[float]] = page.evaluate("count => askAgain(count)", count)
        context.close()
    return {name: median(values) for name, values in times.items()}


def report(rounds: int) -> Iterator[str]:
    """Measure; yield the lines of a table."""
    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright:
        bare_server = CountingServer(bare_site(Path(scratch) / "bare"))
        our_server = CountingServer(Path(scratch) / "site")
        build(our_server.site, site_url=our_server.address)
        sights: dict[str, tuple[CountingServer, Any]] = {"bare": (bare_server, see_bare)}
        for sheet, case in _CASES.items():
            sights[sheet] = (our_server, see_sheet(sheet, case))
        with running(bare_server), running(our_server):
            made: dict[str, list[tuple[Visit, Visit]]] = {name: [] for name in sights}
            for _ in range(rounds):  # in turns, so that a slow spell of the machine falls on all
                for name, (server, see) in sights.items():
                    made[name].append(visits(playwright, server, see))
            yield from _table(made)
            for sheet, case in _CASES.items():
                once = recomputes(playwright, our_server, sheet, case, 200)
                words = f"{once['worker']:.1f} ms in the worker, {once['page']:.1f} ms there and back"
                yield f"one recompute of {sheet}: {words}"


def _table(made: dict[str, list[tuple[Visit, Visit]]]) -> Iterator[str]:
    yield f"{'ms from opening the page, medians':46}{'cold':>8}{'warm':>8}{'MB cold':>9}{'kB warm':>9}"
    base: dict[tuple[str, int], float] = {}
    rows = [("bare", "core"), ("bare", "numpy"), *((name, "sheet-answered") for name in made if name != "bare")]
    for name, mark in rows:
        times = [median(pair[which].marks[mark] for pair in made[name]) for which in (0, 1)]
        carried = [median(pair[which].carried for pair in made[name]) for which in (0, 1)]
        if name == "bare":
            base[mark, 0], base[mark, 1] = times
            label, ratio = f"runtime as published, {mark} ready", ""
        else:
            label = f"{name}, first answer to own numbers"
            ratio = "  of the core as published: " + ", ".join(f"{times[i] / base['core', i]:.2f}" for i in (0, 1))
        sizes = f"{carried[0] / 1e6:>9.2f}{carried[1] / 1e3:>9.1f}" if (name, mark) != ("bare", "core") else ""
        yield f"{label:46}{times[0]:>8.0f}{times[1]:>8.0f}{sizes}{ratio}"
