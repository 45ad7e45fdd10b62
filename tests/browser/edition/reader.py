"""A reader with a page open, and the site whose next edition comes meanwhile."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from calculators.asking.declare import Sheet
from calculators.sheets import find_sheet
from site_src.corrections import marks_of
from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.conftest import PHONE, Watch, only_python, without_engine
from tests.browser.editions import House, all_but
from tests.browser.engine.stood_in import python_here
from tests.browser.sheets import expect_standing, path_of, section

SHEET = find_sheet("moisture-target")
OTHER = find_sheet("sample-basket")
GUARDED = find_sheet("gas-build-up")
TIMES = find_sheet("steep-timing")  # with a table
WORKED = "9504"  # kg, the first answer of the worked case
RENEWED = re.compile("this is the new edition")
PERSON = find_sheet("shovel-pace")
PLACES = ("training/exercises", "training/practice-batch", "training/sign-off", "records/by-codes", "safety", DAY_BOOK)
LEFT_OUT = all_but(*map(path_of, (SHEET, OTHER, GUARDED, TIMES, PERSON)), *PLACES)


@pytest.fixture
def house(built_site: Path, address: str, tmp_path: Path) -> Iterator[House]:
    house = House(built_site, address, tmp_path, LEFT_OUT)
    yield house
    house.kill()


class Reader:
    def __init__(self, browser: Browser, house: House) -> None:
        self.house = house
        self.watch = Watch(house.address)
        self.page = self.watch.new_page(browser, viewport=PHONE)

    def open(self, path: str) -> Page:
        self.page.goto(self.house.address + path)
        return self.page

    def follow(self, path: str) -> None:
        self.page.evaluate("address => helpers.press(address)", self.house.address + path)


@pytest.fixture
def reader(browser: Browser, house: House) -> Iterator[Reader]:
    reader = Reader(browser, house)
    yield reader
    reader.page.context.close()
    reader.watch.check()


@pytest.fixture
def still_reader(reader: Reader) -> Reader:
    """One of whom nothing is asked that the calculator would have to answer."""
    without_engine(reader.page)
    return reader


@pytest.fixture
def quick_reader(reader: Reader) -> Reader:
    """One who is answered at once, whatever is asked: which calculators answer is not looked at."""
    only_python(reader.page)
    python_here(reader.page)
    return reader


def settled(page: Page) -> Page:
    """Wait until the page has all that comes to it when it is idle, and hears of the site."""
    expect(page.locator(".offline-line")).to_have_count(1)
    return page


def heard(page: Page) -> Page:
    """Have the browser find the site again."""
    settled(page).evaluate("() => { dispatchEvent(new Event('online')); }")
    return page


def note(page: Page) -> Locator:
    return page.locator(".edition-note")


def answer(page: Page, sheet: Sheet) -> str:
    place = section(page, sheet)
    expect_standing(place, "answered")
    return place.locator(".figure").first.inner_text()


def correction(**more: object) -> dict[str, object]:
    """One as the site publishes it."""
    return {
        "id": "weights-2026-12",
        "day": "3 Dec 2026",
        "word": "WARNING",
        "sheets": [SHEET.id],
        "pages": [],
        "marks": marks_of([SHEET.id]),
        "dayBook": False,
        "where": [SHEET.title],
        "wrong": "The weight at the target was too low.",
        "now": "Work the weights of today's batches out again.",
        **more,
    }
