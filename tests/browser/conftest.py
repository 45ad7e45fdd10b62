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


NO_ENGINE = """if (location.protocol.startsWith("http") && !sessionStorage.engineMayCome) {
  const Own = Worker;
  class Silent extends EventTarget {
    postMessage() {}
    terminate() {}
  }
  globalThis.Worker = function (address, options) {
    return /\\/assets\\/browser\\/(small-)?worker\\./.test(String(address)) ? new Silent() : new Own(address, options);
  };
  globalThis.Worker.prototype = Own.prototype;
}"""
MAY_COME = "sessionStorage.engineMayCome = 'yes';"


def without_engine(page: Page) -> None:
    """Let the engine never come, for what is looked at as it was built: starting it costs a second of processor.

    A request that is met on its way would do it too, but then nothing is taken from the browser's cache.
    """
    page.add_init_script(NO_ENGINE)


def engine_may_come(page: Page) -> None:
    """Let it come after all, with the next page that is loaded."""
    page.evaluate(f"() => {{ {MAY_COME} }}")


def engine_later(page: Page) -> None:
    """Let the engine come with the second page that is loaded: on the first one something is only made ready."""
    page.add_init_script(f"{NO_ENGINE} if (location.protocol.startsWith('http')) {MAY_COME}")


def go(page: Page, target: str) -> None:
    """Have a page stand at an address, by a link where it can: to load each page anew costs three times as much."""
    if page.url in ("about:blank", target):
        page.goto(target)
        return
    page.evaluate("target => helpers.follow(target)", target)
    expect(page.locator("main[data-left]")).to_have_count(0)
    expect(page).to_have_url(target)


def knows_the_pages(page: Page) -> None:
    """Wait for the theme and its list of pages; before, a browser loads a page that is followed to anew."""
    page.wait_for_function("() => helpers.knowsThePages()")


def python_as_marked(node: pytest.Item | pytest.Collector, page: Page) -> None:
    """Let the Python of this process answer where the test is marked ``python_here``, the nearest mark says."""
    from tests.browser.engine.stood_in import python_here  # here, for it takes from this file

    mark = node.get_closest_marker("python_here")
    if mark is not None and mark.args != (False,):
        python_here(page)


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
def open_page(request: pytest.FixtureRequest, browser: Browser, address: str, watch: Watch) -> Iterator[Open]:
    """Open a page of the site in a context of its own: ``open_page("calculators/x/", viewport=DESK)``."""
    contexts: list[BrowserContext] = []

    def opened(path: str = "", before: Callable[[Page], None] | None = None, **options: Any) -> Page:
        page = watch.new_page(browser, **options)
        contexts.append(page.context)
        python_as_marked(request.node, page)
        if before:
            before(page)
        page.goto(address + path)
        return page

    yield opened
    for context in contexts:
        context.close()
    watch.check()


EMPTY = """async () => {
  window.print = () => {};
  localStorage.clear();
  sessionStorage.clear();
  const come = (request) => new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
  for (const { name } of await indexedDB.databases()) {
    const db = await come(indexedDB.open(name));
    const stores = [...db.objectStoreNames];
    if (stores.length) {
      const work = db.transaction(stores, "readwrite");
      await Promise.all(stores.map((store) => come(work.objectStore(store).clear())));
    }
    db.close();
  }
}"""
"""A device that keeps nothing yet."""


HALT = "reference/wall-sheets/"
"""A short page without a sheet, by way of which each other one is come to."""


class Visit:
    """One long visit with one engine, page after page by links; begun anew after a test that failed."""

    def __init__(self, browser: Browser, address: str, module: pytest.Collector) -> None:
        self.browser = browser
        self.address = address
        self.module = module
        self.session = module.session
        self.failed = -1
        self.loads = 0
        self.page: Page | None = None

    def go(self, path: str, viewport: ViewportSize = PHONE) -> Page:
        """Go to a page by way of another, so that it comes fresh, on a device that keeps nothing."""
        if self.page is None or self.session.testsfailed != self.failed:
            self.leave()
            self.watch = Watch(self.address)
            self.page = self.watch.new_page(self.browser)
            python_as_marked(self.module, self.page)
            self.loads = 0
            self.page.on("load", self._loaded)
            self.page.goto(self.address + HALT)
            self.failed = self.session.testsfailed
        self.page.set_viewport_size(viewport)
        for target in (self.address + HALT, self.address + path):
            if self.page.url != target:
                self.page.evaluate("target => helpers.follow(target)", target)
                self.page.wait_for_function("() => !document.querySelector('main[data-left]')")
            if target == self.address + HALT:
                self.page.evaluate(EMPTY)  # only here: a page may keep as it is left
        return self.page

    def _loaded(self, _: Page) -> None:
        self.loads += 1

    def leave(self) -> None:
        if self.page is not None:
            self.page.context.close()
            self.page = None
            if self.session.testsfailed == self.failed:
                self.watch.check()
                each = max(self.watch.pythons, self.watch.workers - self.watch.pythons)
                assert each <= self.loads, "an engine was started more than once in one visit"


@pytest.fixture(scope="module")
def visit(browser: Browser, address: str, request: pytest.FixtureRequest) -> Iterator[Open]:
    """Go to a page as a reader does, in one long visit with one engine: ``visit("calculators/x/", viewport=DESK)``."""
    visit = Visit(browser, address, request.node)
    yield visit.go
    visit.leave()
