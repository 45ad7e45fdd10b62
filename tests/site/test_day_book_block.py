"""The fenced blocks of the day-book."""

from __future__ import annotations

import re

import markdown
import pytest
from pymdownx.superfences import SuperFencesException

from calculators.daybook.lines.kinds import KINDS
from calculators.daybook.lines.schema import column_rows


def made(text: str) -> str:
    return markdown.markdown(text, extensions=["site_src.embed", "tables"])


def test_the_forms_of_all_kinds():
    page = made("```day-book\nforms\n```\n")
    assert re.findall(r'data-entry-kind="([^"]+)"', page) == [kind.id for kind in KINDS]


def test_an_invented_batch_is_drawn_with_its_mark():
    page = made("```day-book\nexample example-06\n```\n")
    assert "INVENTED" in page and "<svg" in page and "book-lines" in page and "<button" not in page
    assert "by 3 earlier batches of its lot" in page


@pytest.mark.parametrize("body", ["", "forms more", "example", "example beer"])
def test_anything_else_stops_the_build(body):
    with pytest.raises(SuperFencesException):
        made(f"```day-book\n{body}\n```\n")


def test_columns_and_kinds_are_listed():
    page = made("```day-book-columns\n```\n\n```day-book-kinds\n```\n")
    assert page.count("<tr>") == len(column_rows()) + 1 + len(KINDS) + 1
