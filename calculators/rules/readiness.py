"""Whether a piece goes to the kiln now: what it would cost by the counts, against what a wait would cost.

Costs are in points: one point is one corn of a hundred spoilt. A corn short of three quarters that the target wants
there is one, and so is a corn overshot beyond the limit. The share at three quarters *and beyond* decides about
waiting; the share overshot decides about going. A piece under its target that is not late is never sent, whatever the
costs say: a wide piece is cheap to send only because no wait mends all of it.
"""

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from ..models.counts import acrospire
from ..models.counts.distributions import SURE_SD, beta_share
from ..models.counts.intervals import clopper_pearson, newcombe
from ..models.counts.posterior import expected_over, expected_short, likely_outcomes
from .counting import ACROSPIRES
from .limit import COMMON, OURS, edge
from .limits.readiness import FLOUR

Word = Literal["kiln-now", "wait", "count-more", "late"]
Because = Literal["cost", "overshot", "rub", "short"]
Classes = tuple[float, ...]


class Cost(NamedTuple):
    """What something costs: points, and what the figure rests on."""

    points: float
    standing: str


SHORT = Cost(1.0, OURS)
"""A corn of a hundred under three quarters that the target wants there: hard, and gives little."""
OVERSHOT = Cost(1.0, OURS)
"""A corn of a hundred overshot beyond the limit: it has eaten itself."""
DAY_BREATHED = Cost(1.0, COMMON)
"""A day's wait: about a hundredth of the dry matter is breathed away."""
DAY_OF_THE_PLACE = Cost(2.0, OURS)
"""A day's wait: the floor or the drum, and the kiln, stand still for the next batch."""
HUNDRED_COUNTED = Cost(0.5, OURS)
"""A hundred corns counted: a quarter of an hour in which nobody does anything else, and the piece grows on."""

LEAST_WAIT_H, MOST_WAIT_H = 6.0, 72.0
"""A wait is not shorter than the time in which a new count tells a change, and is not reckoned longer [h]: common
practice."""
SHORTER_WAITS_H = (LEAST_WAIT_H, 12.0, 24.0)
"""Waits that are weighed too where too many are overshot by the time that the target is there [h]: our convention."""
UNEVEN_UNDER = 70.0
"""Share in the two neighbouring classes that hold most, under which a piece is uneven [%]: our convention."""
RUB_AGAIN_H = 12.0
"""Hours to the next rub of a piece whose acrospires are long and whose corns are hard [h]: common practice."""
LATE_FROM = 0.5
"""Chance from which a piece is called late: it is then more likely late than not."""
DAY_TO_DAY_SD = 0.03
"""How one day's growth differs from the next in one piece [corn lengths a day]: our assumption."""
BEFORE_AT_MOST = 1 / 3
"""Yesterday's count moved on by its growth counts for no more than this part of its corns: our assumption."""
STEPS = (50, 100, 150, 200)
"""Further counts that are weighed against deciding now [corns]."""

CANNOT_BE = 0.001
"""Chance under which counts that fall back are no chance of counting: acrospires do not shrink (our convention)."""

_NODES = (  # of the standard normal distribution: Gauss and Hermite, five points
    (-2.8569700139, 0.0112574113),
    (-1.3556261800, 0.2220759220),
    (0.0, 0.5333333333),
    (1.3556261800, 0.2220759220),
    (2.8569700139, 0.0112574113),
)
_SURER = 3.090232  # of the same distribution, at CANNOT_BE


class Seen(NamedTuple):
    """The counts by class, today's first and ``hours`` apart; the edges [%]; corns that rub to flour, of how many."""

    days: tuple[Classes, ...]
    hours: float
    target: float
    overshot_limit: float
    flour: tuple[int, int] | None = None


class Growth(NamedTuple):
    """Growth of the acrospires [corn lengths a day] with its standard deviation; as counted, where it was counted.

    ``sure`` is false where the counts of two days show no sure growth.
    """

    value: float
    sd: float
    counted: acrospire.Rate | None
    sure: bool


class Before(NamedTuple):
    """What the days before say of today: the share at three quarters and beyond, and for how many corns it counts."""

    share: float
    corns: float


class Wait(NamedTuple):
    """Growth still needed [corn lengths] and the hours it takes, with their 95 % range by count and growth [h]."""

    grown: float
    hours: float
    low: float
    high: float


class Points(NamedTuple):
    """What a road is expected to cost, by what it is paid for: corns short, corns overshot, time, another count."""

    short: float
    overshot: float
    time: float = 0.0
    another: float = 0.0

    @property
    def total(self) -> float:
        """All of it."""
        return self.short + self.overshot + self.time + self.another


