"""The finished site read through: what is in each file, against the list, the names and the pins that speak of it."""

from __future__ import annotations

import gzip
import json
import re
import zlib
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

import brotli

from site_src.edition import CHECKSUMS, OFFER
from site_src.hashing import short_hash
from site_src.runtime import Pins, sha256
from site_src.settings import BuildError

_UNPACK: Mapping[str, Callable[[bytes], bytes]] = {".br": brotli.decompress, ".gz": gzip.decompress}
_NAMED_BY_CONTENTS = re.compile(r"assets/(?:browser|app)/[\w-]+\.([0-9a-f]{12})\.\w+")
_LINE = re.compile(r"([0-9a-f]{64})  (.+)")


def read_through(site: Path, pins: Pins) -> None:
    """Read every file of the finished site once, and write the SHA-256 of each into ``checksums.txt``.

    Raises
    ------
    BuildError
        Names every file that is not what the list of the edition, its own name, the pins of the runtime or the file
        that it is the compressed form of say it is.
    """
    offer = json.loads((site / OFFER).read_text("utf-8"))
    listed = json.loads((site / offer["list"]).read_text("utf-8"))
    promised = {_file_of(address): digest for address, (digest, _) in listed["files"].items()}
    for path in (site / "runtime" / pins.key).iterdir():
        if path.name in pins.served:
            promised[path.relative_to(site).as_posix()] = pins.served[path.name]
    found: dict[str, str] = {}
    faults = [] if listed["version"] == offer["version"] else [f"{OFFER} and its list are of two editions"]
    for name, path in _files(site):
        data = path.read_bytes()
        found[name] = sha256(data)
        faults += _faults(name, data, found, promised)
    faults += [f"{name} is listed and not there" for name in promised.keys() - found.keys()]
    if faults:
        raise BuildError("The finished site is not what was built:\n  " + "\n  ".join(faults))
    lines = [f"{digest}  {name}\n" for name, digest in found.items()]
    (site / CHECKSUMS).write_text("".join(lines), "utf-8")


def _file_of(address: str) -> str:
    return f"{address}index.html" if not address or address.endswith("/") else address


def _files(site: Path) -> Iterator[tuple[str, Path]]:
    """Yield every file but the checksums, a compressed one after the file that it belongs to."""
    for path in sorted(site.rglob("*")):
        name = path.relative_to(site).as_posix()
        if path.is_file() and name != CHECKSUMS:
            yield name, path


def _faults(name: str, data: bytes, found: Mapping[str, str], promised: Mapping[str, str]) -> Iterator[str]:
    plain, ending = name[:-3], name[-3:]
    if ending in _UNPACK:
        if plain not in found:
            yield f"{name} is the compressed form of no file"
        elif _unpacked_sha256(data, ending, found[name]) != found[plain]:
            yield f"{name} is not the compressed form of {plain}"
    if name in promised and promised[name] != found[name]:
        yield f"{name} has another SHA-256 than was promised"
    named = _NAMED_BY_CONTENTS.fullmatch(name)
    if named and named[1] != short_hash(data):
        yield f"{name} does not hold what its name says"


_unpacked: dict[str, str] = {}
"""The SHA-256 of what this process has unpacked, by that of the packed file: most files of two sites are alike."""


def _unpacked_sha256(data: bytes, ending: str, digest: str) -> str:
    if digest not in _unpacked:
        try:
            _unpacked[digest] = sha256(_UNPACK[ending](data))
        except (brotli.error, zlib.error, OSError, EOFError):
            return ""
    return _unpacked[digest]


def checksums(site: Path) -> dict[str, str]:
    """Return the SHA-256 of each file as ``checksums.txt`` has it; nothing when the site has none.

    Raises
    ------
    BuildError
        If it is not a list of checksums.
    """
    if not (site / CHECKSUMS).is_file():
        return {}
    lines = (site / CHECKSUMS).read_text("utf-8").splitlines()
    found = [_LINE.fullmatch(line) for line in lines]
    if not all(found):
        raise BuildError(f"{site / CHECKSUMS} is damaged")
    return {one[2]: one[1] for one in found if one}


def check_site(site: Path) -> int:
    """Read a site through against its own checksums, wherever it has been copied to; return how many files it has.

    Raises
    ------
    BuildError
        Names every file that is damaged, missing, or not of the site.
    """
    promised = checksums(site)
    if not promised:
        raise BuildError(f"{site} has no {CHECKSUMS}: it is not a site that was built here")
    found = {name: sha256(path.read_bytes()) for name, path in _files(site)}
    faults = [f"{name} is missing" for name in promised.keys() - found.keys()]
    faults += [f"{name} is not of this site" for name in found.keys() - promised.keys()]
    faults += [f"{name} is damaged" for name in found.keys() & promised.keys() if found[name] != promised[name]]
    if faults:
        raise BuildError(f"Faults in {site}:\n  " + "\n  ".join(sorted(faults)))
    return len(found)
