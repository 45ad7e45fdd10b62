"""An order of immersions, rests and drains held against the table of limits, and what is left where it passes a stop.

An order past a stop is no order: it is named as a stop, and what the page teaches instead is worked out by the model.
"""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

from ..models.steep.course import Stage, Steep
from ..models.steep.hydration import STAGES, run
from ..models.steep.wishes import PlanEdges
from .limit import Limit, Mark, edge, judge
from .limits.casting import MOISTURE, OFF_TARGET
from .limits.steeping import (
    FILL_AGAINST_GRAIN,
    FIRST_DRAIN,
    IMMERSION,
    REST,
    REST_TEMP,
    SECOND_DRAIN,
    STEEP,
    WATER_TEMP,
)
from .lines import Line, passed

MOST_OVER = 2.0
"""So far past its target a split may end, where its last dip cannot be shorter [points]: our convention."""

_EVENINGS = 3  # so often a split is evened out
MOST_PIECES = 4
"""An immersion is split into so many pieces at most: a steep of more than a day longer is another plan."""

LEAST_H = 1.0
"""Nothing shorter is offered as an immersion [h]: a fill and a drain take an hour each (common practice)."""

DRAINS = (FIRST_DRAIN, SECOND_DRAIN)
"""What is wanted at each drain but the last, in their order."""

ACCEPTED_H, MOST_H = edge(IMMERSION.accept_high), edge(IMMERSION.stop_high)
"""An immersion that is accepted, and the longest before it is a stop [h]."""

Word = Literal["split", "warm", "sprinkle", "again"]


class Passed(NamedTuple):
    """A line of an order that lies outside what is accepted.

    ``number`` says of which immersion, rest or drain it is, from 1; 0 where it is of the whole.
    """

    line: Line
    number: int = 0

    @property
    def is_stop(self) -> bool:
        """Whether it lies past the stop, and not only where it is watched."""
        return self.line.mark == "stop"

    @property
    def what(self) -> tuple[str, bool, int]:
        """Which limit, whether on its low side, and which immersion, rest or drain."""
        assert isinstance(self.line.value, float) and isinstance(self.line.edge, (int, float))
        return self.line.rule, self.line.value < self.line.edge, self.number


class Way(NamedTuple):
    """What the page teaches in place of an immersion past its stop, with the figures of this steep.

    Attributes
    ----------
    word : str
        ``split``: with a rest. ``warm``: warmer water. ``sprinkle``: cast drier and sprinkle. ``again``: one immersion
        of an accepted length, a rest, and judge afresh.
    hours : tuple of float
        Immersion and rest by turns from where the last immersion begins, wet at both ends [h].
    water_temp_c : float
        Of these immersions [C].
    moisture : float
        Drained, at the last drain, % of wet weight.
    """

    word: Word
    hours: tuple[float, ...]
    water_temp_c: float
    moisture: float


class Order(NamedTuple):
    """How long the last immersion must be for a target, judged.

    Attributes
    ----------
    needed_h : float or None
        In one immersion [h]; None where it is beyond all that is looked for.
    mark : str
        Of one immersion so long: accept, watch or stop.
    ways : tuple of Way
        Where it is a stop, what is left within the limits, the best first.
    left_out : tuple of (Way, tuple of Passed)
        Ways that are not offered, each with the stops of warmth or chit that it passes and the steep itself does not.
    """

    needed_h: float | None
    mark: Mark
    ways: tuple[Way, ...] = ()
    left_out: tuple[tuple[Way, tuple[Passed, ...]], ...] = ()


def held(given: Limit, value: float, number: int = 0) -> list[Passed]:
    """Give what a value passes of a limit: nothing, or the one edge.

    Parameters
    ----------
    given : Limit
        The limit.
    value : float
        In the limit's unit.
    number : int, optional
        Of which immersion, rest or drain it is, from 1.
    """
    line = passed(given, value)
    return [Passed(line, number)] if line else []


