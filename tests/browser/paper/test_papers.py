"""Record sheets: blank by themselves, filled from a sheet, one page of A4 either way."""

import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from calculators.papers import PAPERS
from calculators.papers.kinds import Paper
from calculators.sheets import find_sheet
from tests.browser.conftest import Open
from tests.browser.printed import needs_poppler
from tests.browser.sheets import READY, example, expect_standing, path_of, section, type_in
from tests.drawn import WHOLE

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
PAGES = [*PAPERS, "before-vessel-work"]
PAIRS = [(paper, sheet_id) for paper in PAPERS.values() for sheet_id in paper.sheets]
OF_EACH = list({paper.id: (paper, sheet_id) for paper, sheet_id in reversed(PAIRS)}.values())
"""Each paper from its first sheet; the others come by the same link."""


def record_path(name: str) -> str:
    return f"reference/records/{name}/"


def on_paper(page: Page, folder: Path) -> tuple[str, int, str]:
    """Words, number of pages and page size of what is printed."""
    file = folder / "paper.pdf"
    page.pdf(path=str(file), prefer_css_page_size=True)

    def run(*words: str) -> str:
        return subprocess.run(words, capture_output=True, text=True, check=True).stdout

    facts = dict(re.findall(r"(?m)^([\w ]+):\s+(.*)$", run("pdfinfo", str(file))))
    return run("pdftotext", "-layout", str(file), "-"), int(facts["Pages"]), facts["Page size"]


@pytest.mark.further(keep=3)
@needs_poppler
@pytest.mark.parametrize("name", PAGES)
def test_blank_each_is_one_page_of_a4_without_controls(visit: Open, tmp_path: Path, name: str) -> None:
    page = visit(record_path(name))
    text, count, size = on_paper(page, tmp_path)
    assert count == 1 and "A4" in size
    assert page.locator("h1").inner_text().removesuffix("¶").strip() in text
    assert "Print it" not in text and "All record sheets" not in text
    assert page.locator(".paper").bounding_box()


@needs_poppler
def test_the_reminder_says_across_it_that_it_is_no_permit(visit: Open, tmp_path: Path) -> None:
    page = visit(record_path("before-vessel-work"))
    across = page.locator(".across")
    assert across.get_attribute("data-words") == "NOT A PERMIT"
    page.emulate_media(media="print")
    box, paper = across.bounding_box(), page.locator(".not-a-permit").bounding_box()
    assert box and paper and box["width"] > 0.9 * paper["width"]
    page.emulate_media(media="null")
    assert "NOT A PERMIT. It trains nobody" in on_paper(page, tmp_path)[0]
    assert page.locator("[data-paper], [data-place]").count() == 0


@pytest.mark.further(keep=2)
@needs_poppler
@pytest.mark.drawn
@pytest.mark.parametrize(
    ("paper", "sheet_id"), PAIRS if WHOLE else OF_EACH, ids=lambda one: one if isinstance(one, str) else one.id
)
def test_opened_from_a_sheet_it_holds_the_sheet_s_numbers(
    visit: Open, tmp_path: Path, paper: Paper, sheet_id: str
) -> None:
    sheet = find_sheet(sheet_id)
    page = visit(path_of(sheet))
    place = section(page, sheet)
    place.evaluate("(section, questions) => helpers.ask(section, questions)", example(sheet))
    expect_standing(place, "answered")
    place.get_by_role("link", name=paper.title, exact=True).click()
    filled = page.locator(f"#{paper.id}-sheet[data-standing=answered]")
    expect(filled).to_be_visible(timeout=READY)
    assert "sheet=" in page.url
    assert "Example" not in filled.locator(".paper-said").inner_text()
    if not sheet.guarded:
        expect(filled.locator(".paper-code > *").first).to_be_attached(timeout=READY)
    values = [text for text in filled.locator("dd, td").all_inner_texts() if text.strip()]
    assert len(values) >= 2
    text, count, _ = on_paper(page, tmp_path)
    assert count == 1, text
    assert sheet.title.lower() in text


def test_the_example_filled_in_stays_an_example(visit: Open) -> None:
    page = visit(path_of(find_sheet("sample-basket")))
    place = section(page, find_sheet("sample-basket"))
    place.locator("[data-action=example]").click()
    place.locator("[data-action=paper]").click()
    expect(page.locator(".paper-said")).to_contain_text("Example: invented numbers", timeout=READY)


@pytest.mark.python_here(False)
def test_from_a_blank_sheet_it_comes_blank_and_starts_no_engine(open_page: Open, watch: Any) -> None:
    page = open_page(record_path("steep-record"))
    expect(page.locator(".paper-said")).to_contain_text("write with a pen")
    page.wait_for_load_state("networkidle")
    page.wait_for_timeout(300)
    assert watch.workers == 0
    page.goto(page.url.replace(record_path("steep-record"), path_of(find_sheet("sample-basket"))))
    page.locator("[data-action=paper]").click()
    expect(page.locator(".paper-said")).to_contain_text("write with a pen")
    assert "?" not in page.url


def test_a_link_without_an_answer_says_so(open_page: Open) -> None:
    page = open_page(record_path("steep-record") + "?sheet=sample-basket&basket_g=heavy&barley_moisture=12")
    expect(page.locator(".paper-state")).to_contain_text("no answer", timeout=READY)
    assert "heavy" not in page.locator(".paper").inner_text()
    assert not page.evaluate("() => Object.keys(localStorage).some((key) => key.includes('sheet:'))")


def test_what_is_typed_is_kept_on_the_way_back(visit: Open) -> None:
    sheet = find_sheet("sprinkling")
    page = visit(path_of(sheet))
    type_in(section(page, sheet), sheet, {"moisture_now": "42"})
    page.locator("[data-action=paper]").first.click()
    expect(page.locator("#floor-record-sheet")).to_contain_text("42", timeout=READY)
    page.go_back()
    expect(section(page, sheet).locator("[name=moisture_now]")).to_have_value("42")
