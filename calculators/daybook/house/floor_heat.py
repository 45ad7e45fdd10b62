"""How much the pieces of this floor breathe against the one law, learned from the rounds of finished batches."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from itertools import pairwise
from math import exp, log, sqrt
from typing import NamedTuple

from ...models.bed import floor
from ...models.living.bed_days import DAY
from ..batch.batch import Batch, Told
from ..batch.bed_read import rounds_of
from ..lines.kinds import FLOOR

_APART = timedelta(hours=3)
_BATCH_SD = 0.15
"""Spread of the logarithm of the heat from batch to batch [-]: our assumption."""
_LEARNT = 0.35  # of the doubt about the heat, as in the sheet: turnings that tell less are left out


class BatchHeat(NamedTuple):
    """The heat of one batch against the law [-], the deviation of its logarithm, and the turnings it rests on."""

    batch: Told
    factor: float
    sd: float
    turnings: int


class HeatFit(NamedTuple):
    """The house's heat against the law [-], with the band of the average."""

    factor: float
    low: float
    high: float
    batches: Sequence[BatchHeat]


def heat_of(batch: Batch) -> BatchHeat | None:
    """The heat of one batch on the floor; None where its rounds do not tell it.

    Each turning that was read twice is fitted by itself, as the sheet of a round does. One reading alone cannot tell
    heat from what the piece brought into the turning, and is left out.
    """
    if batch.cast is None or batch.vessel != FLOOR:
        return None
    beds = [entry for entry in batch.of("bed") if entry.utc > batch.cast.utc]
    found: list[tuple[float, float]] = []
    for before, last in pairwise(beds):
        fitted = rounds_of(batch, last.utc)
        if fitted is None:
            continue
        rounds = floor.turnings(fitted[0])[-1]
        if len(rounds) < 2 or last.utc - before.utc < _APART:
            continue
        guesses = floor.fit(rounds=rounds, day=min(fitted[1], DAY.high))
        if floor.learnt(guesses) < _LEARNT:
            continue
        total = sum(g.weight for g in guesses)
        mean = sum(g.weight * log(g.heat_kw_t) for g in guesses) / total
        spread = sqrt(sum(g.weight * (log(g.heat_kw_t) - mean) ** 2 for g in guesses) / total)
        now = min(rounds, key=lambda one: one.hours_ago)
        found.append((mean - log(floor.expected_heat(now=now, day=min(fitted[1], DAY.high))), max(spread, 0.05)))
    if not found:
        return None
    weights = [sd**-2 for _, sd in found]
    middle = sum(w * value for w, (value, _) in zip(weights, found, strict=True)) / sum(weights)
    # The loss at the surface is as little known on every day: the days are not independent.
    return BatchHeat(batch, exp(middle), sqrt(len(found) / sum(weights) / max(1.0, len(found) / 2.0)), len(found))


def average(found: Sequence[BatchHeat]) -> HeatFit | None:
    """The same from batches whose heat is known."""
    if not found:
        return None
    weights = [1.0 / (one.sd**2 + _BATCH_SD**2) for one in found]
    middle = sum(w * log(one.factor) for w, one in zip(weights, found, strict=True)) / sum(weights)
    reach = 2.0 / sqrt(sum(weights))
    return HeatFit(exp(middle), exp(middle - reach), exp(middle + reach), found)
