"""Which batches run: begun, not gone to the kiln, and written in of late."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from .batch import Batch

QUIET = timedelta(days=7)
"""A batch in which nothing was written for so long is not at work any more: our judgement."""


def is_open(batch: Batch) -> bool:
    """Whether a batch was begun and nothing says that it left."""
    return batch.left is None and any(entry.kind not in ("remark", "answer", "gas") for entry in batch.standing)


def is_quiet(batch: Batch, now: datetime) -> bool:
    """Whether nothing was written in a batch for longer than any batch lies."""
    return now - max(entry.utc for entry in batch.standing) > QUIET


def running(batches: Iterable[Batch], now: datetime) -> list[Batch]:
    """The batches that are at work, in the order in which they were begun.

    Parameters
    ----------
    batches : iterable of Batch
        Those of a book.
    now : datetime
        UTC.
    """
    return [batch for batch in batches if is_open(batch) and not is_quiet(batch, now)]
