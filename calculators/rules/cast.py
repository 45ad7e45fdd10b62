"""Whether a steep is held, wetted again or cast: what was found, against the limits of the steep and of the cast.

The share of chitted corns is taken as it was counted, as the pages take it; how sure it is stands beside it.
"""

from typing import Literal, NamedTuple

from ..models.counts.distributions import beta_share
from ..models.counts.enough import corns_to_decide
from .counting import CHITS, asked_for
from .limit import Limit, edge, judge
from .limits import casting, steeping
from .lines import Line

Word = Literal["hold", "wet-again", "cast"]
To = Literal["couch", "drum"]

SOUR, MUSTY = "sour", "musty"
CHITS_OF = (casting.CHIT.id, casting.CHIT_COUCH.id, steeping.CHIT_LAST_DIP.id)
"""The limits of the chits."""
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


class Verdict(NamedTuple):
    """The word, the lines that decided, and how sure the count of the chits is.

    A line's ``rule`` is ``sour`` or ``musty``, or the id of a limit: of the chits, of the moisture against its target,
    of the grain's warmth in a rest and of the hours of a rest.

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
    return edge(limit_of(to).accept_low)


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
    short = gap > edge(casting.OFF_TARGET.accept_high)
    wet = Line(casting.OFF_TARGET.id, "watch" if short else "accept", seen.moisture, seen.target, casting.OFF_TARGET)
    cast = Line(at_cast.id, judge(at_cast, share), share, seen.wanted, at_cast)
    dip = Line(at_dip.id, judge(at_dip, share), share, seen.wanted_dip, at_dip)
    hot, long = edge(steeping.REST_TEMP.stop_high), edge(steeping.REST.accept_high)
    warm = rested = None
    if seen.grain_temp_c > hot:
        warm = Line(steeping.REST_TEMP.id, "stop", seen.grain_temp_c, hot, steeping.REST_TEMP)
    if seen.hours_since_drain >= long:
        rested = Line(steeping.REST.id, "watch", seen.hours_since_drain, long, steeping.REST)
    if seen.smell in (MUSTY, SOUR):
        bad = Line(seen.smell, "stop", seen.smell)
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
    return given._replace(accept_low=wanted, stop_low=min(edge(given.stop_low), wanted))


def _verdict(seen: Seen, word: Word, *lines: Line) -> Verdict:
    share = seen.chitted / seen.counted
    held = next((line.edge for line in lines if line.rule in CHITS_OF), seen.wanted)
    assert isinstance(held, (int, float))
    under = beta_share(held / 100.0, seen.chitted + 0.5, seen.counted - seen.chitted + 0.5)
    needed = corns_to_decide(share=share, limit=held / 100.0)
    settled = needed is not None and needed <= seen.counted
    more = None if settled else asked_for(needed, seen.counted, STEP, CHITS)
    return Verdict(word, lines, 100.0 * share, held, under, settled, more)
