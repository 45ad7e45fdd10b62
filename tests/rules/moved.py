"""Draws all that shows an edge of the growing bed or of the kiln, with the edges moved as the caller says.

Run as a program, since a limit is read when its module is imported: edges come in and texts go out as JSON.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterator
from typing import Any

from calculators.rules import house
from calculators.rules.limit import BOOK
from calculators.rules.limits import every

PROCEDURES = ("floor-germination", "drum-germination", "kiln-hand-over", "between-batches")
SHEETS = ("floor-round", "bed-heat", "sprinkling", "days-to-ready", "drum-fill", "kiln-water", "malting-loss")
PAPERS = ("floor-record", "drum-record", "readiness-record")
LEDGER: tuple[tuple[str, tuple[tuple[str, float, dict[str, str]], ...]], ...] = (
    ("floor", (("turned", 66, {}), ("bed", 60, {"bottom_c": "24.7", "top_c": "11.3", "room_c": "3.3"}))),
    ("floor", (("moisture", 60, {"moisture": "37.7", "method": "oven"}), ("turned", 1, {}))),
    ("floor", (("turned", 3, {}), ("bed", 2, {"bottom_c": "15.7", "top_c": "14.9"}))),
    ("drum", (("drum", 66, {}),)),
    ("drum", (("drum", 3, {}), ("air", 1, {"fan": "running", "air_on_c": "19.7", "air_off_c": "26.3"}))),
)
"""Batches of the day-book: vessel, and the lines with the hours that they lie back."""


def texts_of(value: Any) -> Iterator[str]:
    """Every text in a declaration or a result."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from texts_of(one)
    elif isinstance(value, (tuple, list)):
        for one in value:
            yield from texts_of(one)


def drawn() -> dict[str, str]:
    """The text of each page, sheet, paper and step that shows these limits, by its name."""
    from calculators.answer import answer, example_of, find_sheet
    from calculators.papers import PAPERS as ALL_PAPERS
    from calculators.rules.limits import of_page
    from site_src.limits_table import filled, limit_lines
    from site_src.questions import DOCS, QUESTIONS, _whole

    ids = {row.id for page in PROCEDURES for row in of_page(page)}
    found: dict[str, str] = {}
    for path in [*sorted(DOCS.rglob("*.md")), *sorted(QUESTIONS.glob("*.toml"))]:
        text = path.read_text("utf-8")
        draws = {page for page in PROCEDURES if f"```limits\n{page}\n```" in text}
        if draws or any(f"[[limit:{name} " in text for name in ids):
            whole = _whole(path) if path.suffix == ".md" else filled(text)
            tables = [line for page in draws for line in limit_lines(page)]
            found[path.relative_to(DOCS).as_posix()] = "\n".join([whole, *tables])
    for name in SHEETS:
        sheet = find_sheet(name)
        result = answer(sheet, example_of(sheet))
        said = [*texts_of(sheet._replace(work=None)), *texts_of(result.outcome.notes)]  # type: ignore[arg-type,union-attr]
        found[f"sheet {name}"] = "\n".join(said)
    for paper in ALL_PAPERS.values():
        if paper.id in PAPERS:
            found[f"paper {paper.id}"] = "\n".join(texts_of(paper))
    found["day-book"] = "\n".join(_ledger())
    return found


def _ledger() -> Iterator[str]:
    from datetime import datetime, timedelta

    from tests.records.book import START, ask, line

    now = datetime(2026, 11, 28, 20, 30)

    def at(hours: float) -> str:
        return f"{now - timedelta(hours=hours):%Y-%m-%dT%H:%M}"

    for vessel, more in LEDGER:
        entries = [
            line("start", at(120), **{**START, "vessel": vessel}),
            line("stage-begun", at(119), stage="wet", water_temp_c="14"),
            line("stage-ended", at(95), ended="drained"),
            line("cast", at(93)),
            *(line(kind, at(hours), **values) for kind, hours, values in more),
        ]
        reply = ask("batch", entries, batch="b1", date=at(0))
        yield re.sub(r"<[^>]+>", " ", reply["places"]["next"])


if __name__ == "__main__":
    house.EDGES.update(json.load(sys.stdin))
    every()
    BOOK.clear()  # the book itself has moved its edges here, so no page shows two
    json.dump(drawn(), sys.stdout)
