"""The book of a day from git, with a book of two lines: which commits are taken, and what their build is told."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_src.house import control
from site_src.settings import BuildError
from tests.house.test_house_as_of import commit

# What a build of the site is given, written down in place of a site.
BUILD = """import os, pathlib, sys
to = pathlib.Path(sys.argv[sys.argv.index("--to") + 1])
if pathlib.Path("page.md").read_text() == "broken":
    sys.exit(1)
to.mkdir()
told = [pathlib.Path(name).read_text() for name in ("page.md", os.environ["HOUSE"] + "/house.toml")]
kept = pathlib.Path(".cache").is_symlink()
(to / "told").write_text("|".join([*sys.argv[1:3], *told, str(kept)]))
"""
DAYS = ["2024-03-01", "2024-06-01"]


@pytest.fixture
def held(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Path, Path]:
    """A book and a house, each with a commit of March and one of June."""
    book, home = tmp_path / "book", tmp_path / "home"
    (book / "site_src").mkdir(parents=True)
    (book / "site_src" / "__main__.py").write_text(BUILD, "utf-8")
    home.mkdir()
    for day in DAYS:
        (book / "page.md").write_text(f"book of {day}", "utf-8")
        (home / "house.toml").write_text(f"house of {day}", "utf-8")
        commit(book, day)
        commit(home, day)
    monkeypatch.setattr(control, "ROOT", book)
    monkeypatch.setattr(control, "home", lambda: home)
    monkeypatch.setattr(control, "file", lambda: home / "house.toml")
    monkeypatch.setenv("PYTHONPATH", "")
    return book, home


@pytest.mark.parametrize(
    ("day", "held_then"), [("2024-03-01", 0), ("2024-05-31", 0), ("2024-06-01", 1), ("2026-01-01", 1)]
)
def test_the_book_and_the_house_of_that_day_are_built(
    held: tuple[Path, Path], tmp_path: Path, day: str, held_then: int
):
    (held[0] / "page.md").write_text("not committed", "utf-8")
    said = control.as_of_day(day, tmp_path / "then", by_git=True, today=date(2026, 2, 1))
    told = (tmp_path / "then" / "told").read_text("utf-8").split("|")
    then = DAYS[held_then]
    assert told == ["build", "--quick", f"book of {then}", f"house of {then}", "True"]
    assert [line.split(":")[0] for line in said] == ["The book", "The house", "Built"]
    assert (held[0] / "page.md").read_text("utf-8") == "not committed"


def test_before_the_first_commit_there_is_no_book(held: tuple[Path, Path], tmp_path: Path):
    with pytest.raises(BuildError, match="has no commit of 2024-02-29 or before"):
        control.as_of_day("2024-02-29", tmp_path / "then", by_git=True)
    assert not (tmp_path / "then").exists()


def test_a_book_that_does_not_build_is_said(held: tuple[Path, Path], tmp_path: Path):
    (held[0] / "page.md").write_text("broken", "utf-8")
    commit(held[0], "2024-07-01")
    with pytest.raises(BuildError, match="The book of 2024-07-02 could not be built; the lines above say why"):
        control.as_of_day("2024-07-02", tmp_path / "then", by_git=True)
