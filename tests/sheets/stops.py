"""What a property about stops needs: the edge that a value passes, and the stops that an answer says."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from calculators.asking.answer import Answered, answer, as_json, example_of
from calculators.asking.figures import plain_number
from calculators.asking.units import shown
from calculators.rules.limit import Limit
from calculators.rules.limits import every
from calculators.sheets import find_sheet

LIMITS = {row.id: row for row in every() if isinstance(row, Limit)}
LEADS = ("Past a stop", "Stop after")
Result = dict[str, Any]


def past(name: str, value: float | None) -> Iterator[tuple[str, str]]:
    """The edge, with its unit, that a value passes: what a stop has to name."""
    row = LIMITS[name]
    unit = f" {shown(row.unit)}"
    if value is not None and row.stop_low is not None and value < row.stop_low:
        yield name, f"under {plain_number(row.stop_low)}{unit}"
    high = row.stop_high
    if value is not None and high is not None and (value > high or (row.stay_under and value == high)):
        yield name, f"{plain_number(high)}{unit}"


def stops_said(result: Result) -> str:
    """The stops among the notes that stand before the answers."""
    return " ".join(n["text"] for n in result["notes"] if n["level"] == "notice" and n["text"].startswith(LEADS))


def check(result: Result, found: Iterator[tuple[str, str]]) -> None:
    said = stops_said(result)
    for name, edge in found:
        assert edge in said, f"{name}: past {edge}, and no stop says so: {said!r}"


def asked(sheet_id: str, **given_values: str) -> Result | None:
    """The answer, or None where the sheet asks again."""
    sheet = find_sheet(sheet_id)
    found = answer(sheet, {**example_of(sheet), **given_values})
    if isinstance(found, Answered):
        return as_json(found)
    assert not any("asks no question" in problem.text for problem in found.problems)
    return None
