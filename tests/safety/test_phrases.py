"""Nothing that is read here allows an entry or calls a place safe, clear, acceptable or without hazard."""

from __future__ import annotations

import ast
import html
import json
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.asking.declare import Choice, Clock, Number, Outcome, Question, Table
from calculators.asking.reading import Raw
from calculators.exercises import EXERCISES
from calculators.exercises.exercise import answer_words, draw, mark
from calculators.page import embed, respond
from calculators.sheets import find_sheet, sheet_ids
from site_src.limits_table import filled
from tests.safety.phrases import faults, shown

ROOT = Path(__file__).parents[2]
PAGES = [*sorted((ROOT / "docs").rglob("*.md")), *sorted(ROOT.glob("*.md"))]
DRAWINGS = sorted((ROOT / "docs").rglob("*.svg")) + sorted((ROOT / "docs" / "_includes").rglob("*.html"))
QUESTIONS = sorted((ROOT / "docs" / "_includes").rglob("*.toml"))
MODULES = sorted((ROOT / "calculators").rglob("*.py"))


@pytest.mark.parametrize(
    "text",
    [
        "The drum may be entered after ten minutes.",
        "You can go in now.",
        "You may now safely enter.",
        "The air is clear.",
        "The atmosphere is safe.",
        "There is no gas left, so the vessel is safe to enter.",
        "All readings are within limits.",
        "This is within the limit for eight hours.",
        "An acceptable level of gas.",
        "The concentration is acceptable.",
        "The pit is now gas-free.",
        "Work there without risk.",
        "No hazard remains.",
        "The gas is not dangerous below 1 %.",
        "Low readings are harmless.",
        "It gives the minutes allowed inside.",
        "The sheet allows entry after the fan.",
        "Entry is permitted once the meter is silent.",
        "All clear.",
        "After this time it is safe.",
        "Safe limit: 25 kg.",
        "You are safe behind the rail.",
        "A safe concentration for eight hours is 5,000 ppm.",
    ],
)
def test_it_catches_what_must_never_be_said(text):
    assert faults(text)


@pytest.mark.parametrize(
    "text",
    [
        "The filter sets no safe limit.",
        "It allows no entry.",
        "They are never time allowed inside.",
        "Keep clear of the outlet.",
        "No page here tells you that a place can be gone into.",
        "Nobody may enter.",
        "Who may enter what, the employer decides.",
        "Never call a place safe.",
        "A clear day. Clear water runs over the weir.",
        "Under 1 is no promise.",
        "No part of the column is marked as free of harm.",
        "These are limits of the model.",
        "A sum never says that the air is safe.",
        "The steep is drained. Stay out.",
        "There is no such thing as a safe level.",
    ],
)
def test_it_lets_stand_what_denies(text):
    assert faults(text) == []


def test_it_reads_through_inline_tags():
    assert faults(shown("<p>The air is <strong>safe</strong> to breathe.</p>"))
    assert faults(shown("<p>Who decides on entry</p><p>is permitted to say no.</p>")) == []


@pytest.mark.parametrize("page", PAGES + DRAWINGS, ids=lambda p: str(p.relative_to(ROOT)))
def test_pages_boxes_and_drawings(page):
    text = page.read_text(encoding="utf-8")
    assert faults(html.unescape(filled(text)) if page.suffix == ".md" else shown(text)) == []


@pytest.mark.parametrize("data", QUESTIONS, ids=lambda p: str(p.relative_to(ROOT)))
def test_questions_of_judgement_and_terms(data):
    assert faults(html.unescape(filled(data.read_text(encoding="utf-8")))) == []


def _texts(module: Path) -> list[str]:
    """Every text in a module but its docstrings; the pieces of one f-string stay together."""
    found = []
    docstrings = set()
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        for inner in getattr(node, "body", []) if not isinstance(node, (ast.Lambda, ast.IfExp)) else []:
            if isinstance(inner, ast.Expr):
                docstrings.add(inner.value)
        if isinstance(node, ast.JoinedStr):
            pieces = [str(p.value) if isinstance(p, ast.Constant) else "0" for p in node.values]
            found.append("".join(pieces))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in docstrings:
            found.append(node.value)
    return found


