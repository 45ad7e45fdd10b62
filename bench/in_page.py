"""What the page itself takes: one recompute on the screen, the stalls while the engine starts, a page to read."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median, quantiles

from playwright.sync_api import Page, Playwright

from bench.browser import CASES, CountingServer, browser, see_sheet

_WATCH = Path(__file__).with_name("watch_worker.js")
_TYPED = {
    "moisture-target": ("barley_kg", ["5000", "5100", "5200"]),
    "batch-forecast": ("barley_moisture", ["12.4", "12.5", "12.6"]),
    "steep-timing": ("barley_moisture", ["12.4", "12.5", "12.6"]),
}
_RECOMPUTES = 200
_FEWER = {"batch-forecast": 12}
"""Recomputes of a sheet that takes a second for one."""

_READING = ("procedures/steeping/", "safety/carbon-dioxide/", "reference/the-job-at-a-glance/")


def in_page(playwright: Playwright, server: CountingServer, rounds: int) -> Iterator[str]:
    """Measure; yield the lines."""
    yield f"one recompute, from the request to the answer drawn and laid out, of {_RECOMPUTES}, in ms"
    for sheet in CASES:
        for slowed in (1, 4):
            yield recompute_line(playwright, server, sheet, slowed)
    stalls = [stalled(playwright, server, "moisture-target") for _ in range(rounds)]
    yield (
        f"longest stall of the page while the engine starts: median {median(gap for gap, _ in stalls):.0f} ms, "
        f"worst {max(gap for gap, _ in stalls):.0f} ms of {rounds}"
    )
    for path in _READING:
        sent = read(playwright, server, path)
        runtime = [name for name in sent if "/runtime/" in name or "/app/" in name]
        yield f"{path}: {sum(sent.values()) / 1e3:.0f} kB in {len(sent)} files, of the runtime {len(runtime)}"


def _opened(playwright: Playwright, profile: str) -> Page:
    context = browser(playwright, profile)
    page = context.new_page()
    page.add_init_script(path=_WATCH)
    return page


def recompute_line(playwright: Playwright, server: CountingServer, sheet: str, slowed: int) -> str:
    """Change one number many times in a page whose processor is slowed so many times; return a line."""
    with tempfile.TemporaryDirectory() as profile:
        page = _opened(playwright, profile)
        see_sheet(sheet, CASES[sheet])(page, server.address)
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slowed})
        question, values = _TYPED[sheet]
        times: dict[str, list[float]] = page.evaluate(
            "([sheet, question, values, count]) => recompute(sheet, question, values, count)",
            [sheet, question, values, _FEWER.get(sheet, _RECOMPUTES)],
        )
        page.context.close()
    shown = ", ".join(
        f"{name} median {median(taken):.1f}, p95 {quantiles(taken, n=20)[-1]:.1f}" for name, taken in times.items()
    )
    return f"  {sheet}, page slowed {slowed} times: {shown}"


def stalled(playwright: Playwright, server: CountingServer, sheet: str) -> tuple[float, float]:
    """Return the longest gap and the longest task, in ms, from the first touch of a form to its first answer."""
    with tempfile.TemporaryDirectory() as profile:
        page = _opened(playwright, profile)
        # The engine also starts when the page is idle; here it is held back until the form is touched.
        page.add_init_script("window.requestIdleCallback = () => 0")
        page.goto(f"{server.address}calculators/{sheet}/")
        page.wait_for_timeout(1500)
        page.evaluate("() => watchStalls()")
        fields = page.locator(f"#{sheet} .sheet-form input")
        for place, text in enumerate(("5000", "12.5", "44")):
            fields.nth(place).fill(text)
        page.locator(f"#{sheet} [data-standing=answered]").wait_for()
        found: dict[str, float] = page.evaluate("() => stall")
        page.context.close()
    return found["gap"], found["task"]


def read(playwright: Playwright, server: CountingServer, path: str) -> dict[str, int]:
    """Open a page to read in a fresh profile; return the bytes sent by path."""
    with tempfile.TemporaryDirectory() as profile:
        page = _opened(playwright, profile)
        server.carried.clear()
        page.goto(server.address + path, wait_until="networkidle")
        page.wait_for_timeout(2500)
        page.context.close()
    return dict(server.carried)
