"""References between pages: resolved where a sheet wrote them, and every one of them checked."""

from __future__ import annotations

import os.path
import re
from collections.abc import Iterator, Mapping, Set
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

from site_src.htmlfacts import PageFacts
from site_src.settings import BuildError

_REFERENCE = re.compile(r'href="(sheet|page):([^"#]*)(#[^"]*)?"')
_TAG = re.compile(r"<[a-zA-Z][^>]*>")
_STYLE_ADDRESS = re.compile(r"""url\(\s*["']?([^"')]+)["']?\s*\)|@import\s+["']([^"']+)["']""")
_LEFT_ALONE = {"mailto", "tel", "data"}


def resolved(html: str, page: str, site: Path) -> str:
    """Return the page with each ``sheet:`` and ``page:`` reference made an address relative to the page.

    Raises
    ------
    BuildError
        If a reference names no page of the site.
    """

    def address(found: re.Match[str]) -> str:
        kind, name, anchor = found[1], found[2], found[3] or ""
        target = f"calculators/{name}" if kind == "sheet" else name.strip("/").removesuffix("/index")
        if not (site / target / "index.html").is_file():
            raise BuildError(f'{page} refers to {kind} "{name}", which the site does not have')
        start = Path(page).parent.as_posix()
        relative = os.path.relpath(target or ".", start).replace(os.sep, "/")
        return f'href="{relative}/{anchor}"'

    # Inside tags only: what looks like one in a text, such as a name that a house gave, is text.
    return _TAG.sub(lambda tag: _REFERENCE.sub(address, tag[0]) if 'href="' in tag[0] else tag[0], html)


def check_links(facts: Mapping[str, PageFacts], site: Path, site_url: str) -> None:
    """Fail on an internal address that leads nowhere, and on anything fetched from another origin.

    Parameters
    ----------
    facts : Mapping[str, PageFacts]
        What each page refers to, by the page's path in the site.
    site : Path
        The built site.
    site_url : str
        Where the site will be served; ends in a slash.

    Raises
    ------
    BuildError
        Names every fault found.
    """
    faults = []
    there = _There.of(site)
    for page, found in facts.items():
        faults += [f"{page}: {fault}" for fault in found.against_policy]
        for address in found.fetched:
            if _is_foreign(address, site_url):
                faults.append(f"{page}: fetches {address} from another origin")
        for address in [*found.links, *found.fetched]:
            if not _is_foreign(address, site_url) and (fault := _fault(address, page, facts, there, site_url)):
                faults.append(f"{page}: {fault}")
    for style in sorted(site.rglob("*.css")):
        name = style.relative_to(site).as_posix()
        for address in _style_addresses(style.read_text("utf-8")):
            if _is_foreign(address, site_url):
                faults.append(f"{name}: fetches {address} from another origin")
            elif fault := _fault(address, name, facts, there, site_url):
                faults.append(f"{name}: {fault}")
    if faults:
        raise BuildError("Faults in the built site:\n  " + "\n  ".join(dict.fromkeys(faults)))


class _There(NamedTuple):
    """The paths of all files and folders of a site, read once: pages have tens of thousands of links to few of them."""

    files: Set[str]
    folders: Set[str]

    @classmethod
    def of(cls, site: Path) -> _There:
        is_folder = {path.relative_to(site).as_posix(): path.is_dir() for path in [site, *site.rglob("*")]}
        return cls(
            {name for name, folder in is_folder.items() if not folder},
            {name for name, folder in is_folder.items() if folder},
        )


def _style_addresses(css: str) -> Iterator[str]:
    for found in _STYLE_ADDRESS.finditer(css):
        yield found[1] or found[2]


def _is_foreign(address: str, site_url: str) -> bool:
    if address.startswith(site_url) or address == site_url.rstrip("/"):
        return False
    parts = urlsplit(address)
    if parts.scheme in _LEFT_ALONE:
        return False
    return bool(parts.scheme or parts.netloc)


def _fault(address: str, page: str, facts: Mapping[str, PageFacts], there: _There, site_url: str) -> str:
    """Return what is wrong with an internal address, or nothing."""
    parts = urlsplit(address)
    if parts.scheme in _LEFT_ALONE:
        return ""
    path = unquote(parts.path)
    if path.startswith("/"):  # the page for lost readers uses absolute addresses, and so does a canonical link
        base = urlsplit(site_url).path
        if not f"{path}/".startswith(base):
            return f"{address} leads out of the site"
        target = path[len(base) :]
    else:
        target = f"{page.rpartition('/')[0]}/{path}".lstrip("/") if path else page
    name = os.path.normpath(target).replace(os.sep, "/")
    if name.startswith(".."):
        return f"{address} leads out of the site"
    if name in there.folders:
        if path and not path.endswith(("/", ".")):
            return f"{address} lacks its closing slash"
        name = os.path.normpath(f"{name}/index.html").replace(os.sep, "/")
    if name not in there.files:
        return f"{address} leads nowhere"
    anchor = unquote(parts.fragment)
    if anchor and name in facts and anchor not in facts[name].anchors:
        return f"{address} names an anchor that is not there"
    return ""
