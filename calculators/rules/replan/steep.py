"""The rest of a steep planned anew from its state: every continuation on a grid of hours, held against the limits.

The living model says what each comes to, the table of limits which of them may be offered. Of these the cheapest is
given by each of three measures.
"""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ...models.living.chitting import share_chitted
from ...models.living.fan_stopped import hours_to, stopped_courses
from ...models.living.lot_plan_state import State
from ...models.living.maths import FLOATS
from ...models.living.pace import chit_pace
from ...models.living.steep_run import rest_places, warmed
from ...models.living.warmth import REST_C, WETTED, RestCourse
from ...models.steep.course import Stage, Steep
from ...models.steep.hydration import STAGE_HOURS, STAGES, WATER_TEMP_C, run
from ..limit import edge
from ..limits.casting import OFF_TARGET
from ..limits.steeping import CHIT_LAST_DIP, FILL_AGAINST_GRAIN, IMMERSION, REST_RISE, REST_TEMP, WATER_TEMP
from ..steep_life import SUCTIONS_M3_H_T, chits_passed, corns_of, warmth_passed
from ..steep_order import Passed, held, of_course
from .faults import Asked
from .steep_grid import Candidate, SteepNow, candidates, moves_of, price
from .ways import PUTS_FIRST, Cost, Way, Ways, Weights, chosen, hands_at_night, in_quiet

_MARGIN_K = 0.2  # a water is mixed so much nearer to the grain than it must be
_SAME = 1e-6
_LOOKED_AT = 24  # so many of the cheapest are held against warmth and chit
_REST_WARMER_K = 1.0  # the first reckoning of the chits takes the grain as so much warmer than the water
_NO_HOPE = 0.9  # of what a last dip wants


def ways_of(now: SteepNow, asked: Asked) -> Ways:
    """Give the ways through the rest of a steep.

    Parameters
    ----------
    now : SteepNow
        The batch as it stands.
    asked : Asked
        What the fault asks of every way.

    Returns
    -------
    Ways
        The cheapest of all continuations on the grid by each measure, those alike left out. None of them passes a stop
        that is not passed already, or passes one further.
    """
    now = _standing_still(now, asked)
    begun = already(now, asked)
    found = [one for one in candidates(now, asked) if not in_quiet(moves_of(one.hours, now), asked.quiet_h)]
    clock = _Clock(now)
    lines, stop_h = tuple(one.line for one in begun), _to_the_stop(now, asked)
    for remedy in _remedies(now):
        ways = _with_remedy(now, asked, found, begun, remedy, clock)
        if ways:
            return Ways(ways, lines, stop_h)
    return Ways((), lines, stop_h)


class Remedy(NamedTuple):
    """What is changed beside the hours: the water brought to what is accepted, more suction in rests [m3/h t]."""

    water: bool = False
    suction_m3_h_t: float | None = None


def _remedies(now: SteepNow) -> Iterator[Remedy]:
    """As it is first; then what is tried where nothing else is left."""
    yield Remedy()
    yield Remedy(water=True)
    for suction in SUCTIONS_M3_H_T:
        if suction > now.lives.rests.suction_m3_h_t:
            yield Remedy(water=True, suction_m3_h_t=suction)


def _with_remedy(
    now: SteepNow, asked: Asked, found: Sequence[Candidate], begun: Sequence[Passed], remedy: Remedy, clock: "_Clock"
) -> tuple[Way, ...]:
    changed = now if remedy.suction_m3_h_t is None else drawn_through(now, remedy.suction_m3_h_t)
    growth = _planned_growth(now)
    looked: dict[Candidate, Way | None] = {}

    def ranked(weights: Weights) -> Iterator[Way | None]:
        cheapest = sorted(found, key=lambda one: (clock.is_late(one), price(one, now, weights, asked), one.hours))
        for one in cheapest[:_LOOKED_AT]:
            if one not in looked:
                looked[one] = judged(one, changed, begun, growth, remedy)
            yield looked[one]

    return chosen((word, ranked(weights)) for word, weights in PUTS_FIRST.items())


def drawn_through(now: SteepNow, suction_m3_h_t: float) -> SteepNow:
    """Give the batch with another suction [m3/h t] from now on; rests that are over stay as warm as they came to."""
    stages = warmed(now.course, now.lives.rests)[0].steeping.stages
    before = now.lives.rests.held_c
    held = [before[n] if n < len(before) else None for n in range(max(len(before), len(stages) - 1))]
    for n in range(1, len(stages) - 1, 2):
        held[n] = stages[n].water_temp_c if held[n] is None else held[n]
    rests = now.lives.rests._replace(suction_m3_h_t=suction_m3_h_t, held_c=tuple(held))
    return now._replace(lives=now.lives._replace(rests=rests))


