"""A file or a page of a house that cannot be: a message, the build stops, the last good site stays."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from site_src.build import build
from site_src.house.control import _commit, _unpack
from site_src.house.where import file
from site_src.settings import ROOT, BuildError
from tests.house.conftest import HERE


def built_with(home: Path, site: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "site_src", "build", "--quick", "--to", str(site)]
    environment = {**os.environ, "HOUSE": str(home)}
    return subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (None, "and no house.toml is there. Write one: make house"),
        ('[house]\nname = """The exam', "It ends in the middle: is it whole?"),
        ("format = 2\n", "format is 1 for this book, not 2"),
        ("[[steep]]\ncolour = 1\n", "line 2: “colour” is not known under [[steep]]"),
        ("[limits.immersion-hours]\nstop_high = 99\nreason = 'a'\noffice = 'b'\n", "can be moved from 1 to 24 h"),
    ],
    ids=["missing", "cut", "another format", "unknown", "impossible"],
)
def test_the_build_stops_and_the_last_good_site_stays(tmp_path: Path, text: str | None, says: str):
    home, site = tmp_path / "home", tmp_path / "site"
    home.mkdir()
    site.mkdir()
    (site / "index.html").write_text("the last good one", "utf-8")
    if text is not None:
        (home / "house.toml").write_text(text, "utf-8")
    made = built_with(home, site)
    assert made.returncode == 1 and says in made.stderr and "The build stopped." in made.stderr, made.stderr
    assert "Traceback" not in made.stderr
    assert [one.name for one in site.iterdir()] == ["index.html"]


@pytest.mark.parametrize(
    ("page", "says"),
    [
        ("# T\n\nThe pit may be entered.", "house/own.md, line 3: no page may say"),
        ("---\nplace: procedures/steeping#dry\nreason: a\noffice: b\n---\nx", "has no heading “dry”"),
        ("---\nplace: procedures/none\nreason: a\noffice: b\n---\nx", "the book has no page “procedures/none”"),
    ],
)
def test_an_own_page_that_cannot_be_stops_the_build(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, page: str, says: str
):
    (tmp_path / "house").mkdir()
    (tmp_path / "house.toml").write_text("", "utf-8")
    (tmp_path / "house" / "own.md").write_text(page, "utf-8")
    monkeypatch.setenv("HOUSE", str(tmp_path))
    site = tmp_path / "site"
    site.mkdir()
    (site / "index.html").write_text("the last good one", "utf-8")
    with pytest.raises(BuildError, match=says):
        build(site, quick=True)
    assert (site / "index.html").read_text("utf-8") == "the last good one"
    assert not (tmp_path / "site.new").exists()


def test_the_house_lies_beside_the_book_or_where_it_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.delenv("HOUSE", raising=False)
    assert file() == ROOT / "house.toml"
    monkeypatch.setenv("HOUSE", str(HERE))
    assert file() == HERE / "house.toml"


def test_the_book_of_a_day_is_the_last_commit_of_that_day(tmp_path: Path):
    book = tmp_path / "book"
    book.mkdir()

    def git(*words: str, day: str = "2026-01-01") -> None:
        moment = f"{day}T12:00:00+0000"
        who = {"GIT_AUTHOR_DATE": moment, "GIT_COMMITTER_DATE": moment}
        named = ["-c", "user.name=x", "-c", "user.email=x@example.org"]
        subprocess.run(["git", *named, *words], cwd=book, check=True, capture_output=True, env={**os.environ, **who})

    git("init", "-q")
    for day, text in (("2026-03-01", "first"), ("2026-06-01", "second")):
        (book / "page.md").write_text(text, "utf-8")
        git("add", "page.md")
        git("commit", "-q", "-m", text, day=day)
    from datetime import date

    for when, text in (("2026-03-01", "first"), ("2026-05-31", "first"), ("2026-06-01", "second")):
        to = tmp_path / when
        _unpack(book, _commit(book, date.fromisoformat(when)), to)
        assert (to / "page.md").read_text("utf-8") == text
    with pytest.raises(BuildError, match="no commit of 2026-02-28 or before"):
        _commit(book, date(2026, 2, 28))
    with pytest.raises(BuildError, match="git says"):
        _commit(tmp_path / "2026-03-01", date(2026, 3, 1))
