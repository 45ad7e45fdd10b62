"""A device that keeps the handbook: a browser profile that can be closed and opened again, with or without a server."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, expect

from tests.browser import editions
from tests.browser.conftest import HELPERS, LIGHTLY, PHONE, program
from tests.browser.sheets import SHEETS, answer_from_example, path_of

PLAIN = SHEETS[0]
SAVED = re.compile("Saved for use without a network")
PATIENCE = 60000


class House(editions.House):
    """One with a browser profile that can be opened again."""

    def __init__(
        self, playwright: Playwright, built: Path, built_for: str, folder: Path, left_out: Sequence[str]
    ) -> None:
        super().__init__(built, built_for, folder, left_out)
        self.playwright = playwright
        self.profile = folder / "profile"
        self.context: BrowserContext | None = None
        self.faults: list[str] = []

    def open(self, path: str = "", *flags: str) -> Page:
        """Open a page in a browser that was just started."""
        self.context = self.playwright.chromium.launch_persistent_context(
            self.profile, executable_path=program(light=True), args=[*LIGHTLY, *flags], viewport=PHONE
        )
        self.context.set_default_timeout(15000)
        page = self.context.pages[0]
        page.add_init_script(path=HELPERS)
        page.on("console", lambda line: self.said(line.type, line.text, line.location["url"]))
        page.on("pageerror", lambda fault: self.faults.append(str(fault)))
        page.goto(self.address + path)
        return page

    def said(self, kind: str, text: str, address: str) -> None:
        if kind == "error" and not address.endswith("/offline.json"):  # asks whether there is a newer version
            self.faults.append(f"{text} {address}")

    def close(self) -> None:
        """Close the browser and take away all that it keeps for itself of what it fetched."""
        if self.context:
            self.context.close()
            self.context = None
        for name in ("Cache", "Code Cache", "DawnCache", "GPUCache"):
            for folder in self.profile.rglob(name):
                shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="module")
def saved(
    request: pytest.FixtureRequest,
    playwright: Playwright,
    built_site: Path,
    address: str,
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[House]:
    """The handbook, saved by the button under the first answer; server and browser stopped.

    A module that asks for every page says so by ``LEFT_OUT = ()``.
    """
    left_out = getattr(request.module, "LEFT_OUT", editions.BULK)
    house = House(playwright, built_site, address, tmp_path_factory.mktemp("offline"), left_out)
    page = house.open(path_of(PLAIN))
    assert page.locator("[data-offline-offer]").count() == 0, "offered before there is an answer"
    answer_from_example(page, PLAIN)
    page.get_by_role("button", name=re.compile("Keep for use without a network")).click()
    expect(page.locator("[data-offline-offer] [data-offline-state]")).to_have_text(SAVED, timeout=PATIENCE)
    expect(page.locator(".offline-line")).to_contain_text(SAVED)
    house.close()
    house.kill()
    yield house
    house.close()


@pytest.fixture
def house(saved: House, tmp_path: Path) -> Iterator[House]:
    """One that a test may spoil: the saved profile again."""
    kept, site = tmp_path / "profile", tmp_path / "site"
    shutil.copytree(saved.profile, kept)
    editions.copied(saved.site, site)
    saved.profile, former_profile = kept, saved.profile
    saved.site, former_site = site, saved.site
    saved.faults.clear()
    yield saved
    saved.close()
    saved.kill()
    saved.profile, saved.site = former_profile, former_site
