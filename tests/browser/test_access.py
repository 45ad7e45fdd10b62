"""Everyone can use it: names, contrast, targets, two taps, both papers, both widths."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from tests.browser.conftest import DESK, Open, knows_the_pages, lasting_page, without_engine
from tests.browser.faults import faults, faults_of_colour
from tests.browser.sheets import SHEETS, answer_from_example, expect_standing, numbers, path_of, section

pytestmark = [pytest.mark.browser, pytest.mark.further]
TARGET = 44  # px, the smaller side of what a gloved finger hits


@pytest.fixture(scope="module")
def finger(browser: Browser, address: str) -> Iterator[Page]:
    """A page under a finger, whose engine never starts."""
    with lasting_page(browser, address, has_touch=True) as page:
        yield page


DOORS = """(targets) => targets.map((target) => {
  const door = [...document.querySelectorAll("article a")].find((link) => link.href === target);
  return door ? door.getBoundingClientRect().height : null;
})"""
"""How high the first link to each sheet is in the page's own text; nothing where there is none."""


def test_two_taps_from_home_to_every_sheet(finger: Page, address: str) -> None:
    targets = [address + path_of(sheet) for sheet in SHEETS]
    finger.goto(address)
    at_home = finger.evaluate(DOORS, targets)
    all_of_them = finger.locator("article a[href$='calculators/']").first
    box = all_of_them.bounding_box()
    assert box is not None and box["height"] >= TARGET
    all_of_them.tap()  # all the sheets by job
    expect(finger).to_have_url(f"{address}calculators/")
    expect(finger.locator("h1")).to_contain_text("All the sheets by job")
    in_the_list = finger.evaluate(DOORS, targets)
    heights = {target: here or there for target, here, there in zip(targets, at_home, in_the_list, strict=True)}
    assert {target: height for target, height in heights.items() if height is None or height < TARGET} == {}
    sheet = SHEETS[at_home.index(None)]
    finger.locator(f"article a[href$='{sheet.id}/']").first.tap()
    first = section(finger, sheet).locator(".sheet-form").locator("input, select").first
    first.tap()
    expect(first).to_be_focused()


def test_axe_finds_nothing_serious_in_an_answered_and_in_a_wrong_form(open_page: Open) -> None:
    sheet = next(one for one in SHEETS if numbers(one))
    page = open_page(path_of(sheet), color_scheme="light")
    place = answer_from_example(page, sheet)
    assert faults_in_light_and_dark(page) == []
    place.locator(f".field[data-question={numbers(sheet)[0].id}] input").fill("abc")
    expect(place.locator("[data-error]:not([hidden])")).to_have_count(1)
    assert faults_in_light_and_dark(page) == []


def faults_in_light_and_dark(page: Page) -> list[str]:
    found = faults(page)
    page.locator("[data-colours-to=slate]").click()
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "slate")
    found += faults_of_colour(page, set())
    page.locator("[data-colours-to=default]").click()
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "default")
    return found


def test_the_keyboard_reaches_the_form_past_the_navigation(open_page: Open) -> None:
    sheet = SHEETS[0]
    page = open_page(path_of(sheet), before=without_engine, viewport=DESK)
    expect(page.locator(".sheet-voice")).to_have_count(1)  # the page's script is there
    page.keyboard.press("Tab")
    skip = page.locator(".md-skip")
    expect(skip).to_be_focused()
    expect(skip).to_be_in_viewport()
    knows_the_pages(page)
    fetched: list[Route] = []
    page.route(page.url, lambda route: fetched.append(route))
    page.locator("main").evaluate("main => { main.dataset.left = ''; }")
    page.keyboard.press("Enter")
    page.wait_for_timeout(500)  # the theme moves the view by and by
    goal = page.evaluate("() => document.activeElement.id")
    fetched[0].continue_()  # once more, for a link within it, and it is drawn anew: late, on a slow line
    expect(page.locator("main[data-left]")).to_have_count(0)
    expect(page.locator(f"article #{goal}")).to_be_focused()
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('article') !== null")


def test_an_answer_needs_no_pointer(open_page: Open) -> None:
    sheet = next(one for one in SHEETS if numbers(one) and one.id == "moisture-target")
    page = open_page(path_of(sheet), viewport=DESK)
    section(page, sheet).locator("input").first.focus()
    for text in ("5000", "12", "45"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    expect_standing(section(page, sheet), "answered")
