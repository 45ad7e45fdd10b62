"""Numbers of this house for an exercise, for a reader who asked for them; all else stays invented.

A seed that ends in the mark asks for them: the same paper number then has the same questions, with a steep, a water or
a barley of the house where the sheet takes it. Sheets about gas, vessels and lifting take none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import NamedTuple

from ..asking.declare import Number, Sheet, Table
from ..house import here

_MARK = "@house"
_GROWS = ("kg", "m3", "m3/h")
"""Units of what grows with the charge."""
_SIZES = ("kg", "g", "m3")
_OF_CORNS = "corn_weight_g"
_CHARGE = ("barley_kg", "grain_kg")


class Own(NamedTuple):
    """What of a house stands in an exercise: text by question, and how each is called there."""

    typed: dict[str, str]
    names: tuple[str, ...]


NONE = Own({}, ())


def with_own(seed: str) -> str:
    """The seed of the same paper with this house's numbers."""
    return seed + _MARK


def plain(seed: str) -> str:
    """The seed without the mark."""
    return seed.replace(_MARK, "")


def own_questions(sheet: Sheet, questions: Sequence[str]) -> list[str]:
    """The questions, of those, to which this house has a number of its own; none on a guarded sheet.

    A charge or a basket of the house stands beside no weight or volume that was drawn.
    """
    names = [] if sheet.guarded else [name for name in questions if here.OFFERED.get(name)]
    if any(is_size(sheet, name) for name in questions if name not in names):
        names = [name for name in names if not is_size(sheet, name)]
    return names


def is_size(sheet: Sheet, name: str) -> bool:
    """Whether a question is about how much there is of something; the weight of a thousand corns is not."""
    asked = sheet.question(name)
    cells = asked.columns if isinstance(asked, Table) else (asked,)
    return name != _OF_CORNS and any(isinstance(one, Number) and one.unit in _SIZES for one in cells)


def own_values(sheet: Sheet, questions: Sequence[str], seed: str) -> Iterator[Own]:
    """What of this house may stand in an exercise, the most first; at the end nothing.

    Parameters
    ----------
    sheet : Sheet
        The exercise's sheet.
    questions : sequence of str
        Those that the exercise draws by themselves.
    seed : str
        As for the exercise; without the mark there is nothing.
    """
    names = own_questions(sheet, questions) if _MARK in seed else []
    dice = Random(f"{sheet.id} {seed}")
    chosen = {name: dice.choice(here.OFFERED[name]) for name in names}
    for some in ([names] if len(names) > 1 else []) + [[name] for name in names]:
        called = dict.fromkeys(chosen[name][1] for name in some)
        yield Own({name: chosen[name][0] for name in some}, tuple(called))
    yield NONE


def grown(own: Own, question: str, low: float, high: float, unit: str) -> float:
    """How much larger an answer is than the exercise expects, from a charge of this house; 1 where it is not.

    Parameters
    ----------
    own : Own
        What of the house stands in it.
    question : str
        The one that the exercise draws.
    low, high : float
        What it draws there.
    unit : str
        Of the answer.
    """
    if question not in _CHARGE or question not in own.typed or unit not in _GROWS:
        return 1.0
    charge = float(own.typed[question])
    return 1.0 if low <= charge <= high else charge * 2.0 / (low + high)


def said(own: Own) -> str:
    """What stands behind a question: whose numbers are in it."""
    return f" (Of this house: {'; '.join(own.names)}. The rest is invented.)" if own.names else ""
