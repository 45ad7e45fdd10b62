"""The pinned Python of the browser: fetched, checked, and repacked for a quick start."""

from __future__ import annotations

import hashlib
import json
import re
import tomllib
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

from site_src.bytecode import compiled
from site_src.cache import write_whole
from site_src.fetch import wheel_members
from site_src.pure import lock_entry, wheel_of
from site_src.settings import CACHE, SOURCE, BuildError
from site_src.zips import read_zip, stored_zip

PINS = SOURCE / "runtime.toml"
LOCK = "pyodide-lock.json"


@dataclass(frozen=True)
class Pins:
    """What runtime.toml says."""

    version: str
    project: str
    release: str
    folder: str
    pure: Mapping[str, str]
    published: Mapping[str, str]
    served: Mapping[str, str]
    drop: Mapping[str, Sequence[str]]
    change: Sequence[Mapping[str, str]] = ()

    @property
    def key(self) -> str:
        """A short name for the served files together: another file, another name."""
        return hashlib.sha256(json.dumps(sorted(self.served.items())).encode()).hexdigest()[:12]


def sha256(data: bytes) -> str:
    """Return the SHA-256 as 64 hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def read_pins(path: Path = PINS) -> Pins:
    """Read runtime.toml."""
    data = tomllib.loads(path.read_text("utf-8"))
    source = data["source"]
    return Pins(
        data["version"], source["project"], source["release"], source["folder"],
        data["pure"], data["published"], data["served"], data["drop"], data["change"],
    )  # fmt: skip


def published_runtime(pins: Pins, cache: Path = CACHE, say: Callable[[str], None] = print) -> Path:
    """Return a folder with the runtime's files as their makers published them.

    Fetches what is not in the cache. Every file is checked against its SHA-256 each time.

    Raises
    ------
    BuildError
        If a file, cached or fetched, is not the one that is pinned.
    """
    folder = cache / "published" / pins.version
    missing = [name for name in pins.published if not (folder / name).exists()]
    if missing:
        say(f"Fetching the browser's Python {pins.version} ({len(missing)} files)")
        found = wheel_members(pins.project, pins.release, [pins.folder + name for name in missing], say)
        for name in missing:
            data = found[pins.folder + name]
            _check(name, data, pins.published, f"as fetched from {pins.project} {pins.release}")
            write_whole(folder / name, data)
    for name in pins.published:
        _check(name, (folder / name).read_bytes(), pins.published, f"in {folder}; delete it to fetch it again")
    return folder


def served_runtime(pins: Pins, cache: Path = CACHE, say: Callable[[str], None] = print) -> Path:
    """Return a folder with the runtime's files as the site serves them, checked against their SHA-256.

    Raises
    ------
    BuildError
        If a file is not the one that is pinned.
    """
    folder = cache / "served" / pins.key
    if not all((folder / name).exists() for name in pins.served):
        made = repacked(pins, published_runtime(pins, cache, say), say)
        if set(made) != set(pins.served):
            raise BuildError(f"runtime.toml pins {sorted(pins.served)} but the repacking gives {sorted(made)}")
        for name, data in made.items():
            _check(name, data, pins.served, "as repacked here")
        for name, data in made.items():
            write_whole(folder / name, data)
    for name in pins.served:
        _check(name, (folder / name).read_bytes(), pins.served, f"in {folder}; delete it to have it made again")
    return folder


def repacked(pins: Pins, published: Path, say: Callable[[str], None] = print) -> dict[str, bytes]:
    """Return the files that the site serves, made from the published ones.

    Archives lose what no page uses and carry bytecode instead of sources; the loader is changed as ``runtime.toml``
    says; the lock file keeps the packages
    that are served and gets their new SHA-256. The same input gives the same bytes on any machine.
    """
    say("Compiling the browser's Python library (once)")
    made = {name: (published / name).read_bytes() for name in pins.published if name not in (LOCK, *pins.drop)}
    archives = {name: _kept(read_zip((published / name).read_bytes()), pins.drop[name]) for name in pins.drop}
    for change in pins.change:
        place, name = (archives[change["file"]], change["member"]) if "member" in change else (made, change["file"])
        place[name] = _changed(change, name, place[name])
    wheels = {}
    for project, release in pins.pure.items():
        wheels[project], members = wheel_of(project, release)
        archives[wheels[project]] = members
    with ThreadPoolExecutor(2) as pool:  # each waits for a Node of its own
        done = pool.map(lambda members: stored_zip(compiled(members, published, optimize=2)), archives.values())
        made.update(zip(archives, done, strict=True))
    lock = json.loads((published / LOCK).read_text("utf-8"))
    packages = {}
    for package, entry in lock["packages"].items():
        if entry["file_name"] in made:
            packages[package] = entry | {"sha256": sha256(made[entry["file_name"]])}
    for project, release in pins.pure.items():
        name = wheels[project]
        packages[project] = lock_entry(project, release, name, sha256(made[name]))
    lock["packages"] = packages
    made[LOCK] = (json.dumps(lock, indent=1, sort_keys=True) + "\n").encode()
    return made


def pin_served(path: Path = PINS, cache: Path = CACHE) -> None:
    """Write the SHA-256 of the repacked files into runtime.toml."""
    pins = read_pins(path)
    made = repacked(pins, published_runtime(pins, cache))
    lines = "".join(f'"{name}" = "{sha256(made[name])}"\n' for name in sorted(made))
    text = re.sub(r"(?m)^\[served\]\n(\".*\n)*", lambda _: f"[served]\n{lines}", path.read_text("utf-8"))
    path.write_text(text, "utf-8")


def _kept(members: Mapping[str, bytes], patterns: Sequence[str]) -> dict[str, bytes]:
    """Return the members that match no pattern, without a wheel's list of all its files."""

    def dropped(path: str) -> bool:
        return any(fnmatchcase(path, pattern) or fnmatchcase(path, f"{pattern}/*") for pattern in patterns)

    return {
        path: data for path, data in members.items() if not dropped(path) and not path.endswith(".dist-info/RECORD")
    }


def _changed(change: Mapping[str, str], name: str, data: bytes) -> bytes:
    """Return a file with some of its text replaced, which must stand there once."""
    text = data.decode("utf-8")
    if text.count(change["from"]) != 1:
        raise BuildError(f"{name} must hold this once, to be changed by runtime.toml: {change['from']}")
    return text.replace(change["from"], change["to"]).encode()


def _check(name: str, data: bytes, pinned: Mapping[str, str], where: str) -> None:
    found = sha256(data)
    if found != pinned[name]:
        raise BuildError(
            f"{name} is not the file that is pinned ({where}).\n"
            f"  SHA-256 pinned in runtime.toml: {pinned[name]}\n"
            f"  SHA-256 found:                  {found}"
        )
