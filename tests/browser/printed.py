"""What the tests read back from paper."""

import shutil
import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Page, ViewportSize

CONTROLS = (
    *("Add a row", "Fill in the example", "Print a card", "Link to these numbers", "Link as a training example"),
    *("Put back", "More questions"),
)
LEAST_PT = 7.99
# What is set too small for a card, as it comes out of a part that is zoomed. Charts have their own test; nobody types a
# link that is too long for a code.
SMALL_LETTERS = """least => [...document.querySelectorAll(".card-to-print *")]
  .filter((one) => [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim()) && one.checkVisibility())
  .filter((one) => !one.closest("svg, .code-link"))
  .map((one) => [one, parseFloat(getComputedStyle(one).fontSize) * 0.75 * (one.currentCSSZoom ?? 1)])
  .filter(([, points]) => points > 0 && points < least)
  .map(([one, points]) => `${points.toFixed(1)} pt: ${one.textContent.trim().slice(0, 40)}`)"""


CLOSER_PT = {"batch-forecast": 6.5, "growth-by-day": 7.1, "house-week": 6.3, "rest-warmth": 6.7, "steep-plan": 6.6}
"""Full cards are drawn closer, to stay on one page; no smaller than this."""


PAPER: ViewportSize = {"width": 695, "height": 1039}
"""Of A4 within its margins."""
CUT = """() => [...document.querySelectorAll(".card-to-print .table-box table")]
  .filter((one) => one.checkVisibility())
  .filter((one) => one.getBoundingClientRect().right > one.parentElement.getBoundingClientRect().right + 1)
  .map((one) => one.textContent.trim().slice(0, 60))"""


def expect_readable(page: Page, name: str) -> None:
    """Letters are large enough and no table is cut, on a card as it goes to the printer: printing ends it."""
    page.emulate_media(media="print")
    assert page.evaluate(SMALL_LETTERS, 1000) != []
    assert page.evaluate(SMALL_LETTERS, CLOSER_PT.get(name, LEAST_PT)) == []
    was = page.viewport_size
    page.set_viewport_size(PAPER)
    assert page.evaluate(CUT) == []
    if was:
        page.set_viewport_size(was)
    page.emulate_media(media="null")


def text_of(page: Page, folder: Path) -> tuple[str, int]:
    """The words on the paper and the number of pages, by way of poppler's own reading of the file."""
    file = folder / "paper.pdf"
    page.pdf(path=str(file), prefer_css_page_size=True)
    text = subprocess.run(["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True).stdout
    return text, text.count("\f")


needs_poppler = pytest.mark.skipif(
    shutil.which("pdftotext") is None, reason="Debian's poppler-utils reads the paper back"
)
