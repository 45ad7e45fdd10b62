"""The engines that a page starts, which of them answers, and what is fetched for it."""

from __future__ import annotations

import json
from collections.abc import Callable

from playwright.sync_api import Locator, Page, Request, Route, Worker, expect

from calculators.asking.declare import Sheet
from calculators.page import respond
from calculators.sheets import find_sheet
from tests.browser.conftest import PYTHON, SMALL, Open, is_engine
from tests.browser.engine.stood_in import hold
from tests.browser.sheets import (
    example,
    expect_standing,
    path_of,
    section,
    type_in,
)

SHEET = find_sheet("moisture-target")
WITH_NUMPY = find_sheet("batch-forecast")

NOTE = """() => {
  window.said = [];
  new MutationObserver(() => {
    const text = document.querySelector("[data-state]")?.textContent;
    if (text && window.said.at(-1) !== text) window.said.push(text);
  }).observe(document, { subtree: true, childList: true, characterData: true });
  window.asks = 0;
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...more) {
    if (String(message).includes('"kind":"ask"')) window.asks += 1;
    return post.call(this, message, ...more);
  };
}"""
LIMIT, AHEAD = 5000, 1500  # ms until the small engine is given up, and from an answer until more is fetched


def line(**told: object) -> Callable[[Page], object]:
    """Let the browser say this of its line."""
    script = f"Object.defineProperty(Navigator.prototype, 'connection', {{ get: () => ({json.dumps(told)}) }})"
    return lambda page: page.add_init_script(script)


def begun_with(script: str) -> Callable[[Page], object]:
    """Let this stand before the script of the small engine's worker."""

    def instead(route: Route) -> None:
        route.fulfill(body=f"{script}\n{route.fetch().text()}", content_type="text/javascript")

    return lambda page: page.route(f"**{SMALL}*", instead)


def with_all(*parts: Callable[[Page], object]) -> Callable[[Page], None]:
    def each(page: Page) -> None:
        for part in parts:
            part(page)

    return each


class Engines:
    """The engines that a page starts, and what of Python it asks for."""

    def __init__(self, page: Page) -> None:
        self.started: list[Worker] = []
        self.asked: list[str] = []
        page.on("worker", lambda worker: self.started.append(worker) if is_engine(worker) else None)
        page.on("request", self.note)
        page.add_init_script(f"({NOTE})()")

    def note(self, request: Request) -> None:
        if "/runtime/" in request.url:
            self.asked.append(request.url)

    @property
    def small(self) -> list[Worker]:
        return [one for one in self.started if SMALL in one.url]

    @property
    def python(self) -> list[Worker]:
        return [one for one in self.started if PYTHON in one.url]


def opened(open_page: Open, *before: Callable[[Page], object], sheet: Sheet = SHEET) -> tuple[Page, Locator, Engines]:
    """Open a sheet's page; what it waits for, until it gives up or fetches more, does not come before `ring`."""
    found: list[Engines] = []
    first = (lambda page: found.append(Engines(page)), lambda page: hold(page, LIMIT, AHEAD))
    page = open_page(path_of(sheet), before=with_all(*first, *before))
    return page, section(page, sheet), found[0]


def expect_right(place: Locator, sheet: Sheet, questions: dict[str, str]) -> None:
    """Expect what CPython says to these questions."""
    asked = {"sheet": sheet.id, "prefix": sheet.id, "root": "../../", "questions": questions, "date": ""}
    reply = json.loads(respond(json.dumps(asked)))
    expect(place.locator("[data-place=heading]")).to_be_visible()
    for name in ("heading", "answers", "working"):
        same = place.page.evaluate("html => helpers.normal(html)", reply["places"][name])
        found = place.evaluate("(section, name) => helpers.html(section)[name]", name)
        assert found == same, name


def said(page: Page) -> str:
    texts: list[str] = page.evaluate("() => window.said")
    return "\n".join(texts)


def expect_answered(place: Locator, sheet: Sheet, **more: str) -> None:
    """Expect the answer to the worked case, but for what was typed otherwise, without typing anything."""
    expect_standing(place, "answered")
    expect_right(place, sheet, {**example(sheet), **more})


def answered(place: Locator, sheet: Sheet, **more: str) -> None:
    type_in(place, sheet, {**example(sheet), **more})
    expect_answered(place, sheet, **more)
