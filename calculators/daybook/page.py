"""The day-book's requests of the page, answered: the one entry for all that is done with the book."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import timedelta
from typing import Any
from xml.etree.ElementTree import Element

from ..asking.clocks import clocks_of
from ..asking.figures import minus_signs
from ..asking.reading import Problem
from ..drawing.elements import add, html
from ..drawing.links import plain as in_plain_words
from ..rules.conventions import READY_DAYS
from .batch.at_hand import Seen
from .batch.batch import Batch
from .batch.checks import Doubtful, doubtful
from .batch.course import Course, course_of
from .batch.later import by_now, later_lines, later_words
from .batch.openings import sheets_list
from .house.house import Known, book_of, kept_batch, known_of, read_batch, take_kept
from .lines import exchange
from .lines.entry import Entry, entry_of, faults_of, in_order, moment_of, plain
from .lines.reports import Brought, import_report, many, refused_report
from .next.expected import last_reading
from .next.next_step import next_step
from .next.off_plan import left_the_plan
from .next.open_faults import place_of
from .next.outside import outside
from .next.step import Step, Wall
from .pages.charts import bed_chart, figure_of, fit_parts, printed, steep_chart
from .pages.today import today
from .pages.view import batches_table, lines_table, off_words, shelf_cells, state_words, step_box

Reply = dict[str, Any]

MOST_LINES = 60
"""So many lines of a batch are drawn, until the page asks for more."""

INVENTED = "INVENTED: batches of the example maltings, made up to practise with."


def _place(parts: list[Element], demo: bool) -> str:
    """The inner HTML of a place; in the invented book it says so first."""
    if demo and parts:
        banner = Element("p", {"class": "invented"})
        banner.text = INVENTED
        parts = [banner, *parts]
    return "".join(html(part) for part in parts)


def _fault(problem: Problem, about: str) -> Reply:
    fault: Reply = {"id": about, "question": problem.question, "text": minus_signs(problem.text)}
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
    return Wall(local - timedelta(minutes=zone) if local else None, zone, clocks_of(asked.get("clocks")))


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
    take_kept(asked.get("sums") or ())
    older = [(str(one["id"]), one["shelf"]) for one in asked.get("sums") or () if one["id"] not in book]
    batches, odd = _each(book)
    shelf = [batches_table(batches, demo, older, int(asked.get("more") or 0))]
    if odd:
        shelf.append(_odd_part(odd))
    count = sum(len(batch.entries) for batch in batches)
    return {
        "places": {"today": _today(asked, book, batches), "batches": _place(shelf, demo)},
        "glance": bool(asked.get("quick")) and len(batches) > 1,
        "batches": [{"id": batch.id, "state": state_words(batch), "last": batch.entries[-1].at} for batch in batches],
        "status": f"{many(len(batches), 'batch', 'batches')}, {many(count, 'line')}." if batches else "",
    }


def _each(book: dict[str, list[Entry]]) -> tuple[list[Batch], list[tuple[str, int, str]]]:
    """The batches of a book, and those whose lines break the calculator: number, lines, why."""
    batches, odd = [], []
    for name, entries in book.items():
        try:
            batch = Batch(name, entries)
            shelf_cells(batch)
            batches.append(batch)
        except Exception as fault:  # one batch that nobody foresaw must not hide the others
            odd.append((name, len(entries), " ".join(str(fault).split())[:200]))
    return batches, odd


def _odd_part(odd: list[tuple[str, int, str]]) -> Element:
    box = Element("div", {"class": "book-odd"})
    add(box, "p", text="These batches could not be read. Their lines are kept: save the book as a file to see them.")
    listed = add(box, "ul")
    for name, lines, why in odd:
        add(listed, "li", text=f"{name}: {many(lines, 'line')} ({why})")
    return box


def _sums(asked: Reply) -> Reply:
    """The sums of the batches whose lines are given; with ``deep`` what takes long as well."""
    take_kept(asked.get("sums") or ())
    from .house.sums import sum_of

    batches, _ = _each(book_of(asked["entries"]))
    made, odd = [], []
    for batch in batches:
        try:
            made.append(sum_of(batch, deep=bool(asked.get("deep"))))
        except Exception as fault:  # as in the list of batches
            odd.append({"id": batch.id, "why": str(fault)[:200]})
    return {"sums": made, "odd": odd}


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


def _glance(batch: Batch, root: str, demo: bool, most: int) -> Reply:
    """The lines of a batch, before the other batches have been looked at."""
    waits = Element("p", {"class": "remark"})
    waits.text = "What comes next is being worked out from earlier batches of this house."
    places = {"next": [waits], "lines": [lines_table(batch, root, most=most)] if batch.entries else []}
    return {"places": {place: _place(parts, demo) for place, parts in places.items()}, "glance": True}


def _batch(asked: Reply) -> Reply:
    demo, root = bool(asked.get("demo")), str(asked.get("root") or "")
    name, most = str(asked.get("batch") or ""), int(asked.get("most") or MOST_LINES)
    book = book_of(asked["entries"])
    batch = read_batch(name, book.get(name, []))
    if asked.get("quick") and set(book) - {name}:
        return _glance(batch, root, demo, most)
    take_kept(asked.get("sums") or ())
    wall = _wall(asked, batch)
    known = known_of(batch, book)
    now_batch = by_now(batch, wall.now)
    course = course_of(now_batch, known.prior, wall.now)
    step = next_step(now_batch, course, wall, known.house.days or READY_DAYS, known.house.heat or 1.0)
    step = step._replace(more=(*later_words(later_lines(batch, wall.now)), *step.more))
    found = doubtful(batch, course)
    places = {"next": step_box(step, root), "checks": [_checks_list(found)], "course": [], "fit": [], "sheets": []}
    if batch.entries:
        now = wall.now or batch.entries[-1].utc
        places["lines"] = [lines_table(batch, root, most=most)]
        places["sheets"] = [sheets_list(Seen(now_batch, course, known.house, now), root, demo)]
    if batch.entries and asked.get("print"):
        places["print"] = printed(
            batch, course, known.same, _checks_list(found), str(asked.get("date") or ""), step_box(step, root)[:1]
        )
    if isinstance(course, Course):
        places["course"] = figure_of(steep_chart(now_batch, course, known.same), "book")
        places["fit"] = fit_parts(course, now_batch, known.same, known.others)
    bed = bed_chart(batch)
    problems = batch.problems_of(batch.standing[-most:])
    wrong = [(entry, problem) for entry, found_there in problems.items() for problem in _wrong(found_there)]
    if bed:
        places["course"] += figure_of(bed, "book")
    off = _off(now_batch, course, known, step, wall)
    places["next"] = [*off_words(off["off"]), *places["next"]]
    return {
        **off,
        "places": {place: _place(parts, demo) for place, parts in places.items()},
        "likely": list(step.likely),
        "status": in_plain_words(step.text),
        "stop": step.is_stop,
        "faults": [_fault(problem, entry) for entry, problem in wrong],
    }


def _ways(asked: Reply) -> Reply:
    """The ways through the rest of a batch, from the fault that was named."""
    from .pages.what_now import ways_parts  # only where something has left the plan

    demo, name = bool(asked.get("demo")), str(asked.get("batch") or "")
    book = book_of(asked["entries"])
    batch = read_batch(name, book.get(name, []))
    take_kept(asked.get("sums") or ())
    wall = _wall(asked, batch)
    batch = by_now(batch, wall.now)
    known = known_of(batch, book)
    course = course_of(batch, known.prior, wall.now)
    return {"places": {"ways": _place(ways_parts(batch, course, known.house, wall, asked), demo)}}


def _hand_over(asked: Reply) -> Reply:
    """The hand-over: on the screen, and as it is printed."""
    from .next.hand_over import hand_over  # only where one shift meets the next
    from .pages.hand_over import on_paper, on_screen

    demo, root = bool(asked.get("demo")), str(asked.get("root") or "")
    book = book_of(asked["entries"])
    take_kept(asked.get("sums") or ())
    batches, _ = _each(book)
    wall = _wall(asked)
    found = hand_over(batches, None if asked.get("quick") else book, wall)
    shown = on_screen(found, wall, root=root, page=str(asked.get("page") or ""), demo=demo)
    return {
        "places": {"hand-over": _place(shown, demo), "print": _place(on_paper(found, wall, demo), demo)},
        "batches": [one.batch for one in found],
        "unseen": [one.batch for one in found if not one.is_looked_at],
    }


def _off(batch: Batch, course: Course | str, known: Known, step: Step, wall: Wall) -> Reply:
    """Where a batch is, and what of it has left the plan."""
    if place_of(batch) is None:
        return {"at": "", "off": []}
    now = wall.now or batch.standing[-1].utc
    last = last_reading(batch, course, known.prior, now)
    return {"at": place_of(batch), "off": left_the_plan(batch, last, outside(batch, wall, course), step.at, now)}


def _entry(asked: Reply) -> Reply:
    problems = faults_of(entry_of(asked["entry"]))
    return {"faults": [_fault(problem, problem.question) for problem in _wrong(problems)]}


def _export(asked: Reply) -> Reply:
    form = "csv" if asked.get("as") == "csv" else "json"
    entries, date = in_order(asked["entries"]), str(asked.get("date") or "")
    text, name = exchange.export(entries, form, date)
    if form == "csv" and asked.get("part"):  # of a long book: the rows behind those of another request
        text = exchange.as_csv(entries, head=False)
    return {"text": text, "name": name}


def _import(asked: Reply) -> Reply:
    name = str(asked.get("name") or "The file")[:80]
    try:
        found = exchange.take(str(asked.get("text") or ""), in_order(asked["entries"]), int(asked.get("first") or 0))
    except exchange.Unreadable as fault:
        return {"new": [], "report": html(refused_report(name, str(fault))), "refused": 0, "same": 0, "whole": True}
    odd = [*found.refused, *found.differing]
    brought = Brought(len(found.new), found.same, len(found.differing), found.doubtful, odd, len(odd))
    new: Reply = {"new": [plain(entry) for entry in found.new]}
    if asked.get("apart"):
        new = {"ids": [entry.id for entry in found.new], "lines": json.dumps(new["new"])}
    return {
        **new,
        "report": _place(import_report(name, brought), False),
        "refused": len(odd),
        "same": found.same,
        "aside": [one._asdict() for one in odd],
        "doubtful": found.doubtful,
        "differing": len(found.differing),
    }


def _report(asked: Reply) -> Reply:
    """The report of a file that came in parts, out of what these brought."""
    counts = dict(asked["counts"])
    refused = [exchange.Refused(int(one["row"]), str(one["what"]), str(one["why"])) for one in counts["refused"]]
    brought = Brought(**{**counts, "refused": refused})
    return {"report": _place(import_report(str(asked.get("name") or "The file")[:80], brought), False)}


def _lend(asked: Reply) -> Reply:
    from .lend import lend  # only where a sheet is opened

    return lend(asked, _wall(asked))


def _week_plans(asked: Reply) -> Reply:
    """The plan of a house's week, as lines of the batches that are in the book."""
    from .house.week_opening import plans_of  # only where such a plan is taken over

    found = plans_of(asked["questions"], set(book_of(asked["entries"])))
    return {"lines": [line._asdict() for line in found.lines], "strange": list(found.strange)}


