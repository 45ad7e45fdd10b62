"""The trade's words: each declared once, listed on a page of their own, shown where it first stands on any other.

A Markdown extension. In body text the first occurrence of each word becomes a link to its entry, with the meaning
beside it for hover, focus and tap::

    markdown.markdown(text, extensions=["site_src.terms"])

Left alone are headings, links, code, tables, figures, sheets, boxes on hazards and records. The block ``all-terms``,
which has no body, becomes the list of all words; a page that holds it gets no links.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from html import escape
from pathlib import Path
from typing import NamedTuple
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor

from site_src.settings import ROOT, BuildError

DECLARED = ROOT / "docs" / "_includes" / "terms.toml"
ENTRIES = "page:reference/terms#"
_BLOCK = "```all-terms"
_HEADINGS = {f"h{level}" for level in range(1, 7)}
_LEFT_ALONE_TAGS = _HEADINGS | {"a", "code", "pre", "table", "figure", "svg", "summary", "button"}
_LEFT_ALONE_CLASSES = {"hazard", "record", "sheet", "hang-up", "doors", "stop", "no-terms"}


class Term(NamedTuple):
    """A word of the trade: its name, other forms of it, whether the bare name is linked, its meaning, its page.

    ``unlike`` has the turns of speech in which the word means something else. ``unit`` is its sign, which is linked
    behind a number only: elsewhere a letter is a letter.
    """

    name: str
    also: tuple[str, ...]
    linked: bool
    text: str
    page: str
    unlike: tuple[str, ...] = ()
    unit: str = ""

    @property
    def anchor(self) -> str:
        """The id of its entry."""
        return re.sub(r"[^a-z0-9]+", "-", self.name.lower()).strip("-")

    @property
    def forms(self) -> tuple[str, ...]:
        """What is linked when it stands in a text."""
        return (self.name, *self.also) if self.linked else self.also


def _stands_in(form: str, words: str) -> bool:
    return re.search(rf"(?<![\w-]){re.escape(form)}(?![\w-])", words, re.IGNORECASE) is not None


def read_terms(path: Path = DECLARED) -> list[Term]:
    """Read the terms, by name.

    Raises
    ------
    BuildError
        When a term lacks its text, has an unknown key, or a form belongs to two terms.
    """
    terms, owner = [], dict[str, str]()
    for entry in tomllib.loads(path.read_text("utf-8"))["term"]:
        if unknown := set(entry) - {*Term._fields}:
            raise BuildError(f"{path.name}: {entry['name']} has {', '.join(sorted(unknown))}, which no term has")
        if not entry.get("text"):
            raise BuildError(f"{path.name}: {entry['name']} has no text")
        also = tuple(entry.get("also", ()))
        unlike = tuple(entry.get("unlike", ()))
        linked, page, unit = entry.get("linked", True), entry.get("page", ""), entry.get("unit", "")
        term = Term(entry["name"], also, linked, entry["text"], page, unlike, unit)
        if bare := [turn for turn in unlike if not any(_stands_in(form, turn) for form in term.forms)]:
            raise BuildError(f"{path.name}: {term.name} does not stand in “{bare[0]}”")
        for form in filter(None, (term.name, *also, unit)):
            if other := owner.get(form.lower()):
                raise BuildError(f"{path.name}: “{form}” stands for {other} and for {term.name}")
            owner[form.lower()] = term.name
        terms.append(term)
    return sorted(terms, key=lambda term: term.name.lower())


@cache
def _declared() -> list[Term]:
    return read_terms()


def entry_lines(terms: list[Term]) -> Iterator[str]:
    """Write all terms as Markdown: a heading with an anchor for each, its other forms, its meaning, its page."""
    yield '<p class="all-terms">' + " · ".join(f'<a href="#{t.anchor}">{escape(t.name)}</a>' for t in terms) + "</p>"
    for term in terms:
        yield from ("", f"## {term.name[0].upper()}{term.name[1:]} {{#{term.anchor}}}", "", term.text)
        if also := list(filter(None, (*term.also, term.unit))):
            yield from ("", f"Also: {', '.join(also)}.")
        if term.page:
            yield from ("", f'<p class="taught"><a href="page:{term.page}">More about it</a></p>')
    yield ""


class TermsExtension(Extension):
    """Links each term where it first stands on a page."""

    def __init__(self, terms: list[Term] | None = None) -> None:
        super().__init__()
        self.terms = terms
        self.listing = False

    def extendMarkdown(self, md: Markdown) -> None:
        """Add the list before other blocks are read, and the links after inline marks are."""
        terms = self.terms if self.terms is not None else _declared()
        md.registerExtension(self)
        md.preprocessors.register(_Entries(md, self, terms), "all-terms", 27)
        md.treeprocessors.register(_Links(md, self, terms), "terms", 6)

    def reset(self) -> None:
        """Forget the last page."""
        self.listing = False


class _Entries(Preprocessor):
    def __init__(self, md: Markdown, extension: TermsExtension, terms: list[Term]) -> None:
        super().__init__(md)
        self.extension, self.terms = extension, terms

    def run(self, lines: list[str]) -> list[str]:
        if _BLOCK not in lines:
            return lines
        self.extension.listing = True
        at = lines.index(_BLOCK)
        return [*lines[:at], *entry_lines(self.terms), *lines[at + 2 :]]


class _Links(Treeprocessor):
    def __init__(self, md: Markdown, extension: TermsExtension, terms: list[Term]) -> None:
        super().__init__(md)
        self.extension = extension
        self.by_form: Mapping[str, Term] = {form.lower(): term for term in terms for form in term.forms}
        forms = sorted(self.by_form, key=len, reverse=True)
        words = "|".join(re.escape(form).replace(r"\ ", r"\s+") for form in forms) or r"(?!)"
        units = {term.unit: term for term in terms if term.unit}
        self.by_form = {**self.by_form, **{sign.lower(): term for sign, term in units.items()}}
        signs = "|".join(rf"(?<=\d\s)(?-i:{re.escape(sign)})" for sign in units) or r"(?!)"
        self.pattern = re.compile(rf"(?:(?<![\w-])(?:{words})|{signs})(?![\w-])", re.IGNORECASE)
        self.seen: set[str] = set()

    def run(self, root: Element) -> None:
        self.seen = set()
        if not self.extension.listing:
            self._walk(root)

    def _walk(self, parent: Element) -> None:
        if parent.tag in _LEFT_ALONE_TAGS or _LEFT_ALONE_CLASSES & set(parent.get("class", "").split()):
            return
        children = list(parent)
        parent.text, made = self._cut(parent.text or "")
        for place, child in enumerate(made):
            parent.insert(place, child)
        for child in children:
            self._walk(child)
            child.tail, made = self._cut(child.tail or "")
            at = list(parent).index(child) + 1
            for place, link in enumerate(made):
                parent.insert(at + place, link)

    def _cut(self, text: str) -> tuple[str, list[Element]]:
        """Return the text up to the first new term, and the links that follow, each with the text after it."""
        made: list[Element] = []
        start, before = 0, text
        for found in self.pattern.finditer(text):
            term = self.by_form[" ".join(found[0].lower().split())]
            if term.anchor in self.seen or _means_another(term, text, found):
                continue
            self.seen.add(term.anchor)
            if made:
                made[-1].tail = text[start : found.start()]
            else:
                before = text[: found.start()]
            made.append(_link(term, found[0]))
            start = found.end()
        if made:
            made[-1].tail = text[start:]
        return before, made


def _means_another(term: Term, text: str, found: re.Match[str]) -> bool:
    """Whether the word stands in one of the turns of speech in which it is not the term."""
    return any(
        other.start() <= found.start() and found.end() <= other.end()
        for turn in term.unlike
        for other in re.finditer(re.escape(turn).replace(r"\ ", r"\s+"), text, re.IGNORECASE)
    )


def _link(term: Term, words: str) -> Element:
    note = f"term-{term.anchor}"
    outer = Element("span", {"class": "term"})
    link = Element("a", {"href": ENTRIES + term.anchor, "aria-describedby": note})
    link.text = words
    shown = Element("span", {"class": "term-note", "id": note, "role": "tooltip", "data-search-exclude": ""})
    shown.text = term.text
    outer.extend((link, shown))
    return outer


def makeExtension() -> TermsExtension:
    """Return the extension, as Python-Markdown asks for it."""
    return TermsExtension()
