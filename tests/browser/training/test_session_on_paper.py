"""A session on paper: the hand-out alone, one each, without the key; and no heading with nothing below it."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Open, without_engine
from tests.browser.printed import needs_poppler, text_of

pytestmark = pytest.mark.browser
DOCS = Path(__file__).parents[3] / "docs" / "training"
SESSIONS = [page.stem for page in sorted(DOCS.glob("session-*.md")) if "Print the hand-out" in page.read_text("utf-8")]


def at(open_page: Open, session: str) -> Page:
    page = open_page(f"training/{session}/", before=without_engine)
    page.evaluate("() => { window.print = () => {}; }")
    return page


@pytest.mark.further(keep=3)
@needs_poppler
@pytest.mark.parametrize("session", SESSIONS)
def test_the_hand_out_prints_alone_on_one_sheet(open_page: Open, session: str, tmp_path: Path) -> None:
    page = at(open_page, session)
    buttons = page.get_by_role("button", name="Print the hand-out")
    expect(buttons).to_have_count(2)  # at the top, and at the hand-out
    buttons.first.click()
    text, pages = text_of(page, tmp_path)
    assert "Hand-out" in text and "My question" in text and "Steep to Kiln, version" in text
    assert "Key" not in text and "Listen for" not in text and "Print the hand-out" not in text
    assert pages == 1
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    expect(page.locator("body.prints-hand-out")).to_have_count(0)


@needs_poppler
def test_a_heading_on_paper_says_what_stays_on_the_screen(open_page: Open, tmp_path: Path) -> None:
    page = at(open_page, "session-05-steeping")
    text, _ = text_of(page, tmp_path)
    assert "Timing · worked on the screen" in text and "Cast · worked on the screen" in text
    assert "Print the hand-out\n" not in text


@needs_poppler
def test_the_blank_book_of_the_practice_batch_has_its_heading_with_it(open_page: Open, tmp_path: Path) -> None:
    page = open_page("training/practice-batch-trainer/", before=without_engine)
    sheets = text_of(page, tmp_path)[0].split("\f")
    (book,) = [sheet for sheet in sheets if "Practice book. Invented" in sheet]
    assert book.strip().startswith("The blank book")
    page.evaluate("() => document.body.classList.add('prints-practice-papers')")
    sheets = text_of(page, tmp_path)[0].split("\f")
    (alone,) = [sheet for sheet in sheets if "Practice book. Invented" in sheet]
    assert alone.strip().startswith("Practice book")