def _over_all(asked: Reply) -> Reply:
    from .pages import house_page  # only where batches are looked over

    over = {"look-back": house_page.look_back, "fits": house_page.fits, "held": house_page.held}
    places, more = over[asked["daybook"]](asked)
    demo = bool(asked.get("demo"))
    return {"places": {name: _place(parts, demo) for name, parts in places.items()}, **more}


def _carry(asked: Reply) -> Reply:
    from .carry import page as carry  # only where lines go from one device to another

    wanted = asked["daybook"]
    if wanted in ("codes-give", "code-typed"):
        return {"codes-give": carry.give, "code-typed": carry.typed}[wanted](asked, _wall(asked))
    return {"code-seen": carry.seen, "codes-whole": carry.whole}[wanted](asked)


_DO: dict[str, Callable[[Reply], Reply]] = {
    "book": _book,
    "today": _at_work,
    "batch": _batch,
    "entry": _entry,
    "export": _export,
    "sums": _sums,
    "import": _import,
    "report": _report,
    "lend": _lend,
    "week-plans": _week_plans,
    "ways": _ways,
    "hand-over": _hand_over,
    "look-back": _over_all,
    "fits": _over_all,
    "held": _over_all,
    "codes-give": _carry,
    "code-seen": _carry,
    "codes-whole": _carry,
    "code-typed": _carry,
}


