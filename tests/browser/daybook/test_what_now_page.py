"""A blower that dies at night: what now, the way taken, the hand-over, by taps on a phone, and on paper."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.book import PAGE, PUT, opened, stored, write_it
from tests.browser.conftest import DESK, PHONE, Open, engine_later, go, without_engine
from tests.browser.daybook.test_daybook_kept import STUCK
from tests.browser.faults import faults
from tests.browser.printed import needs_poppler, text_of
from tests.browser.sheets import READY
from tests.browser.test_access import TARGET
from tests.daybook.book import START, line
from tests.safety import phrases

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
HAND_OVER = "records/hand-over/"


def under_water(page: Page, batch: str = "77") -> None:
    """A batch four hours into its second immersion, by the device's clock."""
    now = datetime.now()

    def at(hours: float) -> str:
        return f"{now - timedelta(hours=hours):%Y-%m-%dT%H:%M}"

    lines: list[dict[str, Any]] = [
        line("start", at(21), batch, **START),
        line("stage-begun", at(20), batch, stage="wet", water_temp_c="14"),
        line("stage-ended", at(12), batch, ended="drained"),
        line("stage-begun", at(4), batch, stage="wet", water_temp_c="14"),
    ]
    for one in lines:
        one["written"] = f"{one['at']}:00.000Z"
    page.evaluate(PUT, lines)


def in_the_night(open_page: Open, address: str) -> Page:
    page = opened(open_page(PAGE, before=engine_later))
    under_water(page)
    page.goto(f"{address}{PAGE}?batch=77")
    opened(page)
    return page


def fits(page: Page) -> None:
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        # The theme's search moves for a moment after the size has changed.
        page.wait_for_function("width => document.scrollingElement.scrollWidth <= width", arg=size["width"])
        assert page.locator("section.day-book").evaluate("(s, least) => helpers.small(s, least)", TARGET) == []
    assert faults(page) == []


def test_a_blower_dies_at_night_and_the_batch_goes_through_the_change_of_shift(open_page: Open, address: str) -> None:
    page = in_the_night(open_page, address)
    expect(page.locator("[data-place=next] .next-step")).to_contain_text("Drain", timeout=READY)
    taps = 0
    page.locator("[data-what-now] > summary").click()
    page.get_by_role("button", name="Blower or fan has stopped").click()
    orders = page.locator("[data-fault-orders=blower]")
    expect(orders).to_contain_text("everybody away")
    expect(page.get_by_role("button", name="It is too warm")).to_be_hidden()  # not under water
    box, acts = orders.locator(".hazard").first.bounding_box(), orders.locator(".fault-acts").bounding_box()
    assert box and acts and box["y"] < acts["y"]
    orders.get_by_role("button", name="Show the ways from here").click()
    ways = page.locator("[data-what-now-ways] .ways > li")
    expect(ways.first).to_contain_text("Now: drain", timeout=READY)
    assert 2 <= ways.count() <= 3
    assert phrases.faults(phrases.shown(page.locator("[data-what-now]").inner_html())) == []
    fits(page)
    ways.first.get_by_role("button", name="Take this way").click()
    taps += 4
    expect(page.locator(".entry-sheet")).to_contain_text("It counts once it is written")
    page.locator(".entry-sheet [data-question=told] input").fill("shift lead")
    write_it(page)
    taps += 1
    assert taps == 5
    expect(page.locator("[data-what-now-ways]")).to_contain_text("the ways that stood here are old")
    expect(page.get_by_role("button", name="Take this way")).to_have_count(0)  # they began before that line
    plan = stored(page)[-1]
    assert plan["kind"] == "plan" and plan["values"]["told"] == "shift lead" and len(plan["values"]["stages"]) == 5
    page.locator(".entry-all [data-kind-of-entry=stage-ended]").click()
    page.locator(".entry-sheet [data-question=ended] input").first.check()
    write_it(page)
    step = page.locator("[data-place=next] .next-step")
    expect(step).to_contain_text("Water on at", timeout=READY)

    go(page, address + HAND_OVER)
    one = page.locator("[data-handed='77']")
    expect(one).to_contain_text("told: shift lead", timeout=READY)
    expect(one).to_contain_text("Water on at")
    expect(page.locator("[data-daybook=unseen]")).to_contain_text("77")
    page.get_by_role("button", name="All of it was said back").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("Look at each batch first")
    page.get_by_label("Handed over by").fill("AB")
    page.get_by_label("Taken over by").fill("CD")
    one.get_by_role("button", name="It is as the book says").click()
    expect(one).to_contain_text("as the book says", timeout=READY)
    expect(page.locator("[data-daybook=unseen]")).to_have_text("Each batch was looked at.")
    fits(page)
    page.get_by_role("button", name="All of it was said back").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("handed over to CD")
    assert [entry["kind"] for entry in stored(page)][-2:] == ["looked", "handed-over"]
    assert stored(page)[-1]["values"] == {"to_whom": "CD", "said_back": "yes"}


