"""Numbers that were typed elsewhere: offered, marked, taken out in one tap, and never where they may not stand."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.book import START, begin, line, opened, stored
from tests.browser.conftest import Open, Watch, only_small
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
CLOCK = r"(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d{1,2} [A-Z][a-z]{2} \d\d:\d\d"
HOUR_MS = 3_600_000


def sheet(page: Page) -> Locator:
    return page.locator("section.sheet").first


def field(page: Page, question: str) -> Locator:
    return sheet(page).locator(f"[data-question={question}]")


def box(page: Page, question: str) -> Locator:
    return field(page, question).locator("input").first


def mark(page: Page, question: str) -> Locator:
    return field(page, question).locator(".lent-mark")


def go(page: Page, address: str, path: str) -> Page:
    """Follow a link of the site, as a reader does."""
    page.evaluate("target => helpers.follow(target)", address + path)
    expect(page.locator("main[data-left]")).to_have_count(0)
    expect(page).to_have_url(re.compile(path.split("?")[0]))
    return page


def typed(page: Page, **values: str) -> None:
    """Type into a sheet and leave the last box."""
    sheet(page).locator("details").evaluate_all("all => all.forEach((more) => { more.open = true; })")
    for question, text in values.items():
        box(page, question).fill(text)
    page.evaluate("() => document.activeElement.blur()")


def kept(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate(
        "() => JSON.parse(Object.entries(localStorage).find(([key]) => key.endsWith('shared-questions'))?.[1] ?? '{}')"
    )
    return found


def move_back(page: Page, hours: float) -> None:
    """Let what is kept be so much older."""
    page.evaluate(
        """(ms) => {
          const key = Object.keys(localStorage).find((name) => name.endsWith('shared-questions'));
          const all = JSON.parse(localStorage.getItem(key));
          for (const one of Object.values(all)) one.at -= ms;
          localStorage.setItem(key, JSON.stringify(all));
        }""",
        hours * HOUR_MS,
    )


def wait_kept(page: Page, *names: str) -> None:
    page.wait_for_function(
        "names => { const kept = Object.entries(localStorage).find(([key]) => key.endsWith('shared-questions'));"
        " return kept && names.every((name) => name in JSON.parse(kept[1])); }",
        arg=list(names),
    )


def test_typed_once_offered_in_the_next_sheet_and_out_in_one_tap(visit: Open, address: str) -> None:
    page = visit("calculators/sample-basket/")
    typed(page, barley_moisture="12,7", target_moisture="44")
    wait_kept(page, "barley_moisture", "target_moisture")
    go(page, address, "calculators/steep-timing/")
    expect(box(page, "barley_moisture")).to_have_value("12,7")
    expect(mark(page, "barley_moisture")).to_have_text(re.compile(rf"From Steep basket, {CLOCK}\."))
    expect(box(page, "target_moisture")).to_have_value("44")
    expect(mark(page, "water_temp_c")).to_have_count(0)
    field(page, "barley_moisture").get_by_role("button", name="Take it out").click()
    expect(box(page, "barley_moisture")).to_have_value("")
    expect(mark(page, "barley_moisture")).to_have_count(0)
    # typed over it is the reader's own
    box(page, "target_moisture").fill("45")
    expect(mark(page, "target_moisture")).to_have_count(0)


def test_an_answer_that_rests_on_a_lent_number_says_so(visit: Open, address: str) -> None:
    page = visit("calculators/sample-basket/")
    typed(page, barley_moisture="12.5")
    wait_kept(page, "barley_moisture")
    go(page, address, "calculators/moisture-target/")
    expect(box(page, "barley_moisture")).to_have_value("12.5")
    typed(page, barley_kg="6000", target_moisture="45")
    lead = sheet(page).locator(".answer.lead .lent").first
    expect(lead).to_have_text(
        re.compile(r"Rests on what was not typed here: barley moisture \(Steep basket"), timeout=READY
    )
    box(page, "barley_moisture").fill("12.6")
    expect(sheet(page).locator(".answer .lent")).to_have_count(0, timeout=READY)


def test_an_answer_goes_on_to_the_sheet_that_asks_for_it(visit: Open, address: str) -> None:
    page = visit("calculators/sample-basket/")
    typed(page, basket_g="84", sample_g="100", barley_moisture="12", gross_now_g="230", target_moisture="45")
    field(page, "drained").locator("input[value=drained]").check()
    wait_kept(page, "moisture_drained")
    go(page, address, "calculators/cast-decision/")
    expect(box(page, "moisture_drained")).to_have_value(re.compile(r"^4\d\.\d$"))
    expect(mark(page, "moisture_drained")).to_contain_text("Steep basket, its answer")


@pytest.mark.parametrize(("hours", "offered"), [(11.9, True), (12.1, False)])
def test_it_lapses_after_twelve_hours(visit: Open, address: str, hours: float, offered: bool) -> None:
    page = visit("calculators/sample-basket/")
    typed(page, barley_moisture="12.7")
    wait_kept(page, "barley_moisture")
    move_back(page, hours)
    go(page, address, "calculators/steep-plan/")
    expect(sheet(page).locator("[data-question]").first).to_be_visible()
    page.wait_for_timeout(500)
    expect(box(page, "barley_moisture")).to_have_value("12.7" if offered else "")


def test_another_barley_takes_out_what_belonged_to_the_earlier_one(visit: Open, address: str) -> None:
    page = visit("calculators/sample-basket/")
    typed(page, barley_moisture="12.7", basket_g="84", target_moisture="44")
    wait_kept(page, "barley_moisture", "basket_g", "target_moisture")
    go(page, address, "calculators/steep-timing/")
    expect(box(page, "target_moisture")).to_have_value("44")
    typed(page, barley_moisture="14.1")
    expect(box(page, "target_moisture")).to_have_value("")
    expect(sheet(page).locator("[data-state]")).to_contain_text("Another barley")
    assert set(kept(page)) == {"barley_moisture"}
    assert kept(page)["barley_moisture"]["value"] == "14.1"


def test_sheets_on_safety_take_nothing_and_give_nothing(visit: Open, address: str) -> None:
    page = visit("calculators/moisture-target/")
    typed(page, barley_kg="6100")
    wait_kept(page, "barley_kg")
    before = kept(page)
    go(page, address, "calculators/drum-fill/")
    page.wait_for_timeout(500)
    expect(box(page, "barley_kg")).to_have_value("")
    typed(page, barley_kg="7000")
    go(page, address, "calculators/malting-loss/")
    expect(box(page, "barley_kg")).not_to_have_value("7000")
    assert kept(page) == before


def test_only_a_whole_one_of_two_ways_is_offered(visit: Open, address: str) -> None:
    page = visit("calculators/moisture-target/")
    typed(page, barley_moisture="12.7")
    wait_kept(page, "barley_moisture")
    go(page, address, "calculators/sprinkling/")  # the bed's weight, or the barley's weight with its moisture
    page.wait_for_timeout(500)
    expect(box(page, "barley_moisture")).to_have_value("")
    go(page, address, "calculators/moisture-target/")
    expect(box(page, "barley_moisture")).to_have_value("12.7")  # its script is there
    typed(page, barley_kg="6000")
    wait_kept(page, "barley_kg")
    go(page, address, "calculators/sprinkling/")
    expect(box(page, "barley_kg")).to_have_value("6000")
    box(page, "bed_kg").fill("9000")
    expect(box(page, "barley_kg")).to_have_value("")
    expect(box(page, "barley_moisture")).to_have_value("")


def test_now_puts_the_clock_in(visit: Open) -> None:
    page = visit("calculators/steep-timing/")
    field(page, "start").get_by_role("button", name="now").click()
    expect(box(page, "start")).to_have_value(re.compile(r"^20\d\d-\d\d-\d\d \d\d:\d\d$"))


def test_a_sheet_has_the_numbers_of_the_running_batch(visit: Open, address: str) -> None:
    page = opened(visit(DAY_BOOK))
    begin(page, "77", **START)
    line(page, "basket", gross_g="190")
    go(page, address, "calculators/sample-basket/")
    expect(sheet(page).locator(".batch-line")).to_contain_text("Back to batch 77", timeout=READY)
    for question, text in (("basket_g", "84"), ("barley_moisture", "12.5"), ("gross_now_g", "190")):
        expect(box(page, question)).to_have_value(text)
    expect(mark(page, "barley_moisture")).to_have_text(re.compile(rf"The book’s: batch 77, batch begun, {CLOCK}\."))
    expect(mark(page, "gross_now_g")).to_contain_text("basket weighed")
    expect(sheet(page).locator(".answer .lent").first).to_contain_text("batch 77", timeout=READY)
    box(page, "gross_now_g").fill("215")
    expect(mark(page, "gross_now_g")).to_contain_text("Changed for this answer only. The book has 190.")
    page.reload()
    expect(box(page, "gross_now_g")).to_have_value("190", timeout=READY)  # for this answer only
    box(page, "gross_now_g").fill("215")
    field(page, "gross_now_g").get_by_role("button", name="Put it back").click()
    expect(box(page, "gross_now_g")).to_have_value("190")
    sheet(page).get_by_role("button", name="Without them").click()
    expect(box(page, "gross_now_g")).to_have_value("")
    expect(box(page, "barley_moisture")).to_have_value("")
    go(page, address, "calculators/gas-build-up/")
    page.wait_for_timeout(500)
    expect(box(page, "barley_kg")).to_have_value("")
    go(page, address, DAY_BOOK)
    assert [one["kind"] for one in stored(page)] == ["start", "basket"], "a sheet wrote into the book"


def test_of_several_batches_at_work_none_is_guessed(visit: Open, address: str) -> None:
    page = opened(visit(DAY_BOOK))
    begin(page, "77", **START)
    page.get_by_role("link", name="All batches").click()
    begin(page, "78", **{**START, "barley_moisture": "13.5"})
    go(page, address, "calculators/moisture-target/")
    row = sheet(page).locator(".batch-line")
    expect(row.get_by_role("button")).to_have_count(2, timeout=READY)
    expect(box(page, "barley_moisture")).to_have_value("")
    row.get_by_role("button", name="78").click()
    expect(box(page, "barley_moisture")).to_have_value("13.5")
    go(page, address, "calculators/steep-plan/")  # the one chosen stays at hand
    expect(box(page, "barley_moisture")).to_have_value("13.5", timeout=READY)
    sheet(page).locator(".batch-line").get_by_role("button", name="77").click()
    expect(box(page, "barley_moisture")).to_have_value("12.5")


@pytest.mark.python_here(False)
def test_what_a_batch_lent_is_there_before_python(open_page: Open, address: str, watch: Watch) -> None:
    watch.expected.append("Failed to load resource")
    page = opened(open_page(DAY_BOOK))
    begin(page, "77", **START)
    line(page, "basket", gross_g="190")
    go(page, address, "calculators/sample-basket/")
    expect(box(page, "gross_now_g")).to_have_value("190", timeout=READY)
    page.wait_for_timeout(500)  # until it is kept
    only_small(page)
    page.reload()
    expect(box(page, "gross_now_g")).to_have_value("190")
    expect(mark(page, "gross_now_g")).to_contain_text("basket weighed")


@pytest.mark.python_here(False)
def test_where_python_is_not_fetched_the_reader_is_asked_for_what_the_book_lends(open_page: Open, address: str) -> None:
    page = opened(open_page(DAY_BOOK))
    begin(page, "77", **START)
    page.evaluate(
        "() => localStorage.removeItem([...Object.keys(localStorage)].find((key) => key.endsWith('fetched')))"
    )
    page.add_init_script(
        "Object.defineProperty(Navigator.prototype, 'connection', { get: () => ({ saveData: true }) })"
    )
    page.goto(f"{address}calculators/sample-basket/")
    row = sheet(page).locator(".batch-line")
    expect(row).to_contain_text("this page needs")
    box(page, "basket_g").fill("84")
    expect(page.locator(".more-offer")).to_have_count(1)
    row.get_by_role("button", name="Fetch it").click()
    expect(row).to_contain_text("77", timeout=READY)
    expect(row).not_to_contain_text("needs")
