"""A term's meaning by pointer, keyboard and finger; the links in the drawing of the whole job."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Open

pytestmark = pytest.mark.browser
PAGE = "procedures/floor-germination/"


def shown(page: Page) -> int:
    return page.locator(".term-note:visible").count()


def test_pointer_and_keyboard(visit: Open) -> None:
    page = visit(PAGE)
    word = page.locator(".term > a").first
    assert shown(page) == 0
    word.hover()
    note = page.locator(".term-note:visible")
    expect(note).to_have_count(1)
    assert word.get_attribute("aria-describedby") == note.get_attribute("id")
    # WCAG 2.1, 1.4.13: what appears can be pointed at, and Escape hides it.
    word_box, note_box = word.bounding_box(), note.bounding_box()
    assert word_box and note_box
    page.mouse.move(word_box["x"] + 4, note_box["y"] + 6, steps=12)
    assert shown(page) == 1
    page.keyboard.press("Escape")
    assert shown(page) == 0
    page.mouse.move(5, 5)
    word.focus()
    assert shown(page) == 1
    page.keyboard.press("Escape")
    assert shown(page) == 0
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile(r"/reference/terms/#piece$"))


def test_a_finger_shows_it_first_and_then_follows(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(address + PAGE)
    word = page.locator(".term > a").nth(1)
    page.wait_for_load_state("networkidle")
    word.tap()
    expect(page.locator(".term-note:visible")).to_have_count(1)
    expect(page).to_have_url(re.compile(f"{PAGE}$"))
    assert page.evaluate("() => document.documentElement.scrollWidth") == 390
    page.locator("h1").tap()
    expect(page.locator(".term-note:visible")).to_have_count(0)
    word.tap()
    word.tap()
    expect(page).to_have_url(re.compile(r"/reference/terms/#"))
    context.close()


def test_the_drawing_leads_to_the_jobs(visit: Open) -> None:
    page = visit("")
    page.locator(".md-content a", has_text="the job at a glance").click()
    expect(page.locator("h1")).to_contain_text("The job at a glance")
    page.get_by_text("About 2 days: wet").click()
    expect(page).to_have_url(re.compile(r"/procedures/steeping/$"))