def test_a_blower_noted_as_stopped_leads_the_next_step_until_a_line_says_that_it_is_over(
    open_page: Open, address: str
) -> None:
    page = in_the_night(open_page, address)
    step = page.locator("[data-place=next] .next-step")
    expect(step).to_contain_text("Drain", timeout=READY)
    page.locator("[data-what-now] > summary").click()
    page.get_by_role("button", name="Blower or fan has stopped").click()
    noting = page.locator("[data-fault-orders=blower]").get_by_role("button", name="Note that it happened")
    noting.click()
    write_it(page)
    expect(step).to_contain_text("Past a stop. Fan with grain in: stopped", timeout=READY)
    expect(step).not_to_contain_text("Drain at")
    expect(page.locator("[data-place=next] .hazard").first).to_contain_text("everybody away")
    noting.click()
    page.locator(".entry-sheet [data-question=fault_now]").get_by_label("It is over").check()
    write_it(page)
    expect(step).to_contain_text("Drain at", timeout=READY)
    assert stored(page)[-1]["values"]["fault_now"] == "over"
    fits(page)


def test_what_is_done_where_the_batch_is_stands_first(open_page: Open, address: str) -> None:
    page = opened(open_page(PAGE, before=engine_later))
    now = datetime.now()
    lines = [
        line("start", f"{now - timedelta(hours=60):%Y-%m-%dT%H:%M}", "77", **{**START, "vessel": "drum"}),
        line("stage-begun", f"{now - timedelta(hours=59):%Y-%m-%dT%H:%M}", "77", stage="wet", water_temp_c="14"),
        line("stage-ended", f"{now - timedelta(hours=20):%Y-%m-%dT%H:%M}", "77", ended="drained"),
        line("cast", f"{now - timedelta(hours=11):%Y-%m-%dT%H:%M}", "77"),
    ]
    page.evaluate(PUT, lines)
    page.goto(f"{address}{PAGE}?batch=77")
    opened(page)
    page.locator("[data-what-now] > summary").click()
    page.get_by_role("button", name="Blower or fan has stopped").click()
    orders = page.locator("[data-fault-orders=blower]")
    expect(orders.locator(".fault-acts li").first).to_contain_text("In the drum or box", timeout=READY)
    expect(orders.locator(".hazard").first).to_contain_text("everybody away")
    expect(orders.locator("[data-own-first] > .hazard").last).to_have_attribute("data-at", "wet rest")
    assert orders.locator(".hazard").count() == 4 and orders.locator(".fault-acts li").count() == 4


def test_what_is_done_at_once_stands_there_without_an_answer(open_page: Open, address: str) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    under_water(page)
    page.goto(f"{address}{PAGE}?batch=77")
    opened(page)
    page.locator("[data-what-now] > summary").click()
    page.get_by_role("button", name="Blower or fan has stopped").click()
    expect(page.locator("[data-fault-orders=blower]")).to_contain_text("Open nothing, and wait beside nothing")


