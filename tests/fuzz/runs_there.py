"""The answers of a list of cases. Runs in both Pythons, so it needs nothing but the calculators."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from calculators.asking.answer import Answered, answer, as_json
from calculators.page import respond
from calculators.sheets import find_sheet

_PLACES = ("heading", "notes", "answers", "working", "tables", "data")  # the chart's coordinates are not read


def answers(cases: Sequence[Sequence[Any]]) -> list[dict[str, Any]]:
    """Return, for each pair of a sheet's id and what was typed, the values and every word and digit shown."""
    found = []
    for name, case in cases:
        sheet = find_sheet(name)
        result = answer(sheet, case)
        request = {"sheet": name, "prefix": name, "root": "../../", "questions": case}
        reply = json.loads(respond(json.dumps(request)))
        places = reply.get("places", {})
        found.append(
            {
                "said": [reply["state"], reply["errors"], reply["missing"]],
                "shown": [places.get(place, "") for place in _PLACES],
                "values": as_json(result) if isinstance(result, Answered) else [],
            }
        )
    return found


def held(argument: dict[str, Any]) -> list[list[int]]:
    """Ask one thing again and again; return Python's count of objects and the size of memory, before and after."""
    import gc

    import pyodide_js  # type: ignore[import-not-found]  # the browser's Python has it

    def now() -> list[int]:
        gc.collect()
        return [len(gc.get_objects()), pyodide_js._module.HEAP8.length]

    requests = [json.dumps(request) for request in argument["requests"]]
    for request in requests * argument["first"]:
        respond(request)
    before = now()
    for number in range(argument["count"]):
        respond(requests[number % len(requests)])
    return [before, now()]
