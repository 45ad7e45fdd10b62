"""The menu by the keyboard, wherever it is opened by a button: reached, named, opened, gone through and shut."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Open, knows_the_pages, without_engine

pytestmark = [pytest.mark.browser, pytest.mark.further]
WIDTHS = (320, 640, 1024)
HERE = "procedures/steeping/"
STOP = """() => {
  const one = document.activeElement;
  const box = one.getBoundingClientRect();
  const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
  const seen = box.width > 0 && document.elementsFromPoint(x, y).some((there) => one.contains(there));
  const words = one.getAttribute("aria-label") ?? (one.textContent.trim() || one.placeholder);
  const within = (place) => Boolean(one.closest(place));
  return { words, seen, menu: within(".md-sidebar--primary"), text: within("article, .md-sidebar--secondary") };
}"""
"""What the keyboard stands on: its words, and whether it is drawn where it lies."""


def at(open_page: Open, width: int, path: str = HERE) -> Page:
    page = open_page(path, before=without_engine, viewport={"width": width, "height": 700}, reduced_motion="reduce")
    expect(page.locator(".offline-line a")).to_be_attached()  # the last that a page's script draws
    knows_the_pages(page)
    return page


def stop(page: Page, key: str = "Tab") -> dict[str, object]:
    page.keyboard.press(key)
    if page.evaluate("() => document.activeElement.matches('.md-search__input')"):
        expect(page.locator("#__search")).to_be_checked()  # the theme opens it, and it slides in where it is narrow
        page.wait_for_function("() => document.getAnimations().every((one) => one.playState === 'finished')")
    found: dict[str, object] = page.evaluate(STOP)
    return found


@pytest.mark.parametrize("width", WIDTHS)
def test_each_stop_before_the_text_is_seen_and_two_lead_on(open_page: Open, width: int) -> None:
    page = at(open_page, width)
    before = []
    while not (one := stop(page))["text"]:
        before.append(one)
        assert len(before) < 9, f"the text is not come to: {before}"
    assert [one["words"] for one in before if not one["seen"]] == []
    words = [one["words"] for one in before]
    assert words[1:3] == ["Steep to Kiln", "Open the menu"], words
    assert len(words) == 5, words  # and the colours, and the search


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("key", ["Enter", " "])
def test_the_menu_opens_is_gone_through_and_gives_the_focus_back(open_page: Open, width: int, key: str) -> None:
    page = at(open_page, width)
    opener = page.get_by_role("button", name="Open the menu")
    expect(opener).to_have_attribute("aria-expanded", "false")
    opener.focus()
    page.keyboard.press(key)
    expect(opener).to_have_attribute("aria-expanded", "true")
    assert page.evaluate(STOP)["menu"]
    page.keyboard.press("Escape")
    expect(opener).to_have_attribute("aria-expanded", "false")
    expect(opener).to_be_focused()
    assert not stop(page)["menu"]  # what is shut is no stop


@pytest.mark.parametrize("width", WIDTHS)
def test_each_level_of_the_menu_is_gone_into_and_back(open_page: Open, width: int) -> None:
    page = at(open_page, width)
    page.get_by_role("button", name="Open the menu").focus()
    page.keyboard.press("Enter")
    first = page.evaluate(STOP)  # the list that the page stands in
    assert first == {"words": "Back from Procedures", "seen": True, "menu": True, "text": False}
    page.keyboard.press("Enter")
    parts = page.evaluate(STOP)
    assert parts["words"] == "Procedures" and parts["seen"]
    assert page.locator(":focus").get_attribute("aria-expanded") == "false"
    page.keyboard.press(" ")
    assert page.evaluate(STOP)["words"] == "Back from Procedures"
    page.keyboard.press("Enter")
    while page.evaluate(STOP)["words"] != "Pages of Safety":
        assert (one := stop(page))["menu"] and one["seen"], one
    page.keyboard.press("Enter")
    assert page.evaluate(STOP)["words"] == "Back from Safety"
    one = stop(page)
    assert one["menu"] and one["seen"]
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile("/safety/."))
    expect(page.locator("#__drawer")).not_to_be_checked()


def test_who_goes_past_the_end_of_the_menu_has_left_it(open_page: Open) -> None:
    page = at(open_page, 640)
    page.get_by_role("button", name="Open the menu").focus()
    page.keyboard.press("Enter")
    for _ in range(60):
        one = stop(page)
        assert one["seen"], one
        if not one["menu"]:
            break
    assert not one["menu"]
    expect(page.locator("#__drawer")).not_to_be_checked()
