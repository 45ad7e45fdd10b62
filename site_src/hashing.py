"""Gives the browser's files names that change with their contents, so that they can be kept for good."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from site_src.runtime import sha256
from site_src.settings import BuildError

_IMPORT = re.compile(r"""\bimport\b[^"'();]*["']\./([\w.-]+)["']""")
_NAME = re.compile(r"""(?<=["'(])\./([\w.-]+)(?=["')])""")


def short_hash(data: bytes) -> str:
    """Return enough of the SHA-256 to tell versions of one file apart."""
    return sha256(data)[:12]


def hashed_name(name: str, data: bytes) -> str:
    """Return ``name.<hash>.ext``."""
    path = Path(name)
    return f"{path.stem}.{short_hash(data)}{path.suffix}"


def hash_names(folder: Path, filled: Mapping[str, Mapping[str, str]]) -> dict[str, str]:
    """Rename every file of a folder after its contents, and rewrite how they refer to each other.

    Parameters
    ----------
    folder : Path
        Files that refer to each other as ``"./name"``.
    filled : Mapping[str, Mapping[str, str]]
        By file name, texts to put in the place of others, each of which must stand there once.

    Returns
    -------
    dict[str, str]
        New names by old.

    Raises
    ------
    BuildError
        If files refer to each other in a ring, to a file that is not there, or lack a text to be filled in.
    """
    texts = {path.name: path.read_text("utf-8") for path in folder.iterdir() if path.is_file()}
    for name, places in filled.items():
        for old, new in places.items():
            if texts.get(name, "").count(old) != 1:
                raise BuildError(f"{folder.name}/{name} must hold {old} once")
            texts[name] = texts[name].replace(old, new)
    names: dict[str, str] = {}
    while texts:
        ready = [name for name, text in texts.items() if not (_names_in(text) & texts.keys())]
        if not ready:
            raise BuildError(f"these files refer to each other in a ring: {sorted(texts)}")
        for name in sorted(ready):
            text = texts.pop(name)
            for other in _names_in(text):
                if other not in names:
                    raise BuildError(f"{folder.name}/{name} refers to ./{other}, which is not there")
            data = _NAME.sub(lambda found: f"./{names[found[1]]}", text).encode()
            names[name] = hashed_name(name, data)
            (folder / name).unlink()
            (folder / names[name]).write_bytes(data)
    return names


def imported(folder: Path, name: str) -> list[str]:
    """Return the names of the modules that a module imports, and those that they import."""
    found: dict[str, None] = {}
    waiting = [name]
    while waiting:
        for other in _IMPORT.findall((folder / waiting.pop()).read_text("utf-8")):
            if other not in found:
                found[other] = None
                waiting.append(other)
    return sorted(found)


def _names_in(text: str) -> set[str]:
    return set(_NAME.findall(text))
