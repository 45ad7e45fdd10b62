"""Questions of judgement: read from a data file a chapter, drawn so that they work without scripts.

A chapter is ``docs/_includes/questions/<chapter>.toml``, or a folder of that name with a file for each matter, read in
the order of their names. Each question has choices, a reason for every choice, and
the page with the very phrase that teaches it. A choice may lead on to a further step: such a case is a chain.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element, fromstring

from markdown.extensions.toc import slugify

from calculators.drawing.elements import add, html
from calculators.drawing.links import fill
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
ASKED = "What do you do?"
WORTH = {
    "right": "Right.",
    "safe": "It would do, and is not the best.",
    "no": "No.",
    "deadly": "No: this can kill or maim.",
}
_MARKUP = re.compile(r"\{:?[^}\n]*\}|<[^>]+>|[*_`]")


class Choice(NamedTuple):
    """One thing a person might do, why it is right or not, and the step it leads to.

    ``safe`` is a choice that harms nobody and is still not the best; ``deadly`` one that can kill or maim.
    """

    says: str
    why: str
    right: bool = False
    safe: bool = False
    deadly: bool = False
    then: str = ""


class Case(NamedTuple):
    """A case: what one sees, what one is asked, the choices, and the phrase of a page that teaches it.

    ``normal`` is a case in which all goes as it should and carrying on is right. ``rows`` is a table to read, its
    heads first. ``steps`` are the further steps of a chain, to which choices lead by their ids.
    """

    id: str
    case: str
    ask: str
    choices: tuple[Choice, ...]
    page: str
    phrase: str
    drawing: str = ""
    normal: bool = False
    rows: tuple[tuple[str, ...], ...] = ()
    steps: tuple[Case, ...] = ()


def chapters(folder: Path = QUESTIONS) -> list[str]:
    """Return the names of the chapters."""
    return sorted(path.stem for path in folder.iterdir() if path.suffix == ".toml" or path.is_dir())


def files(chapter: str, folder: Path = QUESTIONS) -> list[Path]:
    """Return the files of a chapter, in the order in which they are read."""
    inside = folder / chapter
    return sorted(inside.glob("*.toml")) if inside.is_dir() else [folder / f"{chapter}.toml"]


def cases(chapter: str, folder: Path = QUESTIONS) -> list[Case]:
    """Return the questions of a chapter.

    Raises
    ------
    ValueError
        When there is no such chapter, or a question lacks something or has something unknown.
    """
    if chapter not in chapters(folder):
        raise ValueError(f"there are no questions “{chapter}”. There are: {', '.join(chapters(folder))}.")
    texts = (fill_facts(filled(path.read_text("utf-8"))) for path in files(chapter, folder))
    return [_case(one) for text in texts for one in tomllib.loads(text)["question"]]


def _case(one: Mapping[str, Any], page: str = "") -> Case:
    name = one.get("id", one)
    try:
        choices = tuple(Choice(**choice) for choice in one["choice"])
        rest = {key: value for key, value in one.items() if key not in ("choice", "step", "rows")}
        rows = tuple(tuple(str(cell) for cell in row) for row in one.get("rows", ()))
        steps = tuple(_case(step, one["page"]) for step in one.get("step", ()))
        case = Case(choices=choices, rows=rows, steps=steps, **{"ask": ASKED, "page": page, **rest})
    except (KeyError, TypeError) as fault:
        raise ValueError(f"the question {name!r}: {fault}") from fault
    if sum(choice.right for choice in choices) != 1 or not all(c.says.strip() and c.why.strip() for c in choices):
        raise ValueError(f"the question {name!r} needs one right choice, and words and a reason for each")
    if any(sum((choice.right, choice.safe, choice.deadly)) > 1 for choice in choices):
        raise ValueError(f"the question {name!r}: a choice is one of right, safe and deadly")
    if len({len(row) for row in rows}) > 1:
        raise ValueError(f"the question {name!r}: each row of its table needs as many cells as its heads")
    if not page:
        _hold_together(case)
    return case


def _hold_together(case: Case) -> None:
    """Refuse a chain with a step that nothing leads to, that is not there, or that leads back."""
    steps = {step.id: step for step in case.steps}
    met: set[str] = set()

    def follow(step: Case, above: tuple[str, ...]) -> None:
        for choice in step.choices:
            if not choice.then:
                continue
            if choice.then not in steps or choice.then in above:
                raise ValueError(f"the question {case.id!r}: no step {choice.then!r} can follow there")
            met.add(choice.then)
            follow(steps[choice.then], (*above, choice.then))

    follow(case, ())
    if met != set(steps):
        raise ValueError(f"the question {case.id!r}: nothing leads to {', '.join(sorted(set(steps) - met))}")


def asked(case: Case) -> tuple[Case, ...]:
    """Return everything that a case asks: itself, and the steps that follow."""
    return (case, *case.steps)


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


def page_words(page: str) -> str:
    """Return the words of a page as read, with what it includes, without markup."""
    return _page(page)[0]


def section_words(case: Case) -> str:
    """Return the words of the section in which a question's phrase stands; blank when it stands nowhere."""
    text, headings = _page(case.page)
    place = text.find(_words(case.phrase))
    starts = [0, *(at for at, _ in headings[1:]), len(text)]
    return next((text[a:b] for a, b in pairwise(starts) if a <= place < b), "")


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
    _question(box, case, {step.id: step for step in case.steps})
    taught = add(box, "details", "taught")
    add(taught, "summary", text="Where this is taught")
    for one in asked(case):
        _taught(taught, one)
    return box


