"""A quick moisture in the day-book: the oven's line of the same hour counts, and a gap between them is told."""

from __future__ import annotations

import re

from calculators.daybook.batch.batch import Batch
from calculators.daybook.batch.checks import doubtful
from calculators.daybook.batch.course import course_of
from tests.daybook.book import START, Line, ask, batch_of, line


def grown(quick: str, oven: str | None, oven_at: str = "2026-11-28T09:10") -> list[Line]:
    found = [
        line("start", "2026-11-24T05:30", **START),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("cast", "2026-11-26T06:00", moisture="44.5"),
        line("bed", "2026-11-28T08:00", bottom_c="16", top_c="15"),
        line("moisture", "2026-11-28T09:20", moisture=quick, method="quick"),
    ]
    return found + ([] if oven is None else [line("moisture", oven_at, moisture=oven, method="oven")])


def told(lines: list[Line]) -> list[str]:
    batch: Batch = batch_of(lines, "b1")
    return [one.text for one in doubtful(batch, course_of(batch)) if "quick way" in one.text]


def offered(lines: list[Line]) -> str:
    """The moisture that the link to the sheet of sprinkling carries."""
    page = ask("batch", lines, batch="b1", date="2026-11-28T12:00")["places"]["sheets"]
    found = re.search(r"moisture_now=([\d.]+)", page.replace("&amp;", "&"))
    assert found, page
    return found[1]


def test_alone_the_quick_figure_is_what_is_known():
    assert offered(grown("42.1", None)) == "42.1" and told(grown("42.1", None)) == []


def test_the_oven_of_the_same_hour_counts_in_its_place():
    assert offered(grown("42.1", "43.0")) == "43"
    assert offered(grown("42.1", "43.0", "2026-11-28T07:00")) == "42.1"  # the oven's sample was another hour's


def test_a_gap_is_told_and_a_small_one_is_not():
    assert told(grown("42.1", "43.0")) == []
    (text,) = told(grown("42.1", "44.3"))
    assert "2.2 points less than the oven" in text and "The oven’s figure is the one that counts" in text
    assert "more than the oven" in told(grown("45.5", "44.3"))[0]
