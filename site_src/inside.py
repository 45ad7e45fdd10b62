"""Compiles Python to bytecode. Runs inside the browser's Python only: see bytecode.py."""

from __future__ import annotations

import importlib._bootstrap_external as external
import importlib.util
import marshal
from pathlib import Path


def main(job: dict[str, object]) -> list[str]:
    """Write x.pyc for every listed x.py.

    Parameters
    ----------
    job : dict
        ``source`` and ``target``, two folders; ``names``, paths below ``source``; ``optimize``, 0 to 2 as
        for ``compile``.

    Returns
    -------
    list of str
        The names that could not be compiled, each with the reason.
    """
    source, target = Path(str(job["source"])), Path(str(job["target"]))
    names, optimize = job["names"], job["optimize"]
    assert isinstance(names, list) and isinstance(optimize, int)
    faults = []
    for name in names:
        text = (source / name).read_bytes()
        try:
            code = compile(text, name, "exec", dont_inherit=True, optimize=optimize)
        except SyntaxError as error:
            faults.append(f"{name}: {error}")
            continue
        # Unchecked: the source is not there to be compared with.
        data = external._code_to_hash_pyc(code, importlib.util.source_hash(text), False)  # type: ignore[attr-defined]
        assert marshal.loads(data[16:]) == code
        path = target / f"{name}c"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return faults
