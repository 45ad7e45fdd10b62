"""Letters set twice or four times as large: a window is low then, and the box in hand is seen while it is typed in."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, Page, ViewportSize, expect

from tests.browser.book import PAGE, opened
from tests.browser.conftest import PHONE, Open, without_engine
from tests.browser.sheets import SHEETS, answer_from_example, path_of

pytestmark = [pytest.mark.browser, pytest.mark.further]
FOUR_TIMES: ViewportSize = {"width": 320, "height": 256}
TWICE: ViewportSize = {"width": 640, "height": 400}
COVERED = """(form) => {
  const one = document.activeElement;
  if (!form.contains(one)) return null;
  const box = one.getBoundingClientRect();
  const over = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
  const free = over && (one.contains(over) || over.contains(one) || one.labels?.[0]?.contains(over));
  return free ? "" : `${one.name || one.textContent} lies under ${over?.className || over?.tagName}`;
}"""
"""What lies over the middle of the box that the keyboard is in; nothing once it has left the form."""


def covered_on_the_way(page: Page, form: Locator) -> list[str]:
    """Tab through a form; return what lay over a box that the keyboard was in."""
    form.locator("input:visible, select:visible").first.focus()
    found, stops = [], 0
    while (covered := form.evaluate(COVERED)) is not None:
        found.append(covered)
        page.keyboard.press("Tab")
        stops += 1
    assert stops > 5
    return [one for one in found if one]


@pytest.mark.parametrize("size", [FOUR_TIMES, TWICE, PHONE], ids=str)
def test_the_box_in_hand_is_seen_in_the_day_book(open_page: Open, size: ViewportSize) -> None:
    page = opened(open_page(PAGE, before=without_engine, viewport=size))
    page.get_by_role("button", name="Begin a batch").click()
    sheet = page.locator(".entry-sheet")
    expect(sheet.get_by_label("Batch number")).to_be_visible()
    assert covered_on_the_way(page, sheet) == []


@pytest.mark.parametrize("size", [FOUR_TIMES, TWICE], ids=str)
def test_the_box_in_hand_is_seen_on_a_sheet_that_has_answered(open_page: Open, size: ViewportSize) -> None:
    sheet = next(one for one in SHEETS if one.id == "moisture-target")
    page = open_page(path_of(sheet), viewport=size)
    place = answer_from_example(page, sheet)
    assert covered_on_the_way(page, place.locator(".sheet-form")) == []
