"""What a reader types into the search, and the page that has to come first."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, Open

pytestmark = pytest.mark.browser

FIRST = {
    "drain": "calculators/steep-timing",
    "how wet": "calculators/sample-basket",
    "ppm": "safety/carbon-dioxide",
    "mould": "safety/dust-and-moulds",
    "rub": "procedures/readiness",
    "too hot": "procedures/floor-germination",
    "carbon dioxide": "safety/carbon-dioxide",
    "chit": "procedures/steeping",
    "acrospire": "procedures/readiness",
    "turn the floor": "calculators/floor-round",
    "sprinkle": "procedures/floor-germination",
    "rats": "safety/dust-and-moulds",
    "oven": "calculators/oven-moisture",
    "lifting": "safety/manual-handling",
    "drum": "calculators/drum-fill",
    "ready": "procedures/readiness",
    "kiln": "procedures/kiln-hand-over",
    "warm": "calculators/mixing-waters",
    "emergency": "safety/emergency",
    "fumigant": "safety/fumigants-and-chemicals",
}


@pytest.fixture(scope="module")
def searching(browser, address) -> Iterator[Page]:
    page = browser.new_page(viewport=DESK)
    page.goto(address)
    yield page
    page.close()


@pytest.mark.parametrize("query", FIRST)
def test_the_right_page_comes_first(searching: Page, address: str, query: str) -> None:
    box = searching.locator("input[data-md-component=search-query]")
    box.click()
    searching.keyboard.press("Control+a")
    searching.keyboard.type(query)  # the theme listens to keys
    expect(searching.locator(".md-search-result__meta")).to_contain_text("matching document")
    first = searching.locator(".md-search-result__item a").first
    expect(first).to_have_attribute("href", re.compile(f"^{address}{FIRST[query]}/([?#]|$)"))


def test_nothing_of_it_comes_before_it_is_opened(open_page: Open) -> None:
    asked: list[str] = []
    page = open_page(
        "procedures/steeping/", viewport=DESK, before=lambda page: page.on("request", lambda one: asked.append(one.url))
    )
    page.wait_for_timeout(1500)
    assert not [url for url in asked if "/search/" in url or "/workers/search." in url]
    page.locator("[data-md-component=search-query]").focus()
    page.locator("[data-md-component=search-query]").fill("drain")
    expect(page.locator(".md-search-result__item").first).to_be_visible()
    assert any("/workers/search." in worker.url for worker in page.workers)
