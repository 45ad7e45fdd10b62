"""Each kind of control does its job when it is touched at its centre; nothing helps the finger find it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.book import opened
from tests.browser.conftest import DESK, Open, knows_the_pages, lasting_page, without_engine

pytestmark = pytest.mark.browser
SHEET = "calculators/moisture-target/"
ROWS = "calculators/steep-timing/"


@pytest.fixture(scope="module")
def phone(browser: Browser, address: str) -> Iterator[Page]:
    with lasting_page(browser, address, has_touch=True) as page:
        page.add_init_script("window.print = () => { window.printed = true; };")
        yield page


@pytest.fixture
def at(phone: Page, address: str) -> Any:
    """Go to a page of the site, as a new visit to a device that keeps nothing."""

    devtools = phone.context.new_cdp_session(phone)

    def go(path: str) -> Page:
        phone.goto("about:blank")
        devtools.send("Storage.clearDataForOrigin", {"origin": address.rstrip("/"), "storageTypes": "local_storage"})
        phone.goto(address + path)
        expect(phone.locator(".offline-line a")).to_be_attached()  # the last that a page's script draws
        knows_the_pages(phone)
        return phone

    yield go
    devtools.detach()


def centre(control: Locator) -> tuple[float, float]:
    control.scroll_into_view_if_needed()
    box = control.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def tap(control: Locator) -> None:
    """Touch the glass at the middle of a control, whatever lies there."""
    control.page.touchscreen.tap(*centre(control))


def press(control: Locator) -> None:
    control.page.mouse.click(*centre(control))


def at_rest(page: Page) -> None:
    """Wait until nothing slides."""
    page.wait_for_function("() => document.getAnimations().every(one => one.playState === 'finished')")


def button(place: Page | Locator, name: str) -> Locator:
    return place.get_by_role("button", name=re.compile(name))


def test_the_menu_opens_and_an_entry_of_it_leads_on(at: Any) -> None:
    page = at("")
    menu = page.locator(".md-sidebar--primary")
    expect(menu).not_to_be_in_viewport()
    tap(page.locator("label.md-header__button[for=__drawer]"))
    expect(menu).to_be_in_viewport()
    at_rest(page)  # it slides in
    part = menu.locator("label.md-nav__link[for=__nav_3]")
    tap(part)
    at_rest(page)
    tap(menu.get_by_role("link", name="Steeping", exact=True))
    expect(page).to_have_url(re.compile("/procedures/steeping/$"))
    expect(page.locator("h1")).to_contain_text("Steeping")
    expect(menu).not_to_be_in_viewport()


def test_who_asks_for_less_motion_sees_none(at: Any) -> None:
    page = at("")
    page.emulate_media(reduced_motion="reduce")
    for control in ("__drawer", "__search"):
        page.locator(f"#{control}").evaluate("box => box.click()")
        assert page.evaluate("() => document.getAnimations().length") == 0
    page.emulate_media(reduced_motion="null")


def test_the_search_opens_finds_and_leads_on(at: Any) -> None:
    page = at("")
    tap(page.locator("label.md-header__button[for=__search]"))
    expect(page.locator("#__search")).to_be_checked()
    at_rest(page)
    box = page.locator("[data-md-component=search-query]")
    tap(box)
    expect(box).to_be_focused()
    page.keyboard.type("oven")
    first = page.locator(".md-search-result__item a").first
    expect(first).to_be_visible()
    tap(first)
    expect(page).to_have_url(re.compile("/calculators/oven-moisture/"))


def test_light_and_dark_change_places(at: Any) -> None:
    page = at("")
    before = page.locator("body").get_attribute("data-md-color-scheme")
    tap(page.locator(".md-header [data-colours-to]:visible"))
    expect(page.locator("body")).not_to_have_attribute("data-md-color-scheme", str(before))


def test_a_tab_opens_its_part_and_the_logo_leads_home(open_page: Open, address: str) -> None:
    page = open_page("procedures/steeping/", before=without_engine, viewport=DESK)
    knows_the_pages(page)
    for name, path in {"Safety": "safety/", "Calculators": "calculators/", "Home": "", "Training": "training/"}.items():
        page.locator("main").evaluate("main => { main.dataset.left = ''; }")
        press(page.locator(".md-tabs").get_by_role("link", name=name))
        expect(page).to_have_url(address + path)
        expect(page.locator("main[data-left]")).to_have_count(0)  # else the theme puts others in place of the tabs
    press(page.locator(".md-header .md-logo"))
    expect(page).to_have_url(address)


def test_back_to_top_goes_there_and_the_keyboard_with_it(at: Any, address: str) -> None:
    page = at("procedures/steeping/")
    link = page.get_by_role("link", name="Back to top")
    link.scroll_into_view_if_needed()
    page.wait_for_timeout(300)  # no finger comes sooner, and the theme notes only then where the page stands
    tap(link)
    page.wait_for_function("() => scrollY === 0")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('.md-footer') === null")


def test_a_field_takes_the_focus_and_the_fold_opens(at: Any) -> None:
    page = at(SHEET)
    box = page.get_by_label("Barley weight").first
    tap(box)
    expect(box).to_be_focused()
    tap(page.locator("label", has_text="Target moisture").first)
    expect(page.get_by_label("Target moisture").first).to_be_focused()
    more = page.locator("details.more-questions")
    tap(more.locator("summary"))
    expect(more).to_have_attribute("open", "")


def test_the_buttons_of_a_sheet(at: Any) -> None:
    page = at(SHEET)
    sheet = page.locator("section.sheet")
    box = sheet.get_by_label("Barley weight").first
    box.fill("1234")
    tap(button(sheet, "Fill in the example"))
    expect(box).not_to_have_value("1234")
    tap(button(sheet, "Put back"))
    expect(box).to_have_value("1234")
    tap(button(sheet, "Link to these numbers"))
    expect(page.locator(".sheet-link input")).to_have_value(re.compile("barley_kg=1234"))
    tap(button(sheet, "Clear"))
    expect(box).to_have_value("")
    tap(button(sheet, "Print a card"))
    expect(page.locator("body.prints-card")).to_have_count(1)
    assert page.evaluate("() => printed")
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")


def test_rows_and_choices(at: Any) -> None:
    page = at(ROWS)
    field = page.locator(".field[data-question=stages]")
    rows = field.locator("tr[data-row]")
    count = rows.count()
    tap(button(field, "Add a row"))
    expect(rows).to_have_count(count + 1)
    tap(button(rows.last, "Remove row"))
    expect(rows).to_have_count(count)
    page = at("calculators/intake-check/")
    choice = page.locator("label.choice:visible").last
    tap(choice)
    expect(choice.locator("input")).to_be_checked()


def test_no_projector_is_offered_on_a_phone(at: Any) -> None:
    expect(button(at("procedures/steeping/"), "Projector view")).to_have_count(0)


def test_the_day_book_is_written_corrected_and_saved(at: Any) -> None:
    page = opened(at(DAY_BOOK))
    tap(button(page, "Begin a batch"))
    sheet = page.locator(".entry-sheet")
    number = sheet.get_by_label("Batch number")
    tap(number)
    page.keyboard.type("tapped-1")
    tap(button(sheet, "Write it"))
    expect(page.locator("[data-daybook=batch]")).to_have_text("Batch tapped-1")
    tap(button(page.locator("[data-daybook=state]"), "Correct it"))
    expect(sheet.locator("h3")).to_contain_text("Correct")
    tap(button(sheet, "Leave it"))
    expect(sheet).to_be_hidden()
    tap(page.locator(".entry-all [data-kind-of-entry=remark]"))
    tap(sheet.get_by_role("textbox", name="Remark"))
    page.keyboard.type("smells sweet")
    tap(button(sheet, "Write it"))
    expect(page.locator("[data-daybook=waiting] tr[data-entry]")).to_have_count(2)
    files = page.locator("details.day-book-files")
    tap(files.locator("summary"))
    with page.expect_download():
        tap(button(files, "Save the book as a file"))
    tap(page.locator("[data-daybook=all]"))
    expect(button(page, "Begin a batch")).to_be_visible()
    tap(button(files, "Remove everything"))
    tap(button(files, "press again"))
    expect(page.locator("[data-daybook=state]")).to_contain_text("Removed")


def test_training_opens_its_reasons_and_takes_an_answer(at: Any) -> None:
    page = at("training/questions-steeping/")
    case = page.locator(".case:visible").first
    tap(button(case, "Only look"))
    choice = case.locator("details").first
    tap(choice.locator("summary"))
    expect(choice).to_have_attribute("open", "")
    tap(button(page, "Print the questions"))
    assert page.evaluate("() => printed")
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    page = at("training/exercises/")
    place = page.locator("#exercises-steeping")
    expect(place.locator("[data-exercise-working]")).to_be_hidden()
    tap(button(place, "Check"))
    expect(place.locator("[data-exercise=verdict]")).to_have_text("Type your answer first.")


def test_a_record_sheet_is_printed(at: Any) -> None:
    page = at("reference/records/steep-record/")
    tap(button(page, "Print it"))
    page.wait_for_function("() => window.printed")


def test_the_handbook_is_kept_for_use_without_a_network(open_page: Open) -> None:
    page = open_page("reference/offline/", before=without_engine, has_touch=True)
    tap(button(page, "Keep for use without a network"))
    state = page.locator("[data-offline-panel] [data-offline-state]")
    expect(state).to_have_text(re.compile("^(Saving|Saved for use without a network)"))
    stop = button(page, "^Stop$").or_(button(page, "Remove it from this device"))
    tap(stop.first)
    expect(state).to_have_text(re.compile("[Ss]topp|Remov|Not saved"))
