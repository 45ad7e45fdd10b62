"""Tables of many columns carry their heads in each cell."""

from __future__ import annotations

import doctest

from site_src import wide_tables
from site_src.wide_tables import MANY, SOME, with_heads


def _table(columns: int, cell: str = "7") -> str:
    head = "".join(f"<th>Head {n}</th>" for n in range(columns))
    row = "".join(f"<td>{cell}</td>" for _ in range(columns))
    body = f"<tr>\n{row}</tr>\n" * 2
    return f"<table>\n<thead>\n<tr>\n{head}</tr>\n</thead>\n<tbody>\n{body}</tbody>\n</table>"


def test_its_example_holds():
    assert doctest.testmod(wide_tables).failed == 0


def test_a_small_table_and_one_with_a_class_are_left_alone():
    small, classed = _table(SOME - 1, "seven"), _table(MANY).replace("<table>", '<table class="grid">')
    assert with_heads(small) == small and with_heads(classed) == classed


def test_every_row_of_a_wide_table_has_every_head_in_order():
    text = with_heads(_table(MANY))
    assert text.count('data-head="Head 0"') == 2
    assert text.index('data-head="Head 0"') < text.index('data-head="Head 5"')


def test_a_table_of_some_columns_has_its_heads_and_no_class():
    text = with_heads(_table(SOME))
    assert text.count('data-head="Head 2"') == 2 and "class=" not in text


def test_columns_of_figures_are_named():
    rows = [["door", "15.2", "9", "6:00"], ["wall", "9.8", "10.5", "7:00"], ["middle", "", "11", "8:00"]]
    body = "".join(f"<tr>{''.join(f'<td><b>{cell}</b></td>' for cell in row)}</tr>" for row in rows)
    text = with_heads(f"<table>\n<thead><tr>{'<th>h</th>' * 4}</tr></thead><tbody>{body}</tbody></table>")
    assert text.startswith('<table data-figures="2">')


def test_words_with_marks_stay_words():
    text = with_heads(_table(MANY).replace("Head 1", '<a href="x">A &amp; "B"</a>'))
    assert 'data-head="A &amp; &quot;B&quot;"' in text
