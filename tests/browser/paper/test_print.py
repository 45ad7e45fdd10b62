"""On paper: the questions as text, the answers, nothing to press. Cards of own numbers: `test_every_sheet`."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators.asking.declare import Sheet
from calculators.sheets import find_sheet
from tests.browser.conftest import Open, go, lasting_page
from tests.browser.paper.test_code import print_card
from tests.browser.printed import expect_readable, needs_poppler, text_of
from tests.browser.sheets import SHEETS, expect_standing, path_of, section, type_in
from tests.browser.sheets import example as example_of
from tests.drawn import WHOLE

pytestmark = pytest.mark.browser
LIKE_THE_OTHERS = ("guarded", "for_wall")
OF_EACH = list({tuple(getattr(sheet, name) for name in LIKE_THE_OTHERS): sheet for sheet in SHEETS}.values())
"""One of each kind of card. That each fits its page is seen with the reader's own numbers, which take more room."""


@pytest.fixture(scope="module")
def example(browser: Browser, address: str) -> Iterator[Page]:
    with lasting_page(browser, address) as page:
        page.add_init_script("window.print = () => {}")
        yield page


@needs_poppler
@pytest.mark.drawn
@pytest.mark.parametrize("sheet", SHEETS if WHOLE else OF_EACH, ids=lambda sheet: sheet.id)
def test_a_card_of_the_example_says_so_beside_each_figure(
    example: Page, address: str, sheet: Sheet, tmp_path: Path
) -> None:
    go(example, address + path_of(sheet))
    place = example.locator("section.sheet").first
    place.locator("[data-action=print]").click()
    expect(example.locator("body.prints-card")).to_have_count(1)
    expect_readable(example, sheet.id)
    text, count = text_of(example, tmp_path)
    assert count == 1
    printed = ".answer.lead" if sheet.for_wall else ".answer"  # a plan for the wall has no other figures
    assert text.count("Example") > place.locator(f"{printed} .figure").count()
    if sheet.guarded:
        assert "EXAMPLE, NOT YOUR VESSEL" in text
    example.evaluate("() => dispatchEvent(new Event('afterprint'))")


@pytest.mark.further
@needs_poppler
def test_the_card_of_a_rest_of_a_day_is_one_page(visit: Open, tmp_path: Path) -> None:
    """It has a line for each hour."""
    sheet = find_sheet("rest-warmth")
    page = visit(path_of(sheet))
    place = section(page, sheet)
    type_in(place, sheet, {**example_of(sheet), "rest_h": "24"})
    expect_standing(place, "answered")
    print_card(page, place)
    expect_readable(page, sheet.id)
    assert text_of(page, tmp_path)[1] == 1


def test_nothing_to_press_is_drawn_for_paper(open_page: Open) -> None:
    page = open_page(path_of(SHEETS[0]))
    page.emulate_media(media="print")
    for control in page.locator("main button, main input, main select, header").all():
        assert not control.is_visible()
