"""Python sources to bytecode, compiled by the Python that will run it.

The runtime as published carries sources only, and compiling them is most of the time that it takes to start.
Bytecode fits one version of Python, so the browser's own Python compiles it, under Node.
"""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from pathlib import Path

from site_src.node_run import run_python
from site_src.settings import SOURCE, BuildError


def compiled(members: Mapping[str, bytes], runtime: Path, *, optimize: int) -> dict[str, bytes]:
    """Return the members with every ``x.py`` replaced by ``x.pyc``.

    The bytecode lies where the source lay, which is how Python imports a module without its source. It is of
    the unchecked kind, so Python does not look for the source.

    Parameters
    ----------
    members : Mapping[str, bytes]
        Contents by path.
    runtime : Path
        Folder with the runtime's files.
    optimize : int
        0 keeps everything, 1 drops assertions, 2 drops docstrings too.

    Returns
    -------
    dict[str, bytes]
        Contents by path. What is not Python is passed on as it is.

    Raises
    ------
    BuildError
        If a source does not compile.
    """
    sources = sorted(name for name in members if name.endswith(".py"))
    result = {name: data for name, data in members.items() if name not in sources}
    with tempfile.TemporaryDirectory() as scratch:
        source, target = Path(scratch) / "source", Path(scratch) / "target"
        target.mkdir()
        for name in sources:
            path = source / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(members[name])
        faults = run_python(
            (SOURCE / "inside.py").read_text("utf-8"),
            {"source": "/source", "target": "/target", "names": sources, "optimize": optimize},
            runtime=runtime,
            folders={"/source": source, "/target": target},
        )
        if faults:
            raise BuildError(f"Python that does not compile: {faults}")
        for name in sources:
            result[f"{name}c"] = (target / f"{name}c").read_bytes()
    return result
