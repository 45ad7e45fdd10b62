"""The table of limits of a procedure, drawn from ``calculators.rules.limits`` as Markdown.

The table of one page is written in its place by a fenced block ``limits`` whose body names the procedure. In a
sentence ``[[limit:floor-bottom stop_high]]`` draws one edge, ``[[limit:floor-piece accept]]`` what is accepted.
"""

from __future__ import annotations

import re
from functools import cache

from calculators.asking.figures import plain_number
from calculators.asking.units import shown
from calculators.drawing.links import as_markdown
from calculators.rules.limit import BOOK, Limit, Signs
from calculators.rules.limits import every, of_page
from calculators.words.limits import at_edge, span

HEAD = ("| What | Accept | Watch | Stop and ask |", "|---|---|---|---|")
NOTHING = "—"
_EDGES = ("stop_low", "accept_low", "accept_high", "stop_high")
_IN_TEXT = re.compile(r"\[\[limit:([a-z0-9-]+) ([a-z_]+)\]\]")


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
        accept, watch, stop = (", ".join(words).replace("-", " ") for words in (row.accept, row.watch, row.stop))
        accept = row.accept_as or accept
        accept, watch, stop = (
            _joined(words, more)
            for words, more in ((accept, row.accept_more), (watch, row.watch_more), (stop, row.stop_more))
        )
    else:
        accept, watch, stop = said(row)
    book = BOOK.get(row.id)
    if book is not None:  # as this house has it, with the book's own beside it
        ours = (f"this house: {cell}; the book: {old or NOTHING}" if cell != old else cell
                for cell, old in zip((accept, watch, stop), said(book), strict=True))
        accept, watch, stop = ours
    if row.act:
        act = as_markdown(row.act)
        stop = f"**{stop.strip('*')}**<br>{act}" if stop else act
    if book is not None and book.quantity != row.quantity:
        quantity = f"{row.quantity} (this house; the book: {book.quantity})"
    else:
        quantity = row.quantity
    return quantity, *(cell or NOTHING for cell in (accept, watch, stop))


def said(row: Limit) -> tuple[str, str, str]:
    """What is accepted, watched and a stop, in words: ``up to 8 h``, ``8–12 h``, ``over 12 h``."""
    unit = f" {shown(row.unit)}" if row.unit else ""
    low, high = row.accept_low, row.accept_high
    if low is not None and low == high:
        accept = f"{plain_number(low)}{unit}"
    elif low is not None and high is not None:
        accept = f"{plain_number(low)}–{plain_number(high)}{unit}"
    elif high == 0:
        accept = "none"
    elif high is not None:
        accept = f"{'under' if row.stay_under else 'up to'} {plain_number(high)}{_of_one(unit, high)}"
    elif low is not None:
        accept = f"{plain_number(low)}{unit} or more"
    else:
        accept = ""
    stop = _past(row, unit)
    if row.interval and stop:
        stop = f"the whole range of the count lies {stop}"
    accept, watch, stop = (
        words.format(**_edges_said(row)) if "{" in words else _joined(figures, words)
        for figures, words in ((accept, row.accept), (_between(row, unit), row.watch), (stop, row.stop))
    )
    return accept, watch, stop


def _edges_said(row: Limit) -> dict[str, str]:
    """Each edge that a limit has, with its unit."""
    unit = f" {shown(row.unit)}" if row.unit else ""
    edges = {edge: getattr(row, edge) for edge in _EDGES}
    return {edge: f"{plain_number(at)}{_of_one(unit, at)}" for edge, at in edges.items() if at is not None}


def _between(row: Limit, unit: str) -> str:
    """What is neither accepted nor a stop; of a count's range also that it crosses the one edge of both."""
    if row.interval and row.stop_low is not None and row.stop_low == row.accept_low:
        return f"the range crosses {plain_number(row.stop_low)}{unit}"
    apart = []
    if row.accept_low is not None and row.accept_low != row.stop_low:
        apart.append(_span(row.stop_low, row.accept_low) or f"under {plain_number(row.accept_low)}")
    if row.accept_high is not None and row.accept_high != row.stop_high:
        apart.append(_span(row.accept_high, row.stop_high) or f"over {plain_number(row.accept_high)}")
    if not apart:
        return ""
    return f"{'the range reaches into ' if row.interval else ''}{' or '.join(apart)}{unit}"


def _span(low: float | None, high: float | None) -> str:
    """From one edge to the other; nothing where one is not there."""
    if low is None or high is None:
        return ""
    return f"{plain_number(low)}–{plain_number(high)}" if low else f"up to {plain_number(high)}"


def _past(row: Limit, unit: str) -> str:
    if row.stop_high == 0:
        return "any"
    past = [
        f"{word} {plain_number(edge)}"
        for word, edge in (("under", row.stop_low), ("over", None if row.stay_under else row.stop_high))
        if edge is not None
    ]
    stop = f"{', '.join(past)}{_of_one(unit, row.stop_high)}" if past else ""
    if row.stay_under and row.stop_high is not None:
        stop += f"{', ' if stop else ''}{plain_number(row.stop_high)}{_of_one(unit, row.stop_high)} or more"
    return stop


def _of_one(unit: str, value: float | None) -> str:
    """The unit behind a number: one point, two points."""
    return unit.removesuffix("s") if value == 1 and unit.endswith("points") else unit


def _joined(figures: str, words: str) -> str:
    if not figures or not words:
        return figures or words
    if words.startswith(":"):
        return f"{figures}{words}"
    goes_on = words.startswith(("at ", "in ", "of ", "seen", "("))
    return f"{figures} {words}" if goes_on else f"{figures}, {words}"


@cache
def _by_id() -> dict[str, Limit]:
    return {row.id: row for row in every() if isinstance(row, Limit)}


def filled(text: str) -> str:
    """Put the table's own figures, with their unit, in the place of each edge that a text names.

    Parameters
    ----------
    text : str
        Markdown, or words of a question.

    Returns
    -------
    str
        The same with ``22 °C`` for ``[[limit:floor-bottom stop_high]]`` and ``12 to 17 °C`` for
        ``[[limit:floor-piece accept]]``.

    Raises
    ------
    LookupError
        When there is no such limit, or it has no such edge; the message says what there is.
    """
    return _IN_TEXT.sub(lambda found: _figure(found[1], found[2]), text)


def _figure(name: str, which: str) -> str:
    row = _by_id().get(name)
    if row is None:
        raise LookupError(f"No limit “{name}”. There are: {', '.join(_by_id())}.")
    edges = {edge: getattr(row, edge) for edge in _EDGES if getattr(row, edge) is not None}
    if which == "accept" and {"accept_low", "accept_high"} <= set(edges):
        return span(row)
    if which not in edges:
        raise LookupError(f"The limit “{name}” has no “{which}”. It has: {', '.join(edges)}.")
    return at_edge(row, which)
