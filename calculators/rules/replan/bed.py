"""The rest of a batch on the floor or in the drum planned anew: how warm it is kept, when it is turned and loaded."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Iterator, Sequence
from math import ceil, inf
from typing import Literal, NamedTuple

from ...models.living.acrospires import Acrospires, classes
from ...models.living.batch import bed_course
from ...models.living.chitting import Corns
from ...models.living.fan_stopped import hours_to, stopped_courses
from ...models.living.lot_plan_state import BED_HOURS, BedSpell, Lot, State, at_hour
from ...models.living.pace import CHIT_C, growth_after_cast
from ...models.living.ready import own_corn_length
from ...models.living.warmth import REST_C, RestCourse
from ..conventions import READY_AT_C, READY_DAYS
from ..limit import Limit, edge
from ..limits import casting, drum_germination, floor_germination, kiln_hand_over
from ..limits.readiness import OVERSHOT, READY
from ..lines import Line, passed
from .faults import MOST_HOURS, Asked
from .turnings import Turning, Turnings
from .ways import PUTS_FIRST, Changes, Cost, Move, Way, Ways, Weights, chosen, hands_at_night, in_quiet

SPRINKLES_L_T = (0.0, 15.0, 30.0, 60.0)
"""Water put on now that is tried, as stays on the grain [L for each tonne of barley]."""

LONGEST_H = 240.0
"""No bed is planned for longer [h]."""

_GROWTH_UNIT_H = 6.0  # so much growth counts as a point of moisture
_LOOKED_AT = 60


class BedNow(NamedTuple):
    """A batch on the floor or in the drum as it stands.

    Attributes
    ----------
    vessel : str
        ``floor`` or ``drum``.
    barley_moisture, moisture : float
        As filled, and now, % of wet weight.
    temp_c : float
        On the whole [C].
    growth_h : float
        Growth clock now [h at 15 C].
    since_turning_h : float
        Since it was turned, or cast [h].
    clock_h : float
        Hour of the day [h].
    load_h : float or None
        Hours until the plan loads it on the kiln [h].
    ready_days : float
        Days from the cast to ready at 15 C in this house [days].
    room_c : float
        Room, or coldest air that can be given [C].
    couch : bool
        Whether it lies as it was cast.
    since_water_h : float
        Since water was put on it [h].
    loss_percent : float
        Dry matter lost so far [% of the barley's].
    changes : Changes
        When the clocks are changed.
    """

    vessel: Literal["floor", "drum"]
    barley_moisture: float
    moisture: float
    temp_c: float
    growth_h: float
    since_turning_h: float
    clock_h: float
    load_h: float | None = None
    ready_days: float = READY_DAYS
    room_c: float = 12.0
    couch: bool = False
    since_water_h: float = inf
    loss_percent: float = 1.0
    changes: Changes = ()

    @property
    def ready_growth_h(self) -> float:
        """Growth clock at which this house's batches are ready [h at 15 C]."""
        return growth_after_cast(day=1.0 + self.ready_days, temp_c=READY_AT_C)

    @property
    def turning(self) -> Limit:
        """Hours between two turnings."""
        return floor_germination.TURNING if self.vessel == "floor" else drum_germination.TURNING


class Candidate(NamedTuple):
    """One way to keep a bed: its temperature [C], the water put on now [L/t], when it is ready and loaded [h]."""

    hold_c: float
    sprinkled_l_t: float
    ready_h: float
    load_h: float
    growth_h: float
    moisture: float
    turnings: Turnings


def ways_of(now: BedNow, asked: Asked) -> Ways:
    """Give the ways through the rest of a bed.

    Parameters
    ----------
    now : BedNow
        The batch as it stands.
    asked : Asked
        What the fault asks of every way.

    Returns
    -------
    Ways
        The cheapest by each measure, those alike left out. None passes a stop that is not passed already.
    """
    found = list(candidates(now, asked))

    def ranked(weights: Weights) -> Iterator[Way | None]:
        for one in sorted(found, key=lambda each: (price(each, now, weights, asked), each))[:_LOOKED_AT]:
            yield _way(one, now)

    ways = chosen((word, ranked(weights)) for word, weights in PUTS_FIRST.items())
    return Ways(ways, tuple(already(now, asked)), _to_the_stop(now, asked))


def already(now: BedNow, asked: Asked) -> list[Line]:
    """Give the stops that are passed by now, or that a standing fan passes whatever is done."""
    first = casting.COUCH_HOURS if now.couch else now.turning
    shut = asked.fan_off_h if asked.fan_off_h else 0.0
    warm = drum_germination.BED if now.vessel == "drum" else floor_germination.PIECE
    reached = max(_stopped(now, asked)[0].temps_c) if asked.fan_off_h else now.temp_c
    found = [
        passed(first, now.since_turning_h + shut, high_only=True),
        passed(floor_germination.MOISTURE, now.moisture),
        passed(warm, reached),
    ]
    return [line for line in found if line and line.mark == "stop"]


def _stopped(now: BedNow, asked: Asked) -> tuple[RestCourse, RestCourse]:
    return stopped_courses(
        place="drum",
        barley_moisture=now.barley_moisture,
        net_moisture=now.moisture,
        temp_c=min(max(now.temp_c, REST_C.low), REST_C.high),
        growth_h=now.growth_h,
        room_c=now.room_c,
        hours=max(asked.fan_off_h, 0.1),
    )


def _to_the_stop(now: BedNow, asked: Asked) -> tuple[float, float] | None:
    if not asked.fan_off_h:
        return None
    stop = edge(drum_germination.BED.stop_high)
    long = asked._replace(fan_off_h=MOST_HOURS)
    usual, fast = _stopped(now, long)
    return hours_to(usual, stop), hours_to(fast, stop)


def holds(now: BedNow) -> list[float]:
    """Give the temperatures that it may be kept at [C]: whole degrees that are accepted, none under the room's."""
    limit = floor_germination.PIECE if now.vessel == "floor" else drum_germination.BED
    coldest = max(edge(limit.accept_low), ceil(now.room_c))
    most = int(edge(limit.accept_high))
    return [float(temp) for temp in range(int(min(coldest, most)), most + 1)]


def candidates(now: BedNow, asked: Asked) -> Iterator[Candidate]:
    """Give every way to keep the bed that passes no stop, by whole degrees and whole hours."""
    at_once = asked.turn_now and not asked.fan_off_h
    turnings = {wetted: _turning(now, asked, at_once or wetted) for wetted in (False, True)}  # water is turned in
    free_h = 0.0 if now.load_h is None else now.load_h + asked.load_from_h
    if not asked.load_from_h:
        free_h = 0.0
    rows: dict[tuple[float, bool], Turnings | None] = {}
    for hold_c in holds(now):
        for litres in SPRINKLES_L_T:
            if litres and (asked.no_water or now.couch):
                continue
            states = course_of(now, asked, hold_c, litres)
            ready_h = _ready(states, now)
            if ready_h is None:
                continue
            wait = edge(kiln_hand_over.READY_HOURS.stop_high)
            first = ceil(max(ready_h, free_h, asked.fan_off_h, 1.0))
            for load in range(first, int(min(ready_h + wait, states[-1].hour)) + 1):
                key = load, litres > 0.0
                if key not in rows:
                    rows[key] = turnings[litres > 0.0].until(float(load))
                row = rows[key]
                one = row and _candidate(now, asked, states, hold_c, litres, ready_h, float(load), row)
                if one:
                    yield one


def _turning(now: BedNow, asked: Asked, at_once: bool) -> Turning:
    return Turning(
        now.turning,
        since_h=now.since_turning_h,
        clock_h=now.clock_h,
        until_h=LONGEST_H,
        now=at_once,
        quiet_h=asked.quiet_h,
        shut_h=asked.fan_off_h,
        first=casting.COUCH_HOURS if now.couch else None,
        changes=now.changes,
    )


def course_of(now: BedNow, asked: Asked, hold_c: float, litres: float) -> list[State]:
    """Give the states of the bed kept at a temperature from now on, or from when its fan runs again."""
    spells: list[BedSpell] = []
    if asked.fan_off_h:
        temps = _stopped(now, asked)[0].temps_c
        mean = min(max(sum(temps) / len(temps), CHIT_C.low), CHIT_C.high)
        spells.append(BedSpell(max(asked.fan_off_h, BED_HOURS.low), mean))
    whole, water = LONGEST_H, litres
    while whole > 0.0:
        spells.append(BedSpell(min(48.0, whole), hold_c, sprinkled_l_t=water))
        whole, water = whole - 48.0, 0.0
    return bed_course(
        barley_moisture=now.barley_moisture,
        moisture=now.moisture,
        growth_h=now.growth_h,
        spells=spells,
        loss_percent=now.loss_percent,
        lot=Lot(),
    )


def _ready(states: Sequence[State], now: BedNow) -> float | None:
    """Hours until it is ready by its growth clock [h]."""
    wanted = now.ready_growth_h
    before = states[0]
    for state in states:
        if state.growth_h >= wanted:
            if state is before:
                return 0.0
            share = (wanted - before.growth_h) / (state.growth_h - before.growth_h)
            return float(before.hour + share * (state.hour - before.hour))
        before = state
    return None


def overshot_percent(growth_h: float, ready_days: float) -> float:
    """Give the share of corns whose acrospire is out of the corn at a growth clock [%], in a house of so many days."""
    length = own_corn_length(
        reference_days=ready_days, reference_temp_c=READY_AT_C, share=edge(READY.accept_low) / 100.0
    )
    return 100.0 * classes(growth_h=growth_h, corns=Corns(), acrospires=Acrospires(length))[-1]


def _candidate(
    now: BedNow, asked: Asked, states: list[State], hold_c: float, litres: float, ready_h: float, load_h: float,
    row: Turnings,
) -> Candidate | None:  # fmt: skip
    growth = float(at_hour(states, load_h, lambda state: state.growth_h))
    moisture = float(at_hour(states, load_h, lambda state: state.net))
    one = Candidate(hold_c, litres, ready_h, load_h, growth, moisture, row)
    on_the_way = [float(state.net) for state in states if 0.0 < state.hour < load_h]
    if in_quiet(moves_of(one), asked.quiet_h):
        return None
    if any(line.mark == "stop" for line in passed_by(one, now, on_the_way, now.moisture, asked.fan_off_h)):
        return None
    return one


def passed_by(
    one: Candidate, now: BedNow, on_the_way: Sequence[float], begun: float, shut_h: float = 0.0
) -> list[Line]:
    """Give all that a way to keep a bed passes of the table.

    Parameters
    ----------
    one : Candidate
        The way.
    now : BedNow
        The batch as it stands.
    on_the_way : sequence of float
        Moistures until it is loaded, % of wet weight.
    begun : float
        Moisture now: what lies past a stop already counts only where it goes further past it, % of wet weight.
    shut_h : float, optional
        Nobody may go near it before [h].
    """
    bed = floor_germination.MOISTURE
    low, high = min([*on_the_way, one.moisture]), max([*on_the_way, one.moisture])
    limit = floor_germination.PIECE if now.vessel == "floor" else drum_germination.BED
    water_h = one.load_h + (0.0 if one.sprinkled_l_t else now.since_water_h)
    found = [
        passed(limit, one.hold_c),
        passed(kiln_hand_over.READY_HOURS, one.load_h - one.ready_h, high_only=True),
        passed(kiln_hand_over.MOISTURE, one.moisture),
        passed(kiln_hand_over.LAST_WATER, water_h) if water_h < inf else None,
        passed(OVERSHOT, overshot_percent(one.growth_h, now.ready_days)),
        passed(now.turning, one.turnings.longest_h, high_only=True) if not _first_over(one, now, shut_h) else None,
        passed(bed, low) if low < begun else None,
        passed(bed, high) if high > begun else None,
    ]
    return [line for line in found if line]


def _first_over(one: Candidate, now: BedNow, shut_h: float) -> bool:
    """Whether the longest time between turnings is the one under way, which no way can shorten."""
    first = one.turnings.hours[0] if one.turnings.hours else one.load_h
    return one.turnings.longest_h <= now.since_turning_h + first + 1e-9 and (
        now.couch or first in (float(ceil(shut_h)), one.load_h)
    )


def price(one: Candidate, now: BedNow, weights: Weights, asked: Asked) -> float:
    """Give what counts against a way to keep a bed, in points."""
    planned = one.ready_h if now.load_h is None else now.load_h + asked.load_from_h
    over = abs(one.growth_h - now.ready_growth_h) / _GROWTH_UNIT_H
    dry = max(0.0, edge(floor_germination.MOISTURE.accept_low) - one.moisture)
    watched = one.turnings.longest_h > edge(now.turning.accept_high)
    hands = hands_at_night(moves_of(one), now.clock_h, now.changes)
    waited = max(0.0, one.load_h - one.ready_h - edge(kiln_hand_over.READY_HOURS.accept_high))
    return round(
        weights.hour * abs(one.load_h - planned) + weights.off * (over + dry) + weights.night * hands
        + watched + 0.25 * waited + 0.02 * one.sprinkled_l_t + 0.05 * abs(one.hold_c - now.temp_c), 9,
    )  # fmt: skip


def moves_of(one: Candidate) -> tuple[Move, ...]:
    """Give what is done when."""
    moves = [Move(hour, "turn") for hour in one.turnings.hours]
    if one.sprinkled_l_t:
        moves.insert(0, Move(0.0, "sprinkle", one.sprinkled_l_t))
    return (*moves, Move(one.load_h, "load"))


def _way(one: Candidate, now: BedNow) -> Way:
    moves = moves_of(one)
    low = edge(floor_germination.MOISTURE.accept_low)
    cost = Cost(
        None if now.load_h is None else one.load_h - now.load_h,
        one.moisture,
        min(0.0, one.moisture - low),
        None,
        one.growth_h,
        one.growth_h - now.ready_growth_h,
        hands_at_night(moves, now.clock_h, now.changes),
    )
    watched = [line for line in passed_by(one, now, [], now.moisture) if line.mark != "stop"]
    return Way((), moves, cost, (), one.hold_c, None, tuple(watched))
