"""On paper: the questions as text, the answers, nothing to press. Cards of own numbers: `test_every_sheet`."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators.asking.declare import Sheet
from tests.browser.conftest import Open, go, lasting_page
from tests.browser.printed import expect_readable, needs_poppler, text_of
from tests.browser.sheets import SHEETS, path_of
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


def test_nothing_to_press_is_drawn_for_paper(open_page: Open) -> None:
    page = open_page(path_of(SHEETS[0]))
    page.emulate_media(media="print")
    for control in page.locator("main button, main input, main select, header").all():
        assert not control.is_visible()
