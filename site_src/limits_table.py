"""The table of limits of a procedure, drawn from ``calculators.rules.limits`` as Markdown.

The table of one page is written in its place by a fenced block ``limits`` whose body names the procedure.
"""

from __future__ import annotations

from calculators.figures import plain_number
from calculators.rules.limit import BOOK, Limit, Signs
from calculators.rules.limits import of_page
from calculators.units import shown

HEAD = ("| What | Accept | Watch | Stop and ask |", "|---|---|---|---|")
NOTHING = "—"


def limit_lines(page: str) -> list[str]:
    """Return the table of a procedure's limits, as lines of Markdown.

    Raises
    ------
    LookupError
        When the procedure has none.
    """
    return [*HEAD, *(f"| {' | '.join(_cells(row))} |" for row in of_page(page))]


def _cells(row: Limit | Signs) -> tuple[str, ...]:
    if isinstance(row, Signs):
        accept, watch, stop = ", ".join(row.accept), ", ".join(row.watch), ", ".join(row.stop)
        watch, stop = _joined(watch, row.watch_more), _joined(stop, row.stop_more)
    else:
        accept, watch, stop = said(row)
    book = BOOK.get(row.id)
    if book is not None:  # as this house has it, with the book's own beside it
        ours = (f"this house: {cell}; the book: {old or NOTHING}" if cell != old else cell
                for cell, old in zip((accept, watch, stop), said(book), strict=True))
        accept, watch, stop = ours
    if row.act:
        stop = f"**{stop.strip('*')}**<br>{row.act}"
    return row.quantity, *(cell or NOTHING for cell in (accept, watch, stop))


def said(row: Limit) -> tuple[str, str, str]:
    """What is accepted, watched and a stop, in words: ``up to 8 h``, ``8–12 h``, ``over 12 h``."""
    unit = f" {shown(row.unit)}" if row.unit else ""
    low, high = row.accept_low, row.accept_high
    if low is not None and high is not None:
        accept = f"{plain_number(low)}–{plain_number(high)}{unit}"
    elif high is not None:
        accept = f"up to {plain_number(high)}{unit}"
    elif low is not None:
        accept = f"{plain_number(low)}{unit} or more"
    else:
        accept = ""
    between = [
        f"{plain_number(a)}–{plain_number(b)}"
        for a, b in ((row.stop_low, low), (high, row.stop_high))
        if a is not None and b is not None and a != b
    ]
    past = [
        f"{word} {plain_number(edge)}"
        for word, edge in (("under", row.stop_low), ("over", row.stop_high))
        if edge is not None
    ]
    watch = f"{' or '.join(between)}{unit}" if between else ""
    stop = f"{', '.join(past)}{unit}" if past else ""
    return _joined(accept, row.accept), _joined(watch, row.watch), _joined(stop, row.stop)


def _joined(figures: str, words: str) -> str:
    if not figures or not words:
        return figures or words
    return f"{figures} {words}" if words.startswith(("or ", "at ", "in ", "(")) else f"{figures}, {words}"
