"""A browser that is killed between two lines, or in the middle of one, has every line that it showed."""

from __future__ import annotations

import os
import signal
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Error as PlaywrightError
from playwright.sync_api import Page, Playwright, expect

from tests.browser.book import PAGE, begin, choose, line, opened, stored
from tests.browser.conftest import FLAGS, program, without_engine

pytestmark = [pytest.mark.browser, pytest.mark.further]
PATIENCE = 12  # s for a browser to start; one that hangs is started anew
ATTEMPTS = 3


WEIGHTS = [str(weight) for weight in range(700, 706)]


def weights(page: Page) -> list[str]:
    return [one["values"].get("gross_g", "") for one in stored(page)]


class Killable:
    """A browser of our own on a profile, which can be killed as a flat battery kills it."""

    def __init__(self, playwright: Playwright, profile: Path) -> None:
        for attempt in range(ATTEMPTS):
            try:
                self._start(playwright, profile)
                return
            except (AssertionError, PlaywrightError):  # before any page is open: nothing is tested so far
                if self.process.poll() is None:
                    self.kill()
                if attempt + 1 == ATTEMPTS:
                    raise

    def _start(self, playwright: Playwright, profile: Path) -> None:
        port_file = profile / "DevToolsActivePort"
        port_file.unlink(missing_ok=True)
        words = [program(), "--headless=new", "--remote-debugging-port=0", f"--user-data-dir={profile}", *FLAGS]
        self.process = subprocess.Popen(
            words, start_new_session=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        until = time.monotonic() + PATIENCE
        while not port_file.exists() or "\n" not in port_file.read_text():
            assert self.process.poll() is None and time.monotonic() < until, "the browser did not start"
            time.sleep(0.05)
        port = port_file.read_text().split("\n")[0]
        self.browser = playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{port}", timeout=1000 * PATIENCE)
        self.page: Page = self.browser.contexts[0].new_page()
        without_engine(self.page)

    def kill(self) -> None:
        """Kill the browser and all its processes at once."""
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()


@contextmanager
def started(playwright: Playwright, profile: Path) -> Iterator[Killable]:
    one = Killable(playwright, profile)
    try:
        yield one
    finally:
        if one.process.poll() is None:
            one.kill()


def test_a_killed_browser_has_every_line_it_showed(playwright: Playwright, address: str, tmp_path: Path) -> None:
    """Killed in the middle of typing, then while it writes: there is the whole line or none, and what was typed."""
    profile = tmp_path / "profile"
    profile.mkdir()
    with started(playwright, profile) as first:
        first.page.goto(address + PAGE)
        opened(first.page)
        begin(first.page, "77", barley_kg="5000")
        for weight in WEIGHTS[:3]:
            line(first.page, "basket", gross_g=weight)
        choose(first.page, "water").locator("[data-question=water_temp_c] input").fill("13,7")
        first.page.wait_for_timeout(300)  # of the page's own; then the line half typed is on the disk
        first.kill()
    with started(playwright, profile) as again:
        page = again.page
        page.goto(f"{address}{PAGE}?batch=77")
        sheet = page.locator(".entry-sheet")
        expect(sheet).to_contain_text("typed before and is not in the book")
        expect(sheet.locator("[data-question=water_temp_c] input")).to_have_value("13,7")
        assert weights(page) == ["", *WEIGHTS[:3]]
        page.get_by_role("button", name="Leave it").click()
        for weight in WEIGHTS[3:]:
            line(page, "basket", gross_g=weight)
        choose(page, "basket").locator("[data-question=gross_g] input").fill("711")
        page.evaluate("() => { document.querySelector('.entry-sheet [type=submit]').click(); }")
        again.kill()
    with started(playwright, profile) as last:
        last.page.goto(f"{address}{PAGE}?batch=77")
        opened(last.page)
        entries = stored(last.page)
        assert weights(last.page)[: len(WEIGHTS) + 1] == ["", *WEIGHTS]
        assert [one["values"] for one in entries[len(WEIGHTS) + 1 :]] in (
            [],
            [{"gross_g": "711", "drained": "drained"}],
        )
        expect(last.page.locator(".day-book tr[data-entry]")).to_have_count(len(entries))
