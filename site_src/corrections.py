"""Corrections that concern safety: read from a plain file, published with the site, listed on a page."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from datetime import date
from html import unescape
from pathlib import Path
from typing import Any, NamedTuple

from calculators import __version__
from calculators.asking.figures import day_words
from calculators.exercises import EXERCISES
from calculators.sheets import find_sheet
from site_src.settings import ROOT, BuildError

FILE = ROOT / "docs" / "_includes" / "corrections.toml"
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_HEADING = re.compile(r"<h1[^>]*>(.*?)(?:<a class=\"headerlink\"|</h1>)", re.DOTALL)
_TAG = re.compile(r"<[^>]+>")
_WORDS = ("DANGER", "WARNING", "CAUTION")


class Correction(NamedTuple):
    """What was wrong in earlier editions, where, and what to do now."""

    id: str
    date: date
    version: str
    word: str
    wrong: str
    now: str
    sheets: tuple[str, ...] = ()
    pages: tuple[str, ...] = ()
    day_book: bool = False

    @property
    def day(self) -> str:
        """The date in words."""
        return day_words(self.date, weekday=False)


def read_corrections(file: Path = FILE) -> tuple[Correction, ...]:
    """Read the file of corrections, the newest first; without a file there are none.

    Raises
    ------
    BuildError
        If an entry lacks something, has something unknown, or cannot be so.
    """
    if not file.exists():
        return ()
    try:
        entries = tomllib.loads(file.read_text("utf-8")).get("correction", [])
    except tomllib.TOMLDecodeError as fault:
        raise BuildError(f"{file.name}: {fault}") from fault
    found = [_correction(entry) for entry in entries]
    if len({one.id for one in found}) < len(found):
        raise BuildError(f"{file.name}: an id stands twice")
    return tuple(sorted(found, key=lambda one: one.date, reverse=True))


def _correction(entry: Mapping[str, Any]) -> Correction:
    try:
        lists = {name: tuple(entry.get(name, ())) for name in ("sheets", "pages")}
        one = Correction(**{**entry, **lists})
    except TypeError as fault:
        raise BuildError(f"the correction {entry.get('id', entry)!r}: {fault}") from fault
    faults = []
    if not isinstance(one.id, str) or not _ID.fullmatch(one.id):
        faults.append("its id is small letters, digits and hyphens")
    if type(one.date) is not date:
        faults.append("its date is written 2026-12-03")
    if one.word not in _WORDS:
        faults.append(f"its word is one of {', '.join(_WORDS)}")
    if _numbers(one.version) > _numbers(__version__):
        faults.append(f"version {one.version} is not the one that is built here, {__version__}")
    if not (one.sheets or one.pages or one.day_book):
        faults.append("it names no sheet, no page and not the day-book")
    if not str(one.wrong).strip() or not str(one.now).strip():
        faults.append("it does not say what was wrong and what to do now")
    for sheet in one.sheets:
        try:
            find_sheet(sheet)
        except LookupError:
            faults.append(f'there is no sheet "{sheet}"')
    if faults:
        raise BuildError(f"the correction {one.id!r}: {'; '.join(faults)}")
    return one


def _numbers(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in re.findall(r"\d+", str(version)))


def as_data(corrections: Sequence[Correction], site: Path) -> list[dict[str, object]]:
    """Return the corrections as a device is told of them.

    Raises
    ------
    BuildError
        If one names a page that the site does not have, or a sheet that stands on none.
    """
    html = {path: path.read_text("utf-8") for path in site.rglob("*.html")} if corrections else {}
    told = []
    for one in corrections:
        for page in one.pages:
            if not (site / page.strip("/") / "index.html").is_file():
                raise BuildError(f'the correction {one.id!r}: there is no page "{page}"')
        marks = marks_of(one.sheets)
        for mark in marks:
            if not any(mark in text for text in html.values()):
                raise BuildError(f"the correction {one.id!r}: no page has {mark}")
        told.append(
            {
                "id": one.id,
                "day": one.day,
                "word": one.word,
                "sheets": list(one.sheets),
                "pages": [f"{page.strip('/')}/" for page in one.pages],
                "marks": marks,
                "dayBook": one.day_book,
                "where": _where(one, site),
                "wrong": " ".join(one.wrong.split()),
                "now": " ".join(one.now.split()),
            }
        )
    return told


def _where(one: Correction, site: Path) -> list[str]:
    """Return the titles of what was wrong."""
    titles = [find_sheet(sheet).title for sheet in one.sheets]
    for page in one.pages:
        found = _HEADING.search((site / page.strip("/") / "index.html").read_text("utf-8"))
        titles.append(unescape(_TAG.sub("", found[1])) if found else page)
    return titles + ["the day-book’s advice"] * one.day_book


def marks_of(sheets: Sequence[str]) -> list[str]:
    """Return texts in the HTML of the pages where these sheets answer, and where exercises are worked by them.

    By them a device knows the pages in whatever edition it holds: a sheet may stand on other pages than today.
    """
    chapters = sorted({exercise.chapter for exercise in EXERCISES.values() if exercise.sheet in sheets})
    return [
        *(f'data-sheet="{sheet}"' for sheet in sheets),
        *(f'id="exercises-{chapter}"' for chapter in chapters),
    ]


def correction_lines() -> list[str]:
    """Return the whole list as Markdown, for the page about it."""
    found = read_corrections()
    if not found:
        return ["There is none so far."]
    lines: list[str] = []
    for one in found:
        where = [f'<a href="sheet:{sheet}">{find_sheet(sheet).title}</a>' for sheet in one.sheets]
        where += [f'<a href="page:{page.strip("/")}">{page.strip("/")}</a>' for page in one.pages]
        where += ['<a href="page:records/day-book">the day-book’s advice</a>'] if one.day_book else []
        lines += [
            f"## {one.day}",
            "",
            f'<div class="hazard hazard-{one.word.lower()}" markdown>',
            f'<p class="hazard-word">{one.word}</p>',
            "",
            f"**It was wrong before version {one.version}:** {', '.join(where)}",
            "",
            " ".join(one.wrong.split()),
            "",
            f"**Now:** {' '.join(one.now.split())}",
            "</div>",
            "",
        ]
    return lines
