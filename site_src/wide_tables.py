"""Tables of many columns, marked so that a phone can show each row as lines under each other."""

from __future__ import annotations

import re
from html import escape, unescape

MANY = 6
"""Columns from which on a table does not fit a phone."""

_TABLE = re.compile(r"<table>\n?<thead>(.*?)</thead>(.*?)</table>", re.DOTALL)
_HEAD = re.compile(r"<th\b[^>]*>(.*?)</th>", re.DOTALL)
_ROW = re.compile(r"<tr>(.*?)</tr>", re.DOTALL)
_CELL = re.compile(r"<t[dh]\b")
_TAGS = re.compile(r"<[^>]+>")


def _headed(cell: str, head: str) -> str:
    return f'{cell} data-head="{head}"'


def with_heads(html: str) -> str:
    """Give each cell of a table of many columns the head of its column.

    >>> row = "".join(f"<td>{n}</td>" for n in range(6))
    >>> head = "".join(f"<th>h{n}</th>" for n in range(6))
    >>> text = with_heads(f"<table><thead><tr>{head}</tr></thead><tbody><tr>{row}</tr></tbody></table>")
    >>> text.count('data-head="h5"'), text.startswith('<table class="many">')
    (1, True)
    """

    def one(found: re.Match[str]) -> str:
        heads = [escape(unescape(_TAGS.sub("", words)).strip(), quote=True) for words in _HEAD.findall(found[1])]
        if len(heads) < MANY:
            return found[0]

        def row(cells: re.Match[str]) -> str:
            names = iter(heads)
            return f"<tr>{_CELL.sub(lambda cell: _headed(cell[0], next(names, '')), cells[1])}</tr>"

        return f'<table class="many"><thead>{found[1]}</thead>{_ROW.sub(row, found[2])}</table>'

    return _TABLE.sub(one, html)
