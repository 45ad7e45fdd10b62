"""Modules and style sheets joined into few files do what they did apart."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from site_src.joining import PARTS, STYLES, join_modules, join_styles, script_of
from site_src.node_run import node
from site_src.settings import BuildError

APART = {
    "page.mjs": """import * as count from "./shared/count.mjs";
import { twice } from "./shared/twice.mjs";
import "./early.mjs";
import { home } from "./shared/home.mjs";
console.log(JSON.stringify([twice(count.next()), (await import("./reading/late.mjs")).last(), home()]));
""",
    "shared/count.mjs": """let at = 0;
/** @returns {number} the next one */
export function next() { at += 1; return /** @type {number} */ (at); }
export const START = 1;
""",
    "shared/home.mjs": """export const home = () => new URL("../../", import.meta.url).pathname.split("/").at(-2);
""",
    "shared/twice.mjs": """// Its own names may be those of others.
import { next, START } from "./count.mjs";
const at = START;
export async function later() { return next(); }
export class Unused {}
export const twice = (value) => [value, next() + at];
""",
    "early.mjs": """import * as count from "./shared/count.mjs";
count.next();
""",
    "reading/late.mjs": """import { next } from "../shared/count.mjs";
import * as twice from "../shared/twice.mjs";
import { later } from "./later.mjs";
export const last = () => [next(), typeof twice.Unused, later()];
""",
    "reading/later.mjs": """import { home } from "../shared/home.mjs";
export const later = () => home();
""",
}


def written(folder: Path, **changed: str) -> Path:
    """Write the modules; ``count="..."`` changes the one of that name."""
    for name, text in APART.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(changed.get(path.stem, text), "utf-8")
    return folder


def said(module: Path) -> str:
    return subprocess.run([node(), module], capture_output=True, text=True, check=True, timeout=60).stdout


def names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*")}


def test_joined_modules_do_what_they_did_apart(tmp_path: Path):
    site = tmp_path / "site"
    before = said(written(site) / "page.mjs")
    join_modules(site, "page.mjs")
    assert names(site) == {"page.mjs", PARTS, "late.mjs", "later.mjs"}
    # One state for all: what was counted in one file is known in the other. Addresses lead where they led.
    above = tmp_path.name
    assert said(site / "page.mjs") == before == f'[[2,4],[4,"function","{above}"],"{above}"]\n'
    assert "/**" not in (site / PARTS).read_text()


def test_what_some_pages_need_on_top_is_one_more_file(tmp_path: Path):
    site = tmp_path / "site"
    before = said(written(site) / "page.mjs")
    join_modules(site, "page.mjs", {"reading/late.mjs": "late-parts.mjs"})
    assert names(site) == {"page.mjs", PARTS, "late.mjs", "late-parts.mjs"}
    assert said(site / "page.mjs") == before
    # What every page has is not carried twice.
    assert "at += 1" not in (site / "late-parts.mjs").read_text()
    with pytest.raises(BuildError, match="imported before it is wanted"):
        join_modules(written(tmp_path / "other"), "page.mjs", {"shared/twice.mjs": "late-parts.mjs"})


def test_it_does_not_matter_where_a_module_lies(tmp_path: Path):
    moved = {"shared/count.mjs": "far/away/count.mjs"}
    for folder, places in ((tmp_path / "a" / "site", {}), (tmp_path / "b" / "site", moved)):
        written(folder)
        for old, new in places.items():
            (folder / new).parent.mkdir(parents=True)
            (folder / old).rename(folder / new)
            for path in folder.rglob("*.mjs"):
                text = path.read_text().replace('"./count.mjs"', '"../far/away/count.mjs"')
                path.write_text(text.replace("shared/count.mjs", "far/away/count.mjs"))
        join_modules(folder, "page.mjs")
    assert names(tmp_path / "a/site") == names(tmp_path / "b/site")
    assert (tmp_path / "a/site" / PARTS).read_text() == (tmp_path / "b/site" / PARTS).read_text()


WORKER = """import { next } from "../shared/count.mjs";
import { only } from "./only.mjs";
console.log(next(), only());
"""
STARTS = 'export const begin = () => new Worker(new URL("../engine/worker.mjs", import.meta.url), {});\n'


def test_a_worker_stands_alone(tmp_path: Path):
    written(tmp_path, home=APART["shared/home.mjs"] + STARTS)
    (tmp_path / "engine").mkdir()
    (tmp_path / "engine/worker.mjs").write_text(WORKER)
    (tmp_path / "engine/only.mjs").write_text('export const only = () => "here";\n')
    join_modules(tmp_path, "page.mjs")
    assert names(tmp_path) == {
        "page.mjs",
        PARTS,
        "late.mjs",
        "later.mjs",
        "worker.mjs",
    }  # nobody else asks for only.mjs
    assert 'new URL("./worker.mjs", import.meta.url)' in (tmp_path / PARTS).read_text()
    assert "import" not in (tmp_path / "worker.mjs").read_text()
    assert said(tmp_path / "worker.mjs") == "1 here\n"


def test_a_plain_script_is_made_of_modules(tmp_path: Path):
    (tmp_path / "parts/deep").mkdir(parents=True)
    (tmp_path / "parts/deep/a.mjs").write_text('import { b } from "../b.mjs";\nexport const a = () => b + 1;\n')
    (tmp_path / "parts/b.mjs").write_text("export const b = 1;\n")
    (tmp_path / "top.mjs").write_text('import * as one from "./parts/deep/a.mjs";\nconsole.log(one.a());\n')
    text = script_of(tmp_path, "top.mjs")
    (tmp_path / "top.cjs").write_text(text)
    assert said(tmp_path / "top.cjs") == "2\n"
    for line in ("export const c = 1;", "new URL('x', import.meta.url);", 'import c from "./parts/b.mjs";'):
        (tmp_path / "top.mjs").write_text(f"{line}\n")
        with pytest.raises(BuildError, match=r"top\.mjs can't be"):
            script_of(tmp_path, "top.mjs")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("export let at = 0;\n", "export let at"),
        ("export default 1;\n", "export default"),
        ('import at, { next } from "./twice.mjs";\n', "import at"),
        ('export const at = () => import("../reading/late.mjs");\n', r"import\("),
        ('import { a as b } from "./late.mjs";\n', "import { a as b }"),
    ],
)
def test_what_is_not_written_plainly_stops_the_build(text: str, said: str, tmp_path: Path):
    with pytest.raises(BuildError, match=rf"count\.mjs can't be joined .*{said}"):
        join_modules(written(tmp_path, count=text), "page.mjs")


def test_nor_is_it_taken_of_a_module_that_comes_later(tmp_path: Path):
    text = 'import { next as other } from "../shared/count.mjs";\nexport const last = () => other();\n'
    with pytest.raises(BuildError, match=r"late\.mjs is not written plainly: import { next as other }"):
        join_modules(written(tmp_path, late=text), "page.mjs")


def test_a_lost_module_stops_the_build(tmp_path: Path):
    with pytest.raises(BuildError, match=r"imports \./shared/lost\.mjs, which is not there"):
        join_modules(written(tmp_path, count='import "./lost.mjs";\n'), "page.mjs")


def test_a_ring_stops_the_build(tmp_path: Path):
    with pytest.raises(BuildError, match=r"ring: .*count\.mjs.*twice\.mjs.*count\.mjs"):
        join_modules(written(tmp_path, count='import "./twice.mjs";\n'), "page.mjs")


def test_two_of_one_name_stop_the_build(tmp_path: Path):
    written(tmp_path)
    (tmp_path / "reading/count.mjs").write_text("")
    with pytest.raises(BuildError, match="have one name"):
        join_modules(tmp_path, "page.mjs")


class TestStyles:
    def page(self, up: str, *names: str) -> str:
        links = "\n".join(f'<link rel="stylesheet" href="{up}assets/browser/{name}.css">' for name in names)
        return f'<link rel="stylesheet" href="{up}theme.css">\n{links}\n<title>x</title>'

    def test_one_after_the_other(self, tmp_path: Path):
        (tmp_path / "deep").mkdir()
        (tmp_path / "a.css").write_text(".a {}\n")
        (tmp_path / "deep/b.css").write_text(".b {}\n")
        links = ("a", "deep/b")
        pages = join_styles(tmp_path, {"1": self.page("../", *links), "2": self.page("/", *links), "3": "<p>"})
        assert [path.name for path in tmp_path.iterdir()] == [STYLES]
        assert (tmp_path / STYLES).read_text() == ".a {}\n.b {}\n"
        assert re.findall('href="(.*?)"', pages["1"]) == ["../theme.css", f"../assets/browser/{STYLES}"]
        assert re.findall('href="(.*?)"', pages["2"]) == ["/theme.css", f"/assets/browser/{STYLES}"]
        assert "<title>x</title>" in pages["1"] and pages["3"] == "<p>"

    def test_pages_that_ask_for_others_stop_the_build(self, tmp_path: Path):
        with pytest.raises(BuildError, match="different style sheets"):
            join_styles(tmp_path, {"1": self.page("", "a"), "2": self.page("", "a", "b")})


def test_a_text_in_another_language_may_begin_a_line_with_import(tmp_path: Path):
    (tmp_path / "page.mjs").write_text('import { START } from "./start.mjs";\nconsole.log(START);\n')
    (tmp_path / "start.mjs").write_text("export const START = `\nimport sys\nimport a_module\n`;\n")
    join_modules(tmp_path, "page.mjs")
    assert "import sys\nimport a_module\n" in (tmp_path / PARTS).read_text()


COMMENTED = r"""import { twice } from "./twice.mjs";
  // A line of its own, with a "quote and a ` in it.
