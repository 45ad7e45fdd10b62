"""A real browser on the built site. Every test fails on a breach of the policy, another origin or a script fault."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    Dialog,
    Page,
    Playwright,
    Request,
    ViewportSize,
    Worker,
    expect,
    sync_playwright,
)

PHONE: ViewportSize = {"width": 390, "height": 844}
DESK: ViewportSize = {"width": 1280, "height": 800}
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
# The engine is compiled a second time, for speed, only where it works long. A start with one answer takes 1.9 s of
# processor so, and 2.9 s as a browser comes; to do it never would make a look back over a year take thrice as long.
LIGHTLY = [*FLAGS, "--js-flags=--wasm-tiering-budget=1000000000"]
expect.set_options(timeout=15000)
HELPERS = Path(__file__).with_name("in_page.js")

Open = Callable[..., Page]


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """One for all: a second in the same process is refused."""
    with sync_playwright() as started:
        yield started


def program(*, light: bool = False) -> str:
    """The path of Chromium; the light one has no window of its own, and opens a page in a tenth of the time."""
    names = ["chromium-headless-shell"] * light + ["chromium", "chromium-browser"]
    path = next((found for name in names if (found := shutil.which(name))), None)
    if path is None:
        pytest.fail("Chromium is needed: Debian's package is called chromium")
    return path


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    chromium = playwright.chromium.launch(executable_path=program(light=True), args=LIGHTLY)
    yield chromium
    chromium.close()


PYTHON, SMALL = "/assets/browser/worker.", "/assets/browser/small-worker."


def is_engine(worker: Worker) -> bool:
    """Whether a worker is one of ours; the theme's search has one too."""
    return PYTHON in worker.url or SMALL in worker.url


def is_python(worker: Worker) -> bool:
    """Whether it is the one that answers everything."""
    return PYTHON in worker.url


def without_engine(page: Page) -> None:
    """Let no engine ever come, for what is looked at as it was built: starting one costs a second of processor."""
    for name in (PYTHON, SMALL):
        page.route(f"**{name}*", lambda route: route.fulfill(content_type="text/javascript", body=""))


def only_python(page: Page) -> None:
    """Keep the small engine out: Python answers whatever is asked."""
    body = 'postMessage(JSON.stringify({ kind: "failed", text: "kept out" }));'
    page.route(f"**{SMALL}*", lambda route: route.fulfill(content_type="text/javascript", body=body))


def only_small(page: Page) -> None:
    """Keep Python and all its files out."""
    for files in ("**/runtime/**", "**/assets/app/calculators.*", f"**{PYTHON}*"):
        page.route(files, lambda route: route.abort())


class Watch:
    """Notes what no page may do."""

    def __init__(self, address: str) -> None:
        self.origin = urlsplit(address)[:2]
        self.faults: list[str] = []
        self.expected: list[str] = []  # words of faults that a test brings about itself
        self.workers = 0
        self.pythons = 0

    def new_page(self, browser: Browser, **options: Any) -> Page:
        context = browser.new_context(**{"viewport": PHONE, **options})
        context.set_default_timeout(30000)
        page = context.new_page()
        page.add_init_script(path=HELPERS)
        page.on("request", self._asked)
        page.on("worker", self._started)
        page.on("pageerror", lambda fault: self.faults.append(f"script fault: {fault}"))
        page.on("dialog", self._asked_back)
        page.on("console", lambda line: self._said(line.type, line.text))
        return page

    def _started(self, worker: Worker) -> None:
        self.workers += is_engine(worker)
        self.pythons += is_python(worker)

    def _asked_back(self, dialog: Dialog) -> None:
        self.faults.append(f"a dialog: {dialog.message}")
        dialog.dismiss()

    def _asked(self, request: Request) -> None:
        parts = urlsplit(request.url)
        if parts.scheme in ("http", "https") and parts[:2] != self.origin:
            self.faults.append(f"asked another origin: {request.url}")

    def _said(self, kind: str, text: str) -> None:
        if kind == "error":
            self.faults.append(f"console: {text}")

    def check(self) -> None:
        assert [fault for fault in self.faults if not any(words in fault for words in self.expected)] == []


@contextmanager
def lasting_page(browser: Browser, address: str, **options: Any) -> Iterator[Page]:
    """A page for all tests of a module, as it was built: its engine never starts."""
    watch = Watch(address)
    page = watch.new_page(browser, **options)
    without_engine(page)
    yield page
    page.context.close()
    watch.check()


@pytest.fixture
def watch(address: str) -> Watch:
    return Watch(address)


@pytest.fixture
def open_page(browser: Browser, address: str, watch: Watch) -> Iterator[Open]:
    """Open a page of the site in a context of its own: ``open_page("calculators/x/", viewport=DESK)``."""
    contexts: list[BrowserContext] = []

    def opened(path: str = "", before: Callable[[Page], None] | None = None, **options: Any) -> Page:
        page = watch.new_page(browser, **options)
        contexts.append(page.context)
        if before:
            before(page)
        page.goto(address + path)
        return page

    yield opened
    for context in contexts:
        context.close()
    watch.check()


@pytest.fixture(scope="module")
def visit(browser: Browser, address: str) -> Iterator[Open]:
    """Go to a page by a link, as a reader does, in one long visit with its engines: ``visit("calculators/x/")``."""
    watch = Watch(address)
    page = watch.new_page(browser)
    page.goto(address)

    def go(path: str) -> Page:
        for target in (address, address + path):  # by way of home, so that the same page comes fresh
            page.evaluate("() => { window.print = () => {}; localStorage.clear(); }")  # a page may keep as it is left
            if page.url != target:
                page.evaluate("target => helpers.follow(target)", target)
                expect(page.locator("main[data-left]")).to_have_count(0)
        return page

    yield go
    page.context.close()
    watch.check()
    assert max(watch.pythons, watch.workers - watch.pythons) <= 1, "an engine was started more than once in one visit"
