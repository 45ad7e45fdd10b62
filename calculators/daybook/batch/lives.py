"""What decides about the steep of a batch beside its water: how its rests are kept, how its corns chit."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from ...models.living.breathing import GRAIN_C
from ...models.living.chitting import Corns
from ...models.living.steep_life import Chits
from ...models.living.steep_run import Rests
from ...models.steep.fit import FIRST_READING_H
from ...rules.cast import limit_of
from ...rules.lines import Line, passed
from ...rules.steep_life import Lives
from ..lines.kinds import DRUM
from .batch import Batch, Spell


def lives_of(batch: Batch) -> Lives:
    """Give what decides about a batch in the steep beside its water.

    Parameters
    ----------
    batch : Batch
        The batch.

    Returns
    -------
    Lives
        Rests with the least suction that is published, of air as warm as the first water, since no line of the book
        says either; a rest that is over, and in which the grain was read, has the temperature that was read.
    """
    held = [None if spell.wet or spell.ended is None else _mean(grain_read(batch, spell)) for spell in batch.spells]
    return Lives(Rests(held_c=tuple(held)), corns_of(batch), "drum" if batch.vessel == DRUM else "couch")


class GrainRead(NamedTuple):
    """What was read in the grain of an air rest at a moment (UTC): its mean, its warmest and its coolest place [C]."""

    at: datetime
    mean_c: float
    warmest_c: float
    coolest_c: float

    @property
    def spread_k(self) -> float:
        """Warmest minus coolest place [K]; nothing where one was read."""
        return round(self.warmest_c - self.coolest_c, 6)


def grain_read(batch: Batch, spell: Spell) -> list[GrainRead]:
    """Give what was read in the grain of an air rest, in the order of the work; nothing of an immersion."""
    found = []
    for line in batch.of("bed"):
        if spell.wet or line.utc < spell.begun or (spell.ended is not None and line.utc >= spell.ended):
            continue
        read = [batch.value(line, name) for name in ("bottom_c", "top_c")]
        warm = [value for value in read if value is not None and GRAIN_C.low <= value <= GRAIN_C.high]
        if warm:
            found.append(GrainRead(line.utc, sum(warm) / len(warm), max(warm), min(warm)))
    return found


def _mean(read: list[GrainRead]) -> float | None:
    return sum(one.mean_c for one in read) / len(read) if read else None


def corns_of(batch: Batch) -> Corns:
    """Give how the corns of a batch spread, by the tests that its start names."""
    corns = Corns()
    grown = grown_percent(batch)
    if grown is not None:
        corns = corns._replace(grows=max(grown / 100.0, 0.02))
    sensitive = batch.number("water_sensitivity")
    if sensitive is not None:
        corns = corns._replace(sensitive=min(sensitive / 100.0, float(corns.grows)))
    return corns


def grown_percent(batch: Batch) -> float | None:
    """Give the energy of the 4 ml test that the start names [%], or None."""
    grown, sown = batch.number("energy_grown"), batch.number("energy_sown")
    return None if grown is None or not sown or grown > sown else 100.0 * grown / sown


def chit_line(batch: Batch) -> Line | None:
    """The limit of the chit that it was cast with, by the last count, if it passed it; where it was cast to decides."""
    counts = chits_of(batch) if batch.cast is not None and batch.begun is not None else []
    if not counts:
        return None
    limit = limit_of("drum" if batch.vessel == DRUM else "couch")
    return passed(limit, round(100.0 * counts[-1].chitted / counts[-1].corns, 1))


def chits_of(batch: Batch) -> list[Chits]:
    """Give the counts of chits in the steep and at the cast, as hours since the first wetting."""
    found = []
    for entry in batch.of("chits"):
        some, of = batch.value(entry, "chitted"), batch.value(entry, "counted")
        hour = batch.hours_at(entry.utc)
        if some is not None and of and some <= of and hour >= FIRST_READING_H:
            found.append(Chits(hour, int(some), int(of)))
    return found
