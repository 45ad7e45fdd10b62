"""One wrong byte in what a build keeps for the next, or in the finished site, never ships."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from site_src.app import app_archive
from site_src.cache import kept
from site_src.checked import check_site, read_through
from site_src.compress import compress_file
from site_src.edition import CHECKSUMS
from site_src.runtime import read_pins, served_runtime
from site_src.settings import ROOT, BuildError
from tests.conftest import alone

WORDS = b"barley and water, " * 200


def flip(path: Path, at: float = 0.5) -> None:
    data = bytearray(path.read_bytes())
    data[int(at * (len(data) - 1))] ^= 1
    path.write_bytes(bytes(data))


class TestKept:
    """What is kept between builds is compared with its own SHA-256 before it is used."""

    @pytest.mark.parametrize("at", [0, 0.001, 0.5, 1])
    def test_a_flipped_byte_has_it_made_again(self, tmp_path: Path, at: float):
        made: list[bytes] = []

        def make() -> bytes:
            made.append(WORDS)
            return WORDS

        path = tmp_path / "x"
        assert kept(path, make) == kept(path, make) == WORDS
        assert len(made) == 1
        flip(path, at)
        assert kept(path, make) == kept(path, make) == WORDS
        assert len(made) == 2

    @pytest.mark.parametrize("size", [0, 10, 31, 32, 100])
    def test_half_a_file_has_it_made_again(self, tmp_path: Path, size: int):
        path = tmp_path / "x"
        kept(path, lambda: WORDS)
        path.write_bytes(path.read_bytes()[:size])
        assert kept(path, lambda: WORDS) == WORDS

    def test_nothing_may_be_kept_too(self, tmp_path: Path):
        assert kept(tmp_path / "x", lambda: b"") == kept(tmp_path / "x", lambda: b"not again") == b""

    @pytest.mark.parametrize("ending", [".br", ".gz"])
    def test_a_compressed_file(self, tmp_path: Path, ending: str):
        page = tmp_path / "page.html"
        page.write_bytes(WORDS)
        compress_file(page, tmp_path / "cache", quick=True)
        good = page.with_name(page.name + ending).read_bytes()
        for path in (tmp_path / "cache/compressed").iterdir():
            flip(path)
        compress_file(page, tmp_path / "cache", quick=True)
        assert page.with_name(page.name + ending).read_bytes() == good

    def test_the_archive_of_the_calculators(self, tmp_path: Path):
        package = tmp_path / "calculators"
        package.mkdir()
        (package / "__init__.py").write_text("answer = 42\n")
        pins = read_pins()
        with alone():
            runtime = served_runtime(pins)
        name, good = app_archive(pins, runtime, tmp_path, package)
        [path] = (tmp_path / "app").iterdir()
        flip(path)
        assert app_archive(pins, runtime, tmp_path, package) == (name, good)


@pytest.fixture
def site(built_site: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(built_site, tmp_path / "site"))


@pytest.fixture(scope="module")
def whole(built_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One copy for all that put it right again."""
    site = Path(shutil.copytree(built_site, tmp_path_factory.mktemp("whole") / "site"))
    read_through(site, read_pins())
    return site


class TestFinished:
    """The finished site is read through once, against what its lists, names and pins say."""

    @pytest.mark.further(keep=4)
    @pytest.mark.parametrize(
        "pattern",
        [
            *("index.html", "index.html.br", "index.html.gz", "safety/index.html", "search/search_index.json"),
            *("assets/app/*.zip", "assets/app/*.zip.br", "assets/browser/parts.*.mjs"),
            *("assets/browser/worker.*.mjs.gz", "assets/browser/styles.*.css.br"),
            *("runtime/*/pyodide.asm.wasm", "runtime/*/pyodide.asm.wasm.br", "runtime/*/python_stdlib.zip"),
            *("notices/README.txt", "assets/icons/corn-192.png", "assets/javascripts/lunr/*.js.gz"),
        ],
    )
    def test_a_flipped_byte_stops_the_build(self, whole: Path, pattern: str):
        path = next(iter(sorted(whole.glob(pattern))))
        flip(path)
        try:
            with pytest.raises(BuildError) as said:
                read_through(whole, read_pins())
        finally:
            flip(path)  # back again
        named = {line.split()[0] for line in str(said.value).splitlines() if line.startswith("  ")}
        own = path.relative_to(whole).as_posix()
        assert own in named and named <= {own, f"{own}.br", f"{own}.gz"}, "something else is wrong too"

    def test_a_missing_file_stops_the_build(self, site: Path):
        (site / "safety/index.html").unlink()
        with pytest.raises(BuildError, match=r"safety/index\.html is listed and not there"):
            read_through(site, read_pins())

    def test_a_copy_of_the_site_can_be_checked_anywhere(self, site: Path):
        assert check_site(site) > 300
        for name, how in {"headers.json": "damaged", "robots.txt": "not of this site"}.items():
            (site / name).write_text("something else")
            with pytest.raises(BuildError, match=f"{name} is {how}"):
                check_site(site)
        (site / "404.html").unlink()
        words = [sys.executable, "-m", "site_src", "check", str(site)]
        ran = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
        assert ran.returncode == 1 and "404.html is missing" in ran.stderr

    def test_the_checksums_are_of_the_common_kind(self, built_site: Path):
        program = shutil.which("sha256sum")
        if not program:
            pytest.skip("there is no sha256sum")
        ran = subprocess.run([program, "--quiet", "--check", CHECKSUMS], cwd=built_site, check=False)
        assert ran.returncode == 0

    def test_what_is_not_a_site_is_said(self, tmp_path: Path):
        with pytest.raises(BuildError, match="not a site that was built here"):
            check_site(tmp_path)
