"""Runs a piece of Python with the limits and the words of a house’s file, as the build does: limits are read once."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from site_src.settings import ROOT

_BEFORE = """
import sys, types
from pathlib import Path
from site_src.house import take_up
place = Path({place!r})
take_up(Path({file!r}), place)
for name in ("house_limits", "house_data"):
    made = types.ModuleType("calculators." + name)
    if (place / (name + ".py")).exists():
        exec((place / (name + ".py")).read_text("utf-8"), made.__dict__)
        sys.modules[made.__name__] = made
for name in [one for one in sys.modules if one.startswith(("calculators.", "site_src")) and not
             one.startswith(("calculators.house_limits", "calculators.house_data"))]:
    del sys.modules[name]
sys.modules.pop("calculators", None)
"""


def in_house(code: str, file: Path, place: Path, **environment: str) -> str:
    """What the code prints.

    Parameters
    ----------
    code : str
        Python; ``place`` is a folder for it.
    file : Path
        The house’s file.
    place : Path
        An empty folder.
    **environment : str
        More of the environment.
    """
    before = _BEFORE.format(place=str(place), file=str(file))
    run = subprocess.run(
        [sys.executable, "-c", before + code], cwd=ROOT, capture_output=True, text=True, check=False,
        env={**os.environ, **environment},
    )  # fmt: skip
    assert run.returncode == 0, run.stderr[-2000:]
    return run.stdout
