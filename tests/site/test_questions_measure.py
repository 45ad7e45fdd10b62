"""What the bank of cases measures: somebody who guesses by the look of the choices learns nothing from it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator

import pytest

from bench.case_readers import READERS
from bench.case_readers import scored as reader_score
from site_src.questions import Case, asked, cases, chapters, files

ALL = [(chapter, case) for chapter in chapters() for case in cases(chapter)]
ASKED = [one for _, case in ALL for one in asked(case)]
OVER_CHANCE = 0.10
MOST_LINES = 400  # of one file; a chapter of several matters is a folder
# Words by which a choice sounds careful, whatever it says.
CAREFUL = re.compile(
    r"\b(ask|tell|told|waits?|check|again|shift lead|competent|permit|leave|first|if|until|count more|may|stop)\b",
    re.IGNORECASE,
)
PROCESS = ("procedures/", "calculators/")

Guess = Callable[[Case], list[float]]


def careful(case: Case) -> list[float]:
    return [float(len(CAREFUL.findall(choice.says))) for choice in case.choices]


def long(case: Case) -> list[float]:
    return [float(len(choice.says)) for choice in case.choices]


def middling(case: Case) -> list[float]:
    lengths = long(case)
    middle = sorted(lengths)[len(lengths) // 2]
    return [-abs(length - middle) for length in lengths]


GUESSES: dict[str, Guess] = {
    "longest": long,
    "shortest": lambda case: [-length for length in long(case)],
    "neither longest nor shortest": middling,
    "most careful": careful,
    "least careful": lambda case: [-words for words in careful(case)],
    "first": lambda case: [-float(at) for at in range(len(case.choices))],
    "last": lambda case: [float(at) for at in range(len(case.choices))],
}


def scored(guess: Guess) -> float:
    """The share of questions that somebody gets right who always takes what the guess likes best."""
    total = 0.0
    for case in ASKED:
        liked = guess(case)
        best = [at for at, value in enumerate(liked) if value == max(liked)]
        total += [choice.right for choice in case.choices].index(True) in best and 1 / len(best)
    return total / len(ASKED)


CHANCE = sum(1 / len(case.choices) for case in ASKED) / len(ASKED)


@pytest.mark.parametrize("guess", GUESSES)
def test_a_guesser_wins_no_more_than_chance_and_ten_points(guess):
    assert scored(GUESSES[guess]) <= CHANCE + OVER_CHANCE, f"{guess}: {scored(GUESSES[guess]):.3f}"


def test_whoever_has_the_page_open_beats_whoever_has_another_one():
    """By likeness of words alone: the least that reading can do. No guesser comes near it."""
    open_at = reader_score(READERS["page open at the section"])
    assert open_at >= CHANCE + 0.25
    assert reader_score(READERS["a wrong page open"]) <= CHANCE + OVER_CHANCE
    assert max(scored(guess) for guess in GUESSES.values()) <= open_at - 0.2


@pytest.mark.parametrize("case", ASKED, ids=lambda case: case.id)
def test_choices_are_alike_in_length(case):
    assert max(long(case)) <= 2.1 * min(long(case))


@pytest.mark.parametrize("case", ASKED, ids=lambda case: case.id)
def test_there_are_choices_enough_and_a_reason_for_each(case):
    assert len(case.choices) >= 3
    assert len({choice.why for choice in case.choices}) == len({c.says for c in case.choices}) == len(case.choices)
    assert all(choice.why.strip() != choice.says.strip() for choice in case.choices)


def test_carrying_on_is_right_in_a_third_of_the_process_cases():
    process = [case for _, case in ALL if case.page.startswith(PROCESS)]
    normal = [case for case in process if case.normal]
    assert len(normal) >= len(process) / 3
    # One who always steps in, or always lets it run, does badly at both.
    assert len(normal) <= len(process) / 2


def test_nothing_that_can_kill_is_a_case_where_carrying_on_is_all():
    for chapter, case in ALL:
        assert not (case.normal and chapter == "gas-and-vessels")
        assert not case.normal or case.page.startswith(PROCESS)


def test_there_are_tables_trends_drawings_and_answers_that_differ_in_quality():
    def count(has: Callable[[Case], object]) -> int:
        return sum(any(has(one) for one in asked(case)) for _, case in ALL)

    assert count(lambda one: one.rows) >= 15
    assert count(lambda one: one.drawing) >= 15
    assert count(lambda one: any(choice.safe for choice in one.choices)) >= 12


def ways(case: Case) -> Iterator[tuple[str, ...]]:
    """Every way through a chain, by the ids of its steps."""
    steps = {step.id: step for step in case.steps}

    def onward(step: Case, way: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
        for choice in step.choices:
            if choice.then:
                yield from onward(steps[choice.then], (*way, choice.then))
            else:
                yield way

    return onward(case, (case.id,))


CHAINS = [case for _, case in ALL if case.steps]


def test_there_are_chains_in_which_the_next_step_depends_on_the_choice():
    assert len(CHAINS) >= 10
    parting = [case for case in CHAINS if any(len({c.then for c in one.choices if c.then}) > 1 for one in asked(case))]
    assert len(parting) >= 5


@pytest.mark.parametrize("case", CHAINS, ids=lambda case: case.id)
def test_a_chain_has_three_to_five_steps_for_one_who_chooses_right(case):
    steps = {step.id: step for step in case.steps}
    way, now = 1, case
    while then := next(choice.then for choice in now.choices if choice.right):
        now, way = steps[then], way + 1
    assert 3 <= way <= 5 and max(map(len, ways(case))) <= 5


def test_what_can_kill_is_said_to_in_every_chapter_about_it():
    deadly = [
        (chapter, choice) for chapter, case in ALL for one in asked(case) for choice in one.choices if choice.deadly
    ]
    assert len(deadly) >= 90
    gas = [case for chapter, case in ALL if chapter == "gas-and-vessels"]
    assert all(any(choice.deadly for choice in case.choices) for case in gas)
    assert all(not choice.right and not choice.safe for _, choice in deadly)


def test_files_are_read_whole():
    for chapter in chapters():
        read = [tomllib.loads(path.read_text("utf-8"))["question"] for path in files(chapter)]
        raw = [one for part in read for one in part]
        assert all(len(path.read_text("utf-8").splitlines()) <= MOST_LINES for path in files(chapter))
        assert sum(1 + len(one.get("step", ())) for one in raw) == sum(len(asked(case)) for case in cases(chapter))
