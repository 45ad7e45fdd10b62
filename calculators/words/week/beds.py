"""How the floors, drums and boxes of a week are kept, against their limits."""

from __future__ import annotations

from ...asking.declare import Note
from ...rules.limits.drum_germination import BED
from ...rules.limits.floor_germination import DEPTH, PIECE
from ...rules.lines import passed, worst
from ..limits import said, stop_said
from .typed import Typed


def bed_notes(seen: Typed) -> tuple[list[Note], bool]:
    """What is said of the beds as they were typed, the stops first, and whether one of them is passed."""
    notes, stopped = [], []
    for bed, laid in zip(seen.house.beds, seen.laid, strict=True):
        lines = [passed(DEPTH, laid.depth_cm), passed(PIECE, laid.bed_c)] if bed.shared else [passed(BED, laid.bed_c)]
        for line in worst(lines):
            if line.mark == "stop":
                stopped.append(Note("notice", f"Past a stop: {bed.name}. {stop_said(line)}"))
            else:
                notes.append(Note("notice", f"{bed.name}: {said(line)}"))
    return [*stopped, *notes], bool(stopped)
