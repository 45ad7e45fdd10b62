"""A first visit over a slow line: how much of how much has come, how long the rest takes, what to read meanwhile."""

from __future__ import annotations

import re
from itertools import pairwise
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from calculators.sheets import find_sheet
from tests.browser.conftest import PYTHON, Open, Watch, only_python
from tests.browser.sheets import READY, answer_from_example, expect_standing, path_of, section, type_in
from tests.browser.slow_line import slow_line

pytestmark = pytest.mark.browser
SHEET = find_sheet("moisture-target")
WAIT = re.compile(r"^Fetching the calculator: \d+\.\d of (\d\.\d) MB(, (about (\d+) s|a few seconds) left)?\. ")
NOTE = """() => {
  window.said = [];
  window.aloud = [];
  const note = (list, text) => { if (text && list.at(-1) !== text) list.push(text); };
  new MutationObserver(() => {
    note(window.said, document.querySelector("[data-state]")?.textContent);
    note(window.aloud, document.querySelector(".sheet-voice")?.textContent);
  }).observe(document, { subtree: true, childList: true, characterData: true });
}"""


def noted(page: Page, what: str) -> list[str]:
    found: list[str] = page.evaluate(f"() => window.{what}")
    return found


QUICKLY = 3  # times as fast as the clock, the line as well as the time in the worker that tells of it


def in_quick_time(page: Page) -> None:
    """Let the time of the worker run so; but for how long ago it began, which would be before the page."""

    def instead(route: Route) -> None:
        script = f"""const clock = performance.now.bind(performance);
            performance.now = () => {QUICKLY} * clock();
            const every = self.setInterval;
            self.setInterval = (work, ms) => every(work, ms / {QUICKLY});
            const post = self.postMessage.bind(self);
            self.postMessage = (text) => post(text.replace(/"all":[\\d.]+/, '"all":1'));"""
        route.fulfill(body=f"{script}\n{route.fetch().text()}", content_type="text/javascript")

    page.route(f"**{PYTHON}*", instead)


def test_a_slow_line_is_told_how_long(browser: Browser, address: str) -> None:
    server = urlsplit(address)
    assert server.port
    with slow_line(server.port, bytes_a_second=QUICKLY * 400_000, delay_s=0.1 / QUICKLY) as port:
        own = f"http://127.0.0.1:{port}{server.path}"
        watch = Watch(own)
        page = watch.new_page(browser)
        only_python(page)  # the small engine is too soon here to be told of
        in_quick_time(page)
        page.add_init_script(f"({NOTE})()")
        page.goto(own + path_of(SHEET))
        place = section(page, SHEET)
        expect(page.locator(".sheet-voice")).to_have_count(1)  # the page's script is there
        type_in(place, SHEET, {"barley_kg": "5000", "barley_moisture": "12", "target_moisture": "45"})
        line = place.locator("[data-state]")
        expect(line).to_contain_text(WAIT, timeout=READY)
        expect(line).to_be_in_viewport()
        meanwhile = line.get_by_role("link").first
        meanwhile.click()
        heading = page.get_by_role("heading", name="Worked example")
        expect(heading).to_be_in_viewport()
        expect(meanwhile).to_be_attached()  # it was not drawn anew under the finger
        expect_standing(place, "answered")
        expect(line).not_to_contain_text("MB")
        expect(line.get_by_role("link")).to_have_count(0)
        waits = [match for text in noted(page, "said") if (match := WAIT.match(text))]
        assert len(waits) > 5
        assert len({match[1] for match in waits}) == 1, "of how many megabytes has to be known from the beginning"
        seconds = [int(match[4]) for match in waits if match[4]]
        assert seconds and max(seconds) <= 30
        assert sum(after > before for before, after in pairwise(seconds)) <= 1
        aloud = [text for text in noted(page, "aloud") if "MB" in text]
        assert 1 <= len(aloud) <= 3, "who listens is told now and then"
        page.context.close()
        watch.check()


def test_a_quick_line_is_told_nothing_of_it(open_page: Open) -> None:
    page = open_page(path_of(SHEET), before=lambda page: page.add_init_script(f"({NOTE})()"))
    answer_from_example(page, SHEET)
    assert [text for text in noted(page, "said") if "MB" in text] == []
