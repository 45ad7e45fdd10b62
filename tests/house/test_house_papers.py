"""The site's safety plan and papers under control: gaps, cards, what holds, what changed, what held on a day."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from calculators.house import here
from site_src.house.control import as_of_day, keep_papers
from site_src.house.overlay import overlay
from site_src.house.paper_pages import invalid_cards
from site_src.house.plan import gaps, places, review
from site_src.house.plan_pages import card_lines, plan_lines
from site_src.house.releases import read_releases, valid_on
from site_src.house.said import PERMITS_NOTHING
from site_src.house.used import rests_on, sheets_now
from site_src.phrases import faults
from site_src.settings import ROOT, BuildError
from tests.house.conftest import HERE
from tests.house.in_house import in_house

pytestmark = pytest.mark.further

DOCS = ROOT / "docs"
DAY = date(2026, 11, 29)
PAPERS = [{"page": "procedures/steeping", "number": "P-05", "version": "3", "date": "2026-03-01",
           "office": "head of malting", "review": "2027-03-01"}]  # fmt: skip


def said(today: date = DAY) -> set[tuple[str, str]]:
    return {(one.of, one.what) for one in gaps(today)}


@pytest.mark.usefixtures("invented")
def test_what_is_not_said_is_a_gap_and_what_is_overdue():
    found = said()
    assert ("Steep 2", "no date of a drill") in found and ("Steep 2", "no isolator named") in found
    assert not any(of == "Steep 1" and "drill" in what for of, what in found)
    assert ("Steep 1", "its drill is overdue since 4 May 2027") in said(date(2027, 5, 5))
    assert ("Steep 1", "its drill is overdue since 4 May 2027") not in said(date(2027, 5, 4))
    assert ("Meter 1", "its calibration is overdue since 1 Mar 2027") in said(date(2027, 3, 2))
    assert ("Drum 1", "stands among the vessels, and not among the places") in found
    assert ("Poison line", "not named") in found and ("Eye hospital", "not named") not in found
    assert any(of == "Trained rescue team" and "40 min: who draws a person out" in what for of, what in found)


def test_a_meter_without_the_cell_for_what_is_there_is_a_gap(house_of: Callable[[str], Any]):
    place = '[[place]]\nname = "Pit"\nin_it = ["carbon dioxide", "too little oxygen", "deep water"]\nmeter = "M"\n'
    house_of(f'[[meter]]\nname = "M"\ncells = ["oxygen"]\n{place}')
    found = said()
    assert ("Pit", "M is not said to have a cell for carbon dioxide") in found
    assert ("Pit", "M is not said to have a cell for oxygen") not in found
    assert ("Pit", "no alarm step for carbon dioxide") in found
    assert ("Pit", "no rescue ring named, and it holds deep water") in found
    there = f'[[meter]]\nname = "M"\ncells = ["oxygen"]\n{place}[[thing]]\nkind = "rescue ring"\nplace = '
    house_of(f'{there}"Elsewhere"\n')
    assert ("Pit", "no rescue ring named, and it holds deep water") in said()
    house_of(f'{there}"pit"\n')
    assert ("Pit", "no rescue ring named, and it holds deep water") not in said()


@pytest.mark.usefixtures("invented")
def test_every_paper_of_the_plan_permits_nothing_and_is_signed():
    plan = "\n".join(plan_lines(DAY))
    assert plan.count(PERMITS_NOTHING) == len(places()) + 1 and "| Signature |" in plan
    assert "An empty list would say nothing of a place" in plan
    for place in places():
        assert PERMITS_NOTHING in "\n".join(card_lines(place, DOCS))
    assert any("do not ring it" in one for one in review())
    texts = [plan, *("\n".join(card_lines(place, DOCS)) for place in places()), *review()]
    assert [fault for text in texts for fault in faults(re.sub(r"&#(\d+);", lambda m: chr(int(m[1])), text))] == []


@pytest.mark.usefixtures("invented")
def test_a_card_has_the_acts_of_the_book_s_own_word_for_word():
    book = (DOCS / "safety" / "emergency.md").read_text("utf-8")
    acts = book[book.index('<div class="hang-up"') : book.index("| Fill in by hand")].splitlines()[1:]
    for place in places():
        card = card_lines(place, DOCS)
        assert "\n".join(acts).strip() in "\n".join(card)
        assert f"# Emergency card: {place['name']}" in "\n".join(card)
    steep_1 = re.sub(r"&#(\d+);", lambda m: chr(int(m[1])), "\n".join(card_lines(places()[0], DOCS)))
    for words in ("north wall, panel 3", "fresh-air blower for people", "they take 25 min",
                  "We are at steep 1, north end", "rescue ring: on the rail",
                  "carbon dioxide** at 5000 ppm", "under the clock"):  # fmt: skip
        assert words in steep_1, words
    pit = "\n".join(card_lines(places()[2], DOCS))
    assert pit.count("______________________") >= 3  # what nobody said stays to be written by hand


def test_a_card_that_the_book_no_longer_has_stops_the_build(tmp_path: Path):
    (tmp_path / "safety").mkdir()
    (tmp_path / "safety" / "emergency.md").write_text("# Emergency\n", "utf-8")
    with pytest.raises(BuildError, match="no card with a table"):
        card_lines({"name": "x"}, tmp_path)


@pytest.fixture
def papers(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    held = [dict(one) for one in PAPERS]
    monkeypatch.setattr(here, "HOUSE", {"paper": held, "house": [{"name": "The example maltings"}]})
    return held


def test_what_is_approved_is_kept_and_nothing_is_written_over(tmp_path: Path, papers: list[dict[str, Any]]):
    assert keep_papers(tmp_path, only_list=True) == ["P-05  procedures/steeping: not kept yet"]
    assert keep_papers(tmp_path)[0] == "Kept: P-05, version 3, procedures/steeping"
    (release,) = read_releases(tmp_path)
    assert (release.said, release.date, release.office) == ("P-05, version 3", "2026-03-01", "head of malting")
    before = (tmp_path / "approved" / release.file).read_bytes()
    assert keep_papers(tmp_path) == ["P-05  procedures/steeping: holds"]
    assert (tmp_path / "approved" / release.file).read_bytes() == before

    papers[0].update(version="4", date="2026-06-01")
    assert keep_papers(tmp_path)[0] == "Kept: P-05, version 4, procedures/steeping"
    releases = read_releases(tmp_path)
    held = {day: [one.version for one in valid_on(releases, date.fromisoformat(day))] for day in (
        "2026-02-28", "2026-03-01", "2026-05-31", "2026-06-01", "2030-01-01")}  # fmt: skip
    assert list(held.values()) == [[], ["3"], ["3"], ["4"], ["4"]]

    lines = as_of_day("2026-05-31", tmp_path / "then", own=tmp_path, today=DAY)
    assert "P-05, version 3" in lines[0]
    assert (tmp_path / "then" / release.file).read_bytes() == before
    assert "What was valid then need not be valid now" in (tmp_path / "then" / "index.html").read_text("utf-8")
    for day, says in (("2020-01-01", "No paper was approved by 2020-01-01"), ("soon", "“soon” is no day"),
                      ("2026-05-31", "is there already")):  # fmt: skip
        with pytest.raises(BuildError, match=says):
            as_of_day(day, tmp_path / ("then" if "there" in says else "x"), own=tmp_path, today=DAY)


def test_a_page_that_changed_since_is_said_with_the_difference_in_words(tmp_path: Path, papers: list[dict[str, Any]]):
    import shutil

    keep_papers(tmp_path)
    docs = tmp_path / "book"
    shutil.copytree(DOCS, docs)
    file = docs / "procedures" / "steeping.md"
    file.write_text(file.read_text("utf-8").replace("Count out 200 corns", "Count out 400 corns"), "utf-8")
    made = overlay("https://example.org/", docs=docs, to=tmp_path / "to", own=tmp_path, today=DAY)
    assert made is not None
    page = (made.docs / "house" / "papers.md").read_text("utf-8")
    assert "**changed since**: read again by those who are signed off on it" in page
    assert "was: Count out 200 corns without choosing." in page
    assert "is:  Count out 400 corns without choosing." in page
    (row,) = json.loads((made.docs / "house" / "papers.json").read_text("utf-8"))
    assert row["changed"] is True and row["kept"] is True and row["number"] == "P-05"
    same = overlay("https://other.example/", to=tmp_path / "to", own=tmp_path, today=date(2027, 3, 2))
    assert same is not None
    page = (same.docs / "house" / "papers.md").read_text("utf-8")
    assert "changed since" not in page.replace("has changed since papers", "") and "**due** since 1 Mar 2027" in page
    papers[0]["office"] = "somebody else"
    assert any("Give it a new version" in line for line in keep_papers(tmp_path))


def test_what_was_approved_and_is_damaged_or_gone_is_said(tmp_path: Path, papers: list[dict[str, Any]]):
    keep_papers(tmp_path)
    (release,) = read_releases(tmp_path)
    held = tmp_path / "approved" / release.file
    whole = held.read_bytes()
    held.write_bytes(whole + b" ")
    with pytest.raises(BuildError, match="is not what was approved"):
        read_releases(tmp_path)
    held.unlink()
    with pytest.raises(BuildError, match="which is not there"):
        read_releases(tmp_path)
    held.write_bytes(whole)
    listed = tmp_path / "approved" / "releases.toml"
    text = listed.read_text("utf-8")
    outside = text.replace(release.file, "../../x.html")
    for broken in (text[:-20], text.replace("file =", "other ="), outside, "release = 3"):
        listed.write_text(broken, "utf-8")
        with pytest.raises(BuildError):
            read_releases(tmp_path)
    papers[0].pop("office")
    listed.write_text(text, "utf-8")
    assert any("write office first" in line for line in keep_papers(tmp_path))


def test_each_paper_has_a_sheet_to_sign(tmp_path: Path, papers: list[dict[str, Any]]):
    made = overlay("https://example.org/", to=tmp_path / "to", own=tmp_path, today=DAY)
    assert made is not None and papers
    sheet = (made.docs / "house" / "acknowledge.md").read_text("utf-8")
    assert "Read and understood on" in sheet and "gives nobody leave" in sheet and "P&#45;05&#44; version 3" in sheet


def test_a_moved_limit_makes_the_cards_of_the_sheets_that_use_it_invalid(tmp_path: Path):
    moved = json.loads(in_house(
        "import json; from site_src.house.used import sheets_now; print(json.dumps(sheets_now()))",
        HERE / "house.toml", tmp_path,
    ))  # fmt: skip
    found = invalid_cards(sheets_now(), moved)
    assert "steep-timing" in found and "steep-plan" in found and "oven-moisture" not in found
    (line,) = [one for one in found["steep-timing"] if one.startswith("limit ")]
    assert line.startswith("limit immersion-hours: was up to 8 h; 8–12 h") and "is up to 8 h; 8–10 h" in line
    assert all(one.startswith("limit immersion-hours") for lines in found.values() for one in lines)


def test_what_a_sheet_rests_on_is_neither_all_nor_nothing():
    target = rests_on("moisture-target")
    assert set(target) == {"limit cast-moisture", "model bounds", "model weights/batch"} | {
        one for one in target if one.startswith("rule ")
    }
    assert "limit floor-bottom" in rests_on("floor-round") and "model lifting/equation" in rests_on("lifting-index")
    assert not any("steep" in one for one in rests_on("lifting-index"))
    assert "rule gases" in rests_on("exposure")


ANSWERS = """
import json
from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.sheets import find_sheet, sheet_ids
from tests.rules.moved import CASES
said = {}
for name in sheet_ids():
    sheet = find_sheet(name)
    found = [answer(sheet, {**example_of(sheet), **case}) for case in ({}, *CASES.get(name, ()))]
    said[name] = [as_json(one) if isinstance(one, Answered) else str(one) for one in found]
