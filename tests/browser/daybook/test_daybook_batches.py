"""Batches read by Python in the page: the invented year walked through, sheets opened from a batch, the look back."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.book import PAGE, begin, drawn, line, opened, stored
from tests.browser.conftest import DESK, PHONE, PYTHON, Open, Watch, go
from tests.browser.engine.engines import line as poor_line
from tests.browser.faults import faults
from tests.browser.sheets import READY
from tests.browser.test_access import TARGET
from tests.safety import phrases

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
BACK = "records/looking-back/"
FAULTY = "example-07"  # its empty basket is written too light
FOLLOWS = 4  # of two elements, by the standard of documents
WALK = 2 * READY  # the first look at a book works out the fits of its batches


# Where the first button stands in the last frame before what comes of a line is said, and in the next one.
WATCHED = """() => {
  const seen = () => document.querySelector(".written-next") !== null;
  const top = () => document.querySelector(".entry-all [data-kind-of-entry]").getBoundingClientRect().top;
  globalThis.stood = { gone: false, before: null, after: null };
  const look = () => {
    if (!seen()) stood.gone = true;
    if (stood.gone && !seen()) stood.before = top();
    else if (stood.gone) stood.after = top();
    if (stood.after === null) requestAnimationFrame(look);
  };
  look();
}"""


def load_demo(page: Page) -> None:
    page.locator("details.day-book-files summary").click()
    page.get_by_role("button", name="Load the demo year").click()
    expect(page.locator("[data-place=batches] table a")).to_have_count(14, timeout=WALK)


def said(page: Page) -> str:
    text: str = page.locator("section.day-book").inner_html()
    return phrases.shown(text)


def expect_fit_for_everyone(page: Page) -> None:
    """Expect no word or thing that may not stand there, on a desk's screen and on a phone's."""
    assert phrases.faults(said(page)) == []
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        page.wait_for_function("width => document.scrollingElement.scrollWidth <= width", arg=size["width"])
        section = page.locator("section.day-book")
        assert section.evaluate("(section, least) => helpers.small(section, least)", TARGET) == []
    assert faults(page) == []


@pytest.mark.further
def test_the_invented_year_walked_through(visit: Open, address: str, tmp_path: Path) -> None:
    page = opened(visit(PAGE))
    load_demo(page)
    expect(page.locator("[data-demo-only]")).to_contain_text("INVENTED")
    assert stored(page) == [], "invented lines among one's own"
    assert len(stored(page, demo=True)) > 400

    page.locator(f"[data-place=batches] a[data-batch={FAULTY}]").click()
    expect(drawn(page).nth(20)).to_be_visible(timeout=WALK)
    assert page.url.endswith(f"?batch={FAULTY}&book=demo")
    expect(page.locator("[data-place=checks]")).to_contain_text("empty basket")  # the fault that is to be found
    for name in ("next", "lines", "course", "fit"):
        expect(page.locator(f"[data-place={name}]")).to_contain_text("INVENTED")
    expect(page.locator("[data-place=next] .hazard")).to_be_visible()
    expect(page.locator("[data-place=course] svg").first).to_be_visible()
    gas = page.locator("[data-place=lines] tr", has_text="Gas reading")
    expect(gas.first).to_be_visible()
    assert gas.locator(".line-fault, strong, mark").count() == 0
    expect_fit_for_everyone(page)

    go(page, f"{address}{BACK}?book=demo")
    expect(page.locator("[data-place=table]")).to_contain_text("What was off", timeout=WALK)
    expect(page.locator("[data-place=table]")).to_contain_text("INVENTED")
    expect(page.locator("[data-place=charts] svg").first).to_be_visible()
    page.get_by_label("Batch set against").select_option("example-05")
    expect(page.locator("[data-place=table]")).to_contain_text("Batch example-05 against", timeout=READY)
    expect(page.locator("[data-place=fits] table").first).to_be_visible(timeout=WALK)
    expect_fit_for_everyone(page)
    expect(page.locator("[data-place=table] a[href*='day-book/?batch=']").first).to_be_visible()
    with page.expect_download() as coming:
        page.get_by_role("button", name="Save the fits").click()
    assert coming.value.suggested_filename.endswith(".json")

    go(page, f"{address}{PAGE}?book=demo")
    opened(page)
    page.locator("details.day-book-files summary").click()
    page.get_by_role("button", name="Remove the demo book").click()
    page.get_by_role("button", name="press again").click()
    expect(page.locator("[data-demo-only]")).to_be_hidden()
    assert stored(page, demo=True) == []


def test_a_sheet_opened_from_a_batch_has_its_numbers_and_its_answer_is_kept(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(page, "77/a b", barley_kg="5000", barley_moisture="12,5", target_moisture="44")
    link = page.locator("[data-place=sheets] a[href*='moisture-target']")
    expect(link).to_be_visible(timeout=WALK)
    link.click()
    sheet = page.locator("section.sheet[data-sheet=moisture-target]")
    for question, text in (("barley_kg", "5000"), ("barley_moisture", "12,5"), ("target_moisture", "44")):
        expect(sheet.locator(f"[data-question={question}] input")).to_have_value(text)
    sheet.locator("[data-question=target_moisture] input").fill("43")  # the address loses its numbers, not its batch
    expect(sheet.locator("[data-results]:not([data-waiting])")).to_have_attribute(
        "data-standing", "answered", timeout=READY
    )
    lead = sheet.locator(".answer.lead .figure").first.inner_text().split()[0]
    sheet.get_by_role("button", name="Keep with batch 77/a b").click()
    expect(sheet.locator("[data-state]")).to_contain_text("Kept with batch")
    page.get_by_role("link", name="Back to batch 77/a b").click()
    expect(drawn(page)).to_have_count(2, timeout=READY)
    entry = stored(page)[-1]
    assert (entry["kind"], entry["batch"], entry["values"]["sheet"]) == ("answer", "77/a b", "moisture-target")
    assert lead in entry["values"]["answers"]
    assert entry["values"]["link"].startswith("calculators/moisture-target/?sheet=moisture-target&")
    drawn(page).last.locator("a").click()
    expect(sheet.locator("[data-question=target_moisture] input")).to_have_value("43")


def test_an_example_is_not_kept_and_a_guarded_sheet_offers_nothing(visit: Open) -> None:
    page = visit("calculators/moisture-target/?batch=77")
    page.get_by_role("button", name="Keep with batch 77").click()
    expect(page.locator("[data-state]")).to_contain_text("no answer of your own")
    page.goto(page.url.replace("moisture-target", "gas-build-up"))
    expect(page.get_by_role("link", name="Back to batch 77")).to_be_visible()
    assert page.get_by_role("button", name=re.compile("Keep with")).count() == 0


def test_what_comes_of_a_line_is_said_beside_it_in_view(visit: Open) -> None:
    """On a phone the next step lies far above the buttons by which a line is written."""
    page = opened(visit(PAGE))
    page.set_viewport_size(PHONE)
    begin(page, "77", barley_kg="5000", barley_moisture="12.5", target_moisture="44")
    for kind, values in (("stage-begun", {"stage": "wet"}), ("stage-ended", {"ended": "drained"}), ("cast", {})):
        line(page, kind, **values)
    state = page.locator("[data-daybook=state]")
    expect(state).to_contain_text("Next: ", timeout=WALK)
    page.evaluate(WATCHED)
    line(page, "moisture", moisture="39", method="oven")
    page.wait_for_function("() => stood.after !== null")
    stood = page.evaluate("() => stood")
    assert stood["after"] == pytest.approx(stood["before"], abs=2), "the buttons moved from under the finger"
    expect(state.locator(".stop-said")).to_contain_text("Next: Past a stop. Cast at 39 %", timeout=READY)
    expect(state.locator(".stop-said")).to_be_in_viewport()
    expect(state.get_by_role("button", name="Correct it")).to_be_in_viewport()


def test_until_the_calculator_has_come_the_receipt_says_what_is_still_to_come(open_page: Open) -> None:
    """On a slow line it comes half a minute after the line was written, or not at all."""
    held: list[Route] = []
    page = opened(open_page(PAGE, lambda page: page.route(f"**{PYTHON}*", lambda route: held.append(route))))
    begin(page, "77", barley_kg="5000", barley_moisture="12.5", target_moisture="44")
    state = page.locator("[data-daybook=state]")
    expect(state.locator(".written-to-come")).to_contain_text("as soon as the calculator has come")
    line(page, "stage-begun", stage="wet")
    expect(state.locator(".written-to-come")).to_have_count(1)
    expect(state).to_be_in_viewport(ratio=1)
    page.locator("#what-now summary").click()  # what the words name does work without it
    expect(page.locator("#what-now").get_by_role("button").first).to_be_visible()
    page.locator("#what-now summary").click()
    held[0].continue_()
    expect(state.locator(".written-next")).to_contain_text("Next: ", timeout=WALK)
    expect(state.locator(".written-to-come")).to_have_count(0)


def test_on_a_poor_line_the_receipt_names_the_box_that_fetches_the_calculator(open_page: Open) -> None:
    page = opened(open_page(PAGE, poor_line(saveData=False, effectiveType="2g")))
    page.set_viewport_size(PHONE)
    begin(page, "77", barley_kg="5000", barley_moisture="12.5", target_moisture="44")
    state = page.locator("[data-daybook=state]")
    line(page, "stage-begun", stage="wet")
    expect(state.locator(".written-to-come")).to_contain_text("the box at the top of the page fetches")
    box = page.locator(".more-offer")
    assert box.evaluate("(box) => box.compareDocumentPosition(document.querySelector('section.day-book'))") & FOLLOWS
    box.get_by_role("button", name="Fetch it").click()
    expect(state.locator(".written-next")).to_contain_text("Next: ", timeout=WALK)
    expect(state.locator(".written-to-come")).to_have_count(0)


def test_where_the_calculator_cannot_start_the_receipt_says_so(open_page: Open, watch: Watch) -> None:
    watch.expected += ["net::ERR_FAILED", "script fault"]
    page = opened(open_page(PAGE, lambda page: page.route(f"**{PYTHON}*", lambda route: route.abort())))
    begin(page, "77", barley_kg="5000", barley_moisture="12.5", target_moisture="44")
    state = page.locator("[data-daybook=state]")
    expect(state).to_contain_text("What comes next is not worked out: see below.", timeout=READY)
    expect(page.locator("[data-daybook=engine]")).to_contain_text("The calculator could not start")


def test_the_next_step_stands_at_the_top_with_its_gas_box(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(
        page,
        "77",
        barley="two-row",
        lot="lot 3",
        season="2026",
        barley_kg="5000",
        barley_moisture="12.5",
        target_moisture="44",
        water_temp_c="14",
    )
    line(page, "stage-begun", stage="wet")
    next_step = page.locator("[data-place=next]")
    expect(next_step).to_contain_text(re.compile(r"[Dd]rain"), timeout=WALK)
    expect(next_step.locator(".hazard-danger")).to_contain_text("carbon dioxide")
    likely = page.locator(".entry-likely button")
    expect(likely.first).to_be_visible()
    box, all_kinds = next_step.bounding_box(), page.locator(".entry-all").bounding_box()
    assert box and all_kinds and box["y"] < all_kinds["y"]
    likely.filter(has_text="Stage ended").click()
    expect(page.locator(".entry-sheet h3")).to_have_text("Stage ended")


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="Debian's poppler-utils reads the paper back")
def test_the_complete_record_on_a4(visit: Open, tmp_path: Path) -> None:
    page = opened(visit(PAGE))
    load_demo(page)
    page.evaluate("() => { window.print = () => {}; }")
    page.locator("[data-place=batches] a[data-batch=example-08]").click()
    rows = drawn(page)
    expect(rows.nth(20)).to_be_visible(timeout=WALK)
    page.get_by_role("button", name="Print the record").click()  # before Python has written it out
    expect(page.locator("body.prints-batch")).to_have_count(1, timeout=READY)
    file = tmp_path / "record.pdf"
    page.pdf(path=str(file), prefer_css_page_size=True)
    text = subprocess.run(["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True).stdout
    size = subprocess.run(["pdfinfo", str(file)], capture_output=True, text=True, check=True).stdout
    assert "A4" in size
    assert text.startswith("INVENTED") and "Batch example-08" in text
    times = [one.inner_text() for one in rows.locator(".time").all()]
    assert re.findall(r"(?m)^ *(\d\d:\d\d)\b", text) == times, "a line is missing on paper"
    for words in ("Write a line", "Correct", "Save the book", "Search", "How it is kept"):
        assert words not in text
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    assert page.locator("body.prints-batch").count() == 0
