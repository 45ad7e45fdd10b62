"""Two engines, one answer: which of them gives it, what if the small one does not, what is fetched unasked."""

from __future__ import annotations

import json
import random
import re
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Locator, Page, Request, Route, Worker, expect

from calculators.asking.declare import Sheet
from calculators.page import respond
from calculators.sheets import find_sheet
from tests.browser.conftest import PYTHON, SMALL, Open, Watch, go, is_engine, only_python, only_small
from tests.browser.engine.stood_in import hold, python_here, ring
from tests.browser.sheets import (
    READY,
    SHEETS,
    example,
    expect_standing,
    on_small,
    path_of,
    section,
    type_in,
)
from tests.browser.slow_line import slow_line
from tests.drawn import drawn

pytestmark = pytest.mark.browser
SHEET = find_sheet("moisture-target")
BASKET = find_sheet("sample-basket")
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
HAS_COME = (
    "() => Object.entries(localStorage).some(([key, had]) => key.endsWith('fetched') && had.includes('asm.wasm'))"
)
TRAP = "new Uint8Array([0,97,115,109,1,0,0,0,1,4,1,96,0,0,3,2,1,0,7,5,1,1,102,0,0,10,5,1,3,0,0,11])"
WITHIN = "performance.now = () => {{ {} }}; hear(event);"  # which the worker looks at before the engine works
FAULTS = {
    "throws": WITHIN.format('throw new Error("on purpose");'),
    "traps": WITHIN.format(f"new WebAssembly.Instance(new WebAssembly.Module({TRAP})).exports.f();"),
    "hangs": "for (;;);",
    "dies": 'setTimeout(() => { throw new Error("on purpose"); });',
    "says nothing": "",
    "says what nobody can read": 'self.postMessage("no JSON");',
}
"""What the small engine does in the middle of a request, in place of answering it."""
LATE = ("hangs", "says nothing")  # which are seen by the limit alone
AS_ANOTHER = ("traps", "says nothing")  # a throw, and a hang, to the page


def line(**told: object) -> Callable[[Page], object]:
    """Let the browser say this of its line."""
    script = f"Object.defineProperty(Navigator.prototype, 'connection', {{ get: () => ({json.dumps(told)}) }})"
    return lambda page: page.add_init_script(script)


def changed(how: str) -> Callable[[Page], object]:
    """Let the small engine do this when it is asked."""
    return begun_with(
        f"""const listen = self.addEventListener.bind(self);
            self.addEventListener = (kind, hear) => listen(kind, (event) => {{
                if (kind !== "message" || JSON.parse(event.data).kind !== "ask") return hear(event);
                {how}
            }});"""
    )


def begun_with(script: str) -> Callable[[Page], object]:
    """Let this stand before the script of the small engine's worker."""

    def instead(route: Route) -> None:
        route.fulfill(body=f"{script}\n{route.fetch().text()}", content_type="text/javascript")

    return lambda page: page.route(f"**{SMALL}*", instead)


def took(ms: float) -> Callable[[Page], object]:
    """Let the small engine say that each answer took it so long."""
    return begun_with(
        f"""const post = self.postMessage.bind(self);
        self.postMessage = (text) => post(text.replace(/"ms":[\\d.e-]+,"memory"/, '"ms":{ms},"memory"'));"""
    )


def at_one_moment(page: Page) -> None:
    """Let no minute pass: answers say at what hour something will be."""
    page.add_init_script("""{
      const now = Date.parse("2026-05-04T10:00:00");
      globalThis.Date = class extends Date {
        constructor(...words) { super(...(words.length ? words : [now])); }
        static now() { return now; }
      };
    }""")


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


def answered(place: Locator, sheet: Sheet, **more: str) -> None:
    questions = {**example(sheet), **more}
    type_in(place, sheet, questions)
    expect_standing(place, "answered")
    expect_right(place, sheet, questions)


def test_a_proven_sheet_answers_without_one_file_of_python(open_page: Open) -> None:
    page, place, engines = opened(open_page, only_small, line(saveData=True, effectiveType="4g"))
    answered(place, SHEET)
    assert page.evaluate("() => performance.getEntriesByName('engine-start').at(-1).detail.small") is True
    assert len(engines.small) == 1 and not engines.python


