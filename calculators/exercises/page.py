"""Exercises in a page: the first one at build, fresh ones and their marking in the browser, a paper to print."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any
from xml.etree.ElementTree import Element

from .. import __version__
from ..drawing.elements import add, html
from ..drawing.links import fill
from ..sheets import find_sheet
from . import CHAPTERS, EXERCISES
from .exercise import Draw, Drawn, Exercise, Pick, answer_words, draw, mark, one_of_paper, paper, unit_words
from .own import own_questions, plain, with_own

_MOST_ON_PAPER = 30
_DUE_FIRST = 3
_EXAMPLES = 20
"""So many draws are tried for an example with other numbers."""
FIRST_SEED = "1"
_BUTTONS = (
    ("shown", "Show one worked"),
    ("gaps", "One with steps left out"),
    ("next", "Next question"),
    ("fresh", "Fresh numbers"),
    ("paper", "Print this paper and its key"),
)
_RESULT = re.compile(r"= *-?[\d., ]*\d")


def _tied(text: str) -> str:
    """The text with each number kept on one line with its per cent."""
    return text.replace(" %", "\u00a0%")


def _worked(parent: Element, drawn: Drawn, root: str | None) -> None:
    add(parent, "p", "right-answer", f"Answer: {answer_words(drawn)}.")
    add(parent, "p", "formula", drawn.working)
    exercise = drawn.exercise
    text = f"Taught in [[page:{exercise.teaches}]]; worked by the sheet [[sheet:{exercise.sheet}]]."
    fill(add(parent, "p", "rests-on"), text, root)


def _unit_in_label(drawn: Drawn) -> str:
    unit = unit_words(drawn)
    return f" ({unit})" if unit else ""


def _text_field(parent: Element, box_id: str, label: str, **more: str) -> Element:
    field = add(parent, "div", "field")
    label_element = add(field, "label", text=label, for_=box_id)
    add(add(field, "div", "box"), "input", type="text", inputmode="decimal", id=box_id, **more)
    return label_element


def embed_exercises(chapter: str) -> str:
    """The HTML of a chapter's exercises, with the first one in it.

    Raises
    ------
    ValueError
        When there is no such chapter.
    """
    if chapter not in CHAPTERS:
        raise ValueError(f"There are no exercises “{chapter}”. There are: {', '.join(CHAPTERS)}.")
    first = one_of_paper(CHAPTERS[chapter], FIRST_SEED, 0)
    prefix = f"exercises-{chapter}"
    section = Element(
        "section",
        {
            "class": "exercises",
            "id": prefix,
            "data-chapter": chapter,
            "data-first": first.exercise.id,
            "data-first-seed": first.seed,
            "data-paper": FIRST_SEED,
            "data-ids": " ".join(exercise.id for exercise in CHAPTERS[chapter]),
            "data-search-exclude": "",
            "aria-label": f"Exercises: {chapter}",
        },
    )
    add(section, "p", "exercise-count", f"Paper {FIRST_SEED}, question 1", data_exercise="count")
    add(section, "p", "exercise-question", _tied(first.question), data_exercise="question")
    form = add(section, "form", "exercise-form", novalidate="", autocomplete="off")
    label = _text_field(form, f"{prefix}-answer", "Your answer", name="answer", aria_describedby=f"{prefix}-verdict")
    add(label, "span", "in-unit", _unit_in_label(first), data_exercise="unit")
    add(form, "button", "main-button", "Check", type="submit")
    add(section, "p", "exercise-verdict", id=f"{prefix}-verdict", role="status", data_exercise="verdict")
    working = add(section, "details", "working", data_exercise_working="")
    add(working, "summary", text="The answer, worked out")
    _worked(add(working, "div", data_exercise="working"), first, None)
    add(section, "div", "exercise-example", role="status", data_exercise="example")
    buttons = add(section, "div", "sheet-buttons")
    for action, words in _BUTTONS:
        add(buttons, "button", type="button", text=words, data_action=action)
    choose = add(section, "form", "exercise-choose", novalidate="", autocomplete="off")
    _text_field(choose, f"{prefix}-paper", "Paper number", name="paper", maxlength="6")
    add(choose, "button", type="submit", text="Take this paper")
    if has_own(chapter):
        label = add(section, "label", "exercise-own")
        add(label, "input", type="checkbox", name="own", data_exercise="own")
        add(label, "span", text="With this house’s numbers, where it has said any. All else stays invented.")
    add(section, "p", "exercise-kept", data_exercise="kept")
    add(section, "div", "paper", data_exercise="paper")
    return html(section)


def has_own(chapter: str) -> bool:
    """Whether this house has a number for any exercise of a chapter."""
    return any(
        own_questions(find_sheet(one.sheet), [given.question for given in one.given if isinstance(given, (Draw, Pick))])
        for one in CHAPTERS[chapter]
    )


def _seed_of(asked: dict[str, Any]) -> str:
    seed = str(asked["seed"])[:40]
    return with_own(seed) if asked.get("own") is True else seed


def _drawn_reply(drawn: Drawn, number: int, seed: str, root: str, again: bool) -> dict[str, Any]:
    working = Element("div")
    _worked(working, drawn, root)
    return {
        "id": drawn.exercise.id,
        "draw_seed": drawn.seed,
        "count": f"Due again, {number + 1}" if again else f"Paper {plain(seed)}, question {number + 1}",
        "question": _tied(drawn.question),
        "unit": _unit_in_label(drawn),
        "working": "".join(html(child) for child in working),
    }


def _next(asked: dict[str, Any]) -> dict[str, Any]:
    """The next question: those that are due again come first, three at most; then the paper from its start."""
    chapter = CHAPTERS[asked["chapter"]]
    seed, number = _seed_of(asked), max(0, min(int(asked["number"]), 999))
    known = [name for name in asked.get("again", []) if name in {e.id for e in chapter}]
    due = list(dict.fromkeys(known))[:_DUE_FIRST]
    if number < len(due):
        return _drawn_reply(draw(EXERCISES[due[number]], f"{seed}.again"), number, seed, asked["root"], True)
    place = number - len(due)
    return _drawn_reply(one_of_paper(chapter, seed, place), place, seed, asked["root"], False)


def with_gaps(working: str) -> str:
    """The working with each result left out, for the learner to fill in."""
    return _RESULT.sub("= ____", working)


def _with_other_numbers(exercise: Exercise, seed: str) -> Drawn:
    """Another draw of an exercise: with few cases the next seed may draw the same, and that would give it away."""
    asked = draw(exercise, seed[:60])
    others = (draw(exercise, f"{seed[:40]}.example{more}") for more in ("", *(f".{n}" for n in range(1, _EXAMPLES))))
    return next((one for one in others if one.question != asked.question), asked)


def _leave_out(box: Element, drawn: Drawn) -> None:
    """The working with its results left out; where it is no sum, what there is to find instead."""
    gaps = with_gaps(drawn.working)
    if gaps != drawn.working:
        add(box, "p", "formula", gaps)
        return
    if drawn.exercise.among:
        add(box, "p", "formula", f"{drawn.working.rstrip('.')}. So: ____")
        add(
            box,
            "p",
            text="This one is decided by rules and is no sum. What decided stands there; the verdict is yours.",
        )
        return
    sheet = find_sheet(drawn.exercise.sheet).title
    add(box, "p", text=f"This one is found by trying and has no steps to leave out. Put these numbers into “{sheet}”.")


def _example(asked: dict[str, Any]) -> dict[str, Any]:
    """Another draw of the same exercise with its working, or with the results of its steps left out."""
    drawn = _with_other_numbers(EXERCISES[asked["id"]], str(asked["draw_seed"]))
    box = Element("div")
    add(box, "p", text=f"With other numbers: {_tied(drawn.question)}")
    if asked.get("gaps"):
        _leave_out(box, drawn)
        more = add(box, "details")
        add(more, "summary", text="The steps filled in")
        add(more, "p", "formula", f"{drawn.working}. Answer: {answer_words(drawn)}.")
    else:
        add(box, "p", "formula", drawn.working)
        add(box, "p", "right-answer", f"Answer: {answer_words(drawn)}.")
    return {"example": "".join(html(child) for child in box)}


def _paper(asked: dict[str, Any]) -> dict[str, Any]:
    seed = _seed_of(asked)
    count = max(1, min(int(asked.get("count", 10)), _MOST_ON_PAPER))
    drawn = paper(CHAPTERS[asked["chapter"]], seed, count)
    box = Element("div")
    called = plain(seed) if plain(seed) == seed else f"{plain(seed)}, with this house’s numbers"
    add(box, "h2", text=f"Exercises: {asked['chapter']}, paper {called}")
    whose = "All numbers are" if plain(seed) == seed else "All that names no thing of this house is"
    add(box, "p", "card-line", f"Name: {'_' * 24}   Date: {'_' * 12}   {whose} invented.")
    questions = add(box, "ol", "paper-questions")
    for one in drawn:
        line = add(questions, "li")
        add(line, "p", text=_tied(one.question))
        add(line, "p", "paper-room", f"Answer: {'_' * 16} {unit_words(one)}")
    add(box, "h2", "paper-key", f"Key to paper {called}: {asked['chapter']}")
    key = add(box, "ol")
    for one in drawn:
        line = add(key, "li")
        add(line, "p", text=f"{answer_words(one)}. {one.working}")
    add(box, "p", "card-line", f"Version {__version__}. The same paper number gives the same paper everywhere.")
    return {"paper": "".join(html(child) for child in box)}


def _mark(asked: dict[str, Any]) -> dict[str, Any]:
    marked = mark(draw(EXERCISES[asked["id"]], str(asked["draw_seed"])[:60]), str(asked["typed"]))
    return {"mark": marked.mark, "text": marked.text, "slip": marked.slip}


_WORK: dict[str, Callable[[dict[str, Any]], dict[str, Any]]] = {
    "next": _next,
    "mark": _mark,
    "paper": _paper,
    "example": _example,
}


def respond(asked: dict[str, Any]) -> str:
    """Answer one request about exercises.

    Parameters
    ----------
    asked : dict
        ``exercise``: next, mark, example or paper; ``chapter``, ``seed``, ``number``, ``again``, ``root``, or
        ``id``, ``draw_seed`` and ``typed`` to be marked.

    Returns
    -------
    str
        JSON for the page script; or ``needs``, the packages that must be there first.
    """
    try:
        return json.dumps(_WORK[asked["exercise"]](asked))
    except ModuleNotFoundError as missing:
        # Most exercises need no package, so the page brings one only when a draw turns out to want it.
        return json.dumps({"needs": [missing.name]})
