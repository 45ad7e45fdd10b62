"""What a record sheet is made of: blanks and grids to write in, some of which a sheet's case may fill."""

from __future__ import annotations

from typing import NamedTuple


class Blank(NamedTuple):
    """A place to write one thing.

    ``takes`` names a question or an answer of the paper's sheets; its label and unit are then those declared
    there, unless ``label`` stands. Without it the label is the paper's own, with the unit in it.
    """

    label: str = ""
    takes: str = ""


class Column(NamedTuple):
    """One column of a grid; ``takes`` names columns of the tables that the grid takes."""

    label: str
    takes: tuple[str, ...] = ()


class Lines(NamedTuple):
    """Blanks under a heading."""

    title: str
    blanks: tuple[Blank, ...]


class Grid(NamedTuple):
    """A table to write in.

    ``rows`` is the names of its rows, or how many there are without names; none means those of the first table
    taken, whose rows have names. ``takes`` names tables of the paper's sheets, asked or given; a row of theirs fills
    a row here. Where there are more than fit, the paper says so.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[str, ...] | int = 0
    takes: tuple[str, ...] = ()


class Paper(NamedTuple):
    """A record sheet, made to be printed on one page.

    ``sheets`` are those whose case may fill it; none of them is about gas, vessels or lifting. ``vessels`` are what a
    house may have named that it is written at.
    """

    id: str
    title: str
    sheets: tuple[str, ...]
    parts: tuple[Lines | Grid, ...]
    foot: str = ""
    vessels: tuple[str, ...] = ()
