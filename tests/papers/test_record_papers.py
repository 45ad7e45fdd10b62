"""Record sheets: what they take over stands in their sheets, a case fills them, and gas and vessels give nothing."""

from __future__ import annotations

import json

import pytest

from calculators.asking.answer import Answered, answer, example_of
from calculators.asking.declare import Answer, Number, Table
from calculators.asking.units import shown
from calculators.drawing.elements import html
from calculators.page import embed, respond
from calculators.papers import PAPERS, papers_of
from calculators.papers.kinds import Grid, Lines, Paper
from calculators.papers.page import asked_or_given, draw_paper, embed_paper, filling_of, label_of, row_names_of
from calculators.sheets import find_sheet, sheet_ids
from tests.safety.phrases import faults
from tests.safety.phrases import shown as words_of

ALL = list(PAPERS.values())
PAIRS = [(paper, sheet_id) for paper in ALL for sheet_id in paper.sheets]
IDS = [f"{paper.id}-{sheet_id}" for paper, sheet_id in PAIRS]


def by_id(paper: Paper) -> str:
    return paper.id


def table_columns(sheet_id: str, name: str) -> set[str]:
    sheet = find_sheet(sheet_id)
    asked = {column.id for q in sheet.questions if isinstance(q, Table) and q.id == name for column in q.columns}
    return asked | {column.id for listing in sheet.listings if listing.id == name for column in listing.columns}


@pytest.mark.parametrize("paper", ALL, ids=by_id)
def test_whatever_it_takes_is_declared_and_means_the_same_in_each_of_its_sheets(paper):
    for part in paper.parts:
        if isinstance(part, Lines):
            for blank in part.blanks:
                assert label_of(paper, blank)
                found = [asked_or_given(find_sheet(name), blank.takes) for name in paper.sheets]
                units = {shown(one.unit) for one in found if isinstance(one, (Number, Answer))}
                assert len(units) <= 1, blank
            continue
        assert row_names_of(paper, part)
        columns = set().union(*(table_columns(name, table) for name in paper.sheets for table in part.takes), set())
        assert {name for column in part.columns for name in column.takes} <= columns, part.title


@pytest.mark.parametrize("paper", ALL, ids=by_id)
def test_no_sheet_about_gas_vessels_or_lifting_gives_it_anything(paper):
    assert paper.sheets
    assert not [name for name in paper.sheets if find_sheet(name).guarded]


@pytest.mark.parametrize("paper", ALL, ids=by_id)
def test_blank_it_holds_no_figure_and_says_nothing_it_must_not(paper):
    drawn = draw_paper(paper)
    assert [cell.text for cell in drawn.iter("dd") if cell.text] == []
    assert "write with a pen" in html(drawn)
    assert faults(words_of(html(drawn))) == []


@pytest.mark.parametrize(("paper", "sheet_id"), PAIRS, ids=IDS)
def test_the_worked_case_of_each_of_its_sheets_stands_in_it(paper: Paper, sheet_id: str):
    sheet = find_sheet(sheet_id)
    request = {"paper": paper.id, "sheet": sheet_id, "questions": example_of(sheet), "date": "2026-11-25 10:30"}
    reply = json.loads(respond(json.dumps(request)))
    assert reply["state"] == "answered"
    text = reply["places"]["paper"]
    assert "Wed 25 Nov 2026 10:30" in text and sheet.title.lower() in text
    result = answer(sheet, example_of(sheet))
    assert isinstance(result, Answered)
    filling = filling_of(result)
    taken = {blank.takes for part in paper.parts if isinstance(part, Lines) for blank in part.blanks}
    used = taken & set(filling.texts)
    assert used
    for name in used:
        assert filling.texts[name] in words_of(text).replace("&#8217;", "’")
    assert faults(words_of(text)) == []


def test_target_weight_stands_in_the_steep_record():
    # 6,000 kg at 12 %, 1 % lost, to 45 %: 6000 × 0.88 × 0.99 / 0.55 = 9504 kg.
    questions = {"barley_kg": "6 t", "barley_moisture": "12", "target_moisture": "45", "dry_matter_lost": "1"}
    reply = json.loads(
        respond(json.dumps({"paper": "steep-record", "sheet": "moisture-target", "questions": questions}))
    )
    assert "<dt>Weight at target (kg)</dt><dd>9504</dd>" in reply["places"]["paper"]
    assert "<dt>Barley weight (kg)</dt><dd>6000</dd>" in reply["places"]["paper"]


def test_stages_stand_in_their_rows_and_those_too_many_are_counted():
    questions = {**example_of(find_sheet("steep-timing")), "stages": ";".join(["4"] * 11)}
    reply = json.loads(respond(json.dumps({"paper": "steep-record", "sheet": "steep-timing", "questions": questions})))
    text = reply["places"]["paper"]
    assert "<td>1 immersion</td><td>day 1 06:00</td><td>day 1 10:00</td>" in text
    assert "<td>8 air rest</td>" in text and "<td>9 immersion</td>" not in text
    assert "3 more rows do not fit" in text


def test_wrong_numbers_fill_in_only_what_was_typed_right():
    questions = {"barley_kg": "heavy", "barley_moisture": "12"}
    reply = json.loads(
        respond(json.dumps({"paper": "steep-record", "sheet": "moisture-target", "questions": questions}))
    )
    assert reply["state"] == "wrong" and "no answer" in reply["status"]
    assert "heavy" not in reply["places"]["paper"]
    assert "<dt>Barley moisture (%)</dt><dd>12</dd>" in reply["places"]["paper"]


@pytest.mark.parametrize("sheet_id", ["gas-build-up", "exposure", "no-such"])
def test_another_sheet_fills_nothing(sheet_id: str):
    request = {"paper": "steep-record", "sheet": sheet_id, "questions": {"barley_kg": "5000"}}
    reply = json.loads(respond(json.dumps(request)))
    assert reply["state"] == "wrong"
    assert "5000" not in reply["places"]["paper"]


def test_markup_in_a_link_stays_text():
    questions = {"barley_moisture": "<img src=x>", "smell": "<b>x</b>"}
    reply = json.loads(respond(json.dumps({"paper": "grain-test", "sheet": "intake-check", "questions": questions})))
    assert "<img" not in reply["places"]["paper"] and "<b>" not in reply["places"]["paper"]


@pytest.mark.parametrize("sheet_id", sheet_ids())
def test_a_sheet_links_the_records_that_it_fills_and_no_others(sheet_id: str):
    page = embed(sheet_id, {}, sheet_id)
    for paper in ALL:
        link = f'href="page:reference/records/{paper.id}"'
        assert (link in page) == (paper in papers_of(sheet_id))


def test_there_is_no_other_record_sheet():
    with pytest.raises(LookupError, match="steep-record"):
        embed_paper("no-such")


def test_a_grid_without_rows_takes_those_of_its_table():
    grids = [part for part in PAPERS["readiness-record"].parts if isinstance(part, Grid)]
    assert row_names_of(PAPERS["readiness-record"], grids[0])[-1] == "over 1"
