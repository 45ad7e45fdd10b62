"""What is asked about a person goes into the working and nowhere else; a word that refuses needs nothing beside it."""

from __future__ import annotations

import json
import re

import pytest

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.asking.declare import Choice, is_private
from calculators.cli import run
from calculators.drawing.form import hint_of
from calculators.page import embed, respond
from calculators.sheets import find_sheet, sheet_ids

PRIVATE = [
    (sheet_id, question)
    for sheet_id in sheet_ids()
    for question in find_sheet(sheet_id).questions
    if isinstance(question, Choice) and is_private(question)
]
each = pytest.mark.parametrize(("sheet_id", "question"), PRIVATE, ids=lambda one: getattr(one, "id", one))


def reply_to(sheet_id: str, **changed: str) -> dict[str, object]:
    questions = {**example_of(find_sheet(sheet_id)), **changed}
    request = {"sheet": sheet_id, "prefix": "x", "root": "../../", "questions": questions, "date": "2026-01-01"}
    told: dict[str, object] = json.loads(respond(json.dumps(request)))
    return told


def test_lifting_and_shovelling_ask_in_private():
    assert [sheet_id for sheet_id, _ in PRIVATE] == ["lifting-index", "shovel-pace"]


@each
def test_neither_the_heading_nor_the_card_nor_the_command_line_has_the_answer(sheet_id, question, capsys):
    labels = [question.label, *(option.label for option in question.options)]
    reply = reply_to(sheet_id)
    assert reply["state"] == "answered"
    shown = str(reply["places"]) + str(reply["status"])
    for label in labels:
        assert label not in shown
    result = answer(find_sheet(sheet_id), example_of(find_sheet(sheet_id)))
    assert isinstance(result, Answered) and result.values[question.id] and result.said[question.id] is None
    assert question.id not in as_json(result)["questions"]
    given = [f"{name}={text}" for name, text in example_of(find_sheet(sheet_id)).items()]
    assert run(sheet_id, given) == 0
    assert not [label for label in labels if label in capsys.readouterr().out]


@each
def test_a_refusal_over_a_person_is_read_on_the_screen_and_leaves_no_word_on_paper(sheet_id, question):
    (refusing,) = (option.word for option in question.options if option.refuses)
    reply = reply_to(sheet_id, **{question.id: refusing})
    assert reply["state"] == "refused"
    places = reply["places"]
    assert isinstance(places, dict)
    assert "under 18" in places["notes"]
    on_paper = re.sub(r'<(p|h3|div) class="[^"]*off-paper[^"]*".*?</\1>', "", "".join(places.values()), flags=re.DOTALL)
    assert re.sub(r"<[^>]+>", "", on_paper) == "No figures were worked out."


@each
def test_the_form_marks_it_and_says_so_and_the_worked_case_does_not_carry_it(sheet_id, question):
    page = embed(sheet_id, {}, "x")
    (field,) = re.findall(rf'<fieldset[^>]*data-question="{question.id}"[^>]*>', page)
    assert 'data-private="yes"' in field and page.count('data-private="yes"') == 1
    assert "Not kept, not in a link, not printed." in hint_of(question) and hint_of(question) in page
    assert question.id not in page.split('data-example="', 1)[1].split('"', 1)[0]
    assert not question.default, "nobody is answered for"
