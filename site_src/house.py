"""A house's own file, ``house.toml``: read, checked, and written down for the calculators.

Its table ``limits`` moves edges of the book's limits::

    [limits.immersion-hours]
    stop_high = 10
    reason = "thin husks, drinks fast"
    office = "head of malting"

Its table ``malts`` sets this house's own targets for a malt, each from a low to a high figure::

    [malts.dark]
    cast = [45, 46.5]
    days = [8, 9]
    reason = "our drum, our barley"
    office = "head of malting"

The file stands beside ``mkdocs.yml``. Without it the book is as it comes. What is written down is the module
``calculators/house_limits.py``, which ``calculators.rules.house`` takes up; it is not kept in the repository.
"""

from __future__ import annotations

import difflib
import re
import sys
import tomllib
from pathlib import Path

from calculators.rules.limit import BOOK, Limit
from calculators.rules.limits import every
from site_src.house_malts import Malts, malts_of
from site_src.settings import ROOT, BuildError

FILE = ROOT / "house.toml"
WRITTEN = ROOT / "calculators" / "house_limits.py"
EDGES = ("stop_low", "accept_low", "accept_high", "stop_high")
_OTHER = ("reason", "office")
_LONGEST = 200

Edges = dict[str, dict[str, float]]


def take_up(file: Path = FILE, written: Path = WRITTEN) -> bool:
    """Write the house's edges down for the calculators, or take away those of a file that is gone.

    It runs as a process of its own, ``python -m site_src.house``, before any limit is read for the build. Nothing is
    written when nothing has changed.

    Parameters
    ----------
    file : Path
        The house's file, which need not be there.
    written : Path
        The module that is made of it.

    Returns
    -------
    bool
        Whether the house has anything of its own.

    Raises
    ------
    BuildError
        When the file cannot be read or asks for what a house may not change; the text names the line.
    """
    edges, malts = read_all(file) if file.exists() else ({}, {})
    if not edges and not malts:
        written.unlink(missing_ok=True)
        return False
    made = f'"""Made of {file.name} by the build; not to be changed by hand."""'
    text = f"{made}\n\nEDGES = {edges!r}\nMALTS = {malts!r}\n"
    if not written.exists() or written.read_text("utf-8") != text:
        written.write_text(text, "utf-8")
    return True


def read(file: Path) -> Edges:
    """The edges that a house's file moves, by id of the limit: the first part of :func:`read_all`."""
    return read_all(file)[0]


def read_all(file: Path) -> tuple[Edges, Malts]:
    """The edges that a house's file moves, by id of the limit, and its targets by id of the malt.

    Parameters
    ----------
    file : Path
        The file, in TOML.

    Raises
    ------
    BuildError
        As for ``take_up``.
    """
    try:
        text = file.read_text("utf-8")
        held = tomllib.loads(text)
    except UnicodeDecodeError:
        raise BuildError(f"{file.name} is not written in UTF-8. Save it as UTF-8 text.") from None
    except tomllib.TOMLDecodeError as fault:
        raise BuildError(f"{file.name}: {fault}. It is written in TOML: a word, =, a number or “text”.") from None
    reader = _Reader(file.name, text)
    for key in held:
        if key not in ("limits", "malts"):
            raise reader.fault(key, f"“{key}” is not known. Known are: limits, malts.")
    tables = held.get("limits", {})
    if not isinstance(tables, dict):
        raise reader.fault("limits", "limits is a table: write [limits.immersion-hours] above its edges.")
    edges = {name: reader.edges(name, table) for name, table in tables.items()}
    return edges, malts_of(held.get("malts", {}), edges, reader.fault)