@pytest.mark.parametrize("module", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_texts_of_the_calculators(module):
    assert [fault for text in _texts(module) for fault in faults(text)] == []


def _typed(question: Question) -> st.SearchStrategy[Raw]:
    if isinstance(question, Number):
        inside = st.floats(question.low, question.high, allow_nan=False)
        typed = inside.map(lambda v: str(round(v)) if question.whole else repr(v))
        return st.one_of(typed, typed, st.sampled_from([repr(question.low), repr(question.high), "x", ""]))
    if isinstance(question, Choice):
        return st.sampled_from([option.word for option in question.options])
    if isinstance(question, Clock):
        return st.datetimes().map(lambda moment: moment.isoformat(timespec="minutes"))
    if isinstance(question, Table):
        cells = [_typed(column) for column in question.columns]
        most = min(question.max_rows, 6)
        return st.lists(st.tuples(*cells).map(list), min_size=min(question.min_rows, most), max_size=most)
    return st.just("words")


def _said(reply: str) -> str:
    """All that one reply shows, as text."""
    given = json.loads(reply)
    pieces = [*given["places"].values(), given["status"], *given["missing"]]
    pieces += [error["text"] for error in given["errors"]]
    return "\n\n".join(shown(piece) for piece in pieces)


UNIT_TWICE = r"\d (%|°C|K|kg|t|h|min|cm) \1(?![\w/])"


@pytest.mark.parametrize("sheet_id", sheet_ids())
def test_the_card_and_the_worked_case(sheet_id):
    text = shown(embed(sheet_id, {}, sheet_id))
    assert faults(text) == []
    assert not (twice := re.search(UNIT_TWICE, text)), twice


@pytest.mark.further(keep=10)
@pytest.mark.parametrize("sheet_id", sheet_ids())
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_whatever_is_typed_no_note_verdict_or_message_says_it(sheet_id, data):
    sheet = find_sheet(sheet_id)
    typed: dict[str, Raw] = {**example_of(sheet)}
    for question in sheet.questions:
        if data.draw(st.booleans()):
            typed[question.id] = data.draw(_typed(question))
    request = {"sheet": sheet_id, "prefix": sheet_id, "root": "../../", "questions": typed}
    assert faults(_said(respond(json.dumps(request)))) == []


@pytest.mark.further(keep=12)
@pytest.mark.parametrize("name", EXERCISES)
def test_exercises_their_working_and_their_marks(name):
    for seed in map(str, range(5)):
        drawn = draw(EXERCISES[name], seed)
        typed = ["", "x", str(drawn.right), *(str(result) for _, result in drawn.slips)]
        said = [drawn.question, drawn.working, answer_words(drawn), *(mark(drawn, one).text for one in typed)]
        assert faults("\n\n".join(said)) == []


@pytest.mark.site
def test_every_page_as_built(built_site):
    for page in sorted(built_site.rglob("*.html")):
        assert faults(shown(page.read_text("utf-8"))) == [], page


GUARDED = [sheet_id for sheet_id in sheet_ids() if find_sheet(sheet_id).guarded]


def test_the_sheets_on_gas_vessels_and_lifting_are_guarded():
    assert {"exposure", "dilution-estimate", "gas-build-up", "lifting-index", "shovel-pace"} <= set(GUARDED)


@pytest.mark.parametrize("sheet_id", GUARDED)
def test_a_guarded_worked_case_is_headed_as_nobodys_vessel(sheet_id):
    page = embed(sheet_id, {}, sheet_id)
    assert "EXAMPLE, NOT YOUR VESSEL" in page and 'data-guarded="yes"' in page
    assert 'data-action="example"' not in page
    assert "Nothing typed here is kept" in page and "Nothing typed here is kept" not in embed("corn-weight", {}, "corn")


GAS = ["exposure", "dilution-estimate", "gas-build-up"]


@pytest.mark.parametrize("sheet_id", GAS)
@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_every_answer_about_gas_says_beside_it_that_it_allows_no_entry(sheet_id, data):
    sheet = find_sheet(sheet_id)
    typed: dict[str, Raw] = {**example_of(sheet)}
    for question in sheet.questions:
        if data.draw(st.booleans()):
            typed[question.id] = data.draw(_typed(question))
    result = answer(sheet, typed)
    if isinstance(result, Answered):
        said = [note for note in as_json(result)["notes"] if note["level"] == "danger"]
        assert any("allow" in note["text"] and "no entry" in note["text"] for note in said)
        if isinstance(result.outcome, Outcome):
            assert "Infinity" not in json.dumps(as_json(result), allow_nan=False)
