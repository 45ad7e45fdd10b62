"""A source can be found again, its id names no place, and pages say of it what is declared of it."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from calculators.sources import SOURCES, Source, standing_words

ROOT = Path(__file__).parents[2]
WRITTEN = sorted((ROOT / "docs").rglob("*.md"))
CODE = sorted((ROOT / "calculators").rglob("*.py"))

# Hosts that share other people's files, or texts typed off books, with no publisher behind them.
SHARING = {
    *("scribd.com", "yumpu.com", "docslib.org", "studylib.net", "abcdocz.com", "edurev.in", "docplayer.net"),
    *("slideshare.net", "pdfcoffee.com", "vdocuments.net", "dokumen.tips", "doczz.net", "researchgate.net"),
    *("bitlit.ru", "free-books.at", "merrybooks.net", "gluedideas.com", "github.io", "lawstack.com", "lexbuild.dev"),
    *("cd3wdproject.org", "blogspot.nl", "blogspot.com", "zendy.io"),
}
# Towns, states and works that once named a source.
PLACES = {"kounice", "prague", "montana", "penn", "osu", "ndsu", "polish", "london", "maltings", "working"}


@pytest.mark.parametrize("name", SOURCES)
def test_an_id_names_no_place(name):
    assert not set(name.split("-")) & PLACES


@pytest.mark.parametrize("name", SOURCES)
def test_an_address_is_the_publishers_own(name):
    for address in SOURCES[name].address.split():
        host = urlsplit(address).hostname or ""
        assert not any(host == shared or host.endswith(f".{shared}") for shared in SHARING), address


def findable(source: Source) -> bool:
    """Whether someone else could look the work up: by its address, its year or its number."""
    numbered = re.search(
        r"\b1[5-9]\d\d\b|\b20[012]\d\b|\b1870s\b|\b(?:ISO|EN|ICC|ASAE|AACC|TRGS|ANSI|Directive|article|CFR)\b[^,]*\d"
        r"|edition|HSE [A-Z]+\d+|R-110|Standard Methods, \d|verordnung|Code du travail",
        source.cited,
    )
    return bool(source.address or numbered)


@pytest.mark.parametrize("name", SOURCES)
def test_what_nobody_can_find_is_not_passed_off_as_read(name):
    source = SOURCES[name]
    if source.standing == "not citable":
        assert "not noted" in source.note, "it says what is missing"
        assert standing_words(source).startswith("not citable")
    elif source.standing != "not read":
        assert findable(source), source.cited


def test_the_label_is_explained_where_the_labels_are():
    page = (ROOT / "docs" / "reference" / "sources.md").read_text("utf-8")
    assert "**not citable**" in page


_SAID = re.compile(r"sources\.md#([\w-]+)\)(?:,| \()\s?(read|abstracts?|in a copy|second-hand|not citable)\b")
_STANDING = {"abstracts": "abstract"}


@pytest.mark.parametrize("page", WRITTEN, ids=lambda page: str(page.relative_to(ROOT / "docs")))
def test_a_page_says_the_standing_that_is_declared(page):
    for name, said in _SAID.findall(page.read_text("utf-8")):
        source = SOURCES[name]  # the note may except the very passage
        assert source.standing == _STANDING.get(said, said) or said in source.note, f"{name} is called {said}"


@pytest.mark.parametrize("path", [*WRITTEN, *CODE], ids=lambda path: str(path.relative_to(ROOT)))
def test_no_unnamed_work_is_called_read(path):
    text = path.read_text("utf-8")
    for vague in (
        r"floor maltings(?:’|')? ?[^.;]{0,20}\bread\)",
        r"textbook, p\. 221 \(read\)",
        r"handbook(?: text)?,? \(?read\)",
        r"teaching pages\b[^.;]{0,20}\bread\b",
        r"HGCA[^.;()]{0,30}\(?read\)",
    ):
        assert not re.search(vague, text), vague
