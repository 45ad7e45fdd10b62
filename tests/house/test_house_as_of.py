"""What was valid on a day, printed again: the whole way on the command line, by the plain folder and by git."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from html import unescape
from pathlib import Path

import pytest

from site_src.settings import CACHE, ROOT
from tests.conftest import alone
from tests.house.test_house_built import MADE, PARTS

pytestmark = [pytest.mark.site, pytest.mark.further]

HOUSE = """
[[steep]]
name = "{steep}"
charge_kg = 5000
[[paper]]
page = "procedures/casting"
number = "P-07"
version = "{version}"
date = "{day}"
office = "head of malting"
[limits.immersion-hours]
stop_high = {stop}
reason = "thin husks"
office = "head of malting"
"""
FIRST = {"steep": "Old steep", "version": "1", "day": "2024-03-01", "stop": 10}
SECOND = {"steep": "New steep", "version": "2", "day": "2024-06-01", "stop": 11}
LINE = "The line of March in this book."


class Works:
    """A copy of the book and a house's folder, each with a history of its own."""

    def __init__(self, place: Path) -> None:
        self.book, self.home = place / "book", place / "home"
        for name in PARTS:
            source = ROOT / name
            if source.is_dir():
                shutil.copytree(source, self.book / name, ignore=MADE)
            elif source.exists():
                shutil.copyfile(source, self.book / name)
        (self.book / ".cache").mkdir()
        for kept in CACHE.iterdir():
            if kept.name != "house":
                (self.book / ".cache" / kept.name).symlink_to(kept)
        (self.book / ".gitignore").write_text("/.cache/\n__pycache__/\n", "utf-8")
        self.home.mkdir()

    def say(self, values: dict[str, object]) -> None:
        (self.home / "house.toml").write_text(HOUSE.format(**values), "utf-8")

    def run(self, *words: str) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-m", "site_src", *words]
        environment = {**os.environ, "HOUSE": str(self.home), "SITE_URL": "https://example.org/"}
        return subprocess.run(command, cwd=self.book, env=environment, capture_output=True, text=True, check=False)


def commit(folder: Path, day: str) -> None:
    moment = f"{day}T12:00:00+0000"
    who = {"GIT_AUTHOR_DATE": moment, "GIT_COMMITTER_DATE": moment}
    named = ["-c", "user.name=x", "-c", "user.email=x@example.org"]
    for words in (["init", "-q"], ["add", "-A"], ["commit", "-q", "-m", day]):
        subprocess.run(["git", *named, *words], cwd=folder, check=True, capture_output=True, env={**os.environ, **who})


@pytest.fixture(scope="module")
def works(tmp_path_factory: pytest.TempPathFactory) -> Works:
    """Since March and since June: another line of the book, another name, version and limit of the house."""
    found = Works(tmp_path_factory.mktemp("as of"))
    page = found.book / "docs" / "procedures" / "casting.md"
    whole = page.read_text("utf-8")
    page.write_text(whole.replace("\n## Steps\n", f"\n{LINE}\n\n## Steps\n", 1), "utf-8")
    found.say(FIRST)
    kept = found.run("papers")
    assert kept.returncode == 0 and "Kept: P-07, version 1, procedures/casting" in kept.stdout, kept.stderr
    commit(found.book, "2024-03-01")
    commit(found.home, "2024-03-01")
    page.write_text(whole, "utf-8")
    found.say(SECOND)
    kept = found.run("papers")
    assert "Kept: P-07, version 2, procedures/casting" in kept.stdout, kept.stderr
    assert not list((found.book / "calculators").glob("house_*.py"))
    commit(found.book, "2024-06-01")
    commit(found.home, "2024-06-01")
    return found


@pytest.mark.parametrize(("day", "version", "steep"), [("2024-03-01", "1", "Old"), ("2024-05-31", "1", "Old"),
                                                       ("2024-06-01", "2", "New")])  # fmt: skip
def test_by_the_plain_folder(works: Works, tmp_path: Path, day: str, version: str, steep: str):
    made = works.run("as-of", day, "--to", str(tmp_path / "then"))
    assert made.returncode == 0 and f"P-07, version {version}" in made.stdout, made.stderr
    (page,) = [one for one in (tmp_path / "then").glob("*.html") if one.name != "index.html"]
    text = page.read_text("utf-8")
    assert f"{steep} steep" in text and (LINE in text) == (version == "1")
    assert f"version {version}" in text and "<script" not in text and "src=" not in text  # it prints by itself
    index = (tmp_path / "then" / "index.html").read_text("utf-8")
    assert page.name in index and "need not be valid now" in index


NEVER = {
    "2024-02-29": "No paper was approved by 2024-02-29",
    "2999-01-01": "has not come yet",
    "march": "“march” is no day",
}


@pytest.mark.parametrize(("day", "says"), NEVER.items(), ids=list(NEVER))
def test_a_day_on_which_nothing_held(works: Works, tmp_path: Path, day: str, says: str):
    made = works.run("as-of", day, "--to", str(tmp_path / "x"))
    assert made.returncode == 1 and says in made.stderr and "Traceback" not in made.stderr
    assert not (tmp_path / "x").exists()


@pytest.mark.long  # test_house_by_git has each step of it with a book of two lines
def test_by_git_the_whole_book_of_that_day_with_the_house_of_that_day(works: Works, tmp_path: Path):
    with alone():
        made = works.run("as-of", "2024-05-31", "--git", "--to", str(tmp_path / "then"))
    assert made.returncode == 0, made.stderr[-3000:]
    assert "The book: commit" in made.stdout and "The house: commit" in made.stdout
    casting = (tmp_path / "then" / "procedures" / "casting" / "index.html").read_text("utf-8")
    assert LINE in casting and "P-07, version 1 of 1 Mar 2024" in casting
    steeping = (tmp_path / "then" / "procedures" / "steeping" / "index.html").read_text("utf-8")
    assert "Old steep" in steeping and "New steep" not in steeping
    assert "stop over 10 h (the book: 12 h)" in unescape(steeping)
    assert "version 2" not in casting and (works.home / "house.toml").read_text("utf-8").count("New steep") == 1


def test_a_house_s_file_that_git_does_not_hold_is_said(works: Works, tmp_path: Path):
    other = tmp_path / "home"
    other.mkdir()
    (other / "house.toml").write_text(HOUSE.format(**FIRST), "utf-8")
    before = works.home
    works.home = other
    try:
        made = works.run("as-of", "2024-05-31", "--git", "--to", str(tmp_path / "then"))
        assert made.returncode == 1 and "git says" in made.stderr
        subprocess.run(["git", "init", "-q"], cwd=other, check=True)
        made = works.run("as-of", "2024-05-31", "--git", "--to", str(tmp_path / "then"))
        assert made.returncode == 1 and "is not in git: the book of that day would be built without it" in made.stderr
    finally:
        works.home = before