@pytest.mark.parametrize(
    "how", [pytest.param(one, marks=pytest.mark.long) if one in AS_ANOTHER else one for one in FAULTS]
)
def test_where_the_small_engine_gives_no_answer_python_gives_the_right_one(open_page: Open, how: str) -> None:
    instead = [] if how == "throws" else [python_here]
    page, place, engines = opened(open_page, changed(FAULTS[how]), *instead)
    type_in(place, SHEET, example(SHEET))
    if how in LATE:
        ring(page, LIMIT)
    answered(place, SHEET)
    for word in ("fault", "topped", "limit", "not "):
        assert word not in said(page), "the reader is told of it"
    answered(place, SHEET, target_moisture="44")
    assert len(engines.small) == 1, "it was used again after a fault"
    assert len(engines.python) == 1


def test_the_newest_numbers_are_asked_of_python(open_page: Open) -> None:
    page, place, engines = opened(open_page, changed(FAULTS["hangs"]), python_here)
    type_in(place, SHEET, example(SHEET))
    page.wait_for_function("() => window.asks === 1")
    type_in(place, SHEET, {"barley_kg": "4321"})
    ring(page, LIMIT)
    answered(place, SHEET, barley_kg="4321")
    assert len(engines.python) == 1


def test_a_small_engine_that_is_killed_is_followed_by_python(open_page: Open) -> None:
    page, place, engines = opened(open_page, python_here)
    answered(place, SHEET)
    engines.small[0].evaluate("() => { setTimeout(() => { throw new Error('pulled the plug'); }, 0); }")
    page.wait_for_timeout(50)
    answered(place, SHEET, target_moisture="44")
    assert len(engines.small) == 1


@pytest.mark.parametrize("part", ["small-core", "small-moisture-target", "small.*wasm"])
def test_a_part_that_does_not_come_is_no_matter(open_page: Open, watch: Watch, part: str) -> None:
    watch.expected.append("Failed to load resource")
    lost = re.compile(f"/assets/app/{part}")
    cut = lambda page: page.route(lost, lambda route: route.abort())  # noqa: E731
    _, place, engines = opened(open_page, cut, python_here)
    answered(place, SHEET)
    assert len(engines.python) == 1


