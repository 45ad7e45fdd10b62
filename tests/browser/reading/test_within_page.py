"""A link within a page moves the view, and nothing that was typed goes."""

from __future__ import annotations

import pytest
from playwright.sync_api import Route, expect

from calculators.asking.declare import Sheet
from calculators.sheets import find_sheet
from tests.browser.conftest import DESK, Open, knows_the_pages, without_engine
from tests.browser.sheets import path_of, section

pytestmark = pytest.mark.browser
ROWS = find_sheet("oven-moisture")
GUARDED = find_sheet("gas-build-up")  # nothing of it is kept on the device
OTHER = find_sheet("fan-stopped")


@pytest.mark.parametrize("sheet", [GUARDED, ROWS], ids=lambda sheet: sheet.id)
def test_who_types_while_the_page_is_drawn_anew_goes_on_typing(open_page: Open, sheet: Sheet) -> None:
    """At the first link within it the theme fetches the page again; on a slow line that takes seconds."""
    page = open_page(path_of(sheet), before=without_engine, viewport=DESK)
    expect(page.locator(".sheet-voice")).to_have_count(1)
    knows_the_pages(page)
    fetched: list[Route] = []
    page.route(page.url, lambda route: fetched.append(route))
    page.locator("main").evaluate("main => { main.dataset.left = ''; }")
    page.locator("article h2 a.headerlink").last.evaluate("link => link.click()")
    boxes = section(page, sheet).locator(".sheet-form input[type=text]:visible")
    for at in (boxes.count() - 1, 0):
        box = boxes.nth(at)
        box.fill("1234")
        box.evaluate("box => box.setSelectionRange(2, 2)")
        if fetched:
            fetched.pop().continue_()
            expect(page.locator("main[data-left]")).to_have_count(0)
        expect(box).to_be_focused()
        page.keyboard.type("5")
        expect(box).to_have_value("12534")
    assert fetched == []


def test_what_was_typed_stays_on_the_page_that_begins_a_visit(open_page: Open, address: str) -> None:
    page = open_page(path_of(GUARDED), before=without_engine, viewport=DESK)
    expect(page.locator(".sheet-voice")).to_have_count(1)  # the page's script is there
    box = section(page, GUARDED).locator(".sheet-form input[type=text]").first
    box.fill("500")
    page.evaluate("() => { window.sameVisit = true; }")
    for name in ("How it works", "How far to trust it"):
        page.get_by_role("heading", name=name).locator("a").evaluate("link => link.click()")
        expect(page.get_by_role("heading", name=name)).to_be_in_viewport()
        page.wait_for_timeout(300)  # the theme fetches the page again
        expect(box).to_have_value("500")
    page.go_back()
    expect(page.get_by_role("heading", name="How it works")).to_be_in_viewport()
    page.wait_for_timeout(300)
    expect(box).to_have_value("500")
    page.evaluate("address => helpers.follow(address)", address + path_of(OTHER))
    other = section(page, OTHER).locator(".sheet-form input[type=text]").first
    other.fill("600")
    page.locator("article h2 a.headerlink").last.evaluate("link => link.click()")
    page.wait_for_timeout(300)
    expect(other).to_have_value("600")
    page.go_back()
    page.go_back()
    expect(section(page, GUARDED)).to_be_visible()
    assert page.evaluate("() => window.sameVisit") is True