def test_hours_are_set_by_taps_and_a_slip_is_asked_again(open_page: Open, address: str) -> None:
    page = in_the_night(open_page, address)
    page.locator("[data-what-now] > summary").click()
    page.get_by_role("button", name="The kiln is late").click()
    part = page.locator("[data-fault-orders=kiln-late]")
    part.get_by_role("button", name="more").click()
    expect(part.get_by_role("textbox")).to_have_value("13")
    part.get_by_role("textbox").fill("300")
    part.get_by_role("button", name="Show the ways").click()
    expect(page.locator("[data-what-now-ways]")).to_contain_text("0.5 to 48", timeout=READY)
    part.get_by_role("textbox").fill("6")
    part.get_by_role("button", name="Show the ways").click()
    expect(page.locator(".ways > li").first).to_contain_text("To be told", timeout=READY)


def test_a_finger_that_is_quicker_than_the_book_is_answered_by_the_book(open_page: Open, address: str) -> None:
    page = in_the_night(open_page, address)
    page.add_init_script(f"({STUCK})()")
    page.reload()
    page.locator("[data-what-now] > summary").click()
    page.get_by_role("button", name="The kiln is late").click()
    page.locator("[data-fault-orders=kiln-late]").get_by_role("button", name="Show the ways").click()
    expect(page.locator("[data-what-now-ways]")).to_contain_text("being worked out")
    page.evaluate("() => letGo()")
    expect(page.locator(".ways > li").first).to_contain_text("To be told", timeout=READY)


@needs_poppler
def test_the_hand_over_is_one_page_of_paper_and_the_record_has_its_next_step(
    open_page: Open, address: str, tmp_path: Path
) -> None:
    page = in_the_night(open_page, address)
    page.evaluate("() => { window.print = () => {}; }")
    expect(page.locator("[data-place=next] .next-step")).to_contain_text("Drain", timeout=READY)
    page.get_by_role("button", name="Print the record").click()
    expect(page.locator("[data-place=print] .next-step")).to_have_count(1, timeout=READY)
    text, _ = text_of(page, tmp_path)
    assert "Drain at" in text and "What now?" not in text
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    go(page, address + HAND_OVER)
    expect(page.locator("[data-handed='77']")).to_be_visible(timeout=READY)
    page.evaluate("() => { window.print = () => {}; }")
    page.get_by_role("button", name="Print the hand-over").click()
    text, pages = text_of(page, tmp_path)
    assert pages == 1
    for words in ("Hand-over,", "By whom:", "looked at by:", "Remarks:", "Taken over by:", "77: under water"):
        assert words in text, words
    assert "It is as the book says" not in text


@pytest.mark.further(keep=1)
@needs_poppler
@pytest.mark.parametrize(
    ("count", "at_most"), [pytest.param(2, 1, marks=pytest.mark.long), (8, 1), (30, 5)], ids=["two", "eight", "thirty"]
)
def test_a_hand_over_of_many_batches_says_on_each_page_that_it_goes_on(
    open_page: Open, address: str, tmp_path: Path, count: int, at_most: int
) -> None:
    page = opened(open_page(PAGE, before=engine_later))
    for number in range(count):
        under_water(page, str(77 + number))
    page.goto(address + HAND_OVER)
    expect(page.locator("[data-handed]")).to_have_count(count, timeout=READY)
    page.evaluate("() => { window.print = () => {}; }")
    page.get_by_role("button", name="Print the hand-over").click()
    text, pages = text_of(page, tmp_path)
    assert pages <= at_most
    assert pages > 1 or count < 30
    for number in range(1, pages + 1):
        assert f"Hand-over, page {number} of {pages}" in text
    for number in range(count):
        assert f"{77 + number}: under water" in text
    assert "Taken over by:" in text
