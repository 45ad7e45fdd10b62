"""Tests in a child process: which lines each test runs, and whether tests see a change."""

from __future__ import annotations

import contextlib
import importlib.util
import json
import os
import signal
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, SourceFileLoader
from pathlib import Path
from types import CodeType, FrameType
from typing import Any, NamedTuple

import hypothesis
import pytest
from hypothesis import Phase, Verbosity

from .changes import changed

ROOT = Path(__file__).parents[2]
EXAMPLES = 20
LONGEST = 90.0  # seconds that a test file may take while its lines are noted
LOOKED_AT = 100  # calls of one function in one test: after that its lines are taken as known
QUIET = [
    "-q",
    "--no-header",
    "-p",
    "no:cacheprovider",
    "-p",
    "_hypothesis_pytestplugin",
    "-m",
    "not site and not browser",
]
QUIET += ["-W", "ignore::pytest.PytestAssertRewriteWarning"]  # hypothesis is there already, which is the point

Lines = dict[str, list[int]]


class Reached(NamedTuple):
    """What a test file runs: lines when it is read in, and by each test its seconds and lines."""

    at_import: Lines
    tests: dict[str, tuple[float, Lines]]


def seen(path: str, which: int, tests: dict[str, float], temp: Path, seconds: float) -> bool:
    """Tell whether any of these tests fails, or none ends in time, when one change is made in a file."""
    code = compile(changed(ROOT / path, which), str(ROOT / path), "exec")

    def run() -> int:
        sys.meta_path.insert(0, _Changed(path.removesuffix(".py").replace("/", "."), code))
        files = sorted({test.split("::")[0] for test in tests})
        return int(pytest.main(["-x", *QUIET, f"--basetemp={temp}", *files], plugins=[_Few(), _Chosen(tests)]))

    status = _in_child(run, seconds)
    if os.WIFSIGNALED(status):
        return True  # by the clock, or the interpreter itself gave up
    left = os.waitstatus_to_exitcode(status)
    if left == pytest.ExitCode.NO_TESTS_COLLECTED:
        raise RuntimeError(f"none of its tests was found for {path}, change {which}")
    return left != pytest.ExitCode.OK


def reached(file: str, temp: Path, rooms: tuple[str, ...]) -> Reached | None:
    """Return what a test file runs of these rooms; `None` when it takes too long.

    A test that fails without any change has no place in the answer.
    """
    out = temp / "reached.json"
    out.unlink(missing_ok=True)

    def run() -> int:
        watch = _Watch(rooms)
        left = int(pytest.main([*QUIET, f"--basetemp={temp / 'tests'}", file], plugins=[_Few(), watch]))
        out.write_text(json.dumps([watch.at_import, watch.tests]), "utf-8")
        return left

    status = _in_child(run, LONGEST)
    if os.WIFSIGNALED(status):
        return None
    if not out.exists():
        raise RuntimeError(f"pytest could not be started for {file}")
    return Reached(*json.loads(out.read_text("utf-8")))


def _in_child(run: Callable[[], int], seconds: float) -> int:
    pid = os.fork()
    if not pid:
        left = 3
        try:
            os.setsid()
            signal.setitimer(signal.ITIMER_REAL, seconds)
            nowhere = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(nowhere, stream)
            sys.dont_write_bytecode = True
            os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"  # half of the start of pytest
            os.chdir(ROOT)
            left = run()
        finally:
            os._exit(left)
    _, status = os.waitpid(pid, 0)
    with contextlib.suppress(ProcessLookupError):
        os.killpg(pid, signal.SIGKILL)  # what a test had started
    return status


class _Changed(MetaPathFinder):
    def __init__(self, module: str, code: CodeType) -> None:
        self.module, self.code = module, code

    def find_spec(self, name: str, path: Any = None, target: Any = None) -> ModuleSpec | None:
        if name != self.module:
            return None
        return importlib.util.spec_from_file_location(
            name, self.code.co_filename, loader=_Loader(name, self.code.co_filename, self.code)
        )


class _Loader(SourceFileLoader):
    def __init__(self, name: str, path: str, code: CodeType) -> None:
        super().__init__(name, path)
        self.code = code

    def get_code(self, fullname: str) -> CodeType:
        return self.code


class _Few:
    """Few random examples, the same each time, nothing kept, no search for the smallest."""

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        for item in items:
            test: Any = getattr(item, "obj", None)
            test = getattr(test, "__func__", test)
            given = getattr(test, "_hypothesis_internal_use_settings", None)
            if given is not None:
                test._hypothesis_internal_use_settings = hypothesis.settings(
                    given,
                    max_examples=min(given.max_examples, EXAMPLES),
                    database=None,
                    derandomize=True,
                    phases=[Phase.explicit, Phase.generate],
                    verbosity=Verbosity.quiet,
                )


class _Chosen:
    """Only these tests, the shortest first."""

    def __init__(self, tests: dict[str, float]) -> None:
        self.tests = tests

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted((i for i in items if i.nodeid in self.tests), key=lambda i: self.tests[i.nodeid])


class _Watch:
    """Note the lines that run: once for reading in, then for each test."""

    def __init__(self, rooms: tuple[str, ...]) -> None:
        self.rooms = tuple(f"{ROOT / room}{os.sep}" for room in rooms)
        self.lines: dict[str, set[int]] = {}
        self.calls: Counter[CodeType] = Counter()
        self.at_import: Lines = {}
        self.tests: dict[str, tuple[float, Lines]] = {}
        self.failed: set[str] = set()
        sys.settrace(self._call)

    def _call(self, frame: FrameType, event: str, what: object) -> Any:
        code = frame.f_code
        if not code.co_filename.startswith(self.rooms):
            return None
        self.calls[code] += 1
        if self.calls[code] > LOOKED_AT:
            return None
        self.lines.setdefault(code.co_filename, set()).add(frame.f_lineno)
        return self._line

    def _line(self, frame: FrameType, event: str, what: object) -> Any:
        self.lines.setdefault(frame.f_code.co_filename, set()).add(frame.f_lineno)
        return self._line

    def _taken(self) -> Lines:
        lines = {Path(file).relative_to(ROOT).as_posix(): sorted(found) for file, found in self.lines.items()}
        self.lines = {}
        self.calls.clear()
        return lines

    def pytest_collection_finish(self) -> None:
        self.at_import = self._taken()

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        started = time.perf_counter()
        self._taken()
        left = yield
        if item.nodeid not in self.failed:
            self.tests[item.nodeid] = (round(time.perf_counter() - started, 4), self._taken())
        return left

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if not report.passed:
            self.failed.add(report.nodeid)
