"""Files that are costly to make, kept between builds. Several builds may use them at once.

Each begins with the SHA-256 of the rest. What is not as it was made is made again.
"""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Callable
from pathlib import Path

_DAYS = 14
_DAY = 86400
_DIGEST_BYTES = 32


def kept(path: Path, make: Callable[[], bytes]) -> bytes:
    """Return what is kept in a file, made now if it is not there or is damaged, and note that it was used."""
    try:
        held = path.read_bytes()
        os.utime(path)
    except FileNotFoundError:
        held = b""
    data = held[_DIGEST_BYTES:]
    if held[:_DIGEST_BYTES] != hashlib.sha256(data).digest():
        data = make()
        write_whole(path, hashlib.sha256(data).digest() + data)
    return data


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that a build that is stopped leaves no half of it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f"{path.name}.{os.getpid()}.part")
    part.write_bytes(data)
    part.replace(path)


def tidy(folder: Path) -> None:
    """Delete what no build has used for two weeks; looked for once a day, since there may be many thousand files."""
    now = time.time()
    looked = folder.with_name(f"{folder.name}.looked-through")
    if looked.is_file() and now - looked.stat().st_mtime < _DAY:
        return
    for path in folder.iterdir():
        if path.stat().st_mtime < now - _DAYS * _DAY:
            path.unlink(missing_ok=True)
    looked.touch()