class Waiting(NamedTuple):
    """The cheapest wait: its points, its hours, and whether the target is there then.

    ``uneven`` is set where more are overshot than the limit by the time that the target is there, and the lengths
    are spread wide or the kiln now costs no more than that wait; ``hours`` are then those to the next count.
    """

    points: Points
    hours: float
    there: bool
    uneven: bool


class Verdict(NamedTuple):
    """The word, what decided, and the numbers it was decided by.

    ``kiln`` and ``waiting`` are what either road is expected to cost, a wait of ``after_h`` hours. ``more`` corns are
    asked for, and are expected to save ``saved`` points. ``late`` is the chance that more are overshot than the limit.
    ``wait`` is None where the counts show no sure growth, and for the other words. ``weights`` are the corns in the
    classes with the prior and the days before. ``uneven`` is set where no wait brings the target within the limit of
    the overshot.
    """

    word: Word
    because: Because
    kiln: Points
    waiting: Points
    after_h: float
    late: float
    growth: Growth
    before: Before | None
    weights: Classes
    uneven: bool
    wait: Wait | None
    more: int | None = None
    saved: float = 0.0


def decide(seen: Seen) -> Verdict:
    """Give the verdict on a piece.

    Parameters
    ----------
    seen : Seen
        The counts and the edges.

    Returns
    -------
    Verdict
        ``late`` when it is more likely than not that too many are overshot; ``wait`` when the rub is wholly under what
        is accepted; else the cheaper of ``kiln-now`` and ``wait``, or ``count-more`` where that is expected to save
        more than it costs. Never ``kiln-now`` while the share counted is under the target.

    Raises
    ------
    OutOfRange
        When a count has no corns, or the hours are outside 1 to 96.

    Examples
    --------
    >>> decide(Seen(((5, 5, 10, 65, 15),), 24, 75, 10)).word
    'late'
    >>> [decide(Seen((day,), 24, 75, 10)).word for day in ((1, 3, 6, 86, 4), (2, 8, 40, 50, 0), (0, 2, 23, 74, 1))]
    ['kiln-now', 'wait', 'count-more']
    >>> uneven = decide(Seen(((20, 20, 20, 37, 3),), 24, 75, 10))
    >>> uneven.word, uneven.uneven, uneven.after_h
    ('wait', True, 6.0)
    """
    growth = _growth(seen)
    weights, before = _weights(seen)
    kiln, cheapest = _kiln(weights, seen), _waiting(weights, seen, growth)
    waiting, late = cheapest.points, _late(seen)
    wait = _wait(weights, seen, growth)
    if wait and not cheapest.there:
        wait = Wait(wait.grown, cheapest.hours, cheapest.hours, cheapest.hours)
    facts = (kiln, waiting, cheapest.hours, late, growth, before, weights, cheapest.uneven)
    if late >= LATE_FROM:
        return Verdict("late", "overshot", *facts, None)
    if seen.flour and 100.0 * clopper_pearson(*seen.flour).high < edge(FLOUR.accept_low):
        longer = wait._replace(hours=max(wait.hours, RUB_AGAIN_H), high=max(wait.high, RUB_AGAIN_H)) if wait else None
        return Verdict("wait", "rub", *facts, longer)
    cheaper, short = kiln.total <= waiting.total, _short(seen)
    goes = cheaper and not short
    because: Because = "short" if cheaper and short else "cost"
    more, saved = _more(weights, seen, growth, goes, kiln.total if goes else waiting.total)
    if more:
        return Verdict("count-more", because, *facts, None, more, saved)
    return Verdict("kiln-now", because, *facts, None) if goes else Verdict("wait", because, *facts, wait)


class FellBack(NamedTuple):
    """Two counts of one piece of which the later, the ``newer`` of the days, is surely behind the earlier.

    ``growth`` is that of the mean acrospire between them [corn lengths a day]; ``overshot`` are the shares over 1 of
    the later and the earlier [%], None where not they but the mean fell.
    """

    newer: int
    older: int
    growth: float
    overshot: tuple[float, float] | None


def fell_back(seen: Seen) -> FellBack | None:
    """Give the first two counts between which corns would have shrunk, beyond all chance of counting.

    Parameters
    ----------
    seen : Seen
        The counts, today's first.

    Returns
    -------
    FellBack or None
        The later day's place and the earlier's, and what fell; None where all counts can be.

    Examples
    --------
    >>> fell_back(Seen(((0, 0, 20, 80, 0), (0, 0, 2, 60, 38)), 24, 75, 10)).overshot
    (0.0, 38.0)
    >>> fell_back(Seen(((0, 2, 23, 74, 1), (1, 10, 40, 47, 2)), 24, 75, 10)) is None
    True
    """
    for newer, today in enumerate(seen.days):
        for older in range(newer + 1, len(seen.days)):
            before = seen.days[older]
            rate = acrospire.growth_rate(today=today, before=before, hours=seen.hours * (older - newer))
            out, was = today[acrospire.OVERSHOT], before[acrospire.OVERSHOT]
            ends = newcombe(out, sum(today), was, sum(before), 1.0 - 2.0 * CANNOT_BE)
            over = (100.0 * out / sum(today), 100.0 * was / sum(before)) if ends.high < 0.0 else None
            if over or rate.value + (rate.high - rate.value) * _SURER / SURE_SD < 0.0:
                return FellBack(newer, older, rate.value, over)
    return None


