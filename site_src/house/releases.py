"""The papers of a house as they were approved: a plain folder beside its file, so that no git is needed.

``house/approved/`` holds a page of plain HTML for each version of a paper, and ``releases.toml``, a line for each: its
number, version, day, office, page, the SHA-256 of the page as approved, and what each sheet rested on that day. A
version that is there is never written over.
"""

from __future__ import annotations

import hashlib
import json
import re
import tomllib
from collections.abc import Mapping, Sequence
from datetime import date
from html import unescape
from pathlib import Path
from typing import Any, NamedTuple

from calculators import __version__
from site_src.house.values import quoted
from site_src.settings import BuildError

FOLDER = "approved"
LIST = "releases.toml"
_KEYS = ("page", "number", "version", "date", "office", "book", "sha256", "file")


class Release(NamedTuple):
    """A paper as it was approved: ``date`` is the day since which it holds, ``book`` the version of the handbook."""

    page: str
    number: str
    version: str
    date: str
    office: str
    book: str
    sha256: str
    file: str

    @property
    def said(self) -> str:
        """``P-05, version 3``."""
        return ", ".join(part for part in (self.number, f"version {self.version}" if self.version else "") if part)


def read_releases(own: Path) -> list[Release]:
    """Every paper that was approved, in the order of its day; none where none was.

    Parameters
    ----------
    own : Path
        The folder of the house’s own pages.

    Raises
    ------
    BuildError
        When the list is damaged, or a paper is not what was approved.
    """
    file = own / FOLDER / LIST
    if not file.is_file():
        return []
    try:
        held = tomllib.loads(file.read_text("utf-8")).get("release", [])
        found = [Release(**{key: str(one[key]) for key in _KEYS}) for one in held]
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, KeyError, TypeError, AttributeError) as fault:
        raise BuildError(f"{LIST} is damaged ({fault!r:.120}). Put back the one of your last copy.") from None
    for one in found:
        at = own / FOLDER / one.file
        if not re.fullmatch(r"[A-Za-z0-9._-]+\.html", one.file) or not at.is_file():
            raise BuildError(f"{LIST} names {one.file:.60}, which is not there. Put it back from your last copy.")
        if hashlib.sha256(at.read_bytes()).hexdigest() != one.sha256:
            raise BuildError(f"{FOLDER}/{one.file} is not what was approved. Put it back from your last copy.")
    return sorted(found, key=lambda one: one.date)


def approve(own: Path, papers: Sequence[Mapping[str, Any]], pages: Mapping[str, str],
            sheets: Mapping[str, Mapping[str, str]]) -> tuple[list[Release], list[str]]:  # fmt: skip
    """Keep each paper that has a version which is not kept yet; what is kept stays as it is.

    Parameters
    ----------
    own : Path
        The folder of the house’s own pages.
    papers : sequence of mapping
        The papers of the house’s file.
    pages : mapping of str to str
        Each page as HTML, by its address.
    sheets : mapping
        What each sheet rests on now.

    Returns
    -------
    tuple
        What was kept now, and what could not be, with the reason.
    """
    kept = read_releases(own)
    made: list[Release] = []
    left: list[str] = []
    folder = own / FOLDER
    for paper in papers:
        page = str(paper["page"])
        lacks = [key for key in ("number", "version", "date", "office") if key not in paper]
        if lacks:
            left.append(f"{page}: write {', '.join(lacks)} first")
            continue
        same = [one for one in kept if (one.page, one.version) == (page, paper["version"])]
        if same:
            if text_of(pages[page]) != text_of((folder / same[0].file).read_text("utf-8")):
                left.append(f"{page}: version {paper['version']} was approved with another text. Give it a new version")
            continue
        drawn = pages[page]
        name = re.sub(r"[^A-Za-z0-9._-]+", "-", f"{page.replace('/', '-')}-{paper['version']}") + ".html"
        if (folder / name).exists():
            left.append(f"{page}: {name} is there and on no list. Give it another version")
            continue
        folder.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(drawn, "utf-8")
        digest = hashlib.sha256((folder / name).read_bytes()).hexdigest()
        values = (page, paper["number"], paper["version"], paper["date"], paper["office"], __version__, digest, name)
        made.append(Release(*map(str, values)))
    if made:
        with (folder / LIST).open("a", encoding="utf-8") as file:
            for one in made:
                lines = (f"{key} = {quoted(getattr(one, key))}\n" for key in _KEYS)
                file.write("[[release]]\n" + "".join(lines) + "\n")
        (folder / "sheets.json").write_text(json.dumps(sheets, indent=0, sort_keys=True) + "\n", "utf-8")
    return made, left


def sheets_then(own: Path) -> dict[str, dict[str, str]]:
    """What each sheet rested on when papers were last approved; nothing where none were.

    Raises
    ------
    BuildError
        When the file is damaged.
    """
    file = own / FOLDER / "sheets.json"
    if not file.is_file():
        return {}
    try:
        found: dict[str, dict[str, str]] = json.loads(file.read_text("utf-8"))
        return {str(name): {str(key): str(one) for key, one in held.items()} for name, held in found.items()}
    except (ValueError, AttributeError) as fault:
        said = f"{FOLDER}/sheets.json is damaged ({fault!r:.80})"
        raise BuildError(f"{said}. Put back the one of your last copy.") from None


def valid_on(releases: Sequence[Release], day: date) -> list[Release]:
    """The version of each paper that held on a day: the last one approved until then."""
    latest: dict[str, Release] = {}
    for one in releases:
        if one.date <= day.isoformat():
            latest[one.page] = one
    return [latest[page] for page in sorted(latest)]


def text_of(html: str) -> str:
    """The words of a page, its parts on lines of their own; what stands in the head is left out."""
    body = re.sub(r"(?s)^.*?<body>|<(script|style|svg|title)\b.*?</\1>", " ", html)
    parts = re.sub(r"</?(?:p|li|h\d|td|th|tr|div|table|ul|ol|dd|dt|section|details|summary)\b[^>]*>", "\n\n", body)
    plain = unescape(re.sub(r"<[^>]+>", "", parts))
    return "\n\n".join(line for part in plain.split("\n") if (line := " ".join(part.split())))
