"""Questions of judgement: read from a data file a chapter, drawn so that they work without scripts.

A chapter is ``docs/_includes/questions/<chapter>.toml``. Each question has choices, a reason for every choice, and
the page with the very phrase that teaches it.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element, fromstring

from markdown.extensions.toc import slugify

from calculators.drawing.elements import add, html
from calculators.drawing.links import fill
from calculators.exercises import EXERCISES
from calculators.plates import PLATES, picture_of
from site_src.facts import fill_facts
from site_src.limits_table import filled, limit_lines
from site_src.settings import ROOT

DOCS = ROOT / "docs"
QUESTIONS = DOCS / "_includes" / "questions"
_INCLUDED = re.compile(r'^[ \t]*--8<-- "([^"]+)"[ \t]*$', re.MULTILINE)
_LIMITS = re.compile(r"^```limits\n(.+)\n```$", re.MULTILINE)
_HEADING = re.compile(r"^#{1,6} +(.+?)(?: *\{[^}#]*#([\w-]+)[^}]*\})?$", re.MULTILINE)
_LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)")
_PLAIN_QUOTES = str.maketrans("’‘“”", "''\"\"")
_MARKUP = re.compile(r"\{:?[^}\n]*\}|<[^>]+>|[*_`]")


class Choice(NamedTuple):
    """One thing a person might do, and why it is right or not."""

    says: str
    why: str
    right: bool


class Case(NamedTuple):
    """A case: what one sees, what one is asked, the choices, and the phrase of a page that teaches it."""

    id: str
    case: str
    ask: str
    choices: tuple[Choice, ...]
    page: str
    phrase: str
    drawing: str = ""


def chapters(folder: Path = QUESTIONS) -> list[str]:
    """Return the names of the chapters."""
    return sorted(path.stem for path in folder.glob("*.toml"))


def cases(chapter: str, folder: Path = QUESTIONS) -> list[Case]:
    """Return the questions of a chapter.

    Raises
    ------
    ValueError
        When there is no such chapter, or a question lacks something or has something unknown.
    """
    if chapter not in chapters(folder):
        raise ValueError(f"there are no questions “{chapter}”. There are: {', '.join(chapters(folder))}.")
    read = tomllib.loads(fill_facts(filled((folder / f"{chapter}.toml").read_text("utf-8"))))
    return [_case(one) for one in read["question"]]


def _case(one: Mapping[str, Any]) -> Case:
    name = one.get("id", one)
    try:
        choices = tuple(Choice(c["says"], c["why"], c.get("right", False)) for c in one["choice"])
        rest = {key: value for key, value in one.items() if key != "choice"}
        case = Case(choices=choices, **{"ask": "What do you do?", **rest})
    except (KeyError, TypeError) as fault:
        raise ValueError(f"the question {name!r}: {fault}") from fault
    if sum(choice.right for choice in choices) != 1 or not all(c.says.strip() and c.why.strip() for c in choices):
        raise ValueError(f"the question {name!r} needs one right choice, and words and a reason for each")
    return case


def _whole(path: Path) -> str:
    """Return a page with what it includes, its table of limits among it."""
    text = _INCLUDED.sub(lambda found: (DOCS / "_includes" / found[1]).read_text("utf-8"), path.read_text("utf-8"))
    return fill_facts(filled(_LIMITS.sub(lambda found: "\n".join(limit_lines(found[1])), text)))


def _words(text: str) -> str:
    return " ".join(_MARKUP.sub("", _LINK.sub(r"\1", text)).translate(_PLAIN_QUOTES).split())


@cache
def _page(page: str) -> tuple[str, tuple[tuple[int, str], ...]]:
    """The words of a page as read, and where in them each heading begins, with its anchor."""
    text = _whole(DOCS / f"{page}.md")
    headings = [
        (len(_words(text[: found.start()])), found[2] or slugify(_words(found[1]), "-"))
        for found in _HEADING.finditer(text)
    ]
    return _words(text), tuple(headings)


def where(case: Case) -> str | None:
    """Return the anchor of the section in which a question's phrase stands; blank at the top of the page.

    None when the phrase does not stand on the page.
    """
    text, headings = _page(case.page)
    place = text.find(_words(case.phrase))
    if place < 0:
        return None
    above = [anchor for at, anchor in headings[1:] if at <= place]
    return above[-1] if above else ""


def _drawn(case: Case, number: int) -> Element:
    box = Element("article", {"class": "case", "id": f"case-{case.id}", "data-case": case.id})
    add(box, "h3", text=f"Case {number}")
    fill(add(box, "p", "case-text"), case.case, None)
    if case.drawing:
        figure = add(box, "figure", "drawing")
        figure.append(_svg(case.drawing))
    add(box, "p", "case-ask").append(_strong(case.ask))
    choices = add(box, "ol")
    for choice in case.choices:
        details = add(add(choices, "li"), "details", data_right="yes" if choice.right else "no")
        add(details, "summary", text=choice.says)
        words = add(details, "p")
        words.append(_strong("Right. " if choice.right else "No. "))
        words[-1].tail = choice.why
    taught = add(box, "details", "taught")
    add(taught, "summary", text="Where this is taught")
    anchor = where(case)
    address = f"page:{case.page}" + (f"#{anchor}" if anchor else "")
    line = add(taught, "p")
    add(line, "a", text=case.page.rsplit("/", 1)[-1].replace("-", " ").capitalize(), href=address)
    line[-1].tail = f": “{_MARKUP.sub('', case.phrase)}”"
    return box


def _strong(words: str) -> Element:
    strong = Element("strong")
    strong.text = words
    return strong


def _svg(name: str) -> Element:
    if name in PLATES:
        return picture_of(name)
    text = (DOCS / "_includes" / "drawings" / f"{name}.svg").read_text("utf-8")
    svg = fromstring(text)
    for one in svg.iter():
        one.tag = one.tag.rpartition("}")[2]
    return svg


def questions_html(chapter: str) -> str:
    """Draw the questions of a chapter.

    Raises
    ------
    ValueError
        When there is no such chapter or one of its questions is not whole.
    """
    section = Element("section", {"class": "cases", "data-chapter": chapter, "data-search-exclude": ""})
    for number, case in enumerate(cases(chapter), 1):
        section.append(_drawn(case, number))
    return html(section)


def known_results() -> dict[str, str]:
    """Return the chapter of every exercise and every question, by its id."""
    known = {name: exercise.chapter for name, exercise in EXERCISES.items()}
    known.update({case.id: chapter for chapter in chapters() for case in cases(chapter)})
    return known


def results_html() -> str:
    """Draw the place where a learner sees, saves, brings back and removes results kept on the device."""
    section = Element(
        "section",
        {"class": "results-kept", "data-known": json.dumps(known_results()), "data-search-exclude": ""},
    )
    add(section, "p", "exercise-verdict", role="status", data_training="state")
    table = add(section, "table", data_training="table", hidden="")
    add(table, "caption", text="Tried on this device")
    heads = add(add(table, "thead"), "tr")
    for words in ("Chapter", "Question", "Kind", "How it went", "When"):
        add(heads, "th", text=words, scope="col")
    add(table, "tbody", data_training="rows")
    tools = add(section, "div", data_training="tools", hidden="")
    buttons = add(tools, "div", "sheet-buttons")
    for action, words in (
        ("save", "Save as a file"),
        ("bring", "Bring back a file"),
        ("remove", "Remove my results"),
    ):
        add(buttons, "button", type="button", text=words, data_action=action)
    add(tools, "input", type="file", accept="application/json,.json", hidden="", aria_label="A file saved here")
    return html(section)
