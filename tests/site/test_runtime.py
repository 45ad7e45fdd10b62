"""The browser's Python: pinned, fetched with pip's own settings, repacked the same everywhere, and in working order."""

from __future__ import annotations

import hashlib
import json
import math
import re
import shutil
import time
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import replace
from http.server import BaseHTTPRequestHandler, HTTPServer
from importlib.metadata import version
from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.sheets import find_sheet, sheet_ids
from site_src import fetch, runtime
from site_src.app import app_archive
from site_src.bytecode import compiled
from site_src.cache import kept, tidy
from site_src.fetch import wheel_members
from site_src.node_run import run_python
from site_src.pure import wheel_of
from site_src.runtime import Pins, published_runtime, read_pins, repacked, served_runtime, sha256
from site_src.settings import CACHE, SOURCE, BuildError
from site_src.zips import read_zip, stored_zip
from tests.conftest import alone

_JUST_MADE_S = 3600
WHEEL = "demo_runtime-1.0-py3-none-any.whl"


@pytest.fixture(scope="session")
def pins() -> Pins:
    return read_pins()


@pytest.fixture(scope="session")
def published(pins: Pins) -> Path:
    with alone():
        return published_runtime(pins)


@pytest.fixture(scope="session")
def served(pins: Pins) -> Path:
    with alone():
        return served_runtime(pins)


class TestWhatTheRuntimeDoesNotPromise:
    """What the page uses of the runtime beyond what its makers describe. Whoever raises its version begins here."""

    LOOKED_AT = "314.0.3"  # the version that these were last tried with
    PRIVATE = ("_makeSnapshot", "_loadSnapshot", "makeMemorySnapshot", "pyodide_fatal_error")

    def test_each_is_there_still(self, pins: Pins, published: Path):
        text = "".join((published / name).read_text("utf-8") for name in ("pyodide.mjs", "pyodide.asm.mjs"))
        lost = [name for name in self.PRIVATE if name not in text]
        assert not lost, f"runtime {pins.version} no longer has {lost}: engine/runtime.mjs calls them"
        assert pins.version == self.LOOKED_AT, (
            f"the runtime was raised to {pins.version}: try {self.PRIVATE} and the changes of runtime.toml with it, "
            "by tests/browser/engine, and then say so here"
        )

    def test_one_file_calls_them(self):
        folder = SOURCE / "theme" / "assets" / "browser"
        texts = {path.name: path.read_text("utf-8") for path in folder.rglob("*.mjs")}
        for name in (*self.PRIVATE, "stdLibURL", "createPyodideModule", "fetchCounted"):
            assert [file for file, text in texts.items() if name in text] == ["runtime.mjs"], name

    def test_the_loader_is_changed_in_the_named_places_alone(self, pins: Pins, published: Path, served: Path):
        text = (published / "pyodide.mjs").read_text("utf-8")
        ours = [change for change in pins.change if "member" not in change]
        for change in ours:
            assert text.count(change["from"]) == 1 and change["file"] == "pyodide.mjs"
            text = text.replace(change["from"], change["to"])
        assert (served / "pyodide.mjs").read_text("utf-8") == text
        assert any("fetchCounted" in change["to"] for change in ours)
        assert {"program", "then"} <= {word for change in ours for word in re.findall(r"e\.(\w+)", change["to"])}

    def test_a_package_that_came_is_not_called_a_failure(self, served: Path):
        code = """
import io, pathlib, zipfile
from pyodide._package_loader import get_dynlibs

def main(names):
    archive = io.BytesIO()
    with zipfile.ZipFile(archive, "w") as wheel:
        for name in names:
            wheel.writestr(name, b"")
    return get_dynlibs(archive, ".whl", pathlib.Path("/packages"))
"""
        names = ["demo.py", "demo.cpython-314-wasm32-emscripten.so"]
        assert run_python(code, names, runtime=served) == [], "its programs are loaded when they are imported"

    def test_a_place_that_is_not_there_stops_the_build(self, pins: Pins, published: Path):
        moved = replace(pins, change=({"file": "pyodide.mjs", "from": "not in it", "to": ""},))
        with pytest.raises(BuildError, match=r"pyodide\.mjs must hold this once.*not in it"):
            repacked(moved, published, lambda _: None)


