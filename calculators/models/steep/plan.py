"""Schedules of a steep that end on target at hours that people can keep.

Hours are counted from the start of the first immersion; the clock of the day comes in
only where a wish speaks of it.  A plan is an odd row of stages, immersion and air rest by
turns, whose last immersion is as long as the target needs.

The search walks a tree: each node is a row of stages that ends on a rest, and one run of
the model with a further immersion tells both how long it must be for the target and where
to break it off for another rest.
"""

from collections.abc import Sequence
from math import ceil, floor, inf

from ..bounds import TARGET_MOISTURE
from .course import Stage, Steep, Steeping
from .hydration import run
from .spell import Spell
from .wishes import Draft, Term, Wishes, cost_of, hours_until, widened, within

EMPTY_H = 1.0
"""From the start of the cast until the vessel is free [h]: our assumption."""

MOST_WAIT_H = 8.0
"""Longest that chitted grain waits for its cast after the last drain [h]: our judgement."""

LONG_IMMERSION, LONG_REST, MORE_WATERS = 0.4, 0.25, 0.5
"""Points against a plan: for each hour over what is accepted of an immersion or a rest, and each immersion too many.

Our judgement of common practice.
"""

MOST_IMMERSIONS = 5
_LEAST_H = 2.0  # no immersion before a rest is shorter
_TICK = 0.5  # plans keep to half hours
_LAST_TICK = 0.25
_LOOK_H = 48.0  # longest last immersion that is looked for when a wish is given up
_DIP_BELOW = 4.0  # an immersion before the last aims so many points below the target
_SHORT_H = 4.0  # an immersion before a rest is seldom shorter
_SHORT_STEEP = 0.5  # for each hour that a steep is over before it is usual
_DIP_H = 3.0  # a last dip this short is not parted by another rest
_MOST_NODES = 24  # of one level: those with least against them
_MOST_MOVES = 2  # a last rest is moved so often to let drain and cast fall well
_USUAL, _ENOUGH = 3, 4  # three immersions are usual; more are tried when few plans are good


