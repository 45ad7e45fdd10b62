"""What was proven: for each sheet how many inputs were compared, and a digest of what it ran from.

A sheet starts on the small engine while its digest is the proven one. Whatever of it changes, it is answered by the
other engine until the proof is made again (``make prove``).
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from site_src.settings import SOURCE

RECORD = SOURCE / "small" / "proven.toml"
LEAST = 200
"""Answered inputs a sheet at least, and as many hostile ones; of guarded sheets ten times as many."""

GUARDED = 10
MOST_MS = 250.0
"""Of processor, for the worked case where it was proven; a slow phone takes four times as long, and 1 s is the most."""

MOST_HANDED_ON = 0.125
"""Share of inputs that may be handed on to the other engine: a quarter of the hostile ones, many of types that no
page sends. Of answered ones none may; the tests look."""


class Proven(NamedTuple):
    """The proof of one sheet."""

    digest: str
    answered: int
    hostile: int
    differing: int
    handed_on: int  # inputs at which the small engine gave up, and the other was asked
    worked_ms: float

    def holds(self, digest: str, *, guarded: bool) -> bool:
        """Whether a sheet that runs from this digest may start on the small engine."""
        least = LEAST * (GUARDED if guarded else 1)
        return (
            self.digest == digest
            and self.differing == 0
            and min(self.answered, self.hostile) >= least
            and self.handed_on <= MOST_HANDED_ON * (self.answered + self.hostile)
            and self.worked_ms <= MOST_MS
        )


def read_record(path: Path = RECORD) -> dict[str, Proven]:
    """Read the record; empty where there is none."""
    if not path.is_file():
        return {}
    return {name: Proven(**one) for name, one in tomllib.loads(path.read_text("utf-8")).items()}


def write_record(proven: Mapping[str, Proven], path: Path = RECORD) -> None:
    """Write the record."""
    lines = ["# Written by `make prove`. A sheet starts on the small engine while this is its digest.\n"]
    for name, one in sorted(proven.items()):
        lines.append(
            f'\n[{name}]\ndigest = "{one.digest}"\nanswered = {one.answered}\nhostile = {one.hostile}\n'
            f"differing = {one.differing}\nhanded_on = {one.handed_on}\nworked_ms = {one.worked_ms:.1f}\n"
        )
    path.write_text("".join(lines), "utf-8")