class _Clock:
    """A first reckoning of the chits before a last dip: those that have no hope of it are looked at last."""

    def __init__(self, now: SteepNow) -> None:
        self.now, self.last = now, warmed(now.course, now.lives.rests)[1][-1]
        self.pace = float(chit_pace(FLOATS, now.water_temp_c + _REST_WARMER_K))
        self.wanted = edge(CHIT_LAST_DIP.stop_low) / 100.0

    def is_late(self, one: Candidate) -> bool:
        """Whether a last dip comes long before the chits."""
        stages = len(self.now.course.steeping.stages) + len(one.hours) - 1
        ends_wet = stages % 2 == 1
        hours = one.hours[:-1] if ends_wet else one.hours[:-2]
        if len(one.hours) < 2 or not hours:
            return False
        clock = self.last.chit_h + self.pace * sum(hours)
        return float(share_chitted(FLOATS, clock, self.now.lives.corns)) < _NO_HOPE * self.wanted


def _planned_growth(now: SteepNow) -> float | None:
    """Growth clock at the end of the plan as it stood [h]; None where there is none, or it cannot be followed."""
    if not now.ahead_h or len(now.course.steeping.stages) + len(now.ahead_h) - 1 > STAGES.high:
        return None
    stages = list(now.course.steeping.stages)
    stages[-1] = stages[-1]._replace(hours=stages[-1].hours + now.ahead_h[0])
    stages += [Stage(max(hours, STAGE_HOURS.low), now.water_temp_c) for hours in now.ahead_h[1:]]
    course = run(now.course.steeping._replace(stages=tuple(stages)))
    return float(warmed(course, now.lives.rests)[1][-1].growth_h)


def _standing_still(now: SteepNow, asked: Asked) -> SteepNow:
    """Put in how warm the open rest is, or gets while no air is moved."""
    if asked.fan_off_h:
        courses = _stopped(now)
        reached = [temp for hour, temp in zip(courses.hours, courses.temps_c, strict=True) if hour <= asked.fan_off_h]
        temp_c = max(reached)
    elif now.grain_c is not None and not now.wet:
        temp_c = now.grain_c
    else:
        return now
    place = len(now.course.steeping.stages) - (0 if now.wet else 1)
    before = now.lives.rests.held_c
    kept = [before[n] if n < len(before) else None for n in range(place)]
    rests = now.lives.rests._replace(held_c=(*kept, temp_c))
    return now._replace(lives=now.lives._replace(rests=rests))


def _stopped(now: SteepNow, soonest: bool = False) -> RestCourse:
    """How warm the grain gets from now on with no air moved."""
    states = warmed(now.course, now.lives.rests)[1]
    last = states[-1]
    start = last.temp_c if now.grain_c is None else now.grain_c
    usual, fast = stopped_courses(
        place="rest",
        barley_moisture=now.course.steeping.barley_moisture,
        net_moisture=max(float(last.net), WETTED.low),
        temp_c=min(max(float(start), REST_C.low), REST_C.high),
        growth_h=float(last.growth_h),
        room_c=now.room_c,
    )
    return fast if soonest else usual


def _to_the_stop(now: SteepNow, asked: Asked) -> tuple[float, float] | None:
    """Hours until the grain is at the stop of a rest with no air moved, by the law and at the soonest."""
    if not asked.fan_off_h:
        return None
    stop = edge(REST_TEMP.stop_high)
    return hours_to(_stopped(now), stop), hours_to(_stopped(now, soonest=True), stop)


