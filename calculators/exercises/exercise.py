"""Exercises drawn from the sheets: fresh numbers from a seed, one answer, and slips that are computed.

An exercise names a sheet, which questions are given and from which realistic range, which answer is
asked, the story around it, and how near counts. The answer and its worked solution come from the working
of the sheet. A slip is what a known mistake would give, worked out by the same sheet or by a formula, so
that a learner who makes it is told which one it was.

The same seed gives the same paper everywhere: numbers lie on grids and are drawn with ``random.Random``
seeded by text, which is the same on every machine.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from decimal import ROUND_HALF_UP, Decimal
from random import Random
from typing import Literal, NamedTuple

from ..asking.answer import Answered, Joined, answer
from ..asking.declare import Number, Outcome, Sheet
from ..asking.figures import fixed, plain_number
from ..asking.reading import Raw, read, tidy
from ..asking.units import UNITS
from ..drawing.results import typed_words, working_words
from ..sheets import find_sheet
from . import own

Mark = Literal["right", "near", "not-yet", "unread"]
"""``unread`` is no try: nothing was said of the sum."""
_MOST_TRIES = 200
_MOST_QUOTED = 30
_NO_TRY = "This does not count as a try."
_OWN_TRIES = 8
"""With numbers of a house: where they do not fit the exercise, it goes on without."""


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


class Made(NamedTuple):
    """Texts for several questions that belong together, such as the corns of four dishes, made afresh each time."""

    questions: tuple[str, ...]
    make: Callable[[Random], tuple[str, ...]]


class Beside(NamedTuple):
    """A number that stands in the story and that the answer does not need; ``said`` holds it in braces as ``{}``."""

    name: str
    low: float
    high: float
    step: float
    said: str


class Case(NamedTuple):
    """An exercise with its numbers: what was typed for the sheet, and what the sheet gave, in figures and in words."""

    typed: dict[str, str]
    values: dict[str, float]
    answers: dict[str, float]
    words: dict[str, str]


class Slip(NamedTuple):
    """A known mistake: what to say, and how its result comes about.

    Either the sheet is asked again with questions ``changed`` (and ``instead`` of the asked answer
    another one is taken), or ``formula`` works on the case. A result of None means that the slip
    makes no sense for these numbers. Numbers by which a slip cannot be told from the answer are drawn
    again, unless it need not be there ``always``.
    """

    id: str
    says: str
    changed: tuple[tuple[str, str], ...] = ()
    instead: str = ""
    formula: Callable[[Case], float | None] | None = None
    always: bool = True


class Exercise(NamedTuple):
    """What a learner is asked; ``story`` names questions in braces.

    ``near`` is how far off still counts as right, in the unit of the answer; ``between`` are the answers
    that are realistic, others are drawn again; ``teaches`` is the page that teaches it. With ``among`` the answer
    is a word of the sheet, and the learner gives its place in that list. With ``edge`` the end of the answer's interval
    is asked. ``sum`` works the answer out from the case where no sheet answers it: figure, unit, decimals, working.
    ``also`` is what the formula of the page gives where the sheet goes a longer way: it counts as right too.
    """

    id: str
    chapter: str
    sheet: str
    given: tuple[Draw | Pick | Made | Beside, ...]
    asked: str
    story: str
    near: float
    slips: tuple[Slip, ...]
    teaches: str
    between: tuple[float, float] = (0.0, 1e9)
    among: tuple[str, ...] = ()
    edge: Literal["", "low", "high"] = ""
    sum: Callable[[Case], tuple[float, str, int, str] | None] | None = None
    also: Callable[[Case], float] | None = None


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
    own: own.Own = own.NONE


class Marked(NamedTuple):
    """What a learner's answer was worth, what to say, and the id of the slip that explains it."""

    mark: Mark
    text: str
    slip: str = ""