class TestRefusals:
    """One wrong byte stops the build, wherever it is."""

    def flip(self, path: Path) -> None:
        data = bytearray(path.read_bytes())
        data[len(data) // 2] ^= 1
        path.write_bytes(bytes(data))

    @pytest.fixture
    def small(self, pins: Pins, published: Path, tmp_path: Path) -> Pins:
        """One small file stands for all, so that nothing large is copied."""
        name = "pyodide.mjs"
        folder = tmp_path / "published" / pins.version
        folder.mkdir(parents=True)
        shutil.copy(published / name, folder / name)
        return replace(pins, published={name: pins.published[name]}, served={name: pins.published[name]}, drop={})

    def test_the_right_file_passes(self, small: Pins, tmp_path: Path):
        assert published_runtime(small, tmp_path).is_dir()

    def test_a_published_file_in_the_cache(self, small: Pins, tmp_path: Path):
        self.flip(tmp_path / "published" / small.version / "pyodide.mjs")
        with pytest.raises(BuildError, match=r"pyodide\.mjs is not the file that is pinned"):
            published_runtime(small, tmp_path)

    def test_a_served_file_in_the_cache(self, small: Pins, tmp_path: Path):
        folder = tmp_path / "served" / small.key
        folder.mkdir(parents=True)
        shutil.copy(tmp_path / "published" / small.version / "pyodide.mjs", folder)
        assert served_runtime(small, tmp_path) == folder
        self.flip(folder / "pyodide.mjs")
        with pytest.raises(BuildError, match=r"pyodide\.mjs is not the file that is pinned"):
            served_runtime(small, tmp_path)

    def test_a_fetched_file(self, small: Pins, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
        path = tmp_path / "published" / small.version / "pyodide.mjs"
        path.unlink()
        monkeypatch.setattr(runtime, "wheel_members", lambda *_: {small.folder + "pyodide.mjs": b"not it"})
        with pytest.raises(BuildError, match="is not the file that is pinned"):
            published_runtime(small, tmp_path)
        assert not path.exists()


class Ranges(BaseHTTPRequestHandler):
    """A package index of one page, whose files can be read in parts."""

    folder: Path
    sent = 0

    def do_GET(self) -> None:
        name = self.path.lstrip("/")
        data = (self.folder / name).read_bytes() if name else f'<a href="{WHEEL}">{WHEEL}</a>'.encode()
        wanted = self.headers.get("Range")
        if wanted:
            first, last = wanted.removeprefix("bytes=").split("-")
            start = int(first) if first else len(data) - int(last)
            end = int(last) + 1 if first and last else len(data)
            part = data[start:end]
            self.send_response(206)
            self.send_header("Content-Range", f"bytes {start}-{start + len(part) - 1}/{len(data)}")
        else:
            part = data
            self.send_response(200)
        self.send_header("Content-Type", "application/octet-stream" if name else "text/html")
        self.send_header("Content-Length", str(len(part)))
        self.end_headers()
        self.wfile.write(part)
        type(self).sent += len(part)

    do_HEAD = do_GET

    def log_message(self, format: str, *args: object) -> None:
        pass


class TestFetching:
    """pip says where the wheel is, so that the settings of this machine count."""

    @pytest.fixture
    def wheels(self, tmp_path: Path) -> Path:
        folder = tmp_path / "wheels"
        folder.mkdir()
        with zipfile.ZipFile(folder / WHEEL, "w") as wheel:
            wheel.writestr("demo_runtime/wanted.txt", "wanted")
            wheel.writestr("demo_runtime/large.bin", bytes(3_000_000))
            about = "Metadata-Version: 2.1\nName: demo-runtime\nVersion: 1.0\nRequires-Python: <3\n"
            wheel.writestr("demo_runtime-1.0.dist-info/METADATA", about)
            wheel.writestr(
                "demo_runtime-1.0.dist-info/WHEEL", "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
            )
            wheel.writestr("demo_runtime-1.0.dist-info/RECORD", "")
        return folder

    @pytest.fixture
    def index(self, wheels: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[type[Ranges]]:
        handler = type("Handler", (Ranges,), {"folder": wheels, "sent": 0})
        server = HTTPServer(("127.0.0.1", 0), handler)
        thread = Thread(target=server.serve_forever, args=(0.05,), daemon=True)
        thread.start()
        self.pip_looks_at(f"http://127.0.0.1:{server.server_address[1]}/", monkeypatch)
        yield handler
        server.shutdown()
        server.server_close()
        thread.join()

    def pip_looks_at(self, place: str, monkeypatch: pytest.MonkeyPatch) -> None:
        for name, value in {"CONFIG_FILE": "/dev/null", "NO_INDEX": "1", "FIND_LINKS": place}.items():
            monkeypatch.setenv(f"PIP_{name}", value)

    def test_single_members_are_read_where_the_index_allows_it(
        self, index: type[Ranges], monkeypatch: pytest.MonkeyPatch
    ):
        monkeypatch.setattr(fetch, "_fetch_whole", lambda *_: pytest.fail("all of the wheel was fetched"))
        address = fetch._address("demo-runtime==1.0")
        index.sent = 0
        monkeypatch.setattr(fetch, "_address", lambda _: address)
        said: list[str] = []
        found = wheel_members("demo-runtime", "1.0", ["demo_runtime/wanted.txt"], said.append)
        assert found == {"demo_runtime/wanted.txt": b"wanted"}
        assert index.sent < 200_000  # of 3,000,000
        assert said == []

    def test_pip_fetches_all_of_it_otherwise(self, wheels: Path, monkeypatch: pytest.MonkeyPatch):
        self.pip_looks_at(str(wheels), monkeypatch)  # a folder: an address that no range can be asked of
        said: list[str] = []
        found = wheel_members("demo-runtime", "1.0", ["demo_runtime/wanted.txt"], said.append)
        assert found == {"demo_runtime/wanted.txt": b"wanted"}
        assert len(said) == 1 and "fetching all of it" in said[0]

    def test_what_is_nowhere_stops_the_build(self, wheels: Path, monkeypatch: pytest.MonkeyPatch):
        self.pip_looks_at(str(wheels), monkeypatch)
        with pytest.raises(BuildError, match="pip could not find or fetch"):
            wheel_members("demo-runtime", "2.0", ["demo_runtime/wanted.txt"], lambda _: None)


def all_that_repacks(pins: Pins) -> str:
    """A digest of what the repacked files are made of and by: another one, and they are made again and compared."""
    names = ("runtime", "bytecode", "zips", "pure", "node_run")
    files = [SOURCE / "runtime.toml", SOURCE / "node_run.mjs", *(SOURCE / f"{name}.py" for name in names)]
    parts = [path.read_bytes() for path in files]
    parts += [data for project, release in pins.pure.items() for data in wheel_of(project, release)[1].values()]
    return sha256(b"".join(sha256(one).encode() for one in [*parts, version("playwright").encode()]))


class TestRepacking:
    def test_gives_the_pinned_bytes(self, pins: Pins, published: Path, served: Path):
        if time.time() - (served / "pyodide-lock.json").stat().st_mtime < _JUST_MADE_S:
            pytest.skip("was repacked and checked a moment ago, for want of a cache")

        def digests() -> bytes:
            return json.dumps({name: sha256(data) for name, data in repacked(pins, published).items()}).encode()

        folder = CACHE / "repacked"
        assert json.loads(kept(folder / f"{all_that_repacks(pins)}.json", digests)) == dict(pins.served)
        tidy(folder)

    def test_archives_hold_bytecode_and_no_sources(self, pins: Pins, served: Path):
        for name in pins.served:
            if name.endswith((".zip", ".whl")):
                with zipfile.ZipFile(served / name) as archive:
                    names = archive.namelist()
                    assert all(item.compress_type == zipfile.ZIP_STORED for item in archive.infolist())
                assert [name for name in names if name.endswith(".py")] == []
                assert any(name.endswith(".pyc") for name in names)
                assert names == sorted(names)

    def test_the_lock_names_what_is_served(self, pins: Pins, served: Path):
        packages = json.loads((served / "pyodide-lock.json").read_text())["packages"]
        assert {"numpy", *pins.pure} == set(packages)
        for entry in packages.values():
            assert entry["sha256"] == hashlib.sha256((served / entry["file_name"]).read_bytes()).hexdigest()

    def test_a_package_keeps_its_licences(self, pins: Pins, served: Path):
        for name in pins.served:
            if name.endswith(".whl"):
                assert any("/licenses/" in member for member in read_zip((served / name).read_bytes()))

    def test_the_order_of_members_does_not_count(self):
        members = {"b.txt": b"2", "a.txt": b"1"}
        assert stored_zip(members) == stored_zip(dict(sorted(members.items())))
        assert read_zip(stored_zip(members)) == members

    def test_python_that_does_not_compile_stops_the_build(self, served: Path):
        with pytest.raises(BuildError, match=r"bad\.py"):
            compiled({"bad.py": b"def", "good.py": b"x = 1"}, served, optimize=0)


def test_a_fault_under_node_is_told(served: Path):
    with pytest.raises(BuildError, match="ZeroDivisionError"):
        run_python("def main(argument):\n    return 1 / argument\n", 0, runtime=served)


def test_numpy_computes(served: Path):
    # The inverse of this matrix, worked by hand: the determinant is 1.
    code = "import numpy\ndef main(rows):\n    return numpy.linalg.inv(numpy.array(rows)).tolist()\n"
    found = run_python(code, [[2.0, 1.0], [1.0, 1.0]], runtime=served, packages=["numpy"])
    assert isinstance(found, list)
    for row, expected in zip(found, [[1, -1], [-1, 2]], strict=True):
        assert row == pytest.approx(expected, rel=1e-12)


INSIDE = """
import sys
sys.path.insert(0, "/app/calculators.zip")
from calculators.asking.answer import answer, as_json
from calculators.sheets import find_sheet

def main(cases):
    return {sheet: as_json(answer(find_sheet(sheet), case)) for sheet, case in cases.items()}
"""


def test_both_pythons_give_every_worked_case_the_same_answer(pins: Pins, served: Path, tmp_path: Path):
    """The libraries of mathematical functions differ in the last bits; a fit or a search carries that up to its own
    tolerance. Hence one part in 10 to the 9, far below any digit shown; most answers agree to 10 to the 12.
    """
    with alone():
        (tmp_path / "calculators.zip").write_bytes(app_archive(pins, served, CACHE)[1])
    cases = {sheet: example_of(find_sheet(sheet)) for sheet in sheet_ids()}
    packages = sorted({name for sheet in cases for name in find_sheet(sheet).needs})
    theirs = run_python(INSIDE, cases, runtime=served, folders={"/app": tmp_path}, packages=packages)
    ours: dict[str, Any] = {}
    for sheet, case in cases.items():
        found = answer(find_sheet(sheet), case)
        assert isinstance(found, Answered), (sheet, found)
        ours[sheet] = json.loads(json.dumps(as_json(found)))
    assert len(ours) >= 4
    assert list(differences(ours, theirs)) == []


def differences(ours: Any, theirs: Any, where: str = "") -> Iterator[str]:
    """Yield the places where two pieces of plain data differ by more than rounding."""
    if isinstance(ours, float) and isinstance(theirs, float | int):
        if not math.isclose(ours, theirs, rel_tol=1e-9, abs_tol=1e-12):
            yield f"{where}: {ours!r} here, {theirs!r} in the browser's Python"
    elif isinstance(ours, Mapping) and isinstance(theirs, Mapping) and ours.keys() == theirs.keys():
        for name in ours:
            yield from differences(ours[name], theirs[name], f"{where}/{name}")
    elif isinstance(ours, list) and isinstance(theirs, list) and len(ours) == len(theirs):
        for place, pair in enumerate(zip(ours, theirs, strict=True)):
            yield from differences(*pair, f"{where}/{place}")
    elif ours != theirs:
        yield f"{where}: {ours!r} here, {theirs!r} in the browser's Python"
