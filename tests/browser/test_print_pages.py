"""Every page on paper: A4, what it is called, its version and date, nothing to press, its working and its sources."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from calculators import __version__
from calculators.answer import sheet_ids
from site_src.book import pages_in_order
from tests.browser.conftest import DESK
from tests.browser.test_print import CONTROLS, needs_poppler

pytestmark = [pytest.mark.browser, needs_poppler]
PAGES = [page for _, page in pages_in_order()]
PRESSED = "button, input, select, textarea, progress, .md-header, .md-tabs, .md-sidebar, .md-footer, .headerlink"
WORDS = (
    *(words for words in CONTROLS if words != "More questions"),
    "Print the questions",
    "Back to top",
    "Remove row",
)


@pytest.fixture(scope="module")
def desk(browser: Browser) -> Iterator[Page]:
    """A desk whose engine never starts, so that a page is printed as it was built."""
    context = browser.new_context(viewport=DESK)
    context.route("**/worker.*", lambda route: route.abort())
    yield context.new_page()
    context.close()


def run(*words: str) -> str:
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


@pytest.mark.parametrize("name", PAGES, ids=lambda name: name or "home")
def test_a_page_on_paper(desk: Page, address: str, tmp_path: Path, name: str) -> None:
    desk.goto(f"{address}{name}/" if name else address)
    title = desk.locator("h1").first.inner_text().replace("¶", "").strip()
    desk.emulate_media(media="print")
    seen = desk.evaluate(
        "style => [...document.querySelectorAll(style)].filter(one => one.checkVisibility()).map(one => one.className)",
        PRESSED,
    )
    assert seen == []
    desk.emulate_media(media="null")
    file = tmp_path / "page.pdf"
    desk.pdf(path=str(file), prefer_css_page_size=True)
    assert "(A4)" in run("pdfinfo", str(file))
    text = " ".join(run("pdftotext", "-layout", str(file), "-").split())
    assert text.startswith(title) or name.startswith("calculators/")
    assert title in text
    last = re.search(rf"· Steep to Kiln, version {re.escape(__version__)}, built \d+ \w+ 20\d\d$", text)
    assert last, text[-200:]
    for words in WORDS:
        assert words not in text
    if name.removeprefix("calculators/") in sheet_ids():
        assert "how far to trust it" in text and "How far to trust it:" in text
        assert "Sources" in text
