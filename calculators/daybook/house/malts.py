"""What came of the batches: figures of their malt set against lot, steep, floor and readiness, with their doubt.

No line is drawn. Batches are split in two by one thing at a time. The difference of their means is told with an
interval that is wider the more comparisons are made, so that looking at many things does not find one by chance.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Literal, NamedTuple

from ...asking.figures import fixed
from ...models.counts.two_groups import Difference, difference
from .summary import AT_READY, AT_WATER, FIGURES, Figure, Summary

FEWEST_EACH = 4
"""Batches on either side below which nothing is compared: our convention. Two and two would ask for a miracle."""
CHANCE = 0.05

Word = Literal["too-few", "open", "apart"]

MALT_FIGURES = tuple(figure for figure in FIGURES if figure.malt)
BY = {
    "cast_moisture": "Moisture at the cast",
    "wet_h_at_14": f"Hours under water, {AT_WATER}",
    "days_at_15": f"Days to ready, {AT_READY}",
    "ready_share": "Corns ready at the last count",
    "loss": "Lost to the kiln door",
}
"""What batches are split by at its middle, beside lot and vessel, and how it is called."""


class Compared(NamedTuple):
    """One figure of the malt on two sides of one thing.

    ``by`` is the thing, ``sides`` what the two groups are, ``counts`` how many batches each has, ``means`` their means;
    ``found`` is None where there are too few.
    """

    figure: Figure
    by: str
    sides: tuple[str, str]
    counts: tuple[int, int]
    means: tuple[float | None, float | None]
    found: Difference | None
    word: Word


def analysed(rows: Sequence[Summary]) -> list[Summary]:
    """The batches of which an analysis is written."""
    return [row for row in rows if any(getattr(row, figure.id) is not None for figure in MALT_FIGURES)]


def compared(rows: Sequence[Summary]) -> list[Compared]:
    """Every figure of the malt against lot, vessel, steep, growth and readiness.

    Parameters
    ----------
    rows : sequence of Summary
        The batches, in the order in which they were begun.

    Returns
    -------
    list of Compared
        Those of which both sides have a batch; each interval at a chance of 0.05 over all comparisons made.
    """
    groups = []
    for figure in MALT_FIGURES:
        having = [row for row in rows if getattr(row, figure.id) is not None]
        for by, sides, parts in _splits(having):
            values = [[float(getattr(row, figure.id)) for row in part] for part in parts]
            if all(values):
                groups.append((figure, by, sides, values))
    made = sum(min(map(len, values)) >= FEWEST_EACH for *_, values in groups)
    return [_one(figure, by, sides, values, max(made, 1)) for figure, by, sides, values in groups]


def _one(figure: Figure, by: str, sides: tuple[str, str], values: list[list[float]], made: int) -> Compared:
    one, other = values
    counts = len(one), len(other)
    means = sum(one) / len(one), sum(other) / len(other)
    if min(counts) < FEWEST_EACH:
        return Compared(figure, by, sides, counts, means, None, "too-few")
    found = difference(one=one, other=other, chance=max(CHANCE / made, 2e-4), least_sd=10.0**-figure.decimals / 4.0)
    return Compared(figure, by, sides, counts, means, found, "apart" if found.told_apart else "open")


def _splits(rows: Sequence[Summary]) -> list[tuple[str, tuple[str, str], tuple[list[Summary], list[Summary]]]]:
    found = []
    lots = [name for name, _ in Counter(_lot(row) for row in rows if _lot(row)).most_common(2)]
    if len(lots) == 2:
        parts = [row for row in rows if _lot(row) == lots[0]], [row for row in rows if _lot(row) == lots[1]]
        found.append(("Lot", (lots[0], lots[1]), parts))
    floor = [row for row in rows if row.batch.vessel == "floor"], [row for row in rows if row.batch.vessel != "floor"]
    if all(floor):
        found.append(("Grown", ("on the floor", "in drum or box"), floor))
    for figure in FIGURES:
        if figure.id not in BY:
            continue
        known = sorted((value, at) for at, row in enumerate(rows) if (value := getattr(row, figure.id)) is not None)
        half = len(known) // 2
        if half and known[half - 1][0] < known[-half][0]:
            low, high = known[:half], known[-half:]  # with an odd number the middle one is left out
            edges = fixed(high[0][0], figure.decimals), fixed(low[-1][0], figure.decimals)
            parts = [rows[at] for _, at in high], [rows[at] for _, at in low]
            found.append((BY[figure.id], (f"from {edges[0]} up", f"up to {edges[1]}"), parts))
    return found


def _lot(row: Summary) -> str:
    return " ".join(part for part in (row.batch.text("lot"), row.batch.text("season")) if part)
