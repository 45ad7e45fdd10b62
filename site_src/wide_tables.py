"""Tables, marked so that a phone can show a row as lines, and so that figures stand under each other."""

from __future__ import annotations

import re
from html import escape, unescape

from calculators.asking.figures import figure_columns

MANY = 6
"""Columns from which on a table does not fit a phone."""
SOME = 3
"""Columns from which on a table may not fit the smallest phone, or a phone with its letters set large."""

_TABLE = re.compile(r"<table>\n?<thead>(.*?)</thead>(.*?)</table>", re.DOTALL)
_HEAD = re.compile(r"<th\b[^>]*>(.*?)</th>", re.DOTALL)
_ROW = re.compile(r"<tr>(.*?)</tr>", re.DOTALL)
_CELL = re.compile(r"<t[dh]\b")
_WORDS = re.compile(r"<t[dh]\b[^>]*>(.*?)</t[dh]>", re.DOTALL)
_TAGS = re.compile(r"<[^>]+>")


def _words(html: str) -> str:
    return unescape(_TAGS.sub("", html)).strip()


def _headed(cell: str, head: str) -> str:
    return f'{cell} data-head="{head}"'


def with_heads(html: str) -> str:
    """Give each cell of a table of several columns the head of its column, and name the columns of figures.

    >>> row = "".join(f"<td>{n}</td>" for n in range(6))
    >>> head = "".join(f"<th>h{n}</th>" for n in range(6))
    >>> text = with_heads(f"<table><thead><tr>{head}</tr></thead><tbody><tr>{row}</tr></tbody></table>")
    >>> text.count('data-head="h5"'), text.startswith('<table class="many">')
    (1, True)
    """

    def one(found: re.Match[str]) -> str:
        heads = [escape(_words(words), quote=True) for words in _HEAD.findall(found[1])]

        def row(cells: re.Match[str]) -> str:
            names = iter(heads)
            return f"<tr>{_CELL.sub(lambda cell: _headed(cell[0], next(names, '')), cells[1])}</tr>"

        figures = figure_columns([[_words(cell) for cell in _WORDS.findall(cells)] for cells in _ROW.findall(found[2])])
        marks = (' class="many"' if len(heads) >= MANY else "") + (f' data-figures="{figures}"' if figures else "")
        if not marks and len(heads) < SOME:
            return found[0]
        body = _ROW.sub(row, found[2]) if len(heads) >= SOME else found[2]
        return f"<table{marks}><thead>{found[1]}</thead>{body}</table>"

    return _TABLE.sub(one, html)
