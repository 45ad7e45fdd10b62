"""A batch goes from phone to phone by codes on one screen and the camera of the other, a file, or a few typed signs."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from datetime import datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, Playwright, expect

from calculators.drawing.code import draw_frame
from calculators.drawing.elements import html
from tests.browser.book import PAGE, PUT, opened, stored
from tests.browser.camera import PLACE, film, filmed, picture, pictures, show
from tests.browser.conftest import DESK, PHONE, Open, Watch, engine_later, go, knows_the_pages
from tests.browser.faults import faults
from tests.browser.sheets import READY
from tests.browser.test_access import TARGET
from tests.daybook.book import line
from tests.safety import phrases

pytestmark = [pytest.mark.browser, pytest.mark.python_here, pytest.mark.further]
CODES = "records/by-codes/"
# All that the page said of codes while they were read.
NOTE = """() => {
  window.said = new Set();
  new MutationObserver(() => {
    for (const name of ["odd", "progress"]) window.said.add(document.querySelector(`[data-codes=${name}]`).textContent);
  }).observe(document.querySelector("section.day-book"), { subtree: true, childList: true, characterData: true });
}"""
HOSTILE = "<img src=x onerror=document.title='taken'>"


def with_two_batches(page: Page, address: str) -> None:
    """A device with a batch that has a hostile remark, and another one; at the page of codes."""
    now = f"{datetime.now():%Y-%m-%dT%H:%M}"
    begun = {"barley": "two-row", "lot": "3", "season": "2026", "barley_kg": "6000"}
    lines = [
        line("start", now, "78"),
        line("start", now, "77", **begun),
        line("stage-begun", now, "77", stage="wet"),
        line("remark", now, "77", remark=HOSTILE),
    ]
    page.evaluate(PUT, lines)
    page.goto(address + CODES)
    expect(page.locator("#give-what option")).to_have_count(3)


@pytest.fixture(scope="module")
def phone(browser: Browser, address: str) -> Iterator[Page]:
    """The device that gives; its engine comes once."""
    watch = Watch(address)
    page = watch.new_page(browser)
    engine_later(page)
    page.goto(address + PAGE)
    with_two_batches(opened(page), address)
    knows_the_pages(page)
    yield page
    page.context.close()
    watch.check()


@pytest.fixture
def giver(phone: Page, address: str) -> Page:
    """At the page of codes, which has just come."""
    phone.set_viewport_size(PHONE)
    for path in ("records/", CODES):
        go(phone, address + path)
    expect(phone.locator("#give-what option")).to_have_count(3)
    return phone


Taker = Callable[..., Page]


@pytest.fixture
def taker(playwright: Playwright, address: str) -> Iterator[Taker]:
    """Another device, whose camera shows a film: ``taker(file)``."""
    with ExitStack() as open_ones:

        def open_one(file: Path, path: str = CODES, expected: tuple[str, ...] = ()) -> Page:
            watch = Watch(address)
            watch.expected += expected
            page = watch.new_page(open_ones.enter_context(filmed(playwright, file)))
            open_ones.callback(watch.check)
            open_ones.callback(page.context.close)
            page.goto(address + path)
            return page

        yield open_one


def read_codes(page: Page) -> None:
    page.get_by_role("button", name="Read codes with the camera").click()
    expect(brought(page)).to_contain_text("All of it has come", timeout=3 * READY)


def brought(page: Page) -> Locator:
    return page.locator("[data-codes=brought]")


def without_order(page: Page) -> list[dict[str, object]]:
    return [{name: value for name, value in one.items() if name != "seq"} for one in stored(page)]


def test_what_is_not_of_this_transfer_is_told_and_left(giver: Page, taker: Taker, tmp_path: Path) -> None:
    """A link, a hostile text and the code of another batch lie between; all is read, and nothing of them is taken."""
    show(giver, "78")
    other = pictures(giver, 1)[:1]  # not the whole of it
    giver.get_by_role("button", name="Stop", exact=True).click()
    total = show(giver, "")
    ours = pictures(giver)
    strange = []
    for text in ("HTTPS://EXAMPLE.ORG/", HOSTILE):
        giver.locator(PLACE).evaluate("(place, svg) => { place.innerHTML = svg; }", html(draw_frame(text)))
        giver.set_viewport_size({"width": 640, "height": 480})
        giver.locator(PLACE).scroll_into_view_if_needed()
        strange.append(picture(giver))
    between = [*ours[:1] * 4, *strange * 2, *other * 3]  # twice, for a reader that is not there at once
    seen = [*between * 2, *ours]
    page = taker(film(seen, tmp_path / "film.y4m"))
    page.evaluate(NOTE)
    read_codes(page)
    told = " ".join(page.evaluate("() => [...window.said]"))
    assert "carries no lines of a day-book" in told
    assert "belongs to another transfer" in told
    if total > 1:
        assert re.search(rf"of {total} codes read. Still to come: ", told)
    page.get_by_role("button", name="Leave it").click()
    expect(page.locator("[data-daybook=state]")).to_have_text("Left. Nothing was changed.")
    assert stored(page) == []


def test_come_to_by_a_link_the_page_is_loaded_for_the_camera(giver: Page, taker: Taker, tmp_path: Path) -> None:
    """No other page may use the camera, and the theme brings pages in without loading them.

    What is here already is not doubled.
    """
    show(giver, "77")
    page = taker(film(pictures(giver), tmp_path / "film.y4m"), path="records/")
    assert page.evaluate("() => document.featurePolicy.allowsFeature('camera')") is False
    knows_the_pages(page)
    page.locator("article").get_by_role("link", name="From phone to phone").click()
    expect(page.locator("#give-what")).to_be_visible()
    loads: list[str] = []
    page.on("load", lambda _: loads.append(page.url))
    for new in (3, 0):
        read_codes(page)
        expect(brought(page)).to_contain_text(f"3 lines of batch 77, of which {new} new")
        if new:
            assert len(loads) == 1
            page.get_by_role("button", name="Take the 3 new lines into the book").click()
            expect(page.locator("[data-daybook=state]")).to_contain_text("3 lines taken")
    expect(brought(page)).to_contain_text("This book has every line of it already.")
    assert len(stored(page)) == 3
    assert len(loads) == 1


def test_without_leave_for_the_camera_a_file_is_the_way(giver: Page, open_page: Open, tmp_path: Path) -> None:
    giver.locator("#give-what").select_option("")
    with giver.expect_download(timeout=READY) as coming:
        giver.get_by_role("button", name="Save it as a file").click()
    file = tmp_path / coming.value.suggested_filename
    assert file.name.startswith("hand-over-")
    coming.value.save_as(file)
    page = open_page(CODES)
    page.get_by_role("button", name="Read codes with the camera").click()
    state = page.locator("[data-daybook=state]")
    expect(state).to_contain_text(re.compile("not allowed to use the camera|no camera"), timeout=READY)
    expect(state).to_contain_text("a file")
    expect(page.locator("video")).to_be_hidden()
    half = tmp_path / "half.json"
    half.write_bytes(file.read_bytes()[:-40])
    take = page.locator("section.day-book input[type=file]")
    take.set_input_files(half)
    expect(state).to_contain_text("Nothing was taken", timeout=READY)
    take.set_input_files(file)
    expect(brought(page)).to_contain_text("3 lines of batch 77, of which 3 new", timeout=READY)
    expect(brought(page)).to_contain_text("1 line of batch 78, of which 1 new")
    page.get_by_role("button", name="Take the 4 new lines").click()
    expect(state).to_contain_text("4 lines taken")
    assert without_order(page) == without_order(giver)


def test_an_address_without_https_says_why_there_is_no_camera(open_page: Open) -> None:
    insecure = "Object.defineProperty(window, 'isSecureContext', { value: false });"
    page = open_page(CODES, before=lambda one: one.add_init_script(insecure))
    page.get_by_role("button", name="Read codes with the camera").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("https://")


def test_codes_stand_still_where_less_motion_is_asked_for_and_go_at_a_pace(giver: Page) -> None:
    giver.emulate_media(reduced_motion="reduce")
    giver.locator("#give-what").select_option("")
    giver.get_by_role("button", name="Show the codes").click()
    place = giver.locator("[data-codes=place]")
    expect(place).to_contain_text("Code 1 of", timeout=READY)
    expect(giver.locator("[data-codes=pace]")).to_contain_text("less motion")
    giver.wait_for_timeout(1500)  # at its pace there would be another one every second
    expect(place).to_contain_text("Code 1 of")
    giver.get_by_role("button", name="Next code").click()
    expect(place).to_contain_text("Code 2 of")
    giver.get_by_role("button", name="Quicker").click()
    pace = giver.locator("[data-codes=pace]")
    for _ in range(6):
        giver.get_by_role("button", name="Quicker").click()
    expect(pace).to_contain_text("every 0.4 s")  # three flashes a second are the most: WCAG 2.2, 2.3.1
    expect(place).not_to_contain_text("Code 2 of", timeout=READY)
    for _ in range(6):
        giver.get_by_role("button", name="Slower").click()
    expect(pace).to_contain_text("every 3 s")
    giver.get_by_role("button", name="Stop", exact=True).click()
    expect(giver.locator(PLACE)).to_be_hidden()
    giver.emulate_media(reduced_motion="null")


def test_a_short_code_is_read_out_and_typed(giver: Page, open_page: Open) -> None:
    giver.locator("summary", has_text="A short code").click()
    giver.get_by_role("button", name="Short codes of the batches at work").click()
    code = giver.locator("[data-short='77']")
    expect(code).to_be_visible(timeout=READY)
    groups = code.inner_text().split()
    assert 5 <= len(groups) <= 10
    page = open_page(CODES)
    page.locator("summary", has_text="A short code").click()
    box, said = page.get_by_label("Short code from the other device"), page.locator("[data-codes=typed]")
    wrong = [*groups]
    wrong[2] = f"{wrong[2][:3]}{'3' if wrong[2][3] != '3' else '4'}"
    box.fill(" ".join(wrong).lower())
    box.press("Enter")
    expect(said).to_contain_text(f"Group 3, {wrong[2]}: it does not fit", timeout=READY)
    expect(box).to_have_value(" ".join(wrong).lower())
    box.fill("-".join(groups).lower())
    page.get_by_role("button", name="Read the short code").click()
    expect(said).to_contain_text("Batch 77: under water.", timeout=READY)
    expect(said).to_contain_text("Next line: Stage ended.")
    expect(said).to_contain_text("This book has no line of that batch")
    assert phrases.faults(phrases.shown(said.inner_html())) == []
    page.get_by_role("button", name="Keep it as a remark in the book").click()
    expect(said).to_contain_text("Written.")
    (kept,) = stored(page)
    assert (kept["kind"], kept["batch"]) == ("remark", "77") and "under water" in kept["remark"]


def test_the_page_fits_its_screen(giver: Page) -> None:
    show(giver, "")
    giver.locator("summary", has_text="A short code").click()
    for size in (DESK, PHONE):
        giver.set_viewport_size(size)
        giver.wait_for_function("width => document.scrollingElement.scrollWidth <= width", arg=size["width"])
        assert giver.locator("section.day-book").evaluate("(s, least) => helpers.small(s, least)", TARGET) == []
    assert faults(giver) == []


def test_the_hand_over_and_each_batch_lead_here(giver: Page, address: str) -> None:
    go(giver, f"{address}{PAGE}?batch=77")
    giver.get_by_role("link", name="Give this batch to another phone").click()
    expect(giver.locator("#give-what")).to_have_value("77", timeout=READY)
    go(giver, f"{address}records/hand-over/")
    giver.get_by_role("link", name="Give it to another phone, or take one").click()
    expect(giver.locator("#give-what")).to_have_value("", timeout=READY)
