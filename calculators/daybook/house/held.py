"""How often the batch forecast's bands held: each finished batch foretold again, against what was read of it later.

A batch is foretold twice: before anything was read of it, and with what was read up to the cast. Its plan is as it
went, its bed as warm as it was read. A band here is of the reading, scatter and all: a true band holds 95 of 100.

This module imports numpy when it is asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from ...models.bounds import OutOfRange
from ...models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Reading
from ..batch.batch import Batch
from ..batch.living import LivingBatch, living_batch
from .house import kept_course

if TYPE_CHECKING:
    from ...models.living.ensemble import Ensemble

MOST_FORETOLD = 8
"""So many batches are foretold for the page, the last finished ones: each takes a second or two in a browser."""

NOTHING_READ, AT_THE_CAST = "nothing read", "at the cast"
FIGURES = {
    "steep": "Moisture in the steep",
    "bed": "Moisture in the bed",
    "chits": "Chitted",
    "apart": "Bottom less top",
    "long": "Acrospires at three quarters and beyond",
}
SHARES = ("chits", "long")
"""The figures that are shares of corns."""


class Held(NamedTuple):
    """How often bands of one figure held, foretold at one moment: in so many of so many readings."""

    figure: str
    when: str
    inside: int
    of: int


class Outside(NamedTuple):
    """A reading that lay outside its band, foretold at one moment."""

    batch: Batch
    when: str
    figure: str
    hour: float
    read: float
    low: float
    high: float


class HouseHeld(NamedTuple):
    """All that was compared: by figure and moment, what lay outside, how many batches, and how many would not go."""

    held: list[Held]
    outside: list[Outside]
    batches: int
    left_out: int


def _figure_of(one: Reading, cast_h: float) -> tuple[str, int, float] | None:
    """Of a reading: the figure it is of, its place in what members would show, and what was read; None of a probe.

    A temperature says nothing here: the plan of the bed was made from it.
    """
    if isinstance(one, Basket | Oven):
        return ("steep" if one.hour <= cast_h + 1e-6 else "bed"), 0, one.moisture
    if isinstance(one, Chits):
        return "chits", 0, one.chitted / one.corns
    if isinstance(one, BottomTop):
        return "apart", 1, one.bottom_c - one.top_c
    if isinstance(one, AcrospireCount):
        return "long", -1, sum(one.counts[-2:]) / sum(one.counts)
    return None


def _compared(
    batch: Batch, when: str, one: Ensemble, later: Iterable[Reading], cast_h: float
) -> list[tuple[str, Outside | None]]:
    """Each later reading against its band: its figure, and what lay outside or None."""
    import numpy as np

    from ...models.living.draws import spread_of
    from ...models.living.outlook import would_show

    random = np.random.default_rng(5)
    found: list[tuple[str, Outside | None]] = []
    for reading in later:
        of = _figure_of(reading, cast_h)
        if of is None:
            continue
        figure, place, read = of
        shown = would_show(one, reading, random)
        row = shown[-2:].sum(axis=0) if figure == "long" else shown[place]
        low, _, high = (float(end[0]) for end in spread_of(row[np.newaxis, :]))
        slack = 0.005 if figure in SHARES else 0.0  # half a corn of a hundred
        if low - slack <= read <= high + slack:
            found.append((figure, None))
        else:
            found.append((figure, Outside(batch, when, figure, reading.hour, read, low, high)))
    return found


def held_of(batches: Sequence[Batch], most: int = MOST_FORETOLD) -> HouseHeld:
    """Foretell the last finished batches again, and count how often the bands held.

    Parameters
    ----------
    batches : sequence of Batch
        Batches of the book.
    most : int, optional
        So many are foretold, the last ones.

    Returns
    -------
    HouseHeld
        Counts by figure and moment, and the readings that lay outside.
    """
    finished = [batch for batch in batches if batch.begun and batch.cast and batch.left]
    finished.sort(key=lambda batch: batch.begun or batch.entries[0].utc)
    counts: dict[tuple[str, str], list[int]] = {
        (f, when): [0, 0] for when in (NOTHING_READ, AT_THE_CAST) for f in FIGURES
    }
    outside: list[Outside] = []
    compared = left_out = 0
    for batch in finished[-most:]:
        living = living_batch(batch, kept_course(batch), batch.left.utc) if batch.left else None
        try:
            found = _batch(batch, living) if living else []
        except OutOfRange:
            found = []
        compared, left_out = compared + bool(found), left_out + (not found)
        for when, figure, off in found:
            counts[figure, when][0] += off is None
            counts[figure, when][1] += 1
            outside += [off] if off else []
    held = [Held(figure, when, *count) for (figure, when), count in counts.items() if count[1]]
    return HouseHeld(held, outside, compared, left_out)


def _batch(batch: Batch, living: LivingBatch) -> list[tuple[str, str, Outside | None]]:
    from ...models.living.ensemble import ensemble

    before = ensemble(plan=living.plan, lot=living.lot)
    steep = [one for one in living.readings if one.hour <= living.cast_h + 1e-6]
    bed = [one for one in living.readings if one.hour > living.cast_h + 1e-6]
    found = [(NOTHING_READ, *one) for one in _compared(batch, NOTHING_READ, before, living.readings, living.cast_h)]
    if steep and bed:
        after = before.corrected(steep)
        found += [(AT_THE_CAST, *one) for one in _compared(batch, AT_THE_CAST, after, bed, living.cast_h)]
    return found
