"""Lines of which something, or all, counts for nothing: left blank, unreadable, or a basket that nobody wrote down."""

from __future__ import annotations

from ...asking.declare import Choice, Number
from ...asking.figures import plain_number
from ...asking.reading import is_blank
from ..lines.entry import Entry
from ..lines.kinds import KIND, MALT
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


def said_of(batch: Batch, entry: Entry, lacks: str) -> str:
    """What becomes of a line with something that cannot be read: all of it is lost, or that figure alone.

    A figure that may be left blank is left out, and what else stands in the line counts. An analysis of which nothing
    can be read counts for nothing.
    """
    kind = KIND[entry.kind]
    wrong = {problem.question for problem in batch.problems[entry.id]}
    free = all(
        question.optional for question in kind.questions if question.id in wrong and not isinstance(question, Choice)
    )
    values = batch.values(entry)
    others = any(isinstance(one, Number) and values.get(one.id) is not None for one in kind.questions)
    if free and (others or entry.kind != MALT):
        one = "is" if ", " not in lacks else "are"
        return f": {lacks} cannot be read and {one} left out; what else stands in the line counts."
    return f", counts for nothing: {lacks} is blank or cannot be read."


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


def _typed_wrong(batch: Batch, entry: Entry) -> dict[str, str]:
    """What of a line was typed and cannot be read, by question: what was wrong, the limits, and what to type."""
    found = batch.problems.get(entry.id, [])
    return {one.question: one.text for one in found if not is_blank(entry.values.get(one.question))}


def unreadable_start(batch: Batch) -> dict[str, str]:
    """What of the start was typed and cannot be read, by question."""
    starts = batch.of("start")
    return _typed_wrong(batch, starts[-1]) if starts else {}


def over_counted(batch: Batch) -> list[tuple[Entry, str]]:
    """Counts of chits with more chitted than were counted, each in a sentence."""
    found = []
    for entry in batch.of("chits"):
        some, of = batch.value(entry, "chitted"), batch.value(entry, "counted")
        if some is not None and of is not None and some > of:
            said = f"{plain_number(some)} chitted of {plain_number(of)} counted cannot be, and is not used"
            found.append((entry, f"{kind_label(entry)}, {said_time(entry.local)}: {said}."))
    return found


def unread(batch: Batch) -> tuple[str, ...]:
    """What stands near the next step: blank lines by name, and weighings that cannot be read."""
    said = [tare_lacks(batch), *(f"{text} Correct the start." for text in unreadable_start(batch).values())]
    blank = blank_lines(batch)
    for entry, lacks in blank[:_MOST_NAMED]:
        how = "".join(f" {text}" for text in _typed_wrong(batch, entry).values())
        line = f"{kind_label(entry)}, {said_time(entry.local)}{said_of(batch, entry, lacks)}"
        said.append(f"{line}{how} Correct the line.")
    said += [f"{text} Correct the line." for _, text in over_counted(batch)]
    if len(blank) > _MOST_NAMED:
        said.append(f"{len(blank) - _MOST_NAMED} lines before lack something too.")
    return tuple(words for words in said if words)
