"""Both engines in the site: their files, and what the scripts must know of them."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from calculators.sheets import find_sheet, sheet_ids
from site_src.app import app_archive
from site_src.compress import compressed
from site_src.hashing import hashed_name, short_hash
from site_src.runtime import LOCK, Pins, served_runtime
from site_src.settings import CACHE, BuildError
from site_src.small.packs import SmallEngine
from site_src.small.packs import made as made_small

APP = "assets/app"
_FROM_SCRIPTS = "../app/"  # where that is, seen from a script


class Carried:
    """Files of an engine, and the bytes of each as it is and as it is carried in Brotli and gzip."""

    def __init__(self, paths: Iterable[Path], cache: Path, *, quick: bool) -> None:
        files = list(paths)
        with ThreadPoolExecutor(2) as pool:
            sizes = list(pool.map(lambda path: _as_carried(path, cache, quick=quick), files))
        self.sizes = dict(zip((path.name for path in files), sizes, strict=True))

    def over_the_line(self, addresses: Iterable[str]) -> dict[str, int]:
        """Return the bytes in Brotli by address."""
        return {address: self.sizes[address.rsplit("/", 1)[-1]][1] for address in addresses}


def place_engines(
    site: Path, pins: Pins, cache: Path = CACHE, say: Callable[[str], None] = print, *, quick: bool = False
) -> tuple[dict[str, dict[str, str]], frozenset[str]]:
    """Put Python, the small engine and the calculators for each into the site.

    Returns
    -------
    tuple
        By script, what is put in the place of which text: the addresses of these files, their marks and sizes. And the
        sheets that start on the small engine.
    """
    source = served_runtime(pins, cache, say)
    runtime = site / "runtime" / pins.key
    runtime.mkdir(parents=True)
    served = sorted(set(pins.served) - not_asked_for(pins, source))
    for name in served:
        shutil.copyfile(source / name, runtime / name)
    app = site / APP
    app.mkdir(parents=True, exist_ok=True)
    archive, data = app_archive(pins, source, cache)
    (app / archive).write_bytes(data)
    folder, mark = f"../../runtime/{pins.key}/", short_hash(data)
    python = Carried([*(runtime / name for name in served), app / archive], cache, quick=quick)
    packages = {
        name: python.over_the_line([folder + entry["file_name"]])
        for name, entry in json.loads((source / LOCK).read_text("utf-8"))["packages"].items()
        if entry["file_name"] in served
    }
    apart = {address for files in packages.values() for address in files}
    small = made_small(cache, say=say)
    filled = {
        "worker.mjs": _filled(
            "FILES",
            indexURL=folder,
            lockFile=LOCK,
            app=_FROM_SCRIPTS + archive,
            calculators=mark,
            bytes=python.sizes,
        ),
        "small-worker.mjs": _filled("FILES", **place_small(app, small, cache, quick=quick), calculators=mark),
        "parts.mjs": _filled(
            "ENGINES",
            startsOnSmall=sorted(small.starts_on),
            python=python.over_the_line(
                one for one in [*(folder + name for name in served), _FROM_SCRIPTS + archive] if one not in apart
            ),
            packages=packages,
        ),
    }
    return filled, small.starts_on


def place_small(app: Path, small: SmallEngine, cache: Path, *, quick: bool) -> Mapping[str, object]:
    """Put the small engine's files into a folder; return what its worker must know of them.

    Only the sheets that it starts with are there.
    """
    written: dict[str, bytes] = {}

    def placed(name: str, data: bytes) -> str:
        hashed = hashed_name(name, data)
        (app / hashed).write_bytes(data)
        written[hashed] = data
        return _FROM_SCRIPTS + hashed

    files = {
        "loader": placed("small.mjs", small.loader),
        "program": placed("small.wasm", small.wasm),
        "core": placed("small-core.bin", small.core),
        "sheets": {name: placed(f"small-{name}.bin", small.sheets[name]) for name in sorted(small.starts_on)},
    }
    return {
        **files,
        "marks": {_FROM_SCRIPTS + name: short_hash(data) for name, data in written.items()},
        "bytes": Carried((app / name for name in written), cache, quick=quick).sizes,
    }


def _filled(name: str, **content: object) -> dict[str, str]:
    return {f'"%%{name}%%"': json.dumps(content)}


def _as_carried(path: Path, cache: Path, *, quick: bool) -> list[int]:
    """Return the bytes of a file as it is, and as it is carried in Brotli and gzip; a slow line is told of them."""
    data = path.read_bytes()
    return [len(data), *(min(len(data), len(one)) for one in compressed(data, cache, quick=quick).values())]


def not_asked_for(pins: Pins, source: Path) -> set[str]:
    """Return the packages of the runtime that no sheet needs: nobody has to keep them on a device."""
    packages = json.loads((source / LOCK).read_text("utf-8"))["packages"]
    needed = {name for sheet_id in sheet_ids() for name in find_sheet(sheet_id).needs}
    if lost := needed - packages.keys():
        raise BuildError(f"a sheet needs packages that runtime.toml does not pin: {sorted(lost)}")
    return {entry["file_name"] for name, entry in packages.items() if name not in needed | pins.pure.keys()}
