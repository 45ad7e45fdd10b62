"""What holds on the page of every sheet."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators.asking.declare import Sheet
from tests.browser.conftest import PHONE, Open, Watch
from tests.browser.sheets import (
    SHEETS,
    answer_from_example,
    example,
    expect_standing,
    numbers,
    path_of,
    pinned_height,
    places,
    private,
    section,
    type_in,
)

pytestmark = pytest.mark.browser
every_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)


@pytest.fixture(scope="module")
def plain(browser: Browser, address: str) -> Iterator[Page]:
    """A page without scripts."""
    watch = Watch(address)
    page = watch.new_page(browser, java_script_enabled=False)
    yield page
    page.context.close()
    watch.check()


@every_sheet
def test_the_worked_case_stands_without_scripts(plain: Page, address: str, sheet: Sheet) -> None:
    plain.goto(address + path_of(sheet))
    place = section(plain, sheet)
    heading = "EXAMPLE, NOT YOUR VESSEL" if sheet.guarded else "Example"
    expect(place.locator(".standing")).to_have_text(heading)
    expect(place.locator(".answer").first).to_be_visible()
    for one in sheet.answers:
        if one.lead and place.locator(f"[data-answer={one.id}]").count():
            assert place.locator(f"[data-answer={one.id}] .figure :is(.number, .verdict)").inner_text().strip()
    figures = place.locator(".answer .figure")
    expect(figures.locator(".of-example")).to_have_count(figures.count())
    for button in place.locator("button").all():
        assert not button.is_visible(), "a button that does nothing without scripts"


@every_sheet
def test_own_numbers_are_answered_and_a_wrong_one_is_kept_and_said_beside_its_field(visit: Open, sheet: Sheet) -> None:
    page = visit(path_of(sheet))
    place = answer_from_example(page, sheet)
    expect(place.locator(".standing")).to_have_text("Your numbers")
    expect(place.locator(".answer").first).to_be_visible()
    expect(place.locator("[data-state]")).not_to_have_text("")
    said = place.locator("[data-state]").inner_text()
    assert not re.search(r"\.[.:,]|: :|undefined|null", said), said
    assert pinned_height(page) <= PHONE["height"] / 3
    if not numbers(sheet):
        return
    question = numbers(sheet)[0]
    field = place.locator(f".field[data-question={question.id}]")
    box = field.locator("input")
    box.click()
    box.fill("abc")
    error = field.locator("[data-error]")
    expect(error).to_be_visible()
    expect(error).to_contain_text(question.label)
    expect(box).to_have_value("abc")
    expect(box).to_have_attribute("aria-invalid", "true")
    expect(box).to_be_focused()
    assert error.get_attribute("id") in (box.get_attribute("aria-describedby") or "").split()
    if sheet.guarded:
        expect_standing(place, "blank")
        assert not any(places(place).values())
    else:
        expect_standing(place, "old")
        expect(place.locator(".standing-note")).to_be_visible()
        expect(place.locator(".answer").first).to_be_visible()
    # cleared at once, not after a pause
    assert not box.evaluate("box => helpers.type(box, 'abc1', '[data-error]:not([hidden])')")


@every_sheet
def test_the_example_fills_the_form_and_stays_an_example(visit: Open, sheet: Sheet) -> None:
    page = visit(path_of(sheet))
    place = section(page, sheet)
    button = place.locator("[data-action=example]")
    if sheet.guarded:
        assert button.count() == 0
        return
    button.click()
    expect_standing(place, "answered")
    expect(place.locator(".standing")).to_have_text("Example")
    expect(place.locator("[data-state]")).to_have_text(re.compile("^Example: "))
    expect(place.locator("[data-from-example]")).to_have_count(len(example(sheet)))
    if numbers(sheet):
        name = numbers(sheet)[0].id
        place.locator(f".field[data-question={name}] input").press("End")
        place.locator(f".field[data-question={name}] input").press("0")
        expect(place.locator(f".field[data-question={name}]")).not_to_have_attribute("data-from-example", "")


@every_sheet
def test_a_link_carries_the_numbers(visit: Open, address: str, sheet: Sheet) -> None:
    page = visit(path_of(sheet))
    place = answer_from_example(page, sheet)
    said = places(place)
    place.locator("[data-action=link]").click()
    link = place.locator(".sheet-link input").input_value()
    assert link.startswith(address + path_of(sheet))
    page = visit(link.removeprefix(address))
    type_in(section(page, sheet), sheet, private(sheet))
    expect_standing(section(page, sheet), "answered")
    again = places(section(page, sheet))
    for name in ("answers", "tables") if sheet.guarded else ("heading", "answers", "tables"):
        # what travels from a guarded sheet is an example, and says so beside each figure
        shown = again[name].replace("Example", "") if sheet.guarded else again[name]
        assert shown.split() == said[name].split()
    if sheet.guarded:
        assert "&example=yes#" in link
        expect(section(page, sheet).locator(".standing")).to_have_text("EXAMPLE, NOT YOUR VESSEL")
