"""Tests in a child process: which lines each test runs, and whether tests see a change."""

from __future__ import annotations

import contextlib
import gc
import importlib.util
import json
import os
import signal
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from functools import _lru_cache_wrapper, partial
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, SourceFileLoader
from pathlib import Path
from types import CodeType, FrameType, FunctionType, ModuleType
from typing import Any, NamedTuple

import hypothesis
import pytest
from hypothesis import Phase, Verbosity

from tests.drawn import settings_of, try_with

from .changes import changed

ROOT = Path(__file__).parents[2]
EXAMPLES = 20
LONGEST = 400.0  # seconds of processor that a test file may take while its lines are noted
LOOKED_AT = 25  # calls of one function in one test: after that its lines are taken as known
KNOWN = 500  # lines of one function that run without a new one: the loop brings no more
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
QUIET += ["-o", "python_files=test_*.py"]  # or pytest reads a rule such as germination_test.py in by itself, unchanged
QUIET += ["-W", "ignore::pytest.PytestAssertRewriteWarning"]  # hypothesis is there already, which is the point
SLOW_START = 15.0  # seconds of processor to read tests in
AT_LEAST = 2.0  # seconds of processor that any test may take

Lines = dict[str, list[int]]


class Reached(NamedTuple):
    """What a test file runs: lines when it is read in, and by each test its seconds of processor and lines."""

    at_import: Lines
    tests: dict[str, tuple[float, Lines]]


class Trial(NamedTuple):
    """One change to try: where, which of the file's changes, and by which tests, with their seconds."""

    path: str
    which: int
    tests: dict[str, float]

    @property
    def files(self) -> set[str]:
        return {test.split("::")[0] for test in self.tests}


def seen(trial: Trial, temp: Path) -> bool:
    """Tell whether any of these tests fails, or has no end, when everything is read in with the change made."""
    code = _code(trial)

    def run() -> int:
        for name in read_in_already():
            del sys.modules[name]
        sys.meta_path.insert(0, _Changed(trial.path.removesuffix(".py").replace("/", "."), code))
        plugins = [_Few(), _Chosen(trial.tests)]
        return int(pytest.main(["-x", *QUIET, f"--basetemp={temp}", *sorted(trial.files)], plugins=plugins))

    left = _in_child(run, SLOW_START + 2 * sum(trial.tests.values()))
    if left == pytest.ExitCode.NO_TESTS_COLLECTED:
        raise RuntimeError(f"none of its tests was found for {trial.path}, change {trial.which}")
    return left != pytest.ExitCode.OK


def seen_at_once(trials: list[Trial], temp: Path) -> Iterator[bool]:
    """Tell the same of many changes inside functions, each put into what one child has read in once.

    What was worked out while the tests were read in is not worked out again: a change that nothing sees here has to
    be tried by `seen` as well, and one that runs when a file is read in has no place here.
    """
    if not trials:
        return
    ears, mouth = os.pipe()

    def run() -> int:
        os.close(ears)
        files = sorted({file for trial in trials for file in trial.files})
        return int(pytest.main([*QUIET, f"--basetemp={temp}", *files], plugins=[_Few(), _AllTrials(trials, mouth)]))

    pid = _fork(run, None)
    os.close(mouth)
    told = 0
    with os.fdopen(ears) as heard:
        try:
            for line in heard:
                told += 1
                yield line.strip() == "seen"
        finally:
            _end(pid)
    if told < len(trials):
        raise RuntimeError(f"only {told} of {len(trials)} changes were tried")


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

    _in_child(run, LONGEST)
    return Reached(*json.loads(out.read_text("utf-8"))) if out.exists() else None


def read_in_already() -> list[str]:
    """Return the modules of ours that are here, by whatever name: they know nothing of a change.

    A test file is one by its bare name, and what it took at its head is the unchanged thing. A folder without a file
    of its own holds what was once taken from it.
    """
    ours = tuple(f"{ROOT / room}{os.sep}" for room in ("calculators", "site_src", "tests"))

    def stands(module: ModuleType) -> str:
        places = [getattr(module, "__file__", None), *getattr(module, "__path__", ())]
        return next((f"{place}{os.sep}" for place in places if place), "")

    here = [name for name, module in sys.modules.items() if stands(module).startswith(ours)]
    return [name for name in here if not name.startswith("tests.mutants")]


def _code(trial: Trial) -> CodeType:
    return compile(changed(ROOT / trial.path, trial.which), str(ROOT / trial.path), "exec")


def _end_this(item: pytest.Item, tests: dict[str, float]) -> None:
    """Let the clock of the processor end the child when one test takes far longer than it should: a loop has no end."""
    signal.setitimer(signal.ITIMER_PROF, AT_LEAST + 4 * tests[item.nodeid])