def _on_grid(draw: Draw | Beside, random: Random) -> str:
    steps = round((draw.high - draw.low) / draw.step)
    return plain_number(round(draw.low + draw.step * random.randint(0, steps), 9))


class _Right(NamedTuple):
    """What the sheet gives for the answer asked."""

    value: float
    joined: Joined
    result: Answered


def _asked(exercise: Exercise, sheet: Sheet, typed: dict[str, str], answer_id: str = "") -> _Right | None:
    raw: dict[str, Raw] = {**typed}
    result = answer(sheet, raw)
    if not isinstance(result, Answered) or not isinstance(result.outcome, Outcome):
        return None
    wanted = answer_id or exercise.asked
    for joined in result.figures:
        if joined.one.id == wanted:
            value = joined.found.value if answer_id else _figure(exercise, joined)
            return _Right(float(value), joined, result) if isinstance(value, (int, float)) else None
    return None


def _figure(exercise: Exercise, joined: Joined) -> object:
    """The figure that is asked: a place among words, an end of the interval, or the value."""
    found = joined.found
    if exercise.among:
        return place_among(exercise, found.value)
    return {"": found.value, "low": found.low, "high": found.high}[exercise.edge]


def place_among(exercise: Exercise, word: object) -> float | None:
    """The place of a word among those that an exercise gives to choose from, from 1; None for another word."""
    return float(exercise.among.index(str(word)) + 1) if word in exercise.among else None


def _case(typed: dict[str, str], result: Answered) -> Case:
    assert isinstance(result.outcome, Outcome)
    values = {k: v for k, v in result.values.items() if isinstance(v, float)}
    answers = {
        found.id: float(found.value) for found in result.outcome.answers if isinstance(found.value, (int, float))
    }
    words = {found.id: found.value for found in result.outcome.answers if isinstance(found.value, str)}
    return Case(typed, values, answers, words)


def _slip_result(exercise: Exercise, slip: Slip, case: Case, sheet: Sheet) -> float | None:
    if slip.formula is not None:
        return slip.formula(case)
    asked = _asked(exercise, sheet, {**case.typed, **dict(slip.changed)}, slip.instead)
    return None if asked is None else asked.value


def _story(exercise: Exercise, sheet: Sheet, result: Answered, beside: dict[str, str]) -> str:
    words = {
        question.id: typed_words(question, result.values[question.id])
        for question in sheet.questions
        if result.values[question.id] is not None
    }
    return exercise.story.format_map({**words, **beside}) + _to_choose_from(exercise, sheet)


def _to_choose_from(exercise: Exercise, sheet: Sheet) -> str:
    if not exercise.among:
        return ""
    said = verdict_words(exercise, sheet)
    return " Answer with its number: " + "; ".join(f"{at} {words}" for at, words in enumerate(said, 1)) + "."


def verdict_words(exercise: Exercise, sheet: Sheet) -> list[str]:
    """What the words to choose from are called by the sheet."""
    (asked,) = (one for one in sheet.answers if one.id == exercise.asked)
    called = {option.word: option.label.rstrip(".") for option in asked.words}
    return [called[word] for word in exercise.among]


def _typed(exercise: Exercise, random: Random) -> tuple[dict[str, str], dict[str, str]]:
    """What is typed into the sheet, and what stands beside it in the story."""
    typed: dict[str, str] = {}
    beside: dict[str, str] = {}
    for one in exercise.given:
        if isinstance(one, Made):
            typed.update(zip(one.questions, one.make(random), strict=True))
        elif isinstance(one, Beside):
            beside[one.name] = one.said.format(_on_grid(one, random))
        else:
            typed[one.question] = _on_grid(one, random) if isinstance(one, Draw) else random.choice(one.texts)
    return typed, beside


