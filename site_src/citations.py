"""The page of all sources: each once, with how far it was read, where it is and which pages rest on it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import escape
from pathlib import Path

from calculators.sheets import find_sheet
from calculators.sources import SUBJECTS, Source, standing_words
from site_src.settings import ROOT

_FENCE = re.compile(r"^```(sources|sheet)\n(.*?)^```", re.MULTILINE | re.DOTALL)
_LINK = re.compile(r"reference/sources(?:\.md)?#([\w-]+)|\]\(sources\.md#([\w-]+)")
_INCLUDED = re.compile(r'^--8<-- "(.+)"', re.MULTILINE)
_TITLE = re.compile(r"^# (.+?)(?: \{.*)?$", re.MULTILINE)


def cited_on(text: str, includes: Path) -> list[str]:
    """Return the ids of the sources that a page names: in lists, in links, in what it includes and by its sheets."""
    found = [first or second for first, second in _LINK.findall(text)]
    for kind, body in _FENCE.findall(text):
        found += body.split() if kind == "sources" else find_sheet(body.split()[0]).sources
    for name in _INCLUDED.findall(text):
        found += cited_on((includes / name).read_text("utf-8"), includes)
    return list(dict.fromkeys(found))


def uses(docs: Path) -> dict[str, list[tuple[str, str]]]:
    """Return, for each id of a source, the address and the title of each page that names it."""
    found: dict[str, list[tuple[str, str]]] = {}
    for path in sorted(docs.rglob("*.md")):
        if "_includes" in path.parts:
            continue
        text = path.read_text("utf-8")
        title = _TITLE.search(text)
        place = path.relative_to(docs)
        page = (place.parent if place.name == "index.md" else place.with_suffix("")).as_posix().removeprefix(".")
        for name in cited_on(text, docs / "_includes"):
            found.setdefault(name, []).append((page, title[1] if title else page))
    return found


def page_lines(docs: Path = ROOT / "docs") -> Iterator[str]:
    """Write all sources as Markdown: a heading for each subject, and under it a list with an anchor for each."""
    used = uses(docs)
    for subject, sources in SUBJECTS.items():
        yield from ("", f"## {subject}", "", '<ul class="sources all">')
        for name, source in sorted(sources.items(), key=lambda item: item[1].cited.casefold()):
            yield _entry(name, source, used.get(name, []))
        yield from ("</ul>", "")


def _entry(name: str, source: Source, pages: list[tuple[str, str]]) -> str:
    links = " · ".join(f'<a href="page:{page}">{escape(title)}</a>' for page, title in pages)
    found = "".join(
        f' <a class="address" href="{escape(address)}">{escape(address)}</a>' for address in source.address.split()
    )
    standing = f"<strong>{escape(standing_words(source))}</strong>" + (f" · for {links}" if links else "")
    return f'<li id="{name}"><p>{escape(source.cited)}.{found}</p><p class="how-read">{standing}</p></li>'
