"""The mark of an edition: a digest of all that was built, on every page, and so with all that a page brings.

A page that stays open over a new edition compares the mark of what comes with its own (``edition.mjs``).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from site_src.file_types import TYPES
from site_src.policy import read_headers
from site_src.runtime import sha256
from site_src.settings import BuildError

# Not part of what a reader sees: for other servers, for people who mend scripts, for search in other languages; and
# what is made of the finished files, or left of former editions.
WORKER = "service-worker.js"
OFFER = "offline.json"
CHECKSUMS = "checksums.txt"
EARLIER = "earlier.json"
_LEFT_OUT = {"headers.json", WORKER, OFFER, CHECKSUMS, EARLIER}
_FOLDERS_LEFT_OUT = ("assets/javascripts/lunr/", "serving/")
_ENDINGS_LEFT_OUT = {".br", ".gz", ".map"}
_LIST = re.compile(r"offline\.[0-9a-f]{12}\.json")
_CALCULATORS = re.compile(r"assets/app/calculators\.([0-9a-f]+)\.zip")
_MARKS = re.compile(r'(?<=<html) data-edition="[^"]*" data-corrections="[^"]*"|<meta name="edition"[^>]*>')
MARK_DIGITS = 16


def put_mark(site: Path, corrections: Sequence[str] = ()) -> str:
    """Mark every page of a site with its edition; return the mark.

    The element ``html`` keeps the mark of the page that a visit began with, whatever pages the theme brings into it
    later; the element ``meta`` changes with each of them.

    Parameters
    ----------
    site : Path
        The site, built but for its compressed files. It may have been marked before.
    corrections : Sequence[str]
        The ids of the corrections that this edition has in it.

    Raises
    ------
    BuildError
        If a page has no place for its mark, or there are no calculators or more than one archive of them.
    """
    names = list(kept_files(site))
    marks = [found[1] for name in names if (found := _CALCULATORS.fullmatch(name))]
    if len(marks) != 1:
        raise BuildError(f"the site must have one archive of calculators, it has {len(marks)}")
    pages = {name: _MARKS.sub("", (site / name).read_text("utf-8")) for name in names if name.endswith(".html")}
    files = {name: sha256(pages[name].encode() if name in pages else (site / name).read_bytes()) for name in names}
    content = {"files": files, "corrections": list(corrections), "headers": read_headers(site), "types": TYPES}
    mark = sha256(json.dumps(content, sort_keys=True).encode())[:MARK_DIGITS]
    root = f'<html data-edition="{mark}" data-corrections="{" ".join(corrections)}"'
    meta = f'<meta name="edition" content="{mark}" data-calculators="{marks[0]}">'
    for name, html in pages.items():
        if html.count("<html") != 1 or "</head>" not in html:
            raise BuildError(f"{name} has no place for the mark of its edition")
        marked = html.replace("<html", root, 1).replace("</head>", f"{meta}</head>", 1)
        (site / name).write_text(marked, "utf-8")
    return mark


def kept_files(site: Path) -> Iterator[str]:
    """Yield the names of all files that belong to this edition and that a page may ask for, in order."""
    former = set(json.loads((site / EARLIER).read_text("utf-8"))["files"]) if (site / EARLIER).exists() else set()
    for path in sorted(site.rglob("*")):
        name = path.relative_to(site).as_posix()
        if not path.is_file() or name in _LEFT_OUT | former or path.suffix in _ENDINGS_LEFT_OUT:
            continue
        if not name.startswith(_FOLDERS_LEFT_OUT) and not _LIST.fullmatch(name):
            yield name
