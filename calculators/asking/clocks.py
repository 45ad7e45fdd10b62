"""When the clocks are put forward or back, as the page of a request knows it."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise
from typing import Any, NamedTuple

Clocks = tuple[tuple[datetime, int], ...]
"""Moments (UTC), the earliest first, with the minutes east of UTC from then on; the first is the earliest there is."""

MOST_ZONE = 1440
"""Minutes east or west of UTC that a clock can be set to, and more; beyond it a zone counts as 0."""


def clocks_of(raw: Any) -> Clocks:
    """When the clocks are changed, as the page tells it: ``["", 60], ["2026-03-29T01:00", 120]``; what is none is left.

    Parameters
    ----------
    raw : list of list
        Moments (UTC) with the minutes east of UTC that hold from then on, the first blank.
    """
    found = []
    for row in raw if isinstance(raw, list) else []:
        since, zone = row if isinstance(row, list) and len(row) == 2 else (None, None)
        moment = datetime(1, 1, 1) if since == "" else _minute(since)
        if moment is not None and isinstance(zone, int) and abs(zone) <= MOST_ZONE:
            found.append((moment, zone))
    return tuple(sorted(found))


def _minute(text: Any) -> datetime | None:
    try:
        return datetime.fromisoformat(text) if isinstance(text, str) and len(text) == 16 else None
    except ValueError:
        return None


class Change(NamedTuple):
    """A change of the clocks: what the wall shows just before it, and by how many minutes it is put forward."""

    at: datetime
    minutes: int


def change_between(clocks: Clocks, first: datetime, last: datetime) -> Change | None:
    """Give the first change of the clocks from one time on the wall to another, both by the clock before it."""
    for (_, before), (since, zone) in pairwise(clocks):
        at = since + timedelta(minutes=before)
        if first < at <= last:
            return Change(at, zone - before)
    return None
