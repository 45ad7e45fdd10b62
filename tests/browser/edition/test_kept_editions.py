"""A copy kept on the device while the site goes on: one edition at a time, and a correction that overrules the copy."""

from __future__ import annotations

import re
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, expect

from calculators.sheets import find_sheet
from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.book import begin, line, opened, stored
from tests.browser.conftest import HELPERS
from tests.browser.device import PATIENCE, House, house, saved
from tests.browser.edition.reader import RENEWED, WORKED, correction, heard
from tests.browser.editions import all_but
from tests.browser.sheets import SHEETS, example, expect_standing, path_of, section, type_in

__all__ = ["house", "saved"]

pytestmark = [pytest.mark.browser, pytest.mark.further]
SHEET = find_sheet("moisture-target")
GUARDED = find_sheet("gas-build-up")
EXERCISES = "training/exercises/"
PIT, RECORD = "safety/lorries-and-pits/", "reference/records/steep-record/"  # corrected too; works with the sheet
LEFT_OUT = all_but(
    *map(path_of, (SHEET, GUARDED, SHEETS[0], SHEETS[1])), DAY_BOOK, EXERCISES, PIT, RECORD,
    "reference/offline", "reference/terms", "safety/emergency",
)  # fmt: skip
CORRECTED = correction(pages=[PIT], dayBook=True)


def follow(page: Page, house: House, path: str) -> None:
    page.evaluate("address => helpers.follow(address)", house.address + path)


def answer(page: Page) -> str:
    place = section(page, SHEET)
    type_in(place, SHEET, example(SHEET))
    expect_standing(place, "answered")
    return place.locator(".figure").first.inner_text()


def second_edition(house: House, corrections: tuple[dict[str, object], ...] = ()) -> str:
    house.change_answer(path_of(SHEET), WORKED, "9999")
    house.change_words(path_of(SHEET), "</h1>", ", second edition</h1>")
    house.change_names()
    return house.publish(corrections)


def test_the_kept_edition_stays_whole_until_the_newer_one_is_taken(house: House) -> None:
    second_edition(house)
    house.start()
    page = house.open(path_of(SHEET))
    expect(page.locator(".offline-line")).to_contain_text("A newer version is there")
    expect(page.locator("h1")).not_to_contain_text("second edition")
    assert WORKED in answer(page)
    follow(page, house, "safety/")
    follow(page, house, path_of(SHEET))
    expect_standing(section(page, SHEET), "answered")
    assert WORKED in section(page, SHEET).locator(".figure").first.inner_text()
    assert page.locator(".edition-note").count() == 0


def test_a_tab_that_was_open_when_another_took_the_newer_edition(house: House) -> None:
    mark = second_edition(house)
    house.start()
    first = house.open(path_of(SHEET))
    assert WORKED in answer(first)
    second = first.context.new_page()
    second.add_init_script(path=HELPERS)
    second.goto(f"{house.address}reference/offline/")
    second.get_by_role("button", name=re.compile("Take the newer version")).click()
    expect(second.locator("html")).to_have_attribute("data-edition", mark, timeout=PATIENCE)
    follow(first, house, path_of(SHEETS[1]))
    expect(first.locator(".edition-note")).to_contain_text(RENEWED)
    follow(first, house, path_of(SHEET))
    expect(first.locator("h1")).to_contain_text("second edition")
    expect_standing(section(first, SHEET), "answered")
    assert "9999" in section(first, SHEET).locator(".figure").first.inner_text()
    assert house.faults == []


def test_a_correction_overrules_the_copy_and_what_is_typed_stays(house: House) -> None:
    mark = second_edition(house, (CORRECTED,))
    page = house.open(path_of(GUARDED))  # no network: the kept edition
    typed = example(GUARDED)
    type_in(section(page, GUARDED), GUARDED, typed)
    expect_standing(section(page, GUARDED), "answered")
    house.start()
    heard(page)
    expect(page.locator(".correction")).to_contain_text("The weight at the target was too low", timeout=PATIENCE)
    expect(page.locator("html")).to_have_attribute("data-edition", mark)
    expect_standing(section(page, GUARDED), "answered")
    name, value = next((name, value) for name, value in typed.items() if isinstance(value, str) and value[0].isdigit())
    expect(page.locator(f".field[data-question={name}] input").first).to_have_value(value)
    expect(page.locator(".offline-line")).not_to_contain_text("newer version", timeout=PATIENCE)  # taken by itself
    expect(page.locator(".offline-line")).to_contain_text("Saved for use without a network")
    house.kill()
    follow(page, house, path_of(SHEET))
    expect(page.locator("h1")).to_contain_text("second edition")
    assert "9999" in answer(page)
    expect(page.locator(".correction")).to_be_visible()
    page.get_by_role("button", name="I have read this").click()
    assert house.faults == []


def test_until_the_corrected_edition_is_there_the_old_answer_is_not_shown(house: House) -> None:
    second_edition(house, (CORRECTED,))
    # The list cannot be fetched: told, but not replaced. The page asks as soon as it is there.
    next(house.site.glob("offline.*.json")).unlink()
    house.start()
    page = house.open("reference/terms/")
    expect(page.locator(".correction")).to_contain_text("WARNING")
    house.kill()
    house.close()

    page = house.open("reference/terms/")
    expect(page.locator(".correction")).to_contain_text("Work the weights of today")
    for path in (path_of(SHEET), PIT, f"{RECORD}?sheet={SHEET.id}"):
        reply = page.goto(house.address + path)
        assert reply and reply.status == 504
        expect(page.locator("h1")).to_have_text("This page was corrected")
        expect(page.locator("body")).to_contain_text("The weight at the target was too low")
        assert WORKED not in page.content()
    page.get_by_role("link", name="what to do").click()
    expect(page.locator("h1")).to_contain_text("Emergency")
    follow(page, house, path_of(SHEET))
    expect(page.locator("h1")).to_have_text("This page was corrected")
    page.goto(house.address + EXERCISES)  # which has questions that this sheet works
    expect(page.locator("section.exercises")).to_have_count(0)

    page.goto(house.address + DAY_BOOK)
    opened(page)
    begin(page, "77")
    line(page, "water", water_temp_c="14")
    assert [one["kind"] for one in stored(page)] == ["start", "water"]
    expect(page.locator("[data-daybook=engine]")).to_contain_text("held back")
    assert page.locator("[data-place=next]").inner_html() == ""

    page.goto(house.address + path_of(GUARDED))  # which was right, and answers
    type_in(section(page, GUARDED), GUARDED, example(GUARDED))
    expect_standing(section(page, GUARDED), "answered")

    house.publish((CORRECTED,))
    house.start()
    page.goto(house.address + path_of(SHEET))
    expect(page.locator("h1")).to_contain_text("second edition")
    assert "9999" in answer(page)
    expect(page.locator(".offline-line")).to_contain_text("Saved for use without a network", timeout=PATIENCE)
    expect(page.locator(".offline-line")).not_to_contain_text("newer version", timeout=PATIENCE)
    address = urlsplit(house.address)
    house.kill()
    reply = page.goto(f"{address.scheme}://{address.netloc}/{path_of(SHEET)}")
    assert reply and reply.status == 200
    expect(page.locator("h1")).to_contain_text("second edition")
