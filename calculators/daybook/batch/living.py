"""A batch of the book as the living model has it: its plan as it went and goes on, and all that was read of it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from ...models.bed import floor
from ...models.bounds import STEEPED_MOISTURE
from ...models.living.breathing import GRAIN_C
from ...models.living.lot_plan_state import BED_DAYS, BED_HOURS, SPRINKLED, BedSpell, Lot, Plan
from ...models.living.pace import CHIT_C
from ...models.living.readings import (
    SINCE_TURNING_H,
    AcrospireCount,
    Basket,
    BottomTop,
    Chits,
    Oven,
    Probe,
    Reading,
)
from ...models.steep.course import Stage
from ...models.steep.hydration import CORN_WEIGHT_G
from ...rules.conventions import READY_AT_C, READY_DAYS
from ...sheets.sprinkling import water_kept
from ..lines.entry import Entry
from ..lines.kinds import FLOOR, TURNINGS
from .batch import Batch
from .bed_read import mean_temps
from .bed_samples import samples_of
from .course import Course
from .lives import chits_of, corns_of, grain_read

KEPT = float(water_kept.default) / 100.0
"""Part of the water sprinkled that is taken to stay on the grain, as the sheet on sprinkling has it [-]."""

FIRST_H = 0.25
"""Hours after the first wetting before which no reading is taken in [h]."""


class LivingBatch(NamedTuple):
    """A batch for the living model.

    Attributes
    ----------
    lot : Lot
        What was known of it at the start.
    plan : Plan
        Its steep and its bed: as they were, then as planned or as usual.
    readings : list of Reading
        All that was read, in the order of the work.
    cast_h : float
        Hour of the cast [h].
    """

    lot: Lot
    plan: Plan
    readings: list[Reading]
    cast_h: float


def living_batch(batch: Batch, course: Course | str, until: datetime, days: float = READY_DAYS) -> LivingBatch | None:
    """Give a batch for the living model; None where its steep is not known.

    Parameters
    ----------
    batch : Batch
        The batch.
    course : Course or str
        Its steep.
    until : datetime
        Up to when it is known, UTC.
    days : float, optional
        Days in the bed that this house usually needs, for what is still to come.
    """
    own = batch.number("barley_moisture")
    if isinstance(course, str) or own is None:
        return None
    stages = tuple(Stage(hours, temp) for hours, temp in course.stages.pairs)
    cast_h = sum(stage.hours for stage in stages)
    plan = Plan(stages, tuple(_bed(batch, until, days)))
    end_h = cast_h + sum(spell.hours for spell in plan.bed)
    read = sorted(_readings(batch, until, cast_h), key=lambda one: one.hour)
    return LivingBatch(_lot(batch, own), plan, [one for one in read if FIRST_H <= one.hour <= end_h], cast_h)


def _lot(batch: Batch, own: float) -> Lot:
    return Lot(barley_moisture=own, corns=corns_of(batch), corn_weight_g=batch.number("corn_weight_g") or CORN_WEIGHT_G)


def _bed(batch: Batch, until: datetime, days: float) -> Iterator[BedSpell]:
    """The days after the cast: each at its mean, then as the last one for as long as is usual here."""
    if batch.cast is None:
        temps: list[float] = []
        lain = 0.0
    else:
        end = batch.left.utc if batch.left else until
        temps = mean_temps(batch, end)
        lain = max(0.0, (end - batch.cast.utc).total_seconds() / 86_400)
    total = lain if batch.left else max(days + 1.0, lain + 1.0)
    sprinkled = _sprinkled(batch)
    left = min(24.0 * total, 24.0 * 24)
    for day in range(int(BED_DAYS.high)):
        if left < BED_HOURS.low:
            return
        temp = temps[min(day, len(temps) - 1)] if temps else READY_AT_C
        kept = min(max(temp, CHIT_C.low), CHIT_C.high)
        yield BedSpell(min(24.0, left), round(kept, 1), sprinkled_l_t=sprinkled.get(day, 0.0))
        left -= 24.0


def _sprinkled(batch: Batch) -> dict[int, float]:
    """Water that stayed on the grain by day after the cast [L for each tonne of barley]."""
    tonnes = (batch.number("barley_kg") or 0.0) / 1000.0
    found: dict[int, float] = {}
    for entry in batch.of("sprinkled"):
        litres = batch.value(entry, "water_l")
        if batch.cast is None or entry.utc < batch.cast.utc or litres is None or not tonnes:
            continue
        day = int((entry.utc - batch.cast.utc).total_seconds() // 86_400)
        found[day] = min(found.get(day, 0.0) + KEPT * litres / tonnes, SPRINKLED.high)
    return found


def since_turning(batch: Batch, entry: Entry) -> float:
    """Hours from the last turning, or the cast, to an entry [h]."""
    before = [one.utc for one in batch.of(*TURNINGS, "cast") if one.utc <= entry.utc]
    return (entry.utc - max(before)).total_seconds() / 3600


def _depth_cm(batch: Batch, entry: Entry) -> float | None:
    read = [batch.value(one, "depth_cm") for one in batch.of("bed", "turned") if one.utc <= entry.utc]
    depths = [None if cm is None else min(cm, floor.DEPTH_CM.high) for cm in read]
    return next((float(one) for one in reversed(depths) if one is not None), None)


def _readings(batch: Batch, until: datetime, cast_h: float) -> Iterator[Reading]:
    own = batch.number("barley_moisture") or 0.0
    for one in batch.readings:
        if one.drained and own <= one.moisture <= STEEPED_MOISTURE.high and one.entry.utc <= until:
            hour = min(one.hours, cast_h)
            yield Basket(hour, one.moisture) if one.entry.kind == "basket" else Oven(hour, one.moisture)
    for spell in batch.spells:
        for grain in grain_read(batch, spell):
            if grain.at <= until:
                yield Probe(min(batch.hours_at(grain.at), cast_h), grain.mean_c)
    for count in chits_of(batch):
        if count.hour <= batch.hours_at(until):
            yield Chits(min(count.hour, cast_h), count.chitted, count.corns)
    if batch.cast is None:
        return
    doubted = {one.entry.id for one in samples_of(batch) if not one.sure}
    after = [one for one in batch.standing if batch.cast.utc < one.utc <= until and one.id not in doubted]
    for entry in after:
        hour = cast_h + (entry.utc - batch.cast.utc).total_seconds() / 3600
        moisture = batch.value(entry, "moisture") if entry.kind in ("moisture", "to-kiln") else None
        if moisture is not None and batch.value(entry, "method") != "hand" and not batch.outdone(entry):
            yield Oven(hour, float(moisture))
        elif entry.kind == "bed":
            yield from _of_bed(batch, entry, hour)
        elif entry.kind == "readiness":
            counts = batch.value(entry, "counts")
            if counts and sum(row[0] for row in counts):
                a, b, c, d, e = (int(row[0]) for row in counts)
                yield AcrospireCount(hour, (a, b, c, d, e))


def _of_bed(batch: Batch, entry: Entry, hour: float) -> Iterator[Reading]:
    bottom, top = batch.value(entry, "bottom_c"), batch.value(entry, "top_c")
    if bottom is None or top is None or not GRAIN_C.low <= (bottom + top) / 2 <= GRAIN_C.high:
        return
    since, depth = since_turning(batch, entry), _depth_cm(batch, entry)
    lain, deep = SINCE_TURNING_H, floor.DEPTH_CM
    known = depth is not None and lain.low <= since <= lain.high and deep.low <= depth <= deep.high
    if batch.vessel == FLOOR and depth is not None and known:
        room = batch.value(entry, "room_c")
        reading = BottomTop(hour, float(bottom), float(top), since, depth / 100.0)
        yield reading if room is None else reading._replace(room_c=float(room))
    else:
        yield Probe(hour, floor.mean_c(bottom_c=bottom, top_c=top))
