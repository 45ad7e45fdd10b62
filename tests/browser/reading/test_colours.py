"""Light or dark: as the device is set until somebody chooses, and as was chosen from then on; styled once."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Literal

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.conftest import DESK, PHONE, Open, without_engine

pytestmark = pytest.mark.browser

PAGE = "reference/wall-sheets/"
LONG = "procedures/steeping/"
Setting = Literal["light", "dark"]
SEEN_COLOURS = "one => [getComputedStyle(one).color, getComputedStyle(document.body).backgroundColor]"
FIRST_SEEN = """() => requestAnimationFrame(() => {
  globalThis.firstSeen = [document.body.dataset.mdColorScheme, getComputedStyle(document.documentElement).colorScheme];
})"""


def button(page: Page) -> Locator:
    return page.locator("[data-colours-to]:visible")


def expect_colours(page: Page, scheme: str) -> None:
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", scheme)
    assert page.evaluate("getComputedStyle(document.documentElement).colorScheme") == (
        "dark" if scheme == "slate" else "light"
    )
    expect(button(page)).to_have_count(1)
    expect(button(page)).to_have_attribute("data-colours-from", scheme)


@pytest.mark.parametrize(("setting", "scheme"), [("light", "default"), ("dark", "slate")])
def test_the_page_comes_in_the_colours_of_the_device(open_page: Open, setting: Setting, scheme: str) -> None:
    def look(page: Page) -> None:
        page.add_init_script(f"addEventListener('DOMContentLoaded', {FIRST_SEEN})")

    page = open_page(PAGE, before=look, color_scheme=setting)
    page.wait_for_function("() => globalThis.firstSeen")
    assert page.evaluate("firstSeen") == [scheme, setting]
    expect_colours(page, scheme)


def test_it_goes_along_when_the_device_is_set_otherwise_until_somebody_chooses(open_page: Open) -> None:
    page = open_page(PAGE, color_scheme="light")
    expect_colours(page, "default")
    page.emulate_media(color_scheme="dark")
    expect_colours(page, "slate")
    page.emulate_media(color_scheme="light")
    expect_colours(page, "default")
    button(page).click()
    expect_colours(page, "slate")
    page.emulate_media(color_scheme="dark")
    page.emulate_media(color_scheme="light")
    expect_colours(page, "slate")


def test_a_choice_is_made_by_keys_and_kept(open_page: Open, address: str) -> None:
    page = open_page(PAGE, color_scheme="dark", viewport=DESK)
    expect(button(page)).to_have_accessible_name("Switch to light")
    button(page).focus()
    page.keyboard.press("Enter")
    expect_colours(page, "default")
    expect(button(page)).to_be_focused()
    expect(button(page)).to_have_accessible_name("Switch to dark")
    page.keyboard.press("Space")
    page.keyboard.press("Space")
    expect_colours(page, "default")
    assert page.evaluate("__md_get('__palette')") == {"index": 0, "color": {"scheme": "default"}}
    page.goto(f"{address}safety/")
    expect_colours(page, "default")


def test_what_was_chosen_in_an_earlier_edition_still_holds(open_page: Open) -> None:
    page = open_page(PAGE, color_scheme="light")
    kept = {"index": 1, "color": {"media": "(prefers-color-scheme: dark)", "scheme": "slate", "primary": "custom"}}
    page.evaluate("kept => __md_set('__palette', JSON.parse(kept))", json.dumps(kept))
    page.reload()
    expect_colours(page, "slate")


def styled(browser: Browser, page: Page, work: Callable[[], object]) -> int:
    """How many times an element is given its style in the course of some work."""
    browser.start_tracing(page=page, categories=["devtools.timeline"])
    work()
    page.wait_for_function("() => window.document$ && document.readyState === 'complete'")
    page.wait_for_timeout(500)
    events = json.loads(browser.stop_tracing())["traceEvents"]
    return sum(one["args"].get("elementCount", 0) for one in events if one["name"] == "UpdateLayoutTree")


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_a_page_is_styled_once_while_it_comes(open_page: Open, browser: Browser, size: object) -> None:
    """The theme's own change of colours styled it all three times more, and a menu that is shut was styled too."""
    page = open_page("safety/carbon-dioxide/", before=without_engine, viewport=size)
    page.wait_for_function("() => window.document$")
    elements = page.evaluate("document.querySelectorAll('body *').length")
    assert 0.1 * elements < styled(browser, page, page.reload) < 1.5 * elements


def test_a_menu_that_opens_is_all_there_until_it_has_gone(open_page: Open) -> None:
    page = open_page(PAGE, before=without_engine)
    inside = page.locator(".md-sidebar--primary .md-nav__link:visible").first
    expect(inside).to_have_count(0)
    page.locator(".md-header label[for=__drawer]").click()
    expect(inside).to_be_in_viewport()
    page.locator("#__drawer").evaluate("box => box.click()")
    assert page.locator(".md-sidebar--primary").evaluate("one => getComputedStyle(one).contentVisibility") == "visible"
    expect(inside).to_have_count(0)


def test_nothing_fades_over_when_the_colours_change(open_page: Open) -> None:
    """A link on its way from one colour to the other is as pale as the paper for a moment."""
    page = open_page("safety/carbon-dioxide/", before=without_engine, color_scheme="light")
    link = page.locator("article a").first
    at_once = link.evaluate(f"""one => new Promise((done) => {{
        document.querySelector("[data-colours-to=slate]").click();
        requestAnimationFrame(() => setTimeout(() => done(({SEEN_COLOURS})(one))));
    }})""")
    page.wait_for_timeout(500)
    assert at_once == link.evaluate(SEEN_COLOURS)
    expect(page.locator("body[data-md-color-switching]")).to_have_count(0)
