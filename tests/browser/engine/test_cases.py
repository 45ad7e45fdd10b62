"""The worked cases in CPython and in the browser agree to every digit, word and coordinate shown."""

import json

import pytest

from calculators.asking.declare import Sheet
from calculators.page import respond
from tests.browser.conftest import Open
from tests.browser.sheets import SHEETS, example, expect_standing, path_of, section

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_both_pythons_show_the_same(visit: Open, sheet: Sheet) -> None:
    page = visit(path_of(sheet))
    place = section(page, sheet)
    questions = example(sheet)
    shown = place.evaluate("(section, questions) => helpers.ask(section, questions)", questions)
    request = {
        "sheet": sheet.id,
        "prefix": sheet.id,
        "root": "../../",
        "questions": questions,
        "from_example": [],
        "date": "",
    }
    reply = json.loads(respond(json.dumps(request)))
    assert reply["state"] in ("answered", "refused"), reply["errors"] or reply["missing"]
    expect_standing(place, reply["state"])
    for name, html in reply["places"].items():
        if name == "print" or name not in shown:  # the card carries the time of printing
            continue
        same = page.evaluate("html => helpers.normal(html)", html)
        assert shown[name] == same, f"{name} for {questions}"