class _Reader:
    def __init__(self, name: str, text: str) -> None:
        self.name, self.lines = name, text.splitlines()

    def fault(self, word: str, text: str, within: str = "") -> BuildError:
        """A fault with the line on which a word stands, after the heading it belongs to."""
        start = self._line(rf"\[limits\.[\"']?{re.escape(within)}[\"']?\]") if within else 0
        number = self._line(rf"(^|[\[.\s\"']){re.escape(word)}([\]\s=.\"']|$)", start) or start
        where = f"{self.name}, line {number}" if number else self.name
        return BuildError(f"{where}: {text}")

    def _line(self, pattern: str, after: int = 0) -> int:
        for number, line in enumerate(self.lines[max(after - 1, 0) :], max(after, 1)):
            if re.search(pattern, line):
                return number
        return 0

    def edges(self, name: str, table: object) -> dict[str, float]:
        """The checked edges of one limit."""
        limits = {row.id: BOOK.get(row.id, row) for row in every()}
        row = limits.get(name)
        if row is None:
            near = difflib.get_close_matches(name, limits, 3)
            hint = f"Did you mean: {', '.join(near)}?" if near else f"There are: {', '.join(limits)}."
            raise self.fault(name, f"there is no limit “{name}”. {hint}")
        if not isinstance(row, Limit):
            raise self.fault(name, f"{row.quantity} has no edges in numbers that a house could move.")
        if not isinstance(table, dict):
            raise self.fault(name, f"write [limits.{name}] above the edges.")
        for key, value in table.items():
            self._key(name, key, value)
        for key in _OTHER:
            if not table.get(key):
                raise self.fault(name, f"{row.quantity}: write {key} = “…” too.", name)
        moved = {key: float(table[key]) for key in EDGES if key in table}
        if not moved:
            raise self.fault(name, f"{row.quantity}: no edge is given. Its edges: {', '.join(_has(row))}.", name)
        for key, value in moved.items():
            self._moved(row, key, value)
        new = row._replace(**moved)  # type: ignore[arg-type]
        order = [edge for edge in (getattr(new, key) for key in EDGES) if edge is not None]
        if order != sorted(order):
            said = ", ".join(f"{key} {getattr(new, key):g}" for key in EDGES if getattr(new, key) is not None)
            text = f"{row.quantity}: the edges cross: {said}. Each no lower than the last."
            raise self.fault(next(iter(moved)), text, name)
        return moved

    def _key(self, name: str, key: str, value: object) -> None:
        if key in EDGES:
            if isinstance(value, bool) or not isinstance(value, (int, float)) or value != value or abs(value) > 1e9:
                raise self.fault(key, f"{key} is a number, such as {key} = 10, not {value!r}.", name)
        elif key in _OTHER:
            if not isinstance(value, str) or len(value) > _LONGEST or not value.isprintable():
                raise self.fault(key, f"{key} is one line of text of at most {_LONGEST} letters.", name)
        else:
            raise self.fault(key, f"“{key}” is not known. Known are: {', '.join((*EDGES, *_OTHER))}.", name)

    def _moved(self, row: Limit, key: str, value: float) -> None:
        old = getattr(row, key)
        if old is None:
            raise self.fault(key, f"{row.quantity} has no {key}. Its edges: {', '.join(_has(row))}.", row.id)
        if row.safety:
            if (value < old) if key.endswith("low") else (value > old):
                raise self.fault(
                    key, f"{row.quantity} keeps people from harm: {key} {old:g} can only be made tighter.", row.id
                )
        elif row.lowest is None or row.highest is None or not row.lowest <= value <= row.highest:
            span = f"from {row.lowest:g} to {row.highest:g} {row.unit}" if row.lowest is not None else "nowhere"
            raise self.fault(key, f"{row.quantity}: {key} can be moved {span}, not to {value:g}.", row.id)


def _has(row: Limit) -> list[str]:
    return [f"{key} {getattr(row, key):g}" for key in EDGES if getattr(row, key) is not None]


def main() -> int:
    """Take the house's file up; return the exit code."""
    try:
        if take_up():
            print(f"Taken up: {FILE.name}")
    except BuildError as fault:
        print(f"The build stopped. {fault}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
