"""Draws what shows an edge of the steep, with the edges moved as the caller says.

Run as a program, since a limit is read when its module is imported: edges come in and texts go out as JSON.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterator

from calculators.rules import house
from calculators.rules.limits import every
from tests.rules.moved import texts_of

COLD = {"water_temp_c": "4.1", "target_moisture": "49.3", "stages": "7.7; 25.3; 7.7; 11.7; 2.7"}
CASES: dict[str, tuple[dict[str, str], ...]] = {
    "steep-timing": ({}, COLD, {**COLD, "target_moisture": "46.6"}, {"stages": "25.3; 3.3; 25.3"}),
    "steep-fit": ({}, {**COLD, "weighings": "7.3 203"}),
    "steep-plan": (
        {"water_sensitivity": "41"},
        {"fill_minutes": "131", "drain_minutes": "101", "shortest_rest_h": "6.6", "water_temp_c": "21.7"},
        {"target_moisture": "49.3", "longest_immersion_h": "11.7"},
    ),
    "cast-decision": (
        {"moisture_drained": "37.7", "target_moisture": "45.7", "chitted": "195", "water_temp_c": "4.1"},
    ),
}


def drawn() -> dict[str, str]:
    """The declaration of each sheet and what it answers in cases past its stops; the day-book's steps."""
    from calculators.answer import Answered, answer, example_of, find_sheet

    found: dict[str, str] = {}
    for name, cases in CASES.items():
        sheet = find_sheet(name)
        said = [*texts_of(sheet._replace(work=None))]  # type: ignore[arg-type]
        for case in cases:
            result = answer(sheet, {**example_of(sheet), **case})
            assert isinstance(result, Answered), result
            said += [note.text for note in result.outcome.notes]
            said += [chart.summary for chart in getattr(result.outcome, "charts", ())]
        found[f"sheet {name}"] = "\n".join(said)
    found["day-book"] = "\n".join(_steps())
    return found


def _steps() -> Iterator[str]:
    from tests.records.book import ask
    from tests.records.test_steep_step import at, turns

    for hours, since, start in (
        ([], 1.3, {}),
        ([], 13.7, {}),
        ([], 1.3, {"stages": [["7.7", ""]]}),
        ([7.7], 25.3, {}),
        ([4.3], 5.3, {"water_sensitivity": "41"}),
        ([7.7, 8.7], 1.3, {}),
    ):
        reply = ask("batch", turns(hours, "4.1", **start), batch="b1", date=at(sum(hours) + since))
        yield re.sub(r"<[^>]+>", " ", reply["places"]["next"])


if __name__ == "__main__":
    house.EDGES.update(json.load(sys.stdin))
    every()
    json.dump(drawn(), sys.stdout)
