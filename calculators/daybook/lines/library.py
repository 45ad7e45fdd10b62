"""A book read from files, for notebooks and the command line."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from ..batch.batch import Batch, by_batch
from ..pages.house_page import Fits
from .entry import Entry
from .exchange import Refused, decoded, take

if TYPE_CHECKING:
    from .arrays import Arrays

_ALL = 1_000_000


class Book:
    """The entries of a day-book, and what follows from them.

    Parameters
    ----------
    entries : list of Entry
        In the order of writing.
    refused : list of Refused
        Rows of the files that could not be taken.

    Attributes
    ----------
    entries, refused
        As given.
    """

    def __init__(self, entries: list[Entry], refused: list[Refused]) -> None:
        self.entries = [entry._replace(seq=number) for number, entry in enumerate(entries, 1)]
        self.refused = refused

    @cached_property
    def batches(self) -> list[Batch]:
        """The batches, in the order in which they were first written."""
        return [Batch(name, entries) for name, entries in by_batch(self.entries).items()]

    @cached_property
    def fits(self) -> Fits:
        """The fits of all batches, their averages by lot, days to ready and the heat of the floor."""
        return Fits(self.batches, _ALL)

    def arrays(self) -> Arrays:
        """The book as numpy arrays, which imports numpy; ``calculators.daybook.lines.arrays`` says what they hold."""
        from .arrays import arrays_of

        return arrays_of(self.batches)


def read(paths: Iterable[str | Path]) -> Book:
    """Read files into one book; see ``calculators.daybook.load``."""
    entries: list[Entry] = []
    refused: list[Refused] = []
    for path in paths:
        found = take(decoded(Path(path).read_bytes()), entries)
        entries += found.new
        refused += found.refused + found.differing
    return Book(entries, refused)
