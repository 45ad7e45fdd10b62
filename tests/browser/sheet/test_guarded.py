"""Sheets on gas, vessels and lifting: cards that are no permit, and no link to anybody's own numbers."""

from typing import NamedTuple
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Locator, Page, expect

from calculators.asking.declare import Sheet
from tests.browser.conftest import Open
from tests.browser.paper.test_code import print_card
from tests.browser.sheets import (
    SHEETS,
    example,
    expect_standing,
    numbers,
    path_of,
    private,
    section,
    type_in,
)

pytestmark = pytest.mark.browser
GUARDED = [sheet for sheet in SHEETS if sheet.guarded]


class Filled(NamedTuple):
    """A sheet on its page, with its worked case typed in and answered, and the link that it offers."""

    sheet: Sheet
    page: Page
    place: Locator
    link: str


@pytest.fixture(scope="module", params=GUARDED, ids=lambda sheet: sheet.id)
def filled(request: pytest.FixtureRequest, visit: Open) -> Filled:
    sheet: Sheet = request.param
    page = visit(path_of(sheet))
    place = section(page, sheet)
    place.evaluate("(section, questions) => helpers.ask(section, questions)", example(sheet))
    expect_standing(place, "answered")
    assert "?" not in page.url
    place.get_by_role("button", name="Link as a training example").click()
    expect(place.locator("[data-state]")).to_contain_text("EXAMPLE, NOT YOUR VESSEL")
    return Filled(sheet, page, place, place.locator(".sheet-link input").input_value())


@pytest.mark.further(keep=2)
def test_a_card_says_across_it_that_it_is_no_permit(filled: Filled) -> None:
    """Its own words, and that it is one page: `test_every_sheet`."""
    page, place = filled.page, filled.place
    print_card(page, place)
    page.emulate_media(media="print")
    across, card = place.locator(".card-across").bounding_box(), place.bounding_box()
    words = place.locator(".card-across").evaluate("one => getComputedStyle(one, '::before').content")
    page.emulate_media(media="null")
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    assert across and card and across["width"] > 0.9 * card["width"] and across["height"] > 0.9 * card["height"]
    assert words == '"NOT A PERMIT"'


@pytest.mark.further(keep=3)
def test_only_an_example_that_is_marked_as_one_travels(filled: Filled, visit: Open, address: str) -> None:
    sheet, page, place, link = filled
    assert "example=yes" in urlsplit(link).query.split("&")
    visit(link.removeprefix(address))
    type_in(place, sheet, private(sheet))  # what is about a person is carried by nothing
    expect_standing(place, "answered")
    expect(place.locator(".standing")).to_have_text("EXAMPLE, NOT YOUR VESSEL")
    expect(place.locator("[data-place=print]")).to_contain_text("EXAMPLE, NOT YOUR VESSEL")

    # a number of one's own does not make it one's own case, and the address lets the example go
    question = numbers(sheet)[0] if numbers(sheet) else None
    if question is not None:
        box = place.locator(f".field[data-question={question.id}] input")
        box.press("End")
        box.press("Space")
        expect_standing(place, "answered")
        assert "sheet=" not in page.url
        if len(numbers(sheet)) > 1:
            expect(place.locator(".standing")).to_have_text("EXAMPLE, NOT YOUR VESSEL")


def test_a_link_without_the_mark_brings_nothing(filled: Filled, visit: Open, address: str) -> None:
    sheet, page, place, link = filled
    visit(link.replace("&example=yes", "").removeprefix(address))
    expect(place.locator("[data-state]")).to_contain_text("No link brings numbers to this sheet")
    expect_standing(place, "example")
    assert "sheet=" not in page.url
    for question in numbers(sheet):
        expect(place.locator(f".field[data-question={question.id}] input")).to_have_value("")
