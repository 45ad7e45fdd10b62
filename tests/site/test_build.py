"""What the build refuses, and what it makes of pages."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from site_src.hashing import hash_names, imported
from site_src.settings import BuildError
from tests.conftest import BuildDocs
from tests.site.conftest import DEMO_PAGES


def demo_page(addition: str) -> dict[str, str]:
    return {**DEMO_PAGES, "calculators/demo.md": DEMO_PAGES["calculators/demo.md"] + addition}


@pytest.mark.usefixtures("demo_sheet")
class TestFaults:
    """Each stops the build with words that say what and where."""

    @pytest.mark.further(keep=4)
    @pytest.mark.parametrize(
        ("addition", "said"),
        [
            ("\n```sheet\nno-such\n```\n", "no-such"),
            ("\n```sheet\ndemo barley_kg=heavy\n```\n", "Barley weight"),
            ("\n[away](nowhere.md)\n", "warning"),
            ('\n<a href="../nowhere/">away</a>\n', r"demo/index.html: \.\./nowhere/ leads nowhere"),
            ('\n<a href="../../#no-such">away</a>\n', "anchor"),
            ('\n<a href="#no-such">away</a>\n', "anchor"),
            ('\n<a href="../../..">away</a>\n', "out of the site"),
            ('\n<a href="sheet:no-such">away</a>\n', 'sheet "no-such"'),
            ('\n<a href="page:safety/no-such">away</a>\n', 'page "safety/no-such"'),
            ('\n<img src="https://example.org/a.png" alt="">\n', "example.org/a.png from another origin"),
            ('\n<script src="//example.org/a.js"></script>\n', "another origin"),
            ('\n<p style="color: red">red</p>\n', "styles in attributes"),
            ('\n<button onclick="go()">go</button>\n', "scripts in attributes"),
            ("\n<style>p { color: red }</style>\n", "styles in the page"),
        ],
    )
    def test_stops(self, build_docs: BuildDocs, tmp_path: Path, addition: str, said: str):
        with pytest.raises(BuildError, match=said):
            build_docs(demo_page(addition))
        assert not (tmp_path / "site").exists()

    def test_a_failed_build_leaves_the_last_site(self, build_docs: BuildDocs):
        site = build_docs(DEMO_PAGES)
        before = (site / "index.html").read_bytes()
        with pytest.raises(BuildError):
            build_docs(demo_page("\n[away](nowhere.md)\n"))
        assert (site / "index.html").read_bytes() == before


@pytest.mark.usefixtures("demo_sheet")
def test_references_and_links_out(build_docs: BuildDocs):
    links = '\n<a href="page:index">x</a>\n'
    with pytest.raises(BuildError, match='page "index"'):
        build_docs(demo_page(links))
    site = build_docs(
        {
            **demo_page('\n<a href="page:safety/gas#what">gas</a> [out](https://example.org/)\n'),
            "safety/gas.md": '# Gas\n\n## What\n\n<a href="sheet:demo">demo</a>\n',
        }
    )
    demo = (site / "calculators/demo/index.html").read_text("utf-8")
    assert 'href="../../safety/gas/#what"' in demo
    assert 'href="https://example.org/"' in demo  # a reader may follow a link; nothing is fetched
    # The sheet's own notes refer to itself, and nothing unresolved is left.
    assert 'href="./"' in demo
    assert not re.search(r'href="(sheet|page):', demo)
    assert 'href="../../calculators/demo/"' in (site / "safety/gas/index.html").read_text("utf-8")


@pytest.mark.usefixtures("demo_sheet")
def test_the_form_is_not_searched(build_docs: BuildDocs):
    site = build_docs(DEMO_PAGES)
    found = json.loads((site / "search/entries.json").read_text("utf-8"))["docs"]
    entries = [entry for entry in found if entry["location"].startswith("calculators/demo/")]
    assert entries == [
        {"location": "calculators/demo/", "title": "The demo page", "text": "<p>Before it.</p> <p>After it.</p>"}
    ]


@pytest.mark.usefixtures("demo_sheet")
def test_only_pages_with_a_sheet_ask_for_its_modules(build_docs: BuildDocs):
    site = build_docs(DEMO_PAGES)
    preloads = re.findall(
        r'<link rel="modulepreload" href="\.\./\.\./([^"]+)">',
        (site / "calculators/demo/index.html").read_text("utf-8"),
    )
    assert preloads and all((site / name).is_file() for name in preloads)
    assert "modulepreload" not in (site / "index.html").read_text("utf-8")
    assert len(preloads) == 2  # the page's own script, and all that it imports in one


class TestNames:
    """Names that change with what is in a file, or in one that it refers to."""

    def write(self, folder: Path, **texts: str) -> Path:
        folder.mkdir(exist_ok=True)
        for name, text in texts.items():
            (folder / name.replace("_", ".")).write_text(text)
        return folder

    def test_a_change_below_changes_every_name_above(self, tmp_path: Path):
        texts = {
            "page_mjs": 'import { a } from "./part.mjs";',
            "part_mjs": 'new Worker("./leaf.mjs")',
            "style_css": "a",
        }
        before = hash_names(self.write(tmp_path / "1", **texts, leaf_mjs="1"), {})
        after = hash_names(self.write(tmp_path / "2", **texts, leaf_mjs="2"), {})
        assert {name for name in before if before[name] != after[name]} == {"page.mjs", "part.mjs", "leaf.mjs"}
        page = tmp_path / "1" / before["page.mjs"]
        assert f'from "./{before["part.mjs"]}"' in page.read_text()
        assert imported(tmp_path / "1", before["page.mjs"]) == [before["part.mjs"]]

    def test_refuses_a_ring_a_lost_file_and_a_lost_place(self, tmp_path: Path):
        ring = self.write(tmp_path / "ring", a_mjs='import "./b.mjs";', b_mjs='import "./a.mjs";')
        with pytest.raises(BuildError, match="ring"):
            hash_names(ring, {})
        with pytest.raises(BuildError, match=r"\./lost\.mjs, which is not there"):
            hash_names(self.write(tmp_path / "lost", a_mjs='import "./lost.mjs";'), {})
        with pytest.raises(BuildError, match="must hold X once"):
            hash_names(self.write(tmp_path / "place", a_mjs="Y"), {"a.mjs": {"X": "Z"}})
