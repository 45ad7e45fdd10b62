"""Who waits for an answer gets the engine before the page is drawn; nobody else does."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from calculators.sheets import find_sheet
from tests.browser.conftest import DESK, Open, Watch, is_engine, knows_the_pages
from tests.browser.sheets import answer_from_example, expect_standing, path_of, section, type_in

pytestmark = pytest.mark.browser
SHEET = find_sheet("moisture-target")
GUARDED = find_sheet("gas-build-up")
LINK = "?sheet={0}&barley_kg=5000"


def without_the_page_s_script(page: Page) -> None:
    """What starts the engine now can't be what starts it when the page is idle."""
    page.route("**/assets/browser/page.*", lambda route: route.fulfill(content_type="text/javascript", body=""))


def test_a_link_with_numbers_starts_it_and_nothing_else_does(open_page: Open, watch: Watch, address: str):
    page = open_page(path_of(SHEET), before=without_the_page_s_script)
    for path in (path_of(GUARDED), "", "procedures/steeping/" + LINK.format("x")):
        page.wait_for_timeout(250)
        page.goto(address + path)
    page.wait_for_timeout(250)
    assert watch.workers == 0
    with page.expect_event("worker", is_engine):
        page.goto(address + path_of(SHEET) + LINK.format(SHEET.id))
    assert watch.workers == 1


def test_a_sheet_that_was_filled_in_here_starts_it(open_page: Open, watch: Watch):
    page = open_page(path_of(SHEET))
    answer_from_example(page, SHEET)
    watch.workers = 0
    without_the_page_s_script(page)
    with page.expect_event("worker", is_engine):
        page.reload()
    assert watch.workers == 1


def test_it_is_the_engine_that_answers(open_page: Open, watch: Watch):
    page = open_page(path_of(SHEET) + "?sheet=moisture-target&barley_kg=5000&barley_moisture=12&target_moisture=45")
    page.locator("[data-standing=answered]").wait_for()
    assert watch.workers - watch.pythons == 1  # behind an answer that took long, Python is started too


def test_an_answer_that_was_come_for_goes_before_the_theme(browser: Browser, address: str, watch: Watch):
    """The script of the theme is held back until the answer is there, and comes to a page that works already."""
    held: list[Route] = []
    page = watch.new_page(browser, viewport=DESK)
    page.route("**/assets/javascripts/bundle.*", lambda route: held.append(route))
    numbers = f"?sheet={SHEET.id}&barley_kg=5000&barley_moisture=12&target_moisture=45"
    page.goto(address + path_of(SHEET) + numbers, wait_until="commit")
    place = section(page, SHEET)
    expect_standing(place, "answered")
    first = place.locator("[data-place=answers]").inner_text()
    assert page.evaluate("() => 'document$' in window") is False and held
    type_in(place, SHEET, {"barley_kg": "6000"})
    expect(place.locator("[data-place=answers]")).not_to_have_text(first)
    for one in held:
        one.continue_()
    knows_the_pages(page)
    page.evaluate("() => { window.sameVisit = true; }")
    expect(place.locator("[name=barley_kg]")).to_have_value("6000")
    expect_standing(place, "answered")
    page.locator("nav.md-tabs a").first.click()
    expect(page).not_to_have_url(re.compile("moisture-target"))
    assert page.evaluate("() => window.sameVisit") is True
    page.context.close()
    watch.check()


def test_where_nobody_waits_the_theme_comes_at_once(open_page: Open):
    page = open_page(path_of(SHEET))
    page.wait_for_function("() => 'document$' in window", timeout=3000)
    assert page.evaluate("() => performance.getEntriesByType('mark').length") == 0
