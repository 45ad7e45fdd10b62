"""The Markdown extension behind the fenced blocks ``sheet`` and ``sources``.

The block's body is what follows ``run`` on the command line: a sheet's id, then ``question=value`` words, over
as many lines as one likes. In its place the page gets the form and the worked case::

    markdown.markdown(text, extensions=["site_src.embed"])

The body of a ``sources`` block is the ids of sources; in its place the page gets their list, each with whether
it was read. Any generator of pages that runs Python-Markdown can use it. Links to other pages and sheets leave here as
``page:<path>`` and ``sheet:<id>``, since only the generator knows what lies where.
"""

from __future__ import annotations

import shlex
from collections import Counter

from markdown import Markdown
from markdown.extensions import Extension
from pymdownx.superfences import SuperFencesException

from calculators.form import html
from calculators.page import embed
from calculators.results import source_list


class SheetExtension(Extension):
    """Turns fenced ``sheet`` and ``sources`` blocks into HTML; brings SuperFences with it."""

    def __init__(self) -> None:
        super().__init__()
        self._seen: Counter[str] = Counter()

    def extendMarkdown(self, md: Markdown) -> None:
        """Hand SuperFences our kinds of fence."""
        fences = [
            {"name": name, "class": name, "format": draw, "validator": _no_options}
            for name, draw in (("sheet", self._format), ("sources", _sources))
        ]
        md.registerExtension(self)
        md.registerExtensions(["pymdownx.superfences"], {"pymdownx.superfences": {"custom_fences": fences}})

    def reset(self) -> None:
        """Forget the sheets of the last page."""
        self._seen.clear()

    def _format(self, body: str, *_: object, **__: object) -> str:
        # SuperFences turns any other exception into a block of code on the page.
        try:
            sheet_id, given = parse(body)
            self._seen[sheet_id] += 1
            count = self._seen[sheet_id]
            return embed(sheet_id, given, sheet_id if count == 1 else f"{sheet_id}-{count}")
        except Exception as fault:
            raise SuperFencesException(f"In the fenced block for the sheet {body.strip()!r}: {fault}") from fault


def _sources(body: str, *_: object, **__: object) -> str:
    """Draw the list of the sources whose ids stand in the block, one or more a line."""
    try:
        return html(source_list(body.split()))
    except KeyError as fault:
        raise SuperFencesException(f"In a fenced block of sources: there is no source {fault}") from fault


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


def _no_options(language: str, inputs: dict[str, str], options: object, attrs: object, md: Markdown) -> bool:
    if inputs:
        raise SuperFencesException(f"A sheet's values go inside the block, not on its first line: {inputs}")
    return True


def makeExtension() -> SheetExtension:
    """Return the extension, as Python-Markdown asks for it."""
    return SheetExtension()
