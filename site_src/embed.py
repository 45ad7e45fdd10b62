"""The Markdown extension behind the fenced blocks ``sheet``, ``sources`` and the like.

The block's body is what follows ``run`` on the command line: a sheet's id, then ``question=value`` words, over
as many lines as one likes. In its place the page gets the form and the worked case::

    markdown.markdown(text, extensions=["site_src.embed"])

The body of a ``sources`` block is the ids of sources; in its place the page gets their list, each with whether it was
read. The blocks ``all-sources``, ``all-units``, ``all-gases``, ``malts``, ``day-book-columns``, ``day-book-kinds``,
``corrections``, ``house-keys`` and ``house-places`` have no body; in their place stands the whole list. The body of a
``sheets`` block is ids of sheets; in its place stands a link to each, with what it answers. The body of a ``figure``
block names a picture of ``calculators.plates``, which is computed then; that of an ``exercises`` or ``questions``
block names a chapter; that of a ``record-sheet`` block a record sheet; that of a ``limits`` block the procedure whose
table of limits stands in its place, and an edge of it stands in a sentence by ``[[limit:id edge]]``; that of a
``wall-sheet`` block the procedure that is offered for the wall (``all-wall-sheets`` lists them all);
``training-results`` takes ``all`` or ``due``. A ``day-book`` block says which part of the batch record it is:
``forms``, or ``example`` with a batch of the invented year. A ``practice`` block says what of the practice batch
stands there: ``learner``, ``trainer``, ``blank-book``, or ``run`` with the values of a run that is played and written
out at build. ``sign-off-sheets``, ``standards`` and ``competence`` are those of :mod:`site_src.competence`.

Of a session, ``board``, ``class-cases`` and ``class-paper`` blocks stand before the class, a ``key`` block holds the
tasks of the hand-out and draws the key to all of them, and a ``tasks`` block, without a body, draws those tasks with
room to write (:mod:`site_src.class_screens`).

A figure about gas stands in a sentence by ``[[gas:danger-soonest]]`` (:mod:`site_src.facts`).

Any generator of pages that runs Python-Markdown can use it. Links to other pages and sheets leave here as
``page:<path>`` and ``sheet:<id>``, since only the generator knows what lies where.
"""

from __future__ import annotations

import re
import shlex
from collections import Counter
from collections.abc import Iterator
from functools import partial

from markdown import Markdown
from markdown.extensions import Extension
from markdown.preprocessors import Preprocessor
from pymdownx.superfences import SuperFencesException

from calculators.daybook.lines.schema import column_lines, kind_lines
from calculators.drawing.elements import html
from calculators.drawing.results import source_list
from calculators.exercises.page import embed_exercises
from calculators.page import embed
from calculators.papers.page import embed_paper
from calculators.plates import plate_of
from calculators.practice.frames import embed as practice
from site_src.citations import page_lines
from site_src.class_screens import SESSION_BLOCKS, Session
from site_src.competence import competence, sheet, sheet_lines, standard_lines
from site_src.corrections import correction_lines
from site_src.day_book import day_book
from site_src.facts import fill_facts
from site_src.gas_pages import gas_lines
from site_src.house.example import place_lines, schema_lines
from site_src.house.on_paper import with_code
from site_src.house.on_sheet import with_house
from site_src.limits_table import filled, limit_lines
from site_src.malts_table import malt_lines
from site_src.questions import questions_html
from site_src.sheet_links import sheet_links
from site_src.training_results import training_results
from site_src.unit_list import unit_lines
from site_src.wall_sheet import offer_lines, wall_lines


