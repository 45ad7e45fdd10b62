"""How a bed lies by the lines of its batch: since when, how deep, and what was read of it last."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from ...rules.drum import DrumSight
from ...rules.floor import Sight
from ...rules.limits import floor_germination
from ...rules.lines import Line, passed
from ..batch.batch import Batch
from ..batch.bed_samples import samples_of
from ..lines.entry import Entry
from ..lines.kinds import TURNINGS
from .open_faults import fan_said
from .step import Wall


class Lying(NamedTuple):
    """How a batch lies: since when it was not turned, and what was read of it last."""

    now: datetime
    turned: datetime
    never: bool  # not turned since the cast: it lies as the couch it was cast to
    bed: Entry | None
    hours: float  # since it was turned [h]
    moisture: float | None

    @property
    def read_since(self) -> bool:
        """Whether the bed was read after the last turning."""
        return self.bed is not None and self.bed.utc >= self.turned


def lying_of(batch: Batch, wall: Wall) -> Lying:
    """How a batch lies by its lines since the cast; a turning counts by whichever of the two lines it was written."""
    assert batch.cast is not None
    now = wall.now or batch.standing[-1].utc
    turns = [one.utc for one in batch.of(*TURNINGS) if one.utc >= batch.cast.utc]
    turned = max([batch.cast.utc, *turns])
    beds = [one for one in batch.of("bed") if one.utc >= batch.cast.utc and _both(batch, one)]
    sampled = [one.moisture for one in samples_of(batch) if one.sure and one.entry.utc > batch.cast.utc]
    return Lying(
        now,
        turned,
        not turns,
        beds[-1] if beds else None,
        max(0.0, (now - turned).total_seconds() / 3600),
        sampled[-1] if sampled else None,
    )


def _both(batch: Batch, entry: Entry) -> bool:
    return None not in (batch.value(entry, "bottom_c"), batch.value(entry, "top_c"))


def sight_of(batch: Batch, lying: Lying) -> Sight | None:
    """The last reading of a floor with the hours it has lain by now; None where it was never read."""
    if lying.bed is None or batch.cast is None:
        return None
    return Sight(
        batch.value(lying.bed, "bottom_c"),
        batch.value(lying.bed, "top_c"),
        lying.hours,
        1 + (lying.now - batch.cast.utc).days,
        couch=lying.never,
        room_c=batch.value(lying.bed, "room_c"),
        depth_cm=_depth_cm(batch, lying.bed.utc),
        moisture=lying.moisture,
    )


def _depth_cm(batch: Batch, by: datetime) -> float | None:
    """How deep it lay at a moment [cm], by the last line that says so."""
    depths = [batch.value(one, "depth_cm") for one in batch.of("cast", "bed", "turned") if one.utc <= by]
    known: list[float] = [value for value in depths if value is not None]
    return known[-1] if known else None


def depth_line(batch: Batch, lying: Lying) -> Line | None:
    """The limit of the depth that it has now: what was read before it was laid otherwise says nothing of that."""
    depth = None if lying.never else _depth_cm(batch, lying.now)
    return passed(floor_germination.DEPTH, depth)


def drum_sight(batch: Batch, lying: Lying) -> DrumSight:
    """What the book says of a drum: the last of each that was read since the cast."""
    assert batch.cast is not None
    airs = [one for one in batch.of("air") if one.utc >= batch.cast.utc]
    last = {
        name: next((value for one in reversed(airs) if (value := batch.value(one, name)) is not None), None)
        for name in ("air_on_c", "air_on_rh", "air_off_c")
    }
    bed = lying.bed
    return DrumSight(
        lying.hours,
        fan_said(batch),
        bottom_c=batch.value(bed, "bottom_c") if bed else None,
        top_c=batch.value(bed, "top_c") if bed else None,
        moisture=lying.moisture,
        **last,
    )
