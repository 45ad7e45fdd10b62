"""Where a learner meets what was tried on this device: the table of results, and what is due again."""

from __future__ import annotations

import json
import re
from typing import TypedDict
from xml.etree.ElementTree import Element

from calculators.drawing.elements import add, html
from calculators.exercises import EXERCISES
from site_src.questions import DOCS, cases, chapters

_FEW_CHARACTERS = 90
_SENTENCE = re.compile(r"[.:?!] ")
_TITLE = re.compile(r"^# Cases: (.+)$", re.MULTILINE)


class Known(TypedDict):
    """What a result belongs to: its chapter, what it is called, and where it is asked, seen from the training page."""

    chapter: str
    said: str
    where: str


def _short(text: str) -> str:
    """The first sentence of a case, cut where it is long."""
    first = _SENTENCE.split(text, maxsplit=1)[0].rstrip(".:?!")
    return first if len(first) <= _FEW_CHARACTERS else first[:_FEW_CHARACTERS].rsplit(" ", 1)[0] + " …"


def _title(chapter: str) -> str:
    found = _TITLE.search((DOCS / "training" / f"questions-{chapter}.md").read_text("utf-8"))
    if found is None:
        raise ValueError(f"the page of the cases “{chapter}” needs a title that begins with “Cases:”")
    return found[1].capitalize()


def known_results() -> dict[str, Known]:
    """Return what each exercise and each case is called and where it is asked, by its id."""
    known = {
        name: Known(
            chapter=exercise.chapter,
            said=f"Sum: {name.replace('-', ' ')}",
            where=f"exercises/#exercises-{exercise.chapter}",
        )
        for name, exercise in EXERCISES.items()
    }
    for chapter in chapters():
        title = _title(chapter)
        for number, case in enumerate(cases(chapter), 1):
            said = f"{title}, case {number}: {_short(case.case)}"
            known[case.id] = Known(chapter=chapter, said=said, where=f"questions-{chapter}/#case-{case.id}")
    return known


def _section(name: str) -> Element:
    known = json.dumps(known_results(), ensure_ascii=False)
    return Element("section", {"class": name, "data-known": known, "data-search-exclude": ""})


def due_html() -> str:
    """Draw the place where what is due again is offered, three at a time."""
    section = _section("coming-back")
    section.set("hidden", "")
    add(section, "p", "exercise-verdict", role="status", data_training="state")
    add(section, "ul", data_training="due")
    return html(section)


def results_html() -> str:
    """Draw the place where a learner sees, saves, brings back and removes results kept on the device."""
    section = _section("results-kept")
    add(section, "p", "exercise-verdict", role="status", data_training="state")
    table = add(section, "table", data_training="table", hidden="")
    add(table, "caption", text="Tried on this device")
    heads = add(add(table, "thead"), "tr")
    for words in ("Question", "Kind", "How it went", "When", "Comes back"):
        add(heads, "th", text=words, scope="col")
    add(table, "tbody", data_training="rows")
    tools = add(section, "div", data_training="tools", hidden="")
    buttons = add(tools, "div", "sheet-buttons")
    for action, words in (
        ("save", "Save as a file"),
        ("bring", "Bring back a file"),
        ("remove", "Remove my results"),
    ):
        add(buttons, "button", type="button", text=words, data_action=action)
    add(tools, "input", type="file", accept="application/json,.json", hidden="", aria_label="A file saved here")
    return html(section)


_DRAWN = {"all": results_html, "due": due_html}


def training_results(which: str) -> str:
    """Draw one of the two places by its name.

    Raises
    ------
    ValueError
        When there is no such place.
    """
    if which not in _DRAWN:
        raise ValueError(f"there is no “{which}” of the results. There are: {', '.join(_DRAWN)}.")
    return _DRAWN[which]()
