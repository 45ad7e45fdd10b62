"""The small engine's own files: fetched once by npm, and checked each time."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from site_src.npm import package_files
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
    return package_files(pins.package, pins.version, pins.published, cache / "small" / pins.version, say)


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
