"""Python from the page's side: started when needed, kept, stopped, started again."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Error, Locator, Page, Route, Worker, expect

from calculators.sheets import find_sheet
from tests.browser.conftest import DESK, Open, Watch, go, is_engine, is_python, only_python
from tests.browser.engine.stood_in import STAND_IN, in_place_of_python
from tests.browser.sheets import (
    READY,
    answer_from_example,
    expect_standing,
    kept_on_device,
    path_of,
    places,
    section,
    type_in,
)

pytestmark = pytest.mark.browser
SHEET = find_sheet("moisture-target")


def stand_in(page: Page, calculators: str = "") -> None:
    """Have Python stood in for; with the mark of the page's own calculators, or with another."""
    only_python(page)
    in_place_of_python(page, STAND_IN.read_text("utf-8"), calculators)


def note_engines(page: Page, started: list[Worker]) -> None:
    """Put every Python that the page starts from now on into the list."""
    page.on("worker", lambda worker: started.append(worker) if is_python(worker) else None)


def weight(place: Locator) -> Locator:
    return place.get_by_label("Barley weight").first


def expect_figure(place: Locator, typed: str) -> None:
    """Expect the stand-in's answer to what was typed."""
    expect(place.locator(".figure").first).to_have_text(re.compile(rf"^{typed} "))


def opened(open_page: Open, before: Callable[[Page], None] = stand_in) -> tuple[Page, Locator, list[Worker]]:
    workers: list[Worker] = []

    def prepare(page: Page) -> None:
        note_engines(page, workers)
        before(page)

    page = open_page(path_of(SHEET), before=prepare)
    return page, section(page, SHEET), workers


IDLE_AT_ONCE = """window.idled = 0;
window.requestIdleCallback = (work) => setTimeout(() => { work(); window.idled += 1; });"""


def test_pages_without_a_sheet_start_nothing(open_page: Open, watch: Watch, address: str) -> None:
    asked: list[str] = []
    page = open_page("", before=lambda page: page.add_init_script(IDLE_AT_ONCE))
    page.on("request", lambda request: asked.append(request.url))
    page.wait_for_function("() => window.idled")
    page.wait_for_timeout(300)
    assert not watch.workers
    assert not [url for url in asked if "/runtime/" in url]
    with page.expect_event("worker", is_engine):
        page.goto(address + path_of(SHEET))


def test_the_engine_starts_by_itself_and_lives_on_from_page_to_page(open_page: Open, address: str) -> None:
    workers: list[Worker] = []

    def before(page: Page) -> None:
        only_python(page)  # the other is up before its steps can be read, and answers in its stead
        note_engines(page, workers)

    page = open_page(path_of(SHEET), before=before, viewport=DESK)
    expect(page.locator("[data-state]").first).to_contain_text("…")  # which step it is at
    page.evaluate("() => { window.sameVisit = true; }")
    answer_from_example(page, SHEET)
    for other in map(find_sheet, ("corn-weight", "sample-basket")):
        go(page, address + path_of(other))
        answer_from_example(page, other)
    assert page.evaluate("() => window.sameVisit") is True
    assert len(workers) == 1


def test_the_newest_of_many_changes_is_answered_one_at_a_time(open_page: Open) -> None:
    page, place, workers = opened(open_page)
    weight(place).fill("held")
    while not (workers and workers[0].evaluate("() => Boolean(self.answer)")):
        page.wait_for_timeout(50)
    weight(place).evaluate("box => helpers.typeOften(box, 'new', 12, 70)")
    workers[0].evaluate("() => self.answer()")
    expect_figure(place, "new11")
    _, asked, most = place.locator(".figure").inner_text().split()
    assert int(most) == 1, "more than one request was under way"
    assert int(asked) == 2, "changes that were overtaken were asked for as well"


def test_typed_before_the_engine_is_up_is_answered_then(open_page: Open) -> None:
    page, place, _ = opened(open_page, before=only_python)
    answer_from_example(page, SHEET)
    expect(place.locator("progress")).to_be_hidden()


def test_stop_ends_the_work_and_keeps_what_was_typed(open_page: Open) -> None:
    _, place, workers = opened(open_page)
    stop = place.locator("[data-action=stop]")
    expect(stop).to_be_hidden()
    weight(place).fill("hang")
    stop.click()
    expect(place.locator("[data-state]")).to_contain_text("Stopped")
    expect(weight(place)).to_have_value("hang")
    again = place.get_by_role("button", name="Work it out again")
    expect(again).to_be_in_viewport()
    weight(place).fill("5")
    expect(again).to_have_count(0)
    expect_figure(place, "5")
    assert len(workers) == 2


