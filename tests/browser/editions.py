"""A second edition of the built site, made in a moment: other words, another formula, other names of files."""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack
from pathlib import Path
from urllib.parse import urlsplit

from site_src.app import PACKAGE, app_archive
from site_src.edition import put_mark
from site_src.engines import place_small
from site_src.hashing import hash_names, hashed_name, short_hash
from site_src.offline import write_list
from site_src.runtime import read_pins, served_runtime
from site_src.server import Server
from site_src.settings import CACHE, ROOT
from site_src.small.packs import made as made_small
from tests.conftest import alone, served

BROWSER = "assets/browser"
_OF_SMALL = re.compile(r'\{"loader".*?"calculators": "\w+"\}')
HASH = re.compile(r"\.[0-9a-f]{12}(?=\.\w+$)")
OTHERWISE = """

_as_before = respond


def respond(request: str, told: object = None) -> str:
    return _as_before(request, told).replace("{old}", "{new}")
"""


BULK = ("session-*", "questions-*", "learning", "lunr")
"""Half of the pages, which no test of editions asks for: what is read and written for each of them is spared."""


def all_but(*pages: str) -> list[str]:
    """What to leave out of a copy for which these pages are enough: to write all anew takes longer than a test."""
    wanted = {part for page in pages for part in Path(page).parts}
    return ["lunr", *sorted({path.stem for path in (ROOT / "docs").rglob("*.md")} - wanted - {"index"})]


REWRITTEN = {".html", ".js", ".json", ".xml", ".webmanifest"}


def copied(site: Path, to: Path, left_out: Sequence[str] = ()) -> Path:
    """Copy a site; what is never written into has its place on the disk once."""

    def put(source: str, target: str) -> str:
        if Path(source).suffix in REWRITTEN:
            return shutil.copy2(source, target)
        os.link(source, target)
        return target

    return Path(shutil.copytree(site, to, copy_function=put, ignore=shutil.ignore_patterns(*left_out)))


class House:
    """A copy of the site with a server that can be stopped, and the means to publish another edition of it."""

    def __init__(self, built: Path, built_for: str, folder: Path, left_out: Sequence[str] = BULK) -> None:
        self.site = copied(built, folder / "site", left_out)
        self.running = ExitStack()
        self.address = self.running.enter_context(served(Server(self.site)))
        for path in [*self.site.rglob("*.html"), self.site / "sitemap.xml"]:
            self.rewrite(path, built_for, self.address)
        self.publish()

    def rewrite(self, path: Path, old: str, new: str) -> None:
        path.write_text(path.read_text("utf-8").replace(old, new), "utf-8")
        for suffix in (".br", ".gz"):
            path.with_name(path.name + suffix).unlink(missing_ok=True)

    def publish(self, corrections: Sequence[Mapping[str, object]] = ()) -> str:
        """Mark the edition and list its files anew, as after a build; return the mark."""
        for path in self.site.glob("offline.*.json*"):
            path.unlink()
        mark = put_mark(self.site, [str(one["id"]) for one in corrections])
        for path in self.site.rglob("*.html"):
            for suffix in (".br", ".gz"):
                path.with_name(path.name + suffix).unlink(missing_ok=True)
        write_list(self.site, mark, corrections)
        return mark

    def start(self) -> None:
        self.running.enter_context(served(Server(self.site, port=urlsplit(self.address).port or 0)))

    def kill(self) -> None:
        self.running.close()

    def page(self, path: str) -> Path:
        return self.site / path / "index.html"

    def change_words(self, path: str, old: str, new: str) -> None:
        assert old in self.page(path).read_text("utf-8")
        self.rewrite(self.page(path), old, new)

    def change_answer(self, path: str, old: str, new: str) -> None:
        """Have the calculators answer otherwise, and the page show that as its worked case."""
        with alone():
            package = self.site.with_name("other") / PACKAGE.name
            shutil.copytree(PACKAGE, package, ignore=shutil.ignore_patterns("__pycache__"))
            with (package / "page.py").open("a", encoding="utf-8") as file:
                file.write(OTHERWISE.format(old=old, new=new))
            pins = read_pins()
            _, data = app_archive(pins, served_runtime(pins), CACHE, package)
            small = made_small(CACHE, package)
        shutil.rmtree(package.parent)
        app = self.site / "assets/app"
        for gone in list(app.glob("small*")):
            gone.unlink()
        files = json.dumps({**place_small(app, small, CACHE, quick=True), "calculators": short_hash(data)})
        former = next(app.glob("calculators.*.zip"))
        fresh = former.with_name(hashed_name("calculators.zip", data))
        former.unlink()
        fresh.write_bytes(data)
        places = {former.name: fresh.name, f'"{former.name.split(".")[1]}"': f'"{short_hash(data)}"'}

        def renewed(name: str, text: str) -> str:
            if name == "small-worker.mjs":
                return _OF_SMALL.sub(lambda _: files, text)
            return _replaced(text, places) if name in ("worker.mjs", "parts.mjs") else text

        self._named_anew(renewed)
        self.change_words(path, old, new)

    def change_names(self) -> None:
        """Give every script another name, as when a line in each of them has changed."""
        self._named_anew(lambda name, text: text + "// another edition\n" if name.endswith(".mjs") else text)

    def _named_anew(self, change: Callable[[str, str], str]) -> None:
        """Change the files of the page, and name them and all that names them after what is in them now."""
        folder, fresh = self.site / BROWSER, self.site.with_name("fresh")
        before = {path.name: HASH.sub("", path.name) for path in folder.iterdir() if path.suffix not in (".br", ".gz")}
        texts = {before[name]: _replaced((folder / name).read_text("utf-8"), before) for name in before}
        fresh.mkdir()
        for name, text in texts.items():
            (fresh / name).write_text(change(name, text), "utf-8")
        names = hash_names(fresh, {})
        for path in list(fresh.iterdir()):
            path.replace(folder / path.name)
        fresh.rmdir()
        places = {f"{BROWSER}/{former}": f"{BROWSER}/{names[plain]}" for former, plain in before.items()}
        for path in [*self.site.rglob("*.html"), self.site / "manifest.webmanifest"]:
            path.write_text(_replaced(path.read_text("utf-8"), places), "utf-8")
        for path in list(folder.iterdir()):  # last: no page that names the former files comes any more
            if path.name not in names.values():
                path.unlink()


def _replaced(text: str, places: Mapping[str, str]) -> str:
    for old, new in places.items():
        text = text.replace(old, new)
    return text
