"""What holds on the page of every sheet. Each is opened and filled in once; what is asked then goes on from there."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from calculators import __version__
from calculators.asking.declare import Sheet, Table, is_private
from calculators.page import respond
from tests.browser.conftest import PHONE, Open, Watch
from tests.browser.printed import CONTROLS, expect_readable, needs_poppler, text_of
from tests.browser.sheets import (
    READY,
    SHEETS,
    answer_from_example,
    example,
    expect_standing,
    numbers,
    path_of,
    pinned_height,
    places,
    private,
    section,
    type_in,
)
from tests.drawn import WHOLE

pytestmark = pytest.mark.browser


def kinds_of(sheet: Sheet) -> set[tuple[str, bool]]:
    """All that makes a form behave otherwise than another: its fields, and whether no link brings numbers to it."""
    fields = {type(field).__name__ for field in sheet.questions}
    tables = [field for field in sheet.questions if isinstance(field, Table)]
    fields |= {f"{type(cell).__name__} in a row" for table in tables for cell in table.columns}
    fields |= {"about a person"} if any(map(is_private, sheet.questions)) else set()
    fields |= {"a number that has to be typed"} if numbers(sheet) else set()
    return {(field, sheet.guarded) for field in fields}


def of_each_kind() -> list[Sheet]:
    """Sheets that have every kind between them, those with little to type; in `make fuzz` one of each mixture."""
    # The week is typed in `test_week_page`: to plan it takes as long as all others.
    sheets = [sheet for sheet in SHEETS if WHOLE or not sheet.for_wall]
    mixtures = {frozenset(kinds_of(sheet)): sheet for sheet in sorted(sheets, key=to_type, reverse=True)}
    taken: list[Sheet] = []
    missing = set().union(*mixtures)
    while missing:
        best = max(mixtures.values(), key=lambda sheet: len(kinds_of(sheet) & missing) / to_type(sheet))
        taken.append(best)
        missing -= kinds_of(best)
    return list(mixtures.values()) if WHOLE else taken


def to_type(sheet: Sheet) -> int:
    """How many boxes its worked case fills."""
    return sum(sum(map(len, value)) if isinstance(value, list) else 1 for value in example(sheet).values())


OF_EACH_KIND = of_each_kind()
SEEN_WHOLE = [sheet for sheet in SHEETS if WHOLE or sheet.guarded or sheet.for_wall or sheet in OF_EACH_KIND]
"""Where paper and the page without scripts are looked at: what can hurt, and one of each kind."""


@pytest.fixture(scope="module")
def plain(browser: Browser, address: str) -> Iterator[Page]:
    """A page without scripts."""
    watch = Watch(address)
    page = watch.new_page(browser, java_script_enabled=False)
    yield page
    page.context.close()
    watch.check()


@pytest.mark.further(keep=4)
@pytest.mark.drawn
@pytest.mark.parametrize("sheet", SEEN_WHOLE, ids=lambda sheet: sheet.id)
def test_the_worked_case_stands_without_scripts(plain: Page, address: str, sheet: Sheet) -> None:
    plain.goto(address + path_of(sheet))
    place = section(plain, sheet)
    heading = "EXAMPLE, NOT YOUR VESSEL" if sheet.guarded else "Example"
    expect(place.locator(".standing")).to_have_text(heading)
    expect(place.locator(".answer").first).to_be_visible()
    for one in sheet.answers:
        if one.lead and place.locator(f"[data-answer={one.id}]").count():
            assert place.locator(f"[data-answer={one.id}] .figure :is(.number, .verdict)").inner_text().strip()
    figures = place.locator(".answer .figure")
    expect(figures.locator(".of-example")).to_have_count(figures.count())
    for button in place.locator("button").all():
        assert not button.is_visible(), "a button that does nothing without scripts"


class Filled(NamedTuple):
    """A sheet on its page, with the numbers of its worked case in the form, and answered."""

    sheet: Sheet
    page: Page
    place: Locator


@pytest.fixture(scope="module", params=SHEETS, ids=lambda sheet: sheet.id)
def filled(request: pytest.FixtureRequest, visit: Open) -> Filled:
    sheet: Sheet = request.param
    page = visit(path_of(sheet))
    place = section(page, sheet)
    place.evaluate("(section, questions) => helpers.ask(section, questions)", example(sheet))
    expect_standing(place, "answered")
    return Filled(sheet, page, place)


@pytest.mark.further(keep=8)
def test_own_numbers_are_answered(filled: Filled) -> None:
    expect_own_numbers(filled.place)
    assert pinned_height(filled.page) <= PHONE["height"] / 3


def expect_own_numbers(place: Locator) -> None:
    expect(place.locator(".standing")).to_have_text("Your numbers")
    expect(place.locator(".answer").first).to_be_visible()
    expect(place.locator("[data-state]")).not_to_have_text("")
    said = place.locator("[data-state]").inner_text()
    assert not re.search(r"\.[.:,]|: :|undefined|null", said), said


@pytest.mark.further(keep=10)
def test_both_pythons_show_the_same(filled: Filled) -> None:
    """The worked case in CPython and in the browser, to every digit, word and coordinate shown."""
    request = {
        "sheet": filled.sheet.id,
        "prefix": filled.sheet.id,
        "root": "../../",
        "questions": example(filled.sheet),
        "from_example": [],
        "date": "",
    }
    reply = json.loads(respond(json.dumps(request)))
    assert reply["state"] == "answered", reply["errors"] or reply["missing"]
    shown = filled.place.evaluate("section => helpers.html(section)")
    for name, html in reply["places"].items():
        if name == "print" or name not in shown:  # the card carries the time of printing
            continue
        assert shown[name] == filled.page.evaluate("html => helpers.normal(html)", html), name


@pytest.mark.further(keep=8)
@needs_poppler
@pytest.mark.drawn
def test_a_card_is_one_page_with_questions_answers_version_and_a_line_to_sign(filled: Filled, tmp_path: Path) -> None:
    sheet, page, place = filled
    if sheet not in SEEN_WHOLE:
        return
    place.locator("[data-action=print]").click()
    expect(page.locator("body.prints-card")).to_have_count(1, timeout=READY)  # the card waits for its code
    expect_readable(page, sheet.id)
    text, count = text_of(page, tmp_path)
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    assert page.locator("body.prints-card").count() == 0
    assert count == 1
    for words in CONTROLS:
        assert words not in text
    assert sheet.title in text
    assert "Your numbers" in text
    assert __version__ in text
    assert ("____" in text) != sheet.guarded  # nobody signs a sum about gas, a vessel or a lift
    if sheet.guarded:
        assert "NOT A PERMIT" in text  # in a line of the card too, for who copies its words
        assert "Checked by" not in text and "Batch:" not in text
    figure = place.locator(".answer .figure").first.inner_text().split()[0]
    assert figure in text


@pytest.fixture(scope="module", params=OF_EACH_KIND, ids=lambda sheet: sheet.id)
def typed(request: pytest.FixtureRequest, visit: Open) -> Filled:
    """A sheet of each kind, filled in by the keyboard; what its form does hangs on nothing else."""
    sheet: Sheet = request.param
    page = visit(path_of(sheet))
    return Filled(sheet, page, answer_from_example(page, sheet))


@pytest.mark.drawn
def test_what_the_keyboard_types_is_answered(typed: Filled) -> None:
    expect_own_numbers(typed.place)


@pytest.mark.drawn
def test_a_link_carries_the_numbers(typed: Filled, visit: Open, address: str) -> None:
    sheet, _, place = typed
    said = places(place)
    place.locator("[data-action=link]").click()
    link = place.locator(".sheet-link input").input_value()
    assert link.startswith(address + path_of(sheet))
    visit(link.removeprefix(address))
    type_in(place, sheet, private(sheet))
    expect_standing(place, "answered")
    again = places(place)
    for name in ("answers", "tables") if sheet.guarded else ("heading", "answers", "tables"):
        # what travels from a guarded sheet is an example, and says so beside each figure
        shown = again[name].replace("Example", "") if sheet.guarded else again[name]
        assert shown.split() == said[name].split()
    if sheet.guarded:
        assert "&example=yes#" in link
        expect(place.locator(".standing")).to_have_text("EXAMPLE, NOT YOUR VESSEL")


@pytest.mark.drawn
def test_a_wrong_number_is_kept_and_said_beside_its_field(typed: Filled) -> None:
    sheet, _, place = typed
    if not numbers(sheet):
        return
    question = numbers(sheet)[0]
    field = place.locator(f".field[data-question={question.id}]")
    box = field.locator("input")
    box.click()
    box.fill("abc")
    error = field.locator("[data-error]")
    expect(error).to_be_visible()
    expect(error).to_contain_text(question.label)
    expect(box).to_have_value("abc")
    expect(box).to_have_attribute("aria-invalid", "true")
    expect(box).to_be_focused()
    assert error.get_attribute("id") in (box.get_attribute("aria-describedby") or "").split()
    if sheet.guarded:
        expect_standing(place, "blank")
        assert not any(places(place).values())
    else:
        expect_standing(place, "old")
        expect(place.locator(".standing-note")).to_be_visible()
        expect(place.locator(".answer").first).to_be_visible()
    # cleared at once, not after a pause
    assert not box.evaluate("box => helpers.type(box, 'abc1', '[data-error]:not([hidden])')")


@pytest.mark.drawn
def test_the_example_fills_the_form_and_stays_an_example(typed: Filled) -> None:
    sheet, _, place = typed
    button = place.locator("[data-action=example]")
    if sheet.guarded:
        assert button.count() == 0
        return
    button.click()
    expect_standing(place, "answered")
    expect(place.locator(".standing")).to_have_text("Example")
    expect(place.locator("[data-state]")).to_have_text(re.compile("^Example: "))
    expect(place.locator("[data-from-example]")).to_have_count(len(example(sheet)))
    if numbers(sheet):
        name = numbers(sheet)[0].id
        place.locator(f".field[data-question={name}] input").press("End")
        place.locator(f".field[data-question={name}] input").press("0")
        expect(place.locator(f".field[data-question={name}]")).not_to_have_attribute("data-from-example", "")
