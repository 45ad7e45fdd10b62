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

from .hydration import run
from .limits import TARGET_MOISTURE
from .spell import Spell
from .steep_course import Stage, Steep, Steeping
from .steep_wishes import Draft, Term, Wishes, cost_of, hours_until, within

DRIP_H = 1.0
"""From opening the last drain until the grain can be cast: common practice, 30 to 60 min."""

EMPTY_H = 1.0
"""From the start of the cast until the vessel is free [h]: our assumption."""

MOST_WAIT_H = 8.0
"""Longest that chitted grain waits for its cast after the last drain [h]: our judgement."""

BEFORE_QUIET_H = 0.5
"""A drain runs for about so long, so it is opened at least so long before quiet hours."""

MOST_IMMERSIONS = 5
_LEAST_H = 2.0  # no immersion before a rest is shorter
_TICK = 0.5  # plans keep to half hours
_LAST_TICK = 0.25
_LOOK_H = 48.0  # longest last immersion that is looked for when a wish is given up
_DIP_BELOW = 4.0  # an immersion before the last aims so many points below the target
_SHORT_H = 4.0  # an immersion before a rest is seldom shorter
_DIP_H = 3.0  # a last dip this short is not parted by another rest
_MOST_NODES = 24  # of one level: those with least against them
_MOST_MOVES = 2  # a last rest is moved so often to let drain and cast fall well
_LONG_H = 16.0  # where an immersion may be so long, two long ones are tried as well
_USUAL, _ENOUGH = 3, 4  # three immersions are usual; more are tried when few plans are good
LONGEST_REST_H = 24.0
"""No air rest in a plan is longer [h]."""


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

    def is_quiet(self, hours: float) -> bool:
        """Tell whether nobody drains at an hour of the steep."""
        quiet = self.wishes.quiet
        if quiet is None:
            return False
        return within(self.clock(hours), ((quiet[0] - BEFORE_QUIET_H) % 24.0, quiet[1]))

    def round_quiet(self, hours: float) -> list[float]:
        """Give the hour itself, or the last before and the first after quiet hours."""
        if not self.is_quiet(hours):
            return [hours]
        quiet = self.wishes.quiet
        assert quiet is not None
        # One minute more, so that the quiet hours have not begun when the drain is opened.
        since = hours_until(quiet[0] - BEFORE_QUIET_H, self.clock(hours)) + 1.0 / 60.0
        earlier = _floor(hours - since)
        return [earlier, hours + hours_until(self.clock(hours), quiet[1])]

    # -- the tree ----------------------------------------------------------------

    def immersions(self, begins: float, ideal: float) -> list[float]:
        """Give lengths of an immersion near the ideal one that can be drained [h]."""
        longest = self.wishes.longest_immersion_h
        wanted = begins + min(_round(ideal), longest)
        lengths = [hour - begins for hour in self.round_quiet(wanted)]
        kept = [length for length in lengths if _LEAST_H <= length <= longest]
        return kept or [min(longest, max(_LEAST_H, wanted - begins))]

    def rests(self, drain: float) -> list[float]:
        """Give lengths of an air rest worth trying [h]."""
        shortest = self.wishes.shortest_rest_h
        lengths = {shortest, shortest + 3.0, shortest + 6.0}
        fill = drain + shortest
        if self.wishes.quiet and within(self.clock(fill), self.wishes.quiet):
            lengths.add(shortest + hours_until(self.clock(fill), self.wishes.quiet[1]))
        return sorted(length for length in lengths if length <= LONGEST_REST_H)

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
        if longest >= _LONG_H:
            lengths += self.immersions(0.0, longest)
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
            aim = max(wishes.target_moisture - _DIP_BELOW, self.base.barley_moisture + 1.0, TARGET_MOISTURE.low)
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
        if needed is None:
            if course.drained_before_last_immersion >= target:
                return 0.0, None
            self.most_moisture = max(self.most_moisture, course.at(course.hours).drained)
            return _LOOK_H, None
        if needed < _LAST_TICK:
            return needed, None
        draft = self.judged(course, [*node, round(needed / _LAST_TICK) * _LAST_TICK])
        self.found.append(draft)
        return needed, draft

    def shifted(self, node: list[float], draft: Draft) -> list[list[float]]:
        """Give the node with its last rest moved so that drain and cast fall well."""
        drain = sum(draft.lengths)
        moves = []
        if self.is_quiet(drain):
            moves += [hour - drain for hour in self.round_quiet(drain)]
        window = self.wishes.cast_window
        if window and not within(self.clock(drain + DRIP_H), window):
            later = drain + hours_until(self.clock(drain + DRIP_H), window[0])
            moves += [hour - drain for hour in self.round_quiet(later) if hour >= later]
        nodes = []
        for move in moves:
            rest = _ceil(node[-1] + move) if move >= 0.0 else _floor(node[-1] + move)
            if self.wishes.shortest_rest_h <= rest <= LONGEST_REST_H:
                nodes.append([*node[:-1], rest])
        return nodes

    # -- the judgement -------------------------------------------------------------

    def judged(self, course: Steep, lengths: list[float]) -> Draft:
        """Give a schedule with the wishes it breaks and what counts against it.

        The course given may hold a last immersion of another length: that changes
        nothing before its end.
        """
        wishes = self.wishes
        cast = sum(lengths) + DRIP_H
        window = wishes.cast_window
        wait = 0.0
        if window and not within(self.clock(cast), window):
            wait = hours_until(self.clock(cast), window[0])
        cast += wait
        draft = Draft(tuple(lengths), cast, (), self.terms(course, lengths, wait))
        over = max(lengths[::2]) - self.judge.longest_immersion_h
        short = self.judge.shortest_rest_h - min(lengths[1::2], default=LONGEST_REST_H)
        in_quiet = sum(map(self.is_quiet, draft.drains))
        late = 0.0 if wishes.vessel_h is None else cast + EMPTY_H - wishes.vessel_h
        broken = (
            ("longest_immersion_h", over),
            ("shortest_rest_h", short),
            ("quiet", float(in_quiet)),
            ("vessel_h", late),
            ("cast_window", wait - MOST_WAIT_H),
        )
        return draft._replace(broken=tuple(one for one in broken if one[1] > 1e-9))

    def stage_terms(self, lengths: Sequence[float]) -> tuple[Term, ...]:
        """Give what counts against stages of these lengths, wherever they end."""
        wet, rests = lengths[::2], lengths[1::2]
        longest, shortest = max(wet), min(wet[: len(rests)], default=_SHORT_H)
        fills, hour = 0, 0.0
        for number, length in enumerate(lengths):
            if number % 2 == 0 and number and self.wishes.quiet and within(self.clock(hour), self.wishes.quiet):
                fills += 1
            hour += length
        return (
            Term("long immersion", 0.4 * max(0.0, longest - 8.0), longest),
            Term("short immersion", 0.5 * max(0.0, _SHORT_H - shortest), shortest),
            Term("long rest", 0.25 * sum(max(0.0, rest - 12.0) for rest in rests), max(rests, default=0.0)),
            Term("fills in quiet hours", 1.0 * fills, float(fills)),
            Term("many immersions", 0.5 * max(0, len(wet) - _USUAL), float(len(wet))),
            Term("hours in all", 0.04 * hour, hour),
        )

    def terms(self, course: Steep, lengths: list[float], wait: float) -> tuple[Term, ...]:
        """Give all that counts against a schedule of these lengths."""
        first = course.at(min(lengths[0], course.hours)).drained
        last = lengths[-1]
        short = max(0.0, 1.5 - last) + 0.15 * max(0.0, last - 5.0) if len(lengths) > 1 else 0.0
        return (
            Term("first drain", max(0.0, abs(first - self.wishes.first_aim) - 1.0), first),
            Term("last dip", short, last),
            Term("waits for the cast", 0.15 * wait, wait),
            Term("no air rest", 3.0 * (len(lengths) < 3), float(len(lengths) // 2)),
            *self.stage_terms(lengths),
        )


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
