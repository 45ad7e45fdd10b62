"""Batches in the steep as they may stand, for what plans the rest of them anew."""

from __future__ import annotations

from calculators.models.living.chitting import Corns
from calculators.models.living.steep_run import Rests
from calculators.models.steep.hydration import steep
from calculators.rules.replan.steep_grid import SteepNow
from calculators.rules.steep_life import Lives

USUAL = ((8.0, 14.0), (8.0, 14.0), (8.0, 14.0), (12.0, 14.0), (3.0, 14.0))
LIVES = Lives(Rests(), Corns(), "couch")
TARGET = 44.0

RESTING = (*USUAL[:3], (6.0, 14.0))
DIPPED = (*USUAL[:2], (3.0, 14.0))


def at(
    done: tuple[tuple[float, float], ...],
    ahead: tuple[float, ...] = (6.0, 3.0),
    water: float = 14.0,
    **more: float | None,
) -> SteepNow:
    now = SteepNow(steep(barley_moisture=12.5, stages=done), TARGET, ahead, 14.0, water, LIVES)
    return now._replace(**more)  # type: ignore[arg-type]


def hours_of(now: SteepNow) -> tuple[float, ...]:
    return tuple(stage.hours for stage in now.course.steeping.stages)
