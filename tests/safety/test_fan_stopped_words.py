"""What is done at once where a fan stands is said in the same words by every page, card and sheet."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from calculators.rules.fan_stopped import AWAY
from calculators.words.cautions import FAN_STOPPED

DOCS = Path(__file__).parents[2] / "docs"
_, _, PLACES = AWAY.partition("everybody ")
WHOLE = ("_includes/hazards/fan-stopped.md", "safety/carbon-dioxide.md")


def plain(path: Path) -> str:
    """The text of a page without its bold marks."""
    return path.read_text().replace("*", "")


def test_every_page_sends_people_away_from_the_same_places() -> None:
    saying = [path for path in DOCS.rglob("*.md") if "away from the hatches" in plain(path)]
    assert len(saying) >= len(WHOLE)
    for path in saying:
        for said in re.findall(r"away from the hatches[^.:;|\n]*", plain(path)):
            assert said.startswith(PLACES), path


@pytest.mark.parametrize("name", WHOLE)
def test_the_caution_of_the_sheets_is_the_pages(name: str) -> None:
    at_once, _ = FAN_STOPPED.text.split(" Who starts the fan")
    assert at_once.endswith("wait beside nothing.")
    assert at_once in plain(DOCS / name)