def _short(seen: Seen, shown: int = 0, corns: int = 0) -> bool:
    """Whether the share counted today, with so many shown of so many corns more, is under the target."""
    today = seen.days[0]
    return 100.0 * (sum(today[acrospire.READY :]) + shown) < seen.target * (sum(today) + corns)


def _growth(seen: Seen) -> Growth:
    """The typical growth, and what the counts say of this piece's, each by its doubt."""
    typical, sd = acrospire.TYPICAL_GROWTH, acrospire.TYPICAL_GROWTH_SD
    back = len(seen.days) - 1
    if not back:
        return Growth(typical, sd, None, True)
    counted = acrospire.growth_rate(today=seen.days[0], before=seen.days[back], hours=seen.hours * back)
    if counted.low <= 0.0:
        return Growth(typical, sd, counted, False)
    value, doubt = _joined(counted)
    return Growth(value, doubt, counted, True)


def _joined(counted: acrospire.Rate) -> tuple[float, float]:
    variance = ((counted.high - counted.low) / (2.0 * SURE_SD)) ** 2 + DAY_TO_DAY_SD**2
    ours, theirs = acrospire.TYPICAL_GROWTH_SD**-2, 1.0 / variance
    value = (acrospire.TYPICAL_GROWTH * ours + counted.value * theirs) / (ours + theirs)
    return value, (ours + theirs) ** -0.5


def _weights(seen: Seen) -> tuple[Classes, Before | None]:
    """The corns in the classes with the prior; yesterday's, moved on, go to the two sides of three quarters."""
    today = _with_prior(seen.days[0])
    if len(seen.days) == 1:
        return today, None
    yesterday = acrospire.curve(weights=_with_prior(seen.days[1]))
    value, sd = acrospire.TYPICAL_GROWTH, acrospire.TYPICAL_GROWTH_SD
    if len(seen.days) > 2:
        value, sd = _joined(acrospire.growth_rate(today=seen.days[1], before=seen.days[2], hours=seen.hours))
    days = seen.hours / 24.0
    share = min(max(yesterday.after(max(value, 0.0) * days)[0], 0.01), 0.99)
    ends = [yesterday.after(max(value + side * sd, 0.0) * days)[0] for side in (-1.0, 1.0)]
    corns = sum(seen.days[1])
    variance = (0.5 * (ends[1] - ends[0])) ** 2 + share * (1.0 - share) / corns
    worth = min(max(share * (1.0 - share) / variance - 1.0, 0.0), BEFORE_AT_MOST * corns)
    return _scaled(today, (1.0 - share) * worth, share * worth), Before(share, worth)


def _with_prior(counts: Sequence[float]) -> Classes:
    return tuple(count + half for count, half in zip(counts, acrospire.PRIOR, strict=True))


def _scaled(weights: Classes, short: float, long: float) -> Classes:
    """So many corns more on either side of three quarters, spread over the classes as the others are."""
    place = acrospire.READY
    low, high = sum(weights[:place]), sum(weights[place:])
    return tuple(
        weight * (1.0 + (short / low if number < place else long / high)) for number, weight in enumerate(weights)
    )


def _cost(ready: float, overshot: float, corns: float, seen: Seen) -> Points:
    """The points that a piece with these shares costs at the kiln, over all that so many corns leave open."""
    ready, overshot = (min(max(share, 1e-6), 1.0 - 1e-6) for share in (ready, overshot))
    short = expected_short(above=ready * corns, below=(1.0 - ready) * corns, limit=seen.target / 100.0)
    over = expected_over(above=overshot * corns, below=(1.0 - overshot) * corns, limit=seen.overshot_limit / 100.0)
    return Points(100.0 * SHORT.points * short, 100.0 * OVERSHOT.points * over)


def _kiln(weights: Classes, seen: Seen) -> Points:
    corns = sum(weights)
    return _cost(sum(weights[acrospire.READY :]) / corns, weights[acrospire.OVERSHOT] / corns, corns, seen)


