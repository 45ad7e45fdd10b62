"""Questions that are tables: rows, focus, paste, links."""

import pytest
from playwright.sync_api import Locator, Page, expect

from calculators.sheets import find_sheet
from tests.browser.conftest import Open
from tests.browser.sheets import expect_standing, path_of, required, section, type_in

pytestmark = pytest.mark.browser
SHEET = find_sheet("steep-timing")


def opened(way: Open) -> tuple[Page, Locator, Locator]:
    page = way(path_of(SHEET))
    place = section(page, SHEET)
    return page, place, place.locator(".field[data-question=stages]")


def cells(field: Locator) -> list[list[str]]:
    rows: list[list[str]] = field.evaluate("field => helpers.cells(field)")
    return rows


def paste(box: Locator, text: str) -> None:
    box.evaluate("(box, text) => helpers.paste(box, text)", text)


def test_rows_are_added_named_and_taken_away(visit: Open) -> None:
    page, _, field = opened(visit)
    count = len(cells(field))
    field.get_by_role("button", name="Add a row").click()
    expect(field.locator("tr[data-row]")).to_have_count(count + 1)
    expect(field.get_by_label(f"Hours, row {count + 1}")).to_be_focused()
    page.keyboard.type("7")
    field.get_by_label("Hours, row 1").fill("1")
    field.get_by_role("button", name="Remove row 1").click()
    expect(field.locator("tr[data-row]")).to_have_count(count)
    expect(field.get_by_label(f"Hours, row {count}")).to_have_value("7")
    expect(field.get_by_role("button", name="Remove row 1")).to_be_focused()
    heads = field.locator("tr[data-row] th").all_inner_texts()
    assert [head.split()[0] for head in heads] == [str(n + 1) for n in range(count)]


def test_enter_goes_down_and_makes_a_new_row_at_the_end(visit: Open) -> None:
    page, _, field = opened(visit)
    count = len(cells(field))
    field.get_by_label("Hours, row 1").click()
    for number in range(1, count + 2):
        page.keyboard.type(str(number))
        page.keyboard.press("Enter")
    assert [row[0] for row in cells(field)][: count + 1] == [str(n) for n in range(1, count + 2)]


def test_a_block_from_a_spreadsheet_fills_the_rows(visit: Open) -> None:
    _, place, field = opened(visit)
    type_in(place, SHEET, {k: v for k, v in required(SHEET).items() if k != "stages"})
    paste(field.get_by_label("Hours, row 1"), "8\t14\r\n16\t13,5\r\n8\t\r\n")
    assert cells(field)[:3] == [["8", "14"], ["16", "13,5"], ["8", ""]]
    expect_standing(place, "answered")
    paste(field.get_by_label("Hours, row 2"), "12 15")
    assert cells(field)[1] == ["12", "15"]


def test_more_rows_than_there_is_room_for_are_said(visit: Open) -> None:
    _, place, field = opened(visit)
    most = int(field.get_attribute("data-max-rows") or 0)
    paste(field.get_by_label("Hours, row 1"), "\n".join(["2"] * (most + 5)))
    assert len(cells(field)) == most
    expect(place.locator("[data-state]")).to_contain_text("5 pasted rows")


def test_an_error_marks_the_row_and_the_column(visit: Open) -> None:
    _, place, field = opened(visit)
    type_in(place, SHEET, required(SHEET))
    expect_standing(place, "answered")
    field.get_by_label("Hours, row 2").fill("200 h")
    expect(field.locator("[data-error]")).to_contain_text("row 2")
    expect(field.locator("[aria-invalid=true]")).to_have_count(1)
    expect(field.get_by_label("Hours, row 2")).to_have_attribute("aria-invalid", "true")


def test_rows_in_a_link_may_be_written_as_on_the_command_line(visit: Open) -> None:
    others = "&".join(f"{k}={v}" for k, v in required(SHEET).items() if k != "stages")
    page = visit(f"{path_of(SHEET)}?sheet=steep-timing&{others}&stages=8 16 8 12 4")
    field = section(page, SHEET).locator(".field[data-question=stages]")
    assert [row[0] for row in cells(field)] == ["8", "16", "8", "12", "4"]
    expect_standing(section(page, SHEET), "answered")
