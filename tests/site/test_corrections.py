"""Corrections that concern safety: read strictly, published with the site, listed on a page."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path

import pytest

from calculators import __version__
from site_src import corrections
from site_src.corrections import FILE, as_data, correction_lines, marks_of, read_corrections
from site_src.settings import BuildError
from tests.conftest import BuildDocs
from tests.site.conftest import DEMO_PAGES

ONE = f"""
[[correction]]
id = "gas-height"
date = 2026-12-03
version = "{__version__}"
word = "DANGER"
sheets = ["gas-build-up"]
pages = ["safety/carbon-dioxide"]
wrong = "The height was
 too low."
now = "Work it out again."
"""


def written(folder: Path, text: str) -> Path:
    path = folder / FILE.name
    path.write_text(text.replace("The height was\n", "The height was "), "utf-8")
    return path


def test_the_repository_s_own_file_is_read():
    assert FILE.is_file()
    read_corrections()


def test_an_entry_is_read(tmp_path: Path):
    [one] = read_corrections(written(tmp_path, ONE))
    assert (one.id, one.date, one.word, one.day_book) == ("gas-height", date(2026, 12, 3), "DANGER", False)
    assert one.day == "3 Dec 2026"


def test_the_newest_comes_first_and_no_file_is_none(tmp_path: Path):
    later = ONE.replace("gas-height", "gas-width").replace("2026-12-03", "2027-01-01")
    assert [one.id for one in read_corrections(written(tmp_path, ONE + later))] == ["gas-width", "gas-height"]
    assert read_corrections(tmp_path / "none.toml") == ()


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('id = "gas-height"', 'id = "Gas height"', "small letters"),
        ("date = 2026-12-03", 'date = "3 December"', "its date is written"),
        ('word = "DANGER"', 'word = "NOTICE"', "DANGER, WARNING, CAUTION"),
        (f'version = "{__version__}"', 'version = "99.0"', "version 99.0 is not the one that is built here"),
        ('sheets = ["gas-build-up"]\npages = ["safety/carbon-dioxide"]', "", "names no sheet, no page"),
        ('sheets = ["gas-build-up"]', 'sheets = ["gas"]', 'no sheet "gas"'),
        ('now = "Work it out again."', 'now = " "', "what to do now"),
        ('now = "Work it out again."', "", "now"),
        ("[[correction]]", '[[correction]]\ncolour = "red"', "colour"),
        ("[[correction]]", "[[correction", "corrections.toml"),
        ("\n[[correction]]", ONE + "\n[[correction]]", "an id stands twice"),
    ],
)
def test_what_cannot_be_so_stops_the_build(tmp_path: Path, old: str, new: str, said: str):
    assert old in ONE
    with pytest.raises(BuildError, match=re.escape(said)):
        read_corrections(written(tmp_path, ONE.replace(old, new, 1)))


@pytest.mark.site
def test_a_device_is_told_by_what_it_knows_the_pages(tmp_path: Path, built_site: Path):
    [one] = as_data(read_corrections(written(tmp_path, ONE)), built_site)
    assert one["where"] == ["Gas in a shut vessel", "Carbon dioxide"]
    assert one["pages"] == ["safety/carbon-dioxide/"] and one["wrong"] == "The height was too low."
    assert marks_of(["gas-build-up"])[0] in (built_site / "calculators/gas-build-up/index.html").read_text("utf-8")
    exercises = (built_site / "training/exercises/index.html").read_text("utf-8")
    assert marks_of(["moisture-target"])[1:] and all(mark in exercises for mark in marks_of(["moisture-target"])[1:])
    with pytest.raises(BuildError, match='no page "safety/none"'):
        as_data(read_corrections(written(tmp_path, ONE.replace("safety/carbon-dioxide", "safety/none"))), built_site)


def test_the_list_on_the_page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(corrections, "read_corrections", lambda: ())
    assert correction_lines() == ["There is none so far."]
    monkeypatch.undo()
    found = read_corrections(written(tmp_path, ONE))
    monkeypatch.setattr(corrections, "read_corrections", lambda: found)
    text = "\n".join(correction_lines())
    assert "## 3 Dec 2026" in text and 'class="hazard hazard-danger"' in text
    assert 'href="sheet:gas-build-up"' in text and 'href="page:safety/carbon-dioxide"' in text
    assert f"before version {__version__}" in text and "**Now:** Work it out again." in text


@pytest.mark.usefixtures("demo_sheet")
def test_a_build_publishes_them_and_every_page_says_which_it_has(build_docs: BuildDocs):
    text = ONE.replace('sheets = ["gas-build-up"]\n', "").replace("safety/carbon-dioxide", "calculators/demo")
    text = text.replace("The height was\n", "The height was ")
    site = build_docs({**DEMO_PAGES, "_includes/corrections.toml": text})
    offer = json.loads((site / "offline.json").read_text("utf-8"))
    assert [one["id"] for one in offer["corrections"]] == ["gas-height"]
    assert json.loads((site / offer["list"]).read_text("utf-8"))["corrections"] == ["gas-height"]
    for page in site.rglob("*.html"):
        assert 'data-corrections="gas-height"' in page.read_text("utf-8")
    without = build_docs({**DEMO_PAGES, "_includes/corrections.toml": "# none\n"})
    other = json.loads((without / "offline.json").read_text("utf-8"))
    assert other["corrections"] == [] and other["version"] != offer["version"]
