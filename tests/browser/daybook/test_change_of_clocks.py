"""A line keeps the hour of its own work when the clocks have been changed since."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from calculators.sheets import find_sheet
from tests.browser.book import (
    PAGE,
    START,
    as_file,
    begin,
    choose,
    drawn,
    line,
    made,
    opened,
    read_in,
    stored,
    write_it,
)
from tests.browser.conftest import Open, without_engine
from tests.browser.sheets import READY, example, expect_standing, path_of, section, type_in

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
HERE = "Europe/Berlin"
SUMMER, WINTER = 120, 60
EVENING = datetime(2026, 10, 24, 20, 0, tzinfo=UTC)
"""22:00 on the wall; at 03:00 the clocks go back to 02:00."""
MORNING = datetime(2026, 10, 25, 7, 0, tzinfo=UTC)
"""08:00 on the wall, eleven hours later."""


def at(moment: datetime) -> Callable[[Page], None]:
    return lambda page: page.clock.set_fixed_time(moment)


def bare_at(moment: datetime) -> Callable[[Page], None]:
    def before(page: Page) -> None:
        without_engine(page)
        at(moment)(page)

    return before


def later(page: Page, moment: datetime) -> None:
    page.clock.set_fixed_time(moment)
    page.reload()
    opened(page)


def begun(open_page: Open, moment: datetime) -> Page:
    page = opened(open_page(PAGE, before=bare_at(moment), timezone_id=HERE))
    begin(page, "77", **START)
    return page


def put_at(page: Page, clock: str) -> None:
    sheet = page.locator(".entry-sheet")
    more = sheet.locator("details", has_text="Another time")
    more.evaluate("more => { more.open = true; }")
    sheet.locator("#entry-common-at").fill(clock)


def correct_last(page: Page) -> None:
    page.locator("tr[data-entry]").last.get_by_role("button", name="Correct").click()
    expect(page.locator(".entry-sheet")).to_be_visible()


def work(page: Page) -> tuple[Any, Any]:
    last = stored(page)[-1]
    return last["at"], last["zone"]


def test_a_line_corrected_after_the_clocks_went_back_still_passes_its_stop(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=at(EVENING), timezone_id=HERE))
    begin(page, "77", **START)
    line(page, "stage-begun", stage="wet")
    later(page, datetime(2026, 10, 25, 9, 30, tzinfo=UTC))  # 13.5 h under water
    stop = page.locator("[data-place=next]")
    expect(stop).to_contain_text("Past a stop", timeout=READY)
    drawn(page).last.get_by_role("button", name="Correct").click()
    write_it(page)
    expect(drawn(page)).to_have_count(3)
    assert work(page) == ("2026-10-24T22:00", SUMMER)
    expect(stop).to_contain_text("Past a stop")


@pytest.mark.further(keep=2)
@pytest.mark.parametrize(
    ("now", "clock", "zone"),
    [
        (MORNING, "2026-10-24T22:00", SUMMER),
        (MORNING, "2026-10-25T02:30", WINTER),  # it comes twice: the later one has passed
        (datetime(2026, 10, 25, 0, 50, tzinfo=UTC), "2026-10-25T02:30", SUMMER),  # the later one has not
        (EVENING, "2026-10-26T06:00", WINTER),
        (datetime(2027, 3, 28, 6, 0, tzinfo=UTC), "2027-03-27T23:00", WINTER),
        (datetime(2027, 3, 28, 6, 0, tzinfo=UTC), "2027-03-28T02:30", WINTER),  # by a clock nobody had put forward
    ],
)
def test_a_line_written_late_has_the_zone_of_its_own_hour(
    open_page: Open, now: datetime, clock: str, zone: int
) -> None:
    page = begun(open_page, now)
    choose(page, "turned")
    put_at(page, clock)
    write_it(page)
    assert work(page) == (clock, zone)


@pytest.mark.further
def test_a_correction_stays_in_the_hour_that_came_twice(open_page: Open) -> None:
    first = datetime(2026, 10, 25, 0, 10, tzinfo=UTC)  # 02:10, the first time
    page = begun(open_page, first)
    line(page, "turned", depth_cm="12")
    assert work(page) == ("2026-10-25T02:10", SUMMER)
    later(page, MORNING)
    correct_last(page)
    put_at(page, "2026-10-25T02:15")
    write_it(page)
    assert work(page) == ("2026-10-25T02:15", SUMMER)
    later(page, MORNING)
    correct_last(page)
    put_at(page, "2026-10-24T23:15")
    write_it(page)
    assert work(page) == ("2026-10-24T23:15", SUMMER)


def test_five_minutes_earlier_just_after_the_clocks_went_back_is_five_minutes(open_page: Open) -> None:
    page = begun(open_page, datetime(2026, 10, 25, 1, 2, tzinfo=UTC))  # 02:02, the second time
    sheet = choose(page, "turned")
    sheet.locator("details", has_text="Another time").evaluate("more => { more.open = true; }")
    sheet.locator("[data-action=earlier]").click()
    write_it(page)
    assert work(page) == ("2026-10-25T02:57", SUMMER)


@pytest.mark.further
def test_a_line_of_another_clock_is_corrected_by_that_clock(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=at(MORNING), timezone_id=HERE))
    table = "batch,kind,at,gross_g,drained\n77,basket,2026-10-20T06:00,711,drained\n"
    expect(read_in(page, table, "book.csv")).to_contain_text("1", timeout=READY)
    assert work(page) == ("2026-10-20T06:00", 0)
    page.locator("[data-place=batches] a[data-batch]").click()
    drawn(page).last.get_by_role("button", name="Correct").click()
    put_at(page, "2026-10-20T06:10")
    write_it(page)
    assert work(page) == ("2026-10-20T06:10", 0)


@pytest.mark.further
def test_a_line_that_got_the_zone_of_its_writing_gets_its_own_when_it_is_corrected(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=at(MORNING), timezone_id=HERE))
    wrong = made(1, at="2026-10-24T22:00", written="2026-10-25T07:00:00.000Z", zone=WINTER)
    expect(read_in(page, as_file([wrong]))).to_contain_text("1", timeout=READY)
    page.locator("[data-place=batches] a[data-batch]").click()
    drawn(page).last.get_by_role("button", name="Correct").click()
    write_it(page)
    assert work(page) == ("2026-10-24T22:00", SUMMER)


def test_what_comes_after_the_change_is_said_by_the_clock_that_will_hang_there(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=at(EVENING), timezone_id=HERE))
    begin(page, "77", **START)
    line(page, "stage-begun", stage="wet")
    step = page.locator("[data-place=next]")
    expect(step).to_contain_text("05:00", timeout=READY)  # 22:00, 8 h under water, an hour twice
    expect(step).not_to_contain_text("06:00")


@pytest.mark.python_here(False)
def test_a_sheet_whose_hours_go_over_the_change_says_so_first(open_page: Open) -> None:
    sheet = find_sheet("steep-timing")
    page = open_page(path_of(sheet), before=at(EVENING), timezone_id=HERE)
    place = section(page, sheet)
    type_in(place, sheet, {**example(sheet), "start": "2026-10-24 22:00"})
    expect_standing(place, "answered")
    expect(place.locator("[data-place=notes] .hazard").first).to_contain_text(
        "The clocks are put back on Sun 25 Oct 03:00. This sheet goes by the clock of its start"
    )
