"""What a verdict rests on: the lines that decided, each a limit, a reading and the edge it passed."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import NamedTuple

from .limit import Limit, Mark, Signs, broken_by, judge_sign


class Line(NamedTuple):
    """One line of a verdict.

    ``rule`` is the limit’s id, or the name of a rule that is no limit. ``value`` is what was read, in the limit’s unit
    or as its word; ``edge`` what it was held against.
    """

    rule: str
    mark: Mark
    value: float | str | None = None
    edge: float | str | None = None
    limit: Limit | Signs | None = None


def passed(limit: Limit | Signs, value: float | str | None, *, high_only: bool = False) -> Line | None:
    """The line of a limit that a reading passed; None when it is accepted, or was not read.

    Parameters
    ----------
    limit : Limit or Signs
        The limit.
    value : float, str or None
        What was read: in the limit's unit, or one of its words.
    high_only : bool, optional
        Whether a value under the accepted ones is left alone, as hours that have only begun.
    """
    if value is None:
        return None
    if isinstance(limit, Signs):
        mark = judge_sign(limit, str(value))
        return Line(limit.id, mark, value, None, limit) if mark in ("watch", "stop") else None
    broken = broken_by(limit, float(value))
    if broken is None or (high_only and broken.side == "low"):
        return None
    return Line(limit.id, broken.mark, float(value), broken.edge, limit)


def worst(lines: list[Line | None]) -> list[Line]:
    """Those that were passed, stops first, otherwise in their order."""
    return sorted((line for line in lines if line), key=lambda line: line.mark != "stop")