print(json.dumps(said))
"""
MOVED = {
    "immersion-hours": "stop_high = 10", "floor-bottom": "stop_high = 21", "cast-moisture": "stop_high = 47",
    "germination-energy": "stop_low = 96\naccept_low = 96",
}  # fmt: skip


@pytest.fixture(scope="module")
def unmoved(tmp_path_factory: pytest.TempPathFactory) -> Any:
    """What every sheet answers where no limit is moved."""
    place = tmp_path_factory.mktemp("unmoved")
    (place / "empty.toml").write_text("", "utf-8")
    return json.loads(in_house(ANSWERS, place / "empty.toml", place))


@pytest.mark.parametrize("limit", MOVED)
def test_every_sheet_whose_answers_change_with_a_limit_is_said_to_rest_on_it(tmp_path: Path, unmoved: Any, limit: str):
    """Held against the sheets themselves: their worked cases, and cases past their stops, with the limit moved."""
    file, before = tmp_path / "house.toml", unmoved
    file.write_text(f"[limits.{limit}]\n{MOVED[limit]}\nreason = 'x'\noffice = 'y'\n", "utf-8")
    moved = json.loads(in_house(ANSWERS, file, tmp_path))
    changed = {name for name in before if before[name] != moved[name]}
    assert changed
    assert changed <= {name for name in before if f"limit {limit}" in rests_on(name)}
