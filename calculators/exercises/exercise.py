"""Exercises drawn from the sheets: fresh numbers from a seed, one answer, and slips that are computed.

An exercise names a sheet, which questions are given and from which realistic range, which answer is
asked, the story around it, and how near counts. The answer and its worked solution come from the working
of the sheet. A slip is what a known mistake would give, worked out by the same sheet or by a formula, so
that a learner who makes it is told which one it was.

The same seed gives the same paper everywhere: numbers lie on grids and are drawn with ``random.Random``
seeded by text, which is the same on every machine.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from random import Random
from typing import Literal, NamedTuple

from ..asking.answer import Answered, Joined, answer
from ..asking.declare import Number, Outcome, Sheet
from ..asking.figures import fixed, plain_number
from ..asking.reading import Raw, read
from ..asking.units import UNITS
from ..drawing.results import typed_words, working_words
from ..sheets import find_sheet

Mark = Literal["right", "near", "not-yet"]
_MOST_TRIES = 200


class Draw(NamedTuple):
    """A number drawn from ``low`` to ``high`` on a grid of ``step``."""

    question: str
    low: float
    high: float
    step: float


class Pick(NamedTuple):
    """One of several texts, as a person would type them."""

    question: str
    texts: tuple[str, ...]


class Case(NamedTuple):
    """An exercise with its numbers: what was typed for the sheet, and what the sheet gave."""

    typed: dict[str, str]
    values: dict[str, float]
    answers: dict[str, float]


class Slip(NamedTuple):
    """A known mistake: what to say, and how its result comes about.

    Either the sheet is asked again with questions ``changed`` (and ``instead`` of the asked answer
    another one is taken), or ``formula`` works on the case. A result of None means that the slip
    makes no sense for these numbers.
    """

    id: str
    says: str
    changed: tuple[tuple[str, str], ...] = ()
    instead: str = ""
    formula: Callable[[Case], float | None] | None = None


class Exercise(NamedTuple):
    """What a learner is asked; ``story`` names questions in braces.

    ``near`` is how far off still counts as right, in the unit of the answer; ``between`` are the answers
    that are realistic, others are drawn again; ``teaches`` is the page that teaches it.
    """

    id: str
    chapter: str
    sheet: str
    given: tuple[Draw | Pick, ...]
    asked: str
    story: str
    near: float
    slips: tuple[Slip, ...]
    teaches: str
    between: tuple[float, float] = (0.0, 1e9)


class Drawn(NamedTuple):
    """An exercise with its numbers, its answer, the worked solution and the results of its slips."""

    exercise: Exercise
    seed: str
    case: Case
    question: str
    right: float
    unit: str
    decimals: int
    working: str
    slips: tuple[tuple[Slip, float], ...]


class Marked(NamedTuple):
    """What a learner's answer was worth, and what to say."""

    mark: Mark
    text: str


def _on_grid(draw: Draw, random: Random) -> str:
    steps = round((draw.high - draw.low) / draw.step)
    return plain_number(round(draw.low + draw.step * random.randint(0, steps), 9))


def _asked(sheet: Sheet, typed: dict[str, str], answer_id: str) -> tuple[float, Joined, Answered] | None:
    raw: dict[str, Raw] = {**typed}
    result = answer(sheet, raw)
    if not isinstance(result, Answered) or not isinstance(result.outcome, Outcome):
        return None
    for joined in result.figures:
        if joined.one.id == answer_id and isinstance(joined.found.value, (int, float)):
            return float(joined.found.value), joined, result
    return None


def _case(typed: dict[str, str], result: Answered) -> Case:
    assert isinstance(result.outcome, Outcome)
    values = {k: v for k, v in result.values.items() if isinstance(v, float)}
    answers = {
        found.id: float(found.value) for found in result.outcome.answers if isinstance(found.value, (int, float))
    }
    return Case(typed, values, answers)


def _slip_result(exercise: Exercise, slip: Slip, case: Case, sheet: Sheet) -> float | None:
    if slip.formula is not None:
        return slip.formula(case)
    asked = _asked(sheet, {**case.typed, **dict(slip.changed)}, slip.instead or exercise.asked)
    return None if asked is None else asked[0]


