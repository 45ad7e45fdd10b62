"""The sheets for the wall as files: each procedure's own page is opened in Chromium and its own button pressed."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.parse import urlsplit

from playwright.sync_api import Page, sync_playwright

from site_src.book import FLAGS
from site_src.build import build
from site_src.server import Server
from site_src.settings import ROOT, BuildError
from site_src.wall_sheet import FOLDER, PROCEDURES, SIZES

WALL = ROOT / "wall"
_SHEET = ".wall-sheet"


def print_walls(page: Page, address: str, to: Path, procedures: Sequence[str] = PROCEDURES) -> Iterator[Path]:
    """Print each sheet in both sizes.

    Parameters
    ----------
    page : Page
        Of a browser, as wide as a desk.
    address : str
        Where the built site is served; ends in a slash.
    to : Path
        The folder.
    procedures : sequence of str
        File names of procedures.

    Yields
    ------
    Path
        Each file as it is written, such as ``steeping-A4.pdf``.
    """
    for name in procedures:
        page.goto(f"{address}{FOLDER}/{name}/")
        for size in SIZES:
            page.click(f"[data-wall={size}]")
            page.wait_for_selector(_SHEET, state="attached")
            file = to / f"{name}-{size}.pdf"
            page.pdf(path=str(file), prefer_css_page_size=True, tagged=True)
            page.evaluate("() => dispatchEvent(new Event('afterprint'))")  # a page without a window is not told
            page.wait_for_selector(_SHEET, state="detached")
            yield file


def make_walls(to: Path = WALL, *, only: Sequence[str] = (), say: Callable[[str], None] = print) -> list[Path]:
    """Build the site and print the sheets for the wall.

    Parameters
    ----------
    to : Path
        The folder; made where it is not there.
    only : sequence of str
        File names of procedures; all when empty.
    say : Callable[[str], None]
        Called with a line to show.

    Raises
    ------
    BuildError
        When there is no Chromium, no such procedure, or the site cannot be built.
    """
    if strange := set(only) - set(PROCEDURES):
        raise BuildError(f"No procedure {', '.join(sorted(strange))}. There are: {', '.join(PROCEDURES)}.")
    program = shutil.which("chromium") or shutil.which("chromium-browser")
    if program is None:
        raise BuildError("The sheets are printed by the browser Chromium: install Debian’s package chromium.")
    to.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory() as folder:
        site = build(Path(folder) / "site", quick=True, say=say)
        server = Server(site, base=urlsplit(os.environ.get("SITE_URL", "")).path or "/")
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            with sync_playwright() as playwright:
                browser = playwright.chromium.launch(executable_path=program, args=FLAGS)
                page = browser.new_page(viewport={"width": 1280, "height": 800})
                page.route(
                    "**/assets/browser/worker.*", lambda route: route.fulfill(content_type="text/javascript", body="")
                )
                files = list(print_walls(page, server.address, to, list(only) or PROCEDURES))
                browser.close()
        finally:
            server.shutdown()
            server.server_close()
    return files
