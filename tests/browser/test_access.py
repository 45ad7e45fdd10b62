"""Everyone can use it: names, contrast, targets, two taps, both papers, both widths."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators.asking.declare import Sheet
from tests.browser.conftest import DESK, PHONE, Open, lasting_page
from tests.browser.faults import faults
from tests.browser.sheets import SHEETS, answer_from_example, expect_standing, numbers, open_all, path_of, section

pytestmark = pytest.mark.browser
TARGET = 44  # px, the smaller side of what a gloved finger hits


@pytest.fixture(scope="module")
def finger(browser: Browser, address: str) -> Iterator[Page]:
    """A page under a finger, whose engine never starts."""
    with lasting_page(browser, address, has_touch=True) as page:
        yield page


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_every_control_is_big_enough(finger: Page, address: str, sheet: Sheet) -> None:
    finger.goto(address + path_of(sheet))
    place = section(finger, sheet)
    open_all(place)
    for size in (DESK, PHONE):
        finger.set_viewport_size(size)
        small = place.evaluate("(section, least) => helpers.small(section, least)", TARGET)
        assert small == []


def tap(page: Page, address: str) -> None:
    """Tap the first link to an address in the page's own text; it must be big enough for a finger."""
    door = page.locator(f"article a[href$='{address}']").first
    door.scroll_into_view_if_needed()
    box = door.bounding_box()
    assert box is not None
    assert box["height"] >= TARGET
    door.tap()


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_two_taps_from_home_to_every_sheet(finger: Page, address: str, sheet: Sheet) -> None:
    page = finger
    page.goto(address)
    if not page.locator(f"article a[href$='calculators/{sheet.id}/']").count():
        tap(page, "calculators/")  # all the sheets by job
        tap(page, f"{sheet.id}/")
    else:
        tap(page, f"calculators/{sheet.id}/")
    first = section(page, sheet).locator(".sheet-form").locator("input, select").first
    first.tap()
    expect(first).to_be_focused()


@pytest.mark.parametrize("colours", ["light", "dark"])
def test_axe_finds_nothing_serious_in_an_answered_and_in_a_wrong_form(open_page: Open, colours: str) -> None:
    sheet = next(one for one in SHEETS if numbers(one))
    page = open_page(path_of(sheet), color_scheme=colours)
    place = answer_from_example(page, sheet)
    assert faults(page) == []
    place.locator(f".field[data-question={numbers(sheet)[0].id}] input").fill("abc")
    expect(place.locator("[data-error]:not([hidden])")).to_have_count(1)
    assert faults(page) == []


def test_the_keyboard_reaches_the_form_past_the_navigation(open_page: Open) -> None:
    sheet = SHEETS[0]
    page = open_page(path_of(sheet), viewport=DESK)
    expect(page.locator(".sheet-voice")).to_have_count(1)  # the page's script is there
    page.keyboard.press("Tab")
    skip = page.locator(".md-skip")
    expect(skip).to_be_focused()
    expect(skip).to_be_in_viewport()
    page.keyboard.press("Enter")
    page.wait_for_timeout(500)  # the theme moves the view by and by
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('main') !== null")


def test_an_answer_needs_no_pointer(open_page: Open) -> None:
    sheet = next(one for one in SHEETS if numbers(one) and one.id == "moisture-target")
    page = open_page(path_of(sheet), viewport=DESK)
    section(page, sheet).locator("input").first.focus()
    for text in ("5000", "12", "45"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    expect_standing(section(page, sheet), "answered")
