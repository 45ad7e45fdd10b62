"""The same cases in CPython and in the browser agree to every digit, word and coordinate shown."""

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator

from calculators.declare import Sheet
from calculators.page import respond
from tests.browser.conftest import Open
from tests.browser.sheets import SHEETS, example, expect_standing, path_of, required, section

pytestmark = pytest.mark.browser
CASES = Path(__file__).parents[1] / "cases"


def cases_of(sheet: Sheet) -> list[dict[str, Any]]:
    """The worked case, its needed part alone, and the table of cases where the sheet has one."""
    table = CASES / f"{sheet.id}.json"
    listed = json.loads(table.read_text("utf-8")) if table.exists() else []
    return [example(sheet), required(sheet), *(case["questions"] if "questions" in case else case for case in listed)]


def ask_in_page(place: Locator, questions: dict[str, Any]) -> dict[str, str]:
    """Put values in as a link would, wait for their answer and read every place as HTML."""
    reply: dict[str, str] = place.evaluate(
        """async (section, questions) => {
          const before = performance.getEntriesByName('sheet-answered').length;
          for (const field of section.querySelectorAll('[data-question]')) {
            const value = questions[field.dataset.question] ?? '';
            if (field.dataset.kind === 'table') {
              const rows = () => [...field.querySelectorAll('tr[data-row]')];
              while (rows().length < value.length) field.querySelector('[data-action=add-row]').click();
              rows().forEach((row, at) => [...row.querySelectorAll('[data-column]')].forEach((box, column) => {
                box.value = value[at]?.[column] ?? '';
              }));
            } else if (field.querySelector('input[type=radio]')) {
              field.querySelectorAll('input[type=radio]').forEach(box => { box.checked = box.value === value; });
            } else {
              const box = field.querySelector('input, select');
              box.value = value || box.defaultValue || '';
            }
          }
          section.querySelector('.sheet-form input').dispatchEvent(new Event('input', {bubbles: true}));
          while (performance.getEntriesByName('sheet-answered').length === before) await new Promise(done => setTimeout(done, 10));
          return Object.fromEntries([...section.querySelectorAll('[data-place]')].map(place => [place.dataset.place, place.innerHTML]));
        }""",
        questions,
    )
    return reply


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_both_pythons_show_the_same(open_page: Open, sheet: Sheet) -> None:
    page = open_page(path_of(sheet))
    place = section(page, sheet)
    for questions in cases_of(sheet):
        shown = ask_in_page(place, questions)
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
            same = place.evaluate(
                """(section, html) => { const box = document.createElement('div'); box.innerHTML = html; return box.innerHTML; }""", html
            )
            assert shown[name] == same, f"{name} for {questions}"
