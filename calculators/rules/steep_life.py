"""What the warmth and the chits of a steep pass of the limits, and which change would keep a plan within them."""

from collections.abc import Callable, Sequence
from math import ceil
from typing import Literal, NamedTuple

from ..models.living.chitting import MIDDLE, Corns, clock_for, share_chitted
from ..models.living.lot_plan_state import State, at_hour
from ..models.living.maths import FLOATS
from ..models.living.pace import MOISTURE_PERCENT, paces
from ..models.living.steep_run import Rests, driven, rest_places, resting_on, rise, warmed
from ..models.steep.choice import Judged, choose
from ..models.steep.course import Stage, Steep, Steeping
from ..models.steep.hydration import run
from ..models.steep.wishes import Term, Wishes
from .cast import CHITS_OF, To, limit_of
from .conventions import USUAL_WATER_C
from .limit import edge, judge
from .limits.casting import CHIT
from .limits.steeping import CHIT_LAST_DIP, REST, REST_RISE, REST_TEMP, WATER_TEMP
from .steep_order import LEAST_H, Order, Passed, Way, again, before_last, held, is_early, stops, with_stages

REST_ON_H = edge(REST.accept_high)
"""Grain may rest so long after its last drain until the chits for the cast are there [h]: a rest that is accepted."""

SUCTIONS_M3_H_T = (25.0, 50.0, 100.0, 200.0)
"""Suctions that are tried, where a rest gets too warm with the one given [m3/h for each tonne]."""

_CLOSE = 2.0
"""Chits that are shorter than this of a stop are so in rests as warm as they get too [points].

Whether a rest drinks as cold as the water or as warm as it gets moves the chits by 0.3 points at most (computed)."""

_CAST_TICK = 0.25  # a cast is put off by whole quarters of an hour

_LONGER_H = 1.0  # so much longer a rest of a split is tried at a time

_FEW_CHITS = 0.05  # against a plan, for each point under what is accepted before the last dip
_WARM_REST = 1.0  # for each kelvin over what is accepted in a rest


class Lives(NamedTuple):
    """What decides about a plan beside its water.

    Parameters
    ----------
    rests : Rests
        How its rests are kept.
    corns : Corns
        How its corns chit.
    to : str
        Where it is cast to: ``couch`` or ``drum``.
    chit_h : float, optional
        Hours from the first wetting that this barley takes to chit, by the house's own records [h].
    """

    rests: Rests
    corns: Corns
    to: To
    chit_h: float | None = None


def corns_of(states: Sequence[State], lives: Lives) -> Corns:
    """Give the corns of a barley: as they are typical, or so that they chit when the house's records say."""
    if lives.chit_h is None:
        return lives.corns
    wanted = clock_for(share=min(edge(CHIT.accept_low) / 100.0, 0.99 * lives.corns.grows), corns=lives.corns)
    assert wanted is not None
    end = states[-1]
    clock = at_hour(states, min(lives.chit_h, end.hour), lambda state: state.chit_h)
    clock += max(lives.chit_h - end.hour, 0.0) * _pace_after(end, float(end.temp_c))
    middle = lives.corns.middle_h * clock / wanted
    return lives.corns._replace(middle_h=min(max(middle, MIDDLE.low), MIDDLE.high))


def _pace_after(end: State, temp_c: float) -> float:
    """Give how fast corns chit in the rest that follows a steep [h of the chit clock an hour]."""
    wet = min(end.net, MOISTURE_PERCENT.high)  # wetter corns chit at no other pace
    return paces(net_moisture=wet, temp_c=temp_c).chit


def warmth_passed(states: Sequence[State]) -> list[Passed]:
    """Give what the rests of a steep pass: how warm each gets, and how fast."""
    found: list[Passed] = []
    for number, places in enumerate(rest_places(states), 1):
        found += held(REST_TEMP, max(float(states[n].temp_c) for n in places[1:]), number)
        found += held(REST_RISE, rise(states, places), number)
    return found


