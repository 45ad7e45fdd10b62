"""The line that stays in view lies over no box that is typed in, keyboard up or not, and says first what matters."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, Page, expect

from calculators.sheets import find_sheet
from tests.browser.conftest import PHONE, Open
from tests.browser.sheets import (
    answer_from_example,
    example,
    expect_standing,
    path_of,
    pinned_height,
    section,
    type_in,
)
from tests.drawn import WHOLE

pytestmark = [pytest.mark.browser, pytest.mark.python_here]

SHEETS = ["batch-forecast", "bed-pressure", "moisture-target", "sprinkling", "steep-effluent"]
KEYBOARD_UP = 450

# Puts a box at the foot of what is seen of the page and types there; without a scroll of the test's own afterwards.
AT_THE_FOOT = """(box, foot) => {
  document.activeElement?.blur();
  scrollBy({ top: box.getBoundingClientRect().bottom - foot, behavior: "instant" });
  box.focus({ preventScroll: true });
}"""
SEEN = """(box, foot) => {
  const { left, right, top, bottom } = box.getBoundingClientRect();
  const at = (x, y) => y < foot && box.contains(document.elementFromPoint(x, y));
  return at((left + right) / 2, bottom - 4) && at(left + 8, top + 4);
}"""
# The first box and the last, and one of each way in which a box can stand in the form.
OF_EACH_KIND = """(form) => {
  const boxes = [...form.querySelectorAll("input[type=text]")].filter((box) => box.checkVisibility());
  const own = (one) => [one.localName, ...one.classList].join(".");
  const kind = (one) => (one === form ? "" : `${kind(one.parentElement)} > ${own(one)}`);
  const found = new Map(boxes.map((box) => [kind(box), box]));
  return boxes.map((box, at) => (at === 0 || at === boxes.length - 1 || found.get(kind(box)) === box ? at : -1));
}"""
# The keyboard of a phone covers the foot of the page and leaves its height as it is.
KEYS_COVER = """() => {
  const seen = Object.assign(new EventTarget(), { width: 390, height: 450, offsetTop: 0, offsetLeft: 0, scale: 1 });
  Object.defineProperty(window, "visualViewport", { get: () => seen });
}"""


def boxes(place: Locator) -> list[Locator]:
    all_of_them = [box for box in place.locator(".sheet-form input[type=text]").all() if box.is_visible()]
    wanted: list[int] = place.locator(".sheet-form").evaluate(OF_EACH_KIND)
    return [box for box, at in zip(all_of_them, wanted, strict=True) if WHOLE or at >= 0]


def expect_seen(page: Page, box: Locator, foot: int) -> None:
    handle = box.element_handle()
    page.wait_for_function(f"box => ({SEEN})(box, {foot})", arg=handle, timeout=2000)


def type_at_the_foot(page: Page, place: Locator, foot: int) -> None:
    """Type each box once more where it lies lowest; each time the line stands in view, and not over it."""
    for box in boxes(place):
        value = box.input_value()
        box.evaluate(AT_THE_FOOT, foot)
        page.keyboard.press("End")
        page.keyboard.type(" ")
        expect_seen(page, box, foot)
        assert box.input_value() == f"{value} "


def answered(visit: Open, sheet_id: str) -> tuple[Page, Locator]:
    """A sheet with the numbers of its worked case, put in all at once, and answered."""
    sheet = find_sheet(sheet_id)
    page = visit(path_of(sheet))
    place = section(page, sheet)
    place.evaluate("(section, questions) => helpers.ask(section, questions)", example(sheet))
    expect_standing(place, "answered")
    return page, place


@pytest.mark.further(keep=2)
@pytest.mark.drawn
@pytest.mark.parametrize("sheet_id", SHEETS)
def test_what_is_typed_at_the_foot_of_the_screen_is_seen(visit: Open, sheet_id: str) -> None:
    page, place = answered(visit, sheet_id)
    for height in (PHONE["height"], KEYBOARD_UP):
        page.set_viewport_size({"width": PHONE["width"], "height": height})
        type_at_the_foot(page, place, height)
    expect_standing(place, "answered")
    page.set_viewport_size(PHONE)


def test_the_line_that_comes_while_one_types_moves_the_box_out_from_under_it(visit: Open) -> None:
    sheet = find_sheet("moisture-target")
    page = visit(path_of(sheet))
    place = section(page, sheet)
    type_in(place, sheet, {"barley_kg": "8000", "barley_moisture": "12"})
    box = place.get_by_label("Target moisture")
    foot = box.evaluate("box => Math.ceil(box.getBoundingClientRect().bottom) + 2")
    page.set_viewport_size({"width": PHONE["width"], "height": foot})
    box.evaluate(AT_THE_FOOT, foot)
    page.keyboard.type("45")
    expect(place.locator("[data-state][data-pinned]")).to_be_in_viewport(ratio=1)
    expect_seen(page, box, foot)
    page.set_viewport_size(PHONE)
    box.evaluate(AT_THE_FOOT, PHONE["height"] // 2)  # where the line does not reach, nothing jumps
    before = box.evaluate("box => box.getBoundingClientRect().top")
    page.keyboard.press("End")
    page.keyboard.type(".5")
    expect(place.locator("[data-answer=target_kg] output")).to_have_text("12788")
    assert abs(box.evaluate("box => box.getBoundingClientRect().top") - before) < 1


def test_above_a_keyboard_that_covers_the_page_line_and_box_are_seen(open_page: Open) -> None:
    sheet = find_sheet("moisture-target")
    page = open_page(path_of(sheet), before=lambda page: page.add_init_script(f"({KEYS_COVER})()"))
    place = answer_from_example(page, sheet)
    type_at_the_foot(page, place, KEYBOARD_UP)
    line = place.locator(".sheet-now")
    assert line.evaluate("line => line.getBoundingClientRect().bottom") <= KEYBOARD_UP + 1
    page.evaluate("() => document.activeElement.blur()")
    page.evaluate("() => visualViewport.dispatchEvent(new Event('resize'))")
    assert line.evaluate("line => getComputedStyle(line).bottom") == "0px"  # the keyboard is down again


def test_a_forecast_says_in_a_third_of_the_screen_what_is_past_its_stop_and_what_to_do(visit: Open) -> None:
    page, place = answered(visit, "batch-forecast")
    assert pinned_height(page) <= PHONE["height"] / 3
    line = place.locator("[data-state]")
    expect(line).to_contain_text("NOTICE: Past a stop")
    expect(line).to_contain_text("more below.")
    expect(line).to_contain_text("narrow it most")


def test_in_letters_of_twice_the_size_the_line_stays_in_its_place_and_covers_nothing(open_page: Open) -> None:
    sheet = find_sheet("moisture-target")
    page = open_page(path_of(sheet), viewport={"width": 320, "height": 640})
    page.evaluate("() => { document.documentElement.style.fontSize = '250%'; }")
    place = answer_from_example(page, sheet)
    assert place.locator(".sheet-now").evaluate("line => getComputedStyle(line).position") == "static"
    type_at_the_foot(page, place, 640)
