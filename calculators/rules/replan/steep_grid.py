"""A batch in the steep as it stands, and every continuation of it on a grid of hours, with its price."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ...models.bounds import OutOfRange
from ...models.steep.course import Stage, Steep
from ...models.steep.hydration import STAGE_HOURS, STAGES, run
from ...models.steep.plan import LONG_IMMERSION, LONG_REST, MORE_WATERS
from ..limit import edge
from ..limits.casting import OFF_TARGET
from ..limits.steeping import IMMERSION, REST
from ..steep_life import Lives
from ..steep_order import LEAST_H, MOST_H
from .faults import Asked
from .ways import Changes, Move, Weights, hands_at_night

TICK_H, COARSE_H = 1.0, 3.0
"""Grid of the stage under way and of a last immersion, and of rests before another immersion [h]."""

DRAIN_H = 1.0
"""From opening the drain until it can be cast [h] (common practice)."""

_QUARTER = 0.25


class SteepNow(NamedTuple):
    """A batch in the steep as it stands.

    Attributes
    ----------
    course : Steep
        All its stages up to now; the last one is open.
    target : float
        Drained moisture wanted, % of wet weight.
    ahead_h : tuple of float
        The plan from now: what is left of the open stage, then stages by turns [h]; empty where no plan is written.
    clock_h : float
        Hour of the day [h].
    water_temp_c : float
        Of the next water [C].
    lives : Lives
        What decides beside its water.
    rest_h : float
        Shortest rest that this barley is given [h].
    room_c : float
        Round the vessel [C].
    grain_c : float or None
        Warmest grain read in the open rest [C].
    changes : Changes
        When the clocks are changed.
    """

    course: Steep
    target: float
    ahead_h: tuple[float, ...]
    clock_h: float
    water_temp_c: float
    lives: Lives
    rest_h: float = edge(REST.accept_low)
    room_c: float = 14.0
    grain_c: float | None = None
    changes: Changes = ()

    @property
    def wet(self) -> bool:
        """Whether it lies under water."""
        return len(self.course.steeping.stages) % 2 == 1

    @property
    def elapsed_h(self) -> float:
        """How long the open stage has lasted [h]."""
        return self.course.steeping.stages[-1].hours

    @property
    def planned_end_h(self) -> float | None:
        """Hours from now to the plan's last drain [h]."""
        return sum(self.ahead_h) if self.ahead_h else None


class Candidate(NamedTuple):
    """One continuation: hours by turns from now, its water's course, and what it costs before warmth and chit."""

    hours: tuple[float, ...]
    end: float
    drained: float


def candidates(now: SteepNow, asked: Asked, tick_h: float = TICK_H) -> Iterator[Candidate]:
    """Give every continuation on the grid that keeps what is asked and the hours of the table.

    Parameters
    ----------
    now : SteepNow
        The batch as it stands.
    asked : Asked
        What the fault asks.
    tick_h : float, optional
        Grid of the stage under way and of a last immersion [h].

    Notes
    -----
    One more immersion is laid out on the grid; a second one on a coarser grid. A last immersion is also as long as the
    target needs.
    """
    stages = now.course.steeping.stages
    before = run(now.course.steeping._replace(stages=stages[:-1])) if len(stages) > 1 else None

    def lengthened(hours: float) -> Steep:
        last = stages[-1]._replace(hours=stages[-1].hours + hours)
        return run(now.course.steeping._replace(stages=(*stages[:-1], last)), before)

    if not now.wet:
        for rest in _rests(now.elapsed_h, 0.0, now, asked, tick_h):
            course = lengthened(rest)
            if rest >= asked.cast_from_h:
                yield Candidate((rest,), rest, course.ends[-1].drained)
            yield from _waters((rest,), course, now, tick_h, 2)
        return
    for wet in _wets(now.elapsed_h, asked, tick_h):
        course = lengthened(wet)
        if wet + 1.0 >= asked.cast_from_h:
            yield Candidate((wet,), wet, course.ends[-1].drained)
        yield from _after_drain((wet,), course, now, asked, tick_h, 2)
    if not asked.drain_now:
        course = lengthened(max(STAGE_HOURS.low, MOST_H - now.elapsed_h))
        needed = _needed(course, now.target)
        if needed is not None and now.elapsed_h <= needed <= MOST_H:
            yield Candidate((needed - now.elapsed_h,), needed - now.elapsed_h, now.target)


def _rests(rested_h: float, begins_h: float, now: SteepNow, asked: Asked, tick_h: float) -> list[float]:
    """Lengths that a rest may still have [h]: on the grid, within the table, and as asked."""
    least = max(0.0, now.rest_h - rested_h, asked.fill_from_h - begins_h)
    most = edge(REST.stop_high) - rested_h
    if asked.fill_by_h is not None:
        least, most = max(0.0, asked.fill_from_h - begins_h), min(most, max(asked.fill_by_h - begins_h, 0.0))
    return _grid(least, most, tick_h)


