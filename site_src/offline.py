"""What the browser keeps for use without a network: the list of all files with their SHA-256, and its worker."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

from site_src.joining import EXPORT
from site_src.policy import read_headers
from site_src.runtime import sha256
from site_src.server import TYPES
from site_src.settings import BuildError

WORKER = "service-worker.js"
OFFER = "offline.json"
_SOURCE = "service-worker.mjs"
_SHARED = "assets/browser/store.mjs"
_IMPORT = re.compile(rf'^import .*"\./{re.escape(_SHARED)}";\n', re.MULTILINE)
# Not asked for by any page: for other servers, for people who mend scripts, and for search in other languages.
_LEFT_OUT = {"headers.json", WORKER, OFFER}
_FOLDERS_LEFT_OUT = ("assets/javascripts/lunr/", "serving/")
_ENDINGS_LEFT_OUT = {".br", ".gz", ".map"}


def write_worker(site: Path) -> None:
    """Make the service worker one plain script, since not every browser lets it import modules.

    Raises
    ------
    BuildError
        If a line would be left that only a module may have.
    """
    shared = EXPORT.sub("", (site / _SHARED).read_text("utf-8"))
    own, count = _IMPORT.subn("", (site / _SOURCE).read_text("utf-8"))
    text = f"{shared}\n{own}"
    if count != 1 or re.search(r"^(?:import|export)\b", text, re.MULTILINE):
        raise BuildError(f"{_SOURCE} must import from ./{_SHARED} in one line, and from nowhere else")
    (site / WORKER).write_text(text, "utf-8")
    (site / _SOURCE).unlink()


def write_list(site: Path) -> Path:
    """List every file of the finished, compressed site.

    ``offline.json`` says what the newest version is and how large; the list itself has a name that changes with it.
    Pages stand under the address of their folder.

    Returns
    -------
    Path
        The list, which is not compressed yet.
    """
    files: dict[str, tuple[str, int]] = {}
    carried = 0
    for name in _kept_files(site):
        data = (site / name).read_bytes()
        address = name if name.endswith("404.html") else re.sub(r"(^|/)index\.html$", r"\1", name)
        files[address] = (sha256(data), len(data))
        squeezed = site / f"{name}.br"
        carried += squeezed.stat().st_size if squeezed.is_file() else len(data)
    content = {"files": files, "headers": read_headers(site), "types": TYPES}
    version = sha256(json.dumps(content, sort_keys=True).encode())[:16]
    target = site / f"offline.{version[:12]}.json"
    target.write_text(json.dumps({"version": version, **content}, separators=(",", ":")), "utf-8")
    offer = {
        "version": version,
        "list": target.name,
        "bytes": sum(size for _, size in files.values()),
        "carried": carried,
    }
    (site / OFFER).write_text(json.dumps(offer) + "\n", "utf-8")
    return target


def _kept_files(site: Path) -> Iterator[str]:
    for path in sorted(site.rglob("*")):
        name = path.relative_to(site).as_posix()
        if not path.is_file() or name in _LEFT_OUT or path.suffix in _ENDINGS_LEFT_OUT:
            continue
        if not name.startswith(_FOLDERS_LEFT_OUT):
            yield name
