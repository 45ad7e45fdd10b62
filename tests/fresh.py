"""Python as it is when a page has just been opened: nothing of another book is kept."""

from __future__ import annotations

from calculators.daybook.house import house


def fresh() -> None:
    """Let go what was kept of batches: in a browser each book has a Python of its own, and here they share one."""
    for kept in (house._told, house._reads, house._batches, house._courses, house._heats):
        kept.clear()
