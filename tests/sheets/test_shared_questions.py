"""A question that is shared has one id and one meaning in every sheet and in the day-book."""

from __future__ import annotations

import json
from collections import defaultdict
from itertools import combinations

import pytest

from calculators.asking.declare import Choice, Clock, Number, Question, Sheet, Table, is_private, shared_by
from calculators.daybook.lines.kinds import KINDS
from calculators.page import respond
from calculators.sheets import find_sheet, sheet_ids

SHEETS = [find_sheet(name) for name in sheet_ids()]
OPEN = [sheet for sheet in SHEETS if not sheet.guarded]


def asked() -> dict[str, list[tuple[str, Question]]]:
    """Every question of an unguarded sheet and of the day-book by its id, where a sheet shares it."""
    found: dict[str, list[tuple[str, Question]]] = defaultdict(list)
    for sheet in OPEN:
        for question in sheet.questions:
            found[question.id].append((sheet.id, question))
    for kind in KINDS:
        for question in kind.questions:
            found[question.id].append((f"day-book, {kind.id}", question))
    shared = {q.id for sheet in OPEN for q in sheet.questions if shared_by(sheet, q)}
    return {name: places for name, places in found.items() if name in shared}


def meaning(question: Question) -> tuple[object, ...]:
    """What has to be the same wherever a question is shared."""
    if isinstance(question, Number):
        return ("number", question.unit, question.whole)
    if isinstance(question, Choice):
        return ("choice", tuple(option.word for option in question.options))
    if isinstance(question, Clock):
        return ("clock", question.daily)
    if isinstance(question, Table):
        return ("table", tuple((column.id, meaning(column)) for column in question.columns))
    return ("text",)


def test_there_are_shared_questions() -> None:
    assert {"barley_moisture", "barley_kg", "target_moisture", "basket_g", "start", "stages"} <= set(asked())


@pytest.mark.parametrize("name", sorted(asked()))
def test_a_shared_id_has_one_meaning(name: str) -> None:
    places = asked()[name]
    assert len({meaning(question) for _, question in places}) == 1, places
    how = {question.shared for _, question in places}
    assert len(how) == 1, f"{name} is shared in one place and not in another: {places}"
    for (one, first), (other, second) in combinations(places, 2):
        if isinstance(first, Number) and isinstance(second, Number):
            overlap = min(first.high, second.high) - max(first.low, second.low)
            assert overlap >= 0.9 * (first.high - first.low), f"limits of {name} in {one} and {other}"


def test_what_is_typed_in_one_sheet_is_read_in_every_other() -> None:
    """The ends and the middle of the limits that they have in common are read by each."""
    from calculators.asking.reading import read

    for name, places in asked().items():
        numbers = [question for _, question in places if isinstance(question, Number)]
        if not numbers:
            continue
        low, high = max(q.low for q in numbers), min(q.high for q in numbers)
        for value in (low, high, float(int((low + high) / 2)) if numbers[0].whole else (low + high) / 2):
            for question in numbers:
                got, problems = read(question, repr(value))
                assert not problems and got == pytest.approx(value), name


def test_answers_given_to_others_fit_the_question_they_answer() -> None:
    questions = asked()
    givers = [(sheet, one) for sheet in OPEN for one in sheet.answers if one.gives]
    assert {one.gives for _, one in givers} >= {"barley_moisture", "rate_factor", "moisture_drained"}
    for sheet, one in givers:
        for place, question in questions[one.gives]:
            assert isinstance(question, Number)
            assert question.unit == one.unit, f"{sheet.id} gives {one.id} to {place}"


@pytest.mark.parametrize("sheet", [s for s in SHEETS if s.guarded], ids=lambda sheet: sheet.id)
def test_a_sheet_on_safety_takes_and_gives_nothing(sheet: Sheet) -> None:
    from calculators.page import embed

    assert "data-shared=" not in embed(sheet.id, {}, sheet.id)
    assert not any(shared_by(sheet, question) for question in sheet.questions)
    assert not any(one.gives for one in sheet.answers)


def test_private_answers_are_never_shared() -> None:
    for sheet in SHEETS:
        for question in sheet.questions:
            assert not (is_private(question) and shared_by(sheet, question))


def reply(sheet: str, **more: object) -> dict[str, object]:
    questions = {q.id: q.example for q in find_sheet(sheet).questions if q.example}
    request = {"sheet": sheet, "prefix": sheet, "root": "../", "questions": questions, **more}
    answered: dict[str, object] = json.loads(respond(json.dumps(request)))
    return answered


def test_a_verdict_that_rests_on_a_lent_number_says_so() -> None:
    source = "Steep basket, Sun 29 Nov 13:05"
    places = reply("cast-decision", lent={"moisture_drained": source})["places"]
    assert isinstance(places, dict)
    assert f"Rests on what was not typed here: moisture, drained ({source})." in places["answers"]
    assert source in places["heading"]
    own = reply("cast-decision")["places"]
    assert isinstance(own, dict) and "not typed here" not in own["answers"]


def test_a_guarded_sheet_has_no_words_of_lending() -> None:
    places = reply("gas-build-up", lent={"barley_kg": "Steep basket"})["places"]
    assert isinstance(places, dict)
    assert "Steep basket" not in "".join(places.values())


def test_an_answer_goes_to_other_sheets_and_an_examples_never() -> None:
    assert set(reply("sample-basket")["gives"]) == {"moisture_drained"}  # type: ignore[call-overload]
    assert reply("sample-basket", from_example=["basket_g"])["gives"] == {}
    assert reply("oven-moisture")["gives"] == {"barley_moisture": "12.5"} or reply("oven-moisture")["gives"]
    questions = {"dishes": "20 30 24; 20 30 24", "material": "green-malt"}
    assert reply("oven-moisture", questions=questions)["gives"] == {}, "green malt is not the barley's own moisture"


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_a_clock_time_is_asked_in_view_where_an_answer_is_one(sheet: Sheet) -> None:
    clocks = any(one.kind == "clock" for one in sheet.answers)
    clocks |= any(head.kind == "clock" for listing in sheet.listings for head in listing.columns)
    if clocks:
        moments = [q for q in sheet.questions if isinstance(q, Clock) and not q.daily]
        assert any(q.in_view or not (q.optional or q.default) for q in moments)


def test_now_stands_beside_every_clock_question() -> None:
    """Not beside a time of every day, such as when nobody is there: that is no moment."""
    from calculators.page import embed

    for sheet in SHEETS:
        html = embed(sheet.id, {}, sheet.id)
        assert html.count('data-action="now"') == sum(isinstance(q, Clock) and not q.daily for q in sheet.questions)