def _in_child(run: Callable[[], int], seconds: float) -> int:
    """Return how a child ended, less than 0 by a signal."""
    pid = _fork(run, seconds)
    _, status = os.waitpid(pid, 0)
    _end(pid)
    return os.waitstatus_to_exitcode(status)


def _fork(run: Callable[[], int], seconds: float | None) -> int:
    pid = os.fork()
    if not pid:
        left = 3
        try:
            os.setsid()
            if seconds is not None:
                signal.setitimer(signal.ITIMER_PROF, seconds)
                signal.setitimer(signal.ITIMER_REAL, 600.0)  # one that waits for nothing
            nowhere = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(nowhere, stream)
            sys.dont_write_bytecode = False  # to compile each test file again costs more than most tests
            os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"  # half of the start of pytest
            os.environ["DRAWN"] = "all"  # but for hypothesis’s, of which `_Few` tells
            os.chdir(ROOT)
            left = run()
        finally:
            os._exit(left)
    return pid


def _end(pid: int) -> None:
    with contextlib.suppress(ProcessLookupError):
        os.killpg(pid, signal.SIGKILL)  # what a test had started
    with contextlib.suppress(ChildProcessError):
        os.waitpid(pid, 0)


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
            given = settings_of(item)
            if given is not None:
                fewer = hypothesis.settings(
                    given,
                    max_examples=min(given.max_examples, EXAMPLES),
                    database=None,
                    derandomize=True,
                    phases=[Phase.explicit, Phase.generate],
                    verbosity=Verbosity.quiet,
                )
                try_with(item, fewer)


class _Chosen:
    """Only these tests, the shortest first."""

    def __init__(self, tests: dict[str, float]) -> None:
        self.tests = tests

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted((i for i in items if i.nodeid in self.tests), key=lambda i: self.tests[i.nodeid])

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_setup(self, item: pytest.Item) -> None:
        _end_this(item, self.tests)


class _AllTrials:
    """In place of running the tests: for each change a child with the changed function, and only its tests."""

    def __init__(self, trials: list[Trial], mouth: int) -> None:
        self.trials, self.mouth = trials, mouth
        self.failed = False

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        things = gc.get_objects()
        functions = [f for f in things if isinstance(f, FunctionType) and f.__code__.co_filename.startswith(str(ROOT))]
        kept = [c for c in things if isinstance(c, _lru_cache_wrapper)]
        del things
        gc.freeze()
        for trial in self.trials:
            left = _in_child(partial(self._try, trial, items, functions, kept), SLOW_START)
            os.write(self.mouth, b"seen\n" if left else b"not seen\n")
        return True

    def _try(self, trial: Trial, items: dict[str, pytest.Item], functions: list[FunctionType], kept: list[Any]) -> int:
        new = {(code.co_qualname, code.co_firstlineno): code for code in _codes(_code(trial))}
        for function in functions:
            old = function.__code__
            if old.co_filename == str(ROOT / trial.path) and (old.co_qualname, old.co_firstlineno) in new:
                function.__code__ = new[old.co_qualname, old.co_firstlineno]
        for cache in kept:
            if getattr(cache, "__module__", "").startswith(("calculators", "site_src", "tests")):
                cache.cache_clear()
        chosen = sorted((items[test] for test in trial.tests if test in items), key=lambda i: trial.tests[i.nodeid])
        for item, after in zip(chosen, [*chosen[1:], None], strict=True):
            _end_this(item, trial.tests)
            item.ihook.pytest_runtest_protocol(item=item, nextitem=after)
            if self.failed:
                return 1
        return 0

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.failed |= report.failed


def _codes(code: CodeType) -> Iterator[CodeType]:
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            yield inner
            yield from _codes(inner)


class _Watch:
    """Note the lines that run: once for reading in, then for each test."""

    def __init__(self, rooms: tuple[str, ...]) -> None:
        self.rooms = tuple(f"{ROOT / room}{os.sep}" for room in rooms)
        self.lines: dict[str, set[int]] = {}
        self.calls: Counter[CodeType] = Counter()
        self.known: Counter[CodeType] = Counter()  # lines in a row that were seen before
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
        found = self.lines.setdefault(frame.f_code.co_filename, set())
        self.known[frame.f_code] = self.known[frame.f_code] + 1 if frame.f_lineno in found else 0
        found.add(frame.f_lineno)
        frame.f_trace_lines = self.known[frame.f_code] < KNOWN
        return self._line

    def _taken(self) -> Lines:
        lines = {Path(file).relative_to(ROOT).as_posix(): sorted(found) for file, found in self.lines.items()}
        self.lines = {}
        self.calls.clear()
        self.known.clear()
        return lines

    def pytest_collection_finish(self) -> None:
        self.at_import = self._taken()

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        started = time.process_time()
        self._taken()
        left = yield
        if item.nodeid not in self.failed:
            self.tests[item.nodeid] = (round(time.process_time() - started, 4), self._taken())
        return left

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if not report.passed:
            self.failed.add(report.nodeid)
