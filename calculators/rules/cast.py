"""Whether a steep is held, wetted again or cast: what was found, against the limits of the steep and of the cast.

The share of chitted corns is taken as it was counted, as the pages take it; how sure it is stands beside it.
"""

from typing import Literal, NamedTuple

from ..models.distributions import beta_share
from ..models.enough import corns_to_decide
from .counting import CHITS, asked_for
from .limit import Limit, Mark, judge
from .limits import casting, steeping

Word = Literal["hold", "wet-again", "cast"]
To = Literal["couch", "drum"]
What = Literal["musty", "sour", "chit-cast", "chit-dip", "moisture", "warm", "rested"]

SOUR, MUSTY = "sour", "musty"
STEP = 100
"""Corns are counted in lots of so many, as the page counts them."""


class Seen(NamedTuple):
    """What was found on the platform, and where it would be cast to.

    ``wanted`` and ``wanted_dip`` are the shares [%] from which the chits do for the cast and for a last dip.
    """

    moisture: float
    target: float
    chitted: int
    counted: int
    to: To
    smell: str
    grain_temp_c: float
    hours_since_drain: float
    wanted: float
    wanted_dip: float


class Line(NamedTuple):
    """A finding that decided: what, its value, the edge it was held against, and whether it keeps it."""

    what: What
    value: float
    edge: float
    mark: Mark


class Verdict(NamedTuple):
    """The word, the lines that decided, and how sure the count of the chits is.

    ``under`` is the chance that the true share lies under the edge that decided about the chits, ``edge``.
    ``more`` corns would settle it; None where it is settled, or where no half hour's counting settles it.
    """

    word: Word
    lines: tuple[Line, ...]
    share: float
    edge: float
    under: float
    settled: bool
    more: int | None


def wanted_for(to: To) -> float:
    """Give the share of chitted corns from which grain is cast to a couch or to a drum [%]."""
    return float(limit_of(to).accept_low or 0.0)


def limit_of(to: To) -> Limit:
    """Give the limit of the chits at a cast to a couch or to a drum."""
    return casting.CHIT_COUCH if to == "couch" else casting.CHIT


def decide(seen: Seen) -> Verdict:
    """Give the verdict on a steep.

    Parameters
    ----------
    seen : Seen
        What was found.

    Returns
    -------
    Verdict
        ``hold`` when the smell is bad, when the chits are under the stop, and when they are short with the moisture
        on target; ``wet-again`` when the moisture is short and the chits do for a dip; else ``cast``.

    Examples
    --------
    >>> def word(moisture, chitted, to="drum", smell="fresh"):
    ...     return decide(Seen(moisture, 45, chitted, 200, to, smell, 16, 10, wanted_for(to), 70)).word
    >>> word(45, 188), word(45, 170), word(45, 170, "couch"), word(42, 188), word(42, 98), word(42, 188, smell="sour")
    ('cast', 'hold', 'cast', 'wet-again', 'hold', 'hold')
    """
    share = 100.0 * seen.chitted / seen.counted
    at_cast = _own(limit_of(seen.to), seen.wanted)
    at_dip = _own(steeping.CHIT_LAST_DIP, seen.wanted_dip)
    gap = seen.target - seen.moisture
    short = gap > float(casting.OFF_TARGET.accept_high or 0.0)
    wet = Line("moisture", seen.moisture, seen.target, "watch" if short else "accept")
    cast = Line("chit-cast", share, seen.wanted, judge(at_cast, share))
    dip = Line("chit-dip", share, seen.wanted_dip, judge(at_dip, share))
    warm = _passed("warm", seen.grain_temp_c, steeping.REST_TEMP.stop_high)
    rested = _passed("rested", seen.hours_since_drain, steeping.REST.accept_high)
    if seen.smell in (MUSTY, SOUR):
        bad = Line("musty" if seen.smell == MUSTY else "sour", 0.0, 0.0, "stop")
        return _verdict(seen, "hold", bad, wet, cast)
    if not short:
        if cast.mark == "accept":
            return _verdict(seen, "cast", cast, wet)
        # grain that warms, or that has rested long, does no better in the vessel; a couch is made for finishing
        pushed = warm or (rested if seen.to == "couch" else None)
        if cast.mark == "watch" and pushed:
            return _verdict(seen, "cast", pushed, cast, wet)
        return _verdict(seen, "hold", cast, wet)
    if dip.mark == "accept":
        return _verdict(seen, "wet-again", dip if cast.mark != "accept" else cast, wet)
    pushed = warm or rested
    if dip.mark == "watch" and pushed:
        return _verdict(seen, "wet-again", pushed, dip, wet)
    return _verdict(seen, "hold", dip, wet)


def _own(given: Limit, wanted: float) -> Limit:
    """The limit with the share that this reader wants; the stop is never above it."""
    return given._replace(accept_low=wanted, stop_low=min(float(given.stop_low or 0.0), wanted))


def _passed(what: What, value: float, edge: float | None) -> Line | None:
    """A finding past its edge, or None."""
    if edge is None or (value < edge if what == "rested" else value <= edge):
        return None
    return Line(what, value, edge, "watch")


def _verdict(seen: Seen, word: Word, *lines: Line) -> Verdict:
    share = seen.chitted / seen.counted
    edge = next((line.edge for line in lines if line.what in ("chit-cast", "chit-dip")), seen.wanted)
    under = beta_share(edge / 100.0, seen.chitted + 0.5, seen.counted - seen.chitted + 0.5)
    needed = corns_to_decide(share=share, limit=edge / 100.0)
    settled = needed is not None and needed <= seen.counted
    more = None if settled else asked_for(needed, seen.counted, STEP, CHITS)
    return Verdict(word, lines, 100.0 * share, edge, under, settled, more)