def chits_passed(
    states: Sequence[State], stages: Sequence[Stage], lives: Lives, rested: float | None = None
) -> list[Passed]:
    """Give what the chits of a steep pass, before its last immersion and after a rest that follows it.

    Parameters
    ----------
    states : sequence of State
        Of the steep.
    stages : sequence of Stage
        Its immersions and rests; the rest after it is taken to be as warm as the last of them.
    lives : Lives
        Its corns, and where it is cast to.
    rested : float, optional
        Chits after that rest, where it was run [%].
    """
    corns = corns_of(states, lives)
    end, found = states[-1], []

    def chitted(clock: float) -> float:
        return 100.0 * float(share_chitted(FLOATS, clock, corns))

    if len(stages) > 2:
        dip = sum(stage.hours for stage in stages[: (len(stages) - 1) // 2 * 2])
        clock = at_hour(states, dip, lambda state: state.chit_h)
        found += held(CHIT_LAST_DIP, chitted(clock), (len(stages) + 1) // 2)
    if rested is None:
        rested = chitted(end.chit_h + REST_ON_H * _pace_after(end, stages[-1].water_temp_c))
    return [*found, *held(limit_of(lives.to), rested)]


class Waiting(NamedTuple):
    """How long drained grain waits for the chits of its cast.

    Attributes
    ----------
    ready_h : float
        Hour from which the chits are accepted, or at which it has rested as long as is accepted [h].
    least_h : float
        Hour from which they are past their stop, so that it may be cast [h].
    chitted : float
        At the end of such a rest [%].
    """

    ready_h: float
    least_h: float
    chitted: float


def waiting(course: Steep, lives: Lives) -> Waiting:
    """Give how long the grain of a steep waits for the chits of its cast.

    Parameters
    ----------
    course : Steep
        It ends wet, its rests as warm as they come to.
    lives : Lives
        Its corns, and where it is cast to.

    Notes
    -----
    The rest is run as the sheet shows it, so that the hours agree with the chits that stand beside them.
    """
    end_h, given = course.hours, limit_of(lives.to)
    states = driven(*resting_on(course, lives.rests, REST_ON_H))
    corns = corns_of(states, lives)
    shares = [100.0 * float(share_chitted(FLOATS, state.chit_h, corns)) for state in states]

    def since(wanted: float) -> float:
        place = next((n for n, share in enumerate(shares) if n and share >= wanted), None)
        if place is None:
            return end_h + REST_ON_H
        before, after = shares[place - 1], shares[place]
        part = max(0.0, wanted - before) / (after - before) if after > before else 0.0
        hour = states[place - 1].hour + part * (states[place].hour - states[place - 1].hour)
        later = ceil((hour - end_h) / _CAST_TICK - 1e-6) * _CAST_TICK
        return end_h + min(max(later, 0.0), REST_ON_H)

    return Waiting(since(edge(given.accept_low)), since(edge(given.stop_low)), shares[-1])


def judged(course: Steep, lives: Lives, quick: bool = False) -> Judged:
    """Give a plan with rests as warm as they get, what stops it passes by warmth and chit, and what counts against it.

    Parameters
    ----------
    course : Steep
        The plan; the temperatures of its rests are not used.
    lives : Lives
        What decides about it.
    quick : bool, optional
        True where a rest that is too warm, or chits that are far too few, by a first reckoning are enough to leave it
        out; the figures are then those of that reckoning, its water drunk in rests as warm as the steep.

    Returns
    -------
    Judged
        By the typical barley, or by the house's own hours to chit.
    """
    states = driven(course, lives.rests)
    if quick:
        without_hope = stops(warmth_passed(states))
        chits = stops(chits_passed(states, course.steeping.stages, lives))
        without_hope += [one for one in chits if _is_hopeless(one)]
        if without_hope:
            return Judged(course, tuple(without_hope))
    course, states = warmed(course, lives.rests, states)
    wait = waiting(course, lives)
    found = [*warmth_passed(states), *chits_passed(states, course.steeping.stages, lives, wait.chitted)]
    return Judged(course, tuple(stops(found)), tuple(_against(found)), (wait.ready_h, wait.least_h))


def _is_hopeless(one: Passed) -> bool:
    """Whether chits are so far short that how warm the rests drink does not mend it."""
    assert isinstance(one.line.value, float) and isinstance(one.line.edge, (int, float))
    return one.line.value < one.line.edge - _CLOSE


def life_stops(course: Steep, lives: Lives) -> list[Passed]:
    """Give the stops that a steep passes by its warmth and by its chits before the last immersion."""
    return [one for one in judged(course, lives).passed if one.line.rule != limit_of(lives.to).id]


def alive_order(order: Order | None, course: Steep, lives: Lives, *, begun: bool) -> Order | None:
    """Give an order without the ways that pass a stop of warmth or chit which the steep itself keeps.

    A split of an early immersion has a last dip of its own: where the steep itself has too few chits, its rest is made
    longer, up to what is accepted, until it has enough before that dip; where no such rest is, it stays as it is.

    Parameters
    ----------
    order : Order or None
        From ``steep_order.last_immersion``.
    course : Steep
        The steep that it is for.
    lives : Lives
        What decides beside its water.
    begun : bool
        Whether the barley is in the steep.
    """
    if order is None or not order.ways:
        return order
    before, last = before_last(course)
    known = {_told(one) for one in life_stops(course, lives)}
    rested = before[-1].water_temp_c if before else last.water_temp_c
    kept: list[Way] = []
    left_out: list[tuple[Way, tuple[Passed, ...]]] = []
    few, early = (CHIT_LAST_DIP.id, 0), is_early(course)

    def steeped(way: Way) -> Steep:
        temp = way.water_temp_c
        begins = before
        if way.word == "warm" and not begun:
            begins = [stage._replace(water_temp_c=max(stage.water_temp_c, temp)) for stage in before]
        added = [Stage(hours, rested if n % 2 else temp) for n, hours in enumerate(way.hours)]
        return with_stages(course, [*begins, *added])

    def passed_by(way: Way, excused: set[tuple[str, int]] = known) -> tuple[Passed, ...]:
        return tuple(one for one in life_stops(steeped(way), lives) if _told(one) not in excused)

    for way in order.ways:
        passed = passed_by(way)
        if way.word == "split" and early and not passed and passed_by(way, known - {few}):
            way = _rested_longer(way, steeped, lambda one: not passed_by(one, known - {few})) or way
        if passed:
            left_out.append((way, passed))
        else:
            kept.append(way)
    return order._replace(ways=tuple(kept) or (again(course),), left_out=tuple(left_out))


def _rested_longer(way: Way, steeped: Callable[[Way], Steep], keeps: Callable[[Way], bool]) -> Way | None:
    """A split whose last rest is longer, up to what is accepted, so that it keeps its stops; None where none does."""
    *begins, rest, dip = way.hours
    while rest < REST_ON_H:
        rest = min(rest + _LONGER_H, REST_ON_H)
        longer = way._replace(hours=(*begins, rest, dip))
        needed = steeped(longer).last_immersion_needed_h(way.moisture)  # rested corns drink a little faster
        longer = longer._replace(hours=(*begins, rest, max(needed or 0.0, LEAST_H)))
        if keeps(longer):
            return longer._replace(moisture=steeped(longer).ends[-1].drained)
    return None


def _told(one: Passed) -> tuple[str, int]:
    """What a stop is of: a rest by its number, the chits wherever they are short."""
    return one.line.rule, 0 if one.line.rule in CHITS_OF else one.number


def _against(found: Sequence[Passed]) -> list[Term]:
    terms = []
    for one in found:
        value = one.line.value
        assert isinstance(value, float)
        if one.line.rule == CHIT_LAST_DIP.id:
            terms.append(Term("few chits", _FEW_CHITS * (edge(CHIT_LAST_DIP.accept_low) - value), value))
        elif one.line.rule == REST_TEMP.id:
            terms.append(Term("warm rest", _WARM_REST * (value - edge(REST_TEMP.accept_high)), value))
    return terms


class Remedy(NamedTuple):
    """One change that keeps a plan within the limits of warmth and chit, and its figure.

    ``suction`` [m3/h t], ``colder`` or ``warmer`` water [C], or ``rest``: its last rest so long [h].
    """

    word: Literal["suction", "colder", "warmer", "rest"]
    figure: float


def remedies(course: Steep, lives: Lives) -> list[Remedy]:
    """Give what would make a plan possible, each change alone; its moistures change with it.

    Parameters
    ----------
    course : Steep
        A plan that passes a stop of warmth or chit.
    lives : Lives
        What decided about it.

    Returns
    -------
    list of Remedy
        The least of each kind that is enough; none where no change alone is.
    """
    passed = judged(course, lives).passed
    few = any(one.line.rule in CHITS_OF for one in passed)
    warm = any(one.line.rule not in CHITS_OF for one in passed)
    stages = course.steeping.stages
    found: list[Remedy] = []

    def keeps(changed: Sequence[Stage], rests: Rests = lives.rests) -> bool:
        other = run(course.steeping._replace(stages=tuple(changed)))
        return not judged(other, lives._replace(rests=rests), quick=True).passed

    if warm:
        for suction in SUCTIONS_M3_H_T:
            if suction > lives.rests.suction_m3_h_t and keeps(stages, lives.rests._replace(suction_m3_h_t=suction)):
                found.append(Remedy("suction", suction))
                break
    water = stages[0].water_temp_c
    for word, step, last in (
        ("colder", -1.0, edge(WATER_TEMP.accept_low)),
        ("warmer", 1.0, edge(WATER_TEMP.accept_high)),
    ):
        if (word == "colder") != warm:
            continue
        temp = float(int(water)) if word == "warmer" or water == int(water) else float(int(water)) + 1.0
        while (last - temp) * step > 0.0:
            temp += step
            if keeps([stage._replace(water_temp_c=temp) for stage in stages]):
                found.append(Remedy(word, temp))  # type: ignore[arg-type]
                break
    if few and not warm and len(stages) > 2:
        hours = stages[-2].hours
        while hours < edge(REST.stop_high):
            hours = min(hours + 2.0, edge(REST.stop_high))
            if keeps([*stages[:-2], stages[-2]._replace(hours=hours), stages[-1]]):
                found.append(Remedy("rest", hours))
                break
    return found


_STEP_C = 3.0


def water_that_would_do(base: Steeping, water_temp_c: float, wishes: Wishes, lives: Lives, warm: bool) -> float | None:
    """Give another temperature of the water for which plans are found, where none is for the one given.

    Parameters
    ----------
    base : Steeping
        Barley and model.
    water_temp_c : float
        For which none is found [C].
    wishes : Wishes
        What plans have to keep.
    lives : Lives
        What decides beside their water.
    warm : bool
        Whether rests get too warm; else the corns chit too late.

    Returns
    -------
    float or None
        The first of two that does [C]; each is a whole search.
    """
    first = min(edge(WATER_TEMP.accept_high), ceil(water_temp_c) - 1.0) if warm else water_temp_c + _STEP_C
    for temp in dict.fromkeys((first, USUAL_WATER_C)):
        if (temp < water_temp_c) is not warm or judge(WATER_TEMP, temp) == "stop":
            continue
        if choose(base, temp, wishes, most=1, judge=lambda course: judged(course, lives, quick=True)).plans:
            return temp
    return None
