"""Files of earlier editions, served on for a while to pages that were open when the site was renewed.

Only files whose name holds their hash are carried over: nothing refers to them but the pages of their own edition, and
they cannot be taken for anything else.
"""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

from site_src.checked import checksums
from site_src.edition import EARLIER, MARK_DIGITS, OFFER
from site_src.file_types import FOR_GOOD
from site_src.runtime import sha256
from site_src.settings import BuildError

DAYS = 30
EDITIONS = 20


def carry_over(former: Path, fresh: Path, *, today: date | None = None, say: Callable[[str], None] = print) -> None:
    """Put the lasting files of the former site, and those that it had carried over, into the fresh one.

    A file goes ``DAYS`` days after the edition that it belonged to was replaced, or when there were ``EDITIONS`` since.
    One that is not what it was when it was built is left behind.

    Parameters
    ----------
    former : Path
        The site as it is published now.
    fresh : Path
        The site that takes its place; changed in place.
    today : date, optional
        The day of the build.
    say : Callable[[str], None]
        Called with a line to show.
    """
    day = today or date.today()
    try:
        sums = checksums(former)
    except BuildError as fault:
        say(f"Nothing is carried over from the former site: {fault}")
        return
    left = _left(former, sums, day)
    editions = list(dict.fromkeys(mark for _, mark in left.values()))[:EDITIONS]
    carried = {}
    for name, (since, mark) in left.items():
        source, target = former / name, fresh / name
        if target.exists() or mark not in editions or (day - date.fromisoformat(since)).days > DAYS:
            continue
        if name not in sums or not source.is_file() or sha256(source.read_bytes()) != sums[name]:
            say(f"{name} of an earlier edition is damaged and is not carried over")
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        _copy(source, target)
        carried[name] = [since, mark]
    if carried:
        (fresh / EARLIER).write_text(json.dumps({"files": carried}, indent=1) + "\n", "utf-8")


def _left(former: Path, sums: Mapping[str, str], day: date) -> dict[str, tuple[str, str]]:
    """Return the day on which each lasting file was left, and the edition it belonged to: the latest first."""
    if not sums:
        return {}
    mark = str(json.loads((former / OFFER).read_text("utf-8"))["version"])[:MARK_DIGITS]
    before = json.loads((former / EARLIER).read_text("utf-8"))["files"] if (former / EARLIER).is_file() else {}
    current = {name: (day.isoformat(), mark) for name in sums if name not in before and _lasts(name)}
    return current | {name: (since, mark) for name, (since, mark) in before.items()}


def _lasts(name: str) -> bool:
    return "/" in name and bool(FOR_GOOD.search(name.removesuffix(".br").removesuffix(".gz")))


def _copy(source: Path, target: Path) -> None:
    try:
        os.link(source, target)
    except OSError:  # another disk, or one that knows no second names
        shutil.copyfile(source, target)


def named(folder: Path) -> Path:
    """Return the folder that a person named as the site published now.

    Raises
    ------
    BuildError
        If it is not a site that was built here.
    """
    if not checksums(folder):
        raise BuildError(f"{folder} is not a site that was built here, so no earlier edition can be taken from it")
    return folder
