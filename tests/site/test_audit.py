"""The search for known weaknesses passes only when every package was looked up and none has one."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from site_src.audit import judged
from site_src.settings import ROOT

SOUND = {"name": "barley", "version": "1.0", "vulns": []}
WEAK = {"name": "oats", "version": "2.0", "vulns": [{"id": "X-1", "fix_versions": ["2.1"]}, {"id": "X-2"}]}
SKIPPED = {"name": "rye", "skip_reason": "Dependency not found and could not be audited: rye (3.0)"}


def report(*packages: object) -> str:
    return json.dumps({"dependencies": packages, "fixes": []})


def test_all_looked_up_and_sound():
    assert judged(report(SOUND, SOUND)) == (True, ["2 packages looked up; no weakness of theirs is known."])


def test_what_could_not_be_looked_up_fails_and_is_named():
    sound, lines = judged(report(SOUND, SKIPPED, SKIPPED))
    assert not sound
    assert lines[0].startswith("2 of 3 packages could not be looked up")
    assert len([line for line in lines if "rye: Dependency not found" in line]) == 2


def test_a_weakness_fails_with_its_name_and_its_cure():
    sound, lines = judged(report(SOUND, WEAK))
    assert not sound
    assert lines == ["oats 2.0: X-1, mended in ['2.1']; X-2, mended in no version so far"]


@pytest.mark.parametrize("text", ["", "{}", "not a report", report(), report({"name": "x"}), '{"dependencies": 5}'])
def test_no_report_is_no_good_news(text: str):
    assert not judged(text).sound


def test_make_audit_asks_it():
    """The recipe, with the search replaced by one that finds nothing out, as behind an index that cannot be asked."""
    make = (ROOT / "Makefile").read_text("utf-8")
    recipe = make.split("\naudit:")[1].split("\n\n")[0]
    assert "--format json" in recipe and "| $(RUN) -m site_src.audit" in recipe
    words = [sys.executable, "-m", "site_src.audit"]
    ran = subprocess.run(words, cwd=ROOT, input=report(SKIPPED), capture_output=True, text=True, check=False)
    assert ran.returncode == 1 and "rye" in ran.stderr
