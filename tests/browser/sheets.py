"""What the browser tests do with a sheet: find it, type into it, read it."""

import json
import re
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

from calculators.asking.answer import example_of
from calculators.asking.declare import Choice, Number, Sheet, Table, is_private
from calculators.asking.reading import split_rows
from calculators.sheets import find_sheet, sheet_ids

PAGES = Path(__file__).parents[2] / "docs" / "calculators"
SHEETS = [find_sheet(name) for name in sheet_ids() if (PAGES / f"{name}.md").exists()]
READY = 45000  # ms for an answer from a cold start on a busy machine


def path_of(sheet: Sheet) -> str:
    return f"calculators/{sheet.id}/"


def on_small(site: Path) -> list[str]:
    """The sheets that the small engine answers in a built site."""
    (parts,) = (site / "assets/browser").glob("parts.*.mjs")
    found = re.search(r'"startsOnSmall": (\[.*?\])', parts.read_text("utf-8"))
    assert found
    named: list[str] = json.loads(found[1])
    return named


def section(page: Page, sheet: Sheet) -> Locator:
    return page.locator(f"section.sheet[data-sheet={sheet.id}]").first


def open_all(place: Locator) -> None:
    """Unfold all that is folded."""
    place.evaluate("place => place.querySelectorAll('details').forEach(more => { more.open = true; })")


def example(sheet: Sheet) -> dict[str, Any]:
    """The worked case as typed, tables as rows of cells."""
    case: dict[str, Any] = {}
    for name, text in example_of(sheet).items():
        question = sheet.question(name)
        case[name] = split_rows(question, text) if isinstance(question, Table) else text
    return case


def required(sheet: Sheet) -> dict[str, Any]:
    """The part of the worked case that has no default and may not stay blank."""
    return {
        name: value
        for name, value in example(sheet).items()
        if (question := sheet.question(name)) is not None and not question.default and not question.optional
    }


def private(sheet: Sheet) -> dict[str, Any]:
    """The part of the worked case that is about a person, which nothing carries."""
    case = example(sheet)
    return {question.id: case[question.id] for question in sheet.questions if is_private(question)}


def numbers(sheet: Sheet) -> list[Number]:
    return [q for q in sheet.questions if isinstance(q, Number) and q.example and not q.default and not q.optional]


def type_in(place: Locator, sheet: Sheet, values: dict[str, Any]) -> None:
    """Type values with the keyboard, as a person would."""
    for name, value in values.items():
        question = sheet.question(name)
        field = place.locator(f".field[data-question={name}]")
        hidden = place.locator("details.more-questions:not([open])").filter(
            has=place.page.locator(f".field[data-question={name}]")
        )
        if hidden.count():
            hidden.evaluate("more => { more.open = true; }")
        if isinstance(question, Table):
            for number, row in enumerate(value):
                if number >= field.locator("tr[data-row]").count():
                    field.locator("[data-action=add-row]").click()
                boxes = field.locator("tr[data-row]").nth(number).locator("[data-column]")
                for box, text in zip(boxes.all(), row, strict=False):
                    if box.evaluate("box => box.tagName") == "SELECT":
                        box.select_option(text)
                    else:
                        box.fill(text)
        elif isinstance(question, Choice):
            radio = field.locator(f"input[value='{value}']")
            if radio.count():
                radio.press("Space")  # a message that comes in above moves the row away from under a pointer
                expect(radio).to_be_checked()
            else:
                field.locator("select").select_option(value)
        else:
            field.locator("input").fill(value)


def expect_standing(place: Locator, standing: str) -> None:
    """Expect what the results stand for, once everything typed so far has its reply."""
    results = place.locator("[data-results]:not([data-waiting])")
    expect(results).to_have_attribute("data-standing", standing, timeout=READY)


def answer_from_example(page: Page, sheet: Sheet) -> Locator:
    """Type the worked case's numbers in and wait for the answer."""
    place = section(page, sheet)
    type_in(place, sheet, example(sheet))
    expect_standing(place, "answered")
    return place


def pinned_height(page: Page) -> float:
    """How much of the screen the line takes that stays in view [px]."""
    high: float = page.evaluate("() => document.querySelector('.sheet-now:has([data-pinned])').offsetHeight")
    return high


def places(place: Locator) -> dict[str, str]:
    """The words and figures that stand in each place of the results."""
    read: dict[str, str] = place.evaluate("section => helpers.places(section)")
    return read


def kept_on_device(page: Page) -> dict[str, Any]:
    kept: dict[str, str] = page.evaluate("() => ({...localStorage})")
    return {key: json.loads(text) for key, text in kept.items() if "sheet:" in key}
