"""Exercises: realistic numbers, one answer that agrees with the sheet, slips that can be told apart."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from calculators import cli
from calculators.asking.answer import Answered, answer
from calculators.asking.declare import Outcome
from calculators.drawing.results import working_words
from calculators.exercises import CHAPTERS, EXERCISES
from calculators.exercises.exercise import Draw, Pick, draw, mark, paper
from calculators.sheets import find_sheet

ROOT = Path(__file__).parents[2]
SEEDS = 1000
# These have few distinct cases; their sheets search.
SLOW = {
    "chits-by-count", "suction-of-a-rest", "water-sensitivity", "corns-to-count", "energy", "germination-index",
    "count-from",
}  # fmt: skip
every_exercise = pytest.mark.parametrize("exercise", EXERCISES.values(), ids=list(EXERCISES))


@every_exercise
def test_a_thousand_seeds(exercise):
    for seed in range(100 if exercise.id in SLOW else SEEDS):
        drawn = draw(exercise, str(seed))
        for one in exercise.given:
            text = drawn.case.typed[one.question]
            if isinstance(one, Draw):
                assert one.low - 1e-9 <= float(text) <= one.high + 1e-9
            else:
                assert isinstance(one, Pick) and text in one.texts
        low, high = exercise.between
        assert low <= drawn.right <= high
        assert "{" not in drawn.question and drawn.working
        assert drawn.slips
        assert mark(drawn, repr(drawn.right)).mark == "right"
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
    assert figure.found.value == drawn.right and working_words(figure) == drawn.working


@every_exercise
def test_the_page_that_teaches_it_exists(exercise):
    assert (ROOT / "docs" / f"{exercise.teaches}.md").is_file()


@every_exercise
@pytest.mark.parametrize("typed", ["", "about forty", "nan", "1e999", "<b>", "5,000"])
def test_what_is_no_number_is_not_yet(exercise, typed):
    assert mark(draw(exercise, "1"), typed).mark == "not-yet"


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
    drawn = paper(CHAPTERS["steeping"], "7", 12)
    assert len({one.question for one in drawn}) == 12
    assert paper((), "7", 3) == []


def test_the_command_line_prints_paper_and_key(capsys):
    assert cli.main(["exercise", "steeping", "--seed", "7", "--count", "3"]) == 0
    out = capsys.readouterr().out
    assert out.count("Answer: ___") == 3 and "Key: steeping, seed 7" in out and "counts)" in out


@pytest.mark.parametrize(
    "words", [[], ["brewing"], ["steeping", "--count", "0"], ["steeping", "--count", "x"], ["a", "b"]]
)
def test_the_command_line_says_what_to_type(capsys, words):
    assert cli.main(["exercise", *words]) == 2
    streams = capsys.readouterr()
    assert streams.out == "" and "ype" in streams.err
