"""What is fetched unasked, and what the reader is asked before it is: by the line, and by what has come already."""

from __future__ import annotations

import re
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators.sheets import find_sheet
from tests.browser.conftest import Open, Watch, go
from tests.browser.engine.engines import (
    AHEAD,
    SHEET,
    WITH_NUMPY,
    Engines,
    answered,
    begun_with,
    expect_right,
    line,
    opened,
)
from tests.browser.engine.stood_in import hold, ring, worker_here
from tests.browser.sheets import (
    READY,
    example,
    expect_standing,
    path_of,
    section,
    type_in,
)
from tests.browser.slow_line import slow_line

pytestmark = [pytest.mark.browser, pytest.mark.further]
BASKET = find_sheet("sample-basket")

HAS_COME = (
    "() => Object.entries(localStorage).some(([key, had]) => key.endsWith('fetched') && had.includes('asm.wasm'))"
)


def took(ms: float) -> Callable[[Page], object]:
    """Let the small engine say that each answer took it so long."""
    return begun_with(
        f"""const post = self.postMessage.bind(self);
        self.postMessage = (text) => post(text.replace(/"ms":[\\d.e-]+,"memory"/, '"ms":{ms},"memory"'));"""
    )


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
    page, place, engines = opened(open_page, worker_here, sheet=WITH_NUMPY)
    ask = "(section, questions) => helpers.ask(section, questions)"
    place.evaluate(ask, example(WITH_NUMPY))
    line(saveData=True, effectiveType="4g")(page)
    page.goto(address + path_of(WITH_NUMPY))
    place.evaluate(ask, example(WITH_NUMPY))
    expect_standing(place, "answered")
    expect(page.locator(".more-offer")).to_have_count(0)
    assert len(engines.python) == 2


@pytest.mark.parametrize(("ms", "saves", "python"), [(299, False, 0), (301, False, 1), (301, True, 0)])
def test_behind_a_long_answer_python_is_started_where_it_may(
    open_page: Open, ms: float, saves: bool, python: int
) -> None:
    page, place, engines = opened(open_page, line(saveData=saves, effectiveType="4g"), took(ms), worker_here)
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
