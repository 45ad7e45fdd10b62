"""Every chart on the smallest phone: its letters are large enough, and stand over no line, point or letter."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import lasting_page

pytestmark = pytest.mark.browser
LEAST_PX = 12
ROUNDED_PX = 0.1

LOOK = Path(__file__).with_name("chart_faults.js").read_text("utf-8").rstrip().rstrip(";")


def faults(page: Page) -> list[str]:
    found: list[str] = page.evaluate(LOOK, LEAST_PX - ROUNDED_PX)
    return found


def test_small_letters_and_letters_over_others_are_seen(browser: Browser, address: str) -> None:
    """Every page's own charts are looked at with the rest of it, in `test_every_page`."""
    with lasting_page(browser, address, viewport={"width": 320, "height": 640}) as page:
        page.goto(address + "calculators/steep-timing/")
        page.evaluate("() => { for (const one of document.querySelectorAll('details')) one.open = true; }")
        assert page.locator("svg.chart").count() and faults(page) == []
        page.evaluate(
            """() => {
              const text = document.querySelector("svg.chart text.tick");
              text.style.fontSize = "5px";
              const other = text.cloneNode(true);
              text.after(other);
            }"""
        )
        assert any(" px" in one for one in faults(page)) and any(" over “" in one for one in faults(page))
