"""The search index after mkdocs has written it: a small one for every page, a whole one for who searches."""

from __future__ import annotations

import json
from pathlib import Path

ENTRIES = "search/entries.json"  # ``reading/search.mjs`` asks for it with the first query


def split_index(site: Path) -> None:
    """Leave the settings to every page and put the entries into a file of their own.

    The theme fetches ``search_index.json`` with each page. The heading of a sheet leaves an entry behind although the
    sheet's text is kept out: an entry without text, under the title of the page, so that the page would be found twice.
    It is taken out.
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
    (site / ENTRIES).write_text(json.dumps(index, separators=(",", ":")), "utf-8")
    path.write_text(json.dumps({**index, "docs": []}, separators=(",", ":")), "utf-8")
