"""What the command writes into a house's file: new entries at its end, what a reader wrote himself left as it is."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from calculators.house.declare import Section
from site_src.house.check import ASKED
from site_src.house.example import HEAD, field_line, open_line
from site_src.house.values import quoted

_ASKED_LINE = re.compile(rf"^{ASKED} = \[[^\]\n]*\].*$", re.MULTILINE)


def with_entry(text: str, section: Section, written: Mapping[str, str]) -> str:
    """The file with one more entry: a line for each answer, and a commented one for each question left open.

    Parameters
    ----------
    text : str
        The file so far; empty for a new one.
    section : Section
        Whose entry it is.
    written : mapping of str to str
        The values by field, as the file writes them.
    """
    text = text or HEAD
    lines = [
        field_line(one, written[one.id]) if one.id in written else open_line(section, one) for one in section.fields
    ]
    opened = re.search(rf"^{re.escape(section.heading)}.*$", text, re.MULTILINE)
    if opened and not section.many:  # its missing lines go under the heading that stands
        new = "".join(f"\n{field_line(one, written[one.id])}" for one in section.fields if one.id in written)
        return text[: opened.end()] + new + text[opened.end() :]
    return f"{text.rstrip()}\n\n{section.heading}\n" + "\n".join(lines) + "\n"


def with_asked(text: str, asked: list[str]) -> str:
    """The file with the sections that were asked, so that the command goes on behind them."""
    text = text or HEAD
    line = f"{ASKED} = [{', '.join(quoted(one) for one in asked)}]"
    if _ASKED_LINE.search(text):
        return _ASKED_LINE.sub(lambda _: f"{line}  # take one out, and the command asks it again", text, count=1)
    first = re.search(r"^\[", text, re.MULTILINE)
    at = first.start() if first else len(text)
    comment = re.search(r"(?:^#.*\n)+\Z", text[:at], re.MULTILINE)  # what stands right above a heading belongs to it
    at = comment.start() if comment and first else at
    return f"{text[:at].rstrip()}\n{line}  # take one out, and the command asks it again\n\n{text[at:]}"


def put(file: Path, text: str) -> None:
    """Write the file whole or not at all."""
    beside = file.with_name(f"{file.name}.new")
    beside.write_text(text, "utf-8")
    beside.replace(file)
