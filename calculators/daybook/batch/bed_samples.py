"""The moistures found of a bed, and which of them no bed comes to in that time: those wait for another sample."""

from __future__ import annotations

from math import exp, hypot
from typing import NamedTuple

from ...models.bounds import OutOfRange
from ...models.living.batch import bed_course
from ...models.living.breathing import DOUBT_LOG, GRAIN_C
from ...models.living.doubts import UNKNOWNS
from ...models.living.lot_plan_state import BED_HOURS, BedSpell, Lot
from ...models.living.pace import growth_after_cast
from ...models.living.readings import OVEN_SD
from ...models.steep.doubt import BAND_SD
from ...rules.limit import edge
from ...rules.limits.floor_germination import PIECE
from ...rules.limits.quick_moisture import AGAINST_OVEN
from ..lines.entry import Entry
from .batch import Batch
from .bed_read import mean_temps

WARM_C = edge(PIECE.stop_high)
"""How warm a bed is taken to be that was not read [C]: it dries the faster, so that rather too little is doubted."""

DRY_AIR_PERCENT = 50.0
"""Humidity of the air over a bed that dries at its fastest [%]: a draughty loft, our judgement."""

_OTHER_SD = edge(AGAINST_OVEN.stop_high) / BAND_SD
_DRYING_LOG = next(one.sd for one in UNKNOWNS if one.name == "drying")


class Sample(NamedTuple):
    """A moisture found since the cast.

    Attributes
    ----------
    entry : Entry
        Its line.
    moisture : float
        What it shows, % of wet weight.
    before : Sample or None
        The sample that it is held against.
    most : float
        By how much a bed falls, or without water rises, at the most between the two, with what two samples scatter
        [points]; infinite where that was not asked or is not known.
    sure : bool
        Whether a bed can have come to it, or another sample has shown the same since.
    """

    entry: Entry
    moisture: float
    before: Sample | None = None
    most: float = float("inf")
    sure: bool = True


def samples_of(batch: Batch) -> list[Sample]:
    """The moistures found since the cast, in the order of the work; what is less than the barley's own is left out."""
    if batch.cast is None:
        return []
    found: list[Sample] = []
    lines = [one for one in batch.of("cast", "moisture") if one.utc >= batch.cast.utc]
    for entry in lines:
        value = batch.value(entry, "moisture")
        if value is None or batch.is_too_dry(value) or batch.outdone(entry):
            continue
        doubted = found[-1] if found and not found[-1].sure else None
        sure = [one for one in found if one.sure]
        one = _against(batch, Sample(entry, float(value)), sure[-1] if sure else None)
        if doubted is not None and not one.sure and _against(batch, one._replace(sure=True), doubted).sure:
            found[-1] = doubted._replace(sure=True)  # two samples agree: it is so
            one = one._replace(sure=True)
        found.append(one)
    return found


def unsure(batch: Batch) -> Sample | None:
    """The last moisture found of a bed, where no bed can have come to it; another sample is the answer."""
    found = samples_of(batch)
    return found[-1] if found and not found[-1].sure else None


def _against(batch: Batch, one: Sample, before: Sample | None) -> Sample:
    if before is None:
        return one
    fall = before.moisture - one.moisture
    watered = any(before.entry.utc <= line.utc <= one.entry.utc for line in batch.of("sprinkled"))
    if fall < 0.0 and (watered or before.entry.kind == "cast"):
        return one._replace(before=before)
    scatter = BAND_SD * hypot(_sd(batch, before.entry), _sd(batch, one.entry))
    if abs(fall) <= scatter:
        return one._replace(before=before)
    most = _most(batch, before, one, falls=fall >= 0.0) + scatter
    return one._replace(before=before, most=most, sure=abs(fall) <= most)


def _most(batch: Batch, before: Sample, after: Sample, *, falls: bool) -> float:
    """By how much a bed falls, or rises, at the most from one sample to the next [points].

    By the law of the living batch: it breathes as fast, and dries as much for its heat, as two standard deviations of
    either leave open, in dry air; a rise is that of a bed that does not dry at all. Both at once is rarer than one in
    a thousand: our judgement of what no bed does.
    """
    assert batch.cast is not None
    hours = max((after.entry.utc - before.entry.utc).total_seconds() / 3600, BED_HOURS.low)
    day = 1.0 + (before.entry.utc - batch.cast.utc).total_seconds() / 86_400
    temp = min(max(mean_temps(batch, after.entry.utc), default=WARM_C), GRAIN_C.high)
    lot = Lot(breath_factor=exp(BAND_SD * DOUBT_LOG), drying_factor=exp(BAND_SD * _DRYING_LOG) if falls else 0.0)
    try:
        states = bed_course(
            barley_moisture=batch.number("barley_moisture") or 12.0,
            moisture=before.moisture,
            growth_h=growth_after_cast(day=min(day, 30.0), temp_c=temp),
            spells=[BedSpell(hours, temp, air_rh=DRY_AIR_PERCENT)],
            lot=lot,
        )
    except OutOfRange:
        return float("inf")
    return abs(before.moisture - float(states[-1].net))


def _sd(batch: Batch, entry: Entry) -> float:
    """How far samples scatter that were found so [points]."""
    return OVEN_SD if batch.value(entry, "method") == "oven" else _OTHER_SD
