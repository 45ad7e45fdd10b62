"""What an exercise says of a slip is true of the case it is said of; an example has other numbers, and leaves out."""

from __future__ import annotations

import json

import pytest

from calculators.exercises import CHAPTERS, EXERCISES
from calculators.exercises.exercise import Drawn, answer_words, draw, mark, one_of_paper
from calculators.exercises.page import respond
from calculators.rules.limit import edge
from calculators.rules.limits.casting import OFF_TARGET
from calculators.rules.limits.floor_germination import BOTTOM, DIFFERENCE, TURNING
from calculators.rules.limits.readiness import READY

SEEDS = range(60)


def right_word(drawn: Drawn) -> str:
    return drawn.exercise.among[round(drawn.right) - 1]


def said(drawn: Drawn, word: str) -> str:
    return mark(drawn, word).text


def cases(name: str) -> list[Drawn]:
    return [draw(EXERCISES[name], str(seed)) for seed in SEEDS]


@pytest.mark.parametrize("drawn", cases("what-the-count-decides"), ids=lambda drawn: drawn.seed)
def test_reasons_of_readiness_are_true_of_the_count(drawn: Drawn) -> None:
    least, right, ready = edge(READY.accept_low), right_word(drawn), drawn.case.answers["share_ready"]
    gone, waited, late = (said(drawn, word) for word in ("kiln-now", "wait", "late"))
    if right == "late":
        assert "far end" in gone and "far end" in waited
    assert "Nearly is under the target" not in gone or (right == "wait" and ready < least)
    classes = [float(row) for row in drawn.case.typed["counts"].split(";")]
    assert "left out the corns" not in waited or 100 * classes[3] / sum(classes) < least <= ready
    assert "Some always run out" not in waited and ("Some always run out" not in late or right != "late")
    if right == "kiln-now":
        assert "ready now" in waited or "left out the corns" in waited


@pytest.mark.parametrize("drawn", cases("hold-wet-or-cast"), ids=lambda drawn: drawn.seed)
def test_reasons_of_the_cast_are_true_of_the_batch(drawn: Drawn) -> None:
    right, case = right_word(drawn), drawn.case
    short = case.values["target_moisture"] - case.values["moisture_drained"] > edge(OFF_TARGET.accept_high)
    held, wet, cast = (said(drawn, word) for word in ("hold", "wet-again", "cast"))
    assert "All of it is in order" not in held or (right == "cast" and not short)
    assert right != "wet-again" or "Waiting brings no water" in held or "Is the water there" in held
    assert "late chit" not in cast and "Is the chit there" not in (wet + cast if right != "hold" else "")


@pytest.mark.parametrize("drawn", cases("verdict-at-the-gate"), ids=lambda drawn: drawn.seed)
def test_reasons_at_the_gate_are_true_of_the_load(drawn: Drawn) -> None:
    right, held = right_word(drawn), said(drawn, "hold")
    assert "Drying mends water" not in held
    assert right in ("hold", "stop", "reject", "take", "rest") or "held" in held or "tested again" in held
    assert "moisture alone" not in said(drawn, "take") + said(drawn, "dry") or right not in ("take", "dry")
    assert "with a low capacity it is dead" not in said(drawn, "rest") or right == "reject"


@pytest.mark.parametrize("drawn", cases("turn-or-leave"), ids=lambda drawn: drawn.seed)
def test_reasons_of_a_round_are_true_of_what_was_read(drawn: Drawn) -> None:
    right, values = right_word(drawn), drawn.case.values
    left, turned, now = (said(drawn, word) for word in ("leave", "turn", "turn-now"))
    if right == "turn-now":
        assert "the shift lead is told" in turned and "went by the hours" not in turned
    if right == "leave":
        assert "shift lead" not in turned and turned.startswith("Near.")
    apart = round(values["bottom_c"] - values["top_c"], 1)
    if values["bottom_c"] <= edge(BOTTOM.accept_high) and apart < edge(DIFFERENCE.accept_high):
        assert "trusted the top" not in left
    if right == "turn" and "longer than is accepted" in left:
        assert values["hours_since_turning"] > edge(TURNING.accept_high)
    assert right != "turn" or "over the stop" in now


def example(name: str, seed: str, gaps: bool) -> str:
    asked = {"exercise": "example", "id": name, "draw_seed": seed, "gaps": gaps}
    return str(json.loads(respond(asked))["example"])


@pytest.mark.further(keep=12)
@pytest.mark.parametrize("name", EXERCISES)
def test_an_example_has_other_numbers_than_the_question(name: str) -> None:
    for seed in ("1", "1.0", "2.0", "3.0"):
        question = draw(EXERCISES[name], seed).question
        assert question.replace(" %", "\u00a0%") not in example(name, seed, False).replace("&amp;", "&"), seed


def test_the_first_of_the_first_steeping_paper_is_not_given_away() -> None:
    first = one_of_paper(CHAPTERS["steeping"], "1", 0)
    assert first.question.replace(" %", "\u00a0%") not in example(first.exercise.id, first.seed, True)


@pytest.mark.parametrize("name", EXERCISES)
def test_steps_left_out_leave_something_out_or_say_why_not(name: str) -> None:
    before_the_key = example(name, "1", True).partition("<details")[0]
    assert "____" in before_the_key or "has no steps to leave out" in before_the_key
    if "has no steps" in before_the_key:
        assert "Found by steps" not in before_the_key


def test_a_half_is_rounded_as_by_hand() -> None:
    drawn = draw(EXERCISES["suction-of-a-rest"], "1")._replace(right=262.5, decimals=0)
    assert answer_words(drawn).startswith("263 ")


@pytest.mark.parametrize("name", ["corns-to-count", "corns-for-readiness"])
def test_who_works_the_formula_of_the_page_by_hand_is_right(name: str) -> None:
    for seed in range(40):
        drawn = draw(EXERCISES[name], str(seed))
        share, margin = (drawn.case.values[one] / 100 for one in ("expected_percent", "margin_points"))
        assert mark(drawn, f"{1.96**2 * share * (1 - share) / margin**2:.1f}").mark == "right", seed
