"""The small engine asked under Node, without a browser."""

from __future__ import annotations

import json
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from site_src.node_run import node
from site_src.settings import SOURCE, BuildError
from site_src.small.engine import LOADER, WASM
from site_src.small.packs import SMALL, SmallEngine

_SECONDS = 1800


class Reply(NamedTuple):
    """What came of one request: its text, or the fault with which the other engine would be asked."""

    text: str
    fault: str
    ms: float  # of processor
    memory: int  # bytes
    told: list[tuple[str, float]]


def asked(engine: SmallEngine, requests: Sequence[tuple[str, str]], small: Path = SMALL) -> list[Reply]:
    """Ask the small engine.

    Parameters
    ----------
    engine : SmallEngine
        Its files.
    requests : sequence of tuple of str
        The sheet whose pack is needed, and the request of the page.
    small : Path
        Folder with ``small.mjs`` and ``bridge.mjs``.

    Raises
    ------
    BuildError
        If Node fails; the text ends with what it wrote.
    """
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        packs: Mapping[str, bytes] = {"core": engine.core, **engine.sheets}
        files = {LOADER: engine.loader, WASM: engine.wasm} | {f"{name}.pack": data for name, data in packs.items()}
        for name, data in files.items():
            (folder / name).write_bytes(data)
        result = folder / "result.json"
        job = {"small": str(small / "small.mjs"), "folder": place, "asked": requests, "result": str(result)}
        ran = subprocess.run(
            [node(), SOURCE / "small" / "run.mjs"], input=json.dumps(job), capture_output=True, text=True,
            timeout=_SECONDS, check=False,
        )  # fmt: skip
        if ran.returncode or not result.exists():
            raise BuildError(f"the small engine failed under Node:\n{ran.stderr[-2000:]}")
        return [Reply(**one) for one in json.loads(result.read_text("utf-8"))]
