"""How many taps and keys a job takes from the home page on a phone, with one batch in the steep. The counts are bounds.

A tap is a touch of the glass, a key one character typed. What stands on the page that one is on costs neither.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.book import START as BEGUN
from tests.browser.book import begin, drawn, line, opened, stored
from tests.browser.conftest import Watch, engine_later, go, knows_the_pages
from tests.browser.sheets import READY
from tests.browser.test_taps import tap

pytestmark = pytest.mark.browser
START = {**BEGUN, "corn_weight_g": "45"}


class Hand:
    """Touches and types, and counts both."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = self.keys = 0

    def touch(self, control: Locator) -> None:
        expect(control).to_be_visible(timeout=READY)
        tap(control)
        self.taps += 1

    def type(self, text: str) -> None:
        self.page.keyboard.type(text)
        self.keys += len(text)

    @property
    def spent(self) -> tuple[int, int]:
        return self.taps, self.keys


@pytest.fixture(scope="module")
def phone(browser: Browser, address: str) -> Iterator[Page]:
    """A phone whose day-book has one batch in its first immersion."""
    watch = Watch(address)
    page = watch.new_page(browser, has_touch=True)
    engine_later(page)
    page.goto(address + DAY_BOOK)
    opened(page)
    begin(page, "77", **START)
    line(page, "stage-begun", stage="wet", water_temp_c="14")
    page.goto(address)
    knows_the_pages(page)
    yield page
    page.context.close()
    watch.check()


@pytest.fixture
def hand(phone: Page, address: str) -> Hand:
    """At home, once the batch is shown; the engine has come with the first of these pages."""
    if phone.url != address:
        go(phone, address)
    expect(phone.locator("[data-today='77']")).to_be_visible(timeout=READY)
    expect(phone.locator("[data-daybook=as-of]")).to_have_text("", timeout=READY)  # not as it stood, but as it stands
    return Hand(phone)


def door(page: Page, name: str) -> Locator:
    return page.locator(".doors").get_by_role("link", name=re.compile(name)).first


def to_the_batch(hand: Hand) -> None:
    """One looks before one touches again: by then the calculator has drawn the lines, and nothing moves any more."""
    hand.touch(hand.page.locator("[data-today='77'] a").first)
    expect(drawn(hand.page).first).to_be_visible(timeout=READY)


def test_when_to_drain_the_steep_that_runs(hand: Hand) -> None:
    expect(hand.page.locator("[data-today='77'] .next-step")).to_contain_text(re.compile(r"Drain at"))
    expect(hand.page.locator("[data-today='77'] .due")).to_contain_text("Due")
    assert hand.spent <= (0, 0)


def test_when_to_drain_by_the_sheet(hand: Hand) -> None:
    hand.touch(door(hand.page, "Steep timing"))
    expect(hand.page.locator("[data-place=answers] .lent").first).to_be_visible(timeout=READY)
    expect(hand.page.locator("[data-results]")).to_have_attribute("data-standing", "answered")
    assert hand.spent <= (1, 0)


def test_the_baskets_answer(hand: Hand) -> None:
    hand.touch(door(hand.page, "Steep basket"))
    sheet = hand.page.locator("section.sheet")
    expect(sheet.locator("[data-question=basket_g] input")).to_have_value("84", timeout=READY)
    hand.touch(sheet.locator("[data-question=gross_now_g] input"))
    hand.type("190")
    if not sheet.locator("[data-question=drained] input:checked").count():
        hand.touch(sheet.locator("[data-question=drained] label.choice").first)
    expect(sheet.locator("[data-results]:not([data-waiting])")).to_have_attribute(
        "data-standing", "answered", timeout=READY
    )
    assert hand.spent <= (3, 3)


def test_a_line_with_a_number(hand: Hand) -> None:
    to_the_batch(hand)
    hand.touch(hand.page.locator(".entry-likely [data-kind-of-entry=basket]"))
    expect(hand.page.locator(".entry-sheet [data-question=gross_g] input")).to_be_focused()
    hand.type("168")
    hand.touch(hand.page.get_by_role("button", name="Write it"))
    expect(hand.page.locator("[data-daybook=state]")).to_contain_text("Written")
    entry: dict[str, Any] = stored(hand.page)[-1]
    assert entry["values"] == {"gross_g": "168", "drained": "drained"}
    assert hand.spent <= (3, 3)


def test_a_line_with_no_key_at_all(hand: Hand) -> None:
    """In gloves: the number is stepped to from the last one."""
    to_the_batch(hand)
    hand.touch(hand.page.locator(".entry-likely [data-kind-of-entry=water]"))
    more = hand.page.locator(".entry-sheet [data-question=water_temp_c] [data-action=more]")
    for _ in range(3):  # the last reading, and two tenths
        hand.touch(more)
    hand.touch(hand.page.get_by_role("button", name="Write it"))
    expect(hand.page.locator("[data-daybook=state]")).to_contain_text("Written")
    assert stored(hand.page)[-1]["values"] == {"water_temp_c": "14.2"}
    assert hand.spent <= (6, 0)


def test_a_line_that_is_only_a_word(hand: Hand) -> None:
    to_the_batch(hand)
    hand.touch(hand.page.locator(".entry-likely [data-kind-of-entry=stage-ended]"))
    hand.touch(hand.page.locator(".entry-sheet label.choice").first)
    hand.touch(hand.page.get_by_role("button", name="Write it"))
    expect(hand.page.locator("[data-daybook=state]")).to_contain_text("Written")
    assert hand.spent <= (4, 0)
