"""What the load of a drain is against the figures of its consent. No word of it lets water go."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import Literal, NamedTuple

from .limit import edge, without_last_bits
from .limits.steeping import CONSENT
from .lines import Line, passed

Word = Literal["over", "likely", "open", "less"]


class Share(NamedTuple):
    """A part of what the consent says: in the middle and at both ends of what is open [%]."""

    value: float
    low: float
    high: float


class ConsentVerdict(NamedTuple):
    """The word, and the line of the share that lies highest; no line where all are accepted."""

    word: Word
    line: Line | None


def against_consent(shares: list[Share]) -> ConsentVerdict:
    """Hold the shares of a consent against the limit, each by its upper end.

    Parameters
    ----------
    shares : list of Share
        One for each figure of the consent that was typed; at least one.

    Returns
    -------
    ConsentVerdict
        ``over``: one share lies over the whole even at its lower end; ``likely``: one does in the middle; ``open``:
        an upper end is watched or past the stop; ``less``: all upper ends are accepted.

    Raises
    ------
    ValueError
        When there is no share.
    """
    shares = [Share(*map(without_last_bits, share)) for share in shares]
    highest = max(share.high for share in shares)
    line = passed(CONSENT, highest)
    if any(share.low > edge(CONSENT.stop_high) for share in shares):
        return ConsentVerdict("over", line)
    if any(share.value > edge(CONSENT.stop_high) for share in shares):
        return ConsentVerdict("likely", line)
    return ConsentVerdict("open" if line else "less", line)
