"""A page that stays open while the site is built anew: never old and new together."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.book import begin, opened, stored
from tests.browser.conftest import knows_the_pages
from tests.browser.edition.reader import (
    GUARDED,
    OTHER,
    RENEWED,
    SHEET,
    WORKED,
    Reader,
    answer,
    correction,
    heard,
    house,
    note,
    quick_reader,
    reader,
    settled,
    still_reader,
)
from tests.browser.editions import House
from tests.browser.sheets import example, expect_standing, path_of, section, type_in

__all__ = ["house", "quick_reader", "reader", "still_reader"]

pytestmark = [pytest.mark.browser, pytest.mark.further]
SAVES = """Object.defineProperty(Navigator.prototype, "connection", {
  get: () => ({ saveData: location.pathname.includes("%s") }),
});"""


def test_every_page_and_what_comes_with_it_carry_one_mark(house: House, reader: Reader) -> None:
    marks = set()
    for path in house.site.rglob("*.html"):
        html = path.read_text("utf-8")
        found = re.search(r'<html data-edition="([0-9a-f]{16})"', html)
        also = re.search(r'<meta name="edition" content="([0-9a-f]{16})" data-calculators="([0-9a-f]{12})"', html)
        assert found and also and found[1] == also[1], path
        marks.add(also.groups())
    assert len(marks) == 1
    [(mark, calculators)] = marks
    assert (house.site / f"assets/app/calculators.{calculators}.zip").is_file()
    assert f'"version": "{mark}"' in (house.site / "offline.json").read_text("utf-8")


def test_a_link_to_a_page_of_new_words_and_another_formula_brings_all_of_it(house: House, reader: Reader) -> None:
    reader.page.add_init_script(SAVES % OTHER.id)  # no Python is fetched there, whose files would be gone by then
    page = settled(reader.open(path_of(OTHER)))
    type_in(section(page, OTHER), OTHER, example(OTHER))
    expect_standing(section(page, OTHER), "answered")
    house.change_answer(path_of(SHEET), WORKED, "9999")
    house.change_words(path_of(SHEET), "</h1>", ", second edition</h1>")
    mark = house.publish()
    reader.follow(path_of(SHEET))
    expect(page.locator("h1")).to_contain_text("second edition")
    expect(note(page)).to_contain_text(RENEWED)
    assert page.evaluate("() => document.documentElement.dataset.edition") == mark
    type_in(section(page, SHEET), SHEET, example(SHEET))
    assert "9999" in answer(page, SHEET)
    reader.follow(path_of(OTHER))  # what was typed before is on the device
    expect_standing(section(page, OTHER), "answered")


def test_the_same_edition_loads_nothing_again(house: House, still_reader: Reader) -> None:
    page = still_reader.open(path_of(OTHER))
    knows_the_pages(page)
    page.evaluate("() => { window.sameVisit = true; }")
    still_reader.follow(path_of(SHEET))
    expect(section(page, SHEET)).to_be_visible()
    page.wait_for_timeout(200)
    assert page.evaluate("() => window.sameVisit") is True
    assert note(page).count() == 0


def test_a_day_book_whose_files_are_gone_does_not_hide(house: House, still_reader: Reader) -> None:
    page = still_reader.open("")
    expect(page.locator("h1")).to_be_visible()
    house.change_names()
    house.publish()
    still_reader.watch.expected += ["Failed to load resource"]
    still_reader.follow(DAY_BOOK)
    opened(page)
    begin(page, "77")
    assert [line["kind"] for line in stored(page)] == ["start"]


def test_a_part_that_does_not_come_is_said(house: House, still_reader: Reader) -> None:
    page = still_reader.open("")
    for path in (house.site / "assets/browser").glob("daybook.*"):
        path.unlink()
    still_reader.watch.expected += ["Failed to load resource"]
    still_reader.follow(DAY_BOOK)
    expect(note(page)).to_contain_text("could not be fetched")
    expect(note(page).get_by_role("button", name="Load the page again")).to_be_visible()


def test_a_site_that_gives_now_this_edition_and_now_that_is_not_loaded_for_ever(house: House, reader: Reader) -> None:
    """As behind a balancer: the page itself stays old, and all else says that there is a new one."""
    page = reader.open("")
    loads: list[str] = []
    page.on("load", lambda loaded: loads.append(loaded.url))
    house.publish([correction()])
    offer = (house.site / "offline.json").read_bytes()
    house.publish()
    (house.site / "offline.json").write_bytes(offer)
    while len(loads) < 3:
        with page.expect_event("load"):
            heard(page)
    for _ in range(2):
        with page.expect_response("**/offline.json"):
            heard(page)
    page.wait_for_timeout(200)
    assert len(loads) == 3
    expect(note(page)).to_contain_text("do not fit together")


class TestCorrections:
    """Those that concern safety: told once, and heeded before what is kept."""

    def test_it_is_told_until_it_is_read_and_then_no_more(self, house: House, quick_reader: Reader) -> None:
        page = quick_reader.open(path_of(GUARDED))
        type_in(section(page, GUARDED), GUARDED, example(GUARDED))
        house.publish([correction()])
        heard(page)
        box = page.locator(".correction")
        expect(box).to_contain_text("WARNING")
        expect(box).to_contain_text(SHEET.title)
        expect(box).to_contain_text("Work the weights of today")
        expect_standing(section(page, GUARDED), "answered")
        quick_reader.follow("safety/")
        expect(box).to_be_visible()
        page.reload()
        expect(box).to_be_visible()
        box.get_by_role("button", name="I have read this").click()
        expect(box).to_have_count(0)
        page.reload()
        with page.expect_response("**/offline.json"):
            heard(page)
        page.wait_for_timeout(200)
        expect(box).to_have_count(0)

    def test_who_comes_for_the_first_time_is_told_nothing(self, house: House, still_reader: Reader) -> None:
        house.publish([correction()])
        page = still_reader.open("safety/")
        with page.expect_response("**/offline.json"):
            heard(page)
        page.wait_for_timeout(200)
        assert page.locator(".correction").count() == 0

    def test_one_that_says_markup_says_it_as_text(self, house: House, still_reader: Reader) -> None:
        page = still_reader.open("")
        settled(page)
        house.publish([correction(wrong="<img src=x onerror=alert(1)>")])
        heard(page)
        expect(page.locator(".correction")).to_contain_text("<img src=x")
