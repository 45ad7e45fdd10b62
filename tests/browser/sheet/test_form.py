"""How one form behaves while a person types."""

import re

import pytest
from playwright.sync_api import Locator, Page, expect

from calculators.sheets import find_sheet
from tests.browser.conftest import Open
from tests.browser.sheets import READY, expect_standing, kept_on_device, path_of, places, section

pytestmark = pytest.mark.browser
SHEET = find_sheet("moisture-target")
CASE = {"Barley weight": "5000", "Barley moisture": "12", "Target moisture": "45"}


def fill(place: Locator, **changed: str) -> None:
    for label, text in {**CASE, **{name.replace("_", " "): text for name, text in changed.items()}}.items():
        place.get_by_label(label).first.fill(text)


def opened(way: Open) -> tuple[Page, Locator]:
    page = way(path_of(SHEET))
    return page, section(page, SHEET)


def lead(place: Locator) -> str:
    return place.locator(".answer.lead .figure").first.inner_text()


def test_a_decimal_comma_and_a_typed_unit_are_understood(visit: Open) -> None:
    _, place = opened(visit)
    fill(place, Barley_moisture="12.5")
    expect_standing(place, "answered")
    plain = lead(place)
    place.get_by_label("Barley moisture").fill("12,5 %")
    place.get_by_label("Barley weight").fill("5 t")
    expect(place.locator("[data-place=heading]")).to_contain_text("12.5 %")
    expect_standing(place, "answered")
    assert lead(place) == plain
    expect(place.get_by_label("Barley moisture")).to_have_value("12,5 %")


def test_what_is_missing_is_said_and_the_example_stands(visit: Open) -> None:
    _, place = opened(visit)
    place.get_by_label("Barley weight").fill("5000")
    expect(place.locator("[data-state]")).to_contain_text("2 more to fill in", timeout=READY)
    expect_standing(place, "example")
    assert place.locator("[data-error]:not([hidden])").count() == 0


def test_a_blank_makes_the_answer_old_and_a_number_makes_it_new(visit: Open) -> None:
    _, place = opened(visit)
    fill(place)
    expect_standing(place, "answered")
    box = place.get_by_label("Target moisture")
    box.fill("")
    expect_standing(place, "old")
    expect(place.locator("[data-state]")).to_contain_text("1 more to fill in")
    box.fill("44")
    expect_standing(place, "answered")
    expect(place.locator(".standing-note")).to_be_hidden()


def still(page: Page) -> None:
    """Stop the page's clock: from now on no pause of the reader's passes."""
    page.clock.pause_at(page.evaluate("() => Date.now()") + 60_000)


def test_no_message_in_the_middle_of_a_number(open_page: Open) -> None:
    page = open_page(path_of(SHEET), before=lambda page: page.clock.install())
    place = section(page, SHEET)
    fill(place)
    expect_standing(place, "answered")
    box = place.get_by_label("Target moisture")
    box.fill("")
    place.evaluate("section => helpers.watchErrors(section)")
    still(page)
    for key in "44.5":  # "4" alone is out of range
        box.press(key)
        page.clock.run_for(150)
        page.wait_for_timeout(100)  # for the engine's reply
    expect(place.locator("[data-place=heading]")).to_contain_text("44.5 %")
    assert not any(page.evaluate("() => seen"))


def test_leaving_a_field_says_at_once_what_is_wrong(open_page: Open) -> None:
    page = open_page(path_of(SHEET), before=lambda page: page.clock.install())
    place = section(page, SHEET)
    fill(place)
    expect_standing(place, "answered")
    still(page)
    place.get_by_label("Target moisture").fill("4")
    place.get_by_label("Target moisture").press("Tab")
    expect(place.locator("[data-error]:not([hidden])")).to_have_count(1)


def test_a_message_does_not_move_what_is_being_pressed(open_page: Open) -> None:
    page = open_page(path_of(SHEET), before=lambda page: page.clock.install())
    place = section(page, SHEET)
    fill(place)
    expect_standing(place, "answered")
    still(page)
    more = place.locator("details.more-questions")
    more.scroll_into_view_if_needed()
    place.get_by_label("Target moisture").fill("4")
    page.clock.run_for(100)
    page.wait_for_timeout(500)  # for the engine's reply, which waits for a pause
    box = more.locator("summary").bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.wait_for_timeout(100)
    page.mouse.up()
    expect(more).to_have_attribute("open", "")
    page.clock.run_for(50)
    expect(place.locator("[data-error]:not([hidden])")).to_have_count(1)


def test_enter_goes_to_the_first_thing_to_put_right(visit: Open) -> None:
    _, place = opened(visit)
    fill(place, Barley_weight="heavy")
    place.get_by_label("Target moisture").press("Enter")
    expect(place.get_by_label("Barley weight")).to_be_focused(timeout=READY)


