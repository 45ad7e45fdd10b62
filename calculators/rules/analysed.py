"""Whether a figure of an analysis lies as it was ordered: by the figure and by how far one result may be off."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Sequence
from typing import Literal, NamedTuple

Word = Literal["ordered", "open", "off"]


class Ordered(NamedTuple):
    """One figure and what was ordered of it.

    Attributes
    ----------
    value : float
        What the sheet has [any unit].
    doubt : float
        How far one result may lie from the malt's own figure [the same unit].
    low, high : float or None
        What was ordered, both ends still in order.
    """

    value: float
    doubt: float
    low: float | None = None
    high: float | None = None


def as_ordered(one: Ordered) -> Word:
    """Hold one figure against its order.

    Parameters
    ----------
    one : Ordered
        The figure.

    Returns
    -------
    str
        ``off``: past an end by more than the doubt; ``open``: past it by no more; else ``ordered``, also near an end.

    Examples
    --------
    >>> [as_ordered(Ordered(value, 0.08, 1.5, 1.7)) for value in (1.58, 1.7, 1.76, 1.79)]
    ['ordered', 'ordered', 'open', 'off']
    """
    past = max(
        one.value - one.high if one.high is not None else -1e9, one.low - one.value if one.low is not None else -1e9
    )
    if past > one.doubt + 1e-9:
        return "off"
    return "open" if past > 1e-9 else "ordered"


def near_an_end(one: Ordered) -> bool:
    """Whether a figure that is as ordered lies so near an end that a second result may fall past it."""
    ends = [abs(one.value - end) for end in (one.low, one.high) if end is not None]
    return bool(ends) and as_ordered(one) == "ordered" and min(ends) < one.doubt


def worst_word(words: Sequence[Word]) -> Word | None:
    """The word of all of them: the worst one; None where nothing was ordered."""
    for word in ("off", "open", "ordered"):
        if word in words:
            return word
    return None
