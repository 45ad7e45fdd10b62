"""What a round of the floor asks for: a verdict as data, the stops of the table of limits before all else.

Numbers and words of closed lists come in. Out come actions of a closed list, the worst first, each with the lines that
decided it. The sentences are the sheet's and the day-book's.
"""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from ..models.bed.floor import Band, Guess, band, hours_until, mean_c
from .conventions import NOTICEABLE_K, SOON_H
from .limit import Limit, edge, without_last_bits
from .limits import casting
from .limits import floor_germination as limits
from .lines import Line, passed, worst

STOPS = ("lift-out", "look-for-mould", "turn-now", "break-couch", "thin-now", "tell")
"""Actions at a stop: one of these comes first whenever a limit's stop was passed, and only then."""

ACTIONS = (
    *STOPS,
    "turn",
    "count",
    "sprinkle",
    "plough",
    "thin",
    "thicken",
    "check",
    "open",
    "close",
    "watch",
    "leave",
)
"""In the order in which they come first when several are due."""

SMELLS = (*limits.SMELL.accept, *limits.SMELL.watch, *limits.SMELL.stop)
ROOTS = (*limits.ROOTS.accept, *limits.ROOTS.watch, *limits.ROOTS.stop)
MOULD = (*limits.MOULD.accept, *limits.MOULD.watch, *limits.MOULD.stop)
SHORTER, THREE_QUARTERS = "shorter", "three-quarters"
"""How far the acrospire is in most corns: short of three quarters of the corn, or there."""

FORECAST, OLD_PIECE, RIPE, OUTSIDE = "forecast", "old-piece", "ripe", "outside"
COOLER_BOTTOM, APART_SO_SOON = "cooler-bottom", "apart-so-soon"
"""Rules that are no limits of the table."""


JUST_TURNED_H = 1.0
"""So soon after a turning bottom and top lie close together [h]: they part by about 1 K an hour, common practice."""


class Sight(NamedTuple):
    """What one round found; None where nothing was read or looked at.

    Temperatures [C], differences [K], depth [cm], hours [h], moisture [% of wet weight]. ``difference_limit_k``,
    ``coolest_c`` and ``warmest_c`` are the house's own. ``hours_to_limit`` is the forecast of the thermometers, and
    ``own_readings`` whether it rests on this floor's. ``couch`` says that it lies as it was cast.
    """

    bottom_c: float
    top_c: float
    hours_since_turning: float
    day: float
    difference_limit_k: float = limits.DIFFERENCE.accept_high or inf
    coolest_c: float = limits.PIECE.accept_low or -inf
    warmest_c: float = limits.PIECE.accept_high or inf
    hours_to_limit: float = inf
    own_readings: bool = False
    couch: bool = False
    room_c: float | None = None
    depth_cm: float | None = None
    outside_c: float | None = None
    roots: str | None = None
    acrospire: str | None = None
    smell: str | None = None
    mould: str | None = None
    moisture: float | None = None

    @property
    def mean_c(self) -> float:
        """The piece on the whole [C], midway between bottom and top."""
        return without_last_bits(mean_c(bottom_c=self.bottom_c, top_c=self.top_c))

    @property
    def thin_already(self) -> bool:
        """Whether it lies as thin as a piece is laid, so that it cannot be laid thinner."""
        return self.depth_cm is not None and self.depth_cm <= edge(limits.DEPTH.accept_low)

    @property
    def apart_k(self) -> float:
        """How far bottom and top are apart, whichever is the warmer [K]."""
        return without_last_bits(abs(self.bottom_c - self.top_c))


class Action(NamedTuple):
    """One thing to do, a word of ``ACTIONS``, and the lines that decided it."""

    word: str
    lines: tuple[Line, ...]


class Verdict(NamedTuple):
    """What is due, the worst first; never empty."""

    due: tuple[Action, ...]

    @property
    def word(self) -> str:
        """The first thing to do."""
        return self.due[0].word

    @property
    def words(self) -> tuple[str, ...]:
        """All that is to be done, in order."""
        return tuple(action.word for action in self.due)

    @property
    def stops(self) -> tuple[Line, ...]:
        """The stops that were passed."""
        return tuple(line for action in self.due for line in action.lines if line.mark == "stop")


