"""The batches at work on the day-book's page and on the home page."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from tests.browser.book import PAGE, START, begin, line, opened
from tests.browser.conftest import DESK, PHONE, Open, go, knows_the_pages
from tests.browser.daybook.test_daybook_batches import load_demo
from tests.browser.faults import faults
from tests.browser.sheets import READY
from tests.browser.test_access import TARGET
from tests.safety import phrases

pytestmark = [pytest.mark.browser, pytest.mark.python_here]


def test_the_invented_batches_at_work_stand_first(visit: Open) -> None:
    page = opened(visit(PAGE))
    load_demo(page)
    rows = page.locator("[data-place=today] [data-today]")
    expect(rows).to_have_count(2, timeout=READY)
    expect(page.locator("[data-place=today]")).to_contain_text("INVENTED")
    expect(rows.first).to_contain_text("50 min late")
    expect(rows.last).to_contain_text(re.compile(r"Drain at (\w{3} \d+ \w{3} )?\d\d:\d\d"))
    first, button = rows.first.bounding_box(), page.get_by_role("button", name="Begin a batch").bounding_box()
    assert first and button and first["y"] < button["y"]
    # In one look: the rows are drawn anew once earlier batches have been looked at.
    large, small = page.locator("[data-place=today]").evaluate(
        "today => ['.next-step', '.read'].map(one => parseFloat(getComputedStyle(today.querySelector(one)).fontSize))"
    )
    assert large > small
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        page.wait_for_function("width => document.scrollingElement.scrollWidth <= width", arg=size["width"])
        assert page.locator("section.day-book").evaluate("(s, least) => helpers.small(s, least)", TARGET) == []
    assert faults(page) == []
    assert phrases.faults(phrases.shown(page.locator("[data-place=today]").inner_html())) == []
    rows.first.get_by_role("link").first.click()
    expect(page.locator("[data-daybook=batch]")).to_have_text("Batch example-13")
    # Loaded again they are not doubled.
    page.get_by_role("link", name="Back to your own book").click()
    page.get_by_role("button", name="Load the demo year").click()
    expect(page.locator("[data-place=today] [data-today]")).to_have_count(2, timeout=READY)
    expect(page.locator("[data-place=batches] table a")).to_have_count(14, timeout=READY)


def test_a_newcomer_finds_them_from_home_and_then_at_home(open_page: Open, address: str) -> None:
    page = open_page("")
    knows_the_pages(page)
    page.get_by_role("link", name="two invented batches at work").click()
    rows = page.locator("[data-place=today] [data-today]")
    expect(rows).to_have_count(2, timeout=READY)
    expect(page.locator("[data-demo-only]").first).to_contain_text("INVENTED")
    go(page, address)
    home = page.locator("[data-day-book=today]")
    expect(home.locator("[data-today='example-13']")).to_contain_text("late", timeout=READY)
    expect(home).to_contain_text("INVENTED")
    expect(home.get_by_role("link", name="Hand over")).to_have_attribute("href", re.compile(r"hand-over/\?book=demo"))
    home.locator("[data-today='example-13'] h3 a").click()
    expect(page.locator("[data-daybook=batch]")).to_have_text("Batch example-13")
    expect(page.locator("[data-demo-only]").first).to_be_visible()
    page.get_by_role("link", name="Back to your own book").click()  # an own batch takes their place
    begin(page, "77", **START)
    line(page, "stage-begun", stage="wet")
    go(page, address)
    expect(home.locator("[data-today='77']")).to_be_visible(timeout=READY)
    expect(home.locator("[data-today]")).to_have_count(1)
    expect(home).not_to_contain_text("INVENTED")


def test_the_home_page_shows_a_batch_that_runs_and_one_tap_leads_to_it(open_page: Open, address: str) -> None:
    page = open_page("")
    expect(page.locator("[data-day-book=today]")).to_be_hidden()
    go(page, address + PAGE)
    opened(page)
    begin(page, "77", **START)
    line(page, "stage-begun", stage="wet")
    go(page, address)
    row = page.locator("[data-day-book=today] [data-today='77']")
    expect(row).to_contain_text(re.compile(r"[Dd]rain"), timeout=READY)
    expect(page.locator("[data-day-book=today]")).to_contain_text("at work")
    box = row.bounding_box()
    assert box and box["y"] < PHONE["height"], "out of sight on a phone"
    page.reload()  # drawn at once, before the calculator is up
    expect(row).to_be_visible(timeout=3000)
    hazard = page.locator("[data-day-book=today] .hazard a").first
    assert re.search(r"/safety/", str(hazard.get_attribute("href")))
    row.get_by_role("link").first.click()
    expect(page.locator("[data-daybook=batch]")).to_have_text("Batch 77")
    page.get_by_role("link", name="All batches").click()
    expect(page.locator("[data-place=today] [data-today='77']")).to_be_visible(timeout=READY)


def test_what_waits_for_its_script_is_not_shown_before_it(open_page: Open) -> None:
    """Else it is opened by a reader, and shut again by the script that comes."""
    page = open_page(PAGE, java_script_enabled=False)
    expect(page.locator(".md-content [hidden]").first).to_be_attached()
    expect(page.locator(".md-content [hidden]:visible")).to_have_count(0)
