"""How much is tried by ``make test``, a part, and by ``make fuzz``, all of it (``DRAWN=all``).

A test that draws takes its number from `drawn` and is marked so. Tests of hypothesis are found by themselves: their
``max_examples`` are those of ``make fuzz``, and each run of ``make test`` draws others.

What is marked ``long`` is left to ``make fuzz`` whole: endurance, and further cases of a way that one case goes.

What is marked ``further`` is shared between ``make test`` (``CASES=part``) and ``make rest`` (``CASES=rest``), which
make all of it together: of a test's cases so many as it keeps are tried by the one, others with each commit, and the
rest by the other. Without ``CASES`` all are tried.
"""

from __future__ import annotations

import os
import random
import subprocess
from collections import defaultdict
from typing import Any

import hypothesis
import pytest

PART = 0.15
WHOLE = os.environ.get("DRAWN") == "all"
PART_OF_CASES, REST_OF_CASES = "part", "rest"


def drawn(count: int, least: int = 12, part: float = PART) -> int:
    """Return how many of so many draws are tried now: a part, and never fewer than the least."""
    return count if WHOLE else min(count, max(least, round(part * count)))


def leave_the_long(items: list[pytest.Item]) -> list[pytest.Item]:
    """Take out what is left to ``make fuzz``, and return it."""
    left = [] if WHOLE else [item for item in items if item.get_closest_marker("long")]
    items[:] = [item for item in items if item not in set(left)]
    return left


def share_the_further(items: list[pytest.Item], asked: str, commit: str) -> list[pytest.Item]:
    """Take out what the other of ``make test`` and ``make rest`` tries, and return it; of one commit always the same.

    Parameters
    ----------
    items : list of pytest.Item
        All tests; those that are left stay in it.
    asked : str
        ``part``, ``rest``, or anything else for all.
    commit : str
        What the cases are drawn by, so that the two fit each other.
    """
    if asked not in (PART_OF_CASES, REST_OF_CASES):
        return []
    rest = _the_rest(items, commit)
    left = {item for item in items if (item in rest) == (asked == PART_OF_CASES)}
    out = [item for item in items if item in left]
    items[:] = [item for item in items if item not in left]
    return out


def _the_rest(items: list[pytest.Item], commit: str) -> set[pytest.Item]:
    cases = defaultdict(list)
    for item in items:
        if item.get_closest_marker("further"):
            cases[item.nodeid.split("[")[0]].append(item)
    rest: set[pytest.Item] = set()
    for name, alike in cases.items():
        keep = min((mark.kwargs.get("keep", 0) for mark in alike[0].iter_markers("further")), default=0)
        kept = random.Random(f"{commit} {name}").sample(alike, min(keep, len(alike)))
        rest.update(item for item in alike if item not in kept)
    return rest


def commit_of_now() -> str:
    """The commit that is checked out; nothing where that is not known."""
    try:
        found = subprocess.run(["git", "rev-parse", "HEAD"], capture_output=True, text=True, check=False)
    except OSError:
        return ""
    return found.stdout.strip()


def settings_of(item: pytest.Item) -> hypothesis.settings | None:
    """Return how hypothesis tries a test; `None` for a test of another kind."""
    return getattr(_function(item), "_hypothesis_internal_use_settings", None)


def try_with(item: pytest.Item, settings: hypothesis.settings) -> None:
    """Have hypothesis try a test in another way."""
    _function(item)._hypothesis_internal_use_settings = settings


def draw_a_part(items: list[pytest.Item]) -> None:
    """Mark the tests of hypothesis, and have each drawn as often as is asked for."""
    of_hypothesis = [item for item in items if settings_of(item) is not None]
    for item in of_hypothesis:
        item.add_marker("drawn")
    for item in {id(_function(item)): item for item in of_hypothesis}.values():  # cases of one test share its settings
        given = settings_of(item)
        assert given is not None
        try_with(item, hypothesis.settings(given, max_examples=drawn(given.max_examples)))


def _function(item: pytest.Item) -> Any:
    test = getattr(item, "obj", None)
    return getattr(test, "__func__", test)
