"""Files of earlier editions are served on for a while, as they were, and then no more."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

from site_src import post
from site_src.build import build
from site_src.checked import check_site
from site_src.earlier import DAYS, EDITIONS, carry_over
from site_src.edition import CHECKSUMS, OFFER
from site_src.hashing import hash_names
from site_src.runtime import sha256
from site_src.settings import BuildError
from tests.conftest import BuildDocs, alone
from tests.site.conftest import DEMO_PAGES

DAY = date(2026, 11, 28)


def edition(folder: Path, mark: str, *names: str) -> Path:
    """A site of a page and some files, as a build leaves it."""
    for name in ("index.html", *names):
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"{name} of its edition" if name in names else f"page of {mark}")
    (folder / OFFER).write_text(json.dumps({"version": mark}))
    return folder


def finished(folder: Path) -> Path:
    lines = [
        f"{sha256(path.read_bytes())}  {path.relative_to(folder).as_posix()}\n"
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != CHECKSUMS
    ]
    (folder / CHECKSUMS).write_text("".join(lines))
    return folder


def script(number: int) -> str:
    return f"assets/browser/page.{number:012x}.mjs"


def names(site: Path) -> set[str]:
    return {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}


def test_lasting_files_go_over_and_nothing_else(tmp_path: Path):
    lasting = (script(1), f"{script(1)}.br", "runtime/0123456789ab/x.wasm", "assets/stylesheets/main.01234567.min.css")
    former = finished(edition(tmp_path / "1", "a" * 16, *lasting, "other.txt", "offline.0123456789ab.json"))
    fresh = edition(tmp_path / "2", "b" * 16, script(2))
    carry_over(former, fresh, today=DAY)
    assert names(fresh) == {"index.html", OFFER, script(2), "earlier.json", *lasting}
    assert (fresh / script(1)).read_bytes() == (former / script(1)).read_bytes()
    assert (fresh / "index.html").read_text() == "page of " + "b" * 16


def test_a_site_from_before_there_were_checksums_gives_nothing(tmp_path: Path):
    fresh = edition(tmp_path / "2", "b" * 16)
    carry_over(tmp_path / "none", fresh, today=DAY)
    carry_over(edition(tmp_path / "1", "a" * 16, script(1)), fresh, today=DAY)
    assert names(fresh) == {"index.html", OFFER}


def test_a_damaged_file_stays_behind_and_is_named(tmp_path: Path):
    former = finished(edition(tmp_path / "1", "a" * 16, script(1), script(2)))
    (former / script(1)).write_text("damaged")
    said: list[str] = []
    fresh = edition(tmp_path / "2", "b" * 16)
    carry_over(former, fresh, today=DAY, say=said.append)
    assert names(fresh) == {"index.html", OFFER, "earlier.json", script(2)}
    assert len(said) == 1 and script(1) in said[0]


@pytest.mark.parametrize(("later", "there"), [(DAYS, True), (DAYS + 1, False)])
def test_a_file_goes_when_its_edition_was_replaced_so_many_days_ago(tmp_path: Path, later: int, there: bool):
    first = finished(edition(tmp_path / "1", "a" * 16, script(1)))
    second = edition(tmp_path / "2", "b" * 16, script(2))
    carry_over(first, second, today=DAY)
    third = edition(tmp_path / "3", "c" * 16, script(2))
    carry_over(finished(second), third, today=DAY + timedelta(days=later))
    assert (third / script(1)).exists() is there
    assert (third / script(2)).exists()


def test_many_editions_in_one_day_leave_the_newest(tmp_path: Path):
    former = finished(edition(tmp_path / "0", f"{0:016x}", script(0)))
    for number in range(1, EDITIONS + 3):
        fresh = edition(tmp_path / str(number), f"{number:016x}", script(number))
        carry_over(former, fresh, today=DAY)
        former = finished(fresh)
    kept = [number for number in range(EDITIONS + 3) if (former / script(number)).exists()]
    assert kept == list(range(2, EDITIONS + 3))


def test_the_same_edition_built_again_carries_nothing(tmp_path: Path):
    former = finished(edition(tmp_path / "1", "a" * 16, script(1)))
    fresh = edition(tmp_path / "2", "a" * 16, script(1))
    carry_over(former, fresh, today=DAY)
    assert "earlier.json" not in names(fresh)


@pytest.mark.usefixtures("demo_sheet")
def test_a_build_serves_on_what_open_pages_ask_for(build_docs: BuildDocs, tmp_path: Path, monkeypatch):
    site = build_docs(DEMO_PAGES)
    before = names(site)
    first = json.loads((site / OFFER).read_text())["version"]
    # Another script, and so other names of all that name it.

    def otherwise(folder: Path, filled):
        path = folder / "parts.mjs"
        path.write_text(path.read_text("utf-8") + "// another edition\n", "utf-8")
        return hash_names(folder, filled)

    monkeypatch.setattr(post, "hash_names", otherwise)
    site = build_docs(DEMO_PAGES)
    offer = json.loads((site / OFFER).read_text())
    assert offer["version"] != first
    scripts = {name for name in before if name.startswith("assets/browser/")}
    assert scripts <= names(site)
    listed = json.loads((site / offer["list"]).read_text())["files"]
    gone = scripts - {name for name in names(site) if name in listed or name.removesuffix(".br") in listed}
    assert any("/parts." in name for name in gone), "an earlier script is kept on devices as if it were of this edition"
    assert check_site(site) == len(names(site)) - 1

    # Into another folder, from a named one; and from one that is no site.
    with alone():
        other = build(tmp_path / "other", docs=tmp_path / "docs", published=site, quick=True)
        assert scripts <= names(other)
        with pytest.raises(BuildError, match="is not a site that was built here"):
            build(tmp_path / "third", docs=tmp_path / "docs", published=tmp_path / "docs", quick=True)
