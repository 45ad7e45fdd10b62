"""Compressed siblings of the site's files, made once for each content."""

from __future__ import annotations

import gzip
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import brotli

from site_src.runtime import sha256
from site_src.settings import CACHE

COMPRESSIBLE = {
    ".css", ".html", ".js", ".json", ".map", ".mjs", ".svg", ".txt", ".wasm", ".webmanifest", ".whl", ".xml", ".zip",
}  # fmt: skip
_SMALLEST = 1024
_LARGE = 500_000
# Brotli's best costs a minute and a half on the runtime's four large files and saves a tenth over this.
_QUICK = 9
_BEST = 11


def compress_site(site: Path, cache: Path = CACHE, *, quick: bool = False) -> None:
    """Put a .br and a .gz beside every file that is worth it.

    The results are kept by content, so that a second build compresses only what changed. What the cache holds
    of former builds and this one no longer needs is thrown away.

    Parameters
    ----------
    site : Path
        The built site.
    cache : Path
        Where results are kept.
    quick : bool
        Spend less on large files, for a site that nobody waits for: the one served on this machine.
        A best result that is already there is taken all the same.
    """
    folder = cache / "compressed"
    folder.mkdir(parents=True, exist_ok=True)
    files = [
        path
        for path in site.rglob("*")
        if path.suffix in COMPRESSIBLE and path.is_file() and path.stat().st_size > _SMALLEST
    ]
    files.sort(key=lambda path: path.stat().st_size, reverse=True)  # the longest job must not start last
    with ThreadPoolExecutor(2) as pool:  # both compressors let go of Python's lock
        keys = set(pool.map(lambda path: _compress(path, folder, quick), files))
    for kept in folder.iterdir():
        if kept.name.split(".")[0] not in keys:
            kept.unlink()


def _compress(path: Path, folder: Path, quick: bool) -> str:
    data = path.read_bytes()
    key = sha256(data)
    for suffix, made in ((".br", _brotli(data, folder / key, quick)), (".gz", _gzip(data, folder / key))):
        if len(made) < len(data):
            path.with_name(path.name + suffix).write_bytes(made)
    return key


def _brotli(data: bytes, stem: Path, quick: bool) -> bytes:
    best = stem.with_name(f"{stem.name}.{_BEST}.br")
    if best.exists() or not (quick and len(data) > _LARGE):
        quality, kept = _BEST, best
    else:
        quality, kept = _QUICK, stem.with_name(f"{stem.name}.{_QUICK}.br")
    if not kept.exists():
        _keep(kept, brotli.compress(data, quality=quality))
    return kept.read_bytes()


def _gzip(data: bytes, stem: Path) -> bytes:
    kept = stem.with_name(f"{stem.name}.gz")
    if not kept.exists():
        _keep(kept, gzip.compress(data, 9, mtime=0))
    return kept.read_bytes()


def _keep(path: Path, data: bytes) -> None:
    part = path.with_name(f"{path.name}.part")
    part.write_bytes(data)
    part.replace(path)
