"""Ask a sheet as the command line does, with its example for what is not given."""

from __future__ import annotations

from typing import Any

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.asking.declare import Outcome, Picture
from calculators.asking.reading import Problem
from calculators.sheets import find_sheet


def ask(sheet_id: str, **given: Any) -> dict[str, Any]:
    """The JSON of schema 1 for the sheet's example with these questions changed."""
    sheet = find_sheet(sheet_id)
    result = answer(sheet, {**example_of(sheet), **given})
    assert isinstance(result, Answered), result
    return as_json(result)


def values(sheet_id: str, **given: Any) -> dict[str, Any]:
    """The answers' values by id."""
    return {name: entry["value"] for name, entry in ask(sheet_id, **given)["answers"].items()}


def wrong(sheet_id: str, **given: Any) -> list[Problem]:
    """What has to be put right."""
    sheet = find_sheet(sheet_id)
    result = answer(sheet, {**example_of(sheet), **given})
    assert not isinstance(result, Answered), result
    return list(result.problems)


def said(sheet_id: str, **given: Any) -> str:
    """The text of the only thing to put right."""
    (problem,) = wrong(sheet_id, **given)
    return problem.text


def notes(sheet_id: str, **given: Any) -> str:
    """All notes in one text, each with its level in front."""
    return "\n".join(f"{n['level']}: {n['text']}" for n in ask(sheet_id, **given)["notes"])


def drawn(sheet_id: str, **given: Any) -> tuple[Picture, ...]:
    """The pictures, as data."""
    return outcome(sheet_id, **given).charts


def outcome(sheet_id: str, **given: Any) -> Outcome:
    """What the sheet's own working gave."""
    sheet = find_sheet(sheet_id)
    result = answer(sheet, {**example_of(sheet), **given})
    assert isinstance(result, Answered) and isinstance(result.outcome, Outcome), result
    return result.outcome