def _story(exercise: Exercise, sheet: Sheet, result: Answered) -> str:
    words = {
        question.id: typed_words(question, result.values[question.id])
        for question in sheet.questions
        if result.values[question.id] is not None
    }
    return exercise.story.format_map(words)


def draw(exercise: Exercise, seed: str) -> Drawn:
    """An exercise with numbers drawn from a seed.

    Parameters
    ----------
    exercise : Exercise
        What is asked.
    seed : str
        Any text; the same text gives the same numbers on every machine.

    Raises
    ------
    ValueError
        When no numbers fit within two hundred tries: a fault of the exercise.
    """
    sheet = find_sheet(exercise.sheet)
    random = Random(f"{exercise.id} {seed}")
    for _ in range(_MOST_TRIES):
        typed = {
            one.question: _on_grid(one, random) if isinstance(one, Draw) else random.choice(one.texts)
            for one in exercise.given
        }
        asked = _asked(sheet, typed, exercise.asked)
        if asked is None:
            continue
        right, joined, result = asked
        case = _case(typed, result)
        results = [(slip, _slip_result(exercise, slip, case, sheet)) for slip in exercise.slips]
        slips = tuple((slip, value) for slip, value in results if value is not None)
        if not exercise.between[0] <= right <= exercise.between[1] or _too_close(
            [right, *(value for _, value in slips)], 2 * exercise.near
        ):
            continue
        question = _story(exercise, sheet, result)
        unit, working = joined.one.unit, working_words(joined)
        return Drawn(exercise, seed, case, question, right, unit, joined.decimals, working, slips)
    raise ValueError(f"{exercise.id}: no numbers fit for the seed {seed!r}")


def _too_close(results: list[float], near: float) -> bool:
    """Whether two of these could be taken for each other."""
    ordered = sorted(results)
    return any(b - a <= near for a, b in pairwise(ordered))


def answer_words(drawn: Drawn) -> str:
    """The right answer as shown, with its unit and how near counts."""
    unit = unit_words(drawn)
    right = fixed(drawn.right, drawn.decimals) + (f" {unit}" if unit else "")
    return f"{right} (within {plain_number(drawn.exercise.near)} counts)"


def unit_words(drawn: Drawn) -> str:
    """The unit of the answer as shown; blank for a pure number."""
    known = UNITS.get(drawn.unit)
    return known.show if known else drawn.unit


def mark(drawn: Drawn, typed: str) -> Marked:
    """Mark what a learner typed.

    Returns
    -------
    Marked
        Right; near, with the slip that explains it; or not yet, with what to do.
    """
    span = max(1e3, abs(drawn.right) * 1e4)
    unit = drawn.unit if drawn.unit in UNITS else ""
    box = Number("answer", "Your answer", unit, -span, span, example=fixed(drawn.right, drawn.decimals))
    value, problems = read(box, typed)
    if problems or not isinstance(value, float):
        wanted = f"a number in {unit_words(drawn)}" if drawn.unit else "a number"
        return Marked("not-yet", f"Type {wanted}, with a point or a comma for the decimals.")
    if abs(value - drawn.right) <= drawn.exercise.near + 1e-9:
        return Marked("right", f"Right: {answer_words(drawn)}.")
    for slip, result in drawn.slips:
        if abs(value - result) <= drawn.exercise.near + 1e-9:
            return Marked("near", f"Near. {slip.says}")
    return Marked("not-yet", "Not yet. Try once more, or look at the working.")


def one_of_paper(exercises: Sequence[Exercise], seed: str, number: int) -> Drawn:
    """The question with this number, from 0, of the paper with this seed."""
    order = list(exercises)
    Random(f"order {seed}").shuffle(order)
    return draw(order[number % len(order)], f"{seed}.{number // len(order)}")


def paper(exercises: Sequence[Exercise], seed: str, count: int) -> list[Drawn]:
    """A paper of ``count`` exercises: each in turn, then again with other numbers."""
    return [one_of_paper(exercises, seed, number) for number in range(count)] if exercises else []
