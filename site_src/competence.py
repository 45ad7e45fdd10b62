"""The fenced blocks of the record of competence: the sheets, where lines are written, and the standard of a session.

``sign-off-sheets`` has no body; in its place stands a heading and a sheet for each job. ``standards`` names a session
and draws what shows that it was learned. ``competence`` takes ``write``, ``person``, ``table`` or ``hand-in``.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from functools import cache

from calculators.competence import JOBS, Job, of_house
from calculators.competence.page import hand_in_html, jobs_data, person_html, sheet_html, table_html, write_html
from calculators.drawing.links import as_markdown
from calculators.exercises import EXERCISES
from site_src.facts import fill_facts
from site_src.house.remarks import Remark, read_own
from site_src.house.where import own
from site_src.limits_table import filled
from site_src.questions import page_words
from site_src.training_results import known_results


def _said(text: str) -> str:
    return fill_facts(filled(text))


@cache
def jobs() -> dict[str, Job]:
    """Return the jobs with the figures of the trade filled into their texts."""
    return {
        name: job._replace(
            shown=_said(job.shown),
            helped=_said(job.helped),
            alone=_said(job.alone),
            often=_said(job.often),
            steps=tuple(step._replace(says=_said(step.says)) for step in job.steps),
        )
        for name, job in JOBS.items()
    }


def mark_of(job: Job) -> str:
    """Return the mark of what a job's page and standard say, eight signs of a SHA-256.

    Only words count: a page that is laid out otherwise keeps its mark. A house's own edges are among the words, and so
    are its notes on the page and the version of its paper: a new one asks those signed off to look again.
    """
    said = [page_words(job.page), *(f"{step.id} {step.says} {step.times}" for step in job.steps)]
    said += [one.body for one in _notes() if one.place.page == job.page]
    said += [number] if (number := of_house(job.id).number) else []
    return hashlib.sha256("\n".join(said).encode()).hexdigest()[:8]


@cache
def _notes() -> list[Remark]:
    return read_own(own())[1]


@cache
def marks() -> dict[str, str]:
    """Return the mark of each job, by its id."""
    return {name: mark_of(job) for name, job in jobs().items()}


def sheet_lines() -> list[str]:
    """Return a heading and a block for each job's sheet, as lines of Markdown."""
    lines: list[str] = []
    for job in jobs().values():
        lines += ["", f"## {job.title} {{#{job.id}}}", "", "```sign-off", job.id, "```", ""]
    return lines


def sheet(job_id: str) -> str:
    """Draw the sheet of one job.

    Raises
    ------
    LookupError
        When there is no such job.
    """
    name = job_id.strip()
    if name not in JOBS:
        raise LookupError(f"there is no job “{name}”. There are: {', '.join(JOBS)}.")
    return sheet_html(jobs()[name], marks()[name])


def standard_lines(session: str) -> list[str]:
    """Return the standards that a session works towards, as lines of Markdown.

    Raises
    ------
    LookupError
        When no job is taught in that session.
    """
    taught = [job for job in jobs().values() if session and job.session == session]
    if not taught:
        raise LookupError(f"no job is signed off by the session “{session}”")
    return [line for job in taught for line in _standards(job)]


def _standards(job: Job) -> Iterator[str]:
    yield "Each learner, without being told:"
    yield ""
    yield from (f"- {as_markdown(step.says)}" for step in job.steps if not step.later)
    later = [step for step in job.steps if step.later]
    if later:
        yield ""
        yield "At the work, later:"
        yield ""
        yield from (f"- {as_markdown(step.says)}" for step in later)
    yield ""
    yield f"These are the steps of the [sign-off sheet](sign-off.md#{job.id}); [write there](sign-off.md) what you saw."


def known_words() -> str:
    """Return what exercises, cases and their slips are called, by id, as JSON."""
    words = {
        name: {
            "said": one["said"],
            "slips": {slip.id: slip.says for slip in EXERCISES[name].slips} if name in EXERCISES else {},
        }
        for name, one in known_results().items()
    }
    return json.dumps(words, ensure_ascii=False)


def competence(which: str) -> str:
    """Draw one of the places of the record by its name.

    Raises
    ------
    ValueError
        When there is no such place.
    """
    name = which.strip()
    if name == "person":
        return person_html()
    if name == "hand-in":
        return hand_in_html()
    data = jobs_data(jobs(), marks())
    if name == "write":
        return write_html(data)
    if name == "table":
        return table_html(data, known_words())
    raise ValueError(f"there is no “{name}” of the record. There are: write, person, table, hand-in.")
