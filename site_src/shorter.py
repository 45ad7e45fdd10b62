"""The scripts of the site with short names and no needless words: a fifth less comes over a slow line."""

from __future__ import annotations

import json
import subprocess
import tomllib
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

from site_src.cache import kept, tidy
from site_src.node_run import node
from site_src.npm import package_files
from site_src.runtime import sha256
from site_src.settings import CACHE, SOURCE, BuildError

PINS = SOURCE / "shorter.toml"
_PROGRAM = SOURCE / "shorter.mjs"
_LIBRARY = "bundle.min.js"


def shorten(folder: Path, cache: Path = CACHE, say: Callable[[str], None] = print) -> None:
    """Shorten every module of a folder in place. What a module exports keeps its name.

    Raises
    ------
    BuildError
        If one can't be read, or what shortens them is not what is pinned.
    """
    files = sorted(folder.glob("*.mjs"))
    texts = shortened({path.name: path.read_text("utf-8") for path in files}, cache, say)
    for path in files:
        path.write_text(texts[path.name], "utf-8")


def shortened(texts: Mapping[str, str], cache: Path = CACHE, say: Callable[[str], None] = print) -> dict[str, str]:
    """Return modules by name, each shortened; each is kept by its content."""
    way = sha256(PINS.read_bytes() + _PROGRAM.read_bytes())[:12]
    places = {name: cache / "shorter" / f"{sha256(text.encode())}.{way}" for name, text in texts.items()}
    new = {name: text for name, text in texts.items() if not places[name].exists()}
    made = _by_node(new, cache, say) if new else {}

    def one(name: str) -> bytes:
        return (made.get(name) or _by_node({name: texts[name]}, cache, say)[name]).encode()

    done = {name: kept(place, partial(one, name)).decode() for name, place in places.items()}
    if texts:
        tidy(cache / "shorter")
    return done


def _by_node(texts: Mapping[str, str], cache: Path, say: Callable[[str], None]) -> dict[str, str]:
    pins = tomllib.loads(PINS.read_text("utf-8"))
    folder = package_files(pins["package"], pins["version"], pins["published"], cache / pins["package"], say)
    job = json.dumps({"library": str((folder / _LIBRARY).resolve()), "texts": texts})
    ran = subprocess.run([node(), _PROGRAM], input=job, capture_output=True, text=True, encoding="utf-8", check=False)
    if ran.returncode:
        raise BuildError(f"The scripts could not be shortened:\n{ran.stderr.strip()[-2000:]}")
    done: dict[str, str] = json.loads(ran.stdout)
    return done
