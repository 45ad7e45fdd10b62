"""The day-book's requests of the page, answered: the one entry for all that is done with records."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import timedelta
from typing import Any
from xml.etree.ElementTree import Element

from ..asking.reading import Problem
from ..drawing.elements import add, html
from ..rules.conventions import READY_DAYS
from .batch.at_hand import Seen
from .batch.batch import Batch
from .batch.checks import Doubtful, doubtful
from .batch.course import Course, course_of
from .batch.openings import sheets_list
from .house.house import book_of, kept_batch, known_of
from .lines import exchange
from .lines.entry import Entry, entry_of, faults_of, in_order, moment_of, plain
from .lines.reports import import_report, many, refused_report
from .next.next_step import next_step
from .next.step import Wall
from .pages.charts import bed_chart, figure_of, fit_parts, printed, steep_chart
from .pages.today import today
from .pages.view import batches_table, lines_table, state_words, step_box

Reply = dict[str, Any]

INVENTED = "INVENTED: batches of the example maltings, made up to practise with."


def _place(parts: list[Element], demo: bool) -> str:
    """The inner HTML of a place; in the invented book it says so first."""
    if demo and parts:
        banner = Element("p", {"class": "invented"})
        banner.text = INVENTED
        parts = [banner, *parts]
    return "".join(html(part) for part in parts)


def _fault(problem: Problem, about: str) -> Reply:
    fault: Reply = {"id": about, "question": problem.question, "text": problem.text}
    if problem.row:
        fault["row"] = problem.row
    if problem.column:
        fault["column"] = problem.column
    return fault


def _wrong(problems: list[Problem]) -> list[Problem]:
    """What was typed and cannot stand; what was left blank is not wrong."""
    return [problem for problem in problems if not problem.missing]


def _wall(asked: Reply, batch: Batch | None = None) -> Wall:
    """The wall clock: as the page says it; without a zone, that of the batch's last line."""
    zone = asked.get("zone")
    if not isinstance(zone, int):
        zone = batch.entries[-1].zone if batch and batch.entries else 0
    local = moment_of(str(asked.get("date") or ""))
    return Wall(local - timedelta(minutes=zone) if local else None, zone)


def _today(asked: Reply, book: dict[str, list[Entry]], batches: list[Batch]) -> str:
    """The batches at work; with ``quick`` the house's other batches are left alone."""
    demo, root = bool(asked.get("demo")), str(asked.get("root") or "")
    learnt = None if asked.get("quick") else book
    parts = today(batches, learnt, _wall(asked), root=root, page=str(asked.get("page") or ""), demo=demo)
    return _place(parts, demo)


def _at_work(asked: Reply) -> Reply:
    book = book_of(asked["entries"])
    return {"places": {"today": _today(asked, book, [kept_batch(name, lines) for name, lines in book.items()])}}


def _book(asked: Reply) -> Reply:
    demo = bool(asked.get("demo"))
    book = book_of(asked["entries"])
    batches = [kept_batch(name, lines) for name, lines in book.items()]
    count = sum(len(batch.entries) for batch in batches)
    return {
        "places": {
            "today": _today(asked, book, batches),
            "batches": _place([batches_table(batches, demo)], demo),
        },
        "glance": bool(asked.get("quick")) and len(batches) > 1,
        "batches": [{"id": batch.id, "state": state_words(batch), "last": batch.entries[-1].at} for batch in batches],
        "status": f"{many(len(batches), 'batch', 'batches')}, {many(count, 'line')}." if batches else "",
    }


def _checks_list(found: list[Doubtful]) -> Element:
    if not found:
        none = Element("p", {"class": "remark"})
        none.text = "Nothing in this batch contradicts itself."
        return none
    listed = Element("ul", {"class": "book-checks"})
    for one in found:
        about = {"data_entry": one.entry} if one.entry else {}
        add(listed, "li", text=one.text, **about)
    return listed


def _glance(batch: Batch, root: str, demo: bool) -> Reply:
    """The lines of a batch, before the other batches have been looked at."""
    waits = Element("p", {"class": "remark"})
    waits.text = "What comes next is being worked out from earlier batches of this house."
    places = {"next": [waits], "lines": [lines_table(batch, root)] if batch.entries else []}
    return {"places": {place: _place(parts, demo) for place, parts in places.items()}, "glance": True}


