"""Two engines, one answer: which of them gives it, and what if the small one does not."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect

from calculators.asking.declare import Sheet
from tests.browser.conftest import SMALL, Open, Watch, go, only_python, only_small
from tests.browser.engine.engines import (
    LIMIT,
    SHEET,
    WITH_NUMPY,
    answered,
    begun_with,
    expect_answered,
    line,
    opened,
    said,
    with_all,
)
from tests.browser.engine.stood_in import ring, worker_here
from tests.browser.sheets import (
    SHEETS,
    example,
    expect_standing,
    on_small,
    path_of,
    section,
    type_in,
)
from tests.drawn import drawn

pytestmark = pytest.mark.browser

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
ASK = "(section, questions) => { helpers.ask(section, questions); }"  # all at once: nothing newer waits behind it
LATE = ("hangs", "says nothing")  # which are seen by the limit alone
AS_ANOTHER = ("traps", "says nothing")  # a throw, and a hang, to the page


def changed(how: str) -> Callable[[Page], object]:
    """Let the small engine do this when it is asked."""
    return begun_with(
        f"""const listen = self.addEventListener.bind(self);
            self.addEventListener = (kind, hear) => listen(kind, (event) => {{
                if (kind !== "message" || JSON.parse(event.data).kind !== "ask") return hear(event);
                {how}
            }});"""
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


def test_a_proven_sheet_answers_without_one_file_of_python(open_page: Open) -> None:
    page, place, engines = opened(open_page, only_small, line(saveData=True, effectiveType="4g"))
    answered(place, SHEET)
    assert page.evaluate("() => performance.getEntriesByName('engine-start').at(-1).detail.small") is True
    assert len(engines.small) == 1 and not engines.python


@pytest.mark.further(keep=1)
@pytest.mark.parametrize(
    "how", [pytest.param(one, marks=pytest.mark.long) if one in AS_ANOTHER else one for one in FAULTS]
)
def test_where_the_small_engine_gives_no_answer_python_gives_the_right_one(open_page: Open, how: str) -> None:
    instead = [] if how == "throws" else [worker_here]
    page, place, engines = opened(open_page, changed(FAULTS[how]), *instead)
    place.evaluate(ASK, example(SHEET))
    if how in LATE:
        ring(page, LIMIT)
    expect_answered(place, SHEET)
    for word in ("fault", "topped", "limit", "not "):
        assert word not in said(page), "the reader is told of it"
    answered(place, SHEET, target_moisture="44")
    assert len(engines.small) == 1, "it was used again after a fault"
    assert len(engines.python) == 1


def test_the_newest_numbers_are_asked_of_python(open_page: Open) -> None:
    page, place, engines = opened(open_page, changed(FAULTS["hangs"]), worker_here)
    type_in(place, SHEET, example(SHEET))
    page.wait_for_function("() => window.asks === 1")
    type_in(place, SHEET, {"barley_kg": "4321"})
    ring(page, LIMIT)
    expect_answered(place, SHEET, barley_kg="4321")
    assert len(engines.python) == 1


def test_a_small_engine_that_is_killed_is_followed_by_python(open_page: Open) -> None:
    page, place, engines = opened(open_page, worker_here)
    answered(place, SHEET)
    engines.small[0].evaluate("() => { setTimeout(() => { throw new Error('pulled the plug'); }, 0); }")
    page.wait_for_timeout(50)
    answered(place, SHEET, target_moisture="44")
    assert len(engines.small) == 1


@pytest.mark.further(keep=1)
@pytest.mark.parametrize("part", ["small-core", "small-moisture-target", "small.*wasm"])
def test_a_part_that_does_not_come_is_no_matter(open_page: Open, watch: Watch, part: str) -> None:
    watch.expected.append("Failed to load resource")
    lost = re.compile(f"/assets/app/{part}")
    cut = lambda page: page.route(lost, lambda route: route.abort())  # noqa: E731
    _, place, engines = opened(open_page, cut, worker_here)
    answered(place, SHEET)
    assert len(engines.python) == 1


@pytest.mark.further(keep=1)
@pytest.mark.parametrize("part", ["small-core", "small-moisture-target"])
def test_a_damaged_part_answers_nothing(open_page: Open, part: str) -> None:
    def spoilt(route: Route) -> None:
        reply = route.fetch()
        body = bytearray(reply.body())
        body[len(body) // 2] ^= 1
        route.fulfill(response=reply, body=bytes(body))

    damage = re.compile(f"/assets/app/{part}")
    _, place, engines = opened(open_page, lambda page: page.route(damage, spoilt), worker_here)
    answered(place, SHEET)
    assert len(engines.python) == 1


def test_stop_ends_the_small_engine_too(open_page: Open) -> None:
    page, place, engines = opened(open_page, changed(FAULTS["hangs"]), worker_here)
    place.evaluate(ASK, example(SHEET))
    place.locator("[data-action=stop]").click()
    expect(place.locator("[data-state]")).to_contain_text("Stopped")
    assert not engines.python, "what was stopped was asked of Python"
    type_in(place, SHEET, {"target_moisture": "44"})
    ring(page, LIMIT)
    expect_answered(place, SHEET, target_moisture="44")
    assert len(engines.small) == 2, "what hung was not ended"


def test_python_takes_over_once_it_is_up_and_the_small_engine_goes(open_page: Open, address: str) -> None:
    page, place, engines = opened(open_page, worker_here)
    answered(place, SHEET)
    go(page, address + path_of(WITH_NUMPY))
    place = section(page, WITH_NUMPY)
    place.evaluate("(section, questions) => helpers.ask(section, questions)", example(WITH_NUMPY))
    expect_standing(place, "answered")
    assert not [worker for worker in page.workers if SMALL in worker.url]
    go(page, address + path_of(SHEET))
    answered(section(page, SHEET), SHEET, target_moisture="43")
    assert len(engines.small) == len(engines.python) == 1


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


@pytest.mark.further
@pytest.mark.drawn
def test_no_word_or_digit_tells_which_engine_answered(
    open_page: Open, watch: Watch, address: str, built_site: Path
) -> None:
    """Some sheets of those that start on the small engine; Python is that of this process, which `sheet/` compares."""
    watch.expected.append("Failed to load resource")
    small = [sheet for sheet in SHEETS if sheet.id in on_small(built_site)]
    assert len(small) > 15
    sheets = random.sample(small, drawn(len(small), 6, 0.15))
    page = open_page("", before=with_all(line(saveData=True), only_small, at_one_moment))
    by_small = shown(page, sheets, address)
    other = open_page("", before=with_all(only_python, worker_here, at_one_moment))
    by_python = shown(other, sheets, address)
    assert by_small.keys() == by_python.keys()
    for sheet, parts in by_small.items():
        for part, text in parts.items():
            assert text == by_python[sheet][part], f"{sheet}, {part}"
