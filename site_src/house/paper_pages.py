"""The pages of papers under control: which hold, which are due, what changed since, and the sheets to sign."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from calculators.house import here
from calculators.sheets import find_sheet
from site_src.house.releases import FOLDER, Release, text_of
from site_src.house.said import text
from site_src.house.stands import difference

_BLANK = "________________"
_MOST_LINES = 40


class State(NamedTuple):
    """A paper of the house: its entry, the release of its version, and what its page says otherwise since then."""

    paper: Mapping[str, Any]
    release: Release | None
    changes: list[str]
    due: bool


def states(papers: Sequence[Mapping[str, Any]], releases: Sequence[Release], own: Path, pages: Mapping[str, str],
           today: date) -> list[State]:  # fmt: skip
    """How each paper stands.

    Parameters
    ----------
    papers : sequence of mapping
        Those of the house’s file.
    releases : sequence of Release
        What was approved.
    own : Path
        The folder of the house’s own pages.
    pages : mapping of str to str
        Each page as HTML now, by its address.
    today : date
        The day against which reviews are held.
    """
    found = []
    for paper in papers:
        same = [one for one in releases if (one.page, one.version) == (paper["page"], paper.get("version"))]
        changes: list[str] = []
        if same:
            before = (own / FOLDER / same[0].file).read_text("utf-8")
            changes = difference(text_of(before), text_of(pages[str(paper["page"])]))
        due = "review" in paper and paper["review"] < today.isoformat()
        found.append(State(paper, same[0] if same else None, changes, due))
    return found


def said_state(state: State) -> str:
    """In words: holds, due, changed since, or never approved."""
    if state.release is None:
        return "**not kept yet**: nothing says what was approved"
    said = []
    if state.changes:
        said.append("**changed since**: read again by those who are signed off on it")
    if state.due:
        said.append(f"**due** since {text(here.said_day(str(state.paper['review'])))}")
    return "; ".join(said) or "holds"


def paper_list(
    found: Sequence[State], titles: Mapping[str, str], invalid: Mapping[str, Sequence[str]], today: date
) -> Iterator[str]:
    """The page that lists what holds, what is due and what changed since, with the difference in words."""
    yield from ("---", "search:", "  boost: 0.5", "---", "", "# Papers of this house", "")
    yield f"Looked at on {text(here.said_day(today.isoformat()))}. A paper holds while this list has its version."
    yield "Older prints come off the wall. [To sign: read and understood](acknowledge.md)."
    heads = ("Number", "Paper", "Version", "Since", "Approved", "Read again by", "Stands")
    yield from ("", f"| {' | '.join(heads)} |", "|---" * len(heads) + "|")
    for state in found:
        paper = state.paper
        cells = [text(paper.get("number", "—")), f'<a href="page:{paper["page"]}">{titles[paper["page"]]}</a>',
                 text(paper.get("version", "—")), *(_day(paper, key) for key in ("date",)),
                 text(paper.get("office", "—")), _day(paper, "review"),
                 f"<span>{said_state(state)}</span>"]  # fmt: skip
        yield f"| {' | '.join(cells)} |"
    yield ""
    for state in found:
        if state.changes:
            yield from (f"## What changed in {text(_name(state.paper))}", "", "```text")
            yield from (line.replace("`", "’") for line in state.changes[:_MOST_LINES])
            if len(state.changes) > _MOST_LINES:
                yield f"and {len(state.changes) - _MOST_LINES} more lines"
            yield from ("```", "")
    yield from ("## Printed cards that no longer hold", "")
    if not invalid:
        yield "No model, rule or limit behind a sheet has changed since papers were last approved."
        yield "A card holds for its own numbers only: new readings need a new card."
    else:
        yield "What these sheets may rest on has changed since papers were last approved."
        yield "Cards printed before come off the wall."
        yield from ("", "| Sheet | What changed |", "|---|---|")
        for name, what in invalid.items():
            link = f'<a href="sheet:{name}">{find_sheet(name).title}</a>'
            yield f"| {link} | {text('; '.join(what))} |"
    yield ""


def _day(paper: Mapping[str, Any], key: str) -> str:
    return text(here.said_day(str(paper[key]))) if key in paper else "—"


def _name(paper: Mapping[str, Any]) -> str:
    return f"{paper.get('number', paper['page'])}, version {paper.get('version', '—')}"


def invalid_cards(then: Mapping[str, Mapping[str, str]], now: Mapping[str, Mapping[str, str]]) -> dict[str, list[str]]:
    """The sheets whose printed cards no longer hold, with what changed behind each."""
    found: dict[str, list[str]] = {}
    for name, before in then.items():
        after = now.get(name)
        if after is None:
            continue
        changed = [key for key in sorted({*before, *after}) if before.get(key) != after.get(key)]
        said = [_what(key, before.get(key, "not used"), after.get(key, "not used")) for key in changed]
        if said:
            found[name] = said
    return found


def _what(key: str, before: str, after: str) -> str:
    return f"{key}: was {before}, is {after}" if key.startswith("limit ") else key


def acknowledge(papers: Sequence[Mapping[str, Any]], titles: Mapping[str, str]) -> Iterator[str]:
    """A sheet to sign for each paper: read and understood."""
    yield from ("---", "search:", "  exclude: true", "---", "", "# Read and understood", "")
    yield "Print this page: each paper has a sheet of its own. Who signs has read this version, and may still ask."
    yield "A signature gives nobody leave to work alone or to go in anywhere."
    for paper in papers:
        yield from ("", f"## {text(_name(paper))}", "", '<div class="sign-off" markdown>', "")
        yield f'<a href="page:{paper["page"]}">{titles[paper["page"]]}</a>, since {_day(paper, "date")}'
        yield from ("", "| Name | Read and understood on | Signature | Asked, and answered by |", "|---|---|---|---|")
        yield from ("| | | | |" for _ in range(12))
        yield from ("", "</div>", "")
