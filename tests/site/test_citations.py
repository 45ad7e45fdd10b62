"""Every source is declared once, used somewhere and listed with its anchor; every id on a page is declared."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import markdown
import pytest
from pymdownx.superfences import SuperFencesException

from calculators.sheets import find_sheet, sheet_ids
from calculators.sources import SOURCES, SUBJECTS, Source, standing_words
from site_src.citations import cited_on, page_lines, uses

DOCS = Path(__file__).parents[2] / "docs"


def test_each_id_used_is_declared_and_each_source_is_used():
    used = uses(DOCS)
    assert set(used) - set(SOURCES) == set()
    assert set(SOURCES) - set(used) == set()


def test_no_source_stands_in_two_subjects():
    names = [name for sources in SUBJECTS.values() for name in sources]
    assert len(names) == len(set(names)) == len(SOURCES)


@pytest.mark.parametrize("field", ["cited", "address"])
def test_no_work_is_declared_twice(field):
    said = [getattr(source, field) for source in SOURCES.values() if getattr(source, field)]
    assert len(said) == len(set(said))


@pytest.mark.parametrize("sheet_id", sheet_ids())
def test_the_sources_of_a_sheet_count_as_used_on_its_page(sheet_id):
    found = cited_on(f"# X\n\n```sheet\n{sheet_id} a=1\n```\n", DOCS / "_includes")
    assert found == list(dict.fromkeys(find_sheet(sheet_id).sources))


def test_ids_are_found_in_lists_links_and_included_boxes(tmp_path):
    (tmp_path / "box.md").write_text("[a](../reference/sources.md#ure)")
    text = '--8<-- "box.md"\n\n```sources\nballing\nyin-1996\n```\n\nSee [b](sources.md#crank-1975), [c](../x.md#no).\n'
    assert sorted(cited_on(text, tmp_path)) == ["balling", "crank-1975", "ure", "yin-1996"]


def test_the_page_has_each_source_once_with_its_standing_its_address_and_its_pages():
    text = "\n".join(page_lines(DOCS))
    assert sorted(re.findall(r'<li id="([^"]+)"', text)) == sorted(SOURCES)
    entry = re.search(r'<li id="ure">.*', text)
    assert entry
    said = unescape(re.sub(r"<[^>]+>", "", entry[0]))
    ure = SOURCES["ure"]
    assert ure.cited in said and ure.address in said and standing_words(ure) in said
    assert '<a href="page:procedures/steeping">Steeping</a>' in entry[0]


def test_a_list_on_a_page_leads_to_the_entries():
    html = markdown.markdown("```sources\nure\n```\n", extensions=["site_src.embed"])
    assert '<a href="page:reference/sources#ure">' in html and "read in a copy" in html


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("```sources\nno-such\n```\n", "no source 'no-such'"),
        ("```all-sources\nure\n```\n", "takes no body"),
        ("```sheets\nno-such\n```\n", "no sheet “no-such”"),
    ],
)
def test_a_fault_stops_the_build(text, said):
    with pytest.raises(SuperFencesException, match=said):
        markdown.markdown(text, extensions=["site_src.embed"])


@pytest.mark.parametrize(
    ("source", "said"),
    [
        (Source("A", "read"), "read"),
        (Source("A", "abstract"), "abstract read"),
        (Source("A", "in a copy", "p. 3"), "read in a copy; p. 3"),
        (Source("A", "second-hand"), "second-hand: read in a work that quotes it"),
        (Source("A", "not read"), "not read"),
    ],
)
def test_how_far_a_source_was_read_is_said(source, said):
    assert standing_words(source) == said
