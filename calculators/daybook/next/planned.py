"""What a changed plan says of a bed: how warm it is kept, and when it is loaded on the kiln."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from ...asking.figures import plain_number
from ...rules.limits import drum_germination, floor_germination, kiln_hand_over
from ...rules.lines import passed
from ...words.limits import said, told
from ..batch.batch import Batch
from ..house.days import ready_at
from ..lines.entry import Entry
from ..lines.kinds import DRUM
from .step import Wall


class Holding(NamedTuple):
    """What holds of a bed by the plans since its cast: each figure by the last line that has it.

    Attributes
    ----------
    hold_c : float or None
        How warm it is kept [C].
    load : datetime or None
        When it is loaded on the kiln, UTC.
    hold_by, load_by : Entry or None
        The lines that say so.
    """

    hold_c: float | None = None
    load: datetime | None = None
    hold_by: Entry | None = None
    load_by: Entry | None = None


def holding(batch: Batch, wall: Wall) -> Holding:
    """What the plans of a bed say that holds now."""
    held = Holding()
    for plan in batch.of("plan"):
        if batch.cast is None or plan.utc < batch.cast.utc:
            continue
        hold, load = batch.value(plan, "hold_c"), batch.value(plan, "load_at")
        if hold is not None:
            held = held._replace(hold_c=hold, hold_by=plan)
        if load is not None and load.year > 1:
            held = held._replace(load=wall.moment(load), load_by=plan)
    return held


def taken_words(batch: Batch, wall: Wall) -> list[str]:
    """Give what the plans written since the cast say of the bed; a stop that they pass leads.

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
    held, do = holding(batch, wall), list[str]()
    if held.hold_c is not None and held.hold_by:
        do += [_by(held.hold_by, wall), _kept(held.hold_c, batch.vessel == DRUM)]
    if held.load is not None and held.load_by:
        do += [] if held.load_by is held.hold_by else [_by(held.load_by, wall)]
        do.append(_loaded(batch, held.load, wall))
    return do


def _by(plan: Entry, wall: Wall) -> str:
    return f"By the plan written {wall.time(plan.utc)}:"


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
