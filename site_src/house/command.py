"""``python -m site_src house``: asks and writes a house's file, or checks the one that is there."""

from __future__ import annotations

import argparse
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from site_src.house.ask import ask_all
from site_src.house.check import read_all
from site_src.house.example import EXAMPLE, example_text
from site_src.house.remarks import read_own
from site_src.house.where import NAME, OWN, home
from site_src.settings import ROOT, BuildError
from site_src.taken import NotTakenUp, taken_up


def _looked() -> int:
    """Note what each change of the house stands on now, in a Python that has the house’s limits."""
    bring = "from site_src.taken import bring; bring()"
    code = f"{bring}; from site_src.house.control import looked; print(looked())"
    with taken_up():
        return subprocess.run([sys.executable, "-c", code], check=False, cwd=ROOT).returncode


def main(words: Sequence[str]) -> int:
    """Run one command about the house; return the exit code."""
    parser = argparse.ArgumentParser(prog="python -m site_src house", description="This house’s own file.")
    does = ("ask", "check", "looked", "example")
    parser.add_argument("does", nargs="?", choices=does, default="ask", help="ask writes the file")
    parser.add_argument("--to", type=Path, default=home() / NAME, metavar="FILE", help="the house’s file")
    parser.add_argument("--answers", type=Path, metavar="FILE", help="answers, a line for each question")
    given = parser.parse_args(words)
    try:
        if given.does == "example":
            EXAMPLE.write_text(example_text(), "utf-8")
            print(f"Written: {EXAMPLE.name}")
        elif given.does == "looked":
            return _looked()
        elif given.does == "check":
            held = read_all(given.to)
            pages, remarks = read_own(given.to.parent / OWN)
            found = f"{sum(map(len, held.house.values()))} entries, {len(held.edges)} limits, {len(held.malts)} malts"
            print(f"{given.to.name}: nothing wrong. {found}; {len(pages)} own pages, {len(remarks)} notes.")
        else:
            lines = iter(given.answers.read_text("utf-8").splitlines()) if given.answers else None
            asked, answered = ask_all(given.to, lines)
            print(f"{asked} questions, {answered} answered: {given.to}")
    except OSError as fault:
        print(f"{fault.filename}: {fault.strerror}. Is it there, and can it be written?", file=sys.stderr)
        return 1
    except NotTakenUp:
        return 1
    except BuildError as fault:
        print(fault, file=sys.stderr)
        return 1
    return 0
