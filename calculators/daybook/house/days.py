"""Days from the cast to ready, learned from finished batches and brought to one temperature."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from math import sqrt
from typing import NamedTuple

from ...models.counts import acrospire
from ...models.living import ready as ready_days
from ...rules.conventions import READY_AT_C
from ...rules.limit import edge
from ...rules.limits.readiness import READY
from ..batch.batch import Batch, Told
from ..batch.bed_read import mean_temps
from ..lines.entry import Entry

READY_SHARE = edge(READY.accept_low) / 100.0
"""Share of corns at three quarters of the length and beyond, from which a count says ready: the sheet's target."""

_ASSUMED_SD = ready_days.OWN_DAYS_DOUBT
_ASSUMED_WEIGHT = 3.0


class BatchDays(NamedTuple):
    """How long one batch grew: days as they were, its mean temperature [C], and the days brought to 15 C."""

    batch: Told
    ready: datetime
    by_count: bool
    days: float
    mean_c: float
    at_reference: float


class DaysFit(NamedTuple):
    """The house's days at 15 C: their mean, what is left of doubt about it, and the spread from batch to batch."""

    days: float
    doubt: float
    spread: float
    batches: Sequence[BatchDays]


def shares(batch: Batch, entry: Entry) -> tuple[float, float] | None:
    """Of a count since the cast: the shares at three quarters and beyond, and overshot; None where it says neither."""
    rows = batch.value(entry, "counts")
    corns = [row[0] for row in rows] if rows and None not in [row[0] for row in rows] else []
    if batch.cast is None or entry.utc <= batch.cast.utc or not sum(corns):
        return None
    over = corns[acrospire.OVERSHOT]
    return (corns[acrospire.READY] + over) / sum(corns), over / sum(corns)


def ready_at(batch: Batch) -> tuple[datetime, bool] | None:
    """When a batch was ready: at the first count that says so, else when it went to the kiln; None before."""
    for entry in batch.of("readiness"):
        counted = shares(batch, entry)
        if counted and counted[0] >= READY_SHARE:
            return entry.utc, True
    return (batch.left.utc, False) if batch.left else None


def days_of(batch: Batch) -> BatchDays | None:
    """How long a finished batch grew; None when it is not finished or its bed was never read."""
    found = ready_at(batch)
    if batch.cast is None or found is None:
        return None
    ready, by_count = found
    elapsed = (ready - batch.cast.utc).total_seconds() / 86_400
    temps = mean_temps(batch, ready)
    inside = all(ready_days.BED_C.low <= temp <= ready_days.BED_C.high for temp in temps)
    if not temps or elapsed <= 0 or not inside:
        return None
    total, mean, left = 0.0, 0.0, elapsed
    for day in range(int(elapsed) + 1):
        part = min(left, 1.0)
        temp = temps[min(day, len(temps) - 1)]
        total += part * ready_days.pace(temp_c=temp, reference_temp_c=READY_AT_C)
        mean += part * temp
        left -= part
    return BatchDays(batch, ready, by_count, elapsed, mean / elapsed, total)


def average(found: Sequence[BatchDays]) -> DaysFit | None:
    """The house's days at 15 C from its finished batches; None without any.

    Notes
    -----
    Every batch counts alike, since each is known to about the same part of a day. The spread from batch to batch is
    held towards a tenth, which counts for three batches.
    """
    found = [
        one for one in found if ready_days.REFERENCE_DAYS.low <= one.at_reference <= ready_days.REFERENCE_DAYS.high
    ]
    if not found:
        return None
    mean = sum(one.at_reference for one in found) / len(found)
    freedom = len(found) - 1
    squares = sum((one.at_reference - mean) ** 2 for one in found)
    variance = (squares + _ASSUMED_WEIGHT * (_ASSUMED_SD * mean) ** 2) / (freedom + _ASSUMED_WEIGHT)
    return DaysFit(mean, sqrt(variance / len(found)), sqrt(variance), found)
