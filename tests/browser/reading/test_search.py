"""What a reader types into the search, and the page that has to come first."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, Open, Watch

pytestmark = pytest.mark.browser

FIRST = {
    "drain": "calculators/steep-timing",
    "how wet": "calculators/sample-basket",
    "ppm": "safety/carbon-dioxide",
    "mould": "safety/dust-and-moulds",
    "rub": "procedures/readiness",
    "too hot": "procedures/floor-germination",
    "carbon dioxide": "safety/carbon-dioxide",
    "chit": "calculators/chitting",
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
    "when to drain": "calculators/steep-timing",
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
    searching.keyboard.insert_text(query[:-1])
    searching.keyboard.type(query[-1])  # the theme listens to keys
    expect(searching.locator(".md-search-result__meta")).to_contain_text("matching document")
    first = searching.locator(".md-search-result__item a").first
    expect(first).to_have_attribute("href", re.compile(f"^{address}{FIRST[query]}/([?#]|$)"))


def test_small_words_bring_nothing_of_their_own(searching: Page) -> None:
    searching.locator("input[data-md-component=search-query]").click()
    searching.keyboard.press("Control+a")
    searching.keyboard.type("when to drain")
    searching.wait_for_function(
        "() => { const marks = [...document.querySelectorAll('.md-search-result__item mark')].map((one) =>"
        " one.textContent.toLowerCase()); return marks.some((one) => one.startsWith('drain'))"
        " && !marks.some((one) => /^(to|when)/.test(one)); }"
    )
    searching.keyboard.press("Control+a")
    searching.keyboard.type("to")
    expect(searching.locator(".md-search-result__item").first).to_be_attached()


def test_nothing_of_it_comes_before_it_is_opened(open_page: Open) -> None:
    asked: list[str] = []
    page = open_page(
        "procedures/steeping/", viewport=DESK, before=lambda page: page.on("request", lambda one: asked.append(one.url))
    )
    page.wait_for_load_state("networkidle")
    page.wait_for_timeout(300)
    assert not [url for url in asked if "/search/entries" in url or "/workers/search." in url]
    page.locator("[data-md-component=search-query]").click()
    page.keyboard.type("drain")
    expect(page.locator(".md-search-result__item").first).to_be_visible()
    assert [url for url in asked if "/search/entries" in url]


def test_no_script_puts_a_function_of_its_own_in_the_place_of_the_browser_s(open_page: Open) -> None:
    page = open_page("procedures/steeping/")
    page.wait_for_timeout(500)
    for name in ("fetch", "Worker", "XMLHttpRequest", "XMLHttpRequest.prototype.send", "XMLHttpRequest.prototype.open"):
        assert "[native code]" in page.evaluate(f"() => Function.prototype.toString.call({name})"), name


def test_when_the_index_does_not_come_the_next_key_asks_again(open_page: Open, watch: Watch) -> None:
    watch.expected.append("Failed to load resource")
    page = open_page("", viewport=DESK)
    page.context.route("**/search/entries.json", lambda route: route.abort())
    box = page.locator("[data-md-component=search-query]")
    box.click()
    page.keyboard.type("ove")
    page.wait_for_timeout(800)
    page.context.unroute_all()
    page.keyboard.type("n")
    expect(page.locator(".md-search-result__item").first).to_be_visible()
