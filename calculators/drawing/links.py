"""References in a text to sheets and pages by id.

Written ``[[sheet:steep-timing]]`` or ``[[page:safety/confined-vessels|the words of the link]]``. A heading of a page is
named by its anchor: ``[[page:safety/manual-handling#carry|carrying]]``.
"""

from __future__ import annotations

import re
from xml.etree.ElementTree import Element, SubElement

_REFERENCE = re.compile(r"\[\[(sheet|page):([a-z0-9/_-]+)(#[a-z0-9-]+)?(?:\|([^\]]+))?\]\]")


def references(text: str) -> list[tuple[str, str]]:
    """Every (kind, id) that a text names."""
    return [(match[1], match[2]) for match in _REFERENCE.finditer(text)]


def _words(match: re.Match[str]) -> str:
    return match[4] or match[2].rsplit("/", 1)[-1].replace("-", " ")


def plain(text: str) -> str:
    """The text with each reference replaced by its words, for the command line and for print."""
    return _REFERENCE.sub(_words, text)


def as_markdown(text: str) -> str:
    """The text with each reference as a link of Markdown, for a page that lies in a folder of ``docs``."""
    folder = {"sheet": "../calculators/", "page": "../"}
    return _REFERENCE.sub(lambda match: f"[{_words(match)}]({folder[match[1]]}{match[2]}.md{match[3] or ''})", text)


def address(kind: str, name: str, root: str | None, anchor: str = "") -> str:
    """Where a reference leads.

    With ``root`` (the relative address of the site's root) the address is ready to use;
    without it the build resolves ``sheet:`` and ``page:`` and checks that they exist. ``anchor`` begins with ``#``.
    """
    if root is None:
        return f"{kind}:{name}{anchor}"
    return (f"{root}calculators/{name}/" if kind == "sheet" else f"{root}{name}/") + anchor


def fill(parent: Element, text: str, root: str | None) -> Element:
    """Put a text with its references, as links, at the end of an element without children."""
    last: Element | None = None
    start = 0
    for match in _REFERENCE.finditer(text):
        _append(parent, last, text[start : match.start()])
        last = SubElement(parent, "a", {"href": address(match[1], match[2], root, match[3] or "")})
        last.text = _words(match)
        start = match.end()
    _append(parent, last, text[start:])
    return parent


def _append(parent: Element, last: Element | None, words: str) -> None:
    if last is None:
        parent.text = (parent.text or "") + words
    else:
        last.tail = (last.tail or "") + words
