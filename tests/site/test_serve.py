"""A change of what the site is built from is seen, and nothing else is."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from site_src.serve import changes

PATIENCE = 10  # s
NOT_LONG = 1.5


@pytest.fixture(scope="module")
def repository(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("watched")
    files = ("docs/index.md", "calculators/sheets/a.py", "site_src/build.py", "mkdocs.yml", "README.md")
    for name in (*files, "house/drain.md"):
        (place / name).parent.mkdir(parents=True, exist_ok=True)
        (place / name).write_text("first")
    (place / "tests").mkdir()
    return place


Seen = Callable[[float], set[str]]


@pytest.fixture(scope="module")
def watching(repository: Path) -> Iterator[Seen]:
    """What is seen next, or nothing, by one that looks on through all tests."""
    found: queue.Queue[set[str]] = queue.Queue()
    stop = threading.Event()

    def look() -> None:
        for one in changes(repository, stop):
            found.put(one)

    thread = threading.Thread(target=look)
    thread.start()

    def following(patience: float = PATIENCE) -> set[str]:
        try:
            return found.get(timeout=patience)
        except queue.Empty:
            return set()

    while not following(0.5):  # until it looks
        (repository / "docs/index.md").write_text("look")
    yield following
    stop.set()
    thread.join()


@pytest.fixture
def seen(watching: Seen) -> Seen:
    """What is seen from now on."""
    while watching(0.7):
        pass
    return watching


def replaced(path: Path) -> None:
    """As many editors write."""
    part = path.with_name("part.tmp")
    part.write_text("second")
    part.replace(path)


@pytest.mark.further(keep=2)
@pytest.mark.parametrize(
    ("name", "how"),
    [
        ("docs/index.md", lambda path: path.write_text("second")),
        ("calculators/sheets/a.py", replaced),
        ("site_src/build.py", Path.unlink),
        ("mkdocs.yml", lambda path: path.write_text("second")),
        ("house.toml", lambda path: path.write_text("new")),
        ("house/drain.md", lambda path: path.write_text("second")),
        ("docs/new.md", lambda path: path.write_text("new")),
        ("docs/new/index.md", lambda path: (path.parent.mkdir(), path.write_text("new"))),
    ],
)
def test_a_change_is_seen(repository: Path, seen: Seen, name: str, how: Callable[[Path], None]):
    how(repository / name)
    found = seen(PATIENCE)
    assert name in found or str(Path(name).parent) in found


OTHERS = ["README.md", "tests/a.py", "calculators/__pycache__/a.pyc", "docs/.index.md.swp", "house/stands-on.toml"]


@pytest.mark.further(keep=1)
@pytest.mark.parametrize("name", OTHERS)
def test_what_no_page_is_built_from_is_not(repository: Path, seen: Seen, name: str):
    (repository / name).parent.mkdir(exist_ok=True)
    (repository / name).write_text("second")
    assert not seen(NOT_LONG)


@pytest.mark.further(keep=1)
@pytest.mark.parametrize("name", ["mkdocs.yml", "docs/index.md"])
def test_a_file_that_an_editor_replaces_is_seen_each_time(repository: Path, seen: Seen, name: str):
    for _ in range(3):
        replaced(repository / name)
        assert name in seen(PATIENCE)
        while seen(0.7):
            pass


def test_many_changes_at_once_are_one(repository: Path, seen: Seen):
    for number in range(50):
        (repository / f"docs/{number}.md").write_text("new")
    assert len(seen(PATIENCE)) == 50
    assert not seen(NOT_LONG)
