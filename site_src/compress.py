"""Compressed siblings of the site's files, made once for each content."""

from __future__ import annotations

import gzip
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import brotli

from site_src.cache import kept, tidy
from site_src.runtime import sha256
from site_src.settings import CACHE

COMPRESSIBLE = {
    ".bin", ".css", ".html", ".js", ".json", ".map", ".mjs", ".svg", ".txt", ".wasm", ".webmanifest", ".whl", ".xml",
    ".zip",
}  # fmt: skip
_SMALLEST = 1024
# Brotli's best takes minutes for a whole site; the quick one is a sixth larger.
_QUICK = 5
_BEST = 11


def compress_site(site: Path, cache: Path = CACHE, *, quick: bool = False) -> None:
    """Put a .br and a .gz beside every file that is worth it.

    The results are kept by content, so that a second build compresses only what changed.

    Parameters
    ----------
    site : Path
        The built site.
    cache : Path
        Where results are kept.
    quick : bool
        Spend little on it, for a site that is not carried far: the one served on this machine.
        A best result that is already there is taken all the same.
    """
    folder = cache / "compressed"
    files = [
        path
        for path in site.rglob("*")
        if path.suffix in COMPRESSIBLE and path.is_file() and path.stat().st_size > _SMALLEST
    ]
    files.sort(key=lambda path: path.stat().st_size, reverse=True)  # the longest job must not start last
    with ThreadPoolExecutor(2) as pool:  # both compressors let go of Python's lock
        list(pool.map(lambda path: compress_file(path, cache, quick=quick), files))
    tidy(folder)


def compress_file(path: Path, cache: Path = CACHE, *, quick: bool = False) -> None:
    """Put a .br and a .gz beside one file."""
    data = path.read_bytes()
    for suffix, squeezed in compressed(data, cache, quick=quick).items():
        if len(squeezed) < len(data):
            path.with_name(path.name + suffix).write_bytes(squeezed)


def compressed(data: bytes, cache: Path = CACHE, *, quick: bool = False) -> dict[str, bytes]:
    """Return what would stand in the .br and the .gz of a file."""
    folder = cache / "compressed"
    stem = sha256(data)
    best = folder / f"{stem}.{_BEST}.br"
    quality = _QUICK if quick and not best.exists() else _BEST
    return {
        ".br": kept(folder / f"{stem}.{quality}.br", lambda: brotli.compress(data, quality=quality)),
        ".gz": kept(folder / f"{stem}.gz", lambda: gzip.compress(data, 6, mtime=0)),
    }