const address = "https://example.org//a // b"; // behind a text that looks like one
const long = `
// no comment, but a line of a text
  x // nor this
`;
const quote = /["`]/.test('`') ? "// yes" : '// no'; // "and this
const half = 6 / 2 // 3
console.log(JSON.stringify([address, long, quote, half, twice(2)]));
"""


def test_comments_stay_at_home_and_texts_go_along(tmp_path: Path):
    for name in ("apart", "joined"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "twice.mjs").write_text("// Twice.\nexport const twice = (x) => 2 * x; // times two\n")
        (tmp_path / name / "worker.mjs").write_text(COMMENTED)
    page = 'new Worker(new URL("./worker.mjs", import.meta.url));\n'
    (tmp_path / "joined" / "page.mjs").write_text(page)
    join_modules(tmp_path / "joined", "page.mjs")
    assert said(tmp_path / "joined" / "worker.mjs") == said(tmp_path / "apart" / "worker.mjs")
    text = (tmp_path / "joined" / "worker.mjs").read_text()
    for gone in ("A line of its own", "behind a text", "// 3", "Twice.", "times two"):
        assert gone not in text


def test_comments_of_styles_stay_at_home(tmp_path: Path):
    text = '/* why */\n.a {\n  content: "/* no */"; /* of\n  two lines */\n\n  color: red;\n}\n'
    (tmp_path / "a.css").write_text(text)
    join_styles(tmp_path, {"1": TestStyles().page("", "a")})
    assert (tmp_path / STYLES).read_text() == '.a {\ncontent: "/* no */";\ncolor: red;\n}\n'
