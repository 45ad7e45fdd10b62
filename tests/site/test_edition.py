"""One mark for all that was built: it changes with any of it, and with nothing else."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from site_src.edition import kept_files, put_mark
from site_src.policy import policy, write_headers
from site_src.settings import BuildError

PAGE = "<!doctype html>\n<html lang=en><head><title>x</title></head><body>{}</body></html>"
CALCULATORS = "assets/app/calculators.0123456789ab.zip"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    site = tmp_path / "site"
    for name, text in {"index.html": PAGE.format("home"), "404.html": PAGE.format("lost"), CALCULATORS: "zip"}.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text)
    write_headers(site, policy([]))
    return site


def test_every_page_has_it_twice_and_the_mark_of_the_calculators(site: Path):
    mark = put_mark(site, ["one", "two"])
    for name in ("index.html", "404.html"):
        html = (site / name).read_text()
        assert f'<html data-edition="{mark}" data-corrections="one two" lang=en>' in html
        assert f'<meta name="edition" content="{mark}" data-calculators="0123456789ab"></head>' in html


def test_marking_again_changes_nothing(site: Path):
    mark = put_mark(site)
    before = (site / "index.html").read_bytes()
    assert put_mark(site) == mark and (site / "index.html").read_bytes() == before


def renamed(site: Path) -> None:
    (site / CALCULATORS).rename(site / CALCULATORS.replace("0123", "4567"))


@pytest.mark.parametrize(
    "change",
    [
        lambda site: (site / "index.html").write_text(PAGE.format("another home")),
        lambda site: (site / CALCULATORS).write_text("another formula"),
        lambda site: (site / "new.txt").write_text("new"),
        lambda site: (site / "404.html").unlink(),
        lambda site: write_headers(site, "another policy"),
        renamed,
    ],
)
def test_it_changes_with_anything_that_a_reader_gets(site: Path, change: Callable[[Path], None]):
    before = put_mark(site)
    change(site)
    assert put_mark(site) != before
    assert re.fullmatch(r"[0-9a-f]{16}", before)


def test_it_changes_with_a_correction(site: Path):
    assert put_mark(site) != put_mark(site, ["one"])


@pytest.mark.parametrize("name", ["index.html.br", "offline.json", "offline.0123456789ab.json", "serving/x.conf"])
def test_it_does_not_change_with_what_is_made_of_the_rest(site: Path, name: str):
    before = put_mark(site)
    (site / name).parent.mkdir(exist_ok=True)
    (site / name).write_text("x")
    assert put_mark(site) == before


def test_files_of_earlier_editions_are_not_of_this_one(site: Path):
    before = put_mark(site)
    (site / "assets/app/calculators.ba9876543210.zip").write_text("earlier")
    earlier = {"files": {"assets/app/calculators.ba9876543210.zip": ["2026-11-28", "0" * 16]}}
    (site / "earlier.json").write_text(json.dumps(earlier))
    assert put_mark(site) == before
    assert "assets/app/calculators.ba9876543210.zip" not in kept_files(site)


def test_a_page_without_a_place_for_it_or_two_archives_stop_the_build(site: Path):
    shutil.copyfile(site / CALCULATORS, site / "assets/app/calculators.ba9876543210.zip")
    with pytest.raises(BuildError, match="one archive of calculators, it has 2"):
        put_mark(site)
    (site / "assets/app/calculators.ba9876543210.zip").unlink()
    (site / "index.html").write_text("<p>no head")
    with pytest.raises(BuildError, match=r"index\.html has no place"):
        put_mark(site)
