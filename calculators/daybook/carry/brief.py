"""A batch at work in the few words that a short code carries, and those words read back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from ...asking.figures import clock_words
from ...words.replan import LABELS
from ..batch.batch import Batch
from ..batch.blanks import unread
from ..batch.missing import missing
from ..lines.kinds import KIND
from ..next.open_faults import place_of
from ..next.step import Step, Wall
from ..next.untold import unplanned, untold
from ..pages.today import Standing, due_words
from .short_code import MOST_UNKNOWN, OUTSTANDING, Brief

_STAGE = {
    "not wet": "not yet wet",
    "wet": "under water",
    "rest": "in an air rest",
    "floor": "on the floor",
    "drum": "in the drum",
}
_OPEN = {
    "stop": "past a stop of the table of limits",
    "outside": "outside what is accepted",
    "untold": "nobody is written down as told",
    "unplanned": "no changed plan is written",
}


def brief_from(one: Standing, wall: Wall) -> Brief:
    """The brief of a batch at work.

    Parameters
    ----------
    one : Standing
        The batch as it stands.
    wall : Wall
        The clock; the due time is said on that of the house.
    """
    batch, step = one.batch, one.step
    local = wall.local(step.at) + timedelta(seconds=30) if step.at else None
    marks = {*one.off, *_open_marks(one)}
    return Brief(
        batch.id,
        place_of(batch) or "not wet",
        step.likely[0] if step.likely else "remark",
        local.replace(second=0, microsecond=0) if local else None,
        tuple(mark for mark in OUTSTANDING if mark in marks),
        min(_unknown(batch), MOST_UNKNOWN),
    )


def _open_marks(one: Standing) -> Iterator[str]:
    if any(line.mark == "stop" for line in one.lines) or one.step.is_stop:
        yield "stop"
    elif one.lines:
        yield "outside"
    if untold(one.batch, one.off):
        yield "untold"
    if unplanned(one.batch):
        yield "unplanned"


def _unknown(batch: Batch) -> int:
    return len(unread(batch)) + len(missing(batch))


def brief_words(brief: Brief, wall: Wall, now: datetime | None) -> Iterator[str]:
    """A brief in sentences.

    Parameters
    ----------
    brief : Brief
        What a code says.
    wall : Wall
        The clock.
    now : datetime or None
        UTC, to say how late the next line is; without it the date stands there.
    """
    yield f"Batch {brief.batch}: {_STAGE[brief.stage]}."
    kind = KIND.get(brief.line)
    label = kind.label if kind else brief.line
    if now and brief.due:
        at = wall.moment(brief.due)
        due = due_words(Step("", at, (), (), ()), wall, now)
    else:
        due = f"Due {clock_words(brief.due, year=True)}." if brief.due else "No hour is known for it."
    yield f"Next line: {label}. {due}"
    words = [LABELS[mark] if mark in LABELS else _OPEN[mark] for mark in brief.outstanding]
    if words:
        yield f"Outstanding: {'; '.join(words)}."
    if brief.unknown:
        many = f"{brief.unknown} things" if brief.unknown > 1 else "1 thing"
        more = " or more" if brief.unknown == MOST_UNKNOWN else ""
        yield f"Nobody knows, by the book: {many}{more}. Ask what."
