"""A person in a steep: page, case, session and emergency card give the same acts in the same order."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

DOCS = Path(__file__).parents[2] / "docs"
ACTS = (r"\bshout", r"\bcall\b", r"\bstop (?:what feeds in|water and barley)", r"\bair\b.{0,20}\bblown into the water",
        r"\bpole\b.{0,12}\bfrom behind the rail", r"\bring\b")  # fmt: skip
STEPS = DOCS / "_includes" / "rescue" / "in-a-steep.md"


def plain(text: str) -> str:
    return " ".join(re.sub(r"[*_|]|\]\([^)]*\)|\[", " ", text).split()).lower()


def order(text: str) -> list[int]:
    """Where each act first stands in a text; one that is missing is -1."""
    found = [re.search(act, plain(text)) for act in ACTS]
    return [one.start() if one else -1 for one in found]


def read(name: str) -> str:
    return (DOCS / name).read_text("utf-8")


def case() -> str:
    listed = tomllib.loads(read("_includes/questions/chemicals-dust-water.toml"))["question"]
    (one,) = (one for one in listed if one["id"] == "water-someone-in-steep")
    (right,) = (choice["says"] for choice in one["choice"] if choice.get("right"))
    return str(right)


def line_with(name: str, words: str) -> str:
    (line,) = (line for line in read(name).splitlines() if words in line)
    return line


PLACES = {
    "steps": lambda: STEPS.read_text("utf-8"),
    "card": lambda: line_with("safety/emergency.md", "| **In a full steep**"),
    "case": case,
    "session": lambda: line_with("training/session-04-filling.md", "*Listen for:* shout"),
    "hand-out": lambda: line_with("training/session-04-filling.md", "- Someone in the water"),
}


@pytest.mark.parametrize("place", PLACES)
def test_every_place_gives_the_acts_in_their_order(place):
    places = order(PLACES[place]())
    assert -1 not in places, places
    assert places == sorted(places)


@pytest.mark.parametrize("page", ["safety/water-heat-noise.md", "safety/emergency.md"])
def test_the_steps_are_written_once_and_included(page):
    assert '--8<-- "rescue/in-a-steep.md"' in read(page)


@pytest.mark.parametrize("page", ["filling-the-steep", "steeping"])
def test_the_procedures_lead_there(page):
    assert "../safety/emergency.md#in-a-full-steep" in read(f"procedures/{page}.md")


def test_nobody_leans_lies_down_is_held_or_goes_in():
    never = plain(STEPS.read_text("utf-8").split("\n\n", 1)[0])
    for act in ("head over the rim", "lying down", "being held", "going in"):
        assert act in never
    wrong = re.compile(r"reach with the pole[,:]? lying down|lying down,? held|shut the valves", re.IGNORECASE)
    for path in sorted(DOCS.rglob("*.md")) + sorted(DOCS.rglob("*.toml")):
        assert not wrong.search(path.read_text("utf-8")), path


def test_what_is_shut_off_has_its_one_exception_wherever_it_is_ordered():
    included = plain(read("_includes/rescue/shut-off-exception.md"))
    assert "one exception stays on: a fresh-air blower that the permit set up for a person." in included
    assert included.endswith("process air is never that.")
    ordered = re.compile(r"\bshut(?:s)? off\b(?=.{0,40}\b(?:feeds|moves)\b)", re.IGNORECASE)
    found = 0
    for path in sorted(DOCS.rglob("*.md")) + sorted(DOCS.rglob("*.toml")):
        lines = path.read_text("utf-8").splitlines()
        for number, line in enumerate(lines):
            if ordered.search(plain(line)):
                found += 1
                near = plain(" ".join(lines[number : number + 2]))
                assert "fresh-air blower" in near or "rescue/shut-off-exception.md" in near, f"{path}: {line}"
    assert found >= 4
