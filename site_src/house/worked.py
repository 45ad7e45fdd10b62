"""The worked case of a sheet once more with this house's numbers, below the book's own: each row names what it took."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice, product
from typing import NamedTuple

from calculators.asking.answer import Answered, Joined, NotAnswered, answer, example_of
from calculators.asking.declare import Note, Number, Refusal, Sheet
from calculators.asking.units import shown
from calculators.drawing.links import as_markdown, plain
from calculators.drawing.results import figure
from calculators.exercises.own import is_size
from calculators.house.offers import Offer, offers_for
from calculators.sheets import find_sheet
from site_src.embed import parse
from site_src.house.said import text

_MOST = 4
_READ = {"weighings", "readings", "moisture_drained", "batches"}
"""What is read on a batch, or wished of a week: the example's stands beside no number of this house."""
_FENCE = re.compile(r"^```sheet\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_PART = re.compile(r"^## Worked example$.*?(?=^## |\Z)", re.MULTILINE | re.DOTALL)


def with_worked(markdown: str) -> str:
    """A sheet's page with this house's numbers at the end of its worked example; the same where it offers none."""
    block, part = _FENCE.search(markdown), _PART.search(markdown)
    lines = list(worked_lines(*parse(block[1]))) if block and part else []
    if not part or not lines:
        return markdown
    return f"{markdown[: part.end()].rstrip()}\n\n" + "\n".join(lines) + f"\n\n{markdown[part.end() :]}"


def worked_lines(sheet_id: str, given: dict[str, str]) -> Iterator[str]:
    """The box with what each case comes to, as Markdown; nothing for a guarded sheet, or where nothing is offered."""
    sheet = find_sheet(sheet_id)
    if not (found := cases(sheet, given)):
        return
    ours = answer(sheet, {**example_of(sheet), **given})
    shown_above = {note.text for note in _notes(ours)}
    answered = [(case, list(_said(answer(sheet, case.typed), shown_above))) for case in found]
    rows = [(case, lines) for case, lines in answered if lines]
    if not rows:
        return
    yield from ('<div class="in-house no-terms" markdown>', "")
    yield from ('<p class="in-house-head">With this house’s numbers</p>', "")
    yield "Still an example: what is not named here stays as above, and is invented."
    yield "Above the form the same can be chosen by name."
    for case, lines in rows:
        yield from ("", f"**{text(case.names)}**: {text(case.said)}", "", *(f"- {line}" for line in lines))
    yield from ("", "</div>")


class Case(NamedTuple):
    """A worked case with this house's numbers: how these are called, what they say, and all that is typed."""

    names: str
    said: str
    typed: dict[str, str]


def cases(sheet: Sheet, given: dict[str, str]) -> list[Case]:
    """What of this house is put together into a case, a few at most.

    Things that answer the same question, such as two waters, are taken in turn; things of one value stand once. What
    was read or weighed on the example's batch is left out, and no weight of this house stands beside one of it.
    """
    groups: list[list[Offer]] = []
    for offer in offers_for(sheet):
        same = next((one for one in groups if any(offer.values.keys() & other.values.keys() for other in one)), None)
        if same is None:
            groups.append([offer])
        elif all(other.values != offer.values for other in same):
            same.append(offer)
    found = [_case(sheet, given, some) for some in islice(product(*groups), _MOST)] if groups else []
    return list({tuple(sorted(one.typed.items())): one for one in found if one}.values())


def _case(sheet: Sheet, given: dict[str, str], some: tuple[Offer, ...]) -> Case | None:
    values = {name: value for offer in some for name, value in offer.values.items()}
    typed = {
        name: value
        for name, value in {**example_of(sheet), **given}.items()
        if (asked := sheet.question(name)) is not None and not asked.optional
    }
    for either in sheet.either:
        chosen = [group for group in either.groups if any(name in values for name in group)]
        if chosen:
            for name in {name for group in either.groups if group not in chosen for name in group}:
                typed.pop(name, None)
    if typed.keys() & _READ:
        return None
    if any(is_size(sheet, name) for name in typed.keys() - values.keys()):
        values = {name: value for name, value in values.items() if not is_size(sheet, name)}
    kept = [offer for offer in some if any(name in values for name in offer.values)]
    said = "; ".join(_put(sheet, name, value) for name, value in values.items())
    return Case(", ".join(one.name for one in kept), said, {**typed, **values}) if kept else None


def _put(sheet: Sheet, name: str, value: str) -> str:
    asked = sheet.question(name)
    unit = shown(asked.unit) if isinstance(asked, Number) else ""
    return f"{asked.label if asked else name} {value}{f' {unit}' if unit else ''}"


def _notes(found: Answered | NotAnswered) -> tuple[Note, ...]:
    return found.outcome.notes if isinstance(found, Answered) else ()


def _said(found: Answered | NotAnswered, shown_above: set[str]) -> Iterator[str]:
    """What a case comes to: first the stops that it passes and what else the page's own case does not say."""
    for note in _notes(found):
        if note.level != "remark" and (note.text not in shown_above or note.text.startswith("Past a stop")):
            yield f"**{as_markdown(note.text)}**"
    if isinstance(found, Answered) and isinstance(found.outcome, Refusal):
        yield as_markdown(found.outcome.text)
    elif isinstance(found, Answered):
        yield from (f"{text(one.one.label)}: {_figure(one)}" for one in found.figures if one.one.lead)


def _figure(joined: Joined) -> str:
    if joined.one.kind == "verdict":
        return next((plain(one.label) for one in joined.one.words if one.word == joined.found.value), "—")
    return text(figure(joined.found.value, joined.decimals, joined.one.unit, joined.one.rounds_up))
