"""Scripts are shortened before they are served: they do the same, and what others ask them for keeps its name."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from site_src import npm, shorter
from site_src.node_run import node
from site_src.settings import BuildError

MODULE = """
const aLongNameThatNobodyOutsideNeeds = [3, 4, 5];
function squareOfEach(numbers) {
  return numbers.map((theNumberItself) => theNumberItself ** 2);
}
export const $sums = (() => {
  const { length } = aLongNameThatNobodyOutsideNeeds;
  return { squares: squareOfEach(aLongNameThatNobodyOutsideNeeds), length, file: "./other.mjs", grain: "45 % – ½" };
})();
export class Bed {
  #depth = 0.15;
  get depth() {
    return this.#depth;
  }
}
"""
SAID = """
import { $sums, Bed } from "./one.mjs";
console.log(JSON.stringify([$sums, new Bed().depth, Bed.name]));
"""


def said_by(folder: Path, text: str) -> str:
    folder.mkdir()
    (folder / "one.mjs").write_text(text, "utf-8")
    (folder / "two.mjs").write_text(SAID, "utf-8")
    return subprocess.run([node(), folder / "two.mjs"], capture_output=True, encoding="utf-8", check=True).stdout


def test_a_shorter_module_gives_the_same_under_the_same_names(tmp_path: Path) -> None:
    text = shorter.shortened({"one.mjs": MODULE})["one.mjs"]
    assert len(text) < 0.7 * len(MODULE)
    assert "theNumberItself" not in text and "aLongName" not in text
    before, after = said_by(tmp_path / "long", MODULE), said_by(tmp_path / "short", text)
    assert after.replace('"Bed"', "") == before.replace('"Bed"', "")  # a class is called otherwise inside


def test_what_is_no_script_stops_the_build() -> None:
    with pytest.raises(BuildError, match=r"could not be shortened:\n*one\.mjs, line 1: Name expected"):
        shorter.shortened({"one.mjs": "export const = 3;"})


def test_what_is_kept_is_made_again_where_it_is_damaged(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[list[str]] = []

    def by_node(texts, cache, say):
        made.append(sorted(texts))
        return {name: text.strip() for name, text in texts.items()}

    monkeypatch.setattr(shorter, "_by_node", by_node)
    texts = {"a.mjs": "a ", "b.mjs": "b "}
    short = {"a.mjs": "a", "b.mjs": "b"}
    assert shorter.shortened(texts, tmp_path) == shorter.shortened(texts, tmp_path) == short
    assert made == [["a.mjs", "b.mjs"]]
    for path in sorted((tmp_path / "shorter").iterdir())[:1]:
        path.write_bytes(path.read_bytes()[:-1] + b"?")
    assert shorter.shortened(texts, tmp_path) == short
    assert len(made) == 2 and len(made[1]) == 1


def test_a_file_that_is_not_the_one_that_is_pinned_stops_the_build(tmp_path: Path) -> None:
    (tmp_path / "bundle.min.js").write_text("something else", "utf-8")
    with pytest.raises(BuildError, match=r"dist/bundle\.min\.js is not the file that is pinned, in .*; delete it"):
        npm.package_files("terser", "5.51.4", {"dist/bundle.min.js": "0" * 64}, tmp_path)


def test_what_npm_does_not_know_stops_the_build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("npm_config_offline", "true")
    monkeypatch.setenv("npm_config_cache", str(tmp_path / "cache"))
    with pytest.raises(BuildError, match=r"npm could not fetch terser 5\.51\.4"):
        npm.package_files("terser", "5.51.4", {"dist/bundle.min.js": "0" * 64}, tmp_path)