class Until(NamedTuple):
    """Hours until the first limit of a turning comes, and which one that is by the middle value."""

    hours: Band
    limit: Limit


def turning_limits(couch: bool) -> tuple[Limit, Limit]:
    """The limits of the bottom and of the hours that hold for a couch, or for a piece."""
    return (casting.COUCH_BOTTOM, casting.COUCH_HOURS) if couch else (limits.BOTTOM, limits.TURNING)


def until_turning(
    guesses: Sequence[Guess], *, hours_since_turning: float, difference_limit_k: float, couch: bool = False
) -> Until:
    """Give the hours until a turning is due: by bottom and top, by the bottom, or by the hours it has lain.

    Parameters
    ----------
    guesses : sequence of Guess
        The possible pieces.
    hours_since_turning : float
        Hours since it was turned, or cast [h].
    difference_limit_k : float
        Most that bottom and top of a piece may part in this house [K]; a couch is not judged by it.
    couch : bool, optional
        Whether the couch is not yet broken.

    Returns
    -------
    Until
        Never past the hours that the table of limits accepts.
    """
    weights = [guess.weight for guess in guesses]
    bottom, hours = turning_limits(couch)
    assert bottom.accept_high is not None
    clock = hours_left(hours_since_turning, couch=couch)
    apart = [inf if couch else hours_until(guess.differences, difference_limit_k) for guess in guesses]
    warm = [hours_until(guess.bottoms, bottom.accept_high) for guess in guesses]
    first = band([min(a, b, clock) for a, b in zip(apart, warm, strict=True)], weights)
    middles = [(band(apart, weights).middle, limits.DIFFERENCE), (band(warm, weights).middle, bottom), (clock, hours)]
    return Until(first, min(middles, key=lambda one: one[0])[1])


def verdict(sight: Sight) -> Verdict:
    """Give everything that is due, the worst first; "leave" when nothing is.

    Parameters
    ----------
    sight : Sight
        What the round found.

    Returns
    -------
    Verdict
        With the lines that decided.

    Notes
    -----
    The stops of the table come before anything else. A turning is asked for when a limit is read, when the hours have
    passed those accepted, or when the floor's own readings bring a limit within half an hour; typical values never ask
    for one. Withering roots want water in a young piece; from the sixth day on, or with the acrospire at three
    quarters, they ask for a count. Readings that lie far apart just after a turning are doubted. The
    warmer of the two thermometers counts as the bottom: they may be swapped.
    The rules are common practice; the limits have their sources beside them.
    """
    due: dict[str, list[Line]] = {}
    stops, turning = _stops(sight, due), _turning(sight)
    turned = bool(stops or turning)
    if turning and not stops:
        due["turn"] = turning
    _growth(sight, due, turned)
    _depth(sight, due)
    if unexplained(sight):
        due["check"] = [Line(COOLER_BOTTOM, "watch", sight.bottom_c, sight.top_c)]
    elif not sight.couch and sight.hours_since_turning < JUST_TURNED_H and sight.apart_k >= sight.difference_limit_k:
        due["check"] = [Line(APART_SO_SOON, "watch", sight.hours_since_turning, JUST_TURNED_H)]
    _windows(sight, due)
    _watched(sight, due, turned)
    if not due:
        due["leave"] = [Line(limits.DIFFERENCE.id, "accept", sight.apart_k, sight.difference_limit_k)]
    actions = [Action(word, tuple(worst(list(lines)))) for word, lines in due.items()]
    return Verdict(tuple(sorted(actions, key=lambda action: ACTIONS.index(action.word))))


def cooler_below(bottom_c: float, top_c: float) -> bool:
    """Whether the bottom is cooler than the top by more than thermometers tell apart [C]."""
    return bottom_c < top_c - limits.AT_REST_K


def cooler_unexplained(bottom_c: float, top_c: float, room_c: float | None) -> bool:
    """Whether the bottom is cooler than the top and no warm room explains it [C]: swapped, or read wrongly."""
    return cooler_below(bottom_c, top_c) and (room_c is None or room_c < top_c)


