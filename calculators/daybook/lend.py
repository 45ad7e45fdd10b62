"""What the book lends to a sheet: the numbers of the batch at hand, each with the line that it stands in."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any

from ..asking.declare import Question, Sheet, Table
from ..asking.reading import split_rows
from ..sheets import find_sheet
from .batch.at_hand import Facts, House, Seen, at_hand, source_words
from .batch.batch import Batch
from .batch.course import course_of
from .batch.later import by_now
from .batch.openings import needs_house, values_for
from .batch.running import running
from .house.house import NOTHING, Known, book_of, kept_batch, known_of, take_kept
from .house.week_opening import OF_HOUSE, SOURCE, week_given
from .lines.entry import Entry
from .next.step import Wall
from .pages.view import state_words

Reply = dict[str, Any]

AN_HOUR = timedelta(hours=1)
NO_BATCH = "-"
"""What is preferred by somebody who wants no batch's numbers."""


def _as_typed(question: Question | None, value: str) -> str | list[list[str]]:
    return split_rows(question, value) if isinstance(question, Table) else value


def _facts(sheet: Sheet, batch: Batch, known: Known, wall: Wall, now: datetime) -> Facts:
    """What of a batch goes into a sheet at that moment."""
    batch = by_now(batch, wall.now)
    seen = Seen(batch, course_of(batch, known.prior, wall.now), known.house or House(), now)
    return values_for(sheet, seen, at_hand(seen))


def _chosen(asked: Reply, open_ones: list[Batch], book: Mapping[str, list[Entry]]) -> Batch | None:
    """The batch that was asked for; else of those at work the one chosen last, or the only one there is."""
    wanted, prefer = (str(asked.get(name) or "") for name in ("batch", "prefer"))
    if wanted:
        return kept_batch(wanted, book[wanted]) if wanted in book else None
    if prefer == NO_BATCH:
        return None
    preferred = [batch for batch in open_ones if batch.id == prefer]
    return next(iter(preferred or (open_ones if len(open_ones) == 1 else [])), None)


def lend(asked: Reply, wall: Wall) -> Reply:
    """What goes into a sheet, from which batch.

    Parameters
    ----------
    asked : dict
        ``sheet``, an id; ``entries``; ``sums``, what the page has kept of batches; ``batch``, the one that is asked
        for, or nothing; ``prefer``, the one chosen last, or ``NO_BATCH``; with ``quick`` the house's other batches are
        left alone, and ``glance`` says so where they have something to say.
    wall : Wall
        The clock.

    Returns
    -------
    dict
        ``running``, the batches at work with where each stands; ``batch``, the one that lends, or nothing where it has
        to be chosen; ``lent``, by question its ``value`` as the form takes it, ``source`` in words, and whether it
        ``moves`` with the clock, so that it is another one an hour later;
        ``whole_house``, where that is of all batches at work, and only for what is blank.
    """
    sheet = find_sheet(str(asked["sheet"]))
    take_kept(asked.get("sums") or ())
    book = book_of(asked["entries"])
    batches = [kept_batch(name, entries) for name, entries in book.items()]
    now = wall.now or max((batch.entries[-1].utc for batch in batches), default=None)
    if sheet.guarded or now is None:
        return {"running": [], "batch": "", "lent": {}}
    open_ones = running(batches, now)
    reply: Reply = {
        "running": [{"id": batch.id, "state": state_words(batch)} for batch in open_ones],
        "batch": "",
        "lent": {},
    }
    batch = _chosen(asked, open_ones, book)
    if sheet.id == OF_HOUSE:
        given = week_given(open_ones, wall.local(now))
        reply["lent"] = {
            name: {"value": _as_typed(sheet.question(name), one), "source": SOURCE} for name, one in given.items()
        }
        reply["whole_house"] = True
        return reply
    if batch is None:
        return reply
    waits = needs_house(sheet) and bool(set(book) - {batch.id})
    known = NOTHING if asked.get("quick") or not waits else known_of(batch, book)
    lent = _facts(sheet, batch, known, wall, now)
    later = _facts(sheet, batch, known, wall._replace(now=now + AN_HOUR), now + AN_HOUR)
    reply["batch"] = batch.id
    reply["glance"] = bool(asked.get("quick")) and waits
    reply["lent"] = {
        name: {
            "value": _as_typed(sheet.question(name), one.value),
            "source": source_words(one, batch),
            "moves": name not in later or later[name].value != one.value,
        }
        for name, one in lent.items()
    }
    return reply
