"""What axe finds on every page, folded parts open, and in a form that is answered or wrong."""

from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE, Open
from tests.browser.sheets import SHEETS, answer_from_example, numbers, path_of
from tests.browser.test_access import open_all, pages_of

pytestmark = pytest.mark.browser
axe = Axe()
LOOKS = ["color-contrast", "scrollable-region-focusable"]
"""The rules whose outcome hangs on the colours or the width; the others look at the same elements in every view."""


WHOLE = ["", "calculators/steep-timing", "procedures/steeping", "training/exercises"]
"""Where the frame of a page is looked at as well; it is the same around every page."""


def faults(page: Page, rules: list[str] | None = None, within: str | None = None) -> list[str]:
    """The faults that axe calls serious or critical, one line each."""
    options: dict[str, Any] = {"resultTypes": ["violations"], **({"runOnly": rules} if rules else {})}
    found = axe.run(page, within, options).response["violations"]
    return [
        f"{fault['id']} ({fault['impact']}): {node['html'][:160]}"
        for fault in found
        if fault["impact"] in ("serious", "critical")
        for node in fault["nodes"][:3]
    ]


@pytest.mark.parametrize("view", ["phone-light", "desk-dark"])
def test_axe_finds_nothing_serious_on_any_page(open_page: Open, address: str, built_site: Path, view: str) -> None:
    size, colours, rules = (PHONE, "light", None) if view == "phone-light" else (DESK, "dark", LOOKS)
    page = open_page("", color_scheme=colours, viewport=size)
    found: dict[str, list[str]] = {}
    for path in pages_of(built_site):
        page.goto(f"{address}{path}/" if path else address)
        open_all(page.locator("main"))
        if faults_here := faults(page, rules, None if path in WHOLE else "article"):
            found[path] = faults_here
    assert found == {}


@pytest.mark.parametrize("colours", ["light", "dark"])
def test_axe_finds_nothing_serious_in_an_answered_and_in_a_wrong_form(open_page: Open, colours: str) -> None:
    sheet = next(one for one in SHEETS if numbers(one))
    page = open_page(path_of(sheet), color_scheme=colours)
    place = answer_from_example(page, sheet)
    assert faults(page) == []
    place.locator(f".field[data-question={numbers(sheet)[0].id}] input").fill("abc")
    expect(place.locator("[data-error]:not([hidden])")).to_have_count(1)
    assert faults(page) == []
