"""The batch forecast opened from a batch of the book: its plan and all its readings, as they are typed there."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from ...asking.figures import fixed, plain_number
from ...models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Probe, Reading
from .batch import Batch
from .course import Course
from .lives import grown_percent
from .living import living_batch

_MOST_ROWS = 24


def _row(*cells: float) -> str:
    return " ".join(plain_number(round(cell, 2)) for cell in cells)


def _rows(rows: Iterable[str]) -> str:
    return ";".join([*rows][-_MOST_ROWS:])


def forecast_given(batch: Batch, course: Course | str, now: datetime, days: float) -> dict[str, str] | None:
    """The values for the sheet; None for a batch that is not wet yet, that has left, or whose steep is not known.

    Parameters
    ----------
    batch, course
        The batch and its steep.
    now : datetime
        The present moment, UTC.
    days : float
        Days in the bed that this house usually needs.
    """
    if not batch.spells or batch.left:
        return None
    found = living_batch(batch, course, now, days)
    if found is None:
        return None
    read = found.readings
    tables = {
        "baskets": [_row(one.hour, one.moisture) for one in read if isinstance(one, Basket)],
        "ovens": [_row(one.hour, one.moisture) for one in read if isinstance(one, Oven)],
        "probes": [_row(one.hour, one.temp_c) for one in read if isinstance(one, Probe)],
        "chits": [_row(one.hour, one.chitted, one.corns) for one in read if isinstance(one, Chits)],
        "bottoms": [
            _row(one.hour, one.bottom_c, one.top_c, one.hours_since_turning, 100.0 * one.depth_m)
            for one in read
            if isinstance(one, BottomTop)
        ],
        "acrospires": [_row(one.hour, *one.counts) for one in read if isinstance(one, AcrospireCount)],
    }
    last_h = found.cast_h + sum(spell.hours for spell in found.plan.bed)
    given = {
        "stages": _rows(_row(stage.hours, stage.water_temp_c) for stage in found.plan.stages),
        "vessel": batch.vessel,
        "bed": _rows(_row(*_cells(spell.hours, spell.temp_c, spell.sprinkled_l_t)) for spell in found.plan.bed),
        "now_h": plain_number(_now_h(batch, now, read, last_h)),
        **{name: _rows(rows) for name, rows in tables.items() if rows},
    }
    grown = grown_percent(batch)
    return given | ({"grown_percent": fixed(max(grown, 2.0), 1)} if grown is not None else {})


def _cells(hours: float, temp_c: float, sprinkled: float) -> tuple[float, ...]:
    return (hours, temp_c, sprinkled) if sprinkled else (hours, temp_c)


def _now_h(batch: Batch, now: datetime, read: list[Reading], last_h: float) -> float:
    """The present hour within the plan; never before the last reading, as its row is rounded."""
    latest = max((round(one.hour, 2) for one in read), default=0.0)
    return round(min(max(batch.hours_at(now), latest), last_h), 2)