def respond(asked: Reply) -> str:
    """Answer one request about the day-book.

    Parameters
    ----------
    asked : dict
        ``daybook`` says what is wanted: book, today, batch, entry, lend, week-plans, export, import, report, sums,
        ways, hand-over, look-back, fits, held, and what ``carry.page`` answers: codes-give, code-seen, codes-whole,
        code-typed. ``entries`` are the lines of the book as plain data; ``batch`` a number, ``entry`` one line,
        ``sheet`` an id, ``questions`` what stands in it,
        ``fault``, ``hours`` and ``begins`` what left the plan; ``as`` and ``text`` belong to
        export and import, ``date`` is the local minute, ``zone`` minutes east of UTC, ``clocks`` when they
        are changed, ``root`` the relative address of
        the site's root, ``page`` that of the day-book where it is another page, ``demo`` whether the book is the
        invented one; ``sums`` are what the page has kept of batches beside their lines, ``most`` how many lines or
        batches are drawn, ``more`` how many batches are neither in the lines nor in the sums; ``print`` asks for the
        record, ``apart`` for a file's new lines as one text, ``lines``, with their ``ids``, ``deep`` for all sums of
        the batches given; with ``quick`` a batch, or the batches at work, are answered without what the house's other
        batches say, and ``glance`` says so.

    Returns
    -------
    str
        JSON: ``places`` (HTML by name), ``status``, ``faults``, and what the request has beside these.
    """
    reply = _DO[asked["daybook"]]({"entries": [], **asked})
    return json.dumps({"places": {}, "status": "", "faults": [], **reply})
