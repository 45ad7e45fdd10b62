"""How the floors, drums and boxes of a week are kept, against their limits."""

from __future__ import annotations

from ...asking.declare import Note
from ...asking.figures import plain_number
from ...rules.limits.drum_germination import BED
from ...rules.limits.floor_germination import DEPTH, PIECE
from ...rules.lines import passed, worst
from ...rules.week.stages import SEASON_DEPTH_CM
from ..limits import said, stop_said
from .standing import Given
from .typed import Typed


def season_note(given: Given) -> list[Note]:
    """How deep a floor lies whose depth is that of the season."""
    blank = [row[0] for row in given["floors"] or () if row[2] is None]
    if not blank:
        return []
    depth = plain_number(SEASON_DEPTH_CM[given["season"]])
    return [Note("remark", f"{', '.join(blank)}: the young piece lies {depth} cm deep, by the season.")]


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
