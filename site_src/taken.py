"""What a house has of its own, taken up for one command: written to a folder of the moment, and gone with it."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import calculators
from site_src.settings import ROOT, BuildError

LIMITS, DATA = "house_limits.py", "house_data.py"
MODULES = (LIMITS, DATA)
"""Modules of ``calculators`` that are made of a house's file."""
_PLACE = "HOUSE_TAKEN_UP"
_PACKAGE = ROOT / "calculators"


class NotTakenUp(BuildError):
    """A house's file was refused, and what is wrong has been said."""


def modules() -> dict[str, bytes]:
    """What was taken up for this command, by the name of its file; nothing where no house has anything of its own."""
    place = os.environ.get(_PLACE)
    return {name: at.read_bytes() for name in MODULES if place and (at := Path(place) / name).is_file()}


def bring() -> None:
    """Put what was taken up among the calculators' modules of this process."""
    calculators.__path__.append(os.environ[_PLACE])


@contextmanager
def taken_up() -> Iterator[None]:
    """Have the house's limits and words among the calculators' modules; a process started meanwhile calls ``bring``.

    It comes before any limit is imported. The file is read by a process of its own, since that imports them.

    Raises
    ------
    NotTakenUp
        When the file was refused; what is wrong has been said by then.
    """
    for name in MODULES:  # an earlier edition left them in the package, where they would be found first
        (_PACKAGE / name).unlink(missing_ok=True)
    before = os.environ.get(_PLACE)
    with TemporaryDirectory(prefix="house-") as place:
        if subprocess.run([sys.executable, "-m", "site_src.house", place], check=False, cwd=ROOT).returncode:
            raise NotTakenUp
        os.environ[_PLACE] = place
        bring()
        try:
            yield
        finally:
            calculators.__path__.remove(place)
            os.environ.pop(_PLACE)
            if before:
                os.environ[_PLACE] = before
