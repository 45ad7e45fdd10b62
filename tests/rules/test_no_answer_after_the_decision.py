"""Nobody is sent to a measurement whose answer comes after the decision: the oven’s way for wet grain takes a day."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from calculators.asking.declare import Number, Table
from calculators.rules.limits import every
from calculators.sheets import find_sheet, sheet_ids
from calculators.words.forecast import NEXT_WORDS

DOCS = Path(__file__).parents[2] / "docs"
ABOUT_IT = {"measuring-moisture", "quick-moisture"}
PAGES = [path for path in sorted((DOCS / "procedures").glob("*.md")) if path.stem not in ABOUT_IT]
OVEN = re.compile(r"(?<!microwave )\boven\b", re.IGNORECASE)
IN_TIME = ("quick", "day before", "checked against", "for the books", "when it comes")
"""What makes an oven's answer come in time, or says that nothing waits for it."""
WET = {"moisture", "moisture_now", "green_malt_moisture", "moisture_drained"}
"""Questions about the moisture of wet grain that something is decided by today."""


def sentences(text: str) -> Iterator[str]:
    """The lines of a page, each as far as it says one thing: a step with what it looks for."""
    yield from re.split(r"\n(?=\d+\. |\||- |#)|\n\n(?!    )", text)


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_a_procedure_names_the_oven_only_where_its_answer_is_in_time(path: Path) -> None:
    body = path.read_text("utf-8").split("## Sources")[0]
    for said in sentences(body):
        if OVEN.search(said):
            assert any(words in said.lower() for words in IN_TIME), said


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_a_step_of_growing_grain_that_reads_moisture_says_how(path: Path) -> None:
    if path.stem not in {"casting", "floor-germination", "drum-germination", "box-germination", "kiln-hand-over"}:
        return
    steps = [one for one in sentences(path.read_text("utf-8")) if re.match(r"\d+\. ", one)]
    reads = [one for one in steps if re.search(r"\b(read|measure)\b[^.]*\b(moisture|sample)\b", one, re.IGNORECASE)]
    assert reads, path.stem
    for one in reads:
        assert "quick" in one or "sample port" in one, one


def test_no_limit_sends_to_the_oven_for_a_decision_of_today() -> None:
    for row in every():
        if row.page in ABOUT_IT or "oven" not in row.act:
            continue
        assert any(words in row.act for words in IN_TIME), row.id
    (outside,) = (row for row in every() if row.id == "quick-outside")
    assert "Until it answers" in outside.act


def test_a_sheet_that_decides_by_wet_grain_asks_for_what_can_be_read_today() -> None:
    for sheet_id in sheet_ids():
        if sheet_id in {"oven-moisture", "quick-moisture"}:
            continue
        for question in find_sheet(sheet_id).questions:
            columns = question.columns if isinstance(question, Table) else (question,)
            for column in columns:
                if isinstance(column, Number) and column.id in WET and OVEN.search(column.hint):
                    assert "quick" in column.hint, f"{sheet_id}: {column.id}"


def test_the_forecast_says_of_an_oven_that_it_answers_tomorrow() -> None:
    (oven,) = (option.label for option in NEXT_WORDS if option.word == "oven")
    assert "quick way for today" in oven and "tomorrow" in oven
