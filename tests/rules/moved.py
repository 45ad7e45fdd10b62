"""Draws all that the book shows and orders, with the edges of its limits moved as the caller says.

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
from calculators.rules.limits import PAGES, every

COLD = {"water_temp_c": "4.1", "target_moisture": "49.3", "stages": "7.7; 25.3; 7.7; 11.7; 2.7"}
CASES: dict[str, tuple[dict[str, str], ...]] = {
    "steep-timing": (COLD, {**COLD, "target_moisture": "46.6"}, {"stages": "25.3; 3.3; 25.3"}),
    "steep-fit": ({**COLD, "weighings": "7.3 203"},),
    "steep-plan": (
        {"water_sensitivity": "41"},
        {"fill_minutes": "131", "drain_minutes": "101", "shortest_rest_h": "6.6", "water_temp_c": "21.7"},
        {"target_moisture": "49.3", "longest_immersion_h": "11.7"},
    ),
    "cast-decision": (
        {"moisture_drained": "37.7", "target_moisture": "45.7", "chitted": "195", "water_temp_c": "4.1"},
        {"moisture_drained": "49.3", "target_moisture": "49.4", "chitted": "195", "grain_temp_c": "23.3"},
    ),
    "mixing-waters": ({"wanted_temp_c": "20.9", "second_temp_c": "61"},),
    "moisture-target": ({"target_moisture": "49.3"}, {"target_moisture": "40.3"}),
    "sample-basket": ({"target_moisture": "49.3"},),
    "sprinkling": ({"moisture_now": "37.7"}, {"moisture_wanted": "47.7"}),
    "days-to-ready": ({"bed_temp_c": "23.3", "moisture": "49.3"}, {"bed_temp_c": "6.7", "moisture": "37.7"}),
    "fan-stopped": ({"grain_temp_c": "23.3", "bed_moisture": "49.3"}, {"place": "rest", "grain_temp_c": "19.7"}),
    "kiln-water": ({"green_malt_moisture": "49.3"}, {"green_malt_moisture": "36.7"}),
    "germination-test": ({"replicates_8ml": "61 100; 62 100; 60 100; 61 100"},),
    "intake-check": ({"moisture": "17.3", "temperature_c": "33.3"}, {"moisture": "13.7", "temperature_c": "18.7"}),
}
"""Cases past the stops of a sheet, beside its worked case."""

LEDGER: tuple[tuple[str, tuple[tuple[str, float, dict[str, str]], ...]], ...] = (
    ("floor", (("turned", 66, {}), ("bed", 60, {"bottom_c": "24.7", "top_c": "11.3", "room_c": "3.3"}))),
    ("floor", (("moisture", 60, {"moisture": "37.7", "method": "oven"}), ("turned", 1, {}))),
    ("floor", (("turned", 3, {}), ("bed", 2, {"bottom_c": "15.7", "top_c": "14.9"}))),
    ("drum", (("drum", 66, {}),)),
    ("drum", (("drum", 3, {}), ("air", 1, {"fan": "running", "air_on_c": "19.7", "air_off_c": "26.3"}))),
)
"""Batches of the day-book: vessel, and the lines with the hours that they lie back."""

STEEPS: tuple[tuple[list[float], float, dict[str, Any]], ...] = (
    ([], 1.3, {}),
    ([], 13.7, {}),
    ([], 1.3, {"stages": [["7.7", ""]]}),
    ([7.7], 25.3, {}),
    ([4.3], 5.3, {"water_sensitivity": "41"}),
    ([7.7, 8.7], 1.3, {}),
)
"""Steeps of the day-book: the hours of each stage, those since the last, and what the start says."""


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
    """The text of each page, question of judgement, sheet, paper, exercise and day-book, by its name."""
    from calculators.competence import JOBS
    from calculators.exercises import EXERCISES
    from calculators.papers import PAPERS
    from calculators.sheets import sheet_ids
    from site_src.questions import DOCS, _whole, chapters, files

    found = {path.relative_to(DOCS).as_posix(): _whole(path) for path in sorted(DOCS.rglob("*.md"))}
    found |= {
        f"questions {chapter}": _filled("\n".join(path.read_text("utf-8") for path in files(chapter)))
        for chapter in chapters()
    }
    found |= {f"sheet {name}": "\n".join(_sheet(name)) for name in sheet_ids()}
    found |= {f"paper {paper.id}": "\n".join(texts_of(paper)) for paper in PAPERS.values()}
    found |= {f"exercise {one.id}": "\n".join(texts_of(one)) for one in EXERCISES.values()}
    found |= {f"sign-off {job.id}": _filled("\n".join(texts_of(job))) for job in JOBS.values()}
    found["day-book"] = "\n".join([*_grown(), *_steeped()])
    return found


def _filled(text: str) -> str:
    from site_src.facts import fill_facts
    from site_src.limits_table import filled

    return fill_facts(filled(text))


def _sheet(name: str) -> Iterator[str]:
    """What a sheet declares, and the notes and captions of its worked case and of those past its stops."""
    from calculators.asking.answer import Answered, answer, example_of
    from calculators.sheets import find_sheet

    sheet = find_sheet(name)
    answers = [one._replace(worked="", within=None) for one in sheet.answers]  # type: ignore[arg-type]
    listings = [one._replace(columns=tuple(c._replace(within=None) for c in one.columns)) for one in sheet.listings]
    yield from texts_of(sheet._replace(work=None, answers=answers, listings=listings, belongs=()))  # type: ignore[arg-type]
    ranges = [one.within for one in sheet.answers]
    ranges += [column.within for one in sheet.listings for column in one.columns]
    yield from texts_of([(one.why, one.instead) for one in ranges if one])
    for case in ({}, *CASES.get(name, ())):
        result = answer(sheet, {**example_of(sheet), **case})
        assert isinstance(result, Answered), (name, result)
        yield from (note.text for note in result.outcome.notes)
        yield from (getattr(chart, "summary", "") for chart in getattr(result.outcome, "charts", ()))


def worked(name: str) -> Iterator[str]:
    """How each figure of a sheet was worked out, in its worked case and in those past its stops."""
    from calculators.asking.answer import Answered, answer, example_of
    from calculators.sheets import find_sheet

    sheet = find_sheet(name)
    for case in ({}, *CASES.get(name, ())):
        result = answer(sheet, {**example_of(sheet), **case})
        assert isinstance(result, Answered), (name, result)
        yield from (found.working for found in getattr(result.outcome, "answers", ()))


def prompts() -> Iterator[str]:
    """What the practice batch says to look at in each place."""
    from types import SimpleNamespace as Some

    from calculators.practice.scenes import _prompt
    from calculators.practice.setting import Setting

    for where in ("water", "rest", "couch", "floor", "drum", "gone"):
        for immersions in (1, 2, 3):
            for suction in (True, False):
                world = Some(where=where, immersions=immersions, suction=suction)
                run: Any = Some(event="", world=world, setting=Setting(), minute=0, reads=(), last_done=lambda *_: None)
                yield _prompt(run)


def _grown() -> Iterator[str]:
    """The day-book's next step of batches on the floor and in the drum."""
    from datetime import datetime, timedelta

    from tests.daybook.book import START, ask, line

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
        yield _words(ask("batch", entries, batch="b1", date=at(0))["places"]["next"])


