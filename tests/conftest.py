"""Shared by all tests: the built site, and a server for it."""

from __future__ import annotations

import fcntl
import os
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import settings

from site_src.server import Server
from site_src.settings import CACHE
from tests.drawn import commit_of_now, draw_a_part, leave_the_long, share_the_further

BuildDocs = Callable[..., Path]
SITE = pytest.StashKey[tuple[Path, str]]()

# Our matrices are small: threads of one process would wait for each other longer than they reckon, the more so beside a
# second process. Whoever imports numpy after this has one, and so has each process that is started.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# A busy machine is no fault of the code: properties are checked without a clock.
settings.register_profile("no-clock", deadline=None)
settings.load_profile("no-clock")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Put tests in order, have what is drawn tried as often as is asked for, and leave what is for a longer run."""
    items.sort(key=_turn)
    draw_a_part(items)
    left = leave_the_long(items)
    left += share_the_further(items, os.environ.get("CASES", ""), commit_of_now())
    if left:
        config.hook.pytest_deselected(items=left)


BUILDS_THE_SITE, NEED_NO_SITE = "site/test_whole_site.py", ("asking", "daybook", "exercises", "fuzz", "models")


def _turn(item: pytest.Item) -> int:
    """Let one process build the site while the other does what needs none; then pages, which take longest."""
    path = item.path.relative_to(Path(__file__).parent)
    turns = [path.as_posix() == BUILDS_THE_SITE, path.parts[0] in NEED_NO_SITE, path.parts[0] == "browser", True]
    return turns.index(True)


@contextmanager
def alone() -> Iterator[None]:
    """Let one process at a time build, so that the first fills the cache for all."""
    CACHE.mkdir(exist_ok=True)
    with (CACHE / "tests.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield


@contextmanager
def served(server: Server) -> Iterator[str]:
    """Run a server in the background; yield its address, which ends in a slash."""
    thread = threading.Thread(target=server.serve_forever, args=(0.05,), daemon=True)
    thread.start()
    try:
        yield server.address
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


@pytest.hookimpl(optionalhook=True)
def pytest_configure_node(node: Any) -> None:
    """Tell each of several processes of one site: the process that leads them serves it."""
    config: pytest.Config = node.config
    if SITE not in config.stash:
        running = ExitStack()
        config.add_cleanup(running.close)
        site = Path(running.enter_context(TemporaryDirectory(prefix="whole-"))) / "site"
        config.stash[SITE] = (site, running.enter_context(served(Server(site))))
    site, address = config.stash[SITE]
    node.workerinput.update(site=str(site), address=address)


@pytest.fixture(scope="session")
def _site_and_server(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[Path, str]]:
    from site_src.build import build  # here, so that the trade's own tests need no generator of pages

    # The address has to be known before the build, because it is built into the pages.
    told = getattr(request.config, "workerinput", {})
    with ExitStack() as running:
        if "site" in told:
            site, address = Path(told["site"]), told["address"]
        else:
            site = tmp_path_factory.mktemp("whole") / "site"
            address = running.enter_context(served(Server(site)))
        with alone():
            if not site.exists():  # the first that needs it builds it for all
                build(site, site_url=address, quick=True)
        yield site, address


@pytest.fixture(scope="session")
def built_site(_site_and_server: tuple[Path, str]) -> Path:
    """Return the folder of the whole built site."""
    return _site_and_server[0]


@pytest.fixture(scope="session")
def address(_site_and_server: tuple[Path, str]) -> str:
    """Return the address where the whole site is served, with a slash at its end."""
    return _site_and_server[1]


@pytest.fixture
def build_docs(tmp_path: Path) -> BuildDocs:
    """Return a function that builds a small site from pages given as texts."""

    from site_src.build import build

    def make(pages: Mapping[str, str], site_url: str = "http://127.0.0.1:8000/") -> Path:
        docs = tmp_path / "docs"
        for name, text in pages.items():
            path = docs / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
        with alone():
            return build(tmp_path / "site", site_url=site_url, docs=docs, quick=True)

    return make
