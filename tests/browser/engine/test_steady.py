"""An engine asked again and again holds on to nothing; one whose program does not come says so."""

from __future__ import annotations

import os
import re

import pytest
from playwright.sync_api import Page, expect

from calculators.sheets import find_sheet
from tests.browser.conftest import Open, Watch, only_python
from tests.browser.sheets import example, expect_standing, path_of, section, type_in
from tests.drawn import WHOLE

pytestmark = pytest.mark.browser
SHEET = find_sheet("days-to-ready")  # a chart, tables and a working, and answered in a moment
COUNT = int(os.environ.get("RECOMPUTES", "1000" if WHOLE else "80"))

AT_ONCE = """// no pause from the last key to the request
const later = window.setTimeout;
window.setTimeout = (work, ms, ...given) => later(work, ms === 60 ? 0 : ms, ...given);"""

AGAIN = """async (section, [questions, name, count]) => {
    for (let n = 0; n < count; n += 1) await helpers.ask(section, { ...questions, [name]: String(14 + (n % 7)) });
}"""


def heap(page: Page) -> dict[str, float]:
    """What the page holds after the waste is collected: bytes, elements, listeners."""
    devtools = page.context.new_cdp_session(page)
    devtools.send("Performance.enable")
    for _ in range(3):
        devtools.send("HeapProfiler.collectGarbage")
    metrics = {one["name"]: one["value"] for one in devtools.send("Performance.getMetrics")["metrics"]}
    devtools.detach()
    return {name: metrics[name] for name in ("JSHeapUsedSize", "Nodes", "JSEventListeners")}


@pytest.mark.further
@pytest.mark.drawn
@pytest.mark.parametrize("engine", ["small", pytest.param("python", marks=pytest.mark.long)])
def test_many_answers_leave_nothing_behind(open_page: Open, engine: str) -> None:
    def before(page: Page) -> None:
        page.add_init_script(AT_ONCE)
        if engine == "python":
            only_python(page)

    page = open_page(path_of(SHEET), before=before)
    place = section(page, SHEET)
    type_in(place, SHEET, example(SHEET))
    expect_standing(place, "answered")
    run = [example(SHEET), "bed_temp_c"]
    place.evaluate(AGAIN, [*run, 20])
    page.evaluate("() => performance.clearMarks()")
    first = heap(page)
    place.evaluate(AGAIN, [*run, COUNT])
    page.evaluate("() => performance.clearMarks()")
    after = heap(page)
    print({name: (first[name], after[name]) for name in first})
    assert after["JSHeapUsedSize"] - first["JSHeapUsedSize"] < 500_000
    assert after["Nodes"] - first["Nodes"] < 250
    assert after["JSEventListeners"] - first["JSEventListeners"] < 10


@pytest.mark.parametrize("name", ["pyodide.asm.wasm", pytest.param("python_stdlib.zip", marks=pytest.mark.long)])
def test_a_program_that_does_not_come_is_said(open_page: Open, watch: Watch, name: str) -> None:
    watch.expected.append("")  # whatever the runtime says of it

    def cut(page: Page) -> None:
        only_python(page)
        page.route(re.compile(name), lambda route: route.abort())

    page = open_page(path_of(SHEET), before=cut)
    place = section(page, SHEET)
    expect(place.locator("[data-state]")).to_contain_text("not started again", timeout=60000)
    expect_standing(place, "example")
    page.unroute_all()