def _told_apart(exercise: Exercise, right: set[float], results: list[tuple[Slip, float]]) -> list[tuple[Slip, float]]:
    """The slips that these numbers tell from the answer, as it is and as it is shown, and from each other."""
    apart: list[tuple[Slip, float]] = []
    for slip, value in results:
        if all(abs(value - other) > 2 * exercise.near for other in (*right, *(v for _, v in apart))):
            apart.append((slip, value))
    return apart


def draw(exercise: Exercise, seed: str) -> Drawn:
    """An exercise with numbers drawn from a seed.

    Parameters
    ----------
    exercise : Exercise
        What is asked.
    seed : str
        Any text; the same text gives the same numbers on every machine. With the mark of ``own.with_own`` this
        house's numbers stand in place of drawn ones, where it has any and they fit.

    Raises
    ------
    ValueError
        When no numbers fit within two hundred tries: a fault of the exercise.
    """
    sheet = find_sheet(exercise.sheet)
    drawn_alone = [one.question for one in exercise.given if isinstance(one, (Draw, Pick))]
    for mine in own.own_values(sheet, drawn_alone, seed):
        try:
            found = _drawn(exercise, sheet, seed, mine)
        except (ArithmeticError, LookupError, ValueError):  # a slip makes no sense for a house’s numbers
            if not mine.typed:
                raise
            continue
        if found is not None:
            return found
    raise ValueError(f"{exercise.id}: no numbers fit for the seed {seed!r}")


def _drawn(exercise: Exercise, sheet: Sheet, seed: str, mine: own.Own) -> Drawn | None:
    random = Random(f"{exercise.id} {own.plain(seed)}")
    for _ in range(_OWN_TRIES if mine.typed else _MOST_TRIES):
        typed, beside = _typed(exercise, random)
        typed.update(mine.typed)
        asked = _asked(exercise, sheet, typed)
        if asked is None:
            continue
        case = _case(typed, asked.result)
        right, unit, decimals, working = _found(exercise, asked, case)
        one = _as_large(exercise, mine, unit, decimals)
        if not one.between[0] <= right <= one.between[1]:
            continue
        results = [(slip, value) for slip in one.slips if (value := _slip_result(one, slip, case, sheet)) is not None]
        slips = _told_apart(one, {right, float(fixed(right, decimals))}, results)
        if not slips or any(slip.always and (slip, value) not in slips for slip, value in results):
            continue
        question = _story(one, sheet, asked.result, beside) + own.said(mine)
        return Drawn(one, seed, case, question, right, unit, decimals, working, tuple(slips), mine)
    return None


def _as_large(exercise: Exercise, mine: own.Own, unit: str, decimals: int) -> Exercise:
    """The exercise with what is near, and what can be, as large as the charge of a house makes its answer."""
    draws = (one for one in exercise.given if isinstance(one, Draw))
    grown = math.prod(own.grown(mine, one.question, one.low, one.high, unit) for one in draws)
    if grown == 1.0:
        return exercise
    near = max(float(f"{exercise.near * grown:.1g}"), 10.0**-decimals)
    low, high = exercise.between
    return exercise._replace(near=near, between=(low * grown, high * grown))


def _found(exercise: Exercise, asked: _Right, case: Case) -> tuple[float, str, int, str]:
    worked = exercise.sum(case) if exercise.sum is not None else None
    if worked is not None:
        return worked
    unit = "" if exercise.among else asked.joined.one.unit
    return asked.value, unit, 0 if exercise.among else asked.joined.decimals, working_words(asked.joined)


def answer_words(drawn: Drawn) -> str:
    """The right answer as shown, with its unit and how near counts."""
    if drawn.exercise.among:
        said = verdict_words(drawn.exercise, find_sheet(drawn.exercise.sheet))[round(drawn.right) - 1]
        return f"{round(drawn.right)}, {said}"
    unit = unit_words(drawn)
    right = _half_up(drawn.right, drawn.decimals) + (f" {unit}" if unit else "")
    also = drawn.exercise.also(drawn.case) if drawn.exercise.also else drawn.right
    by_formula = f"; by the page’s formula alone {plain_number(also)}, right too" if also != drawn.right else ""
    return f"{right} (right to within {plain_number(drawn.exercise.near)}{by_formula})"


