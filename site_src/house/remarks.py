"""A house's own pages and remarks: a folder of Markdown, read, checked as ours is, and put in at named places."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from site_src.house.places import Place, carries_box, find, guards, place_of
from site_src.house.said import text
from site_src.limits_table import filled
from site_src.phrases import faults as phrases_of
from site_src.settings import BuildError

WHERE = ("before", "after", "instead")
_KEYS = ("place", "where", "reason", "office")
_HEAD = re.compile(r"\A---\n(.*?)\n---\n", re.DOTALL)
_TAG = re.compile(r"<[A-Za-z/!?]")
_INCLUDED = re.compile(r"^\s*--8<--\s*(.*)$", re.MULTILINE)
_OURS = re.compile(r'"(hazards|rescue)/[a-z-]+\.md"')
_LINK = re.compile(r"(?:\]\(|\]:)\s*<?\s*([A-Za-z][A-Za-z0-9+.-]*):")
_SCHEMES = {"http", "https", "mailto", "tel", "page", "sheet"}
_LARGEST = 200_000


class Remark(NamedTuple):
    """What a house adds at a place, or instead of a step, why, and by which office."""

    file: str
    place: Place
    where: str
    reason: str
    office: str
    body: str


class Page(NamedTuple):
    """A page of the house's own: its file's name, its title, its Markdown."""

    file: str
    title: str
    markdown: str

    @property
    def address(self) -> str:
        """Where it stands in the site."""
        return f"house/{self.file.removesuffix('.md')}"


def read_own(folder: Path) -> tuple[list[Page], list[Remark]]:
    """The pages and remarks of a house's folder, each checked; none where there is no folder.

    Raises
    ------
    BuildError
        Names every slip with its file and line.
    """
    pages: list[Page] = []
    remarks: list[Remark] = []
    wrong: list[str] = []
    for path in sorted(folder.glob("*.md")) if folder.is_dir() else ():
        try:
            found = read_one(path.name, path.read_bytes())
        except BuildError as fault:
            wrong.append(str(fault))
        else:
            if isinstance(found, Page):
                pages.append(found)
            else:
                remarks.append(found)
    if wrong:
        raise BuildError("\n  ".join(wrong))
    return pages, remarks


def read_one(name: str, data: bytes) -> Page | Remark:
    """One file of the folder.

    Raises
    ------
    BuildError
        When it cannot be read or holds what no page may hold.
    """
    if not re.fullmatch(r"[a-z0-9-]+\.md", name):
        raise BuildError(f"house/{name}: name it with small letters, figures and hyphens, such as drain-here.md.")
    try:
        markdown = data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError:
        raise BuildError(f"house/{name} is not written in UTF-8. Save it as UTF-8 text.") from None
    if len(markdown) > _LARGEST or "\x00" in markdown:
        raise BuildError(f"house/{name}: a page is text of at most {_LARGEST} letters.")
    head = _HEAD.match(markdown)
    values = _values(name, head[1]) if head else {}
    body = markdown[head.end() :] if head else markdown
    first = markdown.count("\n", 0, head.end()) if head else 0
    _look(name, body, first)
    if "place" not in values:
        title = re.match(r"\s*# (.+)\n", f"{body}\n")
        if not title:
            raise BuildError(f"house/{name}, line {first + 1}: a page begins with its title, such as “# Our screen”.")
        if values:
            raise BuildError(f"house/{name}: {', '.join(values)} without place. Write place: procedures/steeping#drain")
        return Page(name, title[1].strip(), body)
    return _remark(name, values, body.strip())


def _values(name: str, head: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for number, line in enumerate(head.splitlines(), 2):
        key, colon, value = line.partition(":")
        if not colon or key.strip() not in _KEYS:
            raise BuildError(f"house/{name}, line {number}: “{line:.40}” is not known. Known are: {', '.join(_KEYS)}.")
        if not value.strip() or len(value) > 200 or not value.strip().isprintable():
            raise BuildError(f"house/{name}, line {number}: {key} is one line of text of at most 200 letters.")
        if said := phrases_of(value):
            raise BuildError(f"house/{name}, line {number}: no page may say that: {said[0]:.120}")
        found[key.strip()] = value.strip()
    return found


def _remark(name: str, values: Mapping[str, str], body: str) -> Remark:
    place = place_of(values["place"])
    if place is None:
        raise BuildError(
            f"house/{name}: “{values['place']:.60}” names no place. Write a page, a heading and a step: "
            "procedures/steeping, procedures/steeping#drain, procedures/steeping#drain step 2."
        )
    where = values.get("where", "after")
    if where not in WHERE:
        raise BuildError(f"house/{name}: where is one of: {', '.join(WHERE)}, not “{where:.20}”.")
    for key in ("reason", "office"):
        if key not in values:
            raise BuildError(f"house/{name}: write {key}: … too.")
    if where == "instead" and not place.step:
        raise BuildError(f"house/{name}: only a step can be replaced. Write place: {place} step 2.")
    if where == "instead" and place.page.startswith("safety/"):
        raise BuildError(f"house/{name}: nothing on a page about safety can be replaced. Write where: after.")
    if not body:
        raise BuildError(f"house/{name}: there is no text below the head.")
    return Remark(name, place, where, values["reason"], values["office"], body)


def _look(name: str, body: str, first: int) -> None:
    """What no page may hold."""
    def line(at: int) -> str:
        return f"house/{name}, line {first + body.count(chr(10), 0, at) + 1}"

    if tag := _TAG.search(body):
        raise BuildError(f"{line(tag.start())}: write Markdown; HTML is not taken, nor in code. For a sign: &lt;.")
    if braces := re.search(r"\{:|\{ *[#.][\w-]", body):
        raise BuildError(f"{line(braces.start())}: attributes in braces are not taken.")
    if away := next((one for one in _LINK.finditer(body) if one[1].lower() not in _SCHEMES), None):
        scheme = f"a link leads to a page, or begins with https://, not with {away[1]:.20}:."
        raise BuildError(f"{line(away.start())}: {scheme}")
    for included in _INCLUDED.finditer(body):
        if not _OURS.fullmatch(included[1].strip()):
            raise BuildError(f"{line(included.start())}: only boxes are included, such as --8<-- \"hazards/falls.md\".")
    try:
        said = phrases_of(filled(body))
    except LookupError as fault:
        raise BuildError(f"house/{name}: {fault}") from None
    if said:
        at = next((number for number, one in enumerate(body.splitlines(), 1) if phrases_of(one)), 1)
        raise BuildError(
            f"house/{name}, line {first + at}: no page may say that a place may be gone into or is without harm: "
            f"{said[0]:.160}"
        )


def put_in(markdown: str, remarks: Sequence[Remark], changed: frozenset[str] = frozenset()) -> str:
    """A page with the remarks of the house put in.

    Parameters
    ----------
    markdown : str
        The page as the book has it.
    remarks : sequence of Remark
        Those of this page.
    changed : frozenset of str
        The files of those under which the book's text is another than when they were written.

    Raises
    ------
    BuildError
        When a place is not there, or a step that is to be replaced carries a hazard box.
    """
    lines = markdown.splitlines()
    edits: list[tuple[int, int, list[str]]] = []
    for one in reversed(remarks):  # of several at one place the first stands first
        try:
            span = find(markdown, one.place)
        except BuildError as fault:
            raise BuildError(f"house/{one.file}: {fault}") from None
        if one.where == "instead":
            if carries_box(markdown, span):
                raise BuildError(
                    f"house/{one.file}: {one.place} carries a hazard box, in itself or above the steps of its part. "
                    "It can be added to, not replaced. Write where: after."
                )
            if word := guards(markdown, span):
                raise BuildError(
                    f"house/{one.file}: {one.place} keeps somebody from harm (“{word}”). "
                    "It can be added to, not replaced. Write where: after."
                )
            edits.append((span.start, span.end, _instead(one, lines[span.start : span.end], one.file in changed)))
        else:
            at, depth = _beside(lines, one, span.start, span.end, markdown)
            edits.append((at, at, ["", *_quoted(one, depth, one.file in changed), ""]))
    taken = [edit[:2] for edit in edits if edit[0] != edit[1]]
    if len(set(taken)) != len(taken):
        raise BuildError(f"house/{remarks[-1].file}: two files replace the same step of {remarks[-1].place.page}.")
    for start, end, new in sorted(edits, key=lambda edit: edit[:2], reverse=True):
        lines[start:end] = new
    return "\n".join(lines) + "\n"


def _beside(lines: list[str], one: Remark, start: int, end: int, markdown: str) -> tuple[int, int]:
    """The line before which a remark goes, and how deep it stands there."""
    place = one.place
    if not place.anchor:
        title = next((number for number, line in enumerate(lines) if line.startswith("# ")), -1)
        return (title + 1, 0) if one.where == "before" else (end, 0)
    if not place.step:
        return (start, 0) if one.where == "before" else (end, 0)
    if one.where == "after":
        return end, 4
    if place.step == 1:  # above the list
        return next(number for number in range(start, -1, -1) if lines[number].startswith("<div")), 0
    return find(markdown, place._replace(step=place.step - 1)).end, 4


def _head(one: Remark, changed: bool) -> str:
    said = f"**This house**, {text(one.office)}: {text(one.reason)}."
    return f"{said} *The book’s own text here has changed since: look again.*" if changed else said


def _quoted(one: Remark, depth: int, changed: bool) -> list[str]:
    return [" " * depth + f"> {line}".rstrip() for line in (_head(one, changed), "", *one.body.splitlines())]


def _instead(one: Remark, old: list[str], changed: bool) -> list[str]:
    said = re.sub(r"^\d+\.\s+", "", old[0]).strip()
    first, *rest = one.body.splitlines()
    kept = [f"{one.place.step}. {first}", *(f"    {line}".rstrip() for line in rest), ""]
    return [*kept, f"    > {_head(one, changed)}", "    >", f"    > The book’s step: {said}", ""]
