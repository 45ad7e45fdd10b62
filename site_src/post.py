"""The pass after mkdocs: from its pages to a site that can be served from anywhere."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence, Set
from pathlib import Path

from calculators.daybook.lines.entry import SCHEMA
from site_src.carried import check_carried
from site_src.compress import compress_file, compress_site
from site_src.corrections import Correction, as_data
from site_src.edition import put_mark
from site_src.engines import place_engines
from site_src.hashing import hash_names, imported
from site_src.hosts import write_hosts
from site_src.htmlfacts import read_page
from site_src.joining import join_modules, join_styles
from site_src.links import check_links, resolved
from site_src.notices import write_notices
from site_src.offline import write_list, write_worker
from site_src.policy import policy, with_policy, write_headers
from site_src.runtime import read_pins
from site_src.search import split_index
from site_src.settings import CACHE, BuildError
from site_src.shorter import shorten
from site_src.wide_tables import with_heads

_BROWSER = "assets/browser"
_LOTS = {"offline/offline.mjs": "offline-parts.mjs", "daybook/daybook.mjs": "book-parts.mjs"}
"""What pages need beyond what every page has, by the script that they bring."""
_BOOKS = {"write": "daybook.mjs", "hand-over": "hand-over.mjs", "codes": "codes.mjs", "look-back": "back.mjs"}
"""The script of each page of the day-book, by what it does."""
_AHEAD = ("write", "look-back")
"""Those that show what was drawn of the book last before the page is whole."""
_NOT_BEFORE = '<link rel="expect" href="#from-the-book" blocking="render">'
"""There nothing is drawn before the book's part has come: a picture of half a page costs as much as the last one."""
_THEME = re.compile(r'<script src="(?P<theme>[^"]*assets/javascripts/bundle\.[^"]+)"></script>')
_LATER = r'<link rel="preload" as="script" href="\g<theme>" data-theme><script nomodule src="\g<theme>"></script>'
"""There, and with a sheet, the theme's script comes after what is waited for: ``shared/theme.mjs`` brings it."""
_BOOK = re.compile(r'<section[^>]* data-day-book="([\w-]+)"')
_MANIFEST = "manifest.webmanifest"
_SHEET = re.compile(r'<section class="sheet"[^>]* data-sheet="([\w-]+)"')
_PAGE_SCRIPT = re.compile(rf'<script src="([^"]*{_BROWSER}/)page\.')


def finish(
    site: Path,
    site_url: str,
    cache: Path = CACHE,
    *,
    corrections: Sequence[Correction] = (),
    quick: bool = False,
    say: Callable[[str], None] = print,
) -> None:
    """Turn what mkdocs wrote into the site.

    Parameters
    ----------
    site : Path
        The folder mkdocs wrote; changed in place.
    site_url : str
        Where the site will be served; ends in a slash.
    cache : Path
        Where the runtime and compressed files are kept between builds.
    corrections : Sequence[Correction]
        Corrections that concern safety, to be published with the site.
    quick : bool
        Spend less on compressing large files.
    say : Callable[[str], None]
        Called with a line to show.

    Raises
    ------
    BuildError
        On any fault: nothing half right is left to be published unnoticed.
    """
    pins = read_pins()
    check_carried(site)
    filled, on_small = place_engines(site, pins, cache, say, quick=quick)
    write_worker(site)
    browser = site / _BROWSER
    join_modules(browser, "page.mjs", _LOTS)
    shorten(browser, cache, say)
    pages = join_styles(browser, _pages(site))
    filled[_LOTS["daybook/daybook.mjs"]] = {'"%%SCHEMA%%"': str(SCHEMA)}
    names = hash_names(browser, filled)
    manifest = site / _MANIFEST
    manifest.write_text(_renamed(manifest.read_text("utf-8"), names), "utf-8")
    write_notices(site, pins)
    split_index(site)
    for page, html in pages.items():
        html = _asked_at_once(with_heads(_renamed(_owned(html, page), names)), browser, names, on_small)
        pages[page] = resolved(html, page, site)
    facts = {page: read_page(html) for page, html in pages.items()}
    text = policy(facts.values())
    for page, html in pages.items():
        (site / page).write_text(with_policy(html, text, page), "utf-8")
    write_headers(site, text)
    write_hosts(site, site_url)
    check_links(facts, site, site_url)
    for stale in site.rglob("*.gz"):  # mkdocs writes sitemap.xml.gz with a date inside
        stale.unlink()
    mark = put_mark(site, [one.id for one in corrections])
    say("Compressing")
    compress_site(site, cache, quick=quick)
    compress_file(write_list(site, mark, as_data(corrections, site)), cache)


def _renamed(text: str, names: Mapping[str, str]) -> str:
    for old, new in names.items():
        text = text.replace(f"{_BROWSER}/{old}", f"{_BROWSER}/{new}")
    return text


def _owned(html: str, page: str) -> str:
    """Mark the sheet on its own page: that page has said its title already."""
    found = re.fullmatch(r"calculators/([^/]+)/index\.html", page)
    if not found:
        return html
    section = f'<section class="sheet" id="{found[1]}"'
    if section not in html:
        return html
    html = html.replace("<main ", '<main data-of-sheet="" ', 1)
    return html.replace(section, section.replace(" id=", ' data-own="" id='), 1)


def _asked_at_once(html: str, browser: Path, names: Mapping[str, str], on_small: Set[str]) -> str:
    """Have a page with a sheet or a day-book ask for all its modules before it is read to its end."""
    book = _BOOK.search(html)
    later = _BOOKS.get(book[1]) if book else None
    if 'class="sheet"' not in html and not later:
        return html
    begun = [names[name] for name in ("page.mjs", later) if name]
    modules = dict.fromkeys(name for one in begun for name in (one, *imported(browser, one)))
    if on_small & set(_SHEET.findall(html)):
        modules[names["small-worker.mjs"]] = None
    early = f'"{names["early.mjs"]}"'
    if book:
        early = f'"{names["first.mjs"]}" data-ahead="{book[1]}"' if book[1] in _AHEAD else ""
    return _with_modules(html, list(modules), early)


def _with_modules(html: str, modules: Sequence[str], early: str) -> str:
    """Have a page ask for its modules at once, and run what comes before the page is drawn."""
    script = _PAGE_SCRIPT.search(html)
    start = html.find('<link rel="stylesheet"')
    if not script or start < 0:
        raise BuildError(f"a page with a sheet does not load {_BROWSER}/page.mjs, or has no style sheet")
    links = "".join(f'<link rel="modulepreload" href="{script[1]}{module}">' for module in modules)
    first = f'<script src="{script[1]}{early[1:]} type="module" async></script>' if early else ""
    ahead = "data-ahead" in early
    html = f"{html[:start]}{_NOT_BEFORE if ahead else ''}{links}{first}{html[start:]}"
    return _THEME.sub(_LATER, html, count=1) if early else html


def _pages(site: Path) -> dict[str, str]:
    return {path.relative_to(site).as_posix(): path.read_text("utf-8") for path in sorted(site.rglob("*.html"))}
