"""One value of a house's file, held against its field, and a value as the file writes it."""

from __future__ import annotations

import difflib
import re
from datetime import date, datetime
from typing import Any

from calculators.asking.figures import plain_number
from calculators.asking.units import shown
from calculators.house.declare import Field
from site_src.house.where import OWN, home
from site_src.phrases import faults as phrases_of
from site_src.settings import ROOT

_MOST_LIKE = 6


def checked(field: Field, value: object) -> Any:
    """A value as its field has it.

    Raises
    ------
    ValueError
        With what is wrong and what to write.
    """
    such = f"such as {field.id} = {as_toml(field, field.example)}"
    if field.kind == "number":
        return _number(field, value, such)
    if field.kind == "date":
        return _day(value, such)
    if field.kind in ("choices", "months"):
        return _several(field, value, such)
    if not isinstance(value, str):
        raise ValueError(f"write text in quotation marks, {such}.")
    line = _line(value, field.longest)
    if field.kind == "choice" and line not in field.options:
        near = difflib.get_close_matches(line, field.options, 1)
        hint = f" Did you mean “{near[0]}”?" if near else ""
        raise ValueError(f"“{line:.40}” is not one of the words.{hint} There are: {', '.join(field.options)}.")
    if field.kind == "stages":
        return _stages(line, such)
    if field.kind == "page":
        return _page(line, such)
    return line


def _number(field: Field, value: object, such: str) -> float:
    unit = f" {shown(field.unit)}" if field.unit else ""
    span = f"a number from {plain_number(field.low)} to {plain_number(field.high)}{unit}"
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise ValueError(f"write {span} without quotation marks, {such}.")
    if not field.low <= value <= field.high:
        raise ValueError(f"{value:.12g} is not {span}, {such}.")
    return float(value)


def _day(value: object, such: str) -> str:
    if isinstance(value, date) and not isinstance(value, datetime):
        found = value
    else:
        try:
            found = date.fromisoformat(value) if isinstance(value, str) and len(value) == 10 else date.min
        except ValueError:
            found = date.min
    if not 1990 <= found.year <= 2100:
        raise ValueError(f"write a day from 1990 to 2100, year first, {such}.")
    return found.isoformat()


def _several(field: Field, value: object, such: str) -> list[str]:
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        raise ValueError(f"write words in square brackets, {such}.")
    if field.kind == "months":
        names = [_line(one, 12) for one in value]
        if len(names) != 12 or not all(names) or len(set(names)) != 12:
            raise ValueError(f"write twelve names, each its own, {such}.")
        return names
    for one in value:
        if one not in field.options:
            raise ValueError(f"“{one:.40}” is not one of the words. There are: {', '.join(field.options)}.")
    if len(set(value)) != len(value):
        raise ValueError(f"a word stands twice; each once, {such}.")
    return list(value)


def _line(value: str, longest: int) -> str:
    """A line of text as it was typed.

    Raises
    ------
    ValueError
        When it is no line, too long, holds what is no letter or a mark of ours, or says what no page may say.
    """
    if len(value) > longest:
        raise ValueError(f"that is {len(value)} letters; {longest} at most.")
    if not value.isprintable():
        raise ValueError("it is one line of plain text; leave out what does not show, such as a new line.")
    if "[[" in value or "--8<--" in value:
        raise ValueError("“[[” and “--8<--” are marks of this book’s own pages; leave them out.")
    if not value.strip():
        raise ValueError("nothing stands in it. Take the line out, or write something.")
    if said := phrases_of(value):
        raise ValueError(f"no paper may say that a place may be gone into or is without harm: {said[0]:.120}")
    return value.strip()


def _stages(line: str, such: str) -> str:
    parts = re.split(r"[\s;,]+", line.strip())
    try:
        hours = [float(one) for one in parts]
    except ValueError:
        raise ValueError(f"write hours with blanks between them, wet first, {such}.") from None
    if not 1 <= len(hours) <= 12 or not all(0.1 <= one <= 72 for one in hours):
        raise ValueError(f"write 1 to 12 stages of 0.1 to 72 h, {such}.")
    return " ".join(f"{one:g}" for one in hours)


def _page(line: str, such: str) -> str:
    name = f"{line.removesuffix('.md').strip('/')}.md"
    there = [ROOT / "docs" / name, home() / name] if name.startswith(f"{OWN}/") else [ROOT / "docs" / name]
    drawn = re.fullmatch(r"house/(card-[a-z0-9-]+|safety-plan)\.md", name)  # made by the build, which looks again
    if not re.fullmatch(r"[a-z0-9/-]+(\.md)?", line) or not (drawn or any(one.is_file() for one in there)):
        near = _like(line)
        raise ValueError(f"there is no page “{line:.60}” in the book, {such}.{near}")
    return line.removesuffix(".md").strip("/")


def _like(words: str) -> str:
    """Pages that somebody may mean by these words, by their address or their title."""
    sought = re.findall(r"[a-z0-9]{3,}", words.lower())
    found = []
    for at in sorted((ROOT / "docs").rglob("*.md")) if sought else ():
        page = at.relative_to(ROOT / "docs").with_suffix("").as_posix()
        title = next((one for one in at.read_text("utf-8").splitlines() if one.startswith("# ")), "")
        if not page.startswith("_") and all(one in f"{page} {title}".lower() for one in sought):
            found.append(page)
    return f" Perhaps: {', '.join(found[:_MOST_LIKE])}." if found else ""


def as_toml(field: Field, text: str) -> str:
    """A value, typed as on the command line, as it is written in the file."""
    if field.kind == "number":
        return text
    if field.kind in ("choices", "months"):
        parts = text.split(",") if field.kind == "choices" else text.replace(",", " ").split()
        return "[" + ", ".join(quoted(one.strip()) for one in parts if one.strip()) + "]"
    return quoted(text)


def quoted(text: str) -> str:
    """A text as TOML writes it."""
    kept = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(one if one.isprintable() else f"\\U{ord(one):08x}" for one in kept) + '"'