def _wets(elapsed_h: float, asked: Asked, tick_h: float) -> list[float]:
    """Lengths that the open immersion may still have [h]."""
    return [0.0] if asked.drain_now or elapsed_h >= MOST_H else _grid(0.0, MOST_H - elapsed_h, tick_h)


def _grid(least: float, most: float, tick_h: float) -> list[float]:
    found, hours = [], least
    while hours <= most + 1e-9:
        found.append(round(hours, 4))
        hours += tick_h
    return found


def _after_drain(
    hours: tuple[float, ...], course: Steep, now: SteepNow, asked: Asked, tick_h: float, waters: int
) -> Iterator[Candidate]:
    begun = sum(hours)
    if len(course.steeping.stages) + 2 > STAGES.high:
        return
    for rest in _rests(0.0, begun, now, asked, tick_h):
        rested = _with(course, rest, now)
        yield from _waters((*hours, rest), rested, now, tick_h, waters)


def _with(course: Steep, hours: float, now: SteepNow) -> Steep:
    stages = (*course.steeping.stages, Stage(hours, now.water_temp_c))
    return run(course.steeping._replace(stages=stages), course)


def _waters(hours: tuple[float, ...], course: Steep, now: SteepNow, tick_h: float, waters: int) -> Iterator[Candidate]:
    """The next immersion as the last one; where more may follow, one that is followed by a rest too."""
    if len(course.steeping.stages) + 1 > STAGES.high:
        return
    begun = sum(hours)
    full = _with(course, MOST_H, now)
    start_h = full.hours - MOST_H
    for wet in _grid(LEAST_H, MOST_H, tick_h):
        yield Candidate((*hours, wet), begun + wet, full.at(start_h + wet).drained)
    needed = _needed(full, now.target)
    if needed is not None and LEAST_H <= needed <= MOST_H:
        yield Candidate((*hours, needed), begun + needed, full.at(start_h + needed).drained)
    coarse = (begun - sum(hours[:-1])) % COARSE_H == 0.0 or len(hours) == 1
    if waters < 2 or not coarse or len(full.steeping.stages) + 2 > STAGES.high:
        return
    if full.ends[-1].drained < now.target - edge(OFF_TARGET.accept_high):
        lengths: Sequence[float] = (edge(IMMERSION.accept_high), MOST_H)
    else:
        lengths = (edge(IMMERSION.accept_high) / 2.0, edge(IMMERSION.accept_high))
    for wet in lengths:
        first = _with(course, wet, now)
        if first.ends[-1].drained >= now.target:
            continue
        for rest in _grid(now.rest_h, edge(REST.stop_high), 2.0 * COARSE_H):
            yield from _waters((*hours, wet, rest), _with(first, rest, now), now, 2.0 * tick_h, 1)


def _needed(course: Steep, target: float) -> float | None:
    """How long the last immersion must be for the target, to the quarter of an hour [h]."""
    try:
        needed = course.last_immersion_needed_h(target, MOST_H)
    except OutOfRange:
        return None
    return None if needed is None else round(needed / _QUARTER) * _QUARTER


def price(one: Candidate, now: SteepNow, weights: Weights, asked: Asked) -> float:
    """Give what counts against a continuation, in points, before its warmth and its chits are looked at."""
    wet = now.wet
    long = 0.0
    for place, hours in enumerate(one.hours):
        total = hours + (now.elapsed_h if place == 0 else 0.0)
        limit, each = (IMMERSION, LONG_IMMERSION) if wet else (REST, LONG_REST)
        long += each * max(0.0, total - edge(limit.accept_high))
        wet = not wet
    waters = len(one.hours) // 2
    end = now.planned_end_h
    late = 0.0 if end is None else abs(one.end - end - asked.load_from_h)
    hours_in_all = one.end if end is None else 0.0
    night = hands_at_night(moves_of(one.hours, now), now.clock_h, now.changes)
    off = abs(one.drained - now.target)
    return round(
        weights.hour * (late + 0.5 * hours_in_all) + weights.off * off + weights.night * night
        + long + MORE_WATERS * waters, 9,
    )  # fmt: skip


def moves_of(hours: Sequence[float], now: SteepNow, water_c: Sequence[float] = ()) -> tuple[Move, ...]:
    """Give what is done when, for stages by turns from now [h]."""
    wet, at, fills = now.wet, 0.0, 0
    moves: list[Move] = []
    for place, length in enumerate(hours):
        at += length
        last = place == len(hours) - 1
        if wet:
            moves.append(Move(at, "drain"))
        elif not last:
            moves.append(Move(at, "fill", water_c[fills] if fills < len(water_c) else now.water_temp_c))
            fills += 1
        if last:
            moves.append(Move(at + (DRAIN_H if wet else 0.0), "cast"))
        wet = not wet
    return tuple(moves)
