"""Two people, two phones, no network: batches and a fault of the night go through two changes of shift by codes."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.book import PAGE, PUT, opened, stored
from tests.browser.camera import film, flags, pictures
from tests.browser.conftest import go
from tests.browser.device import House, house, saved
from tests.browser.sheets import READY
from tests.daybook.book import START, line

__all__ = ["house", "saved"]
pytestmark = [pytest.mark.browser, pytest.mark.python_here, pytest.mark.further]
CODES, HAND_OVER = "records/by-codes/", "records/hand-over/"
HOSTILE = "<img src=x onerror=document.title='taken'>"


class Hands:
    """A person with a phone: counts taps, and keeps what was typed."""

    typed: list[str]

    def __init__(self, page: Page, typed: list[str]) -> None:
        self.page = page
        self.typed = typed
        self.taps = 0

    def tap(self, what: Locator) -> None:
        what.click()
        self.taps += 1

    def press(self, name: str) -> None:
        self.tap(self.page.get_by_role("button", name=name).first)

    def write(self, what: Locator, text: str) -> None:
        what.fill(text)
        self.typed.append(text)


def at_work(page: Page) -> None:
    """Two batches by the device's clock: 77 four hours under water, 78 on the floor and turned too long ago."""
    now = datetime.now()

    def at(hours: float) -> str:
        return f"{now - timedelta(hours=hours):%Y-%m-%dT%H:%M}"

    wet = {"stage": "wet", "water_temp_c": "14"}
    lines: list[dict[str, Any]] = [
        line("start", at(70), "78", **START),
        line("stage-begun", at(69), "78", **wet),
        line("stage-ended", at(48), "78", ended="drained"),
        line("cast", at(40), "78", moisture="44.2"),
        line("turned", at(15), "78", depth_cm="12"),
        line("remark", at(14), "78", remark=HOSTILE),
        line("start", at(21), "77", **START),
        line("stage-begun", at(20), "77", **wet),
        line("stage-ended", at(12), "77", ended="drained"),
        line("stage-begun", at(4), "77", **wet),
    ]
    for one in lines:
        one["written"] = f"{one['at']}:00.000Z"
    page.evaluate(PUT, lines)


def book(page: Page) -> dict[str, dict[str, Any]]:
    """The lines by their ids, without the place that each has on its device."""
    return {one["id"]: {name: value for name, value in one.items() if name != "seq"} for one in stored(page)}


def gives(hands: Hands, file: Path) -> None:
    """From the hand-over: the codes of all that is at work, as the other's camera sees them."""
    page = hands.page
    hands.tap(page.get_by_role("link", name="Give it to another phone"))
    hands.press("Show the codes")
    expect(page.locator("[data-codes=screen] svg")).to_be_visible(timeout=READY)
    hands.press("Stand still")
    film(pictures(page), file)


def takes(hands: Hands, new: int) -> None:
    page = hands.page
    hands.press("Read codes with the camera")
    before = book(page)
    expect(page.locator("[data-codes=brought]")).to_contain_text("All of it has come", timeout=3 * READY)
    assert book(page) == before, "something was written before the tap"
    hands.press(f"Take the {new} new lines into the book")
    expect(page.locator("[data-daybook=state]")).to_contain_text(f"{new} lines taken")
    hands.tap(page.get_by_role("link", name="the hand-over").last)


def takes_over(hands: Hands, by: str, to: str) -> None:
    """A look at each batch, and said back."""
    page = hands.page
    for batch in ("77", "78"):
        one = page.locator(f"[data-handed='{batch}']")
        hands.tap(one.get_by_role("button", name="It is as the book says"))
        expect(one.locator(".looked")).to_contain_text("Looked at", timeout=READY)
    for label, name in (("Handed over by", by), ("Taken over by", to)):
        box = page.get_by_label(label)
        if box.input_value() != name:
            hands.write(box, name)
    hands.press("All of it was said back")
    expect(page.locator("[data-daybook=state]")).to_contain_text(f"handed over to {to}")


@pytest.fixture
def phones(house: House, tmp_path: Path) -> Iterator[Callable[[str, str, Path], Page]]:
    """Each a phone that keeps the handbook: ``phones(name, path, film)``; the server of the site is dead."""
    kept = house.profile
    with ExitStack() as open_ones:

        def opened_one(name: str, path: str, seen: Path) -> Page:
            house.profile = tmp_path / name
            shutil.copytree(kept, house.profile)
            page = house.open(path, *flags(seen))
            open_ones.callback(page.context.close)
            return page

        yield opened_one
    house.context, house.profile = None, kept


