"""The batch record: entries of a day-book, read, checked, merged, fitted and looked back on.

As a library::

    from calculators.daybook import load

    book = load("day-book-2026-11-25.json")  # or the CSV file
    book.batches[-1].readings
    book.arrays()["steep"]["moisture"]  # numpy arrays

Importing this package imports nothing else: a page that has no day-book pays nothing for it.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .lines.library import Book


def load(*paths: str | Path) -> Book:
    """Read one or more exports, JSON or CSV, into one book.

    Parameters
    ----------
    *paths : str or Path
        The files. An entry that stands in several of them is taken once.

    Returns
    -------
    Book

    Raises
    ------
    OSError
        When a file cannot be opened.
    calculators.daybook.lines.exchange.Unreadable
        When one is no export of a day-book, or is of a newer version; a ValueError.
    """
    from .lines.library import read

    return read(paths)
