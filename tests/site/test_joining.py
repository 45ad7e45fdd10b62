"""Modules and style sheets joined into few files do what they did apart."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from site_src.joining import PARTS, STYLES, join_modules, join_styles
from site_src.node_run import node
from site_src.settings import BuildError

APART = {
    "page.mjs": """import * as count from "./count.mjs";
import { twice } from "./twice.mjs";
import "./early.mjs";
console.log(JSON.stringify([twice(count.next()), (await import("./late.mjs")).last()]));
""",
    "count.mjs": """let at = 0;
export function next() { at += 1; return at; }
export const START = 1;
""",
    "twice.mjs": """// Its own names may be those of others.
import { next, START } from "./count.mjs";
const at = START;
export async function later() { return next(); }
export class Unused {}
export const twice = (value) => [value, next() + at];
""",
    "early.mjs": """import * as count from "./count.mjs";
count.next();
""",
    "late.mjs": """import { next } from "./count.mjs";
import * as twice from "./twice.mjs";
export const last = () => [next(), typeof twice.Unused];
""",
}


def written(folder: Path, **changed: str) -> Path:
    folder.mkdir(exist_ok=True)
    for name, text in {**APART, **{f"{name}.mjs": text for name, text in changed.items()}}.items():
        (folder / name).write_text(text, "utf-8")
    return folder


def said(folder: Path) -> str:
    return subprocess.run(
        [node(), folder / "page.mjs"], capture_output=True, text=True, check=True, timeout=60
    ).stdout  # fmt: skip


def test_joined_modules_do_what_they_did_apart(tmp_path: Path):
    before = said(written(tmp_path))
    join_modules(tmp_path, "page.mjs")
    assert {path.name for path in tmp_path.iterdir()} == {"page.mjs", PARTS, "late.mjs"}
    # One state for all: what was counted in one file is known in the other.
    assert said(tmp_path) == before == '[[2,4],[4,"function"]]\n'


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("export let at = 0;\n", "export let at"),
        ("export default 1;\n", "export default"),
        ('import at, { next } from "./twice.mjs";\n', "import at"),
        ('export const at = () => import("./late.mjs");\n', r"import\("),
        ('import { a as b } from "./late.mjs";\n', "import { a as b }"),
    ],
)
def test_what_is_not_written_plainly_stops_the_build(text: str, said: str, tmp_path: Path):
    with pytest.raises(BuildError, match=rf"count\.mjs can't be joined .*{said}"):
        join_modules(written(tmp_path, count=text), "page.mjs")


def test_a_lost_module_stops_the_build(tmp_path: Path):
    with pytest.raises(BuildError, match=r"\./lost\.mjs, which is not there"):
        join_modules(written(tmp_path, count='import "./lost.mjs";\n'), "page.mjs")


def test_a_ring_stops_the_build(tmp_path: Path):
    with pytest.raises(BuildError, match=r"ring: .*count\.mjs.*twice\.mjs.*count\.mjs"):
        join_modules(written(tmp_path, count='import "./twice.mjs";\n'), "page.mjs")


class TestStyles:
    def page(self, up: str, *names: str) -> str:
        links = "\n".join(f'<link rel="stylesheet" href="{up}assets/browser/{name}.css">' for name in names)
        return f'<link rel="stylesheet" href="{up}theme.css">\n{links}\n<title>x</title>'

    def test_one_after_the_other(self, tmp_path: Path):
        for name in "ab":
            (tmp_path / f"{name}.css").write_text(f".{name} {{}}\n")
        pages = join_styles(tmp_path, {"1": self.page("../", "a", "b"), "2": self.page("/", "a", "b"), "3": "<p>"})
        assert [path.name for path in tmp_path.iterdir()] == [STYLES]
        assert (tmp_path / STYLES).read_text() == ".a {}\n.b {}\n"
        assert re.findall('href="(.*?)"', pages["1"]) == ["../theme.css", f"../assets/browser/{STYLES}"]
        assert re.findall('href="(.*?)"', pages["2"]) == ["/theme.css", f"/assets/browser/{STYLES}"]
        assert "<title>x</title>" in pages["1"] and pages["3"] == "<p>"

    def test_pages_that_ask_for_others_stop_the_build(self, tmp_path: Path):
        with pytest.raises(BuildError, match="different style sheets"):
            join_styles(tmp_path, {"1": self.page("", "a"), "2": self.page("", "a", "b")})
