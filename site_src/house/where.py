"""Where a house's file and its own pages lie."""

from __future__ import annotations

import os
from pathlib import Path

from site_src.settings import ROOT, BuildError

NAME = "house.toml"
OWN = "house"
"""The folder of a house's own pages and remarks."""


def home() -> Path:
    """The folder of the house: its file, and beside it ``house/`` with its own pages."""
    return Path(os.environ.get("HOUSE") or ROOT)


def file() -> Path:
    """The house's file, which need not be there.

    Raises
    ------
    BuildError
        When ``HOUSE`` names a folder without one: a house that is gone is no book without a house.
    """
    found = home() / NAME
    if os.environ.get("HOUSE") and not found.is_file():
        raise BuildError(f"HOUSE names {home()}, and no {NAME} is there. Write one: make house")
    return found


def own() -> Path:
    """The folder of the house's own pages and remarks, which need not be there."""
    return home() / OWN
