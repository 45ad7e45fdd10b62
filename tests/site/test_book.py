"""The handbook as one PDF: cover, contents with page numbers, every page once, links that lead somewhere."""

from __future__ import annotations

import re
import shutil
import subprocess
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from calculators import __version__
from site_src.book import anchor_of, book_html, chapters_of, make_book, pages_in_order

pytestmark = [
    pytest.mark.further,
    pytest.mark.site,
    pytest.mark.skipif(shutil.which("pdftotext") is None, reason="Debian's poppler-utils reads the paper back"),
]
SOME = ["", "procedures/casting", "calculators/moisture-target", "reference/records/before-vessel-work",
        "training/questions-intake"]  # fmt: skip


@pytest.fixture(scope="module")
def whole(built_site: Path) -> str:
    return book_html(chapters_of(built_site, pages_in_order()), [], {}, "1 May 2026")


@pytest.fixture(scope="module")
def paper(built_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    to = tmp_path_factory.mktemp("book") / "book.pdf"
    with ThreadPoolExecutor(1) as thread:  # the tests of this process may have a Playwright already: one a thread
        return thread.submit(make_book, to, only=SOME, site=built_site, say=lambda _: None).result()


def pages_of(paper: Path) -> list[str]:
    words = ["pdftotext", "-layout", str(paper), "-"]
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout.split("\f")[:-1]


def test_every_page_of_the_site_is_a_chapter(whole: str, built_site: Path):
    pages = {
        path.parent.relative_to(built_site).as_posix().removeprefix(".") for path in built_site.rglob("index.html")
    }
    assert {page for _, page in pages_in_order()} == pages
    for page in pages:
        assert f'book-chapter" id="{anchor_of(page)}"' in whole


def test_each_name_is_there_once_and_each_link_leads_to_one(whole: str):
    names = re.findall(r'\bid="([^"]+)"', whole)
    assert len(names) == len(set(names))
    lost = {link for link in re.findall(r'href="#([^"]+)"', whole) if link not in set(names)}
    assert lost == set()
    assert not re.search(r'href="(?!#|https?:|mailto:)', whole)


def test_nothing_can_be_pressed_and_nothing_is_folded(whole: str):
    assert not re.search(r"<(form|button|input|select|script|noscript|progress)\b", whole)
    assert re.findall(r"<details(?![^>]*\bopen)", whole) == []
    assert "term-note" not in whole


def test_on_paper_it_has_cover_contents_and_chapters_where_they_are_said_to_be(paper: Path):
    pages = pages_of(paper)
    assert "Steep to Kiln" in pages[0] and __version__ in pages[0]
    entries = re.findall(r"(?m)^ *(\S.*?\S) +(\d+)(?:  |$)", pages[1].replace("Contents", ""))
    numbers = dict(entries)
    assert {"Casting", "Before vessel work"} <= set(numbers)
    for title, number in entries:
        if title in ("Casting", "Before vessel work"):
            assert title in pages[int(number) - 1].lstrip().splitlines()[0]
    text = "\n".join(pages)
    for title in ("Casting", "Before vessel work", "What should the batch weigh?"):
        assert re.search(
            rf"{re.escape(title)} · Steep to Kiln, version {re.escape(__version__)}, built \d+ \w+ 20\d\d", text
        )


def test_it_is_a4_with_links_inside(paper: Path):
    facts = subprocess.run(["pdfinfo", str(paper)], capture_output=True, text=True, check=True).stdout
    assert "(A4)" in facts
    assert paper.read_bytes().count(b"/Subtype /Link") > 50
