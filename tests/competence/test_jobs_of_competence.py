"""The jobs that are signed off: whole, traced to page and session, worded so that nothing reads as leave."""

from __future__ import annotations

import csv
import io
import json
import re

import pytest

from calculators.competence import JOBS, NO_LEAVE, STAGES, Procedure, of_house
from calculators.competence.page import respond, sheet_html
from calculators.daybook.lines.cells import undone
from calculators.page import respond as page_respond
from calculators.rules import house
from site_src import competence as built
from site_src import questions
from site_src.competence import competence, jobs, known_words, mark_of, marks, sheet, sheet_lines, standard_lines
from tests.safety.phrases import faults

DOCS = questions.DOCS
TAUGHT = [job for job in JOBS.values() if job.session]


def test_lifting_store_and_drying_and_both_hand_overs_have_sheets():
    assert {
        "lift-shovel-carry", "store-and-dry", "hand-over-at-the-kiln", "hand-over-at-the-change-of-shift",
    } <= set(JOBS)  # fmt: skip
    assert {"do-the-round-of-the-store", "read-moisture-the-quick-way", "clean-the-steep-from-outside"} <= set(JOBS)
    assert {"keep-the-box", "read-an-analysis-sheet"} <= set(JOBS) and len(JOBS) == 20


@pytest.mark.parametrize("job", JOBS.values(), ids=lambda job: job.id)
def test_a_job_is_whole(job):
    assert (DOCS / f"{job.page}.md").exists()
    assert not job.session or (DOCS / "training" / f"{job.session}.md").exists()
    assert 4 <= len(job.steps) <= 6 and len({step.id for step in job.steps}) == len(job.steps)
    assert any(step.hazard for step in job.steps), "what can hurt is a step of every job"
    assert job.months in (12, 24) and job.often and all((job.shown, job.helped, job.alone))
    for step in job.steps:
        assert re.fullmatch(r"[a-z0-9-]{3,60}", step.id) and step.says.endswith(".") and 1 <= step.times <= 3
        assert len(built._said(step.says)) <= 300, "a line keeps the whole standard"


