"""What the last count of acrospires says of a batch: overshot past its stop, or ready."""

from __future__ import annotations

from typing import NamedTuple

from ...asking.figures import fixed
from ...rules.limit import edge
from ...rules.limits.readiness import OVERSHOT, READY
from ...rules.lines import Line, passed
from ...words.limits import at_edge
from ..batch.batch import Batch
from ..house.days import shares
from ..lines.entry import Entry
from .step import Wall


class Counted(NamedTuple):
    """The last count since the cast: its line, and the shares at three quarters and beyond, and overshot [%]."""

    entry: Entry
    ready: float
    overshot: float


def last_count(batch: Batch) -> Counted | None:
    """The last count of acrospires since the cast that can be read; None where there is none."""
    for entry in reversed(batch.of("readiness")):
        found = shares(batch, entry)
        if found:
            return Counted(entry, 100.0 * found[0], 100.0 * found[1])
    return None


def overshot_line(batch: Batch) -> Line | None:
    """The limit of what is overshot, where the last count passes it."""
    found = last_count(batch)
    return passed(OVERSHOT, found.overshot) if found else None


def ready_words(batch: Batch, wall: Wall) -> str:
    """What leads where the last count reaches what the kiln wants; nothing before."""
    found = last_count(batch)
    if found is None or found.ready < edge(READY.accept_low):
        return ""
    return (
        f"Ready by the count of {wall.time(found.entry.utc)}: {fixed(found.ready, 0)} % at three quarters and beyond, "
        f"{at_edge(READY, 'accept_low')} are wanted. How sure that is: [[sheet:readiness]]. Tell the kiln’s people: "
        "[[page:procedures/kiln-hand-over|the hand-over]]."
    )
