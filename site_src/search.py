"""The search index after mkdocs has written it: a small one for every page, a whole one for who searches."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

from site_src.settings import ROOT

ENTRIES = "search/entries.json"  # ``reading/search.mjs`` asks for it with the first query
FOUND_BY = ROOT / "docs" / "_includes" / "found-by.toml"
_FOUND_BY_WEIGHT = 2000  # a heading's is 1000, one in the text 1
_SOURCES_WEIGHT = 0.01


def read_words() -> dict[str, list[str]]:
    """Return the words that readers type, by the address that they are to lead to."""
    return tomllib.loads(FOUND_BY.read_text("utf-8"))


def split_index(site: Path) -> None:
    """Leave the settings to every page and put the entries into a file of their own.

    The theme fetches ``search_index.json`` with each page. The heading of a sheet leaves an entry behind although the
    sheet's text is kept out: an entry without text, under the title of the page, so that the page would be found twice.
    It is taken out. The lists of sources at the feet of pages stand last: their heading begins as “sour” does.
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
    words = read_words()
    index["config"]["fields"]["tags"] = {"boost": _FOUND_BY_WEIGHT}
    for entry in index["docs"]:
        if entry["location"].endswith("#sources"):
            entry["boost"] = _SOURCES_WEIGHT
        if entry["location"] in words:
            entry["tags"] = [word.replace(" ", "_") for word in words[entry["location"]]]  # search.mjs joins them too
    (site / ENTRIES).write_text(json.dumps(index, separators=(",", ":")), "utf-8")
    path.write_text(json.dumps({**index, "docs": []}, separators=(",", ":")), "utf-8")
