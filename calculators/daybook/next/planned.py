"""What a changed plan says of a bed: how warm it is kept, and when it is loaded on the kiln."""

from __future__ import annotations

from datetime import datetime

from ...asking.figures import plain_number
from ...rules.limits import drum_germination, floor_germination, kiln_hand_over
from ...rules.lines import passed
from ...words.limits import said, told
from ..batch.batch import Batch
from ..house.days import ready_at
from ..lines.kinds import DRUM
from .step import Wall


def taken_words(batch: Batch, wall: Wall) -> list[str]:
    """Give what the plan that was written last since the cast says of the bed; a stop that it passes leads.

    Parameters
    ----------
    batch : Batch
        A batch on the floor or in the drum.
    wall : Wall
        The time now.

    Returns
    -------
    list of str
        Nothing where no plan says how warm or until when.
    """
    for plan in reversed(batch.of("plan")):
        hold, load = batch.value(plan, "hold_c"), batch.value(plan, "load_at")
        at = None if load is None or load.year <= 1 else wall.moment(load)
        if batch.cast is None or plan.utc < batch.cast.utc or (hold is None and at is None):
            continue
        do = [_kept(hold, batch.vessel == DRUM)] if hold is not None else []
        do += [_loaded(batch, at, wall)] if at is not None else []
        return [f"By the plan written {wall.time(plan.utc)}:", *do]
    return []


def _kept(hold_c: float, drum: bool) -> str:
    line = passed(drum_germination.BED if drum else floor_germination.PIECE, hold_c)
    if line and line.mark == "stop":
        return f"Past a stop by the plan. {said(line)} Do not keep it so: write another plan.{told(line)}"
    return f"keep the bed at {plain_number(hold_c)} °C."


def _loaded(batch: Batch, at: datetime, wall: Wall) -> str:
    ready = ready_at(batch)
    hours = (at - ready[0]).total_seconds() / 3600 if ready and ready[1] else None
    line = passed(kiln_hand_over.READY_HOURS, hours, high_only=True)
    if line and line.mark == "stop":
        return f"Past a stop by the plan. {said(line)} Load it sooner, or ask for another kiln.{told(line)}"
    if wall.late(at):
        return f"Loading on the kiln was due {wall.time(at)}."
    return f"Load it on the kiln {wall.time(at)}."
