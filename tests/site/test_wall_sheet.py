"""What a procedure offers for the wall: on each page once, with what a house says, as text and never as markup."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from calculators.house import here
from calculators.rules.limits import PAGES
from site_src.house import on_paper
from site_src.phrases import faults
from site_src.settings import BuildError
from site_src.wall_files import make_walls
from site_src.wall_sheet import PROCEDURES, offer_lines, wall_lines, wall_offer

DOCS = Path("docs")
HOUSE = {
    "house": [{"name": "Maltings <b>by the river</b>"}],
    "paper": [
        {
            "page": "procedures/casting",
            "number": "P-05",
            "version": "3",
            "date": "2026-03-01",
            "office": "head of malting",
        }
    ],
    "call": [
        {"role": "emergency-number", "number": "112"},
        {"role": "shift-lead", "channel": "channel 3"},
        {"role": "rescue-team"},
    ],
}


@pytest.fixture
def a_house(monkeypatch):
    monkeypatch.setattr(here, "HOUSE", HOUSE)


@pytest.mark.parametrize("name", PROCEDURES)
def test_each_procedure_offers_its_own_sheet_above_its_purpose(name):
    text = (DOCS / "procedures" / f"{name}.md").read_text("utf-8")
    assert re.findall(r"```wall-sheet\n(\S+)\n```", text) == [name]
    assert f"```wall-sheet\n{name}\n```\n\n## Purpose\n" in text


def test_no_procedure_is_left_out():
    pages = {path.stem for path in (DOCS / "procedures").glob("*.md")}
    assert set(PROCEDURES) == pages == {name.replace("_", "-") for name in PAGES}
    lines = [line for line in wall_lines() if line.startswith("- ")]
    for name, line in zip(PROCEDURES, lines, strict=True):
        title = re.sub("<[^>]+>", "", line)[2:]
        said = (DOCS / "procedures" / f"{name}.md").read_text("utf-8")
        assert re.search(rf"(?m)^# {re.escape(title)}(?: \{{#[a-z-]+\}})?$", said) and "{" not in title


def test_without_a_house_there_are_lines_to_write_on(monkeypatch):
    monkeypatch.setattr(on_paper, "site_url", "")  # as before any site was built
    drawn = wall_offer("casting")
    assert "Number ____" in drawn and "Emergency call ____" in drawn and "wall-house" not in drawn
    assert "<svg" not in drawn  # nobody knows yet where the site will be
    assert not faults(re.sub("<[^>]+>", " ", drawn))


def test_with_a_house_it_carries_name_number_and_calls_as_text(a_house):
    drawn = wall_offer("casting")
    assert "Maltings &lt;b&gt;by the river&lt;/b&gt;" in drawn
    assert "P-05, version 3 of 1 Mar 2026, approved: head of malting" in drawn and "Number ____" not in drawn
    assert "emergency number 112; shift lead channel 3; rescue team ____" in drawn
    assert "Number ____" in wall_offer("steeping")  # which this house has not numbered


def test_the_code_leads_to_the_page(monkeypatch):
    monkeypatch.setattr(on_paper, "site_url", "https://maltings.example/book/")
    drawn = wall_offer("hand-over")
    assert drawn.count('<svg class="code"') == 1
    assert "The valid page: https://maltings.example/book/procedures/hand-over/" in drawn


def test_there_is_none_for_another_page(tmp_path):
    with pytest.raises(LookupError, match="steeping"):
        offer_lines("no-such-job")
    with pytest.raises(BuildError, match=r"No procedure no-such-job\. There are: intake-and-storage"):
        make_walls(tmp_path, only=["no-such-job"])


def test_sessions_lead_to_the_sheets_of_their_procedures():
    for path in sorted((DOCS / "training").glob("session-*.md")):
        text = path.read_text("utf-8")
        read = re.search(r"(?m)^Read first: .*$", text)
        assert read
        for name in re.findall(r"\]\(\.\./procedures/([a-z-]+)\.md\)", read[0]):
            assert f"(../procedures/{name}.md#wall-sheet){{ .wall-link }}" in read[0], path.stem
