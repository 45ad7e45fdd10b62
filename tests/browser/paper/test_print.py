"""On paper: the questions as text, the answers, nothing to press. Cards of own numbers: `test_every_sheet`."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators.asking.declare import Sheet
from tests.browser.conftest import Open, go, lasting_page
from tests.browser.printed import needs_poppler, text_of
from tests.browser.sheets import SHEETS, path_of

pytestmark = pytest.mark.browser
LEAST_PT = 7.99
# What is set too small for a card, as it comes out of a part that is zoomed. Charts have their own test.
SMALL_LETTERS = """least => [...document.querySelectorAll(".card-to-print *")]
  .filter((one) => [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim()) && one.checkVisibility())
  .filter((one) => !one.closest("svg"))
  .map((one) => [one, parseFloat(getComputedStyle(one).fontSize) * 0.75 * (one.currentCSSZoom ?? 1)])
  .filter(([, points]) => points > 0 && points < least)
  .map(([one, points]) => `${points.toFixed(1)} pt: ${one.textContent.trim().slice(0, 40)}`)"""


@pytest.fixture(scope="module")
def example(browser: Browser, address: str) -> Iterator[Page]:
    with lasting_page(browser, address) as page:
        page.add_init_script("window.print = () => {}")
        yield page


@needs_poppler
@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_a_card_of_the_example_says_so_beside_each_figure(
    example: Page, address: str, sheet: Sheet, tmp_path: Path
) -> None:
    go(example, address + path_of(sheet))
    place = example.locator("section.sheet").first
    place.locator("[data-action=print]").click()
    expect(example.locator("body.prints-card")).to_have_count(1)
    text, count = text_of(example, tmp_path)
    assert count == 1
    printed = ".answer.lead" if sheet.for_wall else ".answer"  # a plan for the wall has no other figures
    assert text.count("Example") > place.locator(f"{printed} .figure").count()
    if sheet.guarded:
        assert "EXAMPLE, NOT YOUR VESSEL" in text
    example.emulate_media(media="print")
    small = example.evaluate(SMALL_LETTERS, LEAST_PT)
    example.emulate_media(media="null")
    example.evaluate("() => dispatchEvent(new Event('afterprint'))")
    assert small == []


def test_nothing_to_press_is_drawn_for_paper(open_page: Open) -> None:
    page = open_page(path_of(SHEETS[0]))
    page.emulate_media(media="print")
    for control in page.locator("main button, main input, main select, header").all():
        assert not control.is_visible()