def stops(found: Iterable[Passed]) -> list[Passed]:
    """Give those that lie past a stop."""
    return [one for one in found if one.is_stop]


def of_course(course: Steep, *, ends: bool = True, rests: bool = True) -> list[Passed]:
    """Give all that a steep passes: its waters, immersions and rests, what it holds at each drain, its hours in all.

    Parameters
    ----------
    course : Steep
        Immersion and rest by turns, beginning wet.
    ends : bool, optional
        False where the last immersion is still open: its own length and what it ends on are then no part of the order.
    rests : bool, optional
        False where the warmth of the rests is held against its limits from elsewhere.

    Returns
    -------
    list of Passed
        In the order of the steep.
    """
    found: list[Passed] = []
    stages = course.steeping.stages
    last = (len(stages) - 1) // 2 * 2
    for place, stage in enumerate(stages):
        number = place // 2 + 1
        if place % 2:
            found += held(REST, stage.hours, number)
            found += held(REST_TEMP, stage.water_temp_c, number) if rests else []
            continue
        found += held(WATER_TEMP, stage.water_temp_c, number)
        if place < last or ends:
            found += held(IMMERSION, stage.hours, number)
    drains = [end for end in course.ends if end.wet]
    for number, (wanted, end) in enumerate(zip(DRAINS, drains[:-1], strict=False), 1):
        found += held(wanted, end.drained, number)
    if ends:
        at_end = held(MOISTURE, drains[-1].drained)
        found += at_end
        if not any(one.is_stop and one.what[1] for one in at_end):
            found += held(STEEP, drains[-1].hours)  # one that is too dry to cast does not end here
    return found


def usual_h(course: Steep, number: int, accepted_h: float = ACCEPTED_H) -> float:
    """Give how long the last immersion of a course is by the table alone, whatever its target.

    Parameters
    ----------
    course : Steep
        Its last immersion may have any length.
    number : int
        Which immersion it is, from 1.
    accepted_h : float, optional
        The longest that is accepted of this barley [h].

    Returns
    -------
    float
        That long, sooner or later by what the first and the second drain should hold, and never past the stop [h].
    """
    if number > len(DRAINS):
        return accepted_h
    low, high = edge(DRAINS[number - 1].accept_low), edge(DRAINS[number - 1].accept_high)
    if course.drained_before_last_immersion >= low or course.steeping.barley_moisture >= low:
        return accepted_h
    least = course.last_immersion_needed_h(low, MOST_H)
    full = course.last_immersion_needed_h(high, MOST_H)
    hours = max(accepted_h, MOST_H if least is None else least)
    return max(min(hours, MOST_H if full is None else full), LEAST_H)


def last_immersion(
    course: Steep, target: float, *, begun: bool, rest_h: float | None = None, accepted_h: float = ACCEPTED_H
) -> Order | None:
    """Judge how long the last immersion must be for a target, and find what is left where that is past the stop.

    Parameters
    ----------
    course : Steep
        The steep as planned or as its readings bend it.
    target : float
        Drained moisture wanted at the end, % of wet weight.
    begun : bool
        Whether the barley is in the steep, so that only what comes can be changed.
    rest_h : float, optional
        Air rest that this barley is given at least [h].
    accepted_h : float, optional
        The longest immersion that is accepted of it [h].

    Returns
    -------
    Order or None
        None when the target is reached before the last immersion begins.

    Raises
    ------
    OutOfRange
        When the target is outside what the model takes.
    """
    needed = course.last_immersion_needed_h(target)
    if needed is None and course.drained_before_last_immersion >= target:
        return None
    mark: Mark = "stop" if needed is None else judge(IMMERSION, needed)
    if mark != "stop":
        return Order(needed, mark)
    rest = max(edge(REST.accept_low), rest_h or 0.0)
    once = again(course, accepted_h)
    found = (
        _split(course, target, rest, accepted_h),
        _warm(course, target, begun, accepted_h),
        _sprinkle(once, target),
    )
    return Order(needed, mark, tuple(way for way in found if way) or (once,))


