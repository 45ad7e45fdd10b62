"""A sheet in a page: its form and worked case at build, and new answers in the browser."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any
from xml.etree.ElementTree import Element

from .asking.answer import Answered, NotAnswered, answer, example_of
from .asking.clocks import clocks_of
from .asking.declare import SHARED_HOURS, Refusal, Sheet
from .asking.figures import minus_signs
from .asking.progress import listening
from .drawing.elements import add, html
from .drawing.form import draw_form, example_json
from .drawing.results import given_to_others, place_elements, places
from .sheets import find_sheet
from .words.clocks import with_the_change

_BUTTONS = (
    ("example", "Fill in the example"),
    ("clear", "Clear"),
    ("print", "Print a card"),
    ("link", "Link to these numbers"),
)
_GUARDED_LINK = "Link as a training example"
"""On sheets about gas, vessels and lifting no link carries a reader's numbers: only what a trainer calls an example."""


def worked_case(sheet: Sheet, given: Mapping[str, str]) -> Answered:
    """The worked case of a page: the sheet's example with the page's own values put in.

    A value given for one of two alternatives takes the other alternative's example away.

    Raises
    ------
    ValueError
        When a value is wrong or missing; one line for each.
    """
    case = {**example_of(sheet), **given}
    for either in sheet.either:
        chosen = [group for group in either.groups if any(name in given for name in group)]
        for group in either.groups:
            if chosen and group not in chosen:
                for name in group:
                    case.pop(name, None)
    result = answer(sheet, case)
    if isinstance(result, NotAnswered):
        raise ValueError("\n".join(problem.text for problem in result.problems))
    return result


def embed(sheet_id: str, given: Mapping[str, str], prefix: str) -> str:
    """The HTML of a sheet: the form, blank but for defaults, and the worked case, answered.

    Parameters
    ----------
    sheet_id : str
        Which sheet.
    given : mapping of str to str
        The page's own worked case: values in place of the sheet's examples.
    prefix : str
        Put in front of every id, so that several sheets may stand on one page.

    Raises
    ------
    ValueError
        When there is no such sheet, or the worked case cannot be answered.
    """
    try:
        sheet = find_sheet(sheet_id)
    except LookupError as error:
        raise ValueError(str(error)) from None
    case = worked_case(sheet, given)
    section = Element(
        "section",
        {
            "class": "sheet",
            "id": prefix,
            "data-sheet": sheet.id,
            "data-guarded": "yes" if sheet.guarded else "no",
            "data-needs": " ".join(sheet.needs),
            **({"data-for-wall": "yes"} if sheet.for_wall else {}),
            "data-shared-hours": str(SHARED_HOURS),
            "aria-labelledby": f"{prefix}-title",
            "data-search-exclude": "",
        },
    )
    add(section, "h2", "sheet-title", sheet.title, id=f"{prefix}-title")
    add(section, "p", "sheet-purpose", sheet.purpose)
    if sheet.guarded:
        add(section, "p", "hint", "Nothing typed here is kept: who comes back types anew what is true then.")
    add(
        add(section, "noscript"),
        "p",
        text="Without scripts this page cannot work out your own numbers. The worked example stands.",
    )
    from .house.offers import draw_offers  # at build only: what a house offers stands in the page

    offers = draw_offers(sheet, prefix)
    if offers is not None:
        section.append(offers)
    section.append(draw_form(sheet, prefix))
    bar = add(section, "div", "sheet-bar")
    now = add(bar, "div", "sheet-now")
    add(now, "p", "sheet-state", role="status", aria_live="polite", data_state="")
    add(now, "progress", "sheet-progress", max="100", value="0", hidden="", aria_label="How far it is")
    add(now, "button", type="button", data_action="stop", text="Stop", hidden="")
    buttons = add(bar, "div", "sheet-buttons")
    for action, words in _BUTTONS:
        if action == "example" and sheet.guarded:
            continue
        if action == "link" and sheet.guarded:
            words = _GUARDED_LINK
        add(buttons, "button", type="button", data_action=action, text=words)
    from .papers.page import paper_links  # at build only: in the browser a sheet needs no record sheet

    links = paper_links(sheet)
    if links is not None:
        bar.append(links)
    section.append(_results(case, prefix))
    values = {**{k: v for k, v in example_of(sheet).items() if case.values[k] is not None}, **given}
    # Not a script element: the theme's instant navigation makes every one of those anew, and runs it.
    section.set("data-example", example_json(sheet, values))
    return html(section)


