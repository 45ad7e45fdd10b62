"""A house's own file, ``house.toml``: read, checked, and written down for the calculators.

All that it may hold is declared in ``calculators.house.schema``. Two tables are older than that: ``limits`` moves edges
of the book's limits, and ``malts`` sets this house's own targets for a malt::

    [limits.immersion-hours]
    stop_high = 10
    reason = "thin husks, drinks fast"
    office = "head of malting"

    [malts.dark]
    cast = [45, 46.5]
    reason = "our drum, our barley"
    office = "head of malting"

The file stands beside ``mkdocs.yml``, or in the folder that the environment's ``HOUSE`` names. Without it the book is
as it comes. What is written down are two modules of ``calculators``: ``house_limits``, which
``calculators.rules.house`` takes up, and ``house_data`` for ``calculators.house.here``. They stand in a folder of the
moment (``site_src.taken``).
"""

from __future__ import annotations

from pathlib import Path

from calculators.house.offers import offered_of
from site_src.house.check import NOTHING, Edges, Held, read_all
from site_src.house.where import NAME, file, home
from site_src.taken import DATA, LIMITS


def take_up(held_in: Path | None, place: Path) -> bool:
    """Write down for the calculators what a house has of its own.

    It runs as a process of its own, ``python -m site_src.house``, before any limit is read for the build.

    Parameters
    ----------
    held_in : Path or None
        The file, which need not be there; the one of this house if None.
    place : Path
        The folder for the modules.

    Returns
    -------
    bool
        Whether the house has anything of its own.

    Raises
    ------
    BuildError
        When the file cannot be read or asks for what a house may not change; the text names each line.
    """
    where = held_in or file()
    held = read_all(where) if where.exists() else NOTHING
    made = f'"""Made of {where.name} by the build; not to be changed by hand."""\n\n'
    limits = f"EDGES = {held.edges!r}\nMALTS = {held.malts!r}\nREASONS = {held.reasons!r}\n"
    data = f"HOUSE = {held.house!r}\nOFFERED = {offered_of(held.house)!r}\n"
    if held.edges or held.malts:
        (place / LIMITS).write_text(made + limits, "utf-8")
    if held.house:
        (place / DATA).write_text(made + data, "utf-8")
    return bool(held.edges or held.malts or held.house)


def read(held_in: Path) -> Edges:
    """The edges that a house's file moves, by id of the limit: the first part of :func:`read_all`."""
    return read_all(held_in).edges


__all__ = ["NAME", "NOTHING", "Edges", "Held", "file", "home", "read", "read_all", "take_up"]
