"""A chapter is whole: steps with their hazards, limits, record, session, sign-off, cases, exercise, terms, sources."""

from __future__ import annotations

import re
import tomllib
from typing import NamedTuple

import pytest

from calculators.competence import JOBS
from calculators.exercises import EXERCISES
from calculators.papers import PAPERS
from calculators.rules.limits import of_page
from site_src.questions import DOCS, asked, cases, chapters

SHAPE = ("Purpose", "Before you start", "Steps", "Limits", "When it goes wrong", "Record", "Why it works", "Sources")
TERMS = tomllib.loads((DOCS / "_includes" / "terms.toml").read_text("utf-8"))["term"]
EXERCISE_PAGE = (DOCS / "training" / "exercises.md").read_text("utf-8")


class Chapter(NamedTuple):
    """A page, the record sheet and session it leads to, and pages beside it on which its terms or sums may stand."""

    page: str
    record: str
    session: str
    beside: tuple[str, ...] = ()


PROCEDURES = (
    Chapter("procedures/quick-moisture", "moisture-pairs", "session-06-moisture"),
    Chapter("procedures/box-germination", "box-record", "session-16-box"),
    Chapter("procedures/between-batches", "cleaning-record", "session-12-between-batches", ("learning/steep-water",)),
    Chapter("procedures/store-through-the-year", "store-round", "session-02-intake"),
)
LEARNING = (
    Chapter("learning/steep-water", "cleaning-record", "session-12-between-batches"),
    Chapter("learning/reading-an-analysis-sheet", "malt-analysis", "session-17-analysis-sheet"),
)
every_chapter = pytest.mark.parametrize("chapter", (*PROCEDURES, *LEARNING), ids=lambda one: one.page.split("/")[1])


def text_of(page: str) -> str:
    return (DOCS / f"{page}.md").read_text("utf-8")


@pytest.mark.parametrize("chapter", PROCEDURES, ids=lambda one: one.page.split("/")[1])
def test_a_procedure_has_the_usual_shape_with_its_hazards_at_the_step_and_its_limits_of_the_one_table(chapter):
    text = text_of(chapter.page)
    heads = re.findall(r"^## (.+)$", text, re.MULTILINE)
    assert [head for head in heads if head in SHAPE] == list(SHAPE)
    steps = text.split("## Steps")[1].split("## Limits")[0]
    assert steps.count('--8<-- "hazards/') >= 2 and "*Look for:*" in steps
    name = chapter.page.split("/")[1]
    assert f"```limits\n{name}\n```" in text and of_page(name)


@every_chapter
def test_it_leads_to_its_record_its_session_and_its_exercises(chapter):
    text = text_of(chapter.page)
    assert chapter.record in PAPERS and f"records/{chapter.record}.md" in text
    assert f"training/{chapter.session}.md" in text
    (anchor,) = set(re.findall(r"training/exercises\.md#([a-z-]+)", text))
    assert anchor in {
        re.sub(r"[^a-z ]", "", h.lower()).replace(" ", "-") for h in re.findall(r"^## (.+)$", EXERCISE_PAGE, re.M)
    }
    taught = {exercise.teaches for exercise in EXERCISES.values()}
    assert taught & {chapter.page, *chapter.beside}
    assert "## Sources" in text


@every_chapter
def test_it_has_its_job_to_sign_off_its_cases_and_its_terms(chapter):
    assert any(job.page in (chapter.page, *chapter.beside) or job.session == chapter.session for job in JOBS.values())
    assert any(one.page == chapter.page for name in chapters() for case in cases(name) for one in asked(case))
    assert any(term.get("page") in (chapter.page, *chapter.beside) for term in TERMS)


def test_the_plan_of_each_session_names_the_second_part_it_has():
    for stem in ("session-02-intake", "session-06-moisture", "session-12-between-batches"):
        text = (DOCS / "training" / f"{stem}.md").read_text("utf-8")
        plan = text.split("## Plan by minutes")[1].split("\n## ")[0]
        assert "### Second part" in plan and plan.count('<div class="plan"') >= 2