def unexplained(sight: Sight) -> bool:
    """Whether no warm room explains that the bottom is cooler than the top: then nothing can be foretold."""
    return cooler_unexplained(sight.bottom_c, sight.top_c, sight.room_c)


def hours_left(hours_since_turning: float, *, couch: bool = False) -> float:
    """Hours until those are over that the table accepts between turnings, or in the couch [h]; never negative."""
    accepted = turning_limits(couch)[1].accept_high
    assert accepted is not None
    return max(0.0, accepted - hours_since_turning)


def _high(line: Line | None) -> bool:
    value, edge = (line.value, line.edge) if line else (None, None)
    return isinstance(value, float) and isinstance(edge, (int, float)) and value > edge


def _heat(sight: Sight) -> list[Line | None]:
    """The limits of warmth and of lying still, as far as they were passed."""
    bottom, hours = turning_limits(sight.couch)
    found = [
        passed(bottom, max(sight.bottom_c, sight.top_c)),
        passed(limits.DIFFERENCE, sight.apart_k),
        passed(limits.ROOTS, sight.roots),
        passed(hours, sight.hours_since_turning, high_only=True),
    ]
    if sight.couch:
        rise = None if sight.room_c is None else sight.bottom_c - sight.room_c
        return [*found, passed(casting.COUCH_RISE, rise, high_only=True)]
    return [*found, passed(limits.PIECE, sight.mean_c, high_only=True)]


def _watch(limit: Limit, value: float | None) -> list[Line]:
    """The line of an accepted edge that was passed, whether or not the stop was passed too."""
    line = passed(limit, value)
    if line is None:
        return []
    return [line._replace(mark="watch", edge=limit.accept_high if _high(line) else limit.accept_low)]


def _at_stop(lines: list[Line | None]) -> list[Line]:
    return [line for line in lines if line and line.mark == "stop"]


def _stops(sight: Sight, due: dict[str, list[Line]]) -> list[Line]:
    """Put in what a passed stop asks for; give the stops that a turning answers."""
    smell = passed(limits.SMELL, sight.smell)
    musty = [smell] if smell and smell.value == "musty" else []
    sour = [] if musty else [smell]
    mould = _at_stop([passed(limits.MOULD, sight.mould)])
    mould_word = "lift-out" if mould else "look-for-mould"  # nothing is lifted out that was not seen
    turning = _at_stop([*_heat(sight), *sour])
    depth = None if sight.couch else passed(limits.DEPTH, sight.depth_cm)
    piece = passed(limits.PIECE, sight.mean_c)
    told = _at_stop(
        [
            None if _high(piece) else piece,
            passed(limits.ROOM, sight.room_c),
            passed(limits.MOISTURE, sight.moisture),
            passed(limits.SUMMER_BOTTOM, max(sight.bottom_c, sight.top_c)) if sight.thin_already else None,
        ]
    )
    for word, lines in (
        (mould_word, _at_stop([*mould, *musty])),
        ("break-couch" if sight.couch else "turn-now", turning),
        ("thin-now", _at_stop([depth])),
        ("tell", told),
    ):
        if lines:
            due[word] = lines
    return turning


def _turning(sight: Sight) -> list[Line]:
    """Why a turning is due, short of a stop."""
    lines = [line for line in _heat(sight) if line and line.mark == "watch" and line.rule in _TURNED_AT]
    if not sight.couch and sight.apart_k >= sight.difference_limit_k:
        lines.insert(0, Line(limits.DIFFERENCE.id, "watch", sight.apart_k, sight.difference_limit_k, limits.DIFFERENCE))
    elif sight.own_readings and sight.hours_to_limit <= SOON_H:
        lines.append(Line(FORECAST, "watch", sight.hours_to_limit, SOON_H))
    return lines


_TURNED_AT = {
    limit.id for limit in (casting.COUCH_BOTTOM, casting.COUCH_HOURS, limits.BOTTOM, limits.TURNING, casting.COUCH_RISE)
}


