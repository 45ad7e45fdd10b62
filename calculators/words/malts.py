"""How a sheet takes its target from the row of a malt, and how it says so."""

from __future__ import annotations

from typing import NamedTuple

from ..asking.declare import Note
from ..asking.figures import plain_number
from ..rules.malts import Malt, Range, malt_of

_TABLE = "[[page:learning/by-the-malt|the table]]"


def taken(malt: str, quantity: str, unit: str, what: str) -> tuple[float, Note]:
    """The target that a malt's row gives, and the sentence that shows it.

    Parameters
    ----------
    malt : str
        Id of the row.
    quantity : str
        A field of the row, such as ``cast``.
    unit : str
        As it is written behind the figures.
    what : str
        What the target is called on the sheet.
    """
    row = malt_of(malt)
    span: Range = getattr(row, quantity)
    text = (
        f"{what} {plain_number(round(span.middle, 2))} {unit}, from {_TABLE}: {row.name}, {_said(span, unit)}. "
        "To have another, type it and leave the malt blank."
    )
    return span.middle, Note("remark", text)


def _said(span: Range, unit: str) -> str:
    return f"{plain_number(span.low)} to {plain_number(span.high)} {unit} ({span.standing})"


def beside(malt: str | None, quantity: str, unit: str, what: str, own: float) -> list[Note]:
    """How the reader's own figure stands to the range of the malt that was chosen; nothing where none was."""
    if malt is None:
        return []
    row = malt_of(malt)
    span: Range = getattr(row, quantity)
    side = "within" if span.low <= own <= span.high else "under" if own < span.low else "over"
    text = f"{what} {plain_number(own)} {unit} is your own. It lies {side} the range of {_TABLE} for {row.name}, "
    return [Note("remark", f"{text}{_said(span, unit)}.")]


class OwnDays(NamedTuple):
    """Days from the cast to ready at a temperature, how far they may be off [-], and what is said of them."""

    temp_c: float
    days: float
    doubt: float
    notes: tuple[Note, ...]


def days_of(malt: str, doubt: float) -> OwnDays:
    """The days that a malt's row gives, at the middle of its floor, doubted no less than usual days are."""
    row: Malt = malt_of(malt)
    days, floor = row.days, row.floor
    note = Note(
        "remark",
        f"Reckoned with {plain_number(days.middle)} days at {plain_number(floor.middle)} °C, from {_TABLE}: {row.name}"
        f", {_said(days, 'days')} on a floor of {_said(floor, '°C')}. Your own batches say more.",
    )
    return OwnDays(floor.middle, days.middle, max(doubt, (days.high - days.low) / 2.0 / days.middle), (note,))
