"""A batch of the book as planning anew has it, and what of it has left the plan."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from ...models.bounds import OutOfRange
from ...models.living.batch import course as living_course
from ...models.living.lot_plan_state import State, at_hour
from ...models.living.pace import growth_after_cast
from ...models.living.ready import nearest_bed_c, pace
from ...models.steep.hydration import STAGE_HOURS
from ...rules.conventions import READY_AT_C, READY_DAYS
from ...rules.limits import casting, drum_germination, floor_germination, kiln_hand_over, steeping
from ...rules.lines import Line
from ...rules.replan.bed import BedNow
from ...rules.replan.faults import Fault
from ...rules.replan.steep_grid import SteepNow
from ...rules.steep_order import DRAINS
from ..batch.at_hand import House
from ..batch.batch import Batch
from ..batch.bed_read import mean_temps
from ..batch.course import Course
from ..batch.lives import grain_read
from ..batch.living import living_batch
from ..lines.kinds import DRUM
from .drained import OVER, UNDER, side_of
from .expected import Last
from .lying import lying_of
from .open_faults import faults_at, open_faults, place_of
from .planned import holding
from .steep_here import NEAR, here_of
from .steep_living import counted
from .step import Wall

LATE = timedelta(hours=1)
"""A step that is later than this has left the plan: a convention of this handbook."""

_WARM = {
    steeping.REST_TEMP.id, steeping.REST_RISE.id, floor_germination.BOTTOM.id, floor_germination.PIECE.id,
    floor_germination.DIFFERENCE.id, casting.COUCH_BOTTOM.id, casting.COUCH_RISE.id, drum_germination.BED.id,
    drum_germination.RISE.id, drum_germination.PROBES.id,
}  # fmt: skip
_OF_SIDE: tuple[tuple[str, Fault], ...] = ((OVER, "ahead"), (UNDER, "behind"))
_LAIN = {floor_germination.TURNING.id, casting.COUCH_HOURS.id, drum_germination.TURNING.id}


def left_the_plan(
    batch: Batch, last: Last | None, lines: Sequence[Line], due: datetime | None, now: datetime
) -> list[Fault]:
    """Give what has left the plan by the book: faults written, readings, hours and limits.

    Parameters
    ----------
    batch : Batch
        A batch at work.
    last : Last or None
        Its last reading against what was expected.
    lines : sequence of Line
        What of it is outside the table of limits.
    due : datetime or None
        When its next step is due, UTC.
    now : datetime
        UTC.

    Returns
    -------
    list of str
        What presses most first. What is only watched is not too warm: it stands with its figure beside the next step.
    """
    place = place_of(batch)
    if place is None:
        return []
    found: set[Fault] = {one.fault for one in open_faults(batch)}
    rules = {line.rule for line in lines}
    if drum_germination.FAN.id in rules:
        found.add("blower")
    if any(line.rule in _WARM and line.mark == "stop" and not _is_low(line) for line in lines):
        found.add("warm")
    if rules & _LAIN:
        found.add("turning-missed")
    if kiln_hand_over.READY_HOURS.id in rules:
        found.add("kiln-late")
    changed = [one.utc for one in batch.of("plan", "stage-begun", "stage-ended")]
    if place in ("wet", "rest") and last is not None and last.is_off and last.expected is not None:
        fresh = not changed or changed[-1] <= last.entry.utc
        if last.what == "moisture" and last.read is not None and fresh:
            found.add("behind" if last.read < last.expected.low else "ahead")
    if place in ("wet", "rest") and not any(one.utc >= batch.spells[-1].begun for one in batch.of("plan")):
        sides = {side_of(line) for line in lines if line.limit in DRAINS}
        found |= {fault for side, fault in _OF_SIDE if side in sides}
    if place in ("wet", "rest") and due is not None and now - due > LATE:
        found.add("ahead" if "ahead" in found or _before_the_plan(batch, due) else "behind")
    return [fault for fault in faults_at(place) if fault in found]


def _before_the_plan(batch: Batch, due: datetime) -> bool:
    """Whether a drain is due before the plan has it: the batch drinks faster, so that late is not behind."""
    place, spell = len(batch.spells) - 1, batch.spells[-1]
    return spell.wet and place < len(batch.plan) and due < spell.begun + timedelta(hours=batch.plan[place][0]) - NEAR


def _is_low(line: Line) -> bool:
    return isinstance(line.value, float) and isinstance(line.edge, (int, float)) and line.value < line.edge


def steep_now(batch: Batch, course: Course | str, wall: Wall) -> SteepNow | str:
    """Give a batch in the steep for planning anew, or why it cannot be.

    Parameters
    ----------
    batch : Batch
        A batch in the steep.
    course : Course or str
        Its steep, or why there is none; what the house's other batches say of its water is in it.
    wall : Wall
        The time now.
    """
    target = batch.number("target_moisture")
    if isinstance(course, str):
        return course
    if target is None:
        return "The target is not written, so nothing can be planned towards it."
    here = here_of(batch, course, wall)
    there = here.open(here.now)
    if there is None:
        return "The open stage is longer than the model follows. Write what was done since."
    plan = [hours for hours, _ in batch.plan]
    place = len(batch.spells) - 1
    elapsed = max((here.now - here.spell.begun).total_seconds() / 3600, STAGE_HOURS.low)
    ahead = (max(0.0, plan[place] - elapsed), *plan[place + 1 :]) if place < len(plan) else ()
    if len(ahead) > 1 and (len(ahead) % 2 == 0) == here.spell.wet:
        ahead = ahead[:-1]  # a plan that ends in a rest ends with the drain before it
    temps = [temp for spell in batch.spells for temp in spell.temps]
    water = temps[-1] if temps else course.stages.pairs[-1][1]
    local = wall.local(here.now)
    lives = counted(batch, course)
    warm = [one.warmest_c for one in grain_read(batch, here.spell)]
    return SteepNow(
        there.course, target, ahead, local.hour + local.minute / 60.0, water, lives, here.rest_wanted_h, water,
        max(warm) if warm else None, wall.changes(here.now),
    )  # fmt: skip


def bed_now(batch: Batch, course: Course | str, house: House, wall: Wall) -> BedNow | str:
    """Give a batch on the floor or in the drum for planning anew, or why it cannot be; see :func:`steep_now`.

    The days to ready are the house's own (``house``), where it has learnt them.
    """
    assert batch.cast is not None
    now = wall.now or batch.standing[-1].utc
    vessel = "drum" if batch.vessel == DRUM else "floor"
    lying = lying_of(batch, wall)
    temps = mean_temps(batch, now)
    if not temps:
        return "The bed was not read since the cast: read it first, from where nobody has to lean or reach."
    days = house.days or READY_DAYS
    state = _living(batch, course, now, days)
    own = batch.number("barley_moisture") or 12.0
    moisture = lying.moisture if lying.moisture is not None else state.net if state else None
    if moisture is None:
        return "Nothing says how wet it is: no sample since the cast, and the steep is not known."
    day = (now - batch.cast.utc).total_seconds() / 86_400
    grown = state.growth_h if state else growth_after_cast(day=1.0 + min(day, 29.0), temp_c=sum(temps) / len(temps))
    rooms = [value for one in batch.of("bed") if (value := batch.value(one, "room_c")) is not None]
    airs = [value for one in batch.of("air") if (value := batch.value(one, "air_on_c")) is not None]
    cold = (airs if vessel == "drum" else rooms)[-1:] or [12.0]
    water = [one.utc for one in batch.of("sprinkled") if one.utc >= batch.cast.utc]
    local = wall.local(now)
    dry0 = 10.0 * (100.0 - own)
    bed = BedNow(
        "drum" if vessel == "drum" else "floor",
        own,
        float(moisture),
        temps[-1],
        float(grown),
        lying.hours,
        local.hour + local.minute / 60.0,
        ready_days=days,
        room_c=float(cold[0]),
        couch=lying.never and vessel == "floor",
        since_water_h=(now - water[-1]).total_seconds() / 3600 if water else float("inf"),
        loss_percent=max(0.0, 100.0 * (1.0 - float(state.dry_kg) / dry0)) if state else 1.0,
        changes=wall.changes(now),
    )
    return bed._replace(load_h=_planned_load_h(batch, bed, wall, now))


def _planned_load_h(batch: Batch, bed: BedNow, wall: Wall, now: datetime) -> float:
    """Hours until it is loaded by the plan: the hour that was written last, else when it is ready as warm as it is."""
    load = holding(batch, wall).load
    if load is not None:
        return max(0.0, (load - now).total_seconds() / 3600)
    left = max(0.0, bed.ready_growth_h - bed.growth_h)
    return left / pace(temp_c=nearest_bed_c(bed.temp_c), reference_temp_c=READY_AT_C)


def _living(batch: Batch, course: Course | str, now: datetime, days: float) -> State | None:
    """The living batch as it stands now, by its own steep and the warmth of its days."""
    found = living_batch(batch, course, now, days)
    if found is None or batch.cast is None:
        return None
    hour = found.cast_h + (now - batch.cast.utc).total_seconds() / 3600
    try:
        states = living_course(plan=found.plan, lot=found.lot)
        hour = min(max(hour, 0.0), states[-1].hour)
        last = next(state for state in states if state.hour >= hour - 1e-9)
        return last._replace(
            net=at_hour(states, hour, lambda one: one.net),
            growth_h=at_hour(states, hour, lambda one: one.growth_h),
            dry_kg=at_hour(states, hour, lambda one: one.dry_kg),
        )
    except OutOfRange:
        return None
