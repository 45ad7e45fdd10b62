"""The invented batches that are at work whenever somebody looks: one in the steep, one on the floor.

``python -m bench.day_book_files`` writes them to ``docs/assets/demo-running.json``. A line says how many minutes before
now it was written; the page puts its own clock in when the batches are loaded.

What can be seen in them: the one in the steep is an hour and a half from its second drain. The one on the floor was
turned longer ago than is accepted, so that something is late.
"""

from __future__ import annotations

import json
from datetime import datetime, timedelta
from random import Random
from typing import Any

from bench.demo_batches import Batch
from calculators.daybook.lines.entry import SCHEMA
from calculators.rules.floor import turning_limits

SEED = 1852
KIND = "steep-to-kiln running batches"
TO_DRAIN = timedelta(minutes=90)
LATE = timedelta(minutes=50)
_DAYS = 4.0
"""The one on the floor lies for so many days, about."""


def _before(batch: Batch, now: datetime) -> list[dict[str, Any]]:
    """The lines written by a moment, each with how long before it the work was done [min]."""
    lines = []
    for line in sorted(batch.log.lines, key=lambda one: str(one["written"])):
        at = datetime.fromisoformat(line["at"]) - timedelta(minutes=line["zone"])
        if at <= now:
            kept = {name: value for name, value in line.items() if name not in ("at", "written", "zone")}
            lines.append({**kept, "before": round((now - at).total_seconds() / 60)})
    return lines


def _times(batch: Batch, kind: str) -> list[datetime]:
    lines = [line for line in batch.log.lines if line["kind"] == kind]
    return [datetime.fromisoformat(line["at"]) - timedelta(minutes=line["zone"]) for line in lines]


def on_floor(random: Random, name: str) -> list[dict[str, Any]]:
    """A batch whose piece has lain too long since it was turned."""
    batch = Batch(random, name, "2026-11-17", "lot 1", "floor")
    cast = batch.cast(batch.steeped())
    batch.grown(cast)
    turned = [at for at in _times(batch, "turned") if at <= cast + timedelta(days=_DAYS)]
    accepted = timedelta(hours=turning_limits(False)[1].accept_high or 0.0)
    return _before(batch, turned[-1] + accepted + LATE)


def in_steep(random: Random, name: str) -> list[dict[str, Any]]:
    """A batch in its second immersion."""
    batch = Batch(random, name, "2026-11-23", "lot 1", "floor")
    batch.steeped()
    return _before(batch, _times(batch, "stage-ended")[1] - TO_DRAIN)


def running_text(seed: int = SEED) -> str:
    """The running batches as the page loads them."""
    random = Random(seed)
    lines = [*on_floor(random, "example-13"), *in_steep(random, "example-14")]
    whole = {"schema": SCHEMA, "kind": KIND, "entries": lines}
    return json.dumps(whole, ensure_ascii=False, indent=1, sort_keys=True) + "\n"