def before_last(course: Steep) -> tuple[list[Stage], Stage]:
    """Give the stages before the last immersion, and that one."""
    stages = list(course.steeping.stages)
    place = (len(stages) - 1) // 2 * 2
    return stages[:place], stages[place]


def with_stages(course: Steep, stages: Sequence[Stage]) -> Steep:
    """Give the steep with other stages."""
    return run(course.steeping._replace(stages=tuple(stages)))


def _split(course: Steep, target: float, rest_h: float, accepted_h: float) -> Way | None:
    """Give the immersion in pieces of an accepted length, with rests between; none under the least."""
    before, last = before_last(course)
    rested = before[-1].water_temp_c if before else last.water_temp_c
    pieces: list[float] = []
    stages = [*before, last]
    for _ in range(1, MOST_PIECES):
        piece = usual_h(with_stages(course, stages), (len(stages) + 1) // 2, accepted_h)
        pieces += [piece, rest_h]
        stages = [*stages[:-1], last._replace(hours=piece), Stage(rest_h, rested), last]
        if len(stages) > STAGES.high:
            return None
        there = with_stages(course, stages)
        if there.drained_before_last_immersion >= target:
            return None
        needed = there.last_immersion_needed_h(target, accepted_h)
        if needed is None:
            continue
        if needed >= LEAST_H:
            end = with_stages(course, [*stages[:-1], last._replace(hours=needed)])
            return Way("split", (*pieces, needed), last.water_temp_c, end.ends[-1].drained)
        even = _evenly(course, there, target, (*pieces, needed), accepted_h)
        return even or _near(there, target, (*pieces,))
    return None


def _evenly(course: Steep, usual: Steep, target: float, hours: tuple[float, ...], accepted_h: float) -> Way | None:
    """Give the same pieces, all but the last as long as each other; None where that passes another stop."""
    before, last = before_last(course)
    rested = before[-1].water_temp_c if before else last.water_temp_c
    many = len(hours) // 2
    total, best = sum(hours[::2]), None
    for _ in range(_EVENINGS):  # short pieces take up more than long ones, so that less is left for the last
        each = max(LEAST_H, round(4.0 * total / (many + 1)) / 4.0)  # to the quarter of an hour
        begun = [last._replace(hours=each) if n % 2 == 0 else Stage(h, rested) for n, h in enumerate(hours[:-1])]
        needed = with_stages(course, [*before, *begun, last]).last_immersion_needed_h(target, accepted_h)
        if needed is None or needed < LEAST_H:
            break
        end = with_stages(course, [*before, *begun, last._replace(hours=needed)])
        if _worse(usual, end):
            break
        lengths = (*(stage.hours for stage in begun), needed)
        best = Way("split", lengths, last.water_temp_c, end.ends[-1].drained)
        total = many * each + needed
    return best


def _near(there: Steep, target: float, hours: tuple[float, ...]) -> Way:
    """Give the pieces without a last dip where that ends near the target, else with one of the least length."""
    last = there.steeping.stages[-1]
    end = [one for one in there.ends if one.wet][-2].drained
    if len(hours) > 2 and judge(OFF_TARGET, target - end) == "accept":
        return Way("split", hours[:-1], last.water_temp_c, end)
    *before, piece, rest, last = there.steeping.stages
    while True:  # a shorter piece before it, where the dip would go far past the target
        end = with_stages(there, [*before, piece, rest, last._replace(hours=LEAST_H)]).ends[-1].drained
        if end - target <= MOST_OVER or piece.hours < LEAST_H + 0.25:
            return Way("split", (*hours[:-2], piece.hours, rest.hours, LEAST_H), last.water_temp_c, end)
        piece = piece._replace(hours=piece.hours - 0.25)


def _warm(course: Steep, target: float, begun: bool, accepted_h: float) -> Way | None:
    """Give the least warmth, in whole degrees, at which one immersion of an accepted length is enough."""
    before, last = before_last(course)
    most = edge(WATER_TEMP.accept_high)
    if begun and before:
        most = min(most, before[-1].water_temp_c + edge(FILL_AGAINST_GRAIN.accept_high))
    temp = float(int(last.water_temp_c) + 1)
    while temp <= most:
        changed = before if begun else [s._replace(water_temp_c=max(s.water_temp_c, temp)) for s in before]
        warmed = with_stages(course, [*changed, last._replace(water_temp_c=temp)])
        needed = warmed.last_immersion_needed_h(target, accepted_h)
        if needed is not None and needed < LEAST_H:
            return None
        if needed is not None:
            end = with_stages(course, [*changed, Stage(needed, temp)])
            return None if _worse(course, end) else Way("warm", (needed,), temp, end.ends[-1].drained)
        if warmed.drained_before_last_immersion >= target:
            return None
        temp += 1.0
    return None


def _worse(course: Steep, other: Steep) -> bool:
    """Whether another steep passes a stop that this one keeps; the last immersion and the end are not compared."""
    known = {one.what for one in stops(of_course(course, ends=False))}
    return any(one.what not in known for one in stops(of_course(other, ends=False)))


def _sprinkle(once: Way, target: float) -> Way | None:
    """Give an immersion of an accepted length, where what it ends on may be cast and the rest sprinkled."""
    short = target - once.moisture
    if short <= 0.0 or judge(MOISTURE, once.moisture) == "stop" or judge(OFF_TARGET, short) == "stop":
        return None
    return once._replace(word="sprinkle")


def sprinkled_first(order: Order, moisture: float, target: float) -> Order:
    """Put cast and sprinkle first, for grain whose chits are there; at once where it may be cast as wet as it is.

    Parameters
    ----------
    order : Order
        An immersion past its stop, with what is left.
    moisture, target : float
        Drained, as it is and as it is wanted, % of wet weight.
    """
    short = target - moisture
    ways = sorted(order.ways, key=lambda way: way.word != "sprinkle")
    if judge(MOISTURE, moisture) != "stop" and judge(OFF_TARGET, short) != "stop":
        ways.insert(0, Way("sprinkle", (), ways[0].water_temp_c, moisture))
    return order._replace(ways=tuple(ways))


def again(course: Steep, accepted_h: float = ACCEPTED_H) -> Way:
    """Give one immersion of an accepted length, and what it ends on."""
    before, last = before_last(course)
    hours = usual_h(course, len(before) // 2 + 1, accepted_h)
    end = with_stages(course, [*before, last._replace(hours=hours)]).ends[-1].drained
    return Way("again", (hours,), last.water_temp_c, end)


def ready_by_moisture(moisture: float, target: float) -> bool:
    """Tell whether grain is wet enough to be looked at for the cast: within a point of its target, or past it.

    Parameters
    ----------
    moisture, target : float
        Drained, % of wet weight.
    """
    return target - moisture <= edge(OFF_TARGET.accept_high)


def is_early(course: Steep) -> bool:
    """Tell whether grain is drier before the last immersion of a steep than any is before its last dip.

    What its chits want of a last dip then does not hold for it: the plan of the steep decides.
    """
    return course.drained_before_last_immersion < edge(SECOND_DRAIN.stop_low)


def bounds() -> PlanEdges:
    """Give the edges of the table that a search for plans keeps to."""
    return PlanEdges(
        usual_immersion_h=edge(IMMERSION.accept_high),
        most_immersion_h=edge(IMMERSION.stop_high),
        usual_rest_h=edge(REST.accept_high),
        most_rest_h=edge(REST.stop_high),
        first_drain=(edge(FIRST_DRAIN.stop_low), edge(FIRST_DRAIN.stop_high)),
        second_drain=(edge(SECOND_DRAIN.stop_low), edge(SECOND_DRAIN.stop_high)),
        second_aim=edge(SECOND_DRAIN.accept_high),
        usual_steep_h=edge(STEEP.accept_low),
        least_steep_h=edge(STEEP.stop_low),
    )
