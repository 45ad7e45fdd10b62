"""What was done to the grain beyond a limit of the handbook: a debrief names it before any difference of moisture."""

from typing import NamedTuple

from ..rules.limit import Limit, edge
from ..rules.limits import casting, drum_germination, floor_germination, steeping
from ..rules.lines import Line
from ..words.limits import act_of, at_edge
from ..words.limits import said as limit_said
from .run import CASTS, Run, clock
from .warmth import HEATS, Heat, heats

WITHOUT_AIR_H = 1.0
"""From this on under water without air it is a stop: the page has any hour [h]."""


class Span(NamedTuple):
    """A stretch of a run: which kind, its first and its last minute so far."""

    kind: str
    began: int
    ended: int

    @property
    def hours(self) -> float:
        """How long it was [h]."""
        return (self.ended - self.began) / 60.0


class Kind(NamedTuple):
    """A kind of stretch that has a limit.

    Attributes
    ----------
    begins, ends : tuple of str
        The moves that begin it and that end it.
    most_h : float
        How long it may be [h].
    said : str
        What the learner did, with ``{hours}`` and ``{when}``.
    against : str
        What the page has against it.
    named : str
        What the good hand's longest is called.
    never : str
        What is said of the good hand that had none.
    kills : bool
        Whether the corns die of it.
    """

    begins: tuple[str, ...]
    ends: tuple[str, ...]
    most_h: float
    said: str
    against: str
    named: str
    never: str = "It had none."
    kills: bool = False


def _hours(hours: float) -> str:
    return f"{hours:.0f} h" if hours >= 10.0 else f"{hours:.1f} h"


def _stop(limit: Limit, name: str = "The stop") -> str:
    return f"{name} is over {at_edge(limit, 'stop_high')}."


_LAID = ("br", "tu")
_NO_HARM_BY_WARMTH = (
    "Tell the shift lead. Here heat costs dry matter, and kills no grain: in a real piece it does harm."
)
_NEVER_HOT = "It had none at any full hour."
KINDS = {
    "air": Kind(
        ("ao",), ("aw", "ab"), WITHOUT_AIR_H, "Air off under water for {hours}, from {when}.",
        "The page has a stop at any hour without air under water: the corns drown.", "time without air under water",
        "It never took the air off.", True,
    ),
    "water": Kind(
        ("fi", "we"), ("dr", *CASTS), edge(steeping.IMMERSION.stop_high),
        "Left it under water for {hours} without a break, from {when}.",
        f"{_stop(steeping.IMMERSION, 'The stop for one immersion')} Corns drown in a longer one.",
        "immersion", kills=True,
    ),
    "suction": Kind(
        ("dr", "so"), ("sl", "sf", "we", *CASTS), edge(steeping.DRAIN.accept_high) / 60.0,
        "Suction off for {hours} of the rest, from {when}.",
        "This is against the page: start the suction as soon as the water is off the screen. An hour without air is "
        "hard to make good. Of this the teaching model reckons only the warmth.",
        "time without suction",
    ),
    "rest": Kind(
        ("dr",), ("we", *CASTS), edge(steeping.REST.stop_high), "Left it in one rest for {hours}, from {when}.",
        f"{_stop(steeping.REST, 'The stop for a rest')} Left lying, the chits dry and the roots tangle.", "rest",
    ),
    "couch": Kind(
        ("cf", "cw"), _LAID, edge(casting.COUCH_HOURS.stop_high), "Left the couch lying for {hours}, from {when}.",
        _stop(casting.COUCH_HOURS, "The stop for a couch"), "time in the couch",
    ),
    "turning": Kind(
        _LAID, (*_LAID, "ld"), edge(floor_germination.TURNING.stop_high),
        "Left the piece unturned for {hours}, from {when}.",
        f"{_stop(floor_germination.TURNING, 'The stop between turnings')} Roots grow through each other, and tear.",
        "time between turnings",
    ),
    "drum": Kind(
        ("cd", "dt"), ("dt", "ld"), edge(drum_germination.TURNING.stop_high),
        "Left the drum unturned for {hours}, from {when}.",
        _stop(drum_germination.TURNING, "The stop between turnings of a drum"), "time between turnings",
    ),
    "fan": Kind(
        ("fo",), ("fl", "ff", "ld"), 0.0, "The fan stood for {hours} with the grain in, from {when}.",
        "The page has a stop at a fan that stands with grain in.", "stop of the fan", "It never stopped the fan.",
    ),
    "couch-heat": Kind(
        ("cf", "cw"), _LAID, 0.0, "Left the couch past a stop of warmth for {hours}, from {when}.",
        _NO_HARM_BY_WARMTH, "time past a stop of warmth", _NEVER_HOT,
    ),
    "piece-heat": Kind(
        (*_LAID, "th", "op"), (*_LAID, "th", "op", "ld"), 0.0,
        "Left the piece past a stop of warmth for {hours}, from {when}.",
        _NO_HARM_BY_WARMTH, "time past a stop of warmth", _NEVER_HOT,
    ),
    "drum-heat": Kind(
        ("cd", "dt", "fo", "fl"), ("dt", "ff", "ld"), 0.0,
        "Left the drum past a stop of warmth for {hours}, from {when}.",
        _NO_HARM_BY_WARMTH, "time past a stop of warmth", _NEVER_HOT,
    ),
}  # fmt: skip
"""In the order in which they are named: what the corns die of comes first."""


