"""The table of sources, entry by entry: a page carries those that its sheet names, and no other.

Whoever asks for one that was not carried gets a fault, and the page asks the other engine.
"""

from __future__ import annotations

import ast
from pathlib import Path

from site_src.settings import BuildError

TABLE = "sources"  # the room; its table is SOURCES, a dict that its files write down
HEAD = """
from importlib import import_module
from .kind import Source, standing_words

class _ByName:
    def __getitem__(self, name):
        return import_module(f"{__name__}.{name}").SOURCE

SOURCES = _ByName()
"""


def entries(folder: Path) -> dict[str, str]:
    """The source of a module for each entry, by its id.

    Raises
    ------
    BuildError
        If a file of the room is written in another way.
    """
    found: dict[str, str] = {}
    for path in sorted(folder.glob("*.py")):
        if path.stem in ("__init__", "kind"):
            continue
        body = ast.parse(path.read_text("utf-8")).body
        imports = [ast.unparse(node) for node in body if isinstance(node, ast.ImportFrom)]
        tables = [node.value for node in body if isinstance(node, ast.AnnAssign)]
        if len(tables) != 1 or not isinstance(tables[0], ast.Dict):
            raise BuildError(f"{path.name}: a file of {TABLE} holds one dict, called SOURCES")
        for key, worth in zip(tables[0].keys, tables[0].values, strict=True):
            assert isinstance(key, ast.Constant)
            found[str(key.value)] = "\n".join([*imports, f"SOURCE = {ast.unparse(worth)}"])
    return found
