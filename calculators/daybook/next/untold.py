"""What has left the plan and of which nobody is written down as told, or no answer is written: each by itself."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from ...rules.replan.faults import Fault
from ...words.replan import LABELS
from ..batch.batch import Batch
from ..lines.kinds import TURNINGS
from .open_faults import Opened, open_faults

_SHOWN_BY: dict[Fault, tuple[str, ...]] = {
    "blower": ("air",),
    "sour": (),
    "warm": ("bed",),
    "turning-missed": (*TURNINGS, "cast"),
    "behind": ("basket", "moisture", "stage-begun", "stage-ended"),
    "ahead": ("basket", "moisture"),
    "kiln-late": ("readiness",),
    "away": (),
}
"""The lines that show a fault which nobody wrote: it is no older than the last of them."""

_NO_ANSWER = {
    "blower": "no line says that the fan runs",
    "sour": "no line says that it smells fresh",
    "turning-missed": "no turning is written since",
}


def untold(batch: Batch, off: Sequence[Fault]) -> list[Fault]:
    """Give those of the faults of which nobody is written down as told since they began.

    Parameters
    ----------
    batch : Batch
        A batch at work.
    off : sequence of str
        What has left its plan.
    """
    opened = {one.fault: one for one in open_faults(batch)}
    return [fault for fault in off if not _is_told(batch, fault, opened.get(fault))]


def _is_told(batch: Batch, fault: Fault, opened: Opened | None) -> bool:
    since = opened.lines[0].utc if opened else _shown(batch, fault)
    own = [one for one in batch.of("fault") if batch.value(one, "fault") == fault]
    lines = [one for one in (*own, *batch.of("plan")) if since is None or one.utc >= since]
    return any(batch.value(one, "told") for one in lines)


def _shown(batch: Batch, fault: Fault) -> datetime | None:
    shown = batch.of(*_SHOWN_BY[fault])
    return shown[-1].utc if shown else None


def unplanned(batch: Batch) -> list[Fault]:
    """The open faults since which no changed plan is written."""
    plans = [one.utc for one in batch.of("plan")]
    return [one.fault for one in open_faults(batch) if not plans or plans[-1] < one.lines[0].utc]


def unanswered_words(batch: Batch) -> list[str]:
    """What is not known of the open faults, a sentence each, the gravest first."""
    without_plan = unplanned(batch)
    said = []
    for one in open_faults(batch):
        lacks = [_NO_ANSWER[one.fault]] if one.fault in _NO_ANSWER else []
        lacks += ["no changed plan is written since"] if one.fault in without_plan else []
        if lacks:
            said.append(f"{LABELS[one.fault]}: {', and '.join(lacks)}.")
    return said