class Harm(NamedTuple):
    """A stretch that was longer than it may be: when it passed its limit, and when it has to be ended to undo it."""

    span: Span
    passed: int
    before: int
    longest_h: float
    """The good hand's longest of the kind on the same number [h]."""
    stops: tuple[Line, ...] = ()
    """Of warmth: the stops that were passed, each at its worst."""

    @property
    def kind(self) -> Kind:
        """Its kind."""
        return KINDS[self.span.kind]

    @property
    def said(self) -> str:
        """What the learner did."""
        said = self.kind.said.format(hours=_hours(self.span.hours), when=clock(self.span.began))
        return " ".join((said, *(limit_said(line) for line in self.stops)))

    @property
    def against(self) -> str:
        """What the page has against it."""
        return " ".join((*(act_of(line) for line in self.stops[:1]), self.kind.against))

    @property
    def theirs(self) -> str:
        """What the good hand did instead."""
        return f"Its longest {self.kind.named}: {_hours(self.longest_h)}." if self.longest_h else self.kind.never


def spans(run: Run, name: str) -> list[Span]:
    """Give all stretches of a kind in a run, in the order of time."""
    if name == "air":
        wet = [Span(name, one.began, one.ended) for one in spans(run, "water")]
        off = _between(run, name)
        both = [Span(name, max(a.began, b.began), min(a.ended, b.ended)) for a in wet for b in off]
        return [one for one in both if one.began < one.ended]
    return _between(run, name)


def _between(run: Run, name: str) -> list[Span]:
    kind = KINDS[name]
    found: list[Span] = []
    began: int | None = None
    for minute, code, _, _ in run.done:
        if began is not None and code in kind.ends:
            found.append(Span(name, began, minute))
            began = None
        if began is None and code in kind.begins:
            began = minute
    if began is not None:
        found.append(Span(name, began, run.minute))
    return found


def harms(run: Run, good: Run) -> list[Harm]:
    """Give what the learner did beyond a limit and the good hand did not: what the corns die of first, then by time.

    Parameters
    ----------
    run : Run
        The learner's.
    good : Run
        The good hand's on the same number.
    """
    found = []
    for name, kind in KINDS.items():
        if name in HEATS.values():
            continue
        longest = max((one.hours for one in spans(good, name)), default=0.0)
        for one in spans(run, name):
            passed = one.began + round(60.0 * kind.most_h)
            if one.hours > max(kind.most_h, longest) and passed >= run.begins:
                before = one.began if name in ("air", "fan") else passed
                found.append(Harm(one, passed, max(before, run.begins), longest))
    found += [harm for where in HEATS if (harm := _hot(run, good, where))]
    return sorted(found, key=lambda one: (not one.kind.kills, one.passed))


def _hot(run: Run, good: Run, where: str) -> Harm | None:
    """Give the longest stretch past a stop of warmth in one place, where the good hand had none as long."""
    mine, theirs = (_longest(heats(one.warmths, where, run.begins, one.minute)) for one in (run, good))
    longest = (theirs.ended - theirs.began) / 60.0 if theirs else 0.0
    if mine is None or (mine.ended - mine.began) / 60.0 <= longest:
        return None
    kind = KINDS[HEATS[where]]
    answers = (minute for minute, code, _, _ in good.done if code in (*kind.begins, *kind.ends))
    answered = next((minute for minute in answers if mine.began <= minute <= mine.ended), mine.began)
    return Harm(Span(HEATS[where], mine.began, mine.ended), mine.began, answered, longest, mine.worst)


def _longest(some: list[Heat]) -> Heat | None:
    return max(some, key=lambda one: one.ended - one.began, default=None)


def under_water(run: Run) -> str:
    """Give what the moisture does not say: an immersion past its stop, and the hours of it without air; else blank."""
    longest = {name: max((one.hours for one in spans(run, name)), default=0.0) for name in ("water", "air")}
    said = []
    if longest["water"] > KINDS["water"].most_h:
        over = at_edge(steeping.IMMERSION, "stop_high")
        said.append(f"It lay under water for {longest['water']:.0f} h without a break, and the stop is over {over}.")
    if longest["air"] > WITHOUT_AIR_H:
        said.append(f"Without air it lay under water for {_hours(longest['air'])}, and any hour is a stop.")
    return " ".join(said)
