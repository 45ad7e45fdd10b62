"""The pages of the book with what a house has of its own put in: a folder of Markdown that the build then takes.

Nothing of the book's own folder is changed. Without a file and without pages of a house there is no such folder, and
the book is built from its own.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from calculators.house import here
from calculators.rules import house as moved
from calculators.rules.limit import BOOK
from calculators.rules.limits import every
from site_src.house import on_paper, stands
from site_src.house.box import box_lines, hand_out_lines, paper_lines
from site_src.house.frozen import Freezer
from site_src.house.paper_pages import State, acknowledge, invalid_cards, paper_list, states
from site_src.house.plan import places
from site_src.house.plan_pages import card_lines, card_name, plan_lines
from site_src.house.releases import read_releases, sheets_then
from site_src.house.remarks import Page, Remark, put_in, read_own
from site_src.house.said import PERMITS_NOTHING, text
from site_src.house.used import sheets_now
from site_src.house.where import own as own_folder
from site_src.house.worked import with_worked
from site_src.settings import CACHE, ROOT, BuildError

DOCS = ROOT / "docs"
FOLDER = CACHE / "house" / "docs"
SECTION = "This house"
PAPERS = "house/papers.json"
"""What the papers are and how they stand, for scripts: page, number, version, date, whether changed since."""
_TITLE = re.compile(r"^# .*$", re.MULTILINE)
_STEPS = re.compile(r"^## Steps$", re.MULTILINE)
_PART = re.compile(r"^## ", re.MULTILINE)
_FENCE = re.compile(r"^(```|~~~).*?^\1", re.MULTILINE | re.DOTALL)
_CARD = re.compile(r'<div class="hang-up[^>]*>(?:(?!</?div).)*?(?=\n</div>)', re.DOTALL)
_HAND_OUT = re.compile(r"^## Hand-out\n\n.+\n", re.MULTILINE)
_OF_PAGE = re.compile(r"\(\.\./(procedures/[a-z-]+)\.md[)#]")


class Overlay(NamedTuple):
    """The folder to build from, and what the navigation gets."""

    docs: Path
    nav: list[dict[str, list[Any]]]


def overlay(
    site_url: str, docs: Path = DOCS, to: Path = FOLDER, own: Path | None = None,
    today: date | None = None, say: Callable[[str], None] = print,
) -> Overlay | None:  # fmt: skip
    """Make the pages of this house's book; None where the house has nothing of its own.

    Parameters
    ----------
    site_url : str
        Where the site will be served; codes on paper lead there.
    docs : Path
        The book's own pages.
    to : Path
        The folder to write; it is made anew.
    own : Path, optional
        The folder of the house's own pages.
    today : date, optional
        The day against which what is due is held.
    say : callable
        Called with each line to show, such as what an upgrade of the book changed under the house's changes.

    Raises
    ------
    BuildError
        When a page or a remark of the house's own cannot be put in, or a list of approved papers is damaged.
    """
    folder, day = own or own_folder(), today or date.today()
    every()  # a limit is moved when its module is imported
    pages, remarks = read_own(folder)
    if not (here.has_any() or BOOK or moved.MALTS or pages or remarks):
        return None
    on_paper.site_url = ""  # what is kept of a paper does not depend on where it is served
    changed = _look_under(remarks, docs, folder, say)
    shutil.rmtree(to, ignore_errors=True)
    shutil.copytree(docs, to)
    _fill_pages(to, remarks, changed, site_url)
    nav: list[Any] = ["house/index.md"]
    made = to / "house"
    made.mkdir()
    for page in pages:
        _write(made / page.file, [page.markdown])
    if places():
        cards = {card_name(place): card_lines(place, docs) for place in places()}
        for name, lines in {"safety-plan": plan_lines(day), **cards}.items():
            _write(made / f"{name}.md", [with_box("\n".join(lines), f"house/{name}", site_url)])
        nav += ["house/safety-plan.md", {"Emergency cards": [f"house/{name}.md" for name in cards]}]
    found = _papers(to, made, folder, day)
    if found:
        nav += ["house/papers.md", "house/acknowledge.md"]
    if pages:
        nav.append({"Own pages": [f"house/{page.file}" for page in pages]})
    _write(made / "index.md", _index(pages, remarks, found))
    return Overlay(to, [{SECTION: nav}])


def _look_under(
    remarks: Sequence[Remark], docs: Path, folder: Path, say: Callable[[str], None]
) -> frozenset[str]:
    """Note what new changes stand on, and say under which the book has changed."""
    now, before = stands.stands_now(remarks, docs), stands.kept(folder)
    changes = stands.compare(before, now)
    for line in stands.told(changes):
        say(line)
    new = now.keys() - before.keys()
    if new or before.keys() - now.keys():
        try:
            stands.note(folder, {key: before.get(key, said) for key, said in now.items()})
        except OSError as fault:
            say(f"{stands.NAME} cannot be written ({fault.strerror}): an upgrade will not tell what it changed.")
    return frozenset(one.what for one in changes)


def _fill_pages(to: Path, remarks: Sequence[Remark], changed: frozenset[str], site_url: str) -> None:
    for file in sorted(to.rglob("*.md")):
        page = file.relative_to(to).with_suffix("").as_posix()
        if page.startswith("_includes/"):
            continue
        before = file.read_text("utf-8")
        mine = [one for one in remarks if one.place.page == page]
        after = put_in(before, mine, changed) if mine else before
        after = with_box(after, page, site_url)
        if page == on_paper.VESSEL_PAPER:
            after = on_paper.with_rows(after)
        if page.startswith("calculators/"):
            after = with_worked(after)
        if page.startswith("training/session-"):
            after = with_hand_out(after, page)
        if after != before:
            file.write_text(after, "utf-8")


def with_box(markdown: str, page: str, site_url: str) -> str:
    """A page with its head as a paper below its title, and its box before its first part."""
    address = f"{site_url.rstrip('/')}/{re.sub(r'(^|/)index$', '', page)}".rstrip("/") + "/"
    paper, box = paper_lines(page, address), box_lines(page)
    hidden = [found.span() for found in _FENCE.finditer(markdown)]

    def first(pattern: re.Pattern[str]) -> re.Match[str] | None:
        found = (one for one in pattern.finditer(markdown) if not any(a <= one.start() < b for a, b in hidden))
        return next(found, None)

    title, part = first(_TITLE), first(_STEPS) or first(_PART)
    if box:
        at = part.start() if part else len(markdown)
        markdown = f"{markdown[:at].rstrip()}\n\n" + "\n".join(box) + f"\n{markdown[at:]}"
    card = _CARD.search(markdown)
    if paper and card:  # what hangs on a wall carries its number itself
        return f"{markdown[: card.end()]}\n\n" + "\n".join(paper) + f"\n</div>{markdown[card.end() + 7 :]}"
    if paper and title:
        markdown = f"{markdown[: title.end()]}\n\n" + "\n".join(paper) + markdown[title.end() :]
    return markdown


def with_hand_out(markdown: str, page: str) -> str:
    """A session whose hand-out says what this house calls its things, under the line for date and name."""
    found = _HAND_OUT.search(markdown)
    lines = hand_out_lines(page, _OF_PAGE.findall(markdown)) if found else []
    if not found or not lines:
        return markdown
    return markdown[: found.end()] + "\n".join(lines) + markdown[found.end() :]


def _papers(to: Path, made: Path, folder: Path, day: date) -> list[State]:
    papers = here.entries("paper")
    if not papers:
        return []
    _write(made / "papers.md", ["# Papers"])  # pages may link to it while they are drawn
    found = states(papers, read_releases(folder), folder, drawn_pages(to), day)
    then = sheets_then(folder)
    invalid = invalid_cards(then, sheets_now()) if then else {}
    titles = {str(one["page"]): title_of(to / f"{one['page']}.md") for one in papers}
    _write(made / "papers.md", paper_list(found, titles, invalid, day))
    _write(made / "acknowledge.md", acknowledge(papers, titles))
    rows = [{**state.paper, "kept": state.release is not None, "changed": bool(state.changes)} for state in found]
    (to / PAPERS).write_text(json.dumps(rows, indent=1, sort_keys=True) + "\n", "utf-8")
    return found


def title_of(file: Path) -> str:
    """The title of a page of Markdown."""
    found = re.search(r"^# (.+)$", file.read_text("utf-8"), re.MULTILINE)
    return found[1].strip() if found else file.stem


def drawn_pages(docs: Path) -> dict[str, str]:
    """Each page that is a paper of this house, as one plain file of HTML, by its address."""
    freezer = Freezer()
    drawn = {}
    for paper in here.entries("paper"):
        page = str(paper["page"])
        file = docs / f"{page}.md"
        if not file.is_file():
            raise BuildError(f"[[paper]]: the book has no page “{page}”. Is it one of this house’s own that is gone?")
        drawn[page] = freezer.page(file, here.said_paper(page) or page)
    return drawn


def _index(pages: Sequence[Page], remarks: Sequence[Remark], found: Sequence[State]) -> Iterable[str]:
    name = text(here.house().get("name", "This house"))
    yield from (f"# {name}: this house’s own", "", f"{PERMITS_NOTHING}", "")
    yield "What this house has written stands in boxes headed *In this house*."
    yield "Its notes begin with *This house*."
    yield ""
    if places():
        yield from ("- [This site’s safety plan](safety-plan.md): places, gaps, yearly review",)
        yield from (f"- [Emergency card: {text(one['name'])}]({card_name(one)}.md)" for one in places())
    if found:
        yield from ("- [Papers of this house](papers.md): what holds, what is due, what changed",
                    "- [Read and understood](acknowledge.md): sheets to sign")  # fmt: skip
    yield from (f"- [{text(page.title)}]({page.file})" for page in pages)
    if remarks:
        yield from ("", "## Notes on the book’s pages", "")
    for one in remarks:
        anchor = f"#{one.place.anchor}" if one.place.anchor else ""
        link = f'<a href="page:{one.place.page}{anchor}">{one.place}</a>'
        yield f"- {link}, {one.where}: {text(one.reason)} ({text(one.office)})"
    yield ""


def _write(file: Path, lines: Iterable[str]) -> None:
    file.write_text("\n".join(lines) + "\n", "utf-8")
