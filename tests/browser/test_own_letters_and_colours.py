"""A reader's own settings: letters twice as large, and few colours of their own."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.browser.conftest import FLAGS, PHONE, Open, lasting_page, program, without_engine
from tests.browser.faults import faults_of_form
from tests.browser.sheets import open_all

pytestmark = pytest.mark.browser
PAGES = (
    "",
    "calculators/cast-decision/",
    "calculators/readiness/",
    "procedures/floor-germination/",
    "reference/publishing/",
    "training/practice-batch-trainer/",
    "training/session-05-steeping/",
)
"""One of each kind of page: doors, a sheet with a counter, tables, lines to type, forms, a plan by minutes."""


@pytest.fixture(scope="module")
def large(playwright: Playwright, address: str) -> Iterator[Page]:
    """A phone whose letters are set to twice the usual size."""
    flags = [*FLAGS, "--blink-settings=defaultFontSize=32"]
    browser = playwright.chromium.launch(executable_path=program(light=True), args=flags)
    with lasting_page(browser, address, viewport=PHONE, reduced_motion="reduce") as page:
        yield page
    browser.close()


@pytest.mark.further(keep=2)
@pytest.mark.parametrize("path", PAGES)
def test_letters_twice_as_large_fit_a_phone(large: Page, address: str, path: str) -> None:
    large.goto(address + path)
    assert large.evaluate("() => getComputedStyle(document.body).fontSize") != "16px"
    open_all(large.locator("main"))
    assert large.evaluate("() => document.scrollingElement.scrollWidth") <= PHONE["width"]
    large.wait_for_timeout(100)  # the page's script looks what has to be reached by the keyboard
    assert faults_of_form(large, "article", ["scrollable-region-focusable"]) == []


def test_letters_twice_as_large_beside_a_danger_fit_the_smallest_screen(large: Page, address: str) -> None:
    large.set_viewport_size({"width": 320, "height": 640})
    large.goto(address + "procedures/steeping/")
    expect(large.locator(".hazard-danger").first).to_be_attached()
    assert large.evaluate("() => document.scrollingElement.scrollWidth") <= 320
    large.set_viewport_size(PHONE)


@pytest.mark.further(keep=2)
@pytest.mark.parametrize("path", PAGES)
def test_a_page_whose_own_letters_are_doubled_keeps_its_head_on_the_phone(open_page: Open, path: str) -> None:
    """Some devices enlarge the letters of the page and leave those that media queries go by as they are."""
    page = open_page(path, viewport=PHONE, before=without_engine)
    page.evaluate("""() => {
        const root = document.documentElement;
        root.style.fontSize = `${2 * parseFloat(getComputedStyle(root).fontSize)}px`;
    }""")
    assert page.evaluate("() => document.scrollingElement.scrollWidth") <= PHONE["width"]
    for button in page.locator(".md-header__button:visible").all():
        box = button.bounding_box()
        assert box and box["x"] >= 0 and box["x"] + box["width"] <= PHONE["width"]
    page.locator("label.md-header__button[for=__search]").click()
    expect(page.locator("[data-md-component=search-query]")).to_be_focused()


def test_with_few_colours_the_head_of_the_page_and_of_the_menu_stay_apart(large: Page, address: str) -> None:
    large.goto(address + "calculators/readiness/")
    edge = "() => getComputedStyle(document.querySelector('.md-header')).borderBottomStyle"
    ground = "() => getComputedStyle(document.querySelector('.md-nav__title')).backgroundColor"
    large.emulate_media(forced_colors="active")
    assert large.evaluate(edge) == "solid"
    assert large.evaluate(ground) != "rgba(0, 0, 0, 0)"
    large.emulate_media(forced_colors="none")
    assert large.evaluate(edge) == "none"
