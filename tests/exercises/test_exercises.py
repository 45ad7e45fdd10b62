"""Exercises: realistic numbers, one answer that agrees with the sheet, slips that can be told apart."""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import binomtest

from calculators import cli
from calculators.asking.answer import Answered, answer
from calculators.asking.declare import Outcome
from calculators.asking.figures import fixed
from calculators.drawing.results import working_words
from calculators.exercises import CHAPTERS, EXERCISES
from calculators.exercises.exercise import Beside, Draw, Drawn, Exercise, Made, Pick, draw, mark, paper
from calculators.exercises.page import with_gaps
from calculators.rules.limit import edge
from calculators.rules.limits.germination_test import WATER_SENSITIVITY as WATER
from calculators.sheets import find_sheet
from tests.drawn import drawn as so_many

ROOT = Path(__file__).parents[2]
SEEDS = 1000
FEW = 50
# These have few distinct cases; their sheets search.
SLOW = {
    "chits-by-count", "water-sensitivity", "corns-to-count", "corns-for-readiness", "energy", "germination-index",
    "count-from", "last-immersion", "chits-of-a-plan", "suction-of-a-rest", "how-fast-this-lot-drinks",
    "most-heat-that-day",
}  # fmt: skip
every_exercise = pytest.mark.parametrize("exercise", EXERCISES.values(), ids=list(EXERCISES))


@pytest.mark.further(keep=12)
@pytest.mark.drawn
@every_exercise
def test_a_thousand_seeds(exercise):
    for seed in range(so_many(FEW) if exercise.id in SLOW else so_many(SEEDS, part=0.025)):
        drawn = draw(exercise, str(seed))
        for one in exercise.given:
            if isinstance(one, Draw):
                assert one.low - 1e-9 <= float(drawn.case.typed[one.question]) <= one.high + 1e-9
            elif isinstance(one, Pick):
                assert drawn.case.typed[one.question] in one.texts
            elif isinstance(one, Made):
                assert all(drawn.case.typed[name] for name in one.questions)
            else:
                assert one.name not in drawn.case.typed
        low, high = exercise.between
        assert low <= drawn.right <= high
        assert "{" not in drawn.question and drawn.working
        assert drawn.slips
        assert mark(drawn, repr(drawn.right)).mark == "right"
        assert mark(drawn, fixed(drawn.right, drawn.decimals)).mark == "right", "as the sheet shows it, rounded"
        if not drawn.exercise.among:
            as_typed = f"{drawn.right:.4f}".replace(".", ",") + f" {drawn.unit}"
            assert mark(drawn, as_typed).mark == "right"
        for slip, value in drawn.slips:
            assert abs(value - drawn.right) > exercise.near
            found = mark(drawn, repr(value))
            assert (found.mark, found.text) == ("near", f"Near. {slip.says}")


@every_exercise
def test_the_answer_agrees_with_the_sheet(exercise):
    drawn = draw(exercise, "agree")
    result = answer(find_sheet(exercise.sheet), drawn.case.typed)
    assert isinstance(result, Answered) and isinstance(result.outcome, Outcome)
    (figure,) = [f for f in result.figures if f.one.id == exercise.asked]
    if exercise.sum is not None:
        assert drawn.working.endswith(f"= {fixed(drawn.right, drawn.decimals)} {drawn.unit}")
        return
    given = {"": figure.found.value, "low": figure.found.low, "high": figure.found.high}[exercise.edge]
    assert (exercise.among[round(drawn.right) - 1] if exercise.among else drawn.right) == given
    assert working_words(figure) == drawn.working


@every_exercise
def test_the_page_that_teaches_it_exists(exercise):
    assert (ROOT / "docs" / f"{exercise.teaches}.md").is_file()


@every_exercise
def test_what_cannot_be_read_is_no_try_and_gives_nothing_away(exercise):
    drawn = draw(exercise, "1")
    right = fixed(drawn.right, drawn.decimals)
    for typed in ("", "about forty", "11,5x", "nan", "1e999", "<b>", "5,000", "1.234.567,5", "12 furlongs"):
        said = mark(drawn, typed)
        assert said.mark == "unread", typed
        assert "Type " in said.text and "does not count as a try" in said.text
        assert exercise.among or f" {right} " not in f" {said.text.replace('.', ' .')} "


@pytest.mark.parametrize("exercise", [one for one in EXERCISES.values() if one.among], ids=lambda exercise: exercise.id)
def test_a_number_that_is_no_choice_is_no_try(exercise):
    drawn, choices = draw(exercise, "1"), len(exercise.among)
    for typed in ("0", "-1", "2.5", str(choices + 1), "about forty"):
        said = mark(drawn, typed)
        assert said.mark == "unread" and f"Type a number from 1 to {choices}." in said.text, typed
    assert all(mark(drawn, str(one + 1)).mark != "unread" for one in range(choices))


def test_a_share_for_per_cent_is_named():
    drawn = next(
        drawn
        for exercise in EXERCISES.values()
        if not exercise.among
        for drawn in [draw(exercise, "1")]
        if drawn.unit == "%" and exercise.near > 0.1
    )
    said = mark(drawn, repr(round(drawn.right / 100, 6)))
    assert said.mark == "near" and "is the share of 1" in said.text and "100 times" in said.text
    assert mark(drawn, repr(drawn.right / 1000)).mark == "not-yet"


def test_the_same_seed_gives_the_same_paper_in_another_process():
    words = ["exercise", "steeping", "--seed", "7", "--count", "6"]
    program = [sys.executable, "-m", "calculators", *words]
    runs = {
        subprocess.run(
            program, capture_output=True, text=True, check=True, cwd=ROOT, env={"PYTHONHASHSEED": seed}
        ).stdout
        for seed in ("1", "2")
    }
    assert len(runs) == 1


