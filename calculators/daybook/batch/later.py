"""Lines that are dated after now: a slip of the date, or work still to be done. Until then none of them counts."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from ..lines.entry import Entry
from ..pages.view import kind_label, said_time
from .batch import Batch

CLOCKS_APART = timedelta(minutes=5)
"""Two devices may read so far apart, and a person rounds to it: our judgement."""

_MOST_NAMED = 3


def later_lines(batch: Batch, now: datetime | None) -> list[Entry]:
    """The lines that count and lie after now (UTC); none where no clock is known."""
    return [] if now is None else [entry for entry in batch.standing if entry.utc > now + CLOCKS_APART]


def by_now(batch: Batch, now: datetime | None) -> Batch:
    """The batch by its lines up to now, so that a slip of the date outranks nothing that was read since.

    Parameters
    ----------
    batch : Batch
        The batch.
    now : datetime or None
        The time now, UTC; without it all lines count.

    Returns
    -------
    Batch
        The same one where none of its lines lies later.
    """
    later = {entry.id for entry in later_lines(batch, now)}
    if not later:
        return batch
    return Batch(batch.id, [entry for entry in batch.standing if entry.id not in later])


def later_words(later: Sequence[Entry]) -> tuple[str, ...]:
    """What is said of them, a sentence each."""
    said = [
        f"{kind_label(entry)} is dated {said_time(entry.local)}, after now: it counts for nothing until then. Correct "
        "its date if that was a slip."
        for entry in later[:_MOST_NAMED]
    ]
    if len(later) > _MOST_NAMED:
        said.append(f"{len(later) - _MOST_NAMED} more lines are dated after now.")
    return tuple(said)
