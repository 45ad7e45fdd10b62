"""What a session puts before its class: sums for the board, cases, a paper, the tasks of its hand-out, and the key.

Each thing is asked once. The blocks of one page are drawn in their order, so that the key answers all that stood before
it and the hand-out asks what the key holds. How sums are written stands in :mod:`site_src.class_sums`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import count
from typing import NamedTuple
from xml.etree.ElementTree import Element

from calculators.drawing.elements import add, html
from calculators.exercises import CHAPTERS
from calculators.exercises.exercise import Drawn, answer_words, paper, unit_words
from site_src.class_sums import Sum, sums
from site_src.questions import DOCS, WORTH, Case, Choice, cases, drawing_of, figure_of_case, table_of_case

BLANK = "________"


def _reveal(parent: Element, style: str = "") -> tuple[Element, Element]:
    """A place for what is asked, and one for what comes out: the class sees the second after the first."""
    box = add(parent, "div", f"reveal {style}".rstrip())
    return add(box, "div", "asked"), add(box, "div", "comes-out")


def _numbered(parent: Element, number: int | str, text: str) -> None:
    line = add(parent, "p")
    add(line, "strong", text=f"{number}.").tail = f" {text}"


def _outer(style: str) -> Element:
    return Element("div", {"class": style, "data-search-exclude": ""})


def board_html(worked: Sequence[Sum], first: int = 1) -> str:
    """Draw sums for the board, numbered from ``first``, each with what comes out."""
    outer = _outer("class-screens board")
    for number, one in enumerate(worked, first):
        before, after = _reveal(outer)
        _numbered(before, number, one.ask)
        add(after, "p", "right-answer", one.result)
        for found in one.found:
            add(after, "p", "formula", found.working)
        if one.then:
            add(after, "p", text=one.then)
    return html(outer)


def tasks_html(tasks: Iterable[Sum]) -> str:
    """Draw the tasks of a hand-out, with room to write."""
    outer = Element("ol", {"class": "tasks"})
    for one in tasks:
        text = one.ask
        if BLANK not in text:
            blanks = [f"{BLANK} {found.unit}".rstrip() for found in one.found] or [BLANK * 4]
            text += " " + "  ".join(blanks)
        add(outer, "li", text=text)
    return html(outer)


class Paper(NamedTuple):
    """So many questions of a paper of a chapter of the exercises."""

    chapter: str
    number: str
    drawn: tuple[Drawn, ...]


def read_paper(body: str) -> Paper:
    """Read the body of a ``class-paper`` block: chapter, paper number, how many questions.

    Raises
    ------
    ValueError
        When it is not that.
    """
    chapter, number, many = body.split()
    if chapter not in CHAPTERS:
        raise ValueError(f"there are no exercises “{chapter}”. There are: {', '.join(CHAPTERS)}.")
    return Paper(chapter, number, tuple(paper(CHAPTERS[chapter], number, int(many))))


def paper_html(one: Paper) -> str:
    """Draw the questions of a paper, each with its answer worked out."""
    outer = _outer("class-screens class-paper")
    for number, drawn in enumerate(one.drawn, 1):
        before, after = _reveal(outer)
        _numbered(before, number, drawn.question.replace(" %", "\u00a0%"))
        add(before, "p", text=f"Answer: {BLANK} {unit_words(drawn)}".rstrip())
        add(after, "p", "right-answer", answer_words(drawn))
        add(after, "p", "formula", drawn.working)
    return html(outer)


class Chosen(NamedTuple):
    """The cases of a session: the number of the paper whose order their choices have, and the cases."""

    paper: str
    cases: tuple[Case, ...]


def read_cases(body: str) -> Chosen:
    """Read the body of a ``class-cases`` block: chapter, paper number, ids of cases.

    Raises
    ------
    ValueError
        When a case is not there.
    """
    chapter, number, *names = body.split()
    known = {case.id: case for case in cases(chapter)}
    unknown = [name for name in names if name not in known]
    if unknown or not names:
        raise ValueError(f"{chapter} has no case {', '.join(unknown) or '(none is named)'}. It has: {', '.join(known)}")
    return Chosen(number, tuple(known[name] for name in names))


def order_of(number: str, name: str, many: int) -> list[int]:
    """The places of the choices of a case in the order of a paper, as ``training/order.mjs`` draws it."""
    places = list(range(many))
    state = _seed(f"{number} {name}")
    for at in range(many - 1, 0, -1):
        state = (state + 0x6D2B79F5) & 0xFFFFFFFF
        mixed = ((state ^ (state >> 15)) * (state | 1)) & 0xFFFFFFFF
        mixed ^= (mixed + ((mixed ^ (mixed >> 7)) * (mixed | 61) & 0xFFFFFFFF)) & 0xFFFFFFFF
        other = ((mixed ^ (mixed >> 14)) & 0xFFFFFFFF) * (at + 1) // 4294967296
        places[at], places[other] = places[other], places[at]
    return places


def _seed(text: str) -> int:
    made = 2166136261
    for letter in text:
        made = ((made ^ ord(letter)) * 16777619) & 0xFFFFFFFF
    return made


class Asked(NamedTuple):
    """One question of a case: the choice that led to it, and its choices in the order of the paper."""

    question: Case
    after: str
    choices: tuple[Choice, ...]


def asked_in_order(case: Case, number: str) -> list[Asked]:
    """Everything that a case asks, in the order of its page, each once."""
    steps = {step.id: step for step in case.steps}
    found: dict[str, Asked] = {}
    places = count()

    def follow(one: Case, after: str) -> None:
        order = order_of(number, f"{case.id} {next(places)}", len(one.choices))
        found.setdefault(one.id, Asked(one, after, tuple(one.choices[at] for at in order)))
        for choice in one.choices:
            if choice.then:
                follow(steps[choice.then], choice.says)

    follow(case, "")
    return list(found.values())


def cases_html(chosen: Chosen) -> str:
    """Draw cases for a class: what one sees and the choices, then each choice with its reason."""
    outer = _outer("class-screens class-cases")
    for number, case in enumerate(chosen.cases, 1):
        for place, one in enumerate(asked_in_order(case, chosen.paper)):
            _case(outer, one, f"class-{case.id}-{place}", f"{number}" + (f", step {place + 1}" if case.steps else ""))
    return html(outer)


def _case(outer: Element, one: Asked, name: str, number: str) -> None:
    before, after = _reveal(outer, "class-case")
    if one.after:
        add(before, "p", "case-then", f"They chose: {one.after}")
    _numbered(before, number, one.question.case)
    if one.question.rows:
        table_of_case(before, one.question.rows)
    if one.question.drawing:
        figure_of_case(before, one.question, name)
    add(add(before, "p"), "strong", text=one.question.ask)
    choices, reasons = (add(part, "ol", "letters") for part in (before, after))
    for choice in one.choices:
        add(choices, "li", text=choice.says)
        worth = "right" if choice.right else "safe" if choice.safe else "deadly" if choice.deadly else "no"
        reason = add(reasons, "li")
        add(reason, "em", text=choice.says).tail = " "
        add(reason, "strong", text=WORTH[worth]).tail = f" {choice.why}"


def right_letters(chosen: Chosen) -> list[str]:
    """The letter of the right choice of each case; of a chain, one a step."""
    return [
        " then ".join(
            "ABCDEFGH"[next(at for at, choice in enumerate(one.choices) if choice.right)]
            for one in asked_in_order(case, chosen.paper)
        )
        for case in chosen.cases
    ]


def key_html(board: Sequence[Sum], papers: Sequence[Paper], chosen: Sequence[Chosen], tasks: Sequence[Sum]) -> str:
    """Draw the key to everything that the page asks and a sheet or a case answers."""
    outer = Element("ul", {"class": "key"})
    _key_line(outer, "Board", [one.result for one in board])
    for one in papers:
        _key_line(outer, f"Paper {one.number}", [answer_words(drawn) for drawn in one.drawn])
    for cases_of in chosen:
        _key_line(outer, "Cases", right_letters(cases_of))
    _key_line(outer, "Hand-out", [one.result + (f": {one.then}" if one.then else "") for one in tasks])
    for number, task in enumerate(tasks, 1):
        if task.found:
            line = add(outer, "li", text=f"Hand-out {number}, worked: ")
            add(line, "span", "formula", "; ".join(found.working for found in task.found))
    return html(outer)


def _key_line(outer: Element, name: str, results: Sequence[str]) -> None:
    if results:
        words = "; ".join(f"{at}) {words.rstrip('.')}" for at, words in enumerate(results, 1))
        add(outer, "li", text=f"{name}: {words}.")


_CAPTION = re.compile(r"<figcaption>(.*?)</figcaption>", re.DOTALL)


def drawing_again(name: str) -> str:
    """A drawing that stands on the page already, with names of its own, for the hand-out.

    Raises
    ------
    ValueError
        When there is no such drawing.
    """
    path = DOCS / "_includes" / "drawings" / f"{name}.html"
    if not path.is_file():
        raise ValueError(f"there is no drawing {name!r}")
    box = Element("figure", {"class": "drawing"})
    box.append(drawing_of(name, "hand-out"))
    caption = _CAPTION.search(path.read_text("utf-8"))
    if caption:
        add(box, "figcaption", text=caption[1])
    return html(box)


SESSION_BLOCKS = ("board", "class-cases", "class-paper", "key", "tasks", "drawing-again")


class Session:
    """What the blocks of one page have put before the class so far, so that its key can answer all of it."""

    def __init__(self) -> None:
        self.board: list[Sum] = []
        self.papers: list[Paper] = []
        self.cases: list[Chosen] = []
        self.tasks: list[Sum] = []

    def draw(self, name: str, body: str) -> str:
        """Draw one block and keep what it asks.

        Raises
        ------
        ValueError
            When the block is not whole, or a hand-out has no key before it.
        """
        if name == "board":
            read = sums(body)
            self.board += read
            return board_html(read, len(self.board) - len(read) + 1)
        if name == "class-paper":
            self.papers.append(read_paper(body))
            return paper_html(self.papers[-1])
        if name == "class-cases":
            self.cases.append(read_cases(body))
            return cases_html(self.cases[-1])
        if name == "key":
            self.tasks = sums(body)
            return key_html(self.board, self.papers, self.cases, self.tasks)
        if name == "drawing-again":
            return drawing_again(body.strip())
        if body.strip() or not self.tasks:
            raise ValueError("a block of tasks is empty, and stands after the key that holds them")
        return tasks_html(self.tasks)
