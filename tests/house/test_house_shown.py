"""Where what a house says is shown: boxes, sheets, record sheets, hand-outs; as text, by name, never by itself."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from markdown import Markdown

from calculators.asking.answer import Answered, answer, example_of
from calculators.asking.declare import Sheet, Table
from calculators.asking.reading import Problem, split_rows
from calculators.daybook.pages.forms import draw_forms
from calculators.drawing.elements import html
from calculators.house.offers import draw_offers, offers_for
from calculators.house.schema import SECTIONS
from calculators.page import embed
from calculators.papers import PAPERS
from calculators.papers.page import draw_paper, embed_paper
from calculators.sheets import find_sheet, sheet_ids
from site_src.house import on_paper
from site_src.house.box import box_lines, paper_lines
from site_src.house.overlay import overlay, with_box, with_hand_out
from site_src.settings import ROOT, BuildError
from tests.house.conftest import HERE
from tests.house.in_house import in_house

DOCS = ROOT / "docs"
HOSTILE = (
    "<script>alert(1)</script>", "<img src=x onerror=x>", "</div></body>", "**b** _i_ `c` [x](y) ![i](j)", "| a | b |",
    "# x", "&lt;b&gt; &amp;", "{: .hazard }", "$x$ {{ y }} {% z %}", 'href="page:nowhere"', "1. x", "~~~",
    "javascript:x",
    "\\*", "^[1]", "http://example.org", "*[x]: y",
)  # fmt: skip


class _Words(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.words = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(f"{tag} {' '.join(name for name, _ in attrs)}".strip())

    def handle_data(self, data: str) -> None:
        self.words += data


def read(drawn: str) -> _Words:
    found = _Words()
    found.feed(drawn)
    return found


def test_without_a_file_nothing_of_a_house_stands_anywhere(tmp_path: Path):
    assert overlay("https://example.org/", own=tmp_path) is None
    for name in sheet_ids():
        assert "house-offers" not in embed(name, {}, name)
    for file in DOCS.rglob("*.md"):
        page = file.relative_to(DOCS).with_suffix("").as_posix()
        markdown = file.read_text("utf-8")
        assert with_box(markdown, page, "https://example.org/") == markdown
        assert with_hand_out(markdown, page) == markdown
    for paper in PAPERS:
        assert on_paper.with_code(embed_paper(paper), paper) == embed_paper(paper)
    assert "datalist" not in html(draw_forms())


@pytest.mark.usefixtures("invented")
def test_each_section_shows_on_each_page_that_it_names():
    shown = 0
    for section in SECTIONS:
        for page in section.shows:
            if (DOCS / f"{page}.md").is_file() and section.id not in ("box", "paper"):
                assert section.title in "\n".join(box_lines(page)), (section.id, page)
                shown += 1
    assert shown > 80


@pytest.mark.usefixtures("invented")
def test_a_box_stands_before_the_steps_and_takes_nothing_away():
    for file in sorted((DOCS / "procedures").glob("*.md")):
        before = file.read_text("utf-8")
        after = with_box(before, f"procedures/{file.stem}", "https://example.org/")
        assert after.count('class="in-house no-terms"') == 1
        assert after.index('class="in-house') < after.index("\n## Steps\n")
        lines = after.splitlines()
        kept = iter(lines)
        assert all(line in kept for line in before.splitlines()), file.stem  # every line of the book, in its order


def test_every_house_page_about_people_says_that_it_permits_nothing(invented: dict[str, Any]):
    safe = {page for section in SECTIONS if section.safety for page in section.shows}
    for page in safe:
        if (DOCS / f"{page}.md").is_file():
            assert "It permits nothing" in "\n".join(box_lines(page)), page


@pytest.mark.parametrize("words", HOSTILE)
def test_text_is_text_in_a_box(house_of: Callable[[str], Any], words: str):
    said, name = json.dumps(words), json.dumps(words[:40])
    house_of(f"[house]\nname = {said}\n[[steep]]\nname = {name}\nair = {said}")
    markdown = with_box((DOCS / "procedures" / "casting.md").read_text("utf-8"), "procedures/casting", "")
    box = markdown[markdown.index('<div class="in-house') : markdown.index("\n## Steps\n")]
    found = read(Markdown(extensions=["md_in_html", "attr_list", "tables", "footnotes", "abbr"]).convert(box))
    assert set(found.tags) <= {"div class", "p class", "p", "strong", "ul", "li"}
    assert found.words.count(words.strip()) >= 2, found.words


@pytest.mark.parametrize("words", HOSTILE)
def test_text_is_text_in_a_sheet_and_on_a_record_sheet(house_of: Callable[[str], Any], words: str):
    house_of(
        f"[house]\nname = {json.dumps(words)}\n[[steep]]\nname = {json.dumps(words[:40])}\ncharge_kg = 6000\n"
        f"[[meter]]\nname = {json.dumps(words[:40])}\n"
    )
    offers = draw_offers(find_sheet("moisture-target"), "x")
    assert offers is not None
    for drawn in (html(offers), html(draw_paper(PAPERS["steep-record"])), html(draw_forms())):
        found = read(drawn)
        assert not {tag.split()[0] for tag in found.tags} & {"script", "img", "b", "iframe"}
        assert not any("onerror" in tag for tag in found.tags)
    assert words[:40].strip() in read(html(offers)).words


@pytest.mark.usefixtures("invented")
def test_sheets_about_gas_vessels_and_lifting_are_offered_nothing_and_others_by_name():
    offered = {name: [offer.name for offer in offers_for(find_sheet(name))] for name in sheet_ids()}
    for name in sheet_ids():
        if find_sheet(name).guarded:
            assert offered[name] == [] and "house-offers" not in embed(name, {}, name)
    assert "Steep 2" in offered["moisture-target"] and "August" in offered["steep-timing"]
    assert offered["steep-timing"].count("Spring plan") == 1 and "Basket A" in offered["sample-basket"]
    assert sum(map(bool, offered.values())) >= 12


def stays_blank(sheet: Sheet, values: dict[str, str], one: Problem) -> bool:
    """Whether a problem is of a cell that an offer leaves to be typed."""
    question = sheet.question(one.question)
    if not isinstance(question, Table) or one.row is None:
        return False
    at = [column.id for column in question.columns].index(one.column or "")
    return split_rows(question, values[one.question])[one.row - 1][at] == ""


@pytest.mark.further(keep=8)
@pytest.mark.usefixtures("invented")
@pytest.mark.parametrize("name", sheet_ids())
def test_what_is_offered_is_taken_by_the_sheet(name: str):
    sheet = find_sheet(name)
    for offer in offers_for(sheet):
        case = {**example_of(sheet), **offer.values}
        for either in sheet.either:
            chosen = [group for group in either.groups if any(one in offer.values for one in group)]
            for group in either.groups:
                if chosen and group not in chosen:
                    for one in group:
                        case.pop(one, None)
        found = answer(sheet, case)
        problems = () if isinstance(found, Answered) else found.problems
        wrong = [
            one.text for one in problems if one.question in offer.values and not stays_blank(sheet, offer.values, one)
        ]
        assert not wrong, (offer.name, wrong)


@pytest.mark.usefixtures("invented")
def test_the_week_of_a_house_is_offered_all_its_places_at_once_and_asks_the_rest():
    sheet = find_sheet("house-week")
    offers = {offer.name: offer.values for offer in offers_for(sheet)}
    places = offers["Steeps, floors, vessels and kilns"]
    assert places["steeps"] == "Steep 1\t6000\nSteep 2\t6000" and places["floors"] == "Floor 1\t80\t\t"
    assert places["vessels"].startswith("Drum 1\tdrum\t6000") and places["kilns"] == "Kiln 1\t6000\t\t"
    assert "mains_c" in offers["August"] and "stages" in offers["Spring plan"]
    found = answer(sheet, {**example_of(sheet), **places})
    assert not isinstance(found, Answered)
    blank = {(one.question, one.column) for one in found.problems}
    assert blank >= {("kilns", "kiln_h"), ("kilns", "turn_round_h"), ("floors", "floor_c"), ("vessels", "vessel_c")}
    assert all(stays_blank(sheet, places, one) for one in found.problems)
    assert not any("house-week" in name for name in offers)


def test_nothing_stands_in_a_form_by_itself(invented: dict[str, Any]):
    def values(drawn: str) -> list[str]:
        form = drawn[drawn.index("<form") : drawn.index("</form>")]
        return re.findall(r'<(?:input|select|option)[^>]*?value="([^"]*)"[^>]*?(?:selected|checked)?', form)

    for name in sheet_ids():
        with_house = values(embed(name, {}, name))
        invented_before = dict(invented)
        invented.clear()
        without = values(embed(name, {}, name))
        invented.update(invented_before)
        assert with_house == without, name


@pytest.mark.usefixtures("invented")
def test_papers_carry_number_version_day_office_review_and_code():
    head = "\n".join(paper_lines("procedures/steeping", "https://example.org/procedures/steeping/"))
    said = read(head).words
    assert "P-05, version 3 of 1 Mar 2026, approved: head of malting, read again by 1 Mar 2027" in said
    assert "<svg" in head and paper_lines("procedures/casting", "x") == []
    drawn = read(html(draw_paper(PAPERS["steep-record"]))).words
    assert "R-02, version 1 of 1 Mar 2026" in drawn and "Ring one: Steep 1 / Steep 2" in drawn


@pytest.mark.usefixtures("invented")
def test_the_code_of_a_paper_leads_to_its_page(monkeypatch: pytest.MonkeyPatch):
    """Read back by zxing, an independent reader of ISO/IEC 18004."""
    zxing = pytest.importorskip("zxingcpp")
    numpy = pytest.importorskip("numpy")
    address = "https://example.org/book/procedures/steeping/"
    head = "\n".join(paper_lines("procedures/steeping", address))
    size = int(re.search(r'viewBox="0 0 (\d+)', head)[1])  # type: ignore[index]
    image = numpy.full((size, size), 255, dtype=numpy.uint8)
    for x, y, dark in (map(int, run) for run in re.findall(r"M(\d+),(\d+)h(\d+)", head)):
        image[y, x : x + dark] = 0
    (found,) = zxing.read_barcodes(numpy.kron(image, numpy.ones((6, 6), dtype=numpy.uint8)))
    assert found.text == address
    monkeypatch.setattr(on_paper, "site_url", "https://example.org/book/")
    drawn = on_paper.with_code(embed_paper("steep-record"), "steep-record")
    assert "The valid sheet: point a camera here." in drawn and "<svg" in drawn


@pytest.mark.usefixtures("invented")
def test_hand_outs_and_sign_off_sheets_have_the_house_s_names():
    page = "training/session-05-steeping"
    after = with_hand_out((DOCS / f"{page}.md").read_text("utf-8"), page)
    hand_out = read(after[after.index("## Hand-out") :]).words
    assert "In this house:" in hand_out and "Steep 1, Steep 2" in hand_out and "P-05, version 3" in hand_out


def test_names_are_offered_in_the_day_book_and_fahrenheit_and_tonnes_stand_beside(house_of: Callable[[str], Any]):
    house_of(
        "[house]\nthermometers = 'F'\nscales = 't'\n[[meter]]\nname = 'Meter 1'\n"
        "[[water]]\nname = 'August'\ntemp_c = 18\n[[steep]]\nname = 'S'\ncharge_kg = 6000\n"
    )
    assert '<option value="Meter 1">' in html(draw_forms())
    said = read(Markdown().convert("\n".join(box_lines("procedures/steeping")))).words
    assert "18 °C (64 °F)" in said and "6000 kg (6 t)" in said


def test_a_moved_limit_is_said_with_the_book_s_beside_it_on_page_sheet_and_card(tmp_path: Path):
    code = """
