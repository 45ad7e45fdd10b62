"""The menus beside a page: the list of headings goes along with what is read, and pages that were left are let go."""

from __future__ import annotations

import pytest

from tests.browser.conftest import DESK, Open, go, knows_the_pages, without_engine

pytestmark = pytest.mark.browser
LONG = "reference/what-goes-wrong/"
ONE_AFTER_ANOTHER = [
    "calculators/steep-timing/",
    "procedures/steeping/",
    "safety/confined-vessels/",
    "learning/how-barley-becomes-malt/",
    "records/",
    "",
]
IN_VIEW = """() => {
  const box = document.querySelector(".md-sidebar--secondary .md-sidebar__scrollwrap").getBoundingClientRect();
  const all = document.querySelectorAll(".md-sidebar--secondary .md-nav__link--active");
  const read = all[all.length - 1]?.getBoundingClientRect();
  return Boolean(read) && read.top >= box.top && read.bottom <= Math.min(box.bottom, innerHeight);
}"""


def test_the_heading_that_is_read_is_in_view_in_the_list(open_page: Open) -> None:
    page = open_page(LONG, before=without_engine, viewport=DESK)
    list_of_headings = page.locator(".md-sidebar--secondary .md-sidebar__scrollwrap")
    assert list_of_headings.evaluate("box => box.scrollHeight > 1.2 * box.clientHeight"), "too short a page to tell"
    for share in (1, 0.5, 0.25, 0.75):
        page.evaluate("share => scrollTo(0, share * document.body.scrollHeight)", share)
        page.wait_for_function(IN_VIEW)
    assert list_of_headings.evaluate("box => box.scrollTop") > 0


def test_a_page_that_was_left_is_let_go(open_page: Open, address: str) -> None:
    page = open_page("calculators/exposure/", before=without_engine)
    knows_the_pages(page)
    page.evaluate("() => { window.left = []; }")
    for path in ONE_AFTER_ANOTHER:
        page.evaluate("() => left.push(new WeakRef(document.querySelector('article')))")
        go(page, address + path)
    tools = page.context.new_cdp_session(page)
    for _ in range(2):  # what points at what is found by the first, what is then free by the second
        tools.send("HeapProfiler.collectGarbage")
    still = page.evaluate("() => left.filter((one) => one.deref()).length")
    assert still <= 1, f"{still} of {len(ONE_AFTER_ANOTHER)} pages are still held"  # the last may be: a click names it
