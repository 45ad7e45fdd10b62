"""What a page carries to answer on the small engine: its program, what all sheets share, and what one sheet needs."""

from __future__ import annotations

import hashlib
import json
import sys
from collections import Counter
from collections.abc import Callable, Mapping, Set
from dataclasses import dataclass
from pathlib import Path

from calculators.sheets import find_sheet, sheet_ids
from site_src.cache import kept, tidy
from site_src.settings import CACHE, SOURCE
from site_src.small import known
from site_src.small.apart import TABLE
from site_src.small.compiler import PACKAGE as COMPILER
from site_src.small.compiler import compiled, compiler
from site_src.small.engine import LOADER, WASM, engine_files, read_engine_pins, served
from site_src.small.reach import PACKAGE, Sources, installed, reached
from site_src.small.record import read_record
from site_src.small.rewrite import defined, rewritten
from site_src.taken import modules

PAGE = "calculators.page"
SMALL = SOURCE / "theme" / "assets" / "browser" / "engine" / "small"
_SHARED_BY = 0.75  # of the sheets; what so many reach is carried to every page


@dataclass(frozen=True)
class SmallEngine:
    """The files of the small engine, and which sheets may start there."""

    core: bytes
    sheets: Mapping[str, bytes]
    loader: bytes
    wasm: bytes
    starts_on: frozenset[str]
    digests: Mapping[str, str]  # of all that each sheet runs from, but for what a house has of its own


class Written:
    """The modules of all plain sheets, written for the small engine; anew only when what they are made of has changed.

    Attributes
    ----------
    texts : Mapping[str, str]
        What the small engine runs, by the full name of the module.
    core : frozenset[str]
        The modules that every page carries.
    of_sheet : Mapping[str, frozenset[str]]
        All that a sheet runs from, by sheet.
    """

    def __init__(self, sources: Sources, cache: Path = CACHE) -> None:
        folder = cache / "small" / "written"
        held = json.loads(kept(folder / f"{_key(sources)}.json", lambda: json.dumps(_written(sources)).encode()))
        tidy(folder)
        self.texts: Mapping[str, str] = held["texts"]
        self.core = frozenset(held["core"])
        self.of_sheet = {name: frozenset(names) for name, names in held["of_sheet"].items()}
        self._packages = frozenset(held["packages"])

    def path(self, name: str, suffix: str = ".py") -> str:
        """The path of a module's file."""
        return name.replace(".", "/") + ("/__init__" if name in self._packages else "") + suffix

    def pack(self, names: Set[str]) -> dict[str, bytes]:
        """What some modules are written as, by path."""
        return {self.path(name): self.texts[name].encode() for name in sorted(names)}


def _key(sources: Sources) -> str:
    """A digest of all that is read on the way to what the small engine runs: another digest, written anew."""
    key = hashlib.sha256(repr((sys.version_info, _plain_sheets())).encode())
    read = {name: installed(name).read_bytes() for name in sorted(known.INSTALLED)}
    for folder in (Path(__file__).parent, sources.folder):  # wherever the repository lies
        paths = sorted(folder.rglob("*.py"))
        read |= {f"{folder.name}/{path.relative_to(folder).as_posix()}": path.read_bytes() for path in paths}
    for name, data in [*read.items(), *sorted(sources.extra.items())]:
        key.update(f"{name} {len(data)}\n".encode() + data)
    return key.hexdigest()


def _plain_sheets() -> dict[str, tuple[str, ...]]:
    """The sheets that ask for no library of the other engine, each with the sources that it names."""
    sheets = map(find_sheet, sheet_ids())
    return {one.id: tuple(one.sources) for one in sheets if not set(one.needs) & known.OTHER_ENGINE}


