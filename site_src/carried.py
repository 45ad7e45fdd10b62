"""Scripts of others that are carried in the repository: each has to be the file that is pinned."""

from __future__ import annotations

import tomllib
from pathlib import Path

from site_src.runtime import sha256
from site_src.settings import SOURCE, BuildError

PINS = SOURCE / "carried.toml"


def check_carried(site: Path, pins: Path = PINS) -> None:
    """Check every carried script of a site against its SHA-256.

    Parameters
    ----------
    site : Path
        The site, or the theme that it is copied from.
    pins : Path
        What is pinned.

    Raises
    ------
    BuildError
        If a file is missing, is another one than is pinned, or stands there without a pin.
    """
    for one in tomllib.loads(pins.read_text("utf-8")).values():
        folder = site / one["folder"]
        there = {path.name for path in folder.glob("*")}
        if there != set(one["files"]):
            raise BuildError(f"{one['folder']} holds {sorted(there)}, {PINS.name} pins {sorted(one['files'])}")
        for name, pinned in one["files"].items():
            if (found := sha256((folder / name).read_bytes())) != pinned:
                raise BuildError(
                    f"{one['folder']}/{name} is not the file of {one['package']} {one['version']} that is pinned.\n"
                    f"  SHA-256 pinned in {PINS.name}: {pinned}\n"
                    f"  SHA-256 found:                {found}"
                )