def test_each_message_is_read_out_once(visit: Open) -> None:
    _, place = opened(visit)
    fill(place)
    expect_standing(place, "answered")
    place.locator(".sheet-voice").evaluate("voice => helpers.listen(voice)")
    box = place.get_by_label("Target moisture")
    box.fill("4")
    expect(place.locator("[data-error]:not([hidden])")).to_have_count(1)
    box.press("End")
    box.press_sequentially("xyz", delay=30)
    expect(place.locator("[data-error]:not([hidden])")).to_contain_text("“xyz”")
    place.page.wait_for_timeout(300)
    said = place.page.evaluate("() => said")
    assert len([text for text in said if "Target moisture" in text]) == 2, said
    assert len(said) == len(set(said))


def test_the_focus_and_the_caret_stay(visit: Open) -> None:
    _, place = opened(visit)
    fill(place)
    expect_standing(place, "answered")
    box = place.get_by_label("Barley weight")
    box.click()
    box.press("Home")
    box.press("1")
    expect(place.locator("[data-place=heading]")).to_contain_text("15000 kg")
    expect(box).to_be_focused()
    assert box.evaluate("box => box.selectionStart") == 1


def test_clear_loses_nothing(visit: Open) -> None:
    page, place = opened(visit)
    fill(place)
    expect_standing(place, "answered")
    before = places(place)
    place.locator("[data-action=clear]").click()
    expect_standing(place, "example")
    expect(place.locator(".standing")).to_have_text("Example")
    expect(place.get_by_label("Barley weight")).to_have_value("")
    assert kept_on_device(page) == {}
    place.locator("[data-action=put-back]").click()
    expect_standing(place, "answered")
    expect(place.get_by_label("Barley weight")).to_have_value("5000")
    assert places(place)["answers"] == before["answers"]


def test_what_was_typed_is_there_next_time(visit: Open) -> None:
    page, place = opened(visit)
    fill(place)
    expect_standing(place, "answered")
    answers = places(place)["answers"]
    page.reload()
    expect_standing(place, "answered")
    expect(place.get_by_label("Barley weight")).to_have_value("5000")
    expect(place.locator("[data-state]")).to_contain_text("typed on this device")
    assert places(place)["answers"] == answers


def test_an_example_kept_on_the_device_is_still_an_example(visit: Open) -> None:
    page, place = opened(visit)
    place.locator("[data-action=example]").click()
    expect_standing(place, "answered")
    page.reload()
    expect_standing(place, "answered")
    expect(place.locator(".standing")).to_contain_text("Example")


def test_the_example_filled_in_is_the_example_until_a_number_is_changed(visit: Open) -> None:
    _, place = opened(visit)
    place.locator("[data-action=example]").click()
    expect_standing(place, "answered")
    expect(place.locator(".standing")).to_have_text("Example")
    pinned = place.locator("[data-state][data-pinned]")
    expect(pinned).to_have_text(re.compile(r"^Example: \S"))
    assert place.locator(".of-example").first.inner_text() == "Example"
    place.get_by_label("Barley weight").fill("6100")
    expect(place.locator(".standing")).to_have_text("Example, changed by you")
    expect(pinned).to_have_text(re.compile("^Example, changed by you: "))
    fill(place, Weight_now="9000")
    expect(place.locator(".standing")).to_have_text("Your numbers")
    expect(pinned).not_to_contain_text("Example")
    assert place.locator(".of-example").count() == 0


def test_a_link_wins_over_what_was_typed(visit: Open, address: str) -> None:
    page, place = opened(visit)
    fill(place)
    expect_standing(place, "answered")
    page.goto(
        f"{address}{path_of(SHEET)}?sheet=moisture-target&barley_kg=7000&barley_moisture=12+%25&target_moisture=44"
    )
    expect_standing(place, "answered")
    expect(place.get_by_label("Barley weight")).to_have_value("7000")
    expect(place.locator("[data-place=heading]")).to_contain_text("7000 kg")
    place.get_by_label("Barley weight").fill("7100")
    expect(page).to_have_url(re.compile(r"/moisture-target/$"))


@pytest.mark.further(keep=1)
@pytest.mark.parametrize(
    "query",
    [
        "sheet=moisture-target&barley_kg=<img src=x onerror=alert(1)>&target_moisture=%00%E2%80%AE",
        "sheet=moisture-target&barley_kg=NaN&barley_moisture=1e999&target_moisture=-0",
        "sheet=moisture-target&__proto__=1&constructor=2&barley_kg=" + "9" * 5000,
        "sheet=<script>&barley_kg=1",
        "sheet=moisture-target&barley_kg=%FF%FE&nothing=1",
    ],
)
def test_a_hostile_link_is_only_text(visit: Open, query: str) -> None:
    page = visit(f"{path_of(SHEET)}?{query}")
    place = section(page, SHEET)
    page.wait_for_timeout(300)  # for a script that ought not to be there; a dialog fails every test
    assert place.locator("img, script").count() == 0
    fill(place)
    expect_standing(place, "answered")
