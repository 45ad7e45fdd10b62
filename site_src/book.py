"""The whole handbook as one PDF: the pages of the built site in the order of its navigation, printed by Chromium.

Each page becomes a chapter: what can be pressed is left out, what is folded stands open, links between pages become
links inside the book. It is printed twice: the first print says on which page each chapter begins.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import UTC, datetime
from html import escape
from html.parser import HTMLParser
from pathlib import Path
from posixpath import normpath
from tempfile import TemporaryDirectory
from typing import NamedTuple

from mkdocs.config import load_config
from playwright.sync_api import sync_playwright

from calculators import __version__
from calculators.asking.figures import day_words
from calculators.house import here
from site_src.build import build
from site_src.house.overlay import SECTION
from site_src.settings import ROOT, SOURCE, BuildError

BOOK = ROOT / "steep-to-kiln.pdf"
_STYLE = SOURCE / "book.css"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync"]
_VOID = {"area", "base", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr"}
_LEFT_OUT_TAGS = {"form", "button", "script", "noscript", "template", "progress", "input", "select", "textarea"}
_LEFT_OUT_CLASSES = {
    "headerlink", "sheet-bar", "sheet-buttons", "paper-bar", "paper-code", "term-note", "md-source-file",
    "exercise-kept", "exercise-verdict", "exercise-own", "house-offers", "results-kept", "offline-view",
}  # fmt: skip
_NAMES = {"id", "name", "for", "aria-labelledby", "aria-describedby", "aria-controls"}


class Chapter(NamedTuple):
    """A page of the site as it stands in the book: its part, its address in the site, its title, its HTML."""

    part: str
    page: str
    title: str
    html: str

    @property
    def anchor(self) -> str:
        """Where it begins."""
        return anchor_of(self.page)


def anchor_of(page: str, name: str = "") -> str:
    """The name in the book of a place on a page of the site."""
    start = re.sub(r"[^a-z0-9]+", "-", page.lower()).strip("-") or "home"
    return f"{start}--{name}" if name else start


class _Reader(HTMLParser):
    """Takes the article out of a page, rewritten for the book."""

    def __init__(self, page: str, pages: Sequence[str]) -> None:
        super().__init__(convert_charrefs=False)
        self.page, self.pages = page, set(pages)
        self.out: list[str] = []
        self.title = ""
        self._depth = 0  # inside the article
        self._skip = 0  # inside something left out
        self._in_title = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        if not self._depth:
            self._depth = int(tag == "article")
            return
        if tag not in _VOID:
            self._depth += 1
        if self._skip or tag in _LEFT_OUT_TAGS or _LEFT_OUT_CLASSES & set(values.get("class", "").split()):
            self._skip += tag not in _VOID
            return
        self._in_title = tag == "h1"
        if tag == "details":
            values["open"] = ""
        self.out.append(self._tag(tag, values))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if self._depth and not self._skip and tag not in _LEFT_OUT_TAGS:
            self.out.append(self._tag(tag, {name: value or "" for name, value in attrs}, "/"))

    def _tag(self, tag: str, values: Mapping[str, str], end: str = "") -> str:
        words = [f'{name}="{escape(self._rewritten(name, value))}"' for name, value in values.items()]
        return f"<{' '.join([tag, *words])}{end}>"

    def _rewritten(self, name: str, value: str) -> str:
        if name in _NAMES:
            return " ".join(anchor_of(self.page, one) for one in value.split())
        if name.removeprefix("xlink:") == "href":
            return self._link(value)
        if name == "src":
            return normpath(f"{self.page}/{value}")
        return re.sub(r"url\(#([^)]+)\)", lambda found: f"url(#{anchor_of(self.page, found[1])})", value)

    def _link(self, address: str) -> str:
        path, _, name = address.partition("#")
        if re.match(r"[a-z]+:", address):
            return address
        page = normpath(f"{self.page}/{path}").strip("/").removeprefix(".") if path else self.page
        return f"#{anchor_of(page, name)}" if page in self.pages else "#" + anchor_of("contents")

    def handle_endtag(self, tag: str) -> None:
        if not self._depth or tag in _VOID:
            return
        self._depth -= 1
        if self._skip:
            self._skip -= 1
        elif self._depth:
            self._in_title = self._in_title and tag != "h1"
            self.out.append(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        if self._depth and not self._skip:
            self.out.append(data)
            if self._in_title:
                self.title += data

    def handle_entityref(self, name: str) -> None:
        self.handle_data(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self.handle_data(f"&#{name};")


def pages_in_order() -> list[tuple[str, str]]:
    """The part and the address of each page, in the order of the navigation."""

    def walk(items: Sequence[object], part: str) -> Iterator[tuple[str, str]]:
        for item in items:
            if isinstance(item, str):
                yield part, re.sub(r"(^|/)index$", "", item.removesuffix(".md"))
            elif isinstance(item, dict):
                for name, inside in item.items():
                    if isinstance(inside, str):
                        yield from walk([inside], part)
                    else:
                        yield from walk(inside, part or str(name))

    return list(walk(load_config(str(ROOT / "mkdocs.yml")).nav or [], ""))


def pages_of_house(site: Path) -> list[tuple[str, str]]:
    """The part and the address of each page of this house’s own in a built site, its first pages first."""
    first = {page: number for number, page in enumerate(("", "safety-plan"))}
    last = {page: number for number, page in enumerate(("papers", "acknowledge"), 1000)}
    found = [file.parent.relative_to(site / "house") for file in (site / "house").rglob("index.html")]
    names = sorted("" if one == Path() else one.as_posix() for one in found)
    names.sort(key=lambda name: first.get(name, last.get(name, 500)))
    return [(SECTION, f"house/{name}".rstrip("/")) for name in names]


def chapters_of(site: Path, wanted: Sequence[tuple[str, str]]) -> list[Chapter]:
    """The chapters made of the pages of a built site."""
    addresses = [page for _, page in wanted]
    found = []
    for part, page in wanted:
        reader = _Reader(page, addresses)
        reader.feed((site / page / "index.html").read_text("utf-8"))
        found.append(Chapter(part, page, reader.title.strip(), "".join(reader.out)))
    return found


def book_html(chapters: Sequence[Chapter], styles: Sequence[str], starts: Mapping[str, int], date: str) -> str:
    """The book as one HTML document: cover, table of contents, chapters.

    Parameters
    ----------
    chapters : sequence of Chapter
        In order.
    styles : sequence of str
        Addresses of the style sheets.
    starts : mapping of str to int
        The number of the page on which a chapter begins, by its anchor; none on the first print.
    date : str
        Of the edition.
    """
    edition = f"Version {__version__}, {date}"
    links = "".join(f'<link rel="stylesheet" href="{escape(one)}">' for one in styles)
    lines, part = [], ""
    for chapter in chapters:
        if chapter.part != part:
            part = chapter.part
            lines.append(f'<li class="book-part">{escape(part)}</li>')
        number = starts.get(chapter.anchor, "")
        lines.append(f'<li><a href="#{chapter.anchor}"><span>{chapter.title}</span><span>{number}</span></a></li>')
    bodies = "".join(
        f'<article class="md-content__inner md-typeset book-chapter" id="{one.anchor}">{one.html}</article>'
        for one in chapters
    )
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Steep to Kiln</title>{links}</head>'
        '<body dir="ltr" data-md-color-scheme="default" data-md-color-primary="custom" data-md-color-accent="custom">'
        '<div class="md-content"><article class="md-content__inner md-typeset book-cover"><h1>Steep to Kiln</h1>'
        f"<p>A working handbook for people who malt barley</p>{_of_house()}"
        f"<p>{edition}</p><p>Batches and readings of the example maltings are invented. Local codes, the site’s own "
        "permits and competent persons come before this book. Nothing in it allows anyone into a vessel.</p></article>"
        f'<article class="md-content__inner md-typeset book-contents" id="contents"><h1>Contents</h1>'
        f"<ul>{''.join(lines)}</ul></article>{bodies}</div></body></html>"
    )


def _of_house() -> str:
    """The name of the house and its line for the cover; nothing where it has said neither."""
    lines = (here.house().get(key) for key in ("name", "cover"))
    return "".join(f'<p class="book-house">{escape(str(line))}</p>' for line in lines if line)


def starting_pages(pdf: bytes, anchors: Sequence[str]) -> dict[str, int]:
    """The number of the page on which each named place stands, as Chromium wrote it into the PDF.

    Raises
    ------
    BuildError
        When a place is not named in it.
    """
    objects = {int(number): text for number, text in re.findall(rb"(?s)\n(\d+) 0 obj\n(.*?)\nendobj", pdf)}
    order: list[int] = []

    def walk(number: int) -> None:
        text = objects[number]
        kids = re.search(rb"(?s)/Kids\s*\[(.*?)\]", text)
        if kids is None:
            order.append(number)
            return
        for kid in re.findall(rb"(\d+) 0 R", kids[1]):
            walk(int(kid))

    root = re.search(rb"/Type\s*/Catalog.*?/Pages (\d+) 0 R", b"\n".join(objects.values()), re.DOTALL)
    if root is None:
        raise BuildError("The PDF that Chromium wrote names no pages")
    walk(int(root[1]))
    at = {number: place for place, number in enumerate(order, 1)}
    found = {}
    for anchor in anchors:
        place = re.search(rb"[/(]" + re.escape(anchor.encode()) + rb"\)?\s*\[\s*(\d+) 0 R", pdf)
        if place is None:
            raise BuildError(f"The PDF that Chromium wrote does not name {anchor}")
        found[anchor] = at[int(place[1])]
    return found


def make_book(
    to: Path = BOOK, *, only: Sequence[str] = (), site: Path | None = None, say: Callable[[str], None] = print
) -> Path:
    """Print the book.

    Parameters
    ----------
    to : Path
        The PDF to write.
    only : sequence of str
        Addresses of pages, such as ``procedures/casting``; all when empty.
    site : Path, optional
        A site that is built already.
    say : Callable[[str], None]
        Called with a line to show.

    Raises
    ------
    BuildError
        When there is no Chromium, or the site cannot be built.
    """
    program = shutil.which("chromium") or shutil.which("chromium-browser")
    if program is None:
        raise BuildError("The book is printed by the browser Chromium: install Debian’s package chromium.")
    with TemporaryDirectory() as folder:
        built = site or build(Path(folder) / "site", quick=True, say=say)
        order = [*pages_in_order(), *pages_of_house(built)]
        wanted = [(part, page) for part, page in order if not only or page in only]
        chapters = chapters_of(built, wanted)
        home = (built / "index.html").read_text("utf-8")
        styles = [f"{built.as_uri()}/{one}" for one in re.findall(r'<link rel="stylesheet" href="([^"]+)"', home)]
        styles.append(_STYLE.as_uri())
        date = day_words(datetime.now(UTC), weekday=False)
        paper = Path(folder) / "book.html"
        say(f"Printing {len(chapters)} chapters")
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=program, args=FLAGS)
            page = browser.new_page()
            page.set_default_timeout(300_000)
            starts: dict[str, int] = {}
            for _ in range(2):
                paper.write_text(book_html(chapters, styles, starts, date), "utf-8")
                page.goto(paper.as_uri())
                pdf = page.pdf(prefer_css_page_size=True, outline=True, tagged=True)
                found = starting_pages(pdf, [chapter.anchor for chapter in chapters])
                if found == starts:
                    break
                starts = found
            browser.close()
        to.write_bytes(pdf)
    return to