def _waiting(weights: Classes, seen: Seen, growth: Growth) -> Waiting:
    """The wait until the target is there; where too many are overshot by then, the cheapest of it and shorter."""
    piece, limit = acrospire.curve(weights=weights), seen.overshot_limit / 100.0
    grown = acrospire.growth_needed(weights=weights, target=seen.target / 100.0)
    until = min(max(24.0 * grown / growth.value, LEAST_WAIT_H), MOST_WAIT_H)
    corns = sum(weights)
    over_then = grown > 0.0 and piece.after(grown)[1] > limit
    shorter = [wait for wait in SHORTER_WAITS_H if wait < until] if over_then else []
    roads = [(_of_a_wait(piece, corns, wait, seen, growth), wait) for wait in (until, *reversed(shorter))]
    uneven = over_then and (
        acrospire.evenness(counts=seen.days[0]) < UNEVEN_UNDER or roads[0][0].total >= _kiln(weights, seen).total
    )
    if uneven:
        within = [road for road in roads[1:] if piece.after(growth.value * road[1] / 24.0)[1] <= limit]
        roads = within or roads[-1:]
    points, after = min(roads, key=lambda one: one[0].total)
    return Waiting(points, after, not uneven and after == until, uneven)


def _of_a_wait(piece: acrospire.Curve, corns: float, hours: float, seen: Seen, growth: Growth) -> Points:
    """The points of a wait of so many hours, with the time and another count."""
    short = over = 0.0
    for deviate, chance in _NODES:
        then = _cost(*piece.after(max(growth.value + deviate * growth.sd, 0.0) * hours / 24.0), corns, seen)
        short, over = short + chance * then.short, over + chance * then.overshot
    days = (DAY_BREATHED.points + DAY_OF_THE_PLACE.points) * hours / 24.0
    return Points(short, over, days, HUNDRED_COUNTED.points)


def _late(seen: Seen) -> float:
    """The chance that more are overshot than the limit, by today's count alone: what is out can be seen."""
    over, corns = seen.days[0][acrospire.OVERSHOT], sum(seen.days[0])
    return 1.0 - beta_share(seen.overshot_limit / 100.0, over + 0.5, corns - over + 0.5)


def _wait(weights: Classes, seen: Seen, growth: Growth) -> Wait | None:
    if not growth.sure:
        return None
    target, corns = seen.target / 100.0, sum(weights)
    grown = acrospire.growth_needed(weights=weights, target=target)
    best = 24.0 * grown / growth.value
    ready = sum(weights[acrospire.READY :]) / corns
    doubt = SURE_SD * math.sqrt(ready * (1.0 - ready) / corns) * corns
    far = [
        acrospire.growth_needed(weights=_scaled(weights, -side * doubt, side * doubt), target=target)
        for side in (min(1.0, 0.9 * corns * (1.0 - ready) / doubt), -min(1.0, 0.9 * corns * ready / doubt))
    ]
    reach = SURE_SD * math.hypot(growth.sd, DAY_TO_DAY_SD)
    speeds = [max(speed, 0.25 * growth.value) for speed in (growth.value + reach, growth.value - reach)]
    # the doubt of the count and that of the growth are of two kinds: their squares add up
    low, high = (
        math.hypot(24.0 * needed / growth.value - best, 24.0 * grown / speed - best)
        for needed, speed in zip(far, speeds, strict=True)
    )
    return Wait(grown, *(max(hours, LEAST_WAIT_H) for hours in (best, best - low, best + high)))


def _more(weights: Classes, seen: Seen, growth: Growth, goes: bool, costs: float) -> tuple[int | None, float]:
    """The further count that saves most beyond its own cost, and the points that it saves."""
    if costs <= HUNDRED_COUNTED.points * STEPS[0] / 100.0:
        return None, 0.0
    place = acrospire.READY
    short, long = sum(weights[:place]), sum(weights[place:])

    def turned(shown: int, corns: int) -> float:
        """The points that such a count saves: those between the roads, where it turns the decision."""
        if not goes and _short(seen, shown, corns):
            return 0.0  # it would still be under its target
        then = _scaled(weights, float(corns - shown), float(shown))
        gain = _kiln(then, seen).total - _waiting(then, seen, growth).points.total
        return max(gain if goes else -gain, 0.0)

    best: tuple[float, int | None, float] = (0.0, None, 0.0)
    for corns in reversed([step for step in STEPS if step <= ACROSPIRES.in_half_an_hour]):
        outcomes = likely_outcomes(above=long, below=short, corns=corns)
        if not any(turned(shown, corns) for shown in (outcomes[0], outcomes[-1])):
            break  # the largest count moves furthest: where it turns nothing, no smaller one does
        saved = sum(turned(shown, corns) for shown in outcomes) / len(outcomes)
        net = saved - HUNDRED_COUNTED.points * corns / 100.0
        best = max(best, (net, corns, saved), key=lambda one: one[0])
    return best[1], best[2]
