"""What each test and each fixture costs in processor time, that of the browser and the builds it starts too.

Other work on the machine leaves these figures as they are, which it does not do to seconds on the clock.
Say where they are to be written: ``TIMING=seconds.tsv python -m pytest -p tests.timing tests/browser``.
"""

from __future__ import annotations

import os
import time
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import TextIO

import pytest

TICKS = os.sysconf("SC_CLK_TCK")


def processor_seconds() -> float:
    """Seconds that this process, those it started and those they started have used so far."""
    children: dict[int, list[int]] = defaultdict(list)
    used: dict[int, int] = {}
    for folder in Path("/proc").iterdir():
        if folder.name.isdigit():
            try:
                after_name = (folder / "stat").read_text().rpartition(")")[2].split()
            except OSError:
                continue  # it has ended meanwhile
            number = int(folder.name)
            children[int(after_name[1])].append(number)
            used[number] = sum(map(int, after_name[11:15]))  # its own, and what it waited for
    tree = [os.getpid()]
    for number in tree:
        tree += children[number]
    return sum(used[number] for number in tree if number in used) / TICKS


class Timing:
    """Writes a line for each step: its processor seconds, its seconds on the clock, which step, of which test."""

    def __init__(self, out: TextIO) -> None:
        self.out = out

    def _timed(self, step: str, name: str) -> Iterator[None]:
        used, begun = processor_seconds(), time.monotonic()
        yield
        self.out.write(f"{processor_seconds() - used:.2f}\t{time.monotonic() - begun:.2f}\t{step}\t{name}\n")
        self.out.flush()

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_setup(self, item: pytest.Item) -> Iterator[None]:
        yield from self._timed("setup", item.nodeid)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_call(self, item: pytest.Item) -> Iterator[None]:
        yield from self._timed("call", item.nodeid)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_teardown(self, item: pytest.Item) -> Iterator[None]:
        yield from self._timed("teardown", item.nodeid)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_fixture_setup(self, fixturedef: pytest.FixtureDef[object]) -> Iterator[None]:
        if fixturedef.scope == "function":
            yield
        else:
            yield from self._timed("fixture", f"{fixturedef.baseid}::{fixturedef.argname}")


def pytest_configure(config: pytest.Config) -> None:
    """Open the file that is named; each of several processes has one of its own."""
    path = Path(os.environ["TIMING"])
    if worker := os.environ.get("PYTEST_XDIST_WORKER"):
        path = path.with_name(f"{path.stem}-{worker}{path.suffix}")
    out = path.open("w", encoding="utf-8")
    config.add_cleanup(out.close)
    config.pluginmanager.register(Timing(out))
