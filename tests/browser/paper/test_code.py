"""The code on a printed card: read back from the paper by another library, it brings the same case."""

import subprocess
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit

import numpy as np
import pytest
import zxingcpp
from playwright.sync_api import Locator, Page, expect

from calculators.asking.declare import Sheet
from calculators.sheets import find_sheet
from tests.browser.conftest import Open
from tests.browser.printed import needs_poppler, text_of
from tests.browser.sheets import (
    READY,
    SHEETS,
    answer_from_example,
    example,
    expect_standing,
    path_of,
    places,
    section,
)

pytestmark = [pytest.mark.browser, pytest.mark.python_here, pytest.mark.further]
DOTS_PER_INCH = 200  # as a telephone's camera sees a page from half a metre


def codes_on(page: Page, folder: Path) -> list[str]:
    """What ZXing reads from the printed page, made grey dots by poppler. Printing ends the card."""
    pdf = folder / "code.pdf"
    page.pdf(path=str(pdf), prefer_css_page_size=True)
    words = ["pdftoppm", "-r", str(DOTS_PER_INCH), "-gray", "-singlefile", str(pdf), str(folder / "code")]
    subprocess.run(words, check=True)
    data = (folder / "code.pgm").read_bytes()
    _, width, height, _ = data[:40].split(maxsplit=4)[:4]
    dots = np.frombuffer(data[-int(width) * int(height) :], np.uint8).reshape(int(height), int(width))
    return [found.text for found in zxingcpp.read_barcodes(dots)]


def answered(page: Page, sheet: Sheet, **more: Any) -> Locator:
    """A sheet with the numbers of its worked case, put in all at once, and answered."""
    place = section(page, sheet)
    place.evaluate("(section, questions) => helpers.ask(section, questions)", {**example(sheet), **more})
    expect_standing(place, "answered")
    return place


def print_card(page: Page, place: Any) -> None:
    place.locator("[data-action=print]").click()
    expect(page.locator("body.prints-card")).to_have_count(1, timeout=READY)


@needs_poppler
@pytest.mark.parametrize(
    "sheet_id",
    [
        "moisture-target",
        "steep-timing",
        pytest.param("sample-basket", marks=pytest.mark.long),
        pytest.param("germination-test", marks=pytest.mark.long),
    ],
)
def test_the_code_on_the_card_brings_back_the_same_case(
    visit: Open, address: str, tmp_path: Path, sheet_id: str
) -> None:
    sheet = find_sheet(sheet_id)
    page = visit(path_of(sheet))
    place = answered(page, sheet)
    before = places(place)
    print_card(page, place)
    (link,) = codes_on(page, tmp_path)
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    assert page.locator(".card-code").count() == 0
    assert link.startswith(address)
    place = section(visit(link.removeprefix(address)), sheet)  # on a device that keeps nothing of it
    expect(place.locator("[data-results]:not([data-waiting])")).to_have_attribute(
        "data-standing", "answered", timeout=READY
    )
    after = places(place)
    for name in ("answers", "working", "tables"):
        assert after[name] == before[name]


@needs_poppler
def test_a_filled_record_carries_the_sheet_s_link(visit: Open, tmp_path: Path) -> None:
    sheet = find_sheet("kiln-water")
    page = visit(path_of(sheet))
    answered(page, sheet)
    page.locator("[data-action=paper]").click()
    expect(page.locator(".paper-code .code")).to_have_count(1, timeout=READY)
    (link,) = codes_on(page, tmp_path)
    parts = urlsplit(link)
    assert parts.path.endswith("/calculators/kiln-water/")
    assert parse_qs(parts.query)["green_malt_kg"] == [example(sheet)["green_malt_kg"]]


@needs_poppler
def test_a_long_table_prints_its_link_as_text_on_the_one_page(visit: Open, tmp_path: Path) -> None:
    sheet = find_sheet("floor-round")
    page = visit(path_of(sheet))
    rows = [
        [f"{4 + hour}.25", f"{hour}.125", f"16.{hour}12", f"14.{hour}51", "11.25", "14.75"] for hour in range(1, 10)
    ]
    place = answered(page, sheet, earlier_rounds=rows)
    print_card(page, place)
    assert place.locator(".code").count() == 0
    text, count = text_of(page, tmp_path)
    assert count == 1
    assert "by this link" in text and "earlier_rounds=" in text


@needs_poppler
def test_the_worked_case_and_a_sheet_about_gas_carry_none(visit: Open, tmp_path: Path) -> None:
    page = visit(path_of(SHEETS[0]))
    print_card(page, section(page, SHEETS[0]))
    assert codes_on(page, tmp_path) == []
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    sheet = find_sheet("gas-build-up")
    page = visit(path_of(sheet))
    print_card(page, answered(page, sheet))
    assert codes_on(page, tmp_path) == []


@pytest.mark.python_here(False)
def test_its_library_is_not_fetched_before_something_is_printed(open_page: Open) -> None:
    asked: list[str] = []
    sheet = find_sheet("sample-basket")
    page = open_page(path_of(sheet), before=lambda page: page.on("request", lambda one: asked.append(one.url)))
    page.context.on("request", lambda one: asked.append(one.url))
    place = answer_from_example(page, sheet)
    assert not [url for url in asked if "qrcodegen" in url]
    page.evaluate("() => { window.print = () => {}; }")
    print_card(page, place)
    assert page.locator(".code").count() == 1
    assert [url for url in asked if "qrcodegen" in url]