def already(now: SteepNow, asked: Asked) -> list[Passed]:
    """Give the stops that are passed by now, or by what is done at once: no way passes them further.

    Parameters
    ----------
    now : SteepNow
        The batch as it stands.
    asked : Asked
        What the fault asks; water that is drained at once ends its immersion as it is.
    """
    stages = now.course.steeping.stages
    least = Stage(STAGE_HOURS.low, now.water_temp_c)
    drained = now.wet and asked.drain_now
    follows = (least, least) if drained else () if now.wet else (least,)
    course = run(now.course.steeping._replace(stages=(*stages, *follows)))
    course, states = warmed(course, now.lives.rests)
    found = [*of_course(course, ends=False, rests=False), *_warmth(states, now)]
    if now.wet and not drained:
        found += held(IMMERSION, now.elapsed_h, (len(stages) + 1) // 2)
    return [one for one in found if one.is_stop]


def judged(
    one: Candidate, now: SteepNow, begun: Sequence[Passed], growth_h: float | None = None, remedy: Remedy | None = None
) -> Way | None:
    """Give a continuation as a way, or None where it passes a stop that is not passed already, or one further.

    Parameters
    ----------
    one : Candidate
        The continuation.
    now : SteepNow
        The batch as it stands.
    begun : sequence of Passed
        Stops that are passed already.
    growth_h : float, optional
        Growth clock at the end of the plan [h at 15 C].
    remedy : Remedy, optional
        What is changed beside the hours; the suction stands in ``now`` already.
    """
    remedy = remedy or Remedy()
    stages = list(now.course.steeping.stages)
    stages[-1] = stages[-1]._replace(hours=stages[-1].hours + one.hours[0])
    stages += [Stage(hours, now.water_temp_c) for hours in one.hours[1:]]
    done = len(now.course.steeping.stages)
    course, states = warmed(run(now.course.steeping._replace(stages=tuple(stages))), now.lives.rests)
    for _ in range(2 if remedy.water else 1):
        fitted = _fills_fitted(course, states, done, remedy.water)
        if fitted == list(course.steeping.stages):
            break
        course, states = warmed(run(course.steeping._replace(stages=tuple(fitted))), now.lives.rests)
    found = passed_by(course, states, now)
    if any(one.is_stop and not _no_further(one, begun) for one in found):
        return None
    wets = [s.water_temp_c for n, s in enumerate(course.steeping.stages) if n >= done and n % 2 == 0]
    moves = moves_of(one.hours, now, wets)
    end, corns = states[-1], corns_of(states, now.lives)
    cost = Cost(
        None if now.planned_end_h is None else one.end - now.planned_end_h,
        course.ends[-1].drained,
        course.ends[-1].drained - now.target,
        100.0 * float(share_chitted(FLOATS, end.chit_h, corns)),
        float(end.growth_h),
        None if growth_h is None else float(end.growth_h) - growth_h,
        hands_at_night(moves, now.clock_h, now.changes),
    )
    watched = tuple(one.line for one in found if not one.is_stop)
    return Way((), moves, cost, course.steeping.stages, None, remedy.suction_m3_h_t, watched)


def passed_by(course: Steep, states: Sequence[State], now: SteepNow) -> list[Passed]:
    """Give all that a whole steep passes of the table: waters, hours, drains, its end, its warmth, its chits.

    Parameters
    ----------
    course : Steep
        The steep to its end.
    states : sequence of State
        Of the same.
    now : SteepNow
        The batch as it stood: what lies behind its last immersion is not judged by its chits any more.
    """
    begun = (len(now.course.steeping.stages) + 1) // 2
    chits = chits_passed(states, course.steeping.stages, now.lives)
    found = [*of_course(course, rests=False), *_warmth(states, now)]
    found += [one for one in chits if one.line.rule != CHIT_LAST_DIP.id or one.number > begun]
    found += held(OFF_TARGET, abs(course.ends[-1].drained - now.target))
    for number, places in enumerate(rest_places(states), 2):
        stage = 2 * (number - 1)
        if stage < len(course.steeping.stages) and number > begun:
            apart = abs(course.steeping.stages[stage].water_temp_c - float(states[places[-1]].temp_c))
            found += held(FILL_AGAINST_GRAIN, round(apart, 6), number)
    return found


def _warmth(states: Sequence[State], now: SteepNow) -> list[Passed]:
    """What its rests pass by their warmth; one whose warmth is read, or that of a fan that stands, has no rise."""
    kept = now.lives.rests.held_c
    read = {(n + 1) // 2 for n, temp in enumerate(kept) if temp is not None}
    return [one for one in warmth_passed(states) if one.line.rule != REST_RISE.id or one.number not in read]


def _fills_fitted(course: Steep, states: Sequence[State], done: int, accepted: bool) -> list[Stage]:
    """The stages, each water to come as near to the grain as the table asks; with ``accepted``, near what it wants."""
    stages = list(course.steeping.stages)
    most = edge(FILL_AGAINST_GRAIN.accept_high) - _MARGIN_K
    for number, places in enumerate(rest_places(states), 1):
        stage = 2 * number
        if done <= stage < len(stages):
            grain = float(states[places[-1]].temp_c)
            temp = stages[stage].water_temp_c
            if accepted:
                temp = min(max(temp, edge(WATER_TEMP.accept_low)), edge(WATER_TEMP.accept_high))
            temp = min(max(temp, grain - most, WATER_TEMP_C.low), grain + most, WATER_TEMP_C.high)
            stages[stage] = stages[stage]._replace(water_temp_c=round(temp, 1))
    return stages


def _no_further(one: Passed, begun: Sequence[Passed]) -> bool:
    for other in begun:
        if other.what == one.what:
            assert isinstance(one.line.value, float) and isinstance(other.line.value, float)
            low = one.what[1]
            return one.line.value >= other.line.value - _SAME if low else one.line.value <= other.line.value + _SAME
    return False