def test_a_hang_is_ended_after_the_limit_that_the_page_names(open_page: Open) -> None:
    def before(page: Page) -> None:
        page.clock.install()
        stand_in(page)

    page, place, workers = opened(open_page, before)
    weight(place).fill("7")
    expect_standing(place, "answered")
    weight(place).fill("hang")
    expect(place.locator("[data-results][data-waiting]")).to_have_attribute("data-standing", "old")
    page.clock.fast_forward(8_000)
    assert "limit" not in place.locator("[data-state]").inner_text()
    page.clock.fast_forward(2_500)
    expect(place.locator("[data-state]")).to_contain_text("10 seconds")
    weight(place).fill("5")
    expect_standing(place, "answered")
    assert len(workers) == 2


def test_what_says_how_far_it_is_does_not_hang_and_can_be_stopped_in_view(open_page: Open) -> None:
    def before(page: Page) -> None:
        page.clock.install()
        stand_in(page)

    page, place, workers = opened(open_page, before)
    weight(place).fill("7")
    expect_standing(place, "answered")
    weight(place).fill("slow")
    page.wait_for_timeout(300)  # until it is asked
    page.clock.fast_forward(8_000)
    expect(place.locator("[data-state]")).to_contain_text("Still at it")
    expect(place.get_by_role("progressbar")).to_have_attribute("value", "40")
    stop = place.locator("[data-action=stop]")
    expect(stop).to_be_in_viewport(ratio=1)
    page.clock.fast_forward(8_000)
    expect_figure(place, "slow")
    expect(stop).to_be_hidden()
    assert len(workers) == 1


def test_a_worker_that_dies_is_started_again_and_answers(open_page: Open) -> None:
    page, place, workers = opened(open_page)
    weight(place).fill("5")
    expect_figure(place, "5")
    workers[0].evaluate("() => { setTimeout(() => { throw new Error('pulled the plug'); }, 0); }")
    page.wait_for_timeout(50)
    weight(place).fill("7")
    expect_figure(place, "7")
    assert len(workers) == 2


def test_what_two_workers_die_of_is_said_and_a_third_answers_the_rest(open_page: Open) -> None:
    _, place, workers = opened(open_page)
    weight(place).fill("die")
    expect(place.locator("[data-state]")).to_contain_text("stopped twice")
    expect(place.locator("[data-results]")).to_have_attribute("data-standing", "example")
    expect(place.locator(".answer").first).to_be_visible()
    weight(place).fill("5")
    expect_figure(place, "5")
    expect(place.locator("[data-action=try-again]")).to_have_count(0)
    assert len(workers) == 3


def test_an_engine_that_cannot_be_fetched_is_said(open_page: Open, watch: Watch) -> None:
    watch.expected += [
        "Failed to load resource",
        "could not be fetched",
        "wasm instantiation failed",
        "TypeError",
        "Error",
    ]

    def cut(page: Page) -> None:
        only_python(page)
        page.route(re.compile(r"/app/calculators"), lambda route: route.abort())

    page, place, _ = opened(open_page, before=cut)
    type_in(place, SHEET, {"barley_kg": "5000"})
    expect(place.locator("[data-state]")).to_contain_text("not started again", timeout=READY)
    expect(place.locator("[data-results]")).to_have_attribute("data-standing", "example")
    expect(weight(place)).to_have_value("5000")
    page.unroute_all()


def test_a_fault_of_one_request_is_said_and_the_next_is_answered(open_page: Open) -> None:
    _, place, workers = opened(open_page)
    weight(place).fill("fault")
    expect(place.locator("[data-state]")).to_contain_text("met a fault")
    weight(place).fill("5")
    expect_figure(place, "5")
    assert len(workers) == 1


def guarded(page: Page) -> None:
    stand_in(page)

    def changed(route: Route) -> None:
        try:
            reply = route.fetch()
            text = reply.text()
        except Error:
            return  # the page was left meanwhile
        route.fulfill(response=reply, body=text.replace('data-guarded="no"', 'data-guarded="yes"'))

    page.route(re.compile(rf"/{SHEET.id}/"), changed)


def test_a_guarded_sheet_blanks_an_old_answer_and_keeps_nothing(open_page: Open) -> None:
    page, place, _ = opened(open_page, before=guarded)
    weight(place).fill("5")
    expect_standing(place, "answered")
    weight(place).fill("hang")
    expect(place.locator("[data-results][data-waiting]")).to_have_attribute("data-standing", "blank")
    assert not any(places(place).values())
    place.locator("[data-action=stop]").click()
    weight(place).fill("6")
    expect_standing(place, "answered")
    weight(place).fill("bad")
    expect_standing(place, "blank")
    assert not any(places(place).values())
    assert kept_on_device(page) == {}
    page.reload()
    expect(weight(place)).to_have_value("")
