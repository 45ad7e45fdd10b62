"""What is kept between builds: made again when it is damaged, and gone when no build has used it for long."""

from __future__ import annotations

import os
import time
from pathlib import Path

from site_src.cache import kept, tidy

DAY = 86400


def aged(path: Path, days: float) -> None:
    os.utime(path, (time.time() - days * DAY,) * 2)


def test_what_is_damaged_is_made_again(tmp_path):
    path = tmp_path / "folder" / "one"
    assert kept(path, lambda: b"first") == kept(path, lambda: b"second") == b"first"
    path.write_bytes(path.read_bytes()[:-1])
    assert kept(path, lambda: b"third") == b"third" == kept(path, lambda: b"fourth")


def test_what_was_not_used_for_two_weeks_goes_and_is_looked_for_once_a_day(tmp_path):
    folder = tmp_path / "folder"
    old, new = folder / "old", folder / "new"
    for path in (old, new):
        kept(path, lambda: b"data")
    aged(old, 15)
    aged(new, 13)
    tidy(folder)
    assert not old.exists() and new.exists()
    aged(new, 15)
    tidy(folder)
    assert new.exists()
    (looked,) = set(tmp_path.iterdir()) - {folder}
    aged(looked, 1.1)
    tidy(folder)
    assert not new.exists()
