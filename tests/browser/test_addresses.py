"""The site in a sub-folder, and the site at another address than the one it was built for."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from site_src.server import Server
from tests.browser.conftest import Watch, knows_the_pages
from tests.conftest import BuildDocs, served

pytestmark = pytest.mark.browser


NAMED_BY_IT = ("calculators/sample-basket.md", "procedures/steeping.md", "reference/records/steep-record.md")
FEW_PAGES = {
    "index.md": "# Home\n",
    "calculators/moisture-target.md": "# A sheet\n\n```sheet\nmoisture-target\n```\n",
    **dict.fromkeys(NAMED_BY_IT, "# Another\n"),
}


@pytest.fixture
def in_a_sub_folder(build_docs: BuildDocs, tmp_path: Path) -> Iterator[str]:
    """Build for a sub-folder of a server, and serve it there; how many pages there are makes no difference to that."""
    server = Server(tmp_path / "site", base="/works/handbook/")
    with served(server) as address:
        build_docs(FEW_PAGES, site_url=address)
        yield address


@pytest.fixture
def at_another_port(built_site: Path) -> Iterator[str]:
    """Serve the built site at another port than it was built for."""
    with served(Server(built_site)) as address:
        yield address


def from_home_to_an_answer(browser: Browser, address: str) -> Page:
    """Follow a link from home to a sheet, type numbers, and see them answered."""
    watch = Watch(address)
    page = watch.new_page(browser)
    page.goto(address)
    knows_the_pages(page)
    page.evaluate("() => { window.sinceHome = true; }")
    page.evaluate("address => helpers.follow(address)", f"{address}calculators/moisture-target/")
    sheet = page.locator("section.sheet")
    for name, value in {"barley_kg": "4000", "barley_moisture": "13", "target_moisture": "44"}.items():
        sheet.locator(f"[name={name}]").fill(value)
    expect(sheet.locator("[data-results]")).to_have_attribute("data-standing", "answered", timeout=30_000)
    watch.check()
    return page


def test_a_sub_folder_keeps_one_visit(browser: Browser, in_a_sub_folder: str) -> None:
    page = from_home_to_an_answer(browser, in_a_sub_folder)
    assert page.evaluate("() => window.sinceHome") is True
    # The page for lost readers is read at any depth, so its addresses start at the sub-folder.
    page.goto(f"{in_a_sub_folder}no/such/page/")
    page.evaluate("address => helpers.follow(address)", page.locator("a.md-logo").first.get_attribute("href"))
    expect(page).to_have_url(in_a_sub_folder)
    page.context.close()


def test_another_port_loads_each_page_anew_and_answers_all_the_same(browser: Browser, at_another_port: str) -> None:
    page = from_home_to_an_answer(browser, at_another_port)
    assert page.evaluate("() => window.sinceHome ?? false") is False
    page.context.close()