import json
from calculators.page import respond
from site_src.embed import parse
from site_src.house.on_sheet import with_house
from calculators.page import embed
from site_src.house.box import box_lines
from site_src.limits_table import filled
from calculators.rules.limits import every
every()
print(json.dumps({
    "box": "\\n".join(box_lines("procedures/steeping")),
    "sheet": with_house(embed("steep-timing", {}, "steep-timing"), "steep-timing"),
    "other": with_house(embed("oven-moisture", {}, "oven-moisture"), "oven-moisture"),
    "inline": filled("[[limit:immersion-hours stop_high]] and [[limit:immersion-hours accept_high]]"),
    "past": respond(json.dumps({"sheet": "steep-timing", "prefix": "x", "root": "../", "questions": {
        "barley_moisture": "12", "water_temp_c": "6", "corn_weight_g": "45", "stages": [["11", ""]],
        "target_moisture": "45"}})),
}))
"""
    found = json.loads(in_house(code, HERE / "house.toml", tmp_path))
    line = "This house: One immersion, stop over 10 h (the book: 12 h). Reason: thin husks, drinks fast "
    line += "(head of malting)."
    assert line in read(Markdown().convert(found["box"])).words
    assert line in found["sheet"] and "stop over" not in found["other"]
    assert "Printed at: The example maltings." in found["other"]
    assert found["inline"] == "10 h (this house; the book: 12 h) and 8 h"
    assert "over 10 h (this house; the book: 12 h)" in found["past"], found["past"][:3000]


@pytest.mark.usefixtures("invented")
def test_what_hangs_on_a_wall_carries_its_number_in_itself():
    """The card of the book, and one page of steeping with a drawing in it."""
    before = (DOCS / "safety" / "emergency.md").read_text("utf-8")
    after = with_box(before, "safety/emergency", "https://example.org/")
    card = after[after.index('<div class="hang-up') : after.index("\nPrint this page")]
    assert "C&#45;01" in card and card.count("<svg") == 1
    assert card.count("<div") == card.count("</div>")
    kept = iter(after.splitlines())
    assert all(line in kept for line in before.splitlines())


def test_a_sheet_about_gas_vessels_or_lifting_carries_no_code(house_of: Callable[[str], Any]):
    house_of('[[paper]]\npage = "calculators/drum-fill"\nnumber = "C-9"\n')
    assert "<svg" not in "\n".join(paper_lines("calculators/drum-fill", "https://example.org/"))
    assert "C&#45;9" in "\n".join(paper_lines("calculators/drum-fill", "https://example.org/"))
    house_of('[[paper]]\npage = "calculators/sample-basket"\nnumber = "C-8"\n')
    assert "<svg" in "\n".join(paper_lines("calculators/sample-basket", "https://example.org/"))


def test_what_looks_like_a_link_in_a_text_is_text(tmp_path: Path):
    from site_src.links import resolved

    (tmp_path / "safety").mkdir()
    (tmp_path / "safety" / "index.html").write_text("", "utf-8")
    page = '<p data-x="a &gt; b" class="y">href="page:nowhere" <a href="page:safety#x">s</a> href="sheet:none"</p>'
    assert resolved(page, "a/index.html", tmp_path) == page.replace("page:safety#x", "../safety/#x")


@pytest.mark.usefixtures("invented")
def test_the_record_of_competence_has_the_number_of_the_house_s_paper():
    from calculators.competence import JOBS, of_house

    said = {name: of_house(name) for name, job in JOBS.items() if job.page == "procedures/steeping"}
    assert said and set(said.values()) == {("P-05, version 3", "head of malting")}
    assert {of_house(name) for name, job in JOBS.items() if job.page == "procedures/casting"} == {("", "")}


def test_a_new_version_or_a_note_of_the_house_asks_those_signed_off_to_look_again(
    house_of: Callable[[str], Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    from site_src import competence

    job = next(one for one in competence.jobs().values() if one.page == "procedures/steeping")
    other = next(one for one in competence.jobs().values() if one.page == "procedures/casting")

    def marked() -> tuple[str, str]:
        competence._notes.cache_clear()
        return competence.mark_of(job), competence.mark_of(other)

    monkeypatch.setenv("HOUSE", str(tmp_path))
    before = marked()
    paper = '[[paper]]\npage = "procedures/steeping"\nnumber = "P-05"\nversion = "{}"\n'
    seen = [before]
    for version in ("1", "2"):
        house_of(paper.format(version))
        seen.append(marked())
    (tmp_path / "house").mkdir()
    note = "---\nplace: procedures/steeping#drain step 2\nreason: r\noffice: o\n---\nShut the lower one.\n"
    (tmp_path / "house" / "drain.md").write_text(note, "utf-8")
    seen.append(marked())
    assert len({one for one, _ in seen}) == 4 and {one for _, one in seen} == {before[1]}
    competence._notes.cache_clear()


def test_the_paper_before_vessel_work_has_the_house_s_permits_meters_and_number(house_of: Callable[[str], Any]):
    before = (DOCS / f"{on_paper.VESSEL_PAPER}.md").read_text("utf-8")
    house_of("[house]\nname = 'x'\n")
    assert on_paper.with_rows(before) == before
    house_of(
        "[[permit]]\nname = 'Blue | form'\noffice = 'head of malting'\n[[meter]]\nname = 'Meter 1'\n"
        "cells = ['oxygen']\n[[call]]\nrole = 'emergency number'\nnumber = '<b>1</b>'\n"
    )
    after = on_paper.with_rows(before)
    drawn = Markdown(extensions=["md_in_html", "tables"]).convert(after[after.index("| Write down") :])
    said = read(drawn)
    assert "Blue | form: office head of malting" in said.words and "<b>1</b>" in said.words
    assert "Meters of this house; read each on the day" in said.words and "Meter 1: cells oxygen" in said.words
    assert "b" not in {tag.split()[0] for tag in said.tags}
    with pytest.raises(BuildError, match="has no row"):
        on_paper.with_rows("# Another paper")


def test_numbers_of_the_house_are_offered_by_name_where_a_batch_begins_and_never_for_a_reading(
    house_of: Callable[[str], Any],
):
    house_of('[[steep]]\nname = "Tub"\ncharge_kg = 250\n[[water]]\nname = "Well"\ntemp_c = 11\n')
    drawn = html(draw_forms())
    assert drawn.count('<option value="250" label="Tub">') == 1
    assert drawn.count('<option value="11" label="Well">') == 1  # a batch begun, and no water that is read
    assert 'value="250"' not in drawn.replace('<option value="250"', "")
