"""One command runs every check; nothing else has to be known."""

from __future__ import annotations

import shutil
import subprocess

import pytest

from site_src.settings import ROOT

EVERY_CHECK = ["ruff check", "mypy", "codespell_lib", "site_src.prose", "pytest"]


@pytest.fixture
def steps() -> str:
    make = shutil.which("make")
    if not make:
        pytest.skip("there is no make")
    ran = subprocess.run([make, "--dry-run", "test"], cwd=ROOT, capture_output=True, text=True, check=True)
    return ran.stdout


def test_make_test_runs_every_check_and_fetches_the_browser(steps: str):
    for check in EVERY_CHECK:
        assert f"-m {check}" in steps
    assert steps.index("chromium-headless-shell") < steps.index("-m pytest"), "the browser has to be there first"
    assert steps.index("-m ruff") < steps.index("-m pytest"), "what is quick to find comes first"


def test_what_takes_a_change_in_calls_make_test_alone():
    lines = (ROOT / ".ci/run").read_text("utf-8").splitlines()
    assert [line for line in lines if "make" in line] == ["exec make test"]
