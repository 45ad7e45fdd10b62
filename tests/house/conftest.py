"""The invented house of these tests, put in the place of none."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from calculators.house import here
from calculators.house.offers import offered_of
from site_src.house.check import read_all, read_text

HERE = Path(__file__).parent

House = dict[str, list[dict[str, Any]]]


@pytest.fixture
def invented(monkeypatch: pytest.MonkeyPatch) -> House:
    """What the file of the invented house says, its limits left out."""
    held = dict(read_all(HERE / "house.toml").house)
    monkeypatch.setattr(here, "HOUSE", held)
    monkeypatch.setattr(here, "OFFERED", offered_of(held))
    return held


@pytest.fixture
def house_of(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], House]:
    """Put a house in place that is written in the test."""

    def put(text: str) -> House:
        held = dict(read_text("house.toml", text.encode()).house)
        monkeypatch.setattr(here, "HOUSE", held)
        monkeypatch.setattr(here, "OFFERED", offered_of(held))
        return held

    return put
