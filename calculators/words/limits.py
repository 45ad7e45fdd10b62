"""How a passed limit is said: what was read, the edge, and what to do."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..asking.declare import Note
from ..asking.figures import fixed, plain_number
from ..asking.units import shown
from ..rules.limit import BOOK, SHIFT_LEAD, Limit, Signs
from ..rules.limit import edge as edge_of
from ..rules.lines import Line, worst

_EDGES = ("stop_low", "accept_low", "accept_high", "stop_high")
_SIDED = re.compile(r"(Under|Over): ")
"""How a limit tells what to do under it from what to do over it."""
_SIGNED = re.compile(r"(?:^|(?<=\. ))([A-Z][a-z ]*): ")
"""How signs tell what to do at one word from what to do at another: “Musty or sour: send it back.”, say."""


def reading(line: Line) -> str:
    """What was read, with its unit, and with as many decimals as part it from its edge."""
    if not isinstance(line.value, float):
        return str(line.value)
    for decimals in (1, 2, 3, 6):
        text = plain_number(float(fixed(line.value, decimals)))
        if not isinstance(line.edge, (int, float)) or float(text) != line.edge:
            break
    return f"{text}{_unit(line)}"


def edge(line: Line) -> str:
    """The edge that it was held against, with its unit: ``over 22 °C``; beside one that a house moved, the book’s."""
    if not isinstance(line.edge, (int, float)):
        return str(line.edge or "")
    assert isinstance(line.value, float)
    side = "over" if line.value > line.edge else "under" if line.value < line.edge else "at"
    return f"{side} {plain_number(line.edge)}{_unit(line)}{beside(line)}"


def _unit(line: Line) -> str:
    unit = shown(line.limit.unit) if isinstance(line.limit, Limit) else ""
    return f" {unit}" if unit else ""


def said(line: Line) -> str:
    """A limit and what was read, in a sentence: “Bottom 24 °C: the stop is over 22 °C.”, say."""
    assert line.limit is not None
    name = line.limit.quantity
    if not isinstance(line.limit, Limit):
        kind = "a stop" if line.mark == "stop" else "to be watched"
        return f"{name}: {reading(line)}, {kind}."
    kind = "the stop is" if line.mark == "stop" else "watched"
    return f"{name} {reading(line)}: {kind} {edge(line)}."


def beside(line: Line) -> str:
    """The book’s own edge beside one that this house has moved: `` (this house; the book: 12 h)``, else nothing."""
    if not isinstance(line.limit, Limit) or line.limit.id not in BOOK:
        return ""
    low = isinstance(line.value, float) and isinstance(line.edge, (int, float)) and line.value < line.edge
    likely = f"{'stop' if line.mark == 'stop' else 'accept'}_{'low' if low else 'high'}"
    names = (likely, *_EDGES)
    return next((book_of(line.limit, name) for name in names if getattr(line.limit, name) == line.edge), "")


def at_edge(limit: Limit, name: str) -> str:
    """An edge with its unit: ``12 h``; beside one that this house moved the book's.

    Parameters
    ----------
    limit : Limit
        The limit, as this house has it.
    name : str
        ``stop_low``, ``accept_low``, ``accept_high`` or ``stop_high``.

    Returns
    -------
    str
        Such as ``10 h (this house; the book: 12 h)``.

    Raises
    ------
    ValueError
        When the limit has no such edge.
    """
    return f"{_figure(limit, name)}{book_of(limit, name)}"


def span(limit: Limit) -> str:
    """What is accepted, from edge to edge with its unit: ``43 to 47 %``; the book's beside it, as :func:`at_edge`."""
    return f"{_span(limit)}{book_of(limit, 'accept_low', 'accept_high')}"


def book_of(limit: Limit, *names: str) -> str:
    """The book's own edge, or both of a span, as it stands behind this house's: `` (this house; the book: 12 h)``.

    Nothing where this house has moved none of them.
    """
    book = BOOK.get(limit.id)
    if book is None or all(getattr(book, name) == getattr(limit, name) for name in names):
        return ""
    return f" (this house; the book: {_figure(book, *names) if len(names) == 1 else _span(book)})"


def taken(value: float, limit: Limit, name: str) -> str:
    """A figure that a reader may have typed, with the unit of the limit; the book's edge beside it where it is ours.

    Parameters
    ----------
    value : float
        In the unit of the limit.
    limit : Limit
        The limit whose edge it is where nothing was typed.
    name : str
        That edge.
    """
    unit = shown(limit.unit)
    said_book = book_of(limit, name) if value == getattr(limit, name) else ""
    return f"{plain_number(value)}{f' {unit}' if unit else ''}{said_book}"


def _figure(limit: Limit, name: str) -> str:
    value = edge_of(getattr(limit, name))
    unit = shown(limit.unit)
    if value == 1 and unit.endswith("points"):
        unit = unit.removesuffix("s")
    return f"{plain_number(value)}{f' {unit}' if unit else ''}"


def _span(limit: Limit) -> str:
    return f"{plain_number(edge_of(limit.accept_low))} to {_figure(limit, 'accept_high')}"


def stop_said(line: Line, *, act: bool = True) -> str:
    """A passed stop with what to do and whom to tell."""
    do = f" {act_of(line)}" if act else ""
    return f"{said(line)}{do}{told(line)}"


def act_of(line: Line) -> str:
    """What to do at a stop; where the limit tells its sides or its words apart, that of the one which was passed."""
    assert line.limit is not None
    if isinstance(line.limit, Signs):
        return _act_of_sign(line.limit, str(line.value))
    before, *sides = _SIDED.split(line.limit.act)
    if not sides or not isinstance(line.value, float) or not isinstance(line.edge, (int, float)):
        return line.limit.act
    by_side = dict(zip(sides[::2], sides[1::2], strict=True))
    text = by_side.get("Under" if line.value < line.edge else "Over", "").strip()
    return f"{before}{text[:1].upper()}{text[1:]}".strip() or line.limit.act


def _act_of_sign(signs: Signs, word: str) -> str:
    words = {*signs.accept, *signs.watch, *signs.stop}
    before, *parts = _SIGNED.split(signs.act)
    kept = [before.strip()]
    for label, text in zip(parts[::2], parts[1::2], strict=True):
        named = set(label.lower().split(" or "))
        if not named <= words:
            kept.append(f"{label}: {text}".strip())
        elif word in named:
            kept.append(f"{text[:1].upper()}{text[1:]}".strip())
    return " ".join(filter(None, kept)) or signs.act


def limit_notes(lines: Iterable[Line | None], *, act: bool = True) -> tuple[Note, ...]:
    """What was passed, a note each: the stops first, with what to do and whom to tell; then what is watched.

    Parameters
    ----------
    lines : iterable of Line or None
        As the rules gave them.
    act : bool, optional
        Whether a stop says what to do; the sheet does so itself where it is false.
    """
    found = worst(list(lines))
    return tuple(
        Note("notice", f"Past a stop. {stop_said(line, act=act)}")
        if line.mark == "stop"
        else Note("remark", said(line))
        for line in found
    )


def told(line: Line) -> str:
    """Whom to tell at a stop, as a sentence."""
    who = line.limit.tell if line.limit else SHIFT_LEAD
    return f" Tell {who}." if who else ""
