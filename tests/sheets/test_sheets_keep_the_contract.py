"""What holds for every sheet, whatever it computes."""

from __future__ import annotations

import inspect
import re
from html import unescape
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.asking.declare import Choice, Clock, Number, Outcome, Question, Refusal, Table
from calculators.asking.reading import Raw, read
from calculators.asking.units import UNITS
from calculators.drawing.links import references
from calculators.drawing.results import places
from calculators.page import embed, worked_case
from calculators.sheets import find_sheet, sheet_ids
from calculators.sources import SOURCES

ROOT = Path(__file__).parents[2]
every_sheet = pytest.mark.parametrize("sheet_id", sheet_ids())


@every_sheet
def test_the_working_asks_for_just_its_questions(sheet_id):
    sheet = find_sheet(sheet_id)
    assert sheet.id == sheet_id
    assert set(inspect.signature(sheet.work).parameters) == {q.id for q in sheet.questions}
    if sheet.first is not None:
        assert set(sheet.first.questions) <= {q.id for q in sheet.questions}
        assert tuple(inspect.signature(sheet.first.work).parameters) == sheet.first.questions


@every_sheet
def test_ids_words_units_and_sources(sheet_id):
    sheet = find_sheet(sheet_id)
    ids = [q.id for q in sheet.questions]
    assert len(set(ids)) == len(ids) and all(re.fullmatch(r"[a-z][a-z0-9_]*", i) for i in ids)
    assert len({a.id for a in sheet.answers}) == len(sheet.answers)
    for question in sheet.questions:
        columns = question.columns if isinstance(question, Table) else (question,)
        for column in columns:
            if isinstance(column, Number):
                assert column.unit in UNITS, f"{column.id}: asking/units.py has no line for the unit {column.unit!r}"
                assert column.low < column.high, f"{column.id}: its limits stand the wrong way round"
    for name in sheet.sources:
        assert name in SOURCES, f"calculators/sources/ declares no source {name!r}"
    assert any(one.lead for one in sheet.answers), "no answer is shown large: give the first one lead=True"


@every_sheet
def test_each_number_that_is_given_says_what_it_can_be(sheet_id):
    sheet = find_sheet(sheet_id)
    figures = [(one.id, one.within) for one in sheet.answers if one.kind == "number"]
    columns = [(f"{table.id} {c.id}", c) for table in sheet.listings for c in table.columns]
    figures += [(name, column.within) for name, column in columns if column.kind == "number"]
    for name, within in figures:
        assert within is not None, f"{sheet_id}: {name} has no range"
        assert within.low < within.high
        assert within.why.endswith((".", "(from memory).")) and within.instead.endswith((".", "?")), name
        strange = set(within.ask) - {q.id for q in sheet.questions}
        assert not strange, f"{name}: within.ask names what the sheet does not ask: {sorted(strange)}"
    for one in sheet.belongs:
        assert one.questions and all(sheet.question(asked) for asked in one.questions)


@every_sheet
def test_defaults_and_examples_can_be_read(sheet_id):
    for question in find_sheet(sheet_id).questions:
        for text in (question.default, question.example):
            if text:
                assert read(question, text)[1] == []


@every_sheet
def test_the_worked_case_is_answered_and_embeds(sheet_id):
    sheet = find_sheet(sheet_id)
    assert isinstance(worked_case(sheet, {}).outcome, (Outcome, Refusal))
    assert f'data-sheet="{sheet_id}"' in embed(sheet_id, {}, sheet_id)


@every_sheet
def test_an_empty_sheet_is_incomplete_not_answered_by_its_example(sheet_id):
    sheet = find_sheet(sheet_id)
    needed = [q for q in sheet.questions if not q.default and not q.optional]
    assert isinstance(answer(sheet, {}), Answered) == (not needed)


@every_sheet
def test_every_page_and_sheet_that_a_text_names_exists(sheet_id):
    module = Path(inspect.getfile(find_sheet(sheet_id).work))
    text = re.sub(r'"\s*\n\s*f?"', "", module.read_text(encoding="utf-8"))
    for kind, name in references(text):
        if kind == "sheet":
            assert name in sheet_ids()
        else:
            assert (ROOT / "docs" / f"{name}.md").is_file(), name


@every_sheet
def test_each_sheet_has_its_page(sheet_id):
    page = ROOT / "docs" / "calculators" / f"{sheet_id}.md"
    assert re.search(rf"```sheet\n{sheet_id}\b", page.read_text(encoding="utf-8"))


def _typed(question: Question) -> st.SearchStrategy[Raw]:
    """Text for a question: mostly right, sometimes at the edge, sometimes nonsense."""
    if isinstance(question, Number):
        floats = st.floats(question.low, question.high, allow_nan=False)
        right = floats.map(lambda v: str(round(v)) if question.whole else repr(v))
        edges = st.sampled_from([repr(question.low), repr(question.high)])
        return st.one_of(right, right, right, edges, st.just("-1e30"), st.just("x"))
    if isinstance(question, Choice):
        return st.sampled_from([option.word for option in question.options])
    if isinstance(question, Clock):
        return st.datetimes().map(lambda moment: moment.isoformat(timespec="minutes"))
    if isinstance(question, Table):
        cells = [_typed(c) if not c.optional else st.one_of(st.just(""), _typed(c)) for c in question.columns]
        most = min(question.max_rows, 8)
        return st.lists(st.tuples(*cells).map(list), min_size=question.min_rows, max_size=most)
    return st.text(max_size=30)


@pytest.mark.further(keep=10)
@every_sheet
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_whatever_is_typed_ends_in_an_answer_a_refusal_or_a_message(sheet_id, data):
    sheet = find_sheet(sheet_id)
    typed: dict[str, Raw] = {**example_of(sheet)}
    for question in sheet.questions:
        if data.draw(st.booleans()):
            typed[question.id] = data.draw(_typed(question))
    result = answer(sheet, typed)
    if isinstance(result, Answered):
        as_json(result)
        for place, html in places(result, "x", "../../").items():
            # a reference is drawn as a link or as its words
            assert "[[" not in unescape(html) or "[[" in str(typed), place
    else:
        assert all(problem.text for problem in result.problems)