def _written(sources: Sources) -> dict[str, object]:
    """All of `Written`, as JSON can hold it."""
    of_page = set(reached(sources, PAGE))
    of_sheet = {
        name: set(reached(sources, _module(name))) | of_page | {f"{PACKAGE.name}.{TABLE}.{one}" for one in named}
        for name, named in _plain_sheets().items()
    }
    count = Counter(name for names in of_sheet.values() for name in names)
    core = of_page | {name for name, many in count.items() if many >= _SHARED_BY * len(of_sheet)}
    core |= {f"{PACKAGE.name}.{name}" for name in known.BY_A_HOUSE if f"{name}.py" in sources.extra}
    modules_of = [module for name in sorted(core.union(*of_sheet.values())) if (module := sources.find(name))]
    attributes, methods = defined(modules_of)
    return {
        "texts": {module.name: rewritten(sources, module, attributes, methods) for module in modules_of},
        "core": sorted(core),
        "of_sheet": {name: sorted(names) for name, names in of_sheet.items()},
        "packages": [module.name for module in modules_of if module.is_package],
    }


def _module(sheet: str) -> str:
    return f"{PACKAGE.name}.sheets.{sheet.replace('-', '_')}"


def stand_ins() -> dict[str, bytes]:
    """The files of the stand-ins for library modules."""
    here = sorted(path for path in known.STD.glob("*.py") if path.stem not in known.INSTALLED)
    return {"std/__init__.py": b"", **{f"std/{path.name}": path.read_bytes() for path in here}}


def packed(files: Mapping[str, bytes]) -> bytes:
    """Files in a row behind a list of their names and lengths; the list's own length comes first, in four bytes."""
    listed = json.dumps([[name, len(data)] for name, data in files.items()], separators=(",", ":")).encode()
    return len(listed).to_bytes(4, "little") + listed + b"".join(files.values())


def made(cache: Path = CACHE, package: Path = PACKAGE, say: Callable[[str], None] = print) -> SmallEngine:
    """Make the files of the small engine.

    Parameters
    ----------
    cache : Path
        Where the engine's own files are kept.
    package : Path
        The folder of the calculators.
    say : callable
        Called with a line to show.

    Raises
    ------
    BuildError
        When a sheet holds what the small engine does not know, with file, line and what to write instead.
    """
    pins = read_engine_pins()
    files = served(pins, engine_files(pins, cache, say))
    written = Written(Sources(package, modules()), cache)
    program = compiler(pins.version)
    if program is None:
        say(f"{COMPILER} {pins.version} is not made for this machine: every sheet starts on the other engine")
        return SmallEngine(b"", {}, files[LOADER], files[WASM], frozenset(), {})
    every = written.core.union(*written.of_sheet.values())
    made_of = compiled({**stand_ins(), **written.pack(every)}, program, cache)
    std = {path: data for path, data in made_of.items() if path.startswith("std/")}

    def files_of(names: Set[str]) -> dict[str, bytes]:
        return {path: made_of[path] for path in (written.path(name, ".mpy") for name in sorted(names))}

    sheets = {name: packed(files_of(names - written.core)) for name, names in written.of_sheet.items()}
    own = {f"{PACKAGE.name}.{name}" for name in known.BY_A_HOUSE}
    scripts = {path.name: path.read_bytes() for path in sorted(SMALL.glob("*.mjs"))}
    digests = {
        name: _digest({**files, **scripts, **std, **files_of(names - own)}) for name, names in written.of_sheet.items()
    }
    proven = read_record()
    starts_on = frozenset(
        name
        for name, digest in digests.items()
        if name in proven and proven[name].holds(digest, guarded=find_sheet(name).guarded)
    )
    core = packed({**std, **files_of(written.core)})
    return SmallEngine(core, sheets, files[LOADER], files[WASM], starts_on, digests)


def _digest(parts: Mapping[str, bytes]) -> str:
    whole = hashlib.sha256()
    for name, data in sorted(parts.items()):
        whole.update(f"{name} {len(data)}\n".encode() + data)
    return whole.hexdigest()
