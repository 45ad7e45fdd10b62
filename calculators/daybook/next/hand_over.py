"""What one shift hands to the next, made of the book: where each batch stands, what is due, told, and not known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

from ...rules.conventions import LOOK_HOLDS_H
from ...rules.floor import turning_limits
from ...rules.limit import edge
from ...rules.limits import drum_germination
from ...rules.limits.steeping import REST
from ...rules.replan.faults import Fault
from ...words.limits import said
from ...words.replan import LABELS, off_list
from ..batch.batch import Batch
from ..batch.blanks import unread
from ..batch.running import running
from ..lines.entry import Entry
from ..lines.kinds import OVER
from ..pages.today import Standing, due_words, reading_words, standing_of
from ..pages.view import kind_label, said_time, state_words
from .drained import rests_longer
from .led import lacking
from .lying import lying_of
from .open_faults import fan_stands, place_of
from .planned import holding
from .step import Wall
from .untold import unanswered_words, unplanned, untold

AHEAD = timedelta(hours=12)
"""A hand-over looks so far ahead: a shift and what begins in it."""

LOOK_HOLDS = timedelta(hours=LOOK_HOLDS_H)
"""A look at a batch counts for a hand-over so long."""

_MOST_SAID = 6


class Handed(NamedTuple):
    """One batch as it is handed over, in words.

    Attributes
    ----------
    batch, state : str
        Its number, and where it stands.
    step, due : str
        What is to be done next, and by when.
    coming : tuple of str
        What follows within the shift, each with its hour.
    outside : tuple of str
        What lies outside the table of limits.
    off : tuple of str
        What has left the plan.
    reading : str
        What was read last.
    told : tuple of str
        What was told to whom since the last hand-over, and what was remarked.
    unknown : tuple of str
        What nobody knows.
    looked : str
        Who looked at it just now, and how it was; nothing where nobody did.
    """

    batch: str
    state: str
    step: str
    due: str
    coming: tuple[str, ...]
    outside: tuple[str, ...]
    off: tuple[str, ...]
    reading: str
    told: tuple[str, ...]
    unknown: tuple[str, ...]
    looked: str

    @property
    def is_looked_at(self) -> bool:
        """Whether somebody looked at it for this hand-over."""
        return bool(self.looked)


def hand_over(batches: Sequence[Batch], book: Mapping[str, list[Entry]] | None, wall: Wall) -> list[Handed]:
    """Give what is handed over: the batches at work, the worst first.

    Parameters
    ----------
    batches : sequence of Batch
        All of a book.
    book : mapping of str to list of Entry, or None
        Their lines, where what the house has learnt counts.
    wall : Wall
        The clock.

    Returns
    -------
    list of Handed
        Empty where nothing runs.
    """
    lines = [entry.utc for batch in batches for entry in batch.entries]
    now = wall.now or max(lines, default=datetime(1, 1, 1))
    standing = [standing_of(batch, book, wall, now) for batch in running(batches, now)]
    return [_handed(one, wall, now) for one in sorted(standing, key=lambda one: one.rank(now))]


def _handed(one: Standing, wall: Wall, now: datetime) -> Handed:
    batch = one.batch
    over = _over(batch)
    return Handed(
        batch.id,
        state_words(batch),
        one.step.text,
        due_words(one.step, wall, now),
        tuple(_coming(one, wall, now)),
        tuple(said(line) for line in one.lines),
        tuple(LABELS[fault] for fault in one.off),
        reading_words(batch, one.last, now),
        tuple(_told(batch)),
        tuple(_unknown(batch, one.off)),
        _looked(batch, over.utc if over else None, now),
    )


def _over(batch: Batch) -> Entry | None:
    """The last hand-over."""
    over = batch.of("handed-over")
    return over[-1] if over else None


def _coming(one: Standing, wall: Wall, now: datetime) -> list[str]:
    """What the plan has within the shift after the step that is due, by the clock; what is late counts as done now."""
    batch, until = one.batch, now + AHEAD
    place = place_of(batch)
    if place in ("wet", "rest"):
        return _steep_coming(one, wall, now)
    if place is None or batch.cast is None:
        return []
    load = holding(batch, wall).load
    coming = [(load, "loaded on the kiln, by the plan")] if load and load >= now else []
    turned = _turned_by(batch, wall)
    if now <= turned <= until and not (coming and turned > coming[0][0]) and not fan_stands(batch):
        coming.append((turned, "turned by then at the latest"))
    return [f"{wall.time(at)}: {what}" for at, what in sorted(coming)]


def _turned_by(batch: Batch, wall: Wall) -> datetime:
    """When it has to be turned at the latest by the table of limits."""
    lying = lying_of(batch, wall)
    limit = drum_germination.TURNING if place_of(batch) == "drum" else turning_limits(lying.never)[1]
    return lying.turned + timedelta(hours=edge(limit.accept_high))


def _steep_coming(one: Standing, wall: Wall, now: datetime) -> list[str]:
    batch, spell = one.batch, one.batch.spells[-1]
    plan = [hours for hours, _ in batch.plan[len(batch.spells) - 1 :]]
    if not plan or {"blower", "sour"} & set(unplanned(batch)):  # the hours of the plan are those of before
        return []
    if spell.wet and any(map(rests_longer, one.lines)):
        plan[1:2] = [max(hours, edge(REST.accept_high)) for hours in plan[1:2]]  # drained too wet, it rests longer
    at, wet, coming = max(one.step.at or spell.begun + timedelta(hours=plan[0]), now), spell.wet, list[str]()
    begins = spell.begun + timedelta(hours=plan[0])
    if not wet and fan_stands(batch) and now <= begins <= now + AHEAD:
        coming.append(f"{wall.time(begins)}: water on, once the fan runs")
    for number, hours in enumerate(plan[1:], 1):
        at, wet = at + timedelta(hours=hours), not wet
        last = len(batch.spells) + number == len(batch.plan)
        if at <= now + AHEAD:
            what = ("drain, then the cast" if last else "drain") if wet else "water on"
            coming.append(f"{wall.time(at)}: {what}")
    return coming


def _told(batch: Batch) -> list[str]:
    """What was told to whom, and what was remarked, since the last hand-over; first what was done before it.

    Of what was done since, the last few lines; of what nobody could be told at the hand-over, every line.
    """
    over = _over(batch)
    if over is None:
        return _words_of(batch, batch.standing)[-_MOST_SAID:]
    late = [one for one in batch.standing if one.utc <= over.utc and _written_after(one, over)]
    since = [one for one in batch.standing if one.utc > over.utc]
    return [*_words_of(batch, late), *_words_of(batch, since)[-_MOST_SAID:]]


def _written_after(entry: Entry, over: Entry) -> bool:
    """Whether a line was written after a hand-over: not in its minute, of which the clock of the hand-over is."""
    written = entry.written_utc
    return entry.id != over.id and written is not None and written >= over.utc + timedelta(minutes=1)


def _words_of(batch: Batch, entries: Sequence[Entry]) -> list[str]:
    found = []
    for entry in entries:
        told = batch.value(entry, "told")
        parts = [f"told: {told}" if told else "", entry.remark.strip()]
        if entry.kind in ("fault", "plan") or any(parts):
            what = _what(batch, entry)
            words = "; ".join(part for part in parts if part) or "nobody told, by the book"
            found.append(f"{said_time(entry.local)} {what}: {words}")
    return found


def _what(batch: Batch, entry: Entry) -> str:
    fault = batch.value(entry, "fault") if entry.kind == "fault" else None
    over = ": over" if batch.value(entry, "fault_now") == OVER else ""
    return f"{LABELS[fault]}{over}" if fault in LABELS else kind_label(entry)


def _unknown(batch: Batch, off: Sequence[Fault]) -> list[str]:
    nobody = untold(batch, off)
    found = [f"Nobody is written down as told: {off_list(nobody)}."] if nobody else []
    return [*unanswered_words(batch), *found, *unread(batch), *lacking(batch)]


def _looked(batch: Batch, since: datetime | None, now: datetime) -> str:
    looks = [one for one in batch.of("looked") if since is None or one.utc > since]
    if not looks or not timedelta(0) <= now - looks[-1].utc <= LOOK_HOLDS:
        return ""
    last = looks[-1]
    how = "as the book says" if batch.value(last, "as_written") == "yes" else "otherwise than the book says"
    more = f": {last.remark.strip()}" if last.remark.strip() else ""
    return f"Looked at {said_time(last.local)}{', ' + last.who if last.who else ''}, {how}{more}."
