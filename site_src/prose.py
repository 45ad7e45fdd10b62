"""Read the handbook's prose as an editor would: how long the sentences are, and words that say nothing.

``python -m site_src.prose`` is part of ``make check``.
"""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from statistics import mean

from site_src.settings import ROOT

WORDS = Path(__file__).with_name("prose.toml")
MOST_WORDS = 17
"""What a sentence of a procedure may have on average."""
LONGEST = 45
"""What any one sentence may have without a semicolon, on any page."""

_LEFT_OUT = [
    re.compile(r"\A^---\n.*?\n---\n", re.DOTALL | re.MULTILINE),  # what is said about a page
    re.compile(r"^ *(`{3,}|~{3,}).*?^ *\1", re.DOTALL | re.MULTILINE),  # blocks
    re.compile(r"<!--.*?-->", re.DOTALL),
    re.compile(r'^--8<--.*$', re.MULTILINE),
    re.compile(r"^#.*$", re.MULTILINE),  # headings
    re.compile(r"^\s*\|.*$", re.MULTILINE),  # tables
    re.compile(r"\{[^}\n]*\}"),  # attributes
    re.compile(r"<[^>]+>"),
]
_LINK = re.compile(r"!?\[([^\]]*)\]\([^)]*\)")
_ITEM = re.compile(r"^\s*(?:[-*]|\d+\.)\s+", re.MULTILINE)
_END = re.compile(r"(?<=[.!?])[\"”’)*_]*\s+(?=[\"“‘(*_]*[A-Z0-9])|\n{2,}")
_WORD = re.compile(r"[^\W_](?:[\w’'.,%-]*\w)?")


def prose(markdown: str) -> str:
    """The text of a page without its blocks, tables, headings and marks; an item of a list is a paragraph."""
    for pattern in _LEFT_OUT:
        markdown = pattern.sub("\n\n" if "^" in pattern.pattern else " ", markdown)
    return _ITEM.sub("\n\n", _LINK.sub(r"\1", markdown)).replace("**", "")


def sentences(markdown: str) -> list[str]:
    """The sentences of a page, each on one line; what has no more than two words is no sentence."""
    found = (" ".join(part.split()) for part in _END.split(prose(markdown)))
    return [one for one in found if len(_WORD.findall(one)) > 2]


def length(sentence: str) -> int:
    """How many words it has."""
    return len(_WORD.findall(sentence))


def words_not_used(path: Path = WORDS) -> dict[str, str]:
    """What is not written here, in lower case, with what to do instead."""
    table: dict[str, str] = tomllib.loads(path.read_text("utf-8"))["instead"]
    return table


def faults(name: str, markdown: str, unused: dict[str, str]) -> Iterator[str]:
    """Yield what an editor would say about a page, one line each; ``name`` is its path within the handbook."""
    said = sentences(markdown)
    for sentence in said:
        for part in sentence.split(";"):
            if length(part) > LONGEST:
                yield f"{name}: {length(part)} words in one breath, at most {LONGEST}: {part.strip()[:80]} …"
        for word, instead in unused.items():
            if re.search(rf"(?<!\w){re.escape(word)}(?!\w)", sentence, re.IGNORECASE):
                yield f"{name}: “{word}”: {instead}. {sentence[:80]} …"
    if name.startswith("procedures/") and said:
        average = mean(map(length, said))
        if average >= MOST_WORDS:
            yield f"{name}: {average:.1f} words a sentence on average; a procedure stays under {MOST_WORDS}"


def main() -> int:
    """Read every page; print what is found and return how it ended."""
    docs = ROOT / "docs"
    unused = words_not_used()
    found = [
        fault
        for path in sorted(docs.rglob("*.md"))
        for fault in faults(path.relative_to(docs).as_posix(), path.read_text("utf-8"), unused)
    ]
    print(*found, sep="\n", end="\n" if found else "")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
