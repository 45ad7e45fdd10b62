"""What each change of a house stands on: the book's own text or edges when it was made, kept beside the house's pages.

An upgrade of the book changes them. The build then says, for each change of the house, what stood there and what
stands there now, until somebody has looked and says so: ``make house DO=looked``.
"""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from calculators.rules import house as moved
from calculators.rules.limit import BOOK
from calculators.rules.malts import BOOK_MALTS, QUANTITIES
from site_src.house.places import find
from site_src.house.remarks import Remark
from site_src.house.values import quoted
from site_src.limits_table import said
from site_src.settings import BuildError

NAME = "stands-on.toml"
_HEAD = (
    "# What the book said under each change of this house when it was made. Written by the build and by\n"
    "# make house DO=looked\n"
)


class Changed(NamedTuple):
    """A change of the house under which the book says something else now."""

    what: str
    before: str
    now: str


def stands_now(remarks: Sequence[Remark], docs: Path) -> dict[str, str]:
    """What the book says under each change, by the change.

    Raises
    ------
    BuildError
        When a page or a place of a remark is not there.
    """
    found: dict[str, str] = {}
    for one in remarks:
        at = docs / f"{one.place.page}.md"
        if not at.is_file():
            raise BuildError(f"house/{one.file}: the book has no page “{one.place.page}”.")
        markdown = at.read_text("utf-8")
        try:
            span = find(markdown, one.place)
        except BuildError as fault:
            raise BuildError(f"house/{one.file}: {fault}") from None
        lines = markdown.splitlines()
        end = span.end if one.place.step or not one.place.anchor else span.part[1]
        kept = lines[span.start : end] if one.place.anchor else [line for line in lines if line.startswith("#")]
        found[one.file] = "\n".join(line.rstrip() for line in kept).strip()
    for name, row in sorted(BOOK.items()):
        found[f"limits.{name}"] = "; ".join(filter(None, said(row)))
    for malt in BOOK_MALTS:
        for key in sorted(moved.MALTS.get(malt.id, {})):
            span_of = getattr(malt, key)
            unit = next(one.unit for one in QUANTITIES if one.id == key)
            found[f"malts.{malt.id}.{key}"] = f"{span_of.low:g} to {span_of.high:g} {unit}".strip()
    return found


def kept(folder: Path) -> dict[str, str]:
    """What was noted, by the change; nothing where nothing was.

    Raises
    ------
    BuildError
        When the file is damaged.
    """
    file = folder / NAME
    if not file.is_file():
        return {}
    try:
        held = tomllib.loads(file.read_text("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        again = "Take it away; make house DO=looked writes it again."
        raise BuildError(f"{NAME} is damaged: {fault}. {again}") from None
    return {str(key): str(value) for key, value in held.items()}


def note(folder: Path, found: Mapping[str, str]) -> None:
    """Write down what each change stands on."""
    folder.mkdir(parents=True, exist_ok=True)
    lines = (f"{quoted(key)} = {quoted(value)}\n" for key, value in sorted(found.items()))
    (folder / NAME).write_text(_HEAD + "".join(lines), "utf-8")


def compare(before: Mapping[str, str], now: Mapping[str, str]) -> list[Changed]:
    """The changes of the house under which the book says something else than was noted."""
    return [Changed(key, before[key], text) for key, text in now.items() if key in before and before[key] != text]


def told(changes: Sequence[Changed]) -> Iterator[str]:
    """Lines that say what changed under each change of the house, in words."""
    for one in changes:
        yield f"The book has changed under {one.what}:"
        yield from (f"  {line}" for line in difference(one.before, one.now))
    if changes:
        yield "Look at each, then say so: make house DO=looked"


def difference(before: str, now: str) -> list[str]:
    """What was taken out and what was put in, a sentence a line."""
    old, new = sentences(before), sentences(now)
    lines = []
    for mark, a, b, c, d in difflib.SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if mark != "equal":
            lines += [f"was: {one}" for one in old[a:b]] + [f"is:  {one}" for one in new[c:d]]
    return lines


def sentences(markdown: str) -> list[str]:
    """The sentences, rows and items of a text, each on one line without marks."""
    plain = re.sub(r"\{:[^}]*\}|</?[a-z][^>]*>", "", markdown)
    plain = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", plain).replace("**", "").replace("*", "")
    parts = re.split(r"(?<=[.!?])\s+(?=[A-Z“\"])|\n\s*\n|\n(?=\s*(?:[-|#]|\d+\.))", plain)
    return [" ".join(part.split()) for part in parts if part.strip()]
