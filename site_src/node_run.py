"""Run Python in the browser's own Python without a browser.

The runtime of the site runs under Node as well. Node comes inside Playwright's wheel, so nothing but pip is
needed to have it. The build compiles bytecode this way, and tests compare answers this way.
"""

from __future__ import annotations

import json
import os
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

import playwright

from site_src.settings import SOURCE, BuildError

_SECONDS = 300


def node() -> Path:
    """Return the path of Playwright's Node."""
    driver = Path(playwright.__file__).parent / "driver"
    path = driver / ("node.exe" if os.name == "nt" else "node")
    if not path.is_file():
        raise BuildError(f"Playwright's own Node is missing ({path}). Install the requirements again.")
    return path


def run_python(
    code: str,
    argument: object = None,
    *,
    runtime: Path,
    folders: Mapping[str, Path] | None = None,
    packages: Sequence[str] = (),
) -> object:
    """Run ``main(argument)`` of a piece of Python source in the browser's Python.

    Parameters
    ----------
    code : str
        Python source that defines ``main``, a function of one argument.
    argument : object
        Anything that JSON can carry.
    runtime : Path
        Folder with the runtime's files, as published or as repacked.
    folders : Mapping[str, Path], optional
        Folders of this machine to show inside, by their absolute path inside. They can be written to.
    packages : Sequence[str]
        Names in the runtime's lock file to load first, such as ``numpy``.

    Returns
    -------
    object
        What ``main`` returned, through JSON.

    Raises
    ------
    BuildError
        If Node or the Python fails; the text ends with what it wrote.
    """
    with tempfile.TemporaryDirectory() as scratch:
        result = Path(scratch) / "result.json"
        job = {
            "code": code,
            "argument": argument,
            "runtime": str(runtime.resolve()),
            "folders": {inside: str(outside.resolve()) for inside, outside in (folders or {}).items()},
            "packages": list(packages),
            "result": str(result),
        }
        ran = subprocess.run(
            [node(), SOURCE / "node_run.mjs"],
            input=json.dumps(job),
            capture_output=True,
            text=True,
            timeout=_SECONDS,
            check=False,
        )
        if ran.returncode or not result.exists():
            raise BuildError(f"the browser's Python failed under Node:\n{ran.stderr[-4000:]}")
        answer: object = json.loads(result.read_text("utf-8"))
        return answer
