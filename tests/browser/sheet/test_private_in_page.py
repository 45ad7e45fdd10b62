"""What is asked about a person: not kept, not put back, not in a link or from one, not on paper."""

from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Locator, Page, expect

from calculators.asking.declare import Sheet
from calculators.sheets import find_sheet
from tests.browser.conftest import Open
from tests.browser.printed import needs_poppler, text_of
from tests.browser.sheets import answer_from_example, expect_standing, path_of, private, section

pytestmark = pytest.mark.browser
SHEETS = [find_sheet("lifting-index"), find_sheet("shovel-pace")]
both = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)


def boxes(place: Locator) -> Locator:
    return place.locator("[data-private=yes] input")


def refuse(page: Page, sheet: Sheet) -> Locator:
    place = section(page, sheet)
    place.locator("[data-private=yes] input[value=yes]").press("Space")
    expect_standing(place, "refused")
    return place


@both
def test_it_is_asked_first_and_marked(visit: Open, sheet: Sheet) -> None:
    place = section(visit(path_of(sheet)), sheet)
    first = place.locator(".sheet-form .field").first
    expect(first).to_have_attribute("data-private", "yes")
    expect(first).to_contain_text("Not kept, not in a link, not printed.")
    assert not any(box.is_checked() for box in boxes(place).all())


@both
def test_yes_refuses_whatever_else_is_blank_and_paper_has_no_word_of_it(
    visit: Open, tmp_path: Path, sheet: Sheet
) -> None:
    page = visit(path_of(sheet))
    place = refuse(page, sheet)
    expect(place.locator(".refusal")).to_contain_text("so this sheet gives none")
    expect(place.locator(".answer")).to_have_count(0)
    page.emulate_media(media="print")
    for words in place.locator(".refusal, .standing, .hazard").all():
        expect(words).to_be_hidden()
    page.emulate_media(media="null")


@needs_poppler
def test_the_printed_card_of_a_refusal_says_nothing_of_anybody(visit: Open, tmp_path: Path) -> None:
    page = visit(path_of(SHEETS[0]))
    refuse(page, SHEETS[0])
    section(page, SHEETS[0]).locator("[data-action=print]").click()
    expect(page.locator("body.prints-card")).to_have_count(1)
    text, _ = text_of(page, tmp_path)
    assert "No figures were worked out." in text
    for word in ("pregnant", "under 18", "hurt or ill", "Refused"):
        assert word not in text


@both
def test_no_link_carries_it_and_none_brings_it(visit: Open, address: str, sheet: Sheet) -> None:
    place = answer_from_example(visit(path_of(sheet)), sheet)
    place.locator("[data-action=link]").click()
    link = place.locator(".sheet-link input").input_value()
    (name,) = private(sheet)
    assert name not in parse_qs(urlsplit(link).query)
    forged = link.replace("#", f"&{name}=none#", 1)
    page = visit(forged.removeprefix(address))
    place = section(page, sheet)
    expect(place.locator("[data-state]")).to_contain_text("1 more to fill in")
    assert not any(box.is_checked() for box in boxes(place).all())


@both
def test_nothing_is_kept_on_the_device_and_put_back_leaves_it_blank(visit: Open, sheet: Sheet) -> None:
    page = visit(path_of(sheet))
    place = answer_from_example(page, sheet)
    assert page.evaluate("() => Object.keys(localStorage).filter((key) => key.includes('sheet:'))") == []
    place.locator("[data-action=clear]").click()
    place.locator("[data-action=put-back]").click()
    assert not any(box.is_checked() for box in boxes(place).all())
    page = visit(path_of(sheet))
    assert not any(box.is_checked() for box in boxes(section(page, sheet)).all())
