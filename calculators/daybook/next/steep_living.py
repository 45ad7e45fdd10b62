"""Warmth and chits of a batch in the steep as it stands: how warm a rest gets, which suction holds it, when it chits.

The batch is driven by the same laws as on the sheets of the steep, with its own water, its readings and its last count.
What passes a stop is said first; the hour of a last dip waits for its chits.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from functools import cached_property
from math import ceil, inf
from typing import NamedTuple

from ...asking.figures import fixed, plain_number
from ...models.bounds import OutOfRange
from ...models.living import resting
from ...models.living.lot_plan_state import State, at_hour
from ...models.living.steep_life import Chits, Life, Span
from ...models.living.steep_run import USUAL_RESTS, plan_of, warmed
from ...models.living.warmth import HOURS, REST_C, WETTED, Rest, air_on
from ...models.steep.course import Stage
from ...models.steep.hydration import STAGES, run
from ...models.weights.basket import FILM_DB
from ...rules.cast import limit_of
from ...rules.limit import Limit, edge, judge
from ...rules.limits.steeping import CHIT_LAST_DIP, FILL_AGAINST_GRAIN, REST, REST_RISE, REST_SPREAD, REST_TEMP
from ...rules.steep_life import REST_ON_H, Lives, life_stops
from ...rules.steep_order import Passed, held, of_course
from ...words.life import TOO_WARM, life_of
from ...words.limits import at_edge
from ...words.order import passed_sentences, stop_sentences
from ...words.rest import suction_note
from ..batch.batch import Batch
from ..batch.course import Course
from ..batch.lives import GrainRead, chits_of, grain_read
from .steep_here import Here

HOLD_C = edge(REST_TEMP.accept_high)
"""The suction that is named holds this [C]."""

_BASIS = (
    f"with the least suction that is published, {plain_number(USUAL_RESTS.suction_m3_h_t)} m³/h for each tonne, of air "
    "as warm as the first water"
)


def last_count(batch: Batch, last_h: float) -> list[Chits]:
    """Give the last count of chits, as the sheet on chitting takes it; nothing where it is after an hour, or none."""
    return [one for one in chits_of(batch) if one.hour <= last_h][-1:]


def counted(batch: Batch, course: Course) -> Lives:
    """Give what decides beside its water, its corns as the last count of chits has them."""
    counts = last_count(batch, course.best.hours + REST_ON_H)
    if not counts:
        return course.lives
    try:
        return course.lives._replace(corns=life_of(course.trust, course.lives, REST_ON_H, counts=counts).corns)
    except OutOfRange:
        return course.lives


class Living:
    """A batch in the steep with its open stage lasting until a moment, and what follows by the plan.

    Parameters
    ----------
    here : Here
        The batch as it stands.
    until : datetime
        When its open stage ends, UTC.
    ahead : sequence of Stage
        What follows that.
    """

    def __init__(self, here: Here, until: datetime, ahead: Sequence[Stage] = ()) -> None:
        self.here, self.until, self.ahead = here, until, tuple(ahead)
        self.too_warm = False

    @cached_property
    def life(self) -> Life | None:
        """Its warmth and its chits; None where the model cannot follow it, or where it gets too warm for the law."""
        there = self.here.open(self.until)
        if there is None or isinstance(self.here.known, str):
            return None
        old, lives = there.trust, self.here.known.lives
        trust = old.over((*old.base.stages, *self.ahead)[: int(STAGES.high)])
        try:
            warm, _ = warmed(trust.here, lives.rests)
            counts = last_count(self.here.batch, warm.hours + REST_ON_H)
            return life_of(trust.over(warm.steeping.stages), lives, counts=counts)
        except OutOfRange:
            self.too_warm = True
            return None

    def at(self, hour: float) -> datetime:
        """The moment so many hours after the first wetting."""
        assert self.here.batch.begun is not None
        return self.here.batch.begun + timedelta(hours=hour)

    def time(self, hour: float) -> str:
        """The same, as it is said."""
        return self.here.wall.time(self.at(hour))

    def hour(self, moment: datetime) -> float:
        """Hours since the first wetting [h]."""
        return self.here.batch.hours_at(moment)

    def chitted(self, moment: datetime) -> Span | None:
        """The share chitted at a moment; None where it is not known."""
        life = self.life
        if life is None or not 0.0 <= self.hour(moment) <= life.states[-1].hour:
            return None
        return life.share_at(self.hour(moment))

    def when(self, share: float) -> Span | None:
        """When a share has chitted, in hours since the first wetting; None where it does not within a rest after it."""
        return self.life.hour_of(share) if self.life is not None else None


def planned_after(here: Here) -> list[Stage]:
    """Give what follows the open stage by the plan; a rest as this barley wants it where an immersion has none."""
    if isinstance(here.known, str):
        return []
    water = here.known.stages.pairs[-1][1]
    plan = here.batch.plan[len(here.batch.spells) :]
    found = [Stage(hours, water if temp is None else temp) for hours, temp in plan]
    return found or ([Stage(here.rest_wanted_h, water)] if here.spell.wet else [])


def plan_stops(course: Course | str) -> list[str]:
    """Give what is said of a plan before its first water: the stops that it passes by water, warmth and chit."""
    if isinstance(course, str):
        return []
    passed = [*of_course(course.best, rests=False), *life_stops(course.best, course.lives)]
    return [f"Past a stop by the plan. {words}" for words in stop_sentences(passed)]


# -- warmth ----------------------------------------------------------------------------


def rest_ahead(living: Living) -> tuple[list[str], list[str]]:
    """What is said of the rest that follows the open immersion: a stop that it passes, and how warm it gets."""
    life = living.life
    if life is None:
        return ([TOO_WARM.text] if living.too_warm else []), []
    rest = next((one for one in life.warmest if one.number == living.here.number), None)
    if rest is None or not living.ahead:
        return [], []
    warm = rest.warmest_c
    stops = _warm_stops(warm.value, rest.rise_k_h.value, rest.number)
    when = f"by {living.time(rest.hour)}"
    begins = _rest_from(living, life, living.until, None, min(living.ahead[0].hours, HOURS.high))
    return stops, [_warm_words("In the rest after it the grain gets to", warm, when), *_suction(begins, warm)]


def open_rest(living: Living) -> tuple[list[str], list[str]]:
    """What is said of the open rest: a stop that it passes, how warm it gets, and which suction holds it."""
    here, life = living.here, living.life
    read = grain_read(here.batch, here.spell)
    stops = read_stops(here)
    hot = bool(read) and judge(REST_TEMP, read[-1].warmest_c) == "stop"
    if life is None:
        return stops + ([TOO_WARM.text] if living.too_warm else []), []
    since = read[-1].at if read else here.spell.begun
    hours = (living.until - since).total_seconds() / 3600
    if hours < HOURS.low:
        return stops, []
    rest = _rest_from(living, life, since, read[-1].warmest_c if read else None, min(hours, HOURS.high))
    if read:
        ran = resting.rested(rest)
        warm = Span(ran.typical.warmest_c, ran.slow.warmest_c, ran.fast.warmest_c)
        rise = resting.fastest_rise_k_h(ran.typical)
        said = f"Read {here.wall.time(since)}, {fixed(read[-1].warmest_c, 1)} °C; from there it gets to"
    else:
        found = next((one for one in life.warmest if one.number == here.number), None)
        if found is None:
            return stops, []
        warm, rise = found.warmest_c, found.rise_k_h.value
        said = "In this rest the grain gets to"
    if not hot:
        stops += _warm_stops(warm.value, rise, here.number)
    return stops, [_warm_words(said, warm, f"by {here.wall.time(living.until)}"), *_suction(rest, warm)]


def read_stops(here: Here) -> list[str]:
    """The stops that the last reading of the open rest passes: too warm, or too far apart."""
    read = grain_read(here.batch, here.spell)[-1:]
    now = [
        passed
        for one in read
        for passed in (*held(REST_TEMP, one.warmest_c, here.number), *held(REST_SPREAD, one.spread_k, here.number))
    ]
    return [f"Past a stop. {words}" for words in stop_sentences(now)]


def _warm_stops(warmest_c: float, rise_k_h: float, number: int) -> list[str]:
    passed = [*held(REST_TEMP, warmest_c, number), *held(REST_RISE, rise_k_h, number)]
    return [f"Past a stop ahead. {words}" for words in stop_sentences(passed)]


def _warm_words(begins: str, warm: Span, when: str) -> str:
    stop = edge(REST_TEMP.stop_high)
    value, low, high = (fixed(one, 1) for one in warm)
    said = f" Over {at_edge(REST_TEMP, 'stop_high')} is a stop: read it every two hours."
    may = said if warm.high > stop >= warm.value else ""
    return f"{begins} about {value} °C ({low} to {high}) {when}, {_BASIS}.{may}"


def _rest_from(living: Living, life: Life, since: datetime, read_c: float | None, hours: float) -> Rest:
    """The open rest from a moment on, in the form of the sheet on the warmth of a rest."""
    at = min(living.hour(since), life.states[-1].hour)

    def figure(name: str) -> float:
        def of(state: State) -> float:
            return float(getattr(state, name))

        return float(at_hour(life.states, at, of))

    assert isinstance(living.here.known, Course)
    own = life.course.steeping
    plan = plan_of(own, living.here.known.lives.rests)
    air = air_on(temp_c=plan.air_c, relative_humidity=plan.rest_air_rh)
    start = figure("temp_c") if read_c is None else read_c
    return Rest(
        own.barley_moisture,
        min(max(figure("net"), WETTED.low), WETTED.high),
        min(max(start, REST_C.low), REST_C.high),
        hours,
        figure("growth_h"),
        air,
        plan.suction_m3_h_t,
        FILM_DB,
    )


def _suction(rest: Rest, warm: Span) -> list[str]:
    """Which suction holds what is accepted, where a batch that breathes fast may pass it."""
    if warm.high <= HOLD_C:
        return []
    typical, fast = (None, None) if rest.start_c > HOLD_C else resting.holding(limit_c=HOLD_C, rest=rest)
    note = suction_note(HOLD_C, rest.start_c, typical, fast)
    if note is not None or fast is None:
        return [note.text] if note else []
    usual = f"typically {plain_number(ceil(typical))} do" if typical else "typically the least is enough"
    return [
        f"Suction of {plain_number(ceil(fast))} m³/h for each tonne holds it at "
        f"{at_edge(REST_TEMP, 'accept_high')}, should it breathe fast; {usual}."
    ]


def _warmest_by(living: Living, life: Life, read: GrainRead) -> float:
    """How warm the warmest place that was read is when the open rest ends [C]."""
    hours = (living.until - read.at).total_seconds() / 3600
    if hours < HOURS.low:
        return read.warmest_c
    rest = _rest_from(living, life, read.at, read.warmest_c, min(hours, HOURS.high))
    try:
        return max(read.warmest_c, float(resting.rested(rest).typical.warmest_c))
    except OutOfRange:
        return read.warmest_c


def mix_words(living: Living) -> list[str]:
    """How warm the next water has to be against the grain, where what was written of it lies too far from that."""
    life = living.life
    if life is None:
        return []
    at = min(living.hour(living.until), life.states[-1].hour)
    grain = coolest = float(at_hour(life.states, at, lambda state: state.temp_c))
    begins = "The grain is"
    read = grain_read(living.here.batch, living.here.spell)[-1:]
    for one in read:  # what was read goes before what is reckoned
        grain, coolest = _warmest_by(living, life, one), one.coolest_c
        begins = f"Read {living.here.wall.time(one.at)}, {fixed(one.warmest_c, 1)} °C at its warmest, the grain is"
    water = (planned_after(living.here)[:1] or life.course.steeping.stages[-1:])[0].water_temp_c
    if judge(FILL_AGAINST_GRAIN, round(max(grain - water, water - coolest), 6)) != "stop":
        return []
    return [
        f"{begins} at about {fixed(grain, 1)} °C by then: mix the water to within "
        f"{at_edge(FILL_AGAINST_GRAIN, 'stop_high')} of what you read in it, by [[sheet:mixing-waters]]."
    ]


# -- chits -----------------------------------------------------------------------------


def _percent(span: Span) -> str:
    value, low, high = (fixed(100.0 * one, 0) for one in span)
    return f"{value} % ({low} to {high})"


def _by(living: Living) -> str:
    counts = last_count(living.here.batch, inf)
    return f"by the count of {living.time(counts[-1].hour)}" if counts else "by the typical barley, nothing counted"


def _share_words(living: Living, moment: datetime) -> list[str]:
    share = living.chitted(moment)
    return [] if share is None else [f"Chitted by {living.here.wall.time(moment)}: {_percent(share)}, {_by(living)}."]


def _when_words(living: Living, limit: Limit, edge_of: str, what: str) -> str:
    """When as many have chitted as an edge wants, with the soonest and the latest hour."""
    there, aim = living.when(edge(getattr(limit, edge_of)) / 100.0), f"{at_edge(limit, edge_of)}, as {what} wants,"
    if there is None:
        return f"{aim} do not come within {at_edge(REST, 'accept_high')} of rest after these stages."
    if there.value <= living.hour(living.here.now):
        return f"{aim} should be there by now."
    late = "" if there.high == inf else f", at the latest {living.time(there.high)}"
    soonest = max(there.low, living.hour(living.here.now))  # before now they were not there, by the count
    return f"{aim} come at about {living.time(there.value)}, at the soonest {living.time(soonest)}{late}."


class Wait(NamedTuple):
    """Until when chits are waited for: the moment, what leads, and what stands with it."""

    until: datetime | None
    lead: list[str]
    more: list[str]


def wait_for_dip(living: Living, due: datetime) -> Wait:
    """Give when the last dip may come: at its hour, or where the chits are short by then, when they are there.

    Parameters
    ----------
    living : Living
        The batch in the rest before its last dip, the rest lasting until ``due``.
    due : datetime
        When the water would go on, UTC.
    """
    share = living.chitted(due)
    if share is None:
        return Wait(due, [], [])
    passed = held(CHIT_LAST_DIP, 100.0 * share.value, living.here.number + 1)
    least = edge(CHIT_LAST_DIP.stop_low)
    if not any(one.is_stop for one in passed):
        when = _when_words(living, CHIT_LAST_DIP, "accept_low", "a last dip")
        return Wait(due, [], [*_share_words(living, due), when])
    until, latest = due, living.here.after(edge(REST.stop_high))
    longer = Living(living.here, max(latest, due))
    there = longer.when(least / 100.0)
    if there is not None and longer.at(there.value) <= latest:
        until = max(due, longer.at(there.value))
        said = _when_words(longer, CHIT_LAST_DIP, "stop_low", "the stop")
    else:
        until = max(due, latest)
        said = f"So many do not come within {at_edge(REST, 'stop_high')} of rest."
    at = living.here.wall.time(due)
    lead = [f"Past a stop at {at}, {_by(living)}. {words} {said}" for words in stop_sentences(passed)]
    return Wait(until, lead, [*_share_words(living, due), "A count of 200 corns goes before this reckoning."])


def _wanted(limit: Limit) -> float:
    return edge(limit.accept_low)


def wait_for_cast(living: Living, planned: datetime | None) -> Wait:
    """Give when the chits for the cast are there: stops that a cast would pass now, or when it is planned, lead.

    Parameters
    ----------
    living : Living
        The batch in a rest after which it may be cast.
    planned : datetime or None
        When the plan ends, UTC.
    """
    here = living.here
    moment = max(here.now, planned or here.now)
    share = living.chitted(moment)
    if share is None or isinstance(here.known, str):
        return Wait(planned, [], [])
    limit = limit_of(here.known.lives.to)
    passed = held(limit, 100.0 * share.value)
    at = f"{here.wall.time(moment)}, {_by(living)}"
    lead = [f"Past a stop for a cast by {at}. {words}" for words in stop_sentences(passed)]
    there, until = living.when(_wanted(limit) / 100.0), planned
    if lead:
        latest = max(moment, here.after(edge(REST.stop_high)))
        until = latest if there is None else min(max(moment, living.at(there.value)), latest)
    return Wait(until, lead, [*_share_words(living, moment), _when_words(living, limit, "accept_low", "the cast")])


def chits_ahead(living: Living) -> list[str]:
    """What is said of the chits under water: before the last dip of the plan, and for the cast."""
    life, here = living.life, living.here
    if life is None or isinstance(here.known, str):
        return []
    stages = life.course.steeping.stages
    own = len(stages) - (1 if len(stages) % 2 == 0 else 0)  # without a rest that only follows
    dip_h = sum(stage.hours for stage in stages[: own - 1])
    limit = limit_of(here.known.lives.to)
    said = []
    if dip_h > living.hour(living.until) and living.ahead:
        said += _share_words(living, living.at(dip_h))
    return [*said, _when_words(living, limit, "accept_low", "the cast")]


def stops_ahead(living: Living, said: str) -> list[str]:
    """The stops of warmth and chit that the plan passes later on, but for those that are said already."""
    life, here = living.life, living.here
    if life is None or isinstance(here.known, str) or not here.batch.plan:
        return []
    lives = here.known.lives._replace(corns=life.corns)
    stages = life.course.steeping.stages[: len(here.known.stages.pairs)]
    plan = run(life.course.steeping._replace(stages=stages))
    later = [one for one in life_stops(plan, lives) if _is_later(one, here)]
    told = passed_sentences(later)
    return [f"Ahead by the plan, past a stop. {told}"] if told and told not in said else []


def _is_later(one: Passed, here: Here) -> bool:
    """Whether a stop is of a stage that comes after the next one."""
    if one.line.rule == CHIT_LAST_DIP.id:
        return one.number > here.number + (0 if here.spell.wet else 1)
    return one.number > here.number
