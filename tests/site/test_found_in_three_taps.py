"""From the home page, by links in the text alone and without search, a reader gets to what to do."""

from __future__ import annotations

import re
from collections import deque
from html.parser import HTMLParser
from pathlib import Path
from posixpath import normpath
from typing import NamedTuple

import pytest

from calculators.sheets import sheet_ids

pytestmark = pytest.mark.site
_VOID = {"area", "base", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr"}
_HEADING = re.compile(r"h[1-6]")


class Place(NamedTuple):
    """A page of the site and an anchor on it."""

    page: str
    anchor: str = ""


class Article(HTMLParser):
    """The text of a page: its links, and for each anchor the words from there to the next heading of its level."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.links: list[str] = []
        self.sections: dict[str, list[str]] = {}
        self._open: list[tuple[str, int]] = []
        self._inside = 0
        self._hidden = 0
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        if tag == "article":
            self._inside = 1
            self._open = [("", 0)]
            self.sections[""] = []
        if not self._inside:
            return
        if tag not in _VOID:
            self._inside += tag != "article"
            # What is shown only under the pointer is no answer.
            self._hidden += bool(self._hidden) or "term-note" in (values.get("class") or "")
        link = values.get("href") or values.get("xlink:href")
        if tag == "a" and link and "headerlink" not in (values.get("class") or ""):
            self.links.append(link)
        if anchor := values.get("id"):
            level = int(tag[1]) if _HEADING.fullmatch(tag) else 7
            self._open = [(name, above) for name, above in self._open if above < level]
            self._open.append((anchor, level))
            self.sections[anchor] = []

    def handle_endtag(self, tag: str) -> None:
        if self._inside and tag not in _VOID:
            self._hidden -= bool(self._hidden)
            self._inside -= 1

    def handle_data(self, data: str) -> None:
        if self._inside and not self._hidden:
            for anchor, _ in self._open:
                self.sections[anchor].append(data)

    def words(self, anchor: str) -> str:
        return " ".join("".join(self.sections[anchor]).split())


class Site:
    """The built site as a reader walks it."""

    def __init__(self, folder: Path) -> None:
        self.pages = {
            path.relative_to(folder).parent.as_posix().removeprefix("."): Article(path.read_text("utf-8"))
            for path in folder.rglob("index.html")
        }
        self.taps = self._walked(Place(""))

    def _onward(self, place: Place) -> list[Place]:
        found = []
        for link in self.pages[place.page].links:
            path, _, anchor = link.partition("#")
            if re.match(r"[a-z]+:", path):
                continue
            page = normpath(f"{place.page}/{path}").strip("/").removeprefix(".") if path else place.page
            if page in self.pages:
                found.append(Place(page, anchor))
        return found

    def _walked(self, start: Place) -> dict[Place, int]:
        taps = {start: 0}
        line = deque([start])
        while line:
            place = line.popleft()
            for onward in self._onward(place):
                if onward not in taps:
                    taps[onward] = taps[place] + 1
                    line.append(onward)
        return taps


@pytest.fixture(scope="module")
def site(built_site: Path) -> Site:
    return Site(built_site)


QUESTIONS = {
    "the grain smells sour on day 2, in the steep": (
        Place("reference/what-goes-wrong", "sour-in-the-steep"),
        ["drain at once", "Full suction", "Fresh water", "had no air", "Narziss, not citable"],
    ),
    "the grain smells sour on day 2, on the floor": (
        Place("reference/what-goes-wrong", "sour-on-the-floor"),
        ["Turn at once", "Spread it thin", "No air inside", "Narziss, not citable"],
    ),
    "the basket weighs 168 g": (
        # 100 g at 12 %, 1 % leached, to 45 %: 100 × 0.88 × 0.99 / 0.55 = 158.4; 168 g are 1 − 87.12/168 = 48.1 %.
        Place("reference/what-goes-wrong", "basket-168"),
        ["158.4 g", "242.4 g", "48.1 %", "Drain now", "Computed from the balance"],
    ),
    "someone wants to fetch a dropped thermometer from the drum": (
        Place("reference/what-goes-wrong", "dropped-thermometer"),
        ["No. Never.", "It stays where it is", "turn no drum", "Carbon dioxide", "NIOSH, read"],
    ),
    "why it stays there": (
        Place("safety/confined-vessels", "the-rule"),
        ["Nobody puts any part of the body into a steep, drum", "If something has fallen in, it stays in"],
    ),
    "it smells of rotten eggs at the drain": (
        Place("safety/gases", "hydrogen-sulphide"),
        ["away, upwind", "paralyses the sense of smell", "Lift no cover", "NIOSH"],
    ),
    "it stings in the nose at the cooling plant": (
        Place("safety/gases", "ammonia"),
        ["Out, across the wind", "The usual four-gas meter has none", "say ammonia"],
    ),
    "the floor is 21 °C at the bottom": (
        Place("reference/what-goes-wrong", "hot-bottom"),
        ["Turn at once", "Spread it to about 8 cm", "Read again after an hour", "Balling, not citable"],
    ),
    "barley grew 91 of 100 in 4 ml and 60 in 8 ml": (
        Place("reference/what-goes-wrong", "ninety-one-and-sixty"),
        ["31 points", "sensitive", "undecided", "capacity", "Longer air rests", "Montana State, read"],
    ),
}


@pytest.mark.parametrize("question", QUESTIONS)
def test_what_to_do_is_within_three_taps(site: Site, question: str) -> None:
    place, answer = QUESTIONS[question]
    assert site.taps[place] <= 3
    words = site.pages[place.page].words(place.anchor)
    for said in answer:
        assert said in words


def test_the_page_of_gases_is_two_taps_away(site: Site) -> None:
    assert site.taps[Place("safety/gases")] <= 2


@pytest.mark.parametrize("sheet_id", sheet_ids())
def test_any_sheet_is_within_two_taps(site: Site, sheet_id: str) -> None:
    assert site.taps[Place(f"calculators/{sheet_id}")] <= 2


def test_each_sheet_stands_once_in_the_list_by_job(site: Site) -> None:
    by_job = re.findall(r"^[a-z-]+$", Path("docs/calculators/index.md").read_text("utf-8"), re.MULTILINE)
    assert sorted(by_job) == sorted(sheet_ids())


@pytest.mark.parametrize("door", ["Now", "Learning", "Training"])
def test_the_home_page_has_three_doors(site: Site, door: str) -> None:
    assert len(site.pages[""].words(door.lower())) > 80


def test_the_first_lesson_and_the_sessions_are_one_tap_away(site: Site) -> None:
    for page in ("safety/confined-vessels", "training", "reference/the-job-at-a-glance", "reference/what-goes-wrong"):
        assert site.taps[Place(page)] == 1


JOBS = ["intake-and-storage", "germination-test", "filling-the-steep", "steeping", "casting", "floor-germination",
        "drum-germination", "readiness", "kiln-hand-over", "between-batches"]  # fmt: skip


@pytest.mark.parametrize("job", JOBS)
def test_the_drawing_leads_to_every_job(site: Site, job: str) -> None:
    assert site.taps[Place(f"procedures/{job}")] <= 2
    drawing = Path("docs/_includes/drawings/the-job.svg").read_text("utf-8")
    assert re.search(rf'xlink:href="page:procedures/{job}["#]', drawing)


ENTRY = re.compile(r"^### ([^\n]+) \{#([a-z0-9-]+)\}\n(.*?)(?=^##|\Z|^</div>)", re.MULTILINE | re.DOTALL)
ENTRIES = ENTRY.findall(Path("docs/reference/what-goes-wrong.md").read_text("utf-8"))


@pytest.mark.parametrize(("title", "anchor", "text"), ENTRIES, ids=[anchor for _, anchor, _ in ENTRIES])
def test_an_entry_says_why_now_and_next_where_it_is_taught_and_by_whom(title: str, anchor: str, text: str) -> None:
    for lead in ("Do now", "Why", "Next time", "More"):
        assert f"- **{lead}" in text
    more = text[text.index("- **More**") :]
    assert re.search(r"\]\((\.\./(procedures|safety|calculators)/|#)", more)
    assert re.search(r"read|abstract|in a copy|second-hand|[Cc]ommon practice|[Cc]omputed|From memory", more)
    found_by = Path("docs/reference/what-goes-wrong.md").read_text("utf-8").split("People first")[0]
    assert f"(#{anchor})" in found_by


def test_there_are_entries_from_intake_to_kiln() -> None:
    assert len(ENTRIES) >= 25
