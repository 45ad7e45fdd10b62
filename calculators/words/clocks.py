"""What a sheet says where the clocks are changed among its hours: it goes on by the clock of its start."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from ..asking.answer import Answered
from ..asking.clocks import Clocks, change_between
from ..asking.declare import Note, Outcome
from ..asking.figures import clock_words, plain_number


def with_the_change(result: Answered, clocks: Clocks) -> Answered:
    """Give the answer with a notice first, where the clocks are changed between its first time and its last.

    Parameters
    ----------
    result : Answered
        Of a sheet.
    clocks : Clocks
        When they are changed.
    """
    outcome = result.outcome
    if not isinstance(outcome, Outcome):
        return result
    times = sorted(one for one in _times(result) if one.year > 1)
    change = change_between(clocks, times[0], times[-1]) if times else None
    if change is None:
        return result
    by = plain_number(abs(change.minutes) / 60.0)
    way, more = ("forward", "more") if change.minutes > 0 else ("back", "less")
    note = Note(
        "notice",
        f"The clocks are put {way} on {clock_words(change.at)}. This sheet goes by the clock of its start: from then "
        f"on the wall shows {by} h {more} than stands here. Hours and stages hold.",
    )
    return result._replace(outcome=outcome._replace(notes=(note, *outcome.notes)))


def _times(result: Answered) -> Iterator[datetime]:
    assert isinstance(result.outcome, Outcome)
    for value in result.values.values():
        if isinstance(value, datetime):
            yield value
    for found in result.outcome.answers:
        if isinstance(found.value, datetime):
            yield found.value
    for table in result.outcome.tables:
        for row in table.rows:
            for cell in row:
                if isinstance(cell, datetime):
                    yield cell
