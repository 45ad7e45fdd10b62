"""Papers under control on the command line: keep what is approved, say how each stands, print what held on a day."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tarfile
from datetime import date
from html import escape
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from calculators.house import here
from calculators.rules.limits import every
from site_src.house import stands
from site_src.house.overlay import DOCS, drawn_pages, overlay
from site_src.house.paper_pages import states
from site_src.house.releases import FOLDER, approve, read_releases, valid_on
from site_src.house.remarks import read_own
from site_src.house.used import sheets_now
from site_src.house.where import NAME, OWN, file, home
from site_src.house.where import own as own_folder
from site_src.settings import CACHE, ROOT, BuildError

_PLAIN = "Leave --git out: approved papers are kept in a plain folder."


def looked() -> str:
    """Somebody has looked at what changed: note what each change of the house stands on now."""
    every()  # a limit is moved when its module is imported
    folder = own_folder()
    _, remarks = read_own(folder)
    now = stands.stands_now(remarks, DOCS)
    stands.note(folder, now)
    return f"Noted what {len(now)} changes of this house stand on: {folder / stands.NAME}"


def keep_papers(own: Path | None = None, *, only_list: bool = False) -> list[str]:
    """Keep each paper whose version is not kept yet, as its page is now; say how each paper stands.

    Parameters
    ----------
    own : Path, optional
        The folder of the house’s own pages.
    only_list : bool
        Keep nothing.

    Returns
    -------
    list of str
        Lines to show.

    Raises
    ------
    BuildError
        When the house has no papers, or what was approved is damaged.
    """
    folder = own or own_folder()
    papers = here.entries("paper")
    if not papers:
        raise BuildError(f"{NAME} names no paper. Write [[paper]] with page, number, version, date and office.")
    with TemporaryDirectory() as place:
        made = overlay("", to=Path(place) / "docs", own=folder, say=lambda _: None)
        pages = drawn_pages(made.docs) if made else {}
    lines: list[str] = []
    if not only_list:
        kept, left = approve(folder, papers, pages, sheets_now())
        lines += [f"Kept: {one.said}, {one.page}" for one in kept]
        lines += [f"Not kept: {one}" for one in left]
    for state in states(papers, read_releases(folder), folder, pages, date.today()):
        said = "not kept yet" if state.release is None else "changed since" if state.changes else "holds"
        due = f", due since {state.paper['review']}" if state.due else ""
        lines.append(f"{state.paper.get('number', '—')}  {state.paper['page']}: {said}{due}")
    return lines


def as_of_day(
    day: str, to: Path | None = None, *, by_git: bool = False, own: Path | None = None, today: date | None = None,
) -> list[str]:  # fmt: skip
    """Put what was valid on a day into a folder, to be printed again.

    Parameters
    ----------
    day : str
        Such as 2026-11-29.
    to : Path, optional
        The folder, which must not be there.
    by_git : bool
        Build the whole book of that day, from the history of this repository and of the house’s folder.
    own : Path, optional
        The folder of the house’s own pages.
    today : date, optional
        No later day is taken.

    Returns
    -------
    list of str
        Lines to show: each paper, or the commit.

    Raises
    ------
    BuildError
        When the day is none or has not come, nothing was valid, what was approved is damaged, or git does not hold
        the house’s file.
    """
    try:
        when = date.fromisoformat(day)
    except ValueError:
        raise BuildError(f"“{day:.20}” is no day. Type one such as 2026-11-29.") from None
    if when > (today or date.today()):
        raise BuildError(f"{day} has not come yet: what holds then is not known. Type a day that is past, or today.")
    target = to or Path(f"as-of-{when.isoformat()}")
    if target.exists():
        raise BuildError(f"{target} is there already. Name another folder with --to.")
    if by_git:
        return _from_git(when, target)
    folder = own or own_folder()
    found = valid_on(read_releases(folder), when)
    if not found:
        raise BuildError(f"No paper was approved by {when.isoformat()}. What is approved is kept by: papers")
    target.mkdir(parents=True)
    rows = []
    for one in found:
        shutil.copyfile(folder / FOLDER / one.file, target / one.file)
        words = f"{one.said} of {here.said_day(one.date)}, approved: {one.office}; handbook {one.book}"
        rows.append(f'<li><a href="{escape(one.file)}">{escape(words)}</a></li>')
    title = f"Valid on {here.said_day(when.isoformat())}"
    head = f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title></head>'
    warned = "<p>What was valid then need not be valid now. It permits nothing.</p>"
    body = f"{head}<body><h1>{escape(title)}</h1>{warned}<ul>{''.join(rows)}</ul></body></html>\n"
    (target / "index.html").write_text(body, "utf-8")
    return [*(f"{one.said}: {target / one.file}" for one in found), f"All: {target / 'index.html'}"]


def _from_git(when: date, target: Path) -> list[str]:
    """The book of a day, built from the last commit of that day; the house’s folder from its own history."""
    if file().is_file() and not _git(home(), "ls-files", NAME):
        lost = "the book of that day would be built without it"
        raise BuildError(f"{file()} is not in git: {lost}. {_PLAIN} To keep it in git: git add {NAME} {OWN}")
    commit = _commit(ROOT, when)
    with TemporaryDirectory() as place:
        book = Path(place) / "book"
        _unpack(ROOT, commit, book)
        environment = dict(os.environ)
        lines = [f"The book: commit {commit[:12]}"]
        if home() != ROOT:
            house, house_commit = Path(place) / "home", _commit(home(), when)
            _unpack(home(), house_commit, house)
            environment["HOUSE"] = str(house)
            lines.append(f"The house: commit {house_commit[:12]}")
        (book / ".cache").symlink_to(CACHE)
        command = [sys.executable, "-m", "site_src", "build", "--quick", "--to", str(target.resolve())]
        if subprocess.run(command, cwd=book, env=environment, check=False).returncode:
            raise BuildError(f"The book of {when.isoformat()} could not be built; the lines above say why.")
    return [*lines, f"Built: {target}"]


def _commit(folder: Path, when: date) -> str:
    before = f"--before={when.isoformat()}T23:59:59"
    found = _git(folder, "rev-list", "-1", before, "HEAD").decode().strip()
    if not found:
        raise BuildError(f"{folder} has no commit of {when.isoformat()} or before.")
    return found


def _unpack(folder: Path, commit: str, to: Path) -> None:
    with tarfile.open(fileobj=BytesIO(_git(folder, "archive", "--format=tar", commit))) as held:
        held.extractall(to, filter="data")


def _git(folder: Path, *words: str) -> bytes:
    try:
        return subprocess.run(["git", "-C", str(folder), *words], check=True, capture_output=True).stdout
    except FileNotFoundError:
        raise BuildError(f"git is not on this machine. {_PLAIN}") from None
    except subprocess.CalledProcessError as fault:
        raise BuildError(f"git says: {fault.stderr.decode(errors='replace').strip()[:200]}. {_PLAIN}") from None


