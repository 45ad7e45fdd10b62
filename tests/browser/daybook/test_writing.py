"""A line in two taps and a number, steps for gloves, counters, and a batch begun as the last one or as usual."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.book import PAGE, START, begin, choose, line, opened, stored, write_it
from tests.browser.conftest import Open, without_engine
from tests.browser.sheets import READY
from tests.browser.test_access import TARGET

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
CLOCK = r"(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d{1,2} [A-Z][a-z]{2} \d\d:\d\d"


@pytest.fixture
def book(open_page: Open) -> Page:
    """A book with a batch in it; nothing here waits for the calculator."""
    page = opened(open_page(PAGE, before=without_engine, has_touch=True))
    begin(page, "77", **START)
    return page


def values(page: Page) -> dict[str, Any]:
    entry: dict[str, Any] = stored(page)[-1]["values"]
    return entry


def test_the_plan_is_asked_first(book: Page) -> None:
    book.get_by_role("link", name="All batches").click()
    book.get_by_role("button", name="Begin a batch").click()
    first = book.locator(".entry-sheet [data-question]").first
    expect(first).to_have_attribute("data-question", "stages")
    expect(first).to_be_visible()


def test_steps_go_on_from_the_last_reading(book: Page) -> None:
    line(book, "water", water_temp_c="14.0")
    sheet = choose(book, "water")
    more, less = (sheet.get_by_role("button", name=re.compile(word)) for word in ("0.1 more", "0.1 less"))
    box = sheet.locator("[data-question=water_temp_c] input")
    expect(box).to_have_attribute("placeholder", "14.0")
    expect(box).to_have_value("")  # nothing is written that nobody has looked at
    more.tap()
    expect(box).to_have_value("14.0")
    for _ in range(3):
        more.tap()
    expect(box).to_have_value("14.3")
    less.tap()
    expect(box).to_have_value("14.2")
    box.fill("14,25")
    more.tap()
    expect(box).to_have_value("14.35")
    box.fill("warm")
    more.tap()
    expect(box).to_have_value("warm")  # what is no number is left alone
    assert sheet.evaluate("(sheet, least) => helpers.small(sheet, least)", TARGET) == []
    box.fill("14.2")
    write_it(book)
    assert values(book)["water_temp_c"] == "14.2"


def test_the_receipt_has_the_unit_that_was_typed_and_the_day_that_is_not_today(book: Page) -> None:
    state = book.locator("[data-daybook=state]")
    line(book, "water", water_temp_c="57 F")
    expect(state).to_contain_text("Water temperature 57 F.")
    line(book, "water", water_temp_c="14,2")
    expect(state).to_contain_text("Water temperature 14,2 °C.")
    expect(state).to_contain_text(re.compile(r"Written, \d\d:\d\d: Water"))
    sheet = choose(book, "water")
    sheet.locator("[data-question=water_temp_c] input").fill("14")
    sheet.get_by_text("Another time").click()
    sheet.locator("#entry-common-at").fill("2026-01-12T06:00")
    write_it(book)
    expect(state).to_contain_text(re.compile(r"Written, Mon 12 Jan 06:00: Water"))


def test_without_a_reading_before_nothing_is_made_up(book: Page) -> None:
    sheet = choose(book, "moisture")
    sheet.get_by_role("button", name=re.compile("0.1 more")).tap()
    expect(sheet.locator("[data-question=moisture] input")).to_have_value("")


def test_a_step_held_down_goes_on(book: Page) -> None:
    sheet = choose(book, "water")
    box = sheet.locator("[data-question=water_temp_c] input")
    box.fill("14")
    more = sheet.get_by_role("button", name=re.compile("0.1 more"))
    place = more.bounding_box()
    assert place
    book.mouse.move(place["x"] + 20, place["y"] + 20)
    book.mouse.down()
    book.wait_for_timeout(1100)
    book.mouse.up()
    reached = float(box.input_value())
    assert reached >= 14.3
    book.wait_for_timeout(400)
    assert float(box.input_value()) == reached, "it went on after the finger was gone"


def test_the_time_is_said_in_one_style_and_moved_by_taps(book: Page) -> None:
    sheet = choose(book, "water")
    said = sheet.locator(".said-time")
    expect(said).to_have_text(re.compile(rf"^{CLOCK}, by the clock$"))
    before = sheet.get_by_label("Done at", exact=True).input_value()
    sheet.get_by_role("button", name="5 minutes earlier").tap()
    sheet.get_by_role("button", name="5 minutes earlier").tap()
    expect(said).to_have_text(re.compile(rf"^{CLOCK}$"))
    after = sheet.get_by_label("Done at", exact=True).input_value()
    gap = book.evaluate("([a, b]) => (new Date(a) - new Date(b)) / 60000", [before, after])
    assert 9 <= gap <= 10
    sheet.locator("[data-question=water_temp_c] input").fill("14")
    write_it(book)
    assert stored(book)[-1]["at"] == after
    sheet = choose(book, "water")
    sheet.get_by_role("button", name="5 minutes earlier").tap()
    sheet.get_by_role("button", name="Done at: now").tap()
    expect(said).to_have_text(re.compile("by the clock$"))


def test_two_hundred_chits_are_counted_without_looking(book: Page) -> None:
    sheet = choose(book, "chits")
    chitted, not_yet = (sheet.locator(".tally-class").filter(has_text=name) for name in ("Chitted", "Not yet"))
    expect(chitted.locator("svg")).to_be_visible()
    before = [one.bounding_box() for one in (chitted, not_yet)]
    for _ in range(3):
        not_yet.tap()
    expect(sheet.locator("[data-question=chitted] input")).to_have_value("0")
    for _ in range(197):
        chitted.dispatch_event("click")
    chitted.tap()
    sheet.get_by_role("button", name="Take the last one back").tap()
    expect(sheet.locator(".tally-total")).to_have_text("200 of 200")
    assert [one.bounding_box() for one in (chitted, not_yet)] == before, "the buttons moved under the finger"
    assert min(box["height"] for box in before if box) >= 60
    write_it(book)
    assert values(book) == {"chitted": "197", "counted": "200"}
    sheet = choose(book, "chits")
    expect(sheet.locator(".tally-total")).to_have_text("0 of 200")


def test_acrospires_are_counted_each_beside_its_drawing(book: Page) -> None:
    sheet = choose(book, "readiness")
    classes = sheet.locator(".tally-class")
    expect(classes).to_have_count(5)
    lengths = classes.locator(".spire").evaluate_all(
        "all => all.map((one) => Number((one.getAttribute('stroke-dasharray') ?? '100').split(' ')[0]))"
    )
    assert lengths == sorted(lengths) and len(set(lengths)) == 5
    boxes = [one.bounding_box() for one in classes.all()]
    last = boxes[-1]
    assert last and boxes[0] and last["y"] + last["height"] - boxes[0]["y"] < 600, (
        "the classes do not fit on one screen"
    )
    for place, times in enumerate((0, 1, 2, 4, 0)):
        for _ in range(times):
            classes.nth(place).tap()
    write_it(book)
    assert values(book)["counts"] == [["0"], ["1"], ["2"], ["4"], ["0"]]


def test_a_batch_begun_as_the_last_one(book: Page) -> None:
    book.get_by_role("link", name="All batches").click()
    book.get_by_role("button", name="Begin a batch").click()
    sheet = book.locator(".entry-sheet")
    sheet.get_by_role("button", name="As the last batch").click()
    expect(sheet.get_by_label("Batch number")).to_have_value("78")
    expect(sheet.locator("[data-question=basket_g] input")).to_have_value("84")
    expect(sheet.locator("[data-question=lot] input")).to_have_value("3")
    for name in ("barley_moisture", "water_temp_c"):  # measured anew, never taken over
        expect(sheet.locator(f"[data-question={name}] input")).to_have_value("")
    expect(sheet.locator(".entry-fault")).to_contain_text(re.compile(rf"As batch 77, {CLOCK}.*barley moisture"))
    write_it(book)
    expect(book.locator("[data-daybook=batch]")).to_have_text("Batch 78")
    assert "barley_moisture" not in values(book) and values(book)["basket_g"] == "84"


def test_a_batch_begun_as_the_house_usually_does(book: Page) -> None:
    book.get_by_role("link", name="All batches").click()
    book.get_by_role("button", name="Begin a batch").click()
    sheet = book.locator(".entry-sheet")
    expect(sheet.get_by_role("button", name="Our usual", exact=True)).to_be_hidden()
    sheet.locator("details").evaluate_all("all => all.forEach((more) => { more.open = true; })")
    for name, text in (("basket_g", "90"), ("target_moisture", "45"), ("barley_moisture", "13")):
        sheet.locator(f"[data-question={name}] input").fill(text)
    sheet.locator("[data-question=stages] input").first.fill("7")
    sheet.get_by_role("button", name="Keep as our usual").click()
    sheet.get_by_role("button", name="Leave it").click()
    book.reload()
    opened(book)
    book.get_by_role("button", name="Begin a batch").click()
    sheet.locator("[data-question=target_moisture] input").fill("46")  # what is typed stays
    sheet.get_by_role("button", name="Our usual", exact=True).click()
    expect(sheet.locator("[data-question=basket_g] input")).to_have_value("90")
    expect(sheet.locator("[data-question=stages] input").first).to_have_value("7")
    expect(sheet.locator("[data-question=target_moisture] input")).to_have_value("46")
    expect(sheet.locator("[data-question=barley_moisture] input")).to_have_value("")


def test_what_is_missing_stands_beside_the_next_step(open_page: Open) -> None:
    page = opened(open_page(PAGE))
    begin(page, "77", **{**START, "target_moisture": ""})
    line(page, "stage-begun", stage="wet")
    step = page.locator("[data-place=next]")
    expect(step).to_contain_text("The target is not written: nothing says when to stop the steep.", timeout=READY)
    expect(step).to_contain_text("The plan of the steep is not written")
