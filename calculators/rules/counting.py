"""How many corns a person can count: no rule asks for more at once."""

from typing import NamedTuple

from .limit import COMMON


class Pace(NamedTuple):
    """How many corns one person gets through in half an hour, and what that rests on."""

    in_half_an_hour: int
    standing: str = COMMON


CHITS = Pace(600)
"""Corns put to one side or the other by a white tip: three seconds each."""
ACROSPIRES = Pace(200)
"""Corns split and laid on the heap of their class: nine seconds each."""
DISHES = Pace(800)
"""Corns laid in dishes, eight of a hundred: as many as the whole test has."""

WIDE_PERCENT = 3.0
"""Half of the interval of a thousand-corn weight from which more is to be counted [% of the weight]: our convention,
2 % of the hours of a steep."""


def asked_for(needed: int | None, counted: int, step: int, pace: Pace) -> int | None:
    """Give how many more corns to ask for, or None where a person cannot count so many.

    Parameters
    ----------
    needed : int or None
        Corns in all that would decide; None when no count would.
    counted : int
        Corns counted so far.
    step : int
        Corns are asked for in whole lots of so many.
    pace : Pace
        What a person can count.

    Returns
    -------
    int or None
        Corns still to count, at least one lot.

    Examples
    --------
    >>> asked_for(430, 200, 100, CHITS), asked_for(3500, 200, 100, CHITS), asked_for(None, 200, 100, CHITS)
    (300, None, None)
    """
    if needed is None:
        return None
    more = max(step, -(-(needed - counted) // step) * step)
    return more if more <= pace.in_half_an_hour else None
