"""The package `calculators` as the browser loads it: one archive of bytecode."""

from __future__ import annotations

import hashlib
from pathlib import Path

from site_src.bytecode import compiled
from site_src.cache import kept, tidy
from site_src.hashing import hashed_name
from site_src.runtime import Pins
from site_src.settings import CACHE, ROOT
from site_src.taken import modules
from site_src.zips import stored_zip

PACKAGE = ROOT / "calculators"
# What a page has no use for, and so need not be carried to it.
_NOT_IN_A_PAGE = {
    "__main__.py",
    "cli.py",
    "daybook/lines/arrays.py",
    "daybook/cli.py",
    "daybook/lines/library.py",
    "practice/frames.py",
    "house/declare.py",
    "house/offers.py",
    "house/safety.py",
    "house/schema.py",
    "house/shown_on.py",
}


def app_archive(pins: Pins, runtime: Path, cache: Path = CACHE, package: Path = PACKAGE) -> tuple[str, bytes]:
    """Return the archive's hashed name and its bytes.

    It is compiled again only when a source, or the Python that it is for, has changed.

    Parameters
    ----------
    pins : Pins
        Which runtime it is for.
    runtime : Path
        Folder with that runtime's files.
    cache : Path
        Where the archive is kept between builds.
    package : Path
        The package's folder.
    """
    sources = {
        f"{package.name}/{path.relative_to(package).as_posix()}": path.read_bytes()
        for path in sorted(package.rglob("*.py"))
        if path.relative_to(package).as_posix() not in _NOT_IN_A_PAGE
    }
    sources |= {f"{package.name}/{name}": data for name, data in modules().items()}
    key = hashlib.sha256(pins.key.encode())
    for name, data in sources.items():
        key.update(f"{name} {len(data)}\n".encode() + data)
    data = kept(
        cache / "app" / f"{key.hexdigest()}.zip",
        lambda: stored_zip(compiled(sources, runtime, optimize=2)),
    )
    tidy(cache / "app")
    return hashed_name("calculators.zip", data), data
