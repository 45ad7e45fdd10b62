"""The running batches as plain dated lines: what to do next, when, how late it is, and what is outside the limits.

The worst comes first: a fan that stands, past a stop, then the latest, then what is due soonest.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple
from xml.etree.ElementTree import Element

from ...asking.declare import Note
from ...asking.figures import day_words, fixed
from ...drawing.elements import add
from ...drawing.links import fill
from ...drawing.results import draw_note
from ...rules.conventions import READY_DAYS
from ...rules.lines import Line
from ...rules.replan.faults import Fault
from ...words.limits import said
from ...words.replan import off_list
from ..batch.batch import Batch
from ..batch.course import course_of
from ..batch.later import by_now, later_lines, later_words
from ..batch.running import is_open, is_quiet
from ..house.house import NOTHING, known_of
from ..lines.entry import Entry
from ..next.expected import Last, expected_words, last_reading
from ..next.led import lacking
from ..next.next_step import next_step
from ..next.off_plan import left_the_plan
from ..next.outside import outside
from ..next.step import Step, Wall
from .view import batch_link, kind_label, said_time, state_words, value_words

_MOST_OUTSIDE = 3


class Standing(NamedTuple):
    """A batch at work as it stands: its next step, what is outside the limits, what was read last, what is missing."""

    batch: Batch
    step: Step
    lines: list[Line]
    last: Last | None
    missing: tuple[str, ...]
    off: tuple[Fault, ...] = ()

    def late(self, now: datetime) -> timedelta:
        """By how much the next step is late; negative before it is due, nothing where it has no hour."""
        return now - self.step.at if self.step.at else timedelta(0)

    def rank(self, now: datetime) -> tuple[bool, bool, float]:
        """What is worse stands first: a fan that stands with grain inside, a stop, then what is later."""
        stop = any(line.mark == "stop" for line in self.lines) or self.step.is_stop
        return "blower" not in self.off, not stop, -self.late(now).total_seconds()


def standing_of(batch: Batch, book: Mapping[str, list[Entry]] | None, wall: Wall, now: datetime) -> Standing:
    """A batch as it stands.

    Parameters
    ----------
    batch : Batch
        The batch.
    book : mapping of str to list of Entry, or None
        All batches of the house, whose fits then count; without them the typical barley does.
    wall : Wall
        The clock.
    now : datetime
        The same, UTC, where the wall has none.
    """
    later, batch = later_lines(batch, wall.now), by_now(batch, wall.now)
    known = known_of(batch, book) if book else NOTHING
    course = course_of(batch, known.prior, wall.now)
    step = next_step(batch, course, wall, known.house.days or READY_DAYS, known.house.heat or 1.0)
    last = last_reading(batch, course, known.prior, now)
    lines = outside(batch, wall, course)
    off = left_the_plan(batch, last, lines, step.at, now)
    return Standing(batch, step, lines, last, (*later_words(later), *lacking(batch)), tuple(off))


def span_words(span: timedelta) -> str:
    """A span as it is said: ``40 min``, ``2 h 5 min``, ``31 h``, ``3 days``."""
    minutes = round(abs(span.total_seconds()) / 60)
    hours, rest = divmod(minutes, 60)
    if minutes < 60:
        return f"{minutes} min"
    if hours < 12:
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    return f"{hours} h" if hours < 72 else f"{hours // 24} days"


def due_words(step: Step, wall: Wall, now: datetime) -> str:
    """When the next step is due, and how late it is."""
    if step.at is None:
        return "No hour is known for it."
    at = wall.time(step.at)
    gap = now - step.at
    if abs(gap) <= timedelta(minutes=5):
        return f"Due now, {at}."
    return f"Due {at}, {span_words(gap)} late." if gap > timedelta(0) else f"Due {at}, in {span_words(gap)}."


def reading_words(batch: Batch, last: Last | None, now: datetime) -> str:
    """What was read last and when, and what was expected of it."""
    if last is None:
        return "Nothing has been read so far."
    entry = last.entry
    read = {"moisture": "moisture {} %", "bottom": "bottom {} °C"}.get(last.what, "")
    value = read.format(fixed(last.read, 1)) if read and last.read is not None else ""
    words = value or ", ".join(f"{label.lower()} {text}" for label, text in value_words(batch, entry)[:2])
    ago = span_words(now - entry.utc)
    told = f"Last reading, {said_time(entry.local)}, {ago} ago: {kind_label(entry).lower()}, {words}."
    return f"{told} {expected_words(last)}".strip()


def _lines(one: Standing) -> list[str]:
    """What is outside the limits that the next step does not say already."""
    told = [said(line) for line in one.lines]
    return [words for words in told if words not in one.step.text][:_MOST_OUTSIDE]


def _draw(parent: Element, one: Standing, wall: Wall, now: datetime, root: str | None, page: str, demo: bool) -> None:
    late = one.late(now) > timedelta(minutes=5)
    item = add(parent, "li", "today-batch", data_today=one.batch.id)
    head = add(item, "h3")
    batch_link(head, one.batch.id, demo, page)
    head[-1].tail = f" {state_words(one.batch)}"
    fill(add(item, "p", "next-step"), one.step.text, root)
    add(item, "p", "due late" if late else "due", due_words(one.step, wall, now))
    outside_now = _lines(one)
    if outside_now:
        add(item, "p", "outside", "Outside what is accepted: " + " ".join(outside_now))
    off = one.last is not None and one.last.is_off
    add(item, "p", "read off" if off else "read", reading_words(one.batch, one.last, now))
    for words in one.missing[:1]:
        add(item, "p", "lacks", words)
    if one.off:
        line = add(item, "p", "off-plan", f"Off the plan: {off_list(one.off)}. ")
        link = batch_link(line, one.batch.id, demo, page)
        link.set("href", f"{link.get('href')}#what-now")
        link.text = "What now?"


def today(
    batches: Sequence[Batch],
    book: Mapping[str, list[Entry]] | None,
    wall: Wall,
    *,
    root: str | None,
    page: str = "",
    demo: bool = False,
) -> list[Element]:
    """The batches at work, the worst first; nothing where none runs.

    Parameters
    ----------
    batches : sequence of Batch
        All batches of a book.
    book : mapping of str to list of Entry, or None
        Their lines, where what the house has learnt counts.
    wall : Wall
        The clock.
    root : str or None
        Relative address of the site's root.
    page : str
        Address of the day-book's page, blank on that page itself.
    demo : bool
        Whether it is the invented book.
    """
    open_ones = [batch for batch in batches if is_open(batch)]
    if not open_ones:
        return []
    now = wall.now or max(batch.entries[-1].utc for batch in open_ones)
    found = [standing_of(batch, book, wall, now) for batch in open_ones if not is_quiet(batch, now)]
    parts: list[Element] = []
    if found:
        head = Element("h2", {"class": "today-head"})
        head.text = f"{day_words(wall.local(now))}: at work"
        listed = Element("ol", {"class": "today"})
        for one in sorted(found, key=lambda each: each.rank(now)):
            _draw(listed, one, wall, now, root, page, demo)
        parts += [head, listed, *_boxes(found, root)]
    return parts + _quiet([batch for batch in open_ones if is_quiet(batch, now)], page, demo)


def _boxes(found: Sequence[Standing], root: str | None) -> list[Element]:
    """The boxes on gas and machines that belong to the steps, each once."""
    holder = Element("div")
    notes: dict[Note, None] = dict.fromkeys(note for one in found for note in one.step.notes)
    for note in notes:
        draw_note(holder, note, root)
    return list(holder)


def _quiet(batches: Sequence[Batch], page: str, demo: bool) -> list[Element]:
    """Batches in which nothing was written for days: somebody forgot the line that ends them."""
    parts = []
    for batch in batches:
        line = Element("p", {"class": "remark"})
        last = max(batch.standing, key=lambda entry: entry.utc)
        batch_link(line, batch.id, demo, page)
        line[-1].tail = f": nothing written since {said_time(last.local, year=True)}. Write where it went."
        parts.append(line)
    return parts