class SheetExtension(Extension):
    """Turns fenced ``sheet`` and ``sources`` blocks into HTML; brings SuperFences with it."""

    def __init__(self) -> None:
        super().__init__()
        self._seen: Counter[str] = Counter()
        self._session = Session()

    def extendMarkdown(self, md: Markdown) -> None:
        """Hand SuperFences our kinds of fence."""
        fences = [
            {"name": name, "class": name, "format": draw, "validator": _no_options}
            for name, draw in (
                ("sheet", self._format),
                ("sheets", _sheets),
                ("sources", _sources),
                ("exercises", _exercises),
                ("questions", _questions),
                ("training-results", _results),
                ("figure", _figure),
                ("record-sheet", _paper),
                ("day-book", _day_book),
                ("practice", _practice),
                ("sign-off", _sign_off),
                ("competence", _competence),
                *((name, partial(self._of_a_session, name)) for name in SESSION_BLOCKS),
            )
        ]
        md.registerExtension(self)
        md.registerExtensions(["pymdownx.superfences"], {"pymdownx.superfences": {"custom_fences": fences}})
        # Before SuperFences, which hides what it makes from the check of anchors and from the table of contents.
        md.preprocessors.register(_WholeLists(md), "whole-lists", 26)
        # After SuperFences, at 25, and before raw HTML is taken out, at 20.
        md.preprocessors.register(_Leftovers(md, [str(fence["name"]) for fence in fences]), "leftover-fences", 24)

    def reset(self) -> None:
        """Forget the sheets of the last page."""
        self._seen.clear()
        self._session = Session()

    def _of_a_session(self, name: str, body: str, *_: object, **__: object) -> str:
        try:
            return self._session.draw(name, body)
        except Exception as fault:
            raise SuperFencesException(f"In a fenced block {name} of a session: {fault}") from fault

    def _format(self, body: str, *_: object, **__: object) -> str:
        # SuperFences turns any other exception into a block of code on the page.
        try:
            sheet_id, given = parse(body)
            self._seen[sheet_id] += 1
            count = self._seen[sheet_id]
            return with_house(embed(sheet_id, given, sheet_id if count == 1 else f"{sheet_id}-{count}"), sheet_id)
        except Exception as fault:
            raise SuperFencesException(f"In the fenced block for the sheet {body.strip()!r}: {fault}") from fault


class _WholeLists(Preprocessor):
    """Puts whole lists, written as Markdown, in the place of their blocks."""

    def run(self, lines: list[str]) -> list[str]:
        """Return the lines of the page with each such block replaced."""
        done: list[str] = []
        rest = iter(lines)
        for line in rest:
            make = _WHOLE.get(line.rstrip())
            if line.rstrip() in _OF_ONE:
                done += _of_one(line.rstrip(), rest)
            elif not make:
                done.append(_with_edges(line))
            elif next(rest, "").rstrip() != "```":
                raise SuperFencesException(f"The block {line} takes no body")
            else:
                done += make()
        return done


def _of_one(fence: str, rest: Iterator[str]) -> list[str]:
    name, end = next(rest, "").strip(), next(rest, "").rstrip()
    if end != "```":
        raise SuperFencesException(f"The block {fence} with {name!r} takes one line, a name")
    try:
        return _OF_ONE[fence](name)
    except LookupError as fault:
        raise SuperFencesException(f"In the fenced block {fence}: {fault}") from fault


def _with_edges(line: str) -> str:
    try:
        return fill_facts(filled(line))
    except LookupError as fault:
        raise SuperFencesException(f"In {line.strip()!r}: {fault}") from fault


class _Leftovers(Preprocessor):
    """Stops at a fence of ours that SuperFences took for plain text, as it does when one is malformed."""

    def __init__(self, md: Markdown, names: list[str]) -> None:
        super().__init__(md)
        self._fence = re.compile(rf"[ \t>]*(`{{3,}}|~{{3,}})[ \t]*(\{{[ \t]*)?\.?({'|'.join(names)})\b")

    def run(self, lines: list[str]) -> list[str]:
        """Return the lines as they are."""
        for line in lines:
            if found := self._fence.match(line):
                raise SuperFencesException(
                    f"{line.strip()!r} does not open a block: its first line is ```{found[3]} and no more, "
                    "its values follow below, and a line of ``` ends it."
                )
        return lines


_WHOLE = {
    "```all-sources": page_lines,
    "```all-units": unit_lines,
    "```all-gases": gas_lines,
    "```malts": malt_lines,
    "```day-book-columns": column_lines,
    "```day-book-kinds": kind_lines,
    "```corrections": correction_lines,
    "```sign-off-sheets": sheet_lines,
    "```all-wall-sheets": wall_lines,
    "```house-keys": schema_lines,
    "```house-places": place_lines,
}
_OF_ONE = {"```limits": limit_lines, "```standards": standard_lines, "```wall-sheet": offer_lines}
"""Those whose body is one name: of a procedure, of a session."""


