"""Changes that no test can see, each with its reason: `equivalent.toml`."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import NamedTuple

from .changes import Mutant, mutants

FILE = Path(__file__).with_name("equivalent.toml")


class Explained(NamedTuple):
    """One explanation: the file, the function in it, what stands there and what is put in its place, and why not.

    ``within`` is the line, where the words alone could be several.
    """

    file: str
    function: str
    old: str
    new: str
    reason: str
    within: str = ""

    def fits(self, mutant: Mutant) -> bool:
        """Tell whether a change is the one explained; each change of these words when `new` is empty."""
        here = (self.file, self.function, self.old) == (mutant.path, mutant.function, mutant.old)
        return here and self.new in ("", mutant.new) and self.within in ("", mutant.within)


def explained() -> list[Explained]:
    """Return every explanation there is."""
    every = tomllib.loads(FILE.read_text("utf-8")).get("change", [])
    return [Explained(**{"function": "", "new": "", **one}) for one in every]


def of_nothing(root: Path) -> list[Explained]:
    """Return the explanations whose words stand nowhere any more."""
    every = explained()
    there = {file: mutants(root / file, root) if (root / file).exists() else [] for file in {e.file for e in every}}
    return [one for one in every if not any(one.fits(mutant) for mutant in there[one.file])]
