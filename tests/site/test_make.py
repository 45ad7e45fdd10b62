"""One command runs every check; nothing else has to be known."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_src.settings import ROOT
from tests.drawn import share_the_further

EVERY_CHECK = [
    "-m ruff check", "-m mypy", "-m codespell_lib", "-m site_src.prose", "bin/lint-imports", "tsc -p tsconfig.json",
    "tsc -p tsconfig.workers.json", "eslint.js", "CASES=part .venv/bin/python -m pytest",
]  # fmt: skip


def made(*words: str) -> subprocess.CompletedProcess[str]:
    make = shutil.which("make")
    if not make:
        pytest.skip("there is no make")
    own = {name: value for name, value in os.environ.items() if not name.startswith(("MAKE", "MFLAGS"))}
    return subprocess.run([make, *words], cwd=ROOT, env=own, capture_output=True, text=True, check=False)


@pytest.fixture
def steps() -> str:
    return made("--dry-run", "test").stdout


def test_make_test_runs_every_check_and_fetches_the_browser(steps: str):
    for check in EVERY_CHECK:
        assert check in steps
    assert steps.index("chromium-headless-shell") < steps.index("-m pytest"), "the browser has to be there first"
    assert steps.index("-m ruff") < steps.index("-m pytest"), "what is quick to find comes first"


def test_what_takes_a_change_in_calls_make_test_and_tries_what_that_leaves():
    lines = (ROOT / ".ci/run").read_text("utf-8").splitlines()
    assert [line for line in lines if line.split()[:1] in (["set"], ["make"], ["exec"])] == [
        "set -eu",  # what fails ends it
        "make test",
        "exec make rest",
    ]
    assert "CASES=rest .venv/bin/python -m pytest" in made("--dry-run", "rest").stdout


@pytest.mark.parametrize(
    ("first", "second", "ends", "tries"),
    [(0, 0, 0, 1), (1, 0, 0, 2), (1, 1, 1, 2), (137, 0, 137, 1), (5, 0, 5, 1)],
)
def test_only_what_failed_is_tried_again_and_all_of_that(
    tmp_path: Path, first: int, second: int, ends: int, tries: int
):
    """A run that was killed, or that found no tests, is no run of which a part could be tried again."""
    said, program = tmp_path / "said", tmp_path / "python"
    program.write_text(
        f'#!/bin/sh\necho "${{CASES:-all}} $*" >> {said}\n[ -e {said}.again ] && exit {second}\n'
        f": > {said}.again\nexit {first}\n"
    )
    program.chmod(0o755)
    recipe = made("--dry-run", "rest", f"RUN={program}").stdout.partition("CASES=rest")
    ran = subprocess.run(["sh", "-c", "".join(recipe[1:])], capture_output=True, text=True, check=False)
    asked = said.read_text().splitlines()
    assert (ran.returncode, len(asked)) == (ends, tries)
    assert asked[0].startswith("rest ") and "--cache-clear" in asked[0]
    assert all(line.startswith("all ") and "--last-failed" in line for line in asked[1:])


class Case:
    """A test as it is collected, kept so often."""

    def __init__(self, name: str, keep: int | None = None):
        self.nodeid, self.marks = name, [] if keep is None else [pytest.mark.further(keep=keep).mark]

    def get_closest_marker(self, name: str) -> object:
        return self.marks[0] if self.marks else None

    def iter_markers(self, name: str) -> Iterator[object]:
        return iter(self.marks)


@given(st.lists(st.tuples(st.integers(1, 9), st.none() | st.integers(0, 9)), max_size=5), st.text(max_size=3))
def test_the_two_make_all_of_it_and_nothing_twice(cases: list[tuple[int, int | None]], commit: str):
    every: list[Any] = [
        Case(f"test_{number}[{n}]", keep) for number, (many, keep) in enumerate(cases) for n in range(many)
    ]
    part, rest, plain = [*every], [*every], [*every]
    left = share_the_further(part, "part", commit)
    assert share_the_further(rest, "rest", commit) == part and left == rest
    assert sorted(case.nodeid for case in part + rest) == sorted(case.nodeid for case in every)
    for number, (many, keep) in enumerate(cases):
        kept = [case for case in part if case.nodeid.startswith(f"test_{number}[")]
        assert len(kept) == (many if keep is None else min(many, keep))
    assert share_the_further(plain, "", commit) == [] and plain == every


def test_another_commit_has_other_cases():
    def drawn_by(commit: str) -> list[str]:
        cases: list[Any] = [Case(f"test_it[{n}]", 3) for n in range(100)]
        share_the_further(cases, "part", commit)
        return [case.nodeid for case in cases]

    assert drawn_by("a") == drawn_by("a") != drawn_by("b")
