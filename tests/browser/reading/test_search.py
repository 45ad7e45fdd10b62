"""What a reader types into the search, and the page that has to come first."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from site_src.search import ENTRIES, read_words
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
    "co2": "safety/carbon-dioxide",
    "CO2": "safety/carbon-dioxide",
    "fainted": "safety/emergency",
    "injured": "safety/emergency",
    "first aid": "safety/emergency",
    "phone number": "safety/emergency",
    "forklift": "safety/manual-handling",
    "dilution": "calculators/dilution-estimate",
    "wake up": "procedures/intake-and-storage",
    "sour": "reference/what-goes-wrong",
    "glossary": "reference/terms",
    "bleach": "safety/fumigants-and-chemicals",
    "moisture meter": "procedures/quick-moisture",
    "meter": "safety/carbon-dioxide",
    "carbon monoxide": "safety/gases",
    "print": "reference/records",
    "calculator": "calculators",
    "germinate": "procedures/germination-test",
}
SECTION = {
    "sour": "reference/what-goes-wrong/#sour-in-the-steep",
    "carbon monoxide": "safety/gases/#carbon-monoxide",
    "forklift": "safety/manual-handling/#trucks-and-loaders",
}
"""The section that stands first below its page."""


@pytest.fixture(scope="module")
def searching(browser, address) -> Iterator[Page]:
    page = browser.new_page(viewport=DESK)
    page.goto(address)
    yield page
    page.close()


def type_query(page: Page, query: str) -> None:
    page.locator("input[data-md-component=search-query]").click()
    page.keyboard.press("Control+a")
    page.keyboard.insert_text(query[:-1])
    page.keyboard.type(query[-1])  # the theme listens to keys
    expect(page.locator(".md-search-result__meta")).to_contain_text("matching document")


@pytest.mark.further(keep=12)
@pytest.mark.parametrize("query", FIRST)
def test_the_right_page_comes_first(searching: Page, address: str, query: str) -> None:
    type_query(searching, query)
    first = searching.locator(".md-search-result__item a").first
    expect(first).to_have_attribute("href", re.compile(f"^{address}{FIRST[query]}/([?#]|$)"))


@pytest.mark.parametrize("query", SECTION)
def test_the_right_section_comes_first(searching: Page, address: str, query: str) -> None:
    type_query(searching, query)
    page, section = SECTION[query].split("#")
    first = searching.locator(".md-search-result__item").first.locator("a[href*='#']").first
    expect(first).to_have_attribute("href", re.compile(rf"^{address}{page}(\?[^#]*)?#{section}$"))


def test_the_words_that_a_page_is_found_by_are_not_shown(searching: Page, address: str) -> None:
    type_query(searching, "moisture meter")
    first = searching.locator(".md-search-result__item").first
    expect(first.locator("a").first).to_have_attribute("href", re.compile("/procedures/quick-moisture/"))
    expect(first.locator(".md-tag")).to_have_count(0)
    assert "_" not in first.inner_text()


def test_every_word_leads_to_a_page_or_section_that_there_is(built_site: Path) -> None:
    entries = json.loads((built_site / ENTRIES).read_text("utf-8"))["docs"]
    assert set(read_words()) - {entry["location"] for entry in entries} == set()


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
