"""Who waits for an answer gets the engine before the page is drawn; nobody else does."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from calculators.sheets import find_sheet
from tests.browser.conftest import Open, Watch
from tests.browser.sheets import answer_from_example, path_of

pytestmark = pytest.mark.browser
SHEET = find_sheet("moisture-target")
GUARDED = find_sheet("gas-build-up")
LINK = "?sheet={0}&barley_kg=5000"


def without_the_page_s_script(page: Page) -> None:
    """What starts the engine now can't be what starts it when the page is idle."""
    page.route("**/assets/browser/page.*", lambda route: route.fulfill(content_type="text/javascript", body=""))


def test_a_link_with_numbers_starts_it(open_page: Open, watch: Watch):
    page = open_page(path_of(SHEET) + LINK.format(SHEET.id), before=without_the_page_s_script)
    page.wait_for_timeout(500)
    assert watch.workers == 1


def test_a_sheet_that_was_filled_in_here_starts_it(open_page: Open, watch: Watch):
    page = open_page(path_of(SHEET))
    answer_from_example(page, SHEET)
    watch.workers = 0
    without_the_page_s_script(page)
    page.reload()
    page.wait_for_timeout(500)
    assert watch.workers == 1


@pytest.mark.parametrize("path", [path_of(SHEET), path_of(GUARDED), "", "procedures/steeping/" + LINK.format("x")])
def test_nothing_else_does(path: str, open_page: Open, watch: Watch):
    page = open_page(path, before=without_the_page_s_script)
    page.wait_for_timeout(1000)
    assert watch.workers == 0


def test_it_is_the_engine_that_answers(open_page: Open, watch: Watch):
    page = open_page(path_of(SHEET) + "?sheet=moisture-target&barley_kg=5000&barley_moisture=12&target_moisture=45")
    page.locator("[data-standing=answered]").wait_for()
    assert watch.workers == 1