def _question(box: Element, case: Case, steps: Mapping[str, Case]) -> None:
    fill(add(box, "p", "case-text"), case.case, None)
    if case.rows:
        table_of_case(box, case.rows)
    if case.drawing:
        figure_of_case(box, case, case.id)
    add(box, "p", "case-ask").append(_strong(case.ask))
    choices = add(box, "ol", "case-choices")
    for choice in case.choices:
        worth = "right" if choice.right else "safe" if choice.safe else "no"
        details = add(add(choices, "li"), "details", data_worth=worth)
        add(details, "summary", text=choice.says)
        words = add(details, "p")
        words.append(_strong(WORTH["deadly" if choice.deadly else worth]))
        words[-1].tail = f" {choice.why}"
        if choice.then:
            further = add(details, "div", "case-step")
            add(further, "p", "case-then").append(_strong("Then:"))
            _question(further, steps[choice.then], steps)


def figure_of_case(box: Element, case: Case, name: str) -> None:
    """Put the drawing of a case into a box, its inner names beginning with ``name``."""
    add(box, "figure", "drawing").append(drawing_of(case.drawing, name))


def drawing_of(drawing: str, name: str) -> Element:
    """A drawing whose inner names begin with ``name``, so that it may stand on a page twice."""
    return _own_names(_svg(drawing), name)


def table_of_case(box: Element, rows: tuple[tuple[str, ...], ...]) -> None:
    """Put the table of a case into a box: heads, then rows."""
    table = add(add(box, "div", "case-table"), "table")
    heads = add(add(table, "thead"), "tr")
    for words in rows[0]:
        add(heads, "th", text=words, scope="col")
    body = add(table, "tbody")
    for row in rows[1:]:
        line = add(body, "tr")
        for words in row:
            add(line, "td", text=words)


def _taught(box: Element, case: Case) -> None:
    anchor = where(case)
    address = f"page:{case.page}" + (f"#{anchor}" if anchor else "")
    line = add(box, "p")
    add(line, "a", text=case.page.rsplit("/", 1)[-1].replace("-", " ").capitalize(), href=address)
    line[-1].tail = f": “{_MARKUP.sub('', case.phrase)}”"


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


def _own_names(svg: Element, name: str) -> Element:
    """The drawing with names of its own, so that it may stand beside another case as well."""
    for one in svg.iter():
        for key, value in one.attrib.items():
            if key == "id":
                one.set(key, f"{name}-{value}")
            elif key in ("aria-labelledby", "aria-describedby"):
                one.set(key, " ".join(f"{name}-{part}" for part in value.split()))
            elif value.startswith("#"):
                one.set(key, f"#{name}-{value[1:]}")
            else:
                one.set(key, value.replace("url(#", f"url(#{name}-"))
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
