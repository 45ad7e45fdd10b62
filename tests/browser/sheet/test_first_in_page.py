"""What can hurt people is answered while all else is blank, where a reader sees it."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from calculators.sheets import find_sheet
from tests.browser.conftest import PHONE, Open
from tests.browser.sheets import expect_standing, section, type_in

pytestmark = pytest.mark.browser

SIGNS = [
    ({"smell": "foreign"}, "A foreign smell may be a fumigant"),
    ({"fumigated": "nobody-knows", "moisture": "x"}, "Nobody knows whether this grain was fumigated"),
]


@pytest.mark.parametrize(("typed", "words"), SIGNS)
def test_a_load_is_stopped_while_its_figures_are_blank(visit: Open, typed, words):
    page = visit("calculators/intake-check/", viewport=PHONE)
    sheet = find_sheet("intake-check")
    place = section(page, sheet)
    type_in(place, sheet, typed)
    expect_standing(place, "answered")
    results = place.locator("[data-results]")
    danger = results.locator(".hazard-danger")
    expect(danger).to_have_count(1)
    expect(danger).to_contain_text(words)
    expect(results.locator("[data-place=heading] .given > div")).to_have_count(1)
    expect(place.locator("[data-state]")).to_contain_text("Stop: do not tip.")
    expect(place.locator("[data-state]")).to_be_in_viewport()
    # the rest is typed on, and it still stands
    type_in(place, sheet, {"insects": "none", "temperature_c": "14"})
    expect_standing(place, "answered")
    expect(results.locator(".hazard-danger")).to_contain_text(words)
