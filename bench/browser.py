"""A browser, and servers that count what they send.

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

from playwright.sync_api import BrowserContext, Page, Playwright

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
CASES = {
    "moisture-target": "barley_kg=5000&barley_moisture=12.5&target_moisture=44",
    "batch-forecast": "barley_moisture=12.5&water_temp_c=14&stages=8;8;8;12;3&bed=24 14;24 15;24 15;24 16;24 16",
    "steep-timing": "barley_moisture=12.5&water_temp_c=14&corn_weight_g=42&stages=8 14;16 13;8 14&target_moisture=45",
}


See = Callable[..., dict[str, float]]


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


def bare_site(folder: Path, runtime: Path | None = None) -> Path:
    """Make the page that runs the published files, or those of another folder, and nothing else."""
    shutil.copytree(ROOT / "bench" / "bare", folder)
    shutil.copytree(runtime or published_runtime(read_pins()), folder / "runtime")
    write_headers(folder, policy([]))
    compress_site(folder)
    return folder


def see_bare(page: Page, address: str) -> dict[str, float]:
    """Open the bare page; return its marks."""
    page.goto(address)
    page.locator("#numpy", has_text="ms").wait_for(timeout=_PATIENCE)
    return _marks(page)


def see_sheet(sheet: str, case: str) -> See:
    """Return a function that opens a sheet by a link that carries numbers, and waits for their answer."""

    def see(page: Page, address: str, patience: float = _PATIENCE) -> dict[str, float]:
        page.goto(f"{address}calculators/{sheet}/?sheet={sheet}&{case}")
        page.locator(f"#{sheet} [data-standing=answered]").wait_for(timeout=patience)
        return _marks(page)

    return see


def _marks(page: Page) -> dict[str, float]:
    found: dict[str, float] = page.evaluate(
        "() => Object.fromEntries(performance.getEntriesByType('mark').map(mark => [mark.name, mark.startTime]))"
    )
    return found


def visits(playwright: Playwright, server: CountingServer, see: See) -> tuple[Visit, Visit]:
    """Make a cold and a warm visit in one fresh profile."""
    with tempfile.TemporaryDirectory() as profile:
        context = browser(playwright, profile)
        made = []
        for _ in range(4):
            page = context.new_page()
            server.carried.clear()
            marks = see(page, server.address)
            made.append(Visit(marks, sum(server.carried.values())))
            page.wait_for_timeout(3000)  # lets the browser keep its compiled code, and the page the started engine
            page.close()
        context.close()
    return made[0], made[-1]


def browser(playwright: Playwright, profile: str) -> BrowserContext:
    """Start Chromium with a profile of its own."""
    return playwright.chromium.launch_persistent_context(profile, executable_path=shutil.which("chromium"), args=_FLAGS)
