"""What a limit of the trade is made of, and how a value is judged by it.

A limit stands once, as data, in ``rules.limits``. The tables of the procedures are drawn from it; sheets, day-book,
papers and exercises judge by it.
"""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import Literal, NamedTuple

from . import house

Mark = Literal["accept", "watch", "stop"]
MARKS: tuple[Mark, ...] = ("accept", "watch", "stop")

PUBLISHED = "published"
COMMON = "common practice"
MEMORY = "from memory"
OURS = "a convention of this handbook"

SHIFT_LEAD = "the shift lead"


class Limit(NamedTuple):
    """Accept, watch and stop of one quantity.

    A value below ``stop_low`` or above ``stop_high`` is a stop; one from ``accept_low`` to ``accept_high`` is
    accepted; one between is watched. The edges themselves belong to the milder side. An edge that is None is not there.

    ``page`` is the procedure whose table holds it, by its file's name. ``accept``, ``watch`` and ``stop`` are what
    the page says behind the figures, or instead of them; where they name an edge, as ``{stop_high}``, they stand for
    the figures, and it is drawn with its unit. ``act`` is what to do at the stop, ``tell`` whom to tell
    where that is not the shift lead.
    ``standing`` says what the edges rest on, ``sources`` are ids. ``safety`` is set where people can be hurt: a house
    may only tighten it. ``lowest`` and ``highest`` bound where a house may move any edge to.

    With ``interval`` the share comes from a count and is judged by its whole interval: ``judge_interval``.
    With ``stay_under`` the value has to stay under the high edges: at one, it is past it.
    """

    id: str
    page: str
    quantity: str
    unit: str = ""
    stop_low: float | None = None
    accept_low: float | None = None
    accept_high: float | None = None
    stop_high: float | None = None
    accept: str = ""
    watch: str = ""
    stop: str = ""
    act: str = ""
    tell: str = SHIFT_LEAD
    standing: str = COMMON
    sources: tuple[str, ...] = ()
    safety: bool = False
    lowest: float | None = None
    highest: float | None = None
    interval: bool = False
    stay_under: bool = False


class Signs(NamedTuple):
    """Accept, watch and stop of what is seen, smelt or done, in words of a closed list.

    ``accept``, ``watch`` and ``stop`` are the words; ``accept_more``, ``watch_more`` and ``stop_more`` follow them on
    the page. ``accept_as`` is what the page says in place of the words accepted.
    """

    id: str
    page: str
    quantity: str
    accept: tuple[str, ...] = ()
    watch: tuple[str, ...] = ()
    stop: tuple[str, ...] = ()
    accept_as: str = ""
    accept_more: str = ""
    watch_more: str = ""
    stop_more: str = ""
    act: str = ""
    tell: str = SHIFT_LEAD
    standing: str = COMMON
    sources: tuple[str, ...] = ()


class Broken(NamedTuple):
    """A limit that a value passed: which, on which side, and the edge."""

    limit: Limit
    side: Literal["low", "high"]
    edge: float
    mark: Mark


BOOK: dict[str, Limit] = {}
"""The limits whose edges this house has moved, as the book has them, by id."""


def limit(given: Limit, book: Limit | None = None) -> Limit:
    """The limit as this house has it: with the house's edges where it set some.

    Parameters
    ----------
    given : Limit
        The book's own; where it stands on edges of others, with these as this house has them.
    book : Limit, optional
        The same on the book's own edges (:func:`of_book`), if it stands on any of others.

    Returns
    -------
    Limit
        The same, or with other edges.
    """
    edges = house.EDGES.get(given.id, {})
    before = book or given
    if not edges and before == given:
        return given
    BOOK[given.id] = before
    return given._replace(**edges)  # type: ignore[arg-type]


def of_book(given: Limit) -> Limit:
    """The limit as the book has it."""
    return BOOK.get(given.id, given)


def edge(value: float | None) -> float:
    """Give an edge that its limit is known to have.

    Raises
    ------
    ValueError
        When the limit has no such edge.
    """
    if value is None:
        raise ValueError("the limit has no such edge")
    return value


def judge(given: Limit, value: float) -> Mark:
    """Whether a value is accepted, watched or a stop.

    Parameters
    ----------
    given : Limit
        The limit.
    value : float
        In the limit's unit.

    Returns
    -------
    str
        ``accept``, ``watch`` or ``stop``.

    Examples
    --------
    >>> hours = Limit("x", "steeping", "One immersion", "h", accept_high=8, stop_high=12)
    >>> [judge(hours, value) for value in (8, 8.1, 12, 12.1)]
    ['accept', 'watch', 'watch', 'stop']
    """
    broken = broken_by(given, value)
    return broken.mark if broken else "accept"


def broken_by(given: Limit, value: float) -> Broken | None:
    """The edge that a value passed, the stop's before the watch's; None when it is accepted.

    Parameters
    ----------
    given : Limit
        The limit.
    value : float
        In the limit's unit.
    """
    value = without_last_bits(value)
    if given.stop_low is not None and value < given.stop_low:
        return Broken(given, "low", given.stop_low, "stop")
    if given.stop_high is not None and _past(given, value, given.stop_high):
        return Broken(given, "high", given.stop_high, "stop")
    if given.accept_low is not None and value < given.accept_low:
        return Broken(given, "low", given.accept_low, "watch")
    if given.accept_high is not None and _past(given, value, given.accept_high):
        return Broken(given, "high", given.accept_high, "watch")
    return None


def without_last_bits(value: float) -> float:
    """A value without what the last bits of a machine's sums make of it: they decide no verdict at an edge.

    >>> 16.1 - 8.1 > 8.0, without_last_bits(16.1 - 8.1) > 8.0
    (True, False)
    """
    return round(value, 9)


def _past(given: Limit, value: float, edge: float) -> bool:
    return value >= edge if given.stay_under else value > edge


def judge_interval(given: Limit, low: float, high: float) -> Mark:
    """Whether all that a count leaves open is accepted, all of it is a stop, or neither.

    Parameters
    ----------
    given : Limit
        The limit.
    low, high : float
        The ends of the interval, in the limit's unit.

    Returns
    -------
    str
        ``accept`` when both ends are accepted, ``stop`` when both lie past the same stop, else ``watch``.

    Examples
    --------
    >>> energy = Limit("x", "germination-test", "Energy", "%", stop_low=95, accept_low=95, interval=True)
    >>> [judge_interval(energy, *ends) for ends in ((95, 99), (94.9, 99), (90, 94.9), (90, 95))]
    ['accept', 'watch', 'stop', 'watch']
    """
    ends = broken_by(given, low), broken_by(given, high)
    if ends == (None, None):
        return "accept"
    sides = {end.side if end and end.mark == "stop" else None for end in ends}
    return "stop" if len(sides) == 1 and None not in sides else "watch"


def judge_sign(given: Signs, word: str) -> Mark | None:
    """Whether a word is accepted, watched or a stop; None when the limit does not know it.

    Parameters
    ----------
    given : Signs
        The limit.
    word : str
        One of its words.
    """
    for mark, words in zip(MARKS, (given.accept, given.watch, given.stop), strict=True):
        if word in words:
            return mark
    return None
