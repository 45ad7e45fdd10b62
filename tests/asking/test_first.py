"""What a sheet answers before the rest is asked: by the entry, in the page and on the command line."""

from __future__ import annotations

import json

import pytest

from calculators import cli, page
from calculators.asking.answer import Answered, NotAnswered, answer, as_json
from calculators.asking.declare import First, Found, Note, Outcome, Refusal, Sheet
from tests.demo import RIGHT, SHEET

DANGER = Note("danger", "It will hurt somebody.")


def at_once(*, temp_c: float | None, kind: str | None) -> Outcome | Refusal | None:
    if kind == "oats":
        return Refusal("Oats, whatever else.", (DANGER,))
    return Outcome((Found("verdict", "turn"),), notes=(DANGER,)) if temp_c is not None and temp_c > 25 else None


QUICK: Sheet = SHEET._replace(first=First(("temp_c", "kind"), at_once))


def test_it_answers_from_its_own_questions_whatever_else_is_blank_or_wrong():
    assert as_json(answer(QUICK, {"temp_c": "26", "turns": "2"}))["questions"] == {"temp_c": 26}  # type: ignore[arg-type]
    result = answer(QUICK, {"temp_c": "26", "turns": "many", "colour": "red"})
    assert isinstance(result, Answered)
    found = as_json(result)
    assert found["answers"]["verdict"]["value"] == "turn" and found["notes"][0]["level"] == "danger"
    assert found["questions"] == {"temp_c": 26}, "a default has no part in it"
    texts = [note["text"] for note in found["notes"][1:]]
    assert texts[0] == "Still blank, and this answer does not wait for it: Grain, Barley weight, Stages."
    assert any("Put right as well: Turns" in text for text in texts)
    assert any("asks no question “colour”" in text for text in texts)


def test_it_stays_out_of_the_way_when_it_has_nothing_to_say():
    assert isinstance(answer(QUICK, {"temp_c": "20"}), NotAnswered)
    assert isinstance(answer(QUICK, {}), NotAnswered)
    assert isinstance(answer(QUICK, {"temp_c": "very hot"}), NotAnswered)


def test_with_all_answered_right_the_working_speaks():
    result = answer(QUICK, {**RIGHT, "temp_c": "26"})
    assert isinstance(result, Answered) and isinstance(result.outcome, Outcome)
    assert {found.id for found in result.outcome.answers} == {"kg", "verdict", "ends"}


def test_what_does_not_fit_together_does_not_hide_it():
    def work(**given: object) -> Outcome:
        return SHEET.work(**{**given, "temp_c": 13})  # type: ignore[return-value]

    result = answer(QUICK._replace(work=work), {**RIGHT, "temp_c": "26"})
    assert isinstance(result, Answered)
    assert any("13 C brings bad luck" in note.text for note in result.outcome.notes)


def test_the_page_shows_it_while_the_rest_is_blank(monkeypatch):
    monkeypatch.setattr(page, "find_sheet", lambda name: QUICK)
    asked = {"sheet": "demo", "prefix": "demo", "root": "", "questions": {"temp_c": "26"}}
    reply = json.loads(page.respond(json.dumps(asked)))
    assert reply["state"] == "answered" and "DANGER" in reply["places"]["notes"]
    assert "Turn it" in reply["places"]["answers"] and "Still blank" in reply["places"]["remarks"]
    asked["questions"] = {"kind": "oats"}
    reply = json.loads(page.respond(json.dumps(asked)))
    assert reply["state"] == "refused" and "Oats, whatever else" in reply["places"]["notes"]


@pytest.mark.parametrize(("words", "code"), [(["temp_c=26"], 0), (["kind=oats"], 3), (["temp_c=20"], 2)])
@pytest.mark.parametrize("as_data", [False, True])
def test_the_command_line_ends_with_its_code(monkeypatch, capsys, words, code, as_data):
    monkeypatch.setattr(cli, "find_sheet", lambda name: QUICK)
    assert cli.main(["run", "demo", *words, *(["--json"] if as_data else [])]) == code
    out = capsys.readouterr().out
    assert ("hurt somebody" in out) == (code != 2)
    if as_data and code != 2:
        assert json.loads(out)["notes"][0]["level"] == "danger"
