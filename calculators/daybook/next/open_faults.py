"""The faults written of a batch that nothing written since has answered, each with the lines that are its answer."""

from __future__ import annotations

from typing import NamedTuple

from ...rules.drum import RUNNING, STOPPED
from ...rules.replan.faults import FAULTS, Fault, Place
from ..batch.batch import Batch
from ..lines.entry import Entry
from ..lines.kinds import DRUM, FILLED, OVER, TURNINGS, WET

_ANSWERED_BY: dict[Fault, tuple[str, ...]] = {
    "blower": (),  # neither a way nor a turning moves air: only a line that says that the fan runs
    "sour": (),  # nothing but the nose says that it is fresh
    "warm": ("bed", "plan"),  # what is read then is judged by itself
    "turning-missed": TURNINGS,
    "behind": ("plan", "stage-begun", "stage-ended", "basket", "moisture"),
    "ahead": ("plan", "stage-begun", "stage-ended", "basket", "moisture"),
    "kiln-late": ("plan", "to-kiln"),
    "away": ("plan",),
}
"""The kinds of line that answer each fault, beside a line which says that it is over."""


class Opened(NamedTuple):
    """A fault that stands open, with the lines that say so, the first one first."""

    fault: Fault
    lines: tuple[Entry, ...]


def place_of(batch: Batch) -> Place | None:
    """Where a batch is; None where it is not yet wet, or has left."""
    if batch.left is not None or (batch.cast is None and not batch.spells):
        return None
    if batch.cast is not None:
        return "drum" if batch.vessel == DRUM else "floor"
    return "wet" if batch.spells[-1].wet else "rest"


def faults_at(place: Place) -> tuple[Fault, ...]:
    """The faults that there can be at a place, what presses most first."""
    return tuple(fault for fault, places in FAULTS.items() if place in places)


def open_faults(batch: Batch) -> list[Opened]:
    """The faults of a batch that stand open where it is now, the gravest first."""
    place = place_of(batch)
    found: dict[Fault, tuple[Entry, ...]] = {}
    for entry in batch.standing:
        for fault in [one for one in found if _answers(batch, one, entry)]:
            del found[fault]
        said = _said(batch, entry)
        if said is not None:
            found[said] = (*found.get(said, ()), entry)
    return [Opened(fault, found[fault]) for fault in (faults_at(place) if place else ()) if fault in found]


def fan_line(batch: Batch) -> Entry | None:
    """The line that says last whether the fan runs."""
    lines = batch.of("air", "fault")
    return next((one for one in reversed(lines) if _fan(batch, one) is not None), None)


def fan_said(batch: Batch) -> str | None:
    """Whether the fan runs or has stopped, by the last line that says so; None where none does."""
    last = fan_line(batch)
    return _fan(batch, last) if last else None


def fan_stands(batch: Batch) -> bool:
    """Whether a fan has stopped with the grain inside, where there is one."""
    place = place_of(batch)
    return place is not None and place in FAULTS["blower"] and fan_said(batch) == STOPPED


def _fan(batch: Batch, entry: Entry) -> str | None:
    if entry.kind == "air":
        said: str | None = batch.value(entry, "fan")
        return said
    if entry.kind != "fault" or batch.value(entry, "fault") != "blower":
        return None
    return RUNNING if batch.value(entry, "fault_now") == OVER else STOPPED


def _said(batch: Batch, entry: Entry) -> Fault | None:
    """The fault that a line opens, or says again."""
    if entry.kind == "air":
        return "blower" if _fan(batch, entry) == STOPPED else None
    if entry.kind != "fault" or batch.value(entry, "fault_now") == OVER:
        return None
    fault: Fault | None = batch.value(entry, "fault")
    return fault if fault in FAULTS else None


def _answers(batch: Batch, fault: Fault, entry: Entry) -> bool:
    if entry.kind == "fault":
        return bool(batch.value(entry, "fault") == fault and batch.value(entry, "fault_now") == OVER)
    if fault == "blower":
        return _fan(batch, entry) == RUNNING
    if fault == "warm" and entry.kind in ("stage-begun", "stage-ended"):
        return bool(batch.value(entry, "stage") == WET or batch.value(entry, "ended") == FILLED)
    return entry.kind in _ANSWERED_BY[fault]
