"""The record of competence in a page: a sheet for each job, where lines are written, and the trainer's table."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Mapping
from typing import Any
from xml.etree.ElementTree import Element

from .. import __version__
from ..daybook.lines.cells import defused
from ..drawing.elements import add, html
from ..drawing.links import fill, plain
from . import NO_LEAVE, STAGES, Job, of_house

_MOST_ROWS, _MOST_CELLS, _LONGEST = 20_000, 30, 2_000
_WORDS = {12: "a year", 24: "two years"}
_BLANK = "_" * 22


def due_words(job: Job) -> str:
    """After how long a job is due again, in words."""
    after = _WORDS.get(job.months, f"{job.months} months")
    return f"after {after}, {job.sooner}" if job.sooner else f"after {after}"


def times_words(times: int, hazard: bool) -> str:
    """How often a step is seen alone, in words."""
    if times == 1:
        return "once; what can hurt" if hazard else "once"
    return f"on {times} batches" + ("; what can hurt" if hazard else "")


def _pen(parent: Element, words: str, name: str = "", line: str = _BLANK) -> None:
    """Words with a blank behind them, for a pen, that the page may fill."""
    add(parent, "span", "sign-off-word", text=f"{words} ")
    blank = add(parent, "span", "sign-off-blank", text=line)
    if name:
        blank.set("data-sign", name)
    blank.tail = " "


def sheet_html(job: Job, mark: str) -> str:
    """Draw the sheet of one job, blank, for paper and for the page to fill.

    Parameters
    ----------
    job : Job
        With the figures of its texts filled in.
    mark : str
        Of what the job's page and standard say now, such as ``3f2a91c0``.
    """
    sheet = Element("article", {"class": "sign-off", "data-job": job.id, "data-search-exclude": ""})
    who = add(sheet, "p")
    _pen(who, "Name", "name", "_" * 34)
    add(who, "span", "sign-off-word", text="Page read: ")
    fill(add(who, "span"), f"[[page:{job.page}]]", None)
    if job.session:
        number = int(job.session.split("-")[1])
        who[-1].tail = " · "
        fill(add(who, "span"), f"[[page:training/{job.session}|session {number}]]", None)
    add(sheet, "p", "sign-off-again", data_sign="again", role="status", hidden="")
    seen = add(sheet, "p", "sign-off-seen")
    for words, what in (("Shown:", job.shown), ("With help:", job.helped), ("Alone:", job.alone)):
        add(seen, "strong", text=words).tail = f" {what}. "
    table = add(sheet, "table", "sign-off-steps")
    heads = add(add(table, "thead"), "tr")
    add(heads, "th", text="Standard, and how often alone", scope="col")
    for stage in STAGES:
        add(heads, "th", text=stage.label, scope="col")
    rows = add(table, "tbody")
    for step in job.steps:
        row = add(rows, "tr", data_step=step.id)
        standard = add(row, "th", scope="row")
        fill(add(standard, "span"), step.says, None)
        add(standard, "span", "sign-off-times", text=times_words(step.times, step.hazard))
        for stage in STAGES:
            add(row, "td", data_stage=stage.id, data_label=stage.label)
    add(sheet, "p", "sign-off-pen-how", text="In a box: day, batch, both signatures. Under “not yet”: why.")
    often = add(sheet, "p", text=f"How often: {job.often}. ")
    add(often, "span", "sign-off-pen")
    _pen(often[-1], "On which batches:", line="_" * 40)
    not_yet = add(sheet, "p", "sign-off-pen")
    _pen(not_yet, "Not yet, because:", line="_" * 46)
    _pen(not_yet, "Next try on:", line="_" * 14)
    house = of_house(job.id)
    assess = add(sheet, "p", "sign-off-apart")
    _pen(add(assess, "span"), "May assess (office, filled in by the house):", "assesses", house.assesses or _BLANK)
    _pen(add(assess, "span"), "Assessed by:", "by", "_" * 34)
    due = add(sheet, "p", "sign-off-apart")
    _pen(add(due, "span"), "House’s procedure no.:", "number", house.number or "_" * 14)
    _pen(add(due, "span"), f"Due again {due_words(job)}, on:", "due", "_" * 14)
    signatures = add(sheet, "p", "sign-off-paper")
    _pen(signatures, "Signatures and day: learner", line="_" * 26)
    _pen(signatures, "assessor", line="_" * 26)
    foot = f"Handbook version {__version__}, page {job.page}, text {mark}. Page 1 of 1 of this job. {NO_LEAVE}"
    add(sheet, "p", "sign-off-foot", text=foot)
    tools = add(sheet, "div", "sheet-buttons", data_sign="tools", hidden="")
    for action, words in (("write", "Write a line for this job"), ("print", "Print this sheet")):
        add(tools, "button", type="button", text=words, data_action=action)
    return html(sheet)


def jobs_data(jobs: Mapping[str, Job], marks: Mapping[str, str]) -> str:
    """What the page's scripts know of the jobs, as JSON: by id of the job, in the order of the work."""
    return json.dumps(
        {
            job.id: {
                "title": job.title,
                "where": f"../sign-off/#{job.id}",
                "often": job.often,
                "months": job.months,
                "due": due_words(job),
                "mark": marks[job.id],
                **of_house(job.id)._asdict(),
                "steps": [
                    {"id": step.id, "says": plain(step.says), "times": step.times, "hazard": step.hazard}
                    for step in job.steps
                ],
            }
            for job in jobs.values()
        },
        ensure_ascii=False,
    )


