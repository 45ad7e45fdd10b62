"""Where the batches at work stand, as the sheet of a house's week takes it, and its plan as lines of the book."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from datetime import datetime
from typing import NamedTuple

from ...asking.answer import Answered, answer
from ...asking.figures import clock_words, plain_number
from ...asking.reading import Raw
from ...sheets import find_sheet
from ..batch.batch import Batch

OF_HOUSE = "house-week"
"""The sheet that takes all batches at work and not one."""

SOURCE = "the day-book, batches at work"


class Line(NamedTuple):
    """A line of a changed plan: its batch, the time to load as it is typed, and all of its steps in words."""

    batch: str
    load_at: str
    remark: str


class Plans(NamedTuple):
    """The lines that can be taken into the book, and the batches that the book does not know."""

    lines: tuple[Line, ...]
    strange: tuple[str, ...]


def week_given(batches: Iterable[Batch], now: datetime) -> dict[str, str]:
    """Give what the book knows of the batches at work, by the question that it answers.

    Parameters
    ----------
    batches : iterable of Batch
        Those at work.
    now : datetime
        The time on the wall.

    Returns
    -------
    dict of str to str
        As a person would type it; nothing where no batch at work says its weight. In which steep a batch is the book
        does not say: that stays blank.
    """
    rows, told = [], []
    for batch in batches:
        kg = batch.number("barley_kg")
        if kg is None:
            continue
        rows.append(f"{batch.id}\t{plain_number(kg)}")
        if batch.cast is not None:
            told.append(f"{batch.id}\tcast\t{batch.cast.local:%Y-%m-%d %H:%M}\t{batch.vessel}")
        elif batch.spells:
            begun = batch.entries[-1].local - (batch.entries[-1].utc - batch.spells[0].begun)
            told.append(f"{batch.id}\tfilled\t{begun:%Y-%m-%d %H:%M}")
    if not rows:
        return {}
    given = {"planned_at": f"{now:%Y-%m-%d %H:%M}", "batches": "\n".join(rows)}
    return given | ({"happened": "\n".join(told)} if told else {})


def plans_of(questions: Mapping[str, Raw], known: Container[str]) -> Plans:
    """Give what the plan of a week says of each batch in the book, as lines of a changed plan.

    Parameters
    ----------
    questions : mapping of str to str or rows
        What stands in the sheet.
    known : container of str
        The numbers of the batches in the book.

    Returns
    -------
    Plans
        A line for each batch that is in the book and not on the kiln; none where the sheet has no plan.
    """
    found = answer(find_sheet(OF_HOUSE), questions)
    if not isinstance(found, Answered):
        return Plans((), ())
    rows = next((table for table in found.tables if table.rows.id == "batches"), None)
    if rows is None:
        return Plans((), ())
    ids = [column.id for column in rows.listing.columns]
    lines, strange = [], []
    for row in rows.rows.rows:
        cells = dict(zip(ids, row, strict=True))
        name = str(cells["batch"])
        if cells["slack"] is None:  # it is on the kiln
            continue
        if name not in known:
            strange.append(name)
            continue
        load = cells["load"]
        assert isinstance(load, datetime)
        steps = [
            f"{what} {clock_words(at)}{f', {cells[where]}' if where and cells.get(where) else ''}"
            for what, column, where in (("fill", "fill", "steep"), ("cast", "cast", "bed"), ("load", "load", "kiln"))
            if isinstance(at := cells[column], datetime)
        ]
        lines.append(Line(name, f"{load:%Y-%m-%d %H:%M}", f"Plan of the week: {'; '.join(steps)}."))
    return Plans(tuple(lines), tuple(strange))
