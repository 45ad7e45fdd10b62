"""The site as it is published: policy, addresses, compressed files, notices."""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import brotli
import pytest

from calculators.sheets import find_sheet
from site_src import engines
from site_src.runtime import LOCK, read_pins
from site_src.settings import BuildError

pytestmark = pytest.mark.site


class Scripts(HTMLParser):
    """Reads a page by itself, so that it can disagree with the build's own reader."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.inline: list[str] = []
        self.policies: list[str] = []
        self.first_script_at = 0
        self._in = False
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        if tag == "script":
            self.first_script_at = self.first_script_at or self.getpos()[0] * 10000 + self.getpos()[1]
            self._in = "src" not in values and values.get("type") != "application/json"
        if tag == "meta" and values.get("http-equiv") == "Content-Security-Policy":
            assert not self.first_script_at, "the policy must come before the first script"
            self.policies.append(values["content"] or "")

    def handle_data(self, data: str) -> None:
        if self._in:
            self.inline.append(data)

    def handle_endtag(self, tag: str) -> None:
        self._in = False


def pages(site: Path) -> dict[str, Scripts]:
    found = {path.relative_to(site).as_posix(): Scripts(path.read_text("utf-8")) for path in site.rglob("*.html")}
    assert "index.html" in found and "404.html" in found
    return found


def test_what_shows_the_book_ahead_is_not_drawn_by_halves(built_site: Path):
    """Two pages wait for the book's own part; it is asked for before anything that could be drawn."""
    link = '<link rel="expect" href="#from-the-book" blocking="render">'
    waiting = {}
    for path in sorted(built_site.rglob("*.html")):
        html = path.read_text("utf-8")
        if 'rel="expect"' in html:
            waiting[path.relative_to(built_site).as_posix()] = html
    assert list(waiting) == ["records/day-book/index.html", "records/looking-back/index.html"]
    for html in waiting.values():
        assert 0 < html.index(link) < html.index('<link rel="stylesheet"') < html.index("<body")
        assert len(re.findall(r'<section [^>]*id="from-the-book"[^>]*data-day-book=', html)) == 1


def test_every_page_has_the_one_policy(built_site: Path):
    header = json.loads((built_site / "headers.json").read_text())["Content-Security-Policy"]
    for name, page in pages(built_site).items():
        assert page.policies == [header], name


def test_the_policy_allows_the_inline_scripts_and_no_others(built_site: Path):
    header = json.loads((built_site / "headers.json").read_text())["Content-Security-Policy"]
    hashes = set(re.findall(r"'sha256-([^']+)'", header))
    scripts = {text for page in pages(built_site).values() for text in page.inline}
    assert scripts
    assert hashes == {base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for text in scripts}
    assert re.sub(r" 'sha256-[^']+'", "", header) == (
        "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; "
        "object-src 'none'; base-uri 'self'; form-action 'self'"
    )


def test_nothing_is_fetched_from_elsewhere(built_site: Path, address: str):
    fetched = re.compile(
        r"""<(?!a\b)\w+\b[^>]*?\b(?:src|href|srcset|data|action|poster)=["']?((?:https?:)?//[^"'\s>]+)"""
    )
    for path in built_site.rglob("*.html"):
        for found in fetched.findall(path.read_text("utf-8")):
            assert found.startswith(address), (path, found)
    for path in built_site.rglob("*.css"):
        assert not re.search(r"(?:url\(|@import)\s*[\"']?(?:https?:)?//", path.read_text("utf-8")), path


def test_compressed_siblings_hold_the_same(built_site: Path):
    seen = 0
    for path in built_site.rglob("*"):
        if (
            path.suffix in {".html", ".css", ".js", ".mjs", ".svg", ".wasm", ".zip", ".whl"}
            and path.stat().st_size > 1024
        ):
            data = path.read_bytes()
            assert brotli.decompress(path.with_name(f"{path.name}.br").read_bytes()) == data, path
            assert gzip.decompress(path.with_name(f"{path.name}.gz").read_bytes()) == data, path
            seen += 1
    assert seen > 20


def test_everything_of_the_browser_is_named_by_its_contents(built_site: Path):
    folders = [built_site / "assets" / name for name in ("browser", "app")]
    for path in (path for folder in folders for path in folder.iterdir()):
        name = path.name.removesuffix(".br").removesuffix(".gz")
        digest = hashlib.sha256((path.parent / name).read_bytes()).hexdigest()
        assert f".{digest[:12]}." in name


def test_the_worker_knows_files_that_are_there(built_site: Path):
    (worker,) = (built_site / "assets/browser").glob("worker.*.mjs")
    found = re.search(r'\{"indexURL".*?\}\}', worker.read_text("utf-8"))
    assert found
    files = json.loads(found[0])
    runtime = (worker.parent / files["indexURL"]).resolve()
    app = (worker.parent / files["app"]).resolve()
    assert runtime.relative_to(built_site.resolve()) and (runtime / files["lockFile"]).is_file()
    for name, sizes in files["bytes"].items():  # a slow line is told how much is still to come
        path = app if name == app.name else runtime / name
        forms = [path, *(path.with_name(path.name + suffix) for suffix in (".br", ".gz"))]
        assert [form.stat().st_size for form in forms] == sizes
    assert {path.name for path in runtime.iterdir() if path.suffix not in (".br", ".gz")} == set(read_pins().served)
    listed = json.loads((built_site / json.loads((built_site / "offline.json").read_text())["list"]).read_text())
    assert any("/numpy-" in name for name in listed["files"])  # a sheet needs it, so the copy on a device holds it


def test_the_notices_are_there(built_site: Path):
    listed = (built_site / "notices/README.txt").read_text("utf-8")
    names = re.findall(r"(\S+\.txt)$", listed, re.MULTILINE)
    assert len(names) >= 4
    for name in names:
        assert len((built_site / "notices" / name).read_text("utf-8")) > 500
    assert read_pins().version in listed and "{" not in listed


@pytest.mark.parametrize(
    ("needs", "left"), [((), {"numpy", "psychrolib"}), (("numpy",), {"psychrolib"}), (("psychrolib", "numpy"), set())]
)
def test_what_a_sheet_needs_is_carried_and_nothing_else(
    needs: tuple[str, ...], left: set[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
):
    only_sheet_needs(monkeypatch, needs)
    lock = {"packages": {name: {"file_name": name} for name in ("numpy", "psychrolib", "qrcodegen")}}
    (tmp_path / LOCK).write_text(json.dumps(lock), "utf-8")
    pins = replace(read_pins(), pure={"qrcodegen": "1.8.0"})  # asked for by what is printed, not by a sheet
    assert engines.not_asked_for(pins, tmp_path) == left


def test_a_package_that_is_not_pinned_stops_the_build(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    only_sheet_needs(monkeypatch, ("pandas",))
    (tmp_path / LOCK).write_text('{"packages": {}}', "utf-8")
    with pytest.raises(BuildError, match=r"does not pin: \['pandas'\]"):
        engines.not_asked_for(read_pins(), tmp_path)


def only_sheet_needs(monkeypatch: pytest.MonkeyPatch, needs: tuple[str, ...]) -> None:
    """Let there be one sheet, which needs these."""
    sheet = find_sheet("moisture-target")._replace(needs=needs)
    monkeypatch.setattr(engines, "sheet_ids", lambda: ["one"])
    monkeypatch.setattr(engines, "find_sheet", lambda _: sheet)