def test_a_batch_goes_through_the_night_and_back(
    phones: Callable[[str, str, Path], Page], house: House, tmp_path: Path
) -> None:
    typed: list[str] = []
    first, second = tmp_path / "first.y4m", tmp_path / "second.y4m"
    page = opened(phones("late", PAGE, second))
    at_work(page)
    page.goto(house.address)
    late = Hands(page, typed)
    row = page.locator("[data-day-book=today] [data-today='77']")
    expect(row).to_contain_text("Drain", timeout=READY)
    expect(page.locator("[data-day-book=today] [data-today]").first).to_have_attribute("data-today", "78")  # the worst
    late.tap(row.get_by_role("link", name="77").first)

    # The blower dies in the night. What is done at once, then a way, written with who was told.
    late.tap(page.locator("[data-what-now] > summary"))
    late.press("Blower or fan has stopped")
    expect(page.locator("[data-fault-orders=blower]")).to_contain_text("everybody away")
    late.press("Show the ways from here")
    expect(page.locator("[data-what-now-ways] .ways > li").first).to_contain_text("Now: drain", timeout=READY)
    late.press("Take this way")
    late.write(page.locator(".entry-sheet [data-question=told] input"), "shift lead")
    late.press("Write it")
    late.tap(page.locator(".entry-all [data-kind-of-entry=stage-ended]"))
    late.tap(page.locator(".entry-sheet [data-question=ended] input").first)
    late.press("Write it")
    expect(page.locator("[data-place=next] .next-step")).to_contain_text("Water on at", timeout=READY)
    assert late.taps == 9

    # The change of shift: all that is at work goes over to the other phone.
    go(page, house.address)
    expect(page.locator("[data-day-book=today] [data-today='77']")).to_contain_text("Water on", timeout=READY)
    late.tap(page.get_by_role("link", name="Hand over", exact=True))
    expect(page.locator("[data-handed]")).to_have_count(2, timeout=READY)
    sent = book(page)
    gives(late, first)
    page = phones("night", CODES, first)
    night = Hands(page, typed)
    takes(night, len(sent))
    assert book(page) == sent
    for batch, words in {"77": ["told: shift lead", "Water on at"], "78": ["late", "turn"]}.items():
        for said in words:
            expect(page.locator(f"[data-handed='{batch}']")).to_contain_text(said, timeout=READY)
    expect(page.locator("[data-handed]").first).to_have_attribute("data-handed", "78")  # the worst is told first
    takes_over(night, "AB", "CD")
    assert night.taps == 6

    # In the night: what is late is done and written; the sheet has the batch's numbers without a key.
    night.tap(page.locator("[data-handed='78'] h3 a"))
    expect(page.locator("[data-place=next] .next-step")).to_be_visible(timeout=READY)
    expect(page.locator("[data-place=lines]")).to_contain_text(HOSTILE, timeout=READY)
    assert page.locator("section.day-book img").count() == 0 and page.title() != "taken"
    night.tap(page.locator(".entry-likely [data-kind-of-entry=turned], .entry-all [data-kind-of-entry=turned]").first)
    night.press("Write it")
    expect(page.locator("[data-daybook=state]")).to_contain_text("Written")
    night.tap(page.get_by_role("link", name="All batches"))
    night.tap(page.locator("[data-place=batches] a[data-batch='77']").first)
    sheet = page.locator("[data-place=sheets] a[href*=steep-timing]").first
    expect(sheet).to_be_visible(timeout=READY)
    night.tap(sheet)
    moisture = page.locator("[data-question=barley_moisture] input").first
    expect(moisture).to_have_value("12.5", timeout=READY)

    # In the morning it goes back the same way: both books are one, and nobody typed anything twice.
    go(page, house.address + HAND_OVER)
    expect(page.locator("[data-handed]")).to_have_count(2, timeout=READY)
    all_of_it = book(page)
    new = len(all_of_it) - len(sent)
    assert new == 5  # two looks, two hand-overs, one turning
    gives(night, second)
    page = late.page
    takes(late, new)
    assert book(page) == all_of_it
    expect(page.locator("[data-handed='78']")).to_contain_text("turned", timeout=READY)
    assert len(typed) == len(set(typed)), f"typed twice: {typed}"
    assert house.faults == []