def _steeped() -> Iterator[str]:
    """The day-book's next step of batches in the steep."""
    from tests.daybook.book import ask
    from tests.daybook.test_steep_step import at, turns

    for hours, since, start in STEEPS:
        reply = ask("batch", turns(hours, "4.1", **start), batch="b1", date=at(sum(hours) + since))
        yield _words(reply["places"]["next"])


def _words(html: str) -> str:
    return re.sub(r"<[^>]+>", " ", html)


if __name__ == "__main__":
    asked = json.load(sys.stdin)
    house.EDGES.update(asked["edges"])
    every()
    if asked.get("house") == "all":  # all texts, and workings, with the book's edges beside the house's
        from calculators.sheets import sheet_ids

        workings = {f"working {name}": "\n".join(worked(name)) for name in sheet_ids()}
        json.dump(drawn() | workings | {"practice batch": "\n".join(prompts())}, sys.stdout)
    elif asked.get("house"):  # the pages of the procedures, with the book's edges beside the house's
        from site_src.questions import DOCS, _whole

        pages = [page.replace("_", "-") for page in PAGES]
        json.dump({page: _whole(DOCS / "procedures" / f"{page}.md") for page in pages}, sys.stdout)
    else:
        BOOK.clear()  # the book itself has moved its edges here, so no page shows two
        json.dump(drawn(), sys.stdout)
