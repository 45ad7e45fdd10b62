"""The named places of a page: the page, a heading by its anchor, a numbered step below a heading."""

from __future__ import annotations

import difflib
import re
from typing import NamedTuple

from markdown.extensions.toc import slugify

from site_src.settings import BuildError

_HEADING = re.compile(r"^(#{1,6})\s+(.*?)\s*(?:\{[^}]*#([\w-]+)[^}]*\})?\s*$")
_STEP = re.compile(r"^(\d+)\.\s")
_STEPS = re.compile(r'^<div class="steps[^"]*"')
_BOX = re.compile(r'--8<-- "hazards/|class="hazard')
GUARDS = re.compile(
    r"\b(?:lock\w*|isolat\w*|guard\w*|fence|rail|gas|meter|alarm|permit|nobody|never|stay out|"
    r"keep (?:off|away|clear|out)|shout|gloves|goggles|mask|lone|alone|outside)\b",
    re.IGNORECASE,
)
"""Words by which a step keeps somebody from harm."""
_NAME = re.compile(r"([a-z0-9/-]+)(?:#([\w-]+))?(?:\s+step\s+(\d+))?")


class Place(NamedTuple):
    """Where a house’s remark goes: a page, an anchor on it or none, a step below that or 0."""

    page: str
    anchor: str = ""
    step: int = 0

    def __str__(self) -> str:
        return f"{self.page}{f'#{self.anchor}' if self.anchor else ''}{f' step {self.step}' if self.step else ''}"


class Span(NamedTuple):
    """The lines of a place on its page, from the first to one past the last, and the lines of the part around it."""

    start: int
    end: int
    part: tuple[int, int]


def place_of(words: str) -> Place | None:
    """A place as it is written, ``procedures/steeping#drain step 2``; None when that is not how one is written."""
    found = _NAME.fullmatch(words.strip())
    if found is None or (found[3] and not found[2]):
        return None
    return Place(found[1], found[2] or "", int(found[3] or 0))


def headings(lines: list[str]) -> list[tuple[int, int, str]]:
    """Every heading of a page: its line, its level, its anchor."""
    found, seen, fenced = [], dict[str, int](), False
    for number, line in enumerate(lines):
        if line.lstrip().startswith(("```", "~~~")):
            fenced = not fenced
        heading = None if fenced else _HEADING.match(line)
        if heading:
            name = heading[3] or slugify(re.sub(r"\]\([^)]*\)|[\[\]*_`]", "", heading[2]), "-")
            count = seen[name] = seen.get(name, -1) + 1
            found.append((number, len(heading[1]), f"{name}_{count}" if count else name))
    return found


def steps(lines: list[str], start: int, end: int) -> dict[int, tuple[int, int]]:
    """The numbered steps between two lines: number to its lines, from its own to one past its last."""
    found: dict[int, tuple[int, int]] = {}
    inside, current = False, 0
    for number in range(start, end):
        line = lines[number]
        if _STEPS.match(line):
            inside = True
        elif inside and line.startswith("</div>"):
            inside, current = False, 0
        elif inside and (step := _STEP.match(line)):
            current = int(step[1])
            found[current] = (number, number + 1)
        elif current and line.strip():
            found[current] = (found[current][0], number + 1)
    return found


def find(markdown: str, place: Place) -> Span:
    """Where a place stands on its page.

    Raises
    ------
    BuildError
        When the page has no such heading or step; the text says which there are.
    """
    lines = markdown.splitlines()
    marks = headings(lines)
    if not place.anchor:
        return Span(0, len(lines), (0, len(lines)))
    there = [name for _, _, name in marks]
    if place.anchor not in there:
        near = difflib.get_close_matches(place.anchor, there, 3) or there
        raise BuildError(f"{place.page} has no heading “{place.anchor}”. There are: {', '.join(near)}.")
    at = there.index(place.anchor)
    start, level, _ = marks[at]
    part_end = next((line for line, other, _ in marks[at + 1 :] if other <= level), len(lines))
    next_heading = marks[at + 1][0] if at + 1 < len(marks) else len(lines)
    if not place.step:
        return Span(start, part_end, (start, next_heading))
    found = steps(lines, start, next_heading)
    if place.step not in found:
        said = f"steps 1 to {max(found)}" if found else "no steps"
        raise BuildError(f"{place.page}#{place.anchor} has no step {place.step}: it has {said}.")
    return Span(*found[place.step], (start, next_heading))


def carries_box(markdown: str, span: Span) -> bool:
    """Whether a step carries a hazard box: in itself, or in its part, where the box stands for each step of it."""
    return any(_BOX.search(line) for line in markdown.splitlines()[span.part[0] : span.part[1]])


def guards(markdown: str, span: Span) -> str:
    """The word by which a step keeps somebody from harm, such as *lock*; empty where it has none."""
    found = GUARDS.search(" ".join(markdown.splitlines()[span.start : span.end]))
    return found[0] if found else ""
