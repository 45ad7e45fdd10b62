"""How much of what is drawn at random is tried: a part by ``make test``, all of it by ``make fuzz`` (``DRAWN=all``).

A test that draws takes its number from `drawn` and is marked so. Tests of hypothesis are found by themselves: their
``max_examples`` are those of ``make fuzz``, and each run of ``make test`` draws others.
"""

from __future__ import annotations

import os
from typing import Any

import hypothesis
import pytest

PART = 0.25


def drawn(count: int, least: int = 12, part: float = PART) -> int:
    """Return how many of so many draws are tried now: a part, and never fewer than the least."""
    return count if os.environ.get("DRAWN") == "all" else min(count, max(least, round(part * count)))


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
