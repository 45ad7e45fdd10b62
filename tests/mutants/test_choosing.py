"""By which tests a change is tried, whether they see it, and what is explained."""

import importlib
from functools import cache
from pathlib import Path

import pytest

from tests.mutants.changes import Mutant, mutants
from tests.mutants.choosing import chosen_for, runs_when_read_in, steps
from tests.mutants.explained import Explained, explained, of_nothing
from tests.mutants.runs import ROOT, Reached, Trial, read_in_already, seen, seen_at_once

LIMITS = "calculators/rules/limits/steeping.py"
SPRINKLING = "calculators/models/weights/sprinkling.py"
ROUNDS = "tests/models/weights/test_rounds_of_water.py"


def one(path: str, function: str, old: str, new: str) -> Mutant:
    return next(m for m in mutants(ROOT / path, ROOT) if (m.function, m.old, m.new) == (function, old, new))


def test_each_explanation_fits_something_and_says_why() -> None:
    assert of_nothing(ROOT) == []
    there = cache(lambda file: mutants(ROOT / file, ROOT))
    for every in explained():
        assert len(every.reason) > 20
        assert sum(every.fits(m) for m in there(every.file)) <= 2, "it explains more than one spot"


def test_an_explanation_is_for_its_words_in_its_function_alone() -> None:
    mutant = Mutant("a.py", "f", 3, "1", "2", 0, (3, 3), True, "x = 1")
    assert Explained("a.py", "f", "1", "2", "").fits(mutant) and Explained("a.py", "f", "1", "", "").fits(mutant)
    for other in (("b.py", "f", "1", "2"), ("a.py", "g", "1", "2"), ("a.py", "f", "3", "2"), ("a.py", "f", "1", "3")):
        assert not Explained(*other, "").fits(mutant)
    assert Explained("a.py", "f", "1", "", "", "x = 1").fits(mutant)
    assert not Explained("a.py", "f", "1", "", "", "y = 1").fits(mutant)


def test_a_file_of_data_is_tried_by_each_test_that_reads_it_in() -> None:
    """One of them happens to be the first to read it in, and was once the only one chosen."""
    mutant = next(m for m in mutants(ROOT / LIMITS, ROOT))
    ways = {
        "tests/rules/test_table_of_limits.py": Reached({LIMITS: [1]}, {"a": (0.1, {}), "b": (0.2, {})}),
        "tests/rules/test_steep_order.py": Reached({}, {"c": (0.1, {LIMITS: [1, mutant.line]}), "d": (0.1, {})}),
        "tests/models/test_limits.py": Reached({}, {"e": (0.1, {})}),
    }
    assert set(chosen_for(mutant, ways)) == {"a", "b", "c", "d"}
    assert runs_when_read_in(mutant, ways)


def test_a_change_in_a_function_is_tried_by_the_tests_that_run_its_line() -> None:
    mutant = one(SPRINKLING, "water_needed", "kept * 100.0", "kept / 100.0")
    ways = {
        ROUNDS: Reached({SPRINKLING: [1]}, {"a": (0.1, {SPRINKLING: [mutant.line]}), "b": (0.1, {SPRINKLING: [1]})})
    }
    assert set(chosen_for(mutant, ways)) == {"a"} and not runs_when_read_in(mutant, ways)
    ways["tests/x.py"] = Reached({SPRINKLING: [mutant.line]}, {})
    assert runs_when_read_in(mutant, ways)


def test_what_runs_behind_a_long_loop_is_tried_by_the_tests_of_its_function() -> None:
    mutant = one(SPRINKLING, "water_needed", "kept * 100.0", "kept / 100.0")
    first, last = mutant.body
    assert first < mutant.line <= last
    ways = {ROUNDS: Reached({}, {"a": (0.1, {SPRINKLING: [first + 1]}), "b": (0.1, {SPRINKLING: [last + 1]})})}
    assert set(chosen_for(mutant, ways)) == {"a"}


def test_steps_of_import_are_counted() -> None:
    assert steps(ROUNDS, SPRINKLING) == 1
    assert steps(ROUNDS, "calculators/models/weights/basket.py") == 2
    assert steps(ROUNDS, LIMITS) == 3


def test_a_wrong_sum_is_seen_in_both_ways_and_a_right_one_in_neither(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A test file that was read in before, as in a run of all tests, must not hide the change."""
    monkeypatch.syspath_prepend((ROOT / ROUNDS).parent)
    importlib.import_module(Path(ROUNDS).stem)
    assert {Path(ROUNDS).stem, "tests", "calculators.models.weights.sprinkling"} <= set(read_in_already())
    assert not {"tests.mutants", "tests.mutants.runs", "pytest"} & set(read_in_already())
    tests = {f"{ROUNDS}::test_both_ends_of_the_limits": 0.1, f"{ROUNDS}::test_no_water_is_one_round_of_none": 0.1}
    wrong = one(SPRINKLING, "water_needed", "kept * 100.0", "kept / 100.0")
    elsewhere = one(SPRINKLING, "", "3.0", "3.1")  # none of these tests knows of it
    trials = [Trial(SPRINKLING, m.which, tests) for m in (wrong, elsewhere)]
    assert list(seen_at_once(trials, tmp_path / "quick")) == [True, False]
    assert [seen(trial, tmp_path / "slow") for trial in trials] == [True, False]