@pytest.mark.parametrize("job", TAUGHT, ids=lambda job: job.id)
def test_a_session_and_its_sheet_hold_the_same_standard(job):
    page = (DOCS / "training" / f"{job.session}.md").read_text("utf-8")
    learned = page.split("## How to tell that it was learned")[1].split("\n## ")[0]
    assert f"```standards\n{job.session}\n```" in learned
    lines = standard_lines(job.session)
    drawn = sheet(job.id)
    for step in jobs()[job.id].steps:
        words = re.sub(r"\[\[[^|]*\|([^\]]*)\]\]", r"\1", step.says)
        assert words in " ".join(re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", line) for line in lines)
        assert words in re.sub(r"</?a[^>]*>", "", drawn)


def test_every_session_that_signs_something_draws_its_standard_from_the_declaration():
    for path in sorted((DOCS / "training").glob("session-*.md")):
        taught = any(job.session == path.stem for job in TAUGHT)
        assert ("```standards" in path.read_text("utf-8")) == taught, path.name


@pytest.mark.parametrize("job", JOBS.values(), ids=lambda job: job.id)
def test_a_sheet_is_a_record_of_competence(job):
    drawn = sheet(job.id)
    text = " ".join(re.sub(r"<[^>]+>", " ", drawn).split())
    for part in (
        *(stage.label for stage in STAGES), "How often:", "On which batches:", "Not yet, because:", "Next try on:",
        "May assess (office, filled in by the house):", "Assessed by", "House’s procedure no.:", "Handbook version",
        f"page {job.page}, text {marks()[job.id]}", "Page 1 of 1", "Due again after", NO_LEAVE,
    ):  # fmt: skip
        assert part in text, part
    assert drawn.count("<tr data-step") == len(job.steps)
    assert not faults(text)


def test_no_word_of_a_job_reads_as_leave():
    granting = re.compile(
        r"\b(competent to|allowed|may work|may go|cleared|authori[sz]ed|qualified|certif)", re.IGNORECASE
    )
    texts = [competence(name) for name in ("write", "person", "table", "hand-in")] + [sheet(name) for name in JOBS]
    for text in texts:
        assert not granting.search(re.sub(r"<[^>]+>", " ", text))


def test_a_page_or_a_standard_that_says_something_else_gets_another_mark(monkeypatch):
    job = jobs()["steep-by-the-basket"]
    mark = mark_of(job)
    assert re.fullmatch(r"[0-9a-f]{8}", mark)
    stricter = (job.steps[0]._replace(times=3), *job.steps[1:])
    assert mark_of(job._replace(steps=stricter)) != mark
    words = questions.page_words(job.page)
    monkeypatch.setattr(built, "page_words", lambda page: words.replace("suction", "fan", 1))
    assert mark_of(job) != mark
    monkeypatch.setattr(built, "page_words", lambda page: words)
    assert mark_of(job) == mark


def test_a_page_that_is_only_laid_out_otherwise_keeps_its_mark(tmp_path, monkeypatch):
    page = tmp_path / "page.md"
    monkeypatch.setattr(questions, "DOCS", tmp_path)
    job = jobs()["cast"]._replace(page="page")
    found = []
    for text in ("# A\n\nLay it *thin*.\n", "# A\n\nLay it\n**thin**.\n", "# A\n\nLay it thick.\n"):
        page.write_text(text, "utf-8")
        questions._page.cache_clear()
        found.append(mark_of(job))
    questions._page.cache_clear()
    assert found[0] == found[1] != found[2]


def test_a_house_says_its_number_and_who_assesses_and_the_book_says_nothing(monkeypatch):
    assert of_house("cast") == Procedure()
    monkeypatch.setattr(house, "PROCEDURES", {"cast": {"number": "P-12", "assesses": "head of malting"}}, raising=False)
    assert of_house("cast") == Procedure("P-12", "head of malting") and of_house("keep-the-drum") == Procedure()
    drawn = sheet_html(JOBS["cast"], "00000000")
    assert ">P-12<" in drawn and ">head of malting<" in drawn


@pytest.mark.parametrize("name", ["", "nothing"])
def test_what_is_not_there_is_named_with_what_there_is(name):
    with pytest.raises(LookupError, match="take-in-a-load"):
        sheet(name)
    with pytest.raises(LookupError, match="no job"):
        standard_lines(name)
    with pytest.raises(ValueError, match="write, person, table, hand-in"):
        competence(name)


def test_every_job_has_a_heading_that_sessions_lead_to():
    lines = sheet_lines()
    for job in JOBS.values():
        assert f"## {job.title} {{#{job.id}}}" in lines
    for path in (DOCS / "training").glob("session-*.md"):
        for anchor in re.findall(r"\(sign-off\.md#([\w-]+)\)", path.read_text("utf-8")):
            assert anchor in JOBS


def test_exercises_cases_and_slips_are_called_by_words():
    words = json.loads(known_words())
    assert len(words) > 150 and all(one["said"] for one in words.values())
    assert sum(len(one["slips"]) for one in words.values()) > 60
    assert all(" " in slip for one in words.values() for slip in one["slips"].values())


HOSTILE = ["=1+1", "@SUM(A1)", "+cmd|' /C calc'!A0", "-2+3", "\t=1", 'Ash, =HYPERLINK("x")', "'=1", "Ash"]


def test_the_table_as_csv_has_no_formula_and_loses_no_word():
    rows = [["Person", "Why"], *([text, "fine"] for text in HOSTILE)]
    reply = json.loads(page_respond(json.dumps({"competence": "csv", "rows": rows})))
    read = list(csv.reader(io.StringIO(reply["csv"])))
    assert read[0] == rows[0] and [undone(row[0]) for row in read[1:]] == HOSTILE
    assert not any(cell.lstrip()[:1] in tuple("=+@") for row in read for cell in row)


@pytest.mark.parametrize("rows", [[["x"]] * 20_001, [["x"] * 31]])
def test_a_table_that_no_works_has_is_refused(rows):
    with pytest.raises(ValueError, match="20000 rows or 30 columns"):
        respond({"competence": "csv", "rows": rows})


def test_a_slip_is_told_with_the_mark():
    from calculators.exercises import CHAPTERS
    from calculators.exercises.exercise import draw, mark

    drawn = draw(CHAPTERS["steeping"][0], "7")
    slip, value = drawn.slips[0]
    assert mark(drawn, f"{value:.6f}").slip == slip.id and mark(drawn, str(drawn.right)).slip == ""