def _batch(asked: Reply) -> Reply:
    demo, root = bool(asked.get("demo")), str(asked.get("root") or "")
    name = str(asked.get("batch") or "")
    book = book_of(asked["entries"])
    batch = Batch(name, book.get(name, []))
    if asked.get("quick") and set(book) - {name}:
        return _glance(batch, root, demo)
    wall = _wall(asked, batch)
    known = known_of(batch, book)
    course = course_of(batch, known.prior, wall.now)
    step = next_step(batch, course, wall, known.house.days or READY_DAYS, known.house.heat or 1.0)
    found = doubtful(batch, course)
    places = {"next": step_box(step, root), "checks": [_checks_list(found)], "course": [], "fit": [], "sheets": []}
    if batch.entries:
        now = wall.now or batch.entries[-1].utc
        places["lines"] = [lines_table(batch, root)]
        places["sheets"] = [sheets_list(Seen(batch, course, known.house, now), root, demo)]
        places["print"] = printed(batch, course, known.same, _checks_list(found), str(asked.get("date") or ""))
    if isinstance(course, Course):
        places["course"] = figure_of(steep_chart(batch, course, known.same), "book")
        places["fit"] = fit_parts(course, batch, known.same, known.others)
    bed = bed_chart(batch)
    wrong = [(entry, problem) for entry, problems in batch.problems.items() for problem in _wrong(problems)]
    if bed:
        places["course"] += figure_of(bed, "book")
    return {
        "places": {place: _place(parts, demo) for place, parts in places.items()},
        "likely": list(step.likely),
        "status": step.text,
        "faults": [_fault(problem, entry) for entry, problem in wrong],
    }


def _entry(asked: Reply) -> Reply:
    problems = faults_of(entry_of(asked["entry"]))
    return {"faults": [_fault(problem, problem.question) for problem in _wrong(problems)]}


def _export(asked: Reply) -> Reply:
    form = "csv" if asked.get("as") == "csv" else "json"
    text, name = exchange.export(in_order(asked["entries"]), form, str(asked.get("date") or ""))
    return {"text": text, "name": name}


def _import(asked: Reply) -> Reply:
    name = str(asked.get("name") or "The file")[:80]
    try:
        found = exchange.take(str(asked.get("text") or ""), in_order(asked["entries"]))
    except exchange.Unreadable as fault:
        return {"new": [], "report": html(refused_report(name, str(fault))), "refused": 0, "same": 0, "whole": True}
    return {
        "new": [plain(entry) for entry in found.new],
        "report": _place(import_report(name, found), False),
        "refused": len(found.refused) + len(found.differing),
        "same": found.same,
    }


def _lend(asked: Reply) -> Reply:
    from .lend import lend  # only where a sheet is opened

    return lend(asked, _wall(asked))


def _over_all(asked: Reply) -> Reply:
    from .pages import house_page  # only where batches are looked over

    over = {"look-back": house_page.look_back, "fits": house_page.fits, "held": house_page.held}
    places, more = over[asked["records"]](asked)
    demo = bool(asked.get("demo"))
    return {"places": {name: _place(parts, demo) for name, parts in places.items()}, **more}


_DO: dict[str, Callable[[Reply], Reply]] = {
    "book": _book,
    "today": _at_work,
    "batch": _batch,
    "entry": _entry,
    "export": _export,
    "import": _import,
    "lend": _lend,
    "look-back": _over_all,
    "fits": _over_all,
    "held": _over_all,
}


def respond(asked: Reply) -> str:
    """Answer one request about the day-book.

    Parameters
    ----------
    asked : dict
        ``records`` says what is wanted: book, today, batch, entry, lend, export, import, look-back, fits, held.
        ``entries`` are the lines of the book as plain data; ``batch`` a number, ``entry`` one line, ``sheet`` an id,
        ``as`` and ``text`` belong to export and import, ``date`` is the local minute, ``zone`` minutes east of UTC,
        ``root`` the relative address of the site's root, ``page`` that of the day-book where it is another page,
        ``demo`` whether the book is the invented one; with ``quick`` a batch, or the batches at work, are answered
        without what the house's other batches say, and ``glance`` says so.

    Returns
    -------
    str
        JSON: ``places`` (HTML by name), ``status``, ``faults``, and what the request has beside these.
    """
    reply = _DO[asked["records"]]({"entries": [], **asked})
    return json.dumps({"places": {}, "status": "", "faults": [], **reply})
