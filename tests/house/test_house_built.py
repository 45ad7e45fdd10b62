"""The whole book built with the invented house, hostile names and own pages, in a copy of the repository."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from html import unescape
from html.parser import HTMLParser
from pathlib import Path

import pytest

from calculators.house.schema import SECTIONS
from calculators.rules.limit import Limit
from calculators.rules.limits import every
from site_src.house.values import quoted
from site_src.phrases import faults, shown
from site_src.settings import CACHE, ROOT
from tests.conftest import alone
from tests.house.conftest import HERE
from tests.house.test_house_shown import HOSTILE

pytestmark = [pytest.mark.site, pytest.mark.further]

PARTS = ("calculators", "site_src", "docs", "mkdocs.yml", "pyproject.toml", "README.md", "LICENSE")
SCREEN = "# Our screen\n\nSee [steeping](../procedures/steeping.md).\n"
NOTE = "---\nplace: procedures/steeping#drain step 2\nreason: r\noffice: head of malting\n---\nShut the lower one.\n"
MADE = shutil.ignore_patterns("*.pyc.*")
"""What is just being written. What is compiled goes along: to do it again would cost seconds for each Python."""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The site, and what the build said."""
    place = tmp_path_factory.mktemp("of a house")
    for name in PARTS:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, place / name, ignore=MADE)
        elif source.exists():
            shutil.copyfile(source, place / name)
    (place / ".cache").mkdir()
    for kept in CACHE.iterdir():
        if kept.name != "house":
            (place / ".cache" / kept.name).symlink_to(kept)
    hostile = "".join(
        f"\n[[steep]]\nname = {quoted(f'{words[:36]} {number}')}\ncharge_kg = 5000\nair = {quoted(words)}\n"
        f"[[thing]]\nkind = 'isolator'\nat = {quoted(words)}\n"
        for number, words in enumerate(HOSTILE)
    )
    rows = {row.id: row for row in every() if isinstance(row, Limit)}  # some stand on two pages
    movable = [row for row in rows.values() if not row.safety and row.highest and row.stop_high]
    reasons = "".join(
        f"\n[limits.{row.id}]\nstop_high = {row.stop_high}\nreason = {quoted(words)}\noffice = {quoted(words)}\n"
        for row, words in zip([one for one in movable if one.id != "immersion-hours"], HOSTILE, strict=False)
    )
    (place / "house.toml").write_text((HERE / "house.toml").read_text("utf-8") + hostile + reasons, "utf-8")
    (place / "house").mkdir()
    (place / "house" / "our-screen.md").write_text(SCREEN, "utf-8")
    (place / "house" / "drain.md").write_text(NOTE, "utf-8")
    environment = {key: value for key, value in os.environ.items() if key != "HOUSE"}
    command = [sys.executable, "-m", "site_src", "build", "--quick"]
    with alone():
        made = subprocess.run(
            command, cwd=place, capture_output=True, text=True, check=False,
            env={**environment, "SITE_URL": "https://example.org/"},
        )  # fmt: skip
    assert made.returncode == 0, made.stderr[-3000:]
    return place / "site", made.stdout


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.wrong: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            leads = name in ("href", "src", "action", "xlink:href")
            runs = name.startswith("on") or (leads and (value or "").strip().lower().startswith("javascript:"))
            if runs or (tag, name, value) == ("img", "src", "x"):
                self.wrong.append(f"{tag} {name}={value}")


def page(site: Path, address: str) -> str:
    return (site / address / "index.html").read_text("utf-8")


def test_each_page_shows_what_it_was_declared_to_show(built: tuple[Path, str]):
    site, _ = built
    for section in SECTIONS:
        for address in section.shows:
            if (ROOT / "docs" / f"{address}.md").is_file() and section.id not in ("box", "paper"):
                text = page(site, address.removesuffix("index"))
                assert 'class="in-house' in text and section.title in text, (section.id, address)
    assert "From this house: Steep 2" not in page(site, "calculators/moisture-target")  # that is said once it is chosen
    assert 'data-name="Steep 2"' in page(site, "calculators/moisture-target")
    assert "house-offers" not in page(site, "calculators/gas-build-up")


def test_no_name_is_markup_and_no_page_says_what_none_may(built: tuple[Path, str]):
    site, _ = built
    for file in site.rglob("*.html"):
        text = file.read_text("utf-8")
        tags = _Tags()
        tags.feed(text)
        assert tags.wrong == [], file
        assert faults(shown(text)) == [], file


def test_own_pages_cards_plan_and_papers_are_there(built: tuple[Path, str]):
    site, said = built
    assert "Shut the lower one." in page(site, "procedures/steeping")
    assert "Our screen" in page(site, "house/our-screen")
    assert "no isolator named" in page(site, "house/safety-plan")
    assert "STAY OUT" in page(site, "house/card-steep-2")
    assert "not kept yet" in page(site, "house/papers")
    rows = json.loads((site / "house" / "papers.json").read_text("utf-8"))
    assert {row["number"] for row in rows} == {"P-05", "R-02", "C-01"}
    assert "The book has changed" not in said
    assert "This house: One immersion, stop over 10 h (the book: 12 h)" in page(site, "calculators/steep-timing")


def test_the_browser_s_python_has_what_the_house_says(built: tuple[Path, str]):
    import zipfile

    site, _ = built
    (archive,) = (site / "assets" / "app").glob("calculators.*.zip")
    names = zipfile.ZipFile(archive).namelist()
    assert any("house_data" in name for name in names) and any("house_limits" in name for name in names)
    assert not any("house/schema" in name for name in names)


PLACES = {
    "boxes on pages": '<p class="in-house-head">In this house',
    "worked cases": "With this house’s numbers</p>",
    "offers of sheets": 'class="house-offers"',
    "limits under sheets": 'class="house-limits"',
    "figures with the book’s beside": "(this house; the book:",
    "cells of limits": "this house: ",
    "heads of papers": 'class="house-paper',
    "record sheets": "Ring one:",
    "hand-outs": "<em>In this house:</em>",
    "boxes of the day-book": "<datalist",
    "exercises": 'name="own"',
    "waters of the practice batch": "This house, ",
    "emergency cards": "hang-up house-card",
    "notes": "<strong>This house</strong>",
    "sign-off sheets": "P-05, version 3",
    "paper before vessel work": "Meters of this house",
}
"""Where something of a house shows, by a sign of it in the HTML."""


def counted(site: Path) -> dict[str, int]:
    """How often each kind of place shows over the built pages."""
    pages = [file.read_text("utf-8") for file in sorted(site.rglob("*.html"))]
    return {kind: sum(unescape(page).count(sign) for page in pages) for kind, sign in PLACES.items()}


def test_it_shows_in_every_kind_of_place(built: tuple[Path, str]):
    found = counted(built[0])
    assert [kind for kind, count in found.items() if not count] == []
    assert sum(found.values()) > 200 and found["worked cases"] >= 9 and found["exercises"] >= 4
    assert found["waters of the practice batch"] == 2 and found["notes"] >= 1
