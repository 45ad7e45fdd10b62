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
as it comes. What is written down are the modules ``calculators/house_limits.py``, which ``calculators.rules.house``
takes up, and ``calculators/house_data.py`` for ``calculators.house.here``; neither is kept in the repository.
"""

from __future__ import annotations

from pathlib import Path

from site_src.house.check import NOTHING, Edges, Held, read_all
from site_src.house.where import NAME, file, home
from site_src.settings import ROOT

WRITTEN = ROOT / "calculators" / "house_limits.py"


def take_up(held_in: Path | None = None, written: Path = WRITTEN) -> bool:
    """Write down for the calculators what a house has of its own, or take away what a file left that is gone.

    It runs as a process of its own, ``python -m site_src.house``, before any limit is read for the build. Nothing is
    written when nothing has changed.

    Parameters
    ----------
    held_in : Path, optional
        The house's file, which need not be there.
    written : Path
        The module with its limits; the one with everything else stands beside it.

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
    _keep(written, made + limits if held.edges or held.malts else "")
    _keep(written.with_name("house_data.py"), f"{made}HOUSE = {held.house!r}\n" if held.house else "")
    return bool(held.edges or held.malts or held.house)


def _keep(module: Path, text: str) -> None:
    if not text:
        module.unlink(missing_ok=True)
    elif not module.exists() or module.read_text("utf-8") != text:
        module.write_text(text, "utf-8")


def read(held_in: Path) -> Edges:
    """The edges that a house's file moves, by id of the limit: the first part of :func:`read_all`."""
    return read_all(held_in).edges


__all__ = ["NAME", "NOTHING", "Edges", "Held", "file", "home", "read", "read_all", "take_up"]