_KEPT_SHUT = {
    "working": "How it was worked out, and how far to trust it",
    "data": "The chart’s numbers",
}


def _results(case: Answered, prefix: str) -> Element:
    box = Element("div", {"class": "results", "data-results": "", "data-standing": "example"})
    for name, place in place_elements(case, prefix, None, example=True).items():
        if name == "data" and not len(place):
            continue
        if name in _KEPT_SHUT:
            outer = add(box, "details", name)
            add(outer, "summary", text=_KEPT_SHUT[name])
            outer.append(place)
        else:
            box.append(place)
    return box


def status(missing: list[str]) -> str:
    """What the status line says while something is still blank."""
    if not missing:
        return ""
    return f"{len(missing)} more to fill in: {', '.join(missing)}."


_ASKED_OF = {
    "exercise": "exercises.page",
    "paper": "papers.page",
    "code": "drawing.code",
    "daybook": "daybook.page",
    "practice": "practice.page",
    "competence": "competence.page",
}
"""Word in a request -> what answers it. Each is imported when it is first asked: a sheet's page needs none of them."""


_HALF = re.compile(r"[\ud800-\udfff]")


def _whole(given: Any) -> Any:
    """What was sent, with the sign for what is unknown in the place of half characters: not every engine knows them."""
    if isinstance(given, str):
        return _HALF.sub("\ufffd", given)
    if isinstance(given, list):
        return [_whole(one) for one in given]
    if isinstance(given, dict):
        return {_whole(name): _whole(one) for name, one in given.items()}
    return given


def respond(request: str, told: Callable[[str, float], object] | None = None) -> str:
    """Answer one request of the page.

    Parameters
    ----------
    request : str
        JSON: ``sheet``, ``prefix``, ``root``, ``questions`` (raw text or rows of cells by id),
        ``from_example`` (ids still holding the example's value), ``unchanged`` (whether the form holds the page's
        worked case and nothing else), ``lent`` (by id, where a value comes from that was not typed here), ``date``,
        ``clocks`` (when they are changed, as ``asking.clocks`` has it).
    told : callable, optional
        Told how far a long working is: the step in words, and percent done.

    Returns
    -------
    str
        JSON: ``state`` (answered, refused, incomplete or wrong), ``missing``, ``errors``,
        ``places``, ``status``; ``gives``, what the answers say to shared questions of other sheets, by id.
    """
    asked = json.loads(request)
    if "\\ud" in request.lower():
        asked = _whole(asked)
    for word, room in _ASKED_OF.items():
        if word in asked:
            reply_of: Callable[[dict[str, Any]], str] = import_module(f".{room}", __package__).respond
            return reply_of(asked)
    sheet = find_sheet(asked["sheet"])
    with listening(told):
        result = answer(sheet, asked["questions"])
    if isinstance(result, Answered):
        result = with_the_change(result, clocks_of(asked.get("clocks")))
    reply: dict[str, object] = {"missing": [], "errors": [], "places": {}, "status": ""}
    if isinstance(result, NotAnswered):
        labels = {question.id: question.label for question in sheet.questions}
        missing = list(dict.fromkeys(labels[p.question].lower() for p in result.problems if p.missing))
        errors = [
            {
                "question": p.question,
                "text": minus_signs(p.text),
                **({"row": p.row} if p.row else {}),
                **({"column": p.column} if p.column else {}),
            }
            for p in result.problems
            if not p.missing
        ]
        reply.update(
            state="wrong" if errors else "incomplete",
            missing=missing,
            errors=errors,
            status=status(missing),
        )
        return json.dumps(reply)
    still = [question.label.lower() for question in sheet.questions if question.id in asked.get("from_example", ())]
    reply["state"] = "refused" if isinstance(result.outcome, Refusal) else "answered"
    reply["places"] = places(
        result,
        asked["prefix"],
        asked["root"],
        example=bool(still),
        still_example=None if asked.get("unchanged") else still,
        lent=asked.get("lent", {}),
        date=asked.get("date", ""),
    )
    reply["gives"] = {} if still else given_to_others(result)
    return json.dumps(reply)
