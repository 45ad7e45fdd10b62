"""This house's numbers in worked examples, exercises and the practice batch: for who asks, by name, never on safety."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any

import pytest

from calculators.exercises import CHAPTERS, EXERCISES
from calculators.exercises.exercise import draw, mark, one_of_paper
from calculators.exercises.own import with_own
from calculators.exercises.page import embed_exercises, respond
from calculators.house import here
from calculators.page import embed
from calculators.practice.frames import embed as practice
from calculators.practice.hidden import hidden
from calculators.practice.page import respond as play
from calculators.practice.setting import Setting, as_text, read_setting
from calculators.sheets import find_sheet, sheet_ids
from site_src.house.worked import cases, with_worked, worked_lines
from site_src.settings import ROOT
from tests.house.conftest import House

SHEETS = ROOT / "docs" / "calculators"
SMALL = """
[[steep]]
name = "Tub"
charge_kg = 250
[[water]]
name = "Well"
temp_c = 11
[[barley]]
name = "Own field"
barley_moisture = 13
"""
EDGES = tuple(
    f"[[steep]]\nname = 'S'\ncharge_kg = {kg}\nwater_m3 = {m3}\nsuction_m3_h_t = {air}\n[[water]]\nname = 'W'\n"
    f"temp_c = {c}\n[[plan]]\nname = 'P'\nstages = '{stages}'\n[[barley]]\nname = 'B'\nbarley_moisture = {wet}\n"
    f"corn_weight_g = {corn}\nwater_sensitivity = {points}\n[[basket]]\nname = 'K'\nbasket_g = {g}\nsample_g = {of}\n"
    for kg, m3, air, c, stages, wet, corn, points, g, of in (
        (20, 0.02, 0, 2, "0.1", 5, 20, 0, 0, 10),
        (300_000, 600, 500, 30, " ".join(["72"] * 12), 25, 70, 100, 20_000, 20_000),
    )
)


def box_of(sheet_id: str) -> str:
    before = (SHEETS / f"{sheet_id}.md").read_text("utf-8")
    after = with_worked(before)
    kept = iter(after.splitlines())
    assert all(line in kept for line in before.splitlines()), sheet_id  # the book's own case stands as it was
    return after.replace(before, "") if before == after else after


def test_a_worked_case_with_this_house_s_numbers_stands_below_the_book_s_own(house_of: Callable[[str], House]):
    """250 kg at 13 %: 217.5 kg dry, 1 % leached leaves 215.3 kg, which at 45 % is 391.5 kg; by hand."""
    house_of(SMALL)
    lines = "\n".join(worked_lines("moisture-target", {}))
    assert "Weight at target: 391&#46;5 kg" in lines or "Weight at target: 392 kg" in lines, lines
    assert "Still an example" in lines and "Tub" in lines and "Own field" in lines
    assert "9504" in box_of("moisture-target") and "500&#46;" not in lines
    assert "1 %" not in lines  # a reading of the example's batch stands beside no charge of this house


@pytest.mark.usefixtures("invented")
def test_safety_sheets_show_none_and_no_form_takes_any_by_itself():
    shown = 0
    for name in sheet_ids():
        given: dict[str, str] = {}
        lines = list(worked_lines(name, given))
        shown += bool(lines)
        if find_sheet(name).guarded:
            assert not lines and not cases(find_sheet(name), given)
        for case in cases(find_sheet(name), given):
            theirs = {value for values in here.OFFERED.values() for value, _ in values}
            read = [one.id for one in find_sheet(name).questions if one.optional and one.id in case.typed]
            assert all(case.typed[one] in theirs for one in read), name  # no reading of the example's batch
    assert shown >= 9


@pytest.mark.usefixtures("invented")
def test_a_stop_that_the_house_s_plan_passes_is_said_first():
    lines = list(worked_lines("steep-timing", {}))
    first = next(line for line in lines if line.startswith("- "))
    assert first.startswith("- **Past a stop")


def test_without_a_house_no_page_of_a_sheet_is_another():
    for file in SHEETS.glob("*.md"):
        assert with_worked(file.read_text("utf-8")) == file.read_text("utf-8")
    for chapter in CHAPTERS:
        assert 'name="own"' not in embed_exercises(chapter)
    for name, one in EXERCISES.items():
        if find_sheet(one.sheet).needs == ():
            plain, asked = draw(one, "7.0"), draw(one, with_own("7.0"))
            assert (plain.question, plain.right) == (asked.question, asked.right), name


def test_an_exercise_takes_the_house_s_numbers_when_asked_and_says_whose_they_are(house_of: Callable[[str], House]):
    house_of(SMALL)
    target = EXERCISES["target-weight"]
    plain, own = draw(target, "7.0"), draw(target, with_own("7.0"))
    assert "This house" not in plain.question and plain.own.names == ()
    assert own.question.startswith("250 kg of barley at 13 %") and "Of this house: Tub; Own field." in own.question
    assert "The rest is invented." in own.question
    dry = 250 * 0.87 * (1 - own.case.values["dry_matter_lost"] / 100)
    assert own.right == pytest.approx(dry / (1 - own.case.values["target_moisture"] / 100))  # the dry-matter balance
    assert own.exercise.near < plain.exercise.near  # what is near is as small as the charge
    assert mark(own, f"{own.right:.1f}").mark == "right"
    assert mark(own, f"{own.right + 3 * own.exercise.near:.1f}").mark != "right"
    assert draw(EXERCISES["mix-temperature"], with_own("7.0")).question.count("250 kg") == 0  # beside drawn water
    assert embed_exercises("filling").count('name="own"') == 1
    assert 'name="own"' not in embed_exercises("safety")
    assert "250 kg" not in embed_exercises("filling")  # the first question is the book's


def test_a_page_asks_for_them_and_its_answer_is_marked_by_the_same_numbers(house_of: Callable[[str], House]):
    house_of(SMALL)
    asked = {"chapter": "moisture", "seed": "7", "number": 0, "root": "../", "again": []}
    own = json.loads(respond({"exercise": "next", **asked, "own": True}))
    assert own["count"] == "Paper 7, question 1" and own["draw_seed"].endswith("@house.0")
    drawn = one_of_paper(CHAPTERS["moisture"], with_own("7"), 0)
    right = {"exercise": "mark", "id": own["id"], "draw_seed": own["draw_seed"], "typed": f"{drawn.right:.4f}"}
    assert json.loads(respond(right))["mark"] == "right"
    paper = json.loads(respond({"exercise": "paper", **asked, "own": True}))["paper"]
    assert "with this house’s numbers" in paper and "names no thing of this house is invented" in paper
    assert "All numbers are invented" in json.loads(respond({"exercise": "paper", **asked}))["paper"]
    plain = json.loads(respond({"exercise": "next", **asked}))
    assert plain["id"] == own["id"]  # the same paper has the same questions


@pytest.mark.parametrize("text", EDGES, ids=["smallest", "largest"])
def test_no_house_is_too_small_or_too_large_for_an_exercise(house_of: Callable[[str], House], text: str):
    house_of(text)
    taken = 0
    for name, one in EXERCISES.items():
        if find_sheet(one.sheet).needs:
            continue
        for seed in range(4):
            found = draw(one, with_own(f"{seed}.0"))
            taken += bool(found.own.names)
            assert not (find_sheet(one.sheet).guarded and found.own.names), name
            assert found.exercise.between[0] <= found.right <= found.exercise.between[1]
    assert taken > 15


def test_the_practice_batch_can_be_played_in_this_house_s_water(house_of: Callable[[str], House]):
    house_of(SMALL + "[[water]]\nname = 'Geyser'\ntemp_c = 30\n")
    drawn = practice("trainer")
    assert '<option value="c11">This house, Well: water at 11 °C</option>' in drawn
    assert "Geyser: water at 30 °C. It is played from 8 to 18 °C" in drawn and 'value="c30"' not in drawn
    assert read_setting("c11").water_c == 11.0 and as_text(read_setting("c11_drum")) == "drum_c11"
    for beyond in ("c7.9", "c18.1", "c99"):
        assert read_setting(beyond) == Setting()
    assert hidden(7, (), "", 11.0).water_c - hidden(7, ()).water_c == pytest.approx(11.0 - 14.0)
    asked = {"number": 7, "level": "3", "faults": "none", "setting": "c11"}
    reply = json.loads(play({"practice": asked, "root": "../"}))
    assert "in water of about 11 °C" in reply["say"] and reply["setting"] == "c11"


@pytest.mark.usefixtures("invented")
def test_the_worked_case_of_a_form_stays_the_book_s():
    drawn = embed("moisture-target", {}, "x")
    example = json.loads(re.search(r"data-example=\"([^\"]*)\"", drawn)[1].replace("&quot;", '"'))  # type: ignore[index]
    assert example["barley_kg"] == "6000" and 'data-standing="example"' in drawn
    assert "With this house’s numbers" not in drawn


def test_hostile_names_are_text_in_a_worked_case_and_an_exercise(house_of: Callable[[str], Any]):
    house_of('[[steep]]\nname = "<b>*x*</b>|[y](z)"\ncharge_kg = 250\n')
    lines = "\n".join(worked_lines("moisture-target", {}))
    assert "<b>" not in lines and "[y](z)" not in lines and "*x*" not in lines
    reply = json.loads(respond({"exercise": "paper", "chapter": "filling", "seed": "7", "root": "../", "own": True}))
    assert "<b>" not in reply["paper"] and "&lt;b&gt;" in reply["paper"]
