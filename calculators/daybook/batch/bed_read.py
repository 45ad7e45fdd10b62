"""What was read of a bed since its cast: the rounds that a piece is fitted to, and the mean of each day."""

from __future__ import annotations

from datetime import datetime

from ...models.bed import floor
from ..lines.kinds import TURNINGS
from .batch import Batch

_HEAT_OF_H = 36.0  # rounds so far back may still belong to the present heat [h]


def rounds_of(batch: Batch, now: datetime) -> tuple[list[floor.Round], float] | None:
    """The rounds of the floor since the cast that can be fitted, and the day of the last; None without any.

    Counts the rounds of the last day and a half, as many as belong to the present heat.
    """
    assert batch.cast is not None
    turned = [batch.cast.utc] + [one.utc for one in batch.of(*TURNINGS)]
    depth: float | None = None
    rounds: list[floor.Round] = []
    for entry in batch.of("cast", "bed", "turned"):
        read = batch.value(entry, "depth_cm")
        depth = min(read, floor.DEPTH_CM.high) if read else depth
        if entry.kind != "bed" or entry.utc < batch.cast.utc or entry.utc > now:
            continue
        bottom, top, room = (batch.value(entry, name) for name in ("bottom_c", "top_c", "room_c"))
        before = max((moment for moment in turned if moment <= entry.utc), default=batch.cast.utc)
        since = (entry.utc - before).total_seconds() / 3600
        ago = (now - entry.utc).total_seconds() / 3600
        if None in (bottom, top, room, depth) or not since <= floor.HOURS.high or ago > _HEAT_OF_H:
            continue
        rounds.append(floor.Round(since, depth / 100, bottom, top, room, ago, min(0.03, depth / 200)))  # type: ignore[operator]
    if not rounds:
        return None
    return rounds, 1.0 + (now - batch.cast.utc).total_seconds() / 86_400


def mean_temps(batch: Batch, until: datetime) -> list[float]:
    """The mean bed temperature of each day since the cast [C], up to the last day with a reading.

    A day without a reading takes that of the day before, the first days that of the first reading.
    """
    assert batch.cast is not None
    days: dict[int, list[float]] = {}
    for entry in batch.of("bed"):
        bottom, top = batch.value(entry, "bottom_c"), batch.value(entry, "top_c")
        if bottom is not None and top is not None and batch.cast.utc <= entry.utc <= until:
            days.setdefault(int((entry.utc - batch.cast.utc).total_seconds() // 86_400), []).append(
                floor.mean_c(bottom_c=bottom, top_c=top)
            )
    if not days:
        return []
    temps: list[float] = []
    first = days[min(days)]
    for day in range(max(days) + 1):
        read = days.get(day)
        temps.append(sum(read) / len(read) if read else temps[-1] if temps else sum(first) / len(first))
    return temps
