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


def pages_with_charts(site: Path) -> list[str]:
    return sorted(
        path.parent.relative_to(site).as_posix()
        for path in site.rglob("index.html")
        if '<svg class="chart"' in path.read_text("utf-8")
    )


def faults(page: Page) -> list[str]:
    found: list[str] = page.evaluate(LOOK, LEAST_PX - ROUNDED_PX)
    return found


def test_letters_are_large_enough_and_stand_over_nothing(browser: Browser, address: str, built_site: Path) -> None:
    names = pages_with_charts(built_site)
    assert len(names) > 25
    found = {}
    with lasting_page(browser, address, viewport={"width": 320, "height": 640}) as page:
        for name in names:
            page.goto(f"{address}{name}/")
            page.evaluate("() => { for (const one of document.querySelectorAll('details')) one.open = true; }")
            if wrong := faults(page):
                found[name] = wrong
        assert found == {}
        # and what is wrong is seen
        page.evaluate(
            """() => {
              const text = document.querySelector("svg.chart text.tick");
              text.style.fontSize = "5px";
              const other = text.cloneNode(true);
              text.after(other);
            }"""
        )
        assert any(" px" in one for one in faults(page)) and any(" over “" in one for one in faults(page))