def test_another_seed_gives_other_numbers():
    questions = {draw(EXERCISES["target-weight"], str(seed)).question for seed in range(50)}
    assert len(questions) > 45


def test_a_paper_has_as_many_as_asked_and_repeats_none():
    drawn = paper(CHAPTERS["filling"], "7", 12)
    assert len({one.question for one in drawn}) == 12
    assert paper((), "7", 3) == []


def test_the_command_line_prints_paper_and_key(capsys):
    assert cli.main(["exercise", "steeping", "--seed", "7", "--count", "3"]) == 0
    out = capsys.readouterr().out
    assert out.count("Answer: ___") == 3 and "Key: steeping, seed 7" in out and "(right to within " in out


@pytest.mark.parametrize(
    "words", [[], ["brewing"], ["steeping", "--count", "0"], ["steeping", "--count", "x"], ["a", "b"]]
)
def test_the_command_line_says_what_to_type(capsys, words):
    assert cli.main(["exercise", *words]) == 2
    streams = capsys.readouterr()
    assert streams.out == "" and "ype" in streams.err


def many(exercise: Exercise, count: int = 120) -> list[Drawn]:
    return [draw(exercise, str(seed)) for seed in range(count)]


@pytest.mark.further(keep=1)
@pytest.mark.parametrize("name", ["water-sensitivity", "energy", "germination-index", "three-quarters-and-beyond"])
def test_counts_are_drawn_wide(name):
    assert len({drawn.question for drawn in many(EXERCISES[name])}) > 100


def test_some_barley_minds_water_hardly_some_somewhat_some_much():
    low, high = edge(WATER.accept_high), edge(WATER.stop_high)
    drops = [drawn.right for drawn in many(EXERCISES["water-sensitivity"])]
    shares = [sum(wanted(drop) for drop in drops) / len(drops) for wanted in (
        lambda drop: drop < low, lambda drop: low <= drop < high, lambda drop: drop >= high,
    )]  # fmt: skip
    assert min(shares) > 0.15


DECIDING = [exercise for exercise in EXERCISES.values() if exercise.among]


def test_sheets_that_decide_are_asked_what_they_decide():
    assert {exercise.sheet for exercise in DECIDING} == {
        "intake-check", "cast-decision", "floor-round", "readiness", "analysis-sheet",
    }  # fmt: skip
    asked = {exercise.sheet for exercise in EXERCISES.values()}
    assert asked >= {
        "steep-timing",
        "steep-plan",
        "steep-fit",
        "rest-warmth",
        "chitting",
        "fan-stopped",
        "batch-forecast",
    }


@pytest.mark.further(keep=2)
@pytest.mark.parametrize("exercise", DECIDING, ids=lambda exercise: exercise.id)
def test_no_one_verdict_is_a_good_guess(exercise):
    found = Counter(exercise.among[round(drawn.right) - 1] for drawn in many(exercise))
    assert len(found) >= min(len(exercise.among), 3) and max(found.values()) < 0.6 * found.total()


@pytest.mark.parametrize("exercise", DECIDING, ids=lambda exercise: exercise.id)
def test_a_verdict_may_be_typed_as_its_word(exercise):
    drawn = draw(exercise, "1")
    assert mark(drawn, exercise.among[round(drawn.right) - 1].replace("-", " ")).mark == "right"


def test_a_number_that_can_be_read_in_two_ways_is_asked_about_with_what_to_type():
    said = mark(draw(EXERCISES["target-weight"], "1"), "3,333")
    assert said.mark == "unread" and "Type 3333 or 3.333" in said.text


def test_steps_left_out_hold_no_result():
    drawn = draw(EXERCISES["target-weight"], "1")
    assert "=" in drawn.working and not re.search(r"= *[\d.,]", with_gaps(drawn.working))


def test_numbers_that_are_not_needed_change_nothing():
    for exercise in EXERCISES.values():
        beside = [one for one in exercise.given if isinstance(one, Beside)]
        for one in beside:
            assert one.name in exercise.story and one.name not in draw(exercise, "3").case.typed
    assert sum(any(isinstance(one, Beside) for one in e.given) for e in EXERCISES.values()) >= 3


def test_the_end_of_an_interval_agrees_with_wilson_or_the_exact_one():
    # scipy stands for the published intervals: Wilson 1927, Clopper and Pearson 1934.
    for name in ("lowest-still-open", "highest-chit-still-open"):
        for drawn in many(EXERCISES[name], 20):
            grown, of = (
                (float(drawn.case.typed["chitted"]), float(drawn.case.typed["counted"]))
                if name.startswith("highest")
                else tuple(map(float, drawn.case.typed["replicates"].split()))
            )
            tested = binomtest(round(grown), round(of))
            ends = [100 * getattr(tested.proportion_ci(method=way), drawn.exercise.edge) for way in ("wilson", "exact")]
            assert min(abs(drawn.right - end) for end in ends) < 0.05


def test_a_trend_goes_straight_on():
    for drawn in many(EXERCISES["trend-of-a-piece"], 40):
        case = drawn.case
        (ago, _, bottom, top), *_ = ([float(t) for t in row.split()] for row in case.typed["earlier_rounds"].split(";"))
        now = case.values["bottom_c"] - case.values["top_c"]
        slope, _ = np.polyfit([-ago, 0.0], [bottom - top, now], 1)
        assert drawn.right == pytest.approx((case.values["difference_limit_c"] - now) / slope)