class Search:
    """The search for plans of one barley in one water.

    Parameters
    ----------
    base : Steeping
        Barley and model; its stages do not count.
    water_temp_c : float
        Temperature of the water, and of the grain in rests [C].
    wishes : Wishes
        What schedules are looked for by.
    judge : Wishes, optional
        What they are held against, where an easier search looks for the nearest.
    """

    def __init__(self, base: Steeping, water_temp_c: float, wishes: Wishes, judge: Wishes | None = None) -> None:
        self.base = base
        self.temp = water_temp_c
        self.wishes = wishes
        self.judge = judge or wishes
        self.most_moisture = 0.0
        self.found: list[Draft] = []
        self.courses: dict[tuple[float, ...], Steep] = {}
        self.quiet = wishes.quiet
        self.quiet_drains = wishes.quiet and widened(wishes.quiet, wishes.drain_h, 0.0)
        self.quiet_fills = wishes.quiet and widened(wishes.quiet, 0.0, wishes.fill_h)
        self.least_h = max(wishes.bounds.least_steep_h, wishes.chit_h or 0.0)

    def steeping(self, lengths: Sequence[float]) -> Steeping:
        """Give the settings with stages of these lengths [h]."""
        return self.base._replace(stages=tuple(Stage(hours, self.temp) for hours in lengths))

    def course(self, lengths: Sequence[float]) -> Steep:
        """Give the forecast of stages of these lengths [h], going on from one already worked out."""
        parent = self.courses.get(tuple(lengths[:-3])) if len(lengths) > 2 else None
        begun = None if parent is None else _ended(parent, self.steeping(lengths[:-2]))
        course = run(self.steeping(lengths), begun)
        self.courses[tuple(lengths[:-1])] = course
        return course

    # -- the clock ---------------------------------------------------------------

    def clock(self, hours: float) -> float:
        """Give the time of the day after some hours [h]."""
        return (self.wishes.start_clock_h + hours) % 24.0

    def drains_quiet(self, hours: float) -> bool:
        """Tell whether nobody is there for a drain opened at an hour of the steep, until it has run."""
        return self.quiet is not None and self.is_in(hours, self.quiet_drains)

    def fills_quiet(self, hours: float) -> bool:
        """Tell whether nobody is there for a fill that covers the grain at an hour of the steep, from its beginning."""
        return self.quiet is not None and self.is_in(hours, self.quiet_fills)

    def is_in(self, hours: float, window: tuple[float, float] | None) -> bool:
        """Tell whether an hour of the steep lies in a window of the day; None is the whole day."""
        return window is None or within(self.clock(hours), window)

    def around(self, hours: float, window: tuple[float, float] | None) -> list[float]:
        """Give the hour itself, or the last before and the first after a window of the day."""
        if window is None or not self.is_in(hours, window):
            return [hours]
        # One minute more, so that the window has not begun.
        since = hours_until(window[0], self.clock(hours)) + 1.0 / 60.0
        return [_floor(hours - since), hours + hours_until(self.clock(hours), window[1])]

    def around_drains(self, hours: float) -> list[float]:
        """Give the hour of a drain, or the last before and the first after nobody is there for it."""
        return [hours] if self.quiet is None else self.around(hours, self.quiet_drains)

    # -- the tree ----------------------------------------------------------------

    def immersions(self, begins: float, ideal: float) -> list[float]:
        """Give lengths of an immersion near the ideal one that can be drained [h]."""
        longest = self.wishes.longest_immersion_h
        wanted = begins + min(_round(ideal), longest)
        lengths = [hour - begins for hour in self.around_drains(wanted)]
        kept = [length for length in lengths if _LEAST_H <= length <= longest]
        return kept or [min(longest, max(_LEAST_H, wanted - begins))]

    def rests(self, drain: float) -> list[float]:
        """Give lengths of an air rest worth trying [h]."""
        shortest, longest = self.wishes.shortest_rest_h, self.wishes.bounds.most_rest_h
        tried = [drain + shortest + more for more in (0.0, 3.0, 6.0)]
        if self.quiet is not None:
            there = [hour for fill in tried for hour in self.around(fill, self.quiet_fills)]
            # Where nobody is ever there in time, the plan is tried all the same, and says so.
            tried = [hour for hour in there if shortest <= hour - drain <= longest] or tried
        return sorted({hour - drain for hour in tried if hour - drain <= longest})

    def drafts(self) -> list[Draft]:
        """Give every schedule found, good or not, in no order."""
        self.found = []
        single = self.course([_LOOK_H])
        self.finish([], single)
        first = single.last_immersion_needed_h(self.wishes.first_aim, _LOOK_H)
        ideal = _LOOK_H if first is None else first
        level: list[list[float]] = []
        longest = self.wishes.longest_immersion_h
        lengths = self.immersions(0.0, ideal) + self.immersions(0.0, min(ideal + 2.0, longest))
        for length in dict.fromkeys(lengths):
            level += [[length, rest] for rest in self.rests(length)]
        for immersions in range(2, MOST_IMMERSIONS + 1):
            level = self.next_level(sorted(level, key=self.cost_so_far)[:_MOST_NODES])
            if immersions >= _USUAL and sum(map(_steeps_well, self.found)) >= _ENOUGH:
                break
        return self.found

    def cost_so_far(self, node: list[float]) -> float:
        """Give what counts against the stages before the last immersion."""
        return cost_of(self.stage_terms(node))

    def bar(self) -> float:
        """Give the cost that a schedule must not exceed to come among the first."""
        good = sorted(draft.cost for draft in self.found if not draft.broken)
        return good[_ENOUGH - 1] if len(good) >= _ENOUGH else inf

    def next_level(self, nodes: list[list[float]]) -> list[list[float]]:
        """Finish each node if it can be, and give the nodes that follow from it."""
        wishes = self.wishes
        following: list[list[float]] = []
        seen: set[tuple[float, ...]] = set()
        waiting = [(node, 0) for node in nodes]
        while waiting:
            node, moves = waiting.pop(0)
            if tuple(node) in seen or self.cost_so_far(node) > self.bar():
                continue
            seen.add(tuple(node))
            course = self.course([*node, wishes.longest_immersion_h])
            needed, draft = self.finish(node, course)
            if draft and moves < _MOST_MOVES and needed <= wishes.longest_immersion_h:
                waiting += [(moved, moves + 1) for moved in self.shifted(node, draft)]
            if moves or needed <= _DIP_H:
                continue  # another rest would leave nothing for the last dip
            below = min(wishes.target_moisture - _DIP_BELOW, wishes.bounds.second_aim)
            aim = max(below, self.base.barley_moisture + 1.0, TARGET_MOISTURE.low)
            if course.drained_before_last_immersion >= aim:
                continue
            pause = course.last_immersion_needed_h(aim, _LOOK_H)
            for length in self.immersions(sum(node), _LOOK_H if pause is None else pause):
                following += [[*node, length, rest] for rest in self.rests(sum(node) + length)]
        return following

    def finish(self, node: list[float], course: Steep) -> tuple[float, Draft | None]:
        """Give the last immersion that a node needs [h], and the schedule if it is one."""
        target = self.wishes.target_moisture
        needed = course.last_immersion_needed_h(target, _LOOK_H)
        if needed is None and course.drained_before_last_immersion >= target:
            return 0.0, None
        most = self.wishes.bounds.most_immersion_h
        if needed is None or needed > most:
            end = min(course.hours, course.last_immersion_start_h + most)
            self.most_moisture = max(self.most_moisture, course.at(end).drained)
            return _LOOK_H if needed is None else needed, None
        if needed < _LAST_TICK:
            return needed, None
        draft = self.judged(course, [*node, round(needed / _LAST_TICK) * _LAST_TICK])
        self.found.append(draft)
        return needed, draft

    def shifted(self, node: list[float], draft: Draft) -> list[list[float]]:
        """Give the node with its last rest moved so that drain and cast fall well."""
        drain = sum(draft.lengths)
        moves = []
        if self.drains_quiet(drain):
            moves += [hour - drain for hour in self.around_drains(drain)]
        drip, window = self.wishes.drain_h, self.wishes.cast_window
        if window and not within(self.clock(drain + drip), window):
            later = drain + hours_until(self.clock(drain + drip), window[0])
            moves += [hour - drain for hour in self.around_drains(later) if hour >= later]
        if drain < self.least_h:
            moves.append(self.least_h - drain)
        if self.quiet is not None and self.fills_quiet(drain - draft.lengths[-1]):
            fill = drain - draft.lengths[-1]
            moves += [hour - fill for hour in self.around(fill, self.quiet_fills)]
        nodes = []
        for move in moves:
            rest = _ceil(node[-1] + move) if move >= 0.0 else _floor(node[-1] + move)
            if self.wishes.shortest_rest_h <= rest <= self.wishes.bounds.most_rest_h:
                nodes.append([*node[:-1], rest])
        return nodes

    # -- the judgement -------------------------------------------------------------

    def judged(self, course: Steep, lengths: list[float], ready_h: float = 0.0) -> Draft:
        """Give a schedule with the wishes it breaks and what counts against it.

        The course given may hold a last immersion of another length: that changes
        nothing before its end.  Drained grain is not cast before ``ready_h`` [h].
        """
        wishes = self.wishes
        dry = sum(lengths) + wishes.drain_h
        cast = max(dry, ready_h)
        window = wishes.cast_window
        wait = 0.0
        if window and not within(self.clock(cast), window):
            wait = hours_until(self.clock(cast), window[0])
        cast += wait
        draft = Draft(tuple(lengths), cast, (), self.terms(course, lengths, cast - dry))
        over = max(lengths[::2]) - self.judge.longest_immersion_h
        short = self.judge.shortest_rest_h - min(lengths[1::2], default=wishes.bounds.most_rest_h)
        in_quiet = sum(map(self.drains_quiet, draft.drains)) + sum(map(self.fills_quiet, draft.fills[1:]))
        drained = [course.at(min(hour, course.hours)).drained for hour in draft.drains]
        late = 0.0 if wishes.vessel_h is None else cast + EMPTY_H - wishes.vessel_h
        broken = (
            ("longest_immersion_h", over),
            ("shortest_rest_h", short),
            ("quiet", float(in_quiet)),
            ("vessel_h", late),
            ("cast_window", wait - MOST_WAIT_H),
            ("cast_rest", cast - sum(lengths) - wishes.bounds.most_rest_h),
            ("chit_h", (wishes.chit_h or 0.0) - draft.drains[-1]),
            ("steep_h", wishes.bounds.least_steep_h - draft.drains[-1]),
            ("first_drain", _outside(drained[0], wishes.bounds.first_drain) if len(drained) > 1 else 0.0),
            ("second_drain", _outside(drained[1], wishes.bounds.second_drain) if len(drained) > 2 else 0.0),
        )
        return draft._replace(broken=tuple(one for one in broken if one[1] > 1e-9))

    def stage_terms(self, lengths: Sequence[float]) -> tuple[Term, ...]:
        """Give what counts against stages of these lengths, wherever they end."""
        wet, rests = lengths[::2], lengths[1::2]
        longest, shortest = max(wet), min(wet[: len(rests)], default=_SHORT_H)
        bounds, hour = self.wishes.bounds, sum(lengths)
        return (
            Term("long immersion", LONG_IMMERSION * max(0.0, longest - bounds.usual_immersion_h), longest),
            Term("short immersion", 0.5 * max(0.0, _SHORT_H - shortest), shortest),
            Term(
                "long rest",
                LONG_REST * sum(max(0.0, rest - bounds.usual_rest_h) for rest in rests),
                max(rests, default=0.0),
            ),
            Term("many immersions", MORE_WATERS * max(0, len(wet) - _USUAL), float(len(wet))),
            Term("hours in all", 0.04 * hour, hour),
        )

    def terms(self, course: Steep, lengths: list[float], wait: float) -> tuple[Term, ...]:
        """Give all that counts against a schedule of these lengths."""
        first = course.at(min(lengths[0], course.hours)).drained
        last = lengths[-1]
        short = max(0.0, 1.5 - last) + 0.15 * max(0.0, last - 5.0) if len(lengths) > 1 else 0.0
        hours = sum(lengths)
        return (
            Term("first drain", max(0.0, abs(first - self.wishes.first_aim) - 1.0), first),
            Term("last dip", short, last),
            Term("waits for the cast", 0.15 * wait, wait),
            Term("no air rest", 3.0 * (len(lengths) < 3), float(len(lengths) // 2)),
            Term("soon over", _SHORT_STEEP * max(0.0, self.wishes.bounds.usual_steep_h - hours), hours),
            *self.stage_terms(lengths),
        )


def _outside(value: float, edges: tuple[float, float]) -> float:
    """Give how far a value lies outside two edges; 0 between them."""
    return max(edges[0] - value, value - edges[1], 0.0)


def _ended(course: Steep, steeping: Steeping) -> Steep:
    """Give a course whose last immersion is ended where these settings, of as many stages, end it."""
    last = course.spells[-1]
    end_h = last.start_h + steeping.stages[-1].hours
    spell = Spell(last.stage, last.start_h, end_h, last.wet, last.sphere, last.fo, last.per_h, last.film_db)
    return Steep(steeping, [*course.spells[:-1], spell], course.start_db, course.surface_db)


def _round(hours: float) -> float:
    return round(hours / _TICK) * _TICK


def _floor(hours: float) -> float:
    return floor(hours / _TICK + 1e-9) * _TICK


def _ceil(hours: float) -> float:
    return ceil(hours / _TICK - 1e-9) * _TICK


def _steeps_well(draft: Draft) -> bool:
    """Tell whether more immersions would not help: what is broken is only that it takes too long."""
    return all(name in ("vessel_h", "cast_window") for name, _ in draft.broken)