@pytest.mark.parametrize("part", ["small-core", "small-moisture-target"])
def test_a_damaged_part_answers_nothing(open_page: Open, part: str) -> None:
    def spoilt(route: Route) -> None:
        reply = route.fetch()
        body = bytearray(reply.body())
        body[len(body) // 2] ^= 1
        route.fulfill(response=reply, body=bytes(body))

    damage = re.compile(f"/assets/app/{part}")
    _, place, engines = opened(open_page, lambda page: page.route(damage, spoilt), python_here)
    answered(place, SHEET)
    assert len(engines.python) == 1


def test_stop_ends_the_small_engine_too(open_page: Open) -> None:
    page, place, engines = opened(open_page, changed(FAULTS["hangs"]), python_here)
    type_in(place, SHEET, example(SHEET))
    place.locator("[data-action=stop]").click()
    expect(place.locator("[data-state]")).to_contain_text("Stopped")
    assert not engines.python, "what was stopped was asked of Python"
    type_in(place, SHEET, {"target_moisture": "44"})
    ring(page, LIMIT)
    answered(place, SHEET, target_moisture="44")


def test_on_a_good_line_python_is_fetched_after_the_answer_and_not_started(open_page: Open) -> None:
    page, place, engines = opened(open_page, line(saveData=False, effectiveType="4g"))
    answered(place, SHEET)
    assert not engines.asked
    ring(page, AHEAD)
    page.wait_for_function(HAS_COME)
    assert {address.rsplit("/", 1)[-1] for address in engines.asked} >= {"pyodide.asm.wasm", "python_stdlib.zip"}
    assert not any("numpy" in address for address in engines.asked)
    assert not engines.python
    had = len(engines.asked)
    page.reload()
    answered(place, SHEET)
    ring(page, AHEAD)
    page.wait_for_timeout(300)
    assert len(engines.asked) == had, "fetched twice"


POOR = {"saves data": {"saveData": True, "effectiveType": "4g"}, "is slow": {"saveData": False, "effectiveType": "2g"}}
ASKS = re.compile(r"needs \d\.\d MB more.*so it comes when you say so")


def test_on_a_slow_line_python_is_asked_for_and_not_fetched_behind_the_answer(open_page: Open, address: str) -> None:
    page, place, engines = opened(open_page, line(**POOR["is slow"]))
    answered(place, SHEET)
    ring(page, AHEAD)
    go(page, address + "training/exercises/")
    expect(page.locator(".more-offer")).to_contain_text(ASKS)
    assert not engines.asked and not engines.python


@pytest.mark.parametrize("why", ["saves data", pytest.param("is slow", marks=pytest.mark.long)])
def test_on_a_poor_line_the_reader_is_asked_first_with_the_size(
    open_page: Open, address: str, built_site: Path, why: str
) -> None:
    page, place, engines = opened(open_page, line(**POOR[why]))
    answered(place, SHEET)
    ring(page, AHEAD)
    offer = page.locator(".more-offer")
    expect(offer).to_have_count(0)
    sizes = ["nothing"]
    for path in ("training/exercises/", path_of(WITH_NUMPY)):
        go(page, address + path)
        expect(offer).to_have_count(1)
        expect(offer).not_to_contain_text(sizes[-1])
        expect(offer).to_contain_text(ASKS)
        sizes += re.findall(r"\d\.\d MB", offer.inner_text())
    without, with_numpy = (float(size.split()[0]) for size in sizes[1:])
    numpy = next(built_site.glob("runtime/*/numpy*.whl.br")).stat().st_size / 1e6
    assert without > 4
    assert with_numpy - without == pytest.approx(numpy, abs=0.1)
    assert not engines.asked and not engines.python
    place = section(page, WITH_NUMPY)
    type_in(place, WITH_NUMPY, example(WITH_NUMPY))
    expect(offer).to_contain_text("Your numbers are kept")
    expect(offer).to_be_in_viewport()
    offer.get_by_role("button", name="Fetch it").click()
    expect(offer).to_have_count(0)
    expect_standing(place, "answered")
    go(page, address + "training/exercises/")
    expect(offer).to_have_count(0)


def test_what_came_once_is_not_asked_for_again(open_page: Open, address: str) -> None:
    page, place, engines = opened(open_page, python_here, sheet=WITH_NUMPY)
    ask = "(section, questions) => helpers.ask(section, questions)"
    place.evaluate(ask, example(WITH_NUMPY))
    line(saveData=True, effectiveType="4g")(page)
    page.goto(address + path_of(WITH_NUMPY))
    place.evaluate(ask, example(WITH_NUMPY))
    expect_standing(place, "answered")
    expect(page.locator(".more-offer")).to_have_count(0)
    assert len(engines.python) == 2


def test_python_takes_over_once_it_is_up_and_the_small_engine_goes(open_page: Open, address: str) -> None:
    page, place, engines = opened(open_page, python_here)
    answered(place, SHEET)
    go(page, address + path_of(WITH_NUMPY))
    place = section(page, WITH_NUMPY)
    place.evaluate("(section, questions) => helpers.ask(section, questions)", example(WITH_NUMPY))
    expect_standing(place, "answered")
    assert not [worker for worker in page.workers if SMALL in worker.url]
    go(page, address + path_of(SHEET))
    answered(section(page, SHEET), SHEET, target_moisture="43")
    assert len(engines.small) == len(engines.python) == 1


@pytest.mark.parametrize(("ms", "saves", "python"), [(299, False, 0), (301, False, 1), (301, True, 0)])
def test_behind_a_long_answer_python_is_started_where_it_may(
    open_page: Open, ms: float, saves: bool, python: int
) -> None:
    page, place, engines = opened(open_page, line(saveData=saves, effectiveType="4g"), took(ms), python_here)
    answered(place, SHEET)
    page.wait_for_timeout(300)
    assert len(engines.python) == python


@contextmanager
def on_a_bad_line(browser: Browser, address: str, bytes_a_second: int, delay_s: float) -> Iterator[tuple[Page, str]]:
    """A page with nothing of the site on its device, and the address behind such a line."""
    server = urlsplit(address)
    assert server.port
    with slow_line(server.port, bytes_a_second=bytes_a_second, delay_s=delay_s) as port:
        own = f"http://127.0.0.1:{port}{server.path}"
        watch = Watch(own)
        page = watch.new_page(browser)
        yield page, own
        page.context.close()
        watch.check()


@pytest.mark.parametrize(
    ("bytes_a_second", "delay_s"), [(100_000, 0.15), pytest.param(50_000, 0.3, marks=pytest.mark.long)]
)
def test_the_basket_s_answer_in_time_on_a_bad_line(
    browser: Browser, address: str, bytes_a_second: int, delay_s: float
) -> None:
    """Nothing of the site is on the device: the answer comes, and nothing is fetched behind it."""
    with on_a_bad_line(browser, address, bytes_a_second, delay_s) as (page, own):
        engines = Engines(page)
        hold(page, AHEAD)
        began = time.monotonic()
        page.goto(own + path_of(BASKET), wait_until="commit")
        place = section(page, BASKET)
        expect(place.locator(".sheet-form")).to_be_visible(timeout=READY)
        type_in(place, BASKET, example(BASKET))
        expect_standing(place, "answered")
        took = time.monotonic() - began
        print(f"{took:.1f} s")
        expect_right(place, BASKET, example(BASKET))
        ring(page, AHEAD)
        page.wait_for_timeout(300)
        assert not engines.asked, "Python is fetched over a bad line, and nobody has asked for it"
        assert took < 25  # 10 on the slowest and a machine that does nothing else: make bench measures it


@pytest.mark.parametrize("path", [path_of(WITH_NUMPY), pytest.param("training/exercises/", marks=pytest.mark.long)])
def test_a_page_opened_on_a_bad_line_asks_before_python_is_fetched(browser: Browser, address: str, path: str) -> None:
    """What such a page knows of the line is how its own files came; a quick one is not asked about (other tests)."""
    with on_a_bad_line(browser, address, 50_000, 0.3) as (page, own):
        engines = Engines(page)
        page.goto(own + path, wait_until="commit")
        offer = page.locator(".more-offer")
        asks = re.compile(r"needs \d\.\d MB more, about \d+ (s|min) on this line")
        expect(offer).to_contain_text(asks, timeout=READY)
        page.wait_for_timeout(500)
        assert not engines.asked and not engines.python


def shown(page: Page, sheets: list[Sheet], address: str) -> dict[str, dict[str, str]]:
    """What stands in the results of each sheet, answered by whatever engine this page has."""
    found = {}
    for sheet in sheets:
        page.evaluate("() => localStorage.clear()")  # nothing is lent: it would say when
        go(page, address + path_of(sheet))
        place = section(page, sheet)
        expect(place).to_be_visible()
        html = place.evaluate("(section, questions) => helpers.ask(section, questions)", example(sheet))
        found[sheet.id] = {name: text for name, text in html.items() if name != "print"}  # the minute of printing
    return found


@pytest.mark.drawn
def test_no_word_or_digit_tells_which_engine_answered(
    open_page: Open, watch: Watch, address: str, built_site: Path
) -> None:
    """Some sheets of those that start on the small engine; Python is that of this process, which `sheet/` compares."""
    watch.expected.append("Failed to load resource")
    small = [sheet for sheet in SHEETS if sheet.id in on_small(built_site)]
    assert len(small) > 15
    sheets = random.sample(small, drawn(len(small), 8))
    page = open_page("", before=with_all(line(saveData=True), only_small, at_one_moment))
    by_small = shown(page, sheets, address)
    other = open_page("", before=with_all(only_python, python_here, at_one_moment))
    by_python = shown(other, sheets, address)
    assert by_small.keys() == by_python.keys()
    for sheet, parts in by_small.items():
        for part, text in parts.items():
            assert text == by_python[sheet][part], f"{sheet}, {part}"