def _field(parent: Element, name: str, label: str, hint: str = "", tag: str = "input", **more: str) -> Element:
    field = add(parent, "div", "field", data_field=name)
    add(field, "label", text=label, for_=f"sign-{name}")
    described = f"sign-{name}-error"
    if hint:
        add(field, "p", "hint", text=hint, id=f"sign-{name}-hint")
        described = f"sign-{name}-hint {described}"
    kind = {"type": "text", "autocomplete": "off"} if tag == "input" else {}
    add(add(field, "div", "box"), tag, id=f"sign-{name}", name=name, aria_describedby=described, **kind, **more)
    add(field, "p", "error", id=f"sign-{name}-error", data_error=name)
    return field


def _group(parent: Element, name: str, legend: str, hint: str) -> Element:
    group = add(parent, "fieldset", "field", data_field=name)
    add(group, "legend", text=legend)
    add(group, "p", "hint", text=hint)
    add(group, "div", data_sign=name)
    add(group, "p", "error", data_error=name)
    return group


def _section(name: str, label: str) -> Element:
    section = Element(
        "section",
        {
            "class": "competence", "data-competence": name, "aria-label": label, "data-version": __version__,
            "data-search-exclude": "",
        },
    )  # fmt: skip
    add(add(section, "noscript"), "p", text="Without scripts nothing is kept here. Print the sheets and write by hand.")
    add(section, "p", "competence-trouble", data_sign="trouble", role="status")
    return section


def write_html(jobs: str) -> str:
    """Draw the form in which lines are written for one person or for a whole session.

    Parameters
    ----------
    jobs : str
        From :func:`jobs_data`.
    """
    section = _section("write", "Write what was seen")
    section.set("data-jobs", jobs)
    form = add(section, "form", "sheet-form", data_sign="form", novalidate="", autocomplete="off", hidden="")
    _field(form, "job", "Job", tag="select")
    _field(form, "on", "Seen on", "The day it happened, such as 2026-11-29.", inputmode="numeric", maxlength="10")
    _field(form, "batches", "On which batches", "Or loads, lots, a drill. Commas between several.", maxlength="120")
    people = _group(form, "people", "Who was seen", "Tick all for whom the same is written. Names stay on this device.")
    more = add(people, "div", "competence-add")
    _field(more, "new", "A name to add", maxlength="60")
    add(more, "button", type="button", text="Add this person", data_action="add")
    _group(
        form, "steps", "What was seen, by the standard", "Leave a step at “not today” when nobody showed or tried it."
    )  # fmt: skip
    _field(form, "why", "Not yet, because", "What was missing. No blame: what is tried next.", maxlength="300")
    _field(form, "next", "Next try on", "A day, or blank.", inputmode="numeric", maxlength="10")
    _field(form, "by", "Assessed by", "Who saw it, as your house writes names.", maxlength="60")
    _field(form, "assesses", "Office that may assess this job", "Your house says which. Blank if it has not.",
           maxlength="60")  # fmt: skip
    _field(form, "number", "House’s number of the procedure", "Blank if there is none.", maxlength="40")
    _field(form, "due", "Due again on", "For what was seen alone. Your house may set it sooner.", inputmode="numeric",
           maxlength="10")  # fmt: skip
    last = add(form, "div", "competence-last")
    add(last, "p", "hint", text=NO_LEAVE)
    add(last, "button", "main-button", text="Write these lines", type="submit")
    add(section, "p", "competence-said", data_sign="said", role="status")
    return html(section)


