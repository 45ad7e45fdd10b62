"""The search index after mkdocs has written it."""

from __future__ import annotations

import json
from pathlib import Path


def tidy_index(site: Path) -> None:
    """Take out the entries that the heading of each sheet leaves behind.

    A sheet's own text is kept out of the index, but its heading makes an entry all the same: one without text,
    under the title of the page, so that the page would be found twice.
    """
    path = site / "search" / "search_index.json"
    index = json.loads(path.read_text("utf-8"))
    titles = {entry["location"]: entry["title"] for entry in index["docs"]}
    index["docs"] = [
        entry
        for entry in index["docs"]
        if entry["text"] or entry["title"] != titles.get(entry["location"].partition("#")[0])
        or "#" not in entry["location"]
    ]  # fmt: skip
    path.write_text(json.dumps(index, separators=(",", ":")), "utf-8")