def _growth(sight: Sight, due: dict[str, list[Line]], turned: bool) -> None:
    """Water, the count, and the plough: by roots, acrospire and moisture."""
    roots = passed(limits.ROOTS, sight.roots)
    withering = [roots] if roots and roots.value == "withering" else []
    dry = [line for line in _watch(limits.MOISTURE, sight.moisture) if not _high(line)]
    ripe = [Line(RIPE, "watch", THREE_QUARTERS)] if sight.acrospire == THREE_QUARTERS else []
    aged = sight.day >= limits.OLD_PIECE_DAY and (bool(withering) or sight.acrospire is None)
    old = [Line(OLD_PIECE, "watch", sight.day, float(limits.OLD_PIECE_DAY))] if aged else []
    wet = sight.moisture is not None and sight.moisture >= (limits.MOISTURE.accept_high or inf)
    if ripe or (old and (withering or dry)):
        due["count"] = [*withering, *dry, *ripe, *old]
    elif dry or (withering and not wet):
        due["sprinkle"] = [*withering, *dry]
    if roots and roots.value == "clinging" and not turned:
        due["plough"] = [roots]


def _depth(sight: Sight, due: dict[str, list[Line]]) -> None:
    """Thinner where it is too warm or too wet, thicker where it is too cool."""
    if sight.couch:
        return
    bottom = _watch(limits.BOTTOM, max(sight.bottom_c, sight.top_c))
    wet = [line for line in _watch(limits.MOISTURE, sight.moisture) if _high(line)]
    depth, thinnest, thickest = sight.depth_cm, limits.DEPTH.accept_low or 0.0, limits.DEPTH.stop_high or inf
    warm = [Line(limits.PIECE.id, "watch", sight.mean_c, sight.warmest_c, limits.PIECE)]
    cold = [Line(limits.PIECE.id, "watch", sight.mean_c, sight.coolest_c, limits.PIECE)]
    if sight.mean_c < sight.coolest_c and not bottom:
        if depth is None or depth < thickest:
            due["thicken"] = cold
        return
    too_warm = warm if sight.mean_c > sight.warmest_c else []
    thin = [*too_warm, *bottom, *wet]
    if "thin-now" in due:
        due["thin-now"] += thin
    elif thin and (depth is None or depth > thinnest):
        due["thin"] = thin


def _windows(sight: Sight, due: dict[str, list[Line]]) -> None:
    outside, room = sight.outside_c, sight.room_c
    if outside is None or room is None:
        return
    warm, cold = sight.mean_c > sight.warmest_c, sight.mean_c < sight.coolest_c
    line = [Line(OUTSIDE, "watch", outside, room)]
    if warm and outside <= room - NOTICEABLE_K:
        due["open"] = line
    elif (warm and outside >= room + NOTICEABLE_K) or (cold and outside <= room - NOTICEABLE_K):
        due["close"] = line


def _watched(sight: Sight, due: dict[str, list[Line]], turned: bool) -> None:
    """What lies between accepted and a stop, and has found no action yet."""
    acted = {line.rule for lines in due.values() for line in lines}
    outside_house = sight.mean_c > sight.warmest_c or sight.mean_c < sight.coolest_c
    mean = Line(
        limits.PIECE.id,
        "watch",
        sight.mean_c,
        sight.warmest_c if sight.mean_c > sight.warmest_c else sight.coolest_c,
        limits.PIECE,
    )
    roots = None if turned and sight.roots == "clinging" else passed(limits.ROOTS, sight.roots)  # a turning parts them
    soon = not turned and sight.hours_to_limit <= SOON_H
    found = [
        *(line for line in _heat(sight) if line and line.rule != limits.ROOTS.id),
        mean if outside_house else None,
        None if sight.couch else passed(limits.DEPTH, sight.depth_cm),
        passed(limits.MOISTURE, sight.moisture),
        passed(limits.SMELL, sight.smell),
        passed(limits.MOULD, sight.mould),
        roots,
        Line(FORECAST, "watch", sight.hours_to_limit, SOON_H) if soon else None,
    ]
    house = {limits.PIECE.id: outside_house, limits.DIFFERENCE.id: False}  # the house's own limits count here
    left = [
        line
        for line in found
        if line and line.mark == "watch" and line.rule not in acted and house.get(line.rule, True)
    ]
    if left:
        due["watch"] = list({line.rule: line for line in left}.values())