def person_html() -> str:
    """Draw the place where one person's record is chosen, saved, brought back and removed."""
    section = _section("person", "The record of one person")
    form = add(section, "form", "sheet-form", data_sign="who-form", novalidate="", autocomplete="off", hidden="")
    _field(form, "who", "Whose record", tag="select")
    _field(form, "renamed", "Name, to write it otherwise", maxlength="60")
    tools = add(section, "div", "sheet-buttons", data_sign="tools", hidden="")
    for action, words in (
        ("rename", "Change the name"), ("save-one", "Save this person’s record as a file"),
        ("save-all", "Save all records as a file"), ("bring", "Bring back a file"), ("print-all", "Print all sheets"),
        ("remove", "Remove this person from the device"),
    ):  # fmt: skip
        add(tools, "button", type="button", text=words, data_action=action)
    add(section, "input", type="file", accept="application/json,.json", hidden="", aria_label="A file saved here")
    add(section, "p", "competence-said", data_sign="said", role="status")
    return html(section)


def table_html(jobs: str, known: str) -> str:
    """Draw the trainer's table: learners' files side by side, who has what, what is due, what is missed.

    Parameters
    ----------
    jobs : str
        From :func:`jobs_data`.
    known : str
        JSON: by id of an exercise or case what it is called (``said``), and its slips (``slips``, by id).
    """
    section = _section("table", "The trainer’s table")
    section.set("data-jobs", jobs)
    section.set("data-known", known)
    tools = add(section, "div", "sheet-buttons", data_sign="tools", hidden="")
    for action, words in (
        ("read", "Read learners’ files"), ("forget", "Forget the files"), ("print", "Print the table"),
        ("csv", "Save as CSV"),
    ):  # fmt: skip
        add(tools, "button", type="button", text=words, data_action=action)
    add(section, "input", type="file", accept="application/json,.json", multiple="", hidden="",
        aria_label="Learners’ files")  # fmt: skip
    form = add(section, "form", "sheet-form", data_sign="choose", novalidate="", autocomplete="off", hidden="")
    for name, label in (("person", "Person"), ("job", "Job"), ("only", "Show")):
        _field(form, name, label, tag="select")
    add(section, "div", data_sign="said", role="status")
    add(section, "div", data_sign="out")
    return html(section)


def hand_in_html() -> str:
    """Draw the place where a learner makes a file for the trainer, and sees first what it holds."""
    section = _section("hand-in", "A file for the trainer")
    form = add(section, "form", "sheet-form", data_sign="form", novalidate="", autocomplete="off", hidden="")
    _field(form, "own", "Your name, as your trainer knows you", "It stands in the file and stays on this device.",
           maxlength="60")  # fmt: skip
    _field(form, "record", "Sign-off record to put in", tag="select")
    last = add(form, "div", "competence-last sheet-buttons")
    add(last, "button", "main-button", text="Show what the file will hold", type="submit")
    add(last, "button", type="button", text="Take my name off this device", data_action="forget")
    add(section, "div", data_sign="holds", role="status")
    return html(section)


def respond(asked: dict[str, Any]) -> str:
    """Answer one request of the trainer's table: rows of text as CSV that no spreadsheet takes for formulas.

    Parameters
    ----------
    asked : dict
        ``rows``: lists of text, the heads first.

    Returns
    -------
    str
        JSON: ``csv``.

    Raises
    ------
    ValueError
        When there are more rows, cells or letters than a table of a works can have.
    """
    rows = asked["rows"]
    if len(rows) > _MOST_ROWS or any(len(row) > _MOST_CELLS for row in rows):
        raise ValueError(f"a table of more than {_MOST_ROWS} rows or {_MOST_CELLS} columns is not written")
    out = io.StringIO()
    writer = csv.writer(out)
    for row in rows:
        writer.writerow([defused(str(cell)[:_LONGEST]) for cell in row])
    return json.dumps({"csv": out.getvalue()})
