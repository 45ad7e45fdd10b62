"""A real browser on the built site. Every test fails on a breach of the policy, another origin or a script fault."""

import shutil
from collections.abc import Callable, Iterator
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, Request, sync_playwright

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 800}
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"]

Open = Callable[..., Page]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    program = shutil.which("chromium") or shutil.which("chromium-browser")
    if program is None:
        pytest.fail("Chromium is needed: Debian's package is called chromium")
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=program, args=FLAGS)
        yield chromium
        chromium.close()


class Watch:
    """What a page must not do."""

    def __init__(self, origin: str) -> None:
        self.origin = origin
        self.faults: list[str] = []
        self.expected: list[str] = []  # words of faults that a test brings about itself
        self.requests = 0

    def look_at(self, page: Page) -> None:
        page.on("request", self._asked)
        page.on("pageerror", lambda fault: self.faults.append(f"script fault: {fault}"))
        page.on("console", lambda line: self._said(line.type, line.text))
        page.add_init_script(
            "addEventListener('securitypolicyviolation', e => console.error('policy breach: ' + e.violatedDirective + ' ' + e.blockedURI))"
        )

    def _asked(self, request: Request) -> None:
        self.requests += 1
        parts = urlsplit(request.url)
        if parts.scheme in ("http", "https") and f"{parts.scheme}://{parts.netloc}" != self.origin:
            self.faults.append(f"asked another origin: {request.url}")

    def _said(self, kind: str, text: str) -> None:
        if kind == "error":
            self.faults.append(f"console: {text}")


@pytest.fixture
def watch(address: str) -> Watch:
    parts = urlsplit(address)
    return Watch(f"{parts.scheme}://{parts.netloc}")


@pytest.fixture
def open_page(browser: Browser, address: str, watch: Watch) -> Iterator[Open]:
    """Open a page of the site in a context of its own: ``open_page("calculators/x/", viewport=DESK)``."""
    contexts = []

    def opened(path: str = "", before: Callable[[Page], None] | None = None, **options: Any) -> Page:
        context = browser.new_context(**{"viewport": PHONE, **options})
        context.set_default_timeout(15000)
        contexts.append(context)
        page = context.new_page()
        watch.look_at(page)
        if before:
            before(page)
        page.goto(address + path)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert [fault for fault in watch.faults if not any(words in fault for words in watch.expected)] == []
