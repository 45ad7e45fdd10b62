"""The main errand, the day-book and the kept copy in Firefox, with taps and keys; all other tests use Chromium."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.browser import editions
from tests.browser.book import PAGE, STORED
from tests.browser.firefox.bidi import Firefox, firefox, program

pytestmark = [
    pytest.mark.further,
    pytest.mark.browser,
    pytest.mark.skipif(program() is None, reason="Firefox is not here: Debian's package is called firefox-esr"),
]
SHEET = "calculators/moisture-target/"
SAVED = "Saved for use without a network"
FIELD = "[data-question={}] input"


@pytest.fixture(scope="module")
def house(built_site: Path, address: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[editions.House]:
    house = editions.House(built_site, address, tmp_path_factory.mktemp("firefox"))
    yield house
    house.kill()


def clean(page: Firefox, house: editions.House) -> None:
    """No fault, and nobody else was asked."""
    assert page.faults == []
    assert [one for one in page.asked if not one.startswith((house.address, "data:", "blob:"))] == []


def ask_by_hand(page: Firefox) -> None:
    for question, text in (("barley_kg", "4000"), ("barley_moisture", "12,5"), ("target_moisture", "44")):
        page.type(FIELD.format(question), text)
    page.reads("[data-results]", "6188 kg")  # by hand: 4000 kg x 0.875 x 0.99 / 0.56


def begin(page: Firefox) -> None:
    page.tap("button", "Begin a batch")
    page.type("#entry-common-batch", "fox-1")
    page.tap(".entry-sheet button", "Write it")
    page.reads("[data-daybook=state]", "Written")


def test_from_home_to_an_answer_and_a_line_and_again_with_the_server_gone(
    house: editions.House, tmp_path: Path
) -> None:
    with firefox(tmp_path / "profile") as page:
        page.go(house.address)
        page.tap("main a", "All the sheets by job")
        page.reads("h1", "All the sheets by job")
        page.tap("main a", "Target weight")
        page.reads("h1", "What should the batch weigh")
        ask_by_hand(page)
        page.type(FIELD.format("barley_moisture"), "125")
        page.reads("[data-question=barley_moisture]", "from 5 to 25")
        page.tap("[data-offline-offer] button", "Keep for use without a network")
        page.reads("[data-offline-offer] [data-offline-state]", SAVED, patience=120)
        page.go(house.address + PAGE)
        begin(page)
        written = page.ask(f"() => ({STORED})(false)")
        clean(page, house)
    house.kill()
    try:
        with firefox(tmp_path / "profile") as page:
            page.go(house.address + PAGE)
            page.reads("section.day-book", "fox-1")
            assert page.ask(f"() => ({STORED})(false)") == written
            assert len(written) == 1
            page.go(house.address + SHEET)
            ask_by_hand(page)
            page.go(house.address + "safety/emergency/")
            page.reads("h1", "Emergency")
            page.reads(".offline-line", SAVED)
    finally:
        house.start()


def test_a_private_window_says_before_what_goes_with_it(house: editions.House, tmp_path: Path) -> None:
    private = {"browser.privatebrowsing.autostart": True}
    with firefox(tmp_path / "profile", private) as page:
        page.go(house.address + SHEET)
        ask_by_hand(page)
        page.reads("[data-offline-offer]", "private window it is gone when the last such window closes")
        page.go(house.address + PAGE)
        page.reads("section.day-book", "private window the book is gone when the last such window closes")
        begin(page)
        page.go(house.address + "reference/offline/")
        page.reads("[data-offline-panel]", "private window it is gone")
        clean(page, house)
    with firefox(tmp_path / "profile", private) as page:
        page.go(house.address + PAGE)
        page.wait("() => document.querySelector('[data-action=begin]')?.checkVisibility()")
        assert page.ask(f"() => ({STORED})(false).catch(() => [])") == [], "a private window kept a line after all"
