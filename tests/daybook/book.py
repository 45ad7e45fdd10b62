"""A few lines of an invented day-book for the tests."""

from __future__ import annotations

import itertools
import json
from collections.abc import Iterable
from typing import Any

from calculators.daybook.batch.batch import Batch, batches_of
from calculators.page import respond

_COUNT = itertools.count(1)
Line = dict[str, Any]

START: Line = {
    "barley": "two-row spring barley",
    "lot": "lot 3",
    "season": "2026",
    "barley_kg": "6000",
    "barley_moisture": "12.5",
    "water_temp_c": "14",
    "target_moisture": "44",
    "vessel": "floor",
    "basket_g": "84",
    "sample_g": "100",
    "stages": [["8", ""], ["8", ""], ["8", ""], ["12", ""], ["3", ""]],
}


def batch_of(raws: Iterable[Line], name: str) -> Batch:
    """One batch of a book."""
    (found,) = (one for one in batches_of(raws) if one.id == name)
    return found


def line(kind: str, at: str, batch: str = "b1", **more: Any) -> Line:
    """One entry as the page stores it; what is not an entry's own field is one of its values."""
    seq = next(_COUNT)
    own: Line = {}
    for name in ("id", "written", "zone", "who", "remark", "replaces", "seq"):
        if name in more:
            own[name] = more.pop(name)
    return {
        "schema": 1,
        "id": f"line-{seq:06d}",
        "batch": batch,
        "kind": kind,
        "at": at,
        "written": f"{at}:20.000Z",
        "zone": 0,
        "seq": seq,
        "values": more,
        "who": "AB",
        "remark": "",
        "replaces": None,
        **own,
    }


def ask(do: str, entries: list[Line], **more: Any) -> Line:
    """The reply to one request of the page."""
    asked = {"daybook": do, "entries": entries, "root": "../../", "date": "2026-11-24T13:00", **more}
    reply: Line = json.loads(respond(json.dumps(asked)))
    return reply


def steeping() -> list[Line]:
    """A batch in its first immersion."""
    return [
        line("start", "2026-11-24T05:30", **START),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
    ]