def _half_up(value: float, decimals: int) -> str:
    """A figure rounded as one rounds by hand, a half away from zero: 262.5 is 263."""
    exact = Decimal(fixed(value, max(decimals, 0) + 8))
    return fixed(float(exact.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)), decimals)


def unit_words(drawn: Drawn) -> str:
    """The unit of the answer as shown; blank for a pure number."""
    known = UNITS.get(drawn.unit)
    return known.show if known else drawn.unit


def mark(drawn: Drawn, typed: str) -> Marked:
    """Mark what a learner typed.

    Returns
    -------
    Marked
        Right; near, with the slip that explains it; not yet, with what to do; or unread, with what to type instead.
    """
    value = _number_read(drawn, typed)
    if isinstance(value, Marked):
        return value
    shown = float(fixed(drawn.right, drawn.decimals))  # who reads a rounded figure off the sheet is right as well
    also = drawn.exercise.also(drawn.case) if drawn.exercise.also else shown
    if min(abs(value - right) for right in (drawn.right, shown, also)) <= drawn.exercise.near + 1e-9:
        return Marked("right", f"Right: {answer_words(drawn)}.")
    for slip, result in drawn.slips:
        if abs(value - result) <= drawn.exercise.near + 1e-9:
            return Marked("near", f"Near. {slip.says}", slip.id)
    if drawn.unit == "%" and value and abs(100 * value - drawn.right) <= drawn.exercise.near + 1e-9:
        share, per_cent = plain_number(value), plain_number(round(100 * value, 9))
        return Marked("near", f"Near. {share} is the share of 1. In per cent it is 100 times as much: {per_cent} %.")
    return Marked("not-yet", "Not yet. Try once more, or look at the working.")


def _number_read(drawn: Drawn, typed: str) -> float | Marked:
    """The number that was typed, in the unit of the answer, or what to type instead."""
    word = place_among(drawn.exercise, typed.strip().lower().replace(" ", "-"))
    if word is not None:
        return word
    span = max(1e3, abs(drawn.right) * 1e4)
    box = Number("answer", "Your answer", drawn.unit if drawn.unit in UNITS else "", -span, span)
    value, problems = read(box, typed)
    choices = len(drawn.exercise.among)
    if choices:
        if isinstance(value, float) and value in range(1, choices + 1):
            return value
        asked = f"Type a number from 1 to {choices}."
        return Marked("unread", f"{_quoted(typed)} is none of the choices. {asked} {_NO_TRY}")
    if isinstance(value, float) and not problems:
        return value
    if problems and "whichever you mean" in problems[0].text:
        return Marked("unread", f"{problems[0].text} {_NO_TRY}")
    wanted = f"a number in {unit_words(drawn)}" if drawn.unit else "a number"
    asked = f"Type {wanted}, with a point or a comma for the decimals."
    return Marked("unread", f"{_quoted(typed)} cannot be read as an answer. {asked} {_NO_TRY}")


def _quoted(typed: str) -> str:
    text = tidy(typed)
    return f"“{text}”" if len(text) <= _MOST_QUOTED else f"“{text[: _MOST_QUOTED - 1]}…”"


def one_of_paper(exercises: Sequence[Exercise], seed: str, number: int) -> Drawn:
    """The question with this number, from 0, of the paper with this seed."""
    order = list(exercises)
    Random(f"order {own.plain(seed)}").shuffle(order)
    return draw(order[number % len(order)], f"{seed}.{number // len(order)}")


def paper(exercises: Sequence[Exercise], seed: str, count: int) -> list[Drawn]:
    """A paper of ``count`` exercises: each in turn, then again with other numbers."""
    return [one_of_paper(exercises, seed, number) for number in range(count)] if exercises else []
