"""Lines that count for nothing as they stand: left blank, or weighings whose basket nobody wrote down."""

from __future__ import annotations

from ..lines.entry import Entry
from ..lines.kinds import KIND
from ..pages.view import kind_label, said_time
from .batch import Batch

_NO_MEASUREMENT = ("start", "answer", "gas", "remark")
_MOST_NAMED = 3


def blank_lines(batch: Batch) -> list[tuple[Entry, str]]:
    """The lines of a measurement that are blank, or cannot be read, each with what it lacks; the newest first."""
    found = []
    for entry in reversed(batch.standing):
        problems = batch.problems.get(entry.id)
        kind = KIND.get(entry.kind)
        if not problems or kind is None or entry.kind in _NO_MEASUREMENT:
            continue
        names = dict.fromkeys(problem.question for problem in problems)
        asked = [question.label.lower() for name in names if (question := kind.question(name))]
        if asked:
            found.append((entry, ", ".join(asked)))
    return found


def tare_lacks(batch: Batch) -> str:
    """What is not written without which no weighing can be read; nothing where there is no weighing or it can."""
    weighed = [entry for entry in batch.of("basket") if batch.value(entry, "gross_g") is not None]
    if not weighed:
        return ""
    basket, sample = batch.tare()
    known = {
        "the empty basket’s weight": basket,
        "the barley weighed into it": sample,
        "the barley’s own moisture": batch.number("barley_moisture"),
    }
    lacks = [name for name, value in known.items() if value is None]
    if not lacks:
        return ""
    many = "The weighings say" if len(weighed) > 1 else "The weighing says"
    told = " and ".join([", ".join(lacks[:-1]), lacks[-1]] if len(lacks) > 1 else lacks)
    where = "Correct the start" if lacks == [*known][2:] else "Correct the first weighing, or the start"
    return f"{many} nothing yet: {told} {'are' if len(lacks) > 1 else 'is'} not written. {where}."


def unread(batch: Batch) -> tuple[str, ...]:
    """What stands near the next step: blank lines by name, and weighings that cannot be read."""
    said = [tare_lacks(batch)]
    blank = blank_lines(batch)
    for entry, lacks in blank[:_MOST_NAMED]:
        said.append(
            f"{kind_label(entry)}, {said_time(entry.local)}, counts for nothing: {lacks} is blank or cannot be read. "
            "Correct the line."
        )
    if len(blank) > _MOST_NAMED:
        said.append(f"So do {len(blank) - _MOST_NAMED} lines before.")
    return tuple(words for words in said if words)