def _sheets(body: str, *_: object, **__: object) -> str:
    """Draw a link to each sheet whose id stands in the block."""
    try:
        return sheet_links(body)
    except LookupError as fault:
        raise SuperFencesException(f"In a fenced block of sheets: {fault}") from fault


def _sources(body: str, *_: object, **__: object) -> str:
    """Draw the list of the sources whose ids stand in the block, one or more a line."""
    try:
        return html(source_list(body.split(), "page:reference/sources#"))
    except KeyError as fault:
        raise SuperFencesException(f"In a fenced block of sources: there is no source {fault}") from fault


def _paper(body: str, *_: object, **__: object) -> str:
    """Draw the record sheet named in the block, blank."""
    try:
        return with_code(embed_paper(body.strip()), body.strip())
    except LookupError as fault:
        raise SuperFencesException(f"In a fenced block of a record sheet: {fault}") from fault


def _exercises(body: str, *_: object, **__: object) -> str:
    """Draw the exercises of the chapter named in the block."""
    try:
        return embed_exercises(body.strip())
    except ValueError as fault:
        raise SuperFencesException(f"In a fenced block of exercises: {fault}") from fault


def _questions(body: str, *_: object, **__: object) -> str:
    """Draw the questions of judgement of the chapter named in the block."""
    try:
        return questions_html(body.strip())
    except (OSError, ValueError) as fault:
        raise SuperFencesException(f"In a fenced block of questions: {fault}") from fault


def _results(body: str, *_: object, **__: object) -> str:
    """Draw the place where a learner's results are seen, saved and removed, or what of them is due again."""
    try:
        return training_results(body.strip())
    except ValueError as fault:
        raise SuperFencesException(f"In a fenced block for results: {fault}") from fault


def _figure(body: str, *_: object, **__: object) -> str:
    """Draw the picture named in the block, computed now."""
    try:
        return html(plate_of(body.strip()))
    except Exception as fault:
        raise SuperFencesException(f"In the fenced block for the figure {body.strip()!r}: {fault!r}") from fault


def _day_book(body: str, *_: object, **__: object) -> str:
    """Draw the part of the batch record that the block names."""
    try:
        return day_book(body)
    except (OSError, ValueError) as fault:
        raise SuperFencesException(f"In a fenced block for the day-book: {fault}") from fault


def _practice(body: str, *_: object, **__: object) -> str:
    """Draw the part of the practice batch that the block names."""
    try:
        return practice(body)
    except (KeyError, ValueError) as fault:
        raise SuperFencesException(f"In a fenced block for the practice batch: {fault}") from fault


def _sign_off(body: str, *_: object, **__: object) -> str:
    """Draw the sign-off sheet of the job named in the block."""
    try:
        return sheet(body)
    except LookupError as fault:
        raise SuperFencesException(f"In a fenced block of a sign-off sheet: {fault}") from fault


def _competence(body: str, *_: object, **__: object) -> str:
    """Draw the part of the record of competence that the block names."""
    try:
        return competence(body)
    except ValueError as fault:
        raise SuperFencesException(f"In a fenced block of the record of competence: {fault}") from fault


def parse(body: str) -> tuple[str, dict[str, str]]:
    """Split the body of a fence into the sheet's id and the values given.

    Raises
    ------
    ValueError
        If there is no id, a word is not ``question=value``, or a question is given twice.
    """
    words = shlex.split(body, comments=True)
    if not words or "=" in words[0]:
        raise ValueError("the first word must be the id of a sheet")
    given: dict[str, str] = {}
    for word in words[1:]:
        question, equals, value = word.partition("=")
        if not equals or not question:
            raise ValueError(f"{word!r} must be written question=value")
        if question in given:
            raise ValueError(f"{question} is given twice")
        given[question] = value
    return words[0], given


def _no_options(_language: str, inputs: dict[str, str], *_: object) -> bool:
    if inputs:
        raise SuperFencesException(f"A sheet's values go inside the block, not on its first line: {inputs}")
    return True


def makeExtension() -> SheetExtension:
    """Return the extension, as Python-Markdown asks for it."""
    return SheetExtension()
