"""What a forecast passes of the limits of the trade, and the readings that may still be taken of a batch."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from ..models.living.lot_plan_state import Plan
from ..models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Probe, Reading
from .limit import Limit
from .limits import casting, drum_germination, floor_germination
from .limits.readiness import OVERSHOT
from .limits.steeping import IMMERSION, REST, REST_TEMP, STEEP, WATER_TEMP
from .lines import Line, passed
from .steep_order import DRAINS, Passed, held

if TYPE_CHECKING:
    from ..models.living.ensemble import Ensemble

FLOOR, DRUM = "floor", "drum"
COUNTED = 100
"""Corns of a count that may still be taken: common practice."""

FIRST_SPLIT_H = 48.0
"""Hours after the cast from which acrospires are worth splitting [h]: our judgement."""

LEAST_EFFECTIVE = 50
"""Possible batches that count, under which bands would be rough: our judgement."""

SOON_H = 1.0
"""The soonest reading that is weighed up is so far away [h]."""

CHIT = {FLOOR: casting.CHIT_COUCH, DRUM: casting.CHIT}
"""What is wanted of the chits at the cast, by where the batch goes."""

BED = {FLOOR: floor_germination.PIECE, DRUM: drum_germination.BED}


class Range(NamedTuple):
    """A figure of a forecast: its middle and the ends of its band, and the hour it is of."""

    low: float
    middle: float
    high: float
    hour: float


class Foreseen(NamedTuple):
    """A stop that a forecast passes: by its middle, or only by the far end of its band; and the hour of it."""

    line: Line
    hour: float
    far: bool


def foreseen(limit: Limit, figure: Range, *, high_only: bool = False) -> list[Foreseen]:
    """Give the stops of a limit that a figure passes: by its middle, and by an end of its band on another side.

    Parameters
    ----------
    limit : Limit
        The limit.
    figure : Range
        In the limit's unit.
    high_only : bool, optional
        Whether values under what is accepted are left alone.
    """

    def stop(value: float) -> Line | None:
        line = passed(limit, value, high_only=high_only)
        return line if line and line.mark == "stop" else None

    ends = [line for line in (stop(figure.high), stop(figure.low)) if line]
    middle = stop(figure.middle)
    if middle:  # an end past the same edge says no more than the middle does
        ends = [line for line in ends if line.edge != middle.edge]
    far = [Foreseen(line, figure.hour, True) for line in ends]
    return [Foreseen(middle, figure.hour, False), *far] if middle else far


def of_plan(plan: Plan) -> list[Passed]:
    """Give all stops that the plan of a steep passes by itself: its waters, immersions, rests and hours in all."""
    found: list[Passed] = []
    hours = 0.0
    last_drain = 0.0
    for place, stage in enumerate(plan.stages):
        number = place // 2 + 1
        hours += stage.hours
        if place % 2:
            found += held(REST, stage.hours, number)
            continue
        last_drain = hours
        found += held(WATER_TEMP, stage.water_temp_c, number) + held(IMMERSION, stage.hours, number)
    found += held(STEEP, last_drain)
    return [one for one in found if one.is_stop]


class Ends(NamedTuple):
    """Hours since the first wetting at which immersions and rests end, the cast and the end of the plan [h]."""

    wet: tuple[float, ...]
    rests: tuple[tuple[float, float], ...]
    cast: float
    last: float


def ends_of(plan: Plan) -> Ends:
    """Give when the parts of a plan end."""
    wet, rests, hour = [], [], 0.0
    for place, stage in enumerate(plan.stages):
        begins, hour = hour, hour + stage.hours
        if place % 2:
            rests.append((begins, hour))
        else:
            wet.append(hour)
    return Ends(tuple(wet), tuple(rests), hour, hour + sum(spell.hours for spell in plan.bed))


def drains_ahead(ends: Ends, now: float) -> list[tuple[Limit, float]]:
    """Give the drains still to come that have a limit of their own, with their hours; the last drain has another."""
    return [(limit, hour) for limit, hour in zip(DRAINS, ends.wet[:-1], strict=False) if hour > now]


def range_of(one: "Ensemble", of: str, hour: float, times: float = 1.0) -> Range:
    """Give a figure of a forecast at an hour, times a factor such as 100 for per cent."""
    band = getattr(one, of)([hour])
    return Range(times * band.low[0], times * band.middle[0], times * band.high[0], hour)


def rest_hours(one: "Ensemble", ends: Ends, now: float) -> list[float]:
    """Give the hours of the rests that are still to come, or under way [h]."""
    hours = one.hours()
    return [hour for begins, end in ends.rests if end > now for hour in hours_in(hours, max(begins + 0.5, now), end)]


def bed_hours(one: "Ensemble", ends: Ends, now: float) -> list[float]:
    """Give the hours in the bed that are still to come [h]."""
    return hours_in(one.hours(), max(now, ends.cast + 0.5), ends.last)


def stops_of(
    one: "Ensemble", plan: Plan, now: float, vessel: str, *, turned_every_h: float, depth_m: float
) -> list[Foreseen]:
    """Give the stops that figures still to come pass, in the order of the work.

    Parameters
    ----------
    one : Ensemble
        The batch with its readings taken in.
    plan, now, vessel, turned_every_h, depth_m
        As for :func:`may_be_taken`.
    """
    from ..models.living.outlook import furthest, warmest_bottom  # imports numpy

    ends = ends_of(plan)
    found: list[Foreseen] = []
    for limit, hour in drains_ahead(ends, now):
        found += foreseen(limit, range_of(one, "moisture", hour))
    rests = rest_hours(one, ends, now)
    if rests:
        found += foreseen(REST_TEMP, Range(*furthest(one, "warmth", rests)))
    if now <= ends.cast:
        found += foreseen(casting.MOISTURE, range_of(one, "moisture", ends.cast))
        found += foreseen(casting.GRAIN_TEMP, range_of(one, "warmth", ends.cast))
        found += foreseen(CHIT[vessel], range_of(one, "chitted", ends.cast, 100.0))
    hours = bed_hours(one, ends, now)
    if hours:
        germinating = floor_germination.MOISTURE
        found += foreseen(BED[vessel], Range(*furthest(one, "warmth", hours)), high_only=True)
        found += foreseen(BED[vessel], Range(*furthest(one, "warmth", hours, lowest=True)))
        if vessel == FLOOR:
            room = plan.bed[0].air_c
            bottom = warmest_bottom(one, hours, turned_every_h=turned_every_h, depth_m=depth_m, room_c=room)
            found += foreseen(floor_germination.BOTTOM, Range(*bottom))
        found += foreseen(germinating, Range(*furthest(one, "moisture", hours)), high_only=True)
        found += foreseen(germinating, Range(*furthest(one, "moisture", hours, lowest=True)))
        found += foreseen(OVERSHOT, range_of(one, "overshot", ends.last, 100.0))
    return list(dict.fromkeys(found))


def may_be_taken(plan: Plan, now: float, vessel: str, *, turned_every_h: float, depth_m: float) -> list[Reading]:
    """Give the readings that a house could still take of a batch: at drains, at ends of rests, and day by day.

    Parameters
    ----------
    plan : Plan
        What is done.
    now : float
        Hours since the first wetting [h].
    vessel : str
        ``floor`` or ``drum``: in a drum nothing is read at the bottom.
    turned_every_h : float
        Hours from one turning to the next [h].
    depth_m : float
        Depth of the piece [m].
    """
    ends = ends_of(plan)
    found: list[Reading] = [Basket(hour, 0.0) for hour in ends.wet]
    for begins, end in ends.rests:
        for hour in (0.5 * (begins + end), end):
            found += [Probe(hour, 0.0), Chits(hour, 0, COUNTED)]
    found += [Chits(ends.cast + after, 0, COUNTED) for after in (0.0, 8.0, 24.0)]
    days = [ends.cast + 24.0 * day for day in range(1, int((ends.last - ends.cast) / 24.0) + 1)]
    soon = now + SOON_H
    if now >= ends.cast:
        days.insert(0, soon)
    elif now > 0.0:
        found += [Basket(soon, 0.0), Chits(soon, 0, COUNTED)]
        found += [Probe(soon, 0.0)] if any(begins <= now and soon <= end for begins, end in ends.rests) else []
    for hour in days:
        found += [Oven(hour, 0.0), Probe(hour, 0.0)]
        if vessel == FLOOR:
            found.append(BottomTop(hour, 0.0, 0.0, turned_every_h, depth_m, plan.bed[0].air_c))
        if hour >= ends.cast + FIRST_SPLIT_H:
            found.append(AcrospireCount(hour, (COUNTED, 0, 0, 0, 0)))
    return [one for one in found if now < one.hour <= (ends.cast if isinstance(one, Basket) else ends.last)]


def hours_in(hours: Sequence[float], begins: float, end: float) -> list[float]:
    """Give those of some hours that lie from one to another."""
    return [hour for hour in hours if begins - 1e-6 <= hour <= end + 1e-6]
