"""The day-book as HTML: the ruled table of a batch, the list of batches, and the words of an entry."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime
from xml.etree.ElementTree import Element

from ...asking.declare import Number, Question, Table
from ...asking.figures import clock_words, day_words, fixed
from ...asking.reading import Problem, Raw, is_blank, tidy
from ...asking.units import shown
from ...drawing.elements import add
from ...drawing.links import fill
from ...drawing.results import draw_note, typed_words
from ...rules.replan.faults import Fault
from ...words.replan import off_list
from ..batch.batch import Batch
from ..lines.entry import Entry, replaced
from ..lines.kinds import KIND, WITHDRAWN
from ..next.step import Step
from .address import percent

_OURS = re.compile(r"calculators/[a-z0-9-]+/(?:\?[^\s\"'<>\\]*)?(?:#[a-z0-9_-]*)?")


def said_time(moment: datetime, *, year: bool = False) -> str:
    """Date and time in a line: ``Wed 25 Nov 14:10``, or ``Wed 25 Nov 2026 14:10``."""
    return clock_words(moment, year=year)


def kind_label(entry: Entry) -> str:
    """What kind of entry a line is."""
    kind = KIND.get(entry.kind)
    return kind.label if kind else f"“{entry.kind}”"


def _typed(question: Question, raw: Raw) -> str:
    """What was typed, as it was typed, with the unit where none was typed."""
    if isinstance(raw, (list, tuple)):
        return "; ".join(" ".join(str(cell).strip() for cell in row) for row in raw if not is_blank([row]))
    text = tidy(str(raw))
    if isinstance(question, Number) and text[-1:].isdigit():
        return f"{text} {shown(question.unit)}".rstrip()
    return text


def _in_fahrenheit(raw: Raw) -> bool:
    """Whether it was typed in degrees Fahrenheit, so that its digits in ours are of our making."""
    return str(raw).strip().upper().endswith("F")


def value_words(batch: Batch, entry: Entry) -> list[tuple[str, str]]:
    """The values of an entry as (label, words); a value that cannot be read stands as it was typed."""
    kind = KIND.get(entry.kind)
    values = batch.values(entry)
    said: list[tuple[str, str]] = []
    for question in kind.questions if kind else ():
        raw, value = entry.values.get(question.id), values.get(question.id)
        if is_blank(raw) and value is None:
            continue
        if isinstance(question, Number) and question.unit == "C" and _in_fahrenheit(raw) and value is not None:
            value = round(value, 1)
        words = typed_words(question, value) if value is not None else _typed(question, raw)
        if isinstance(question, Table) and value is not None and question.fixed:
            words = ", ".join(part for part in words.split("; "))
        said.append((question.label, words))
    if kind is None:
        said += [(name, str(raw)) for name, raw in entry.values.items()]
    return said


def _values_cell(cell: Element, batch: Batch, entry: Entry, root: str | None) -> None:
    if entry.kind == "answer":
        _answer_cell(cell, entry, root)
        return
    kind = KIND.get(entry.kind)
    said = value_words(batch, entry)
    # Two things that are always asked, such as a weight and how it was weighed, need no labels.
    alone = kind is not None and (len(kind.questions) <= 2 or (entry.kind == "basket" and len(said) <= 2))
    parts = []
    for label, words in said:
        parts.append(words if alone else f"{label}: {words}")
    if entry.kind == "basket" and parts:
        moisture = batch.basket(entry)
        if moisture is not None:
            parts[0] += f" = {fixed(moisture, 1)} %"
    cell.text = "; ".join(parts)


def _answer_cell(cell: Element, entry: Entry, root: str | None) -> None:
    link = str(entry.values.get("link") or "")
    sheet = str(entry.values.get("sheet") or "")
    target = cell
    if root is not None and _OURS.fullmatch(link):
        add(cell, "a", text=sheet or "sheet", href=root + link)
        cell[-1].tail = f": {entry.values.get('answers') or ''}"
    else:
        target.text = f"{sheet}: {entry.values.get('answers') or ''}"


def _struck(cell: Element, struck: bool) -> Element:
    return add(cell, "s") if struck else cell


def _line(
    body: Element, batch: Batch, entry: Entry, root: str | None, struck: bool, note: str, problems: Sequence[Problem]
) -> None:
    row = add(body, "tr", "struck" if struck else "", data_entry=entry.id)
    add(_struck(add(row, "th", "time", scope="row"), struck), "time", text=f"{entry.local:%H:%M}", datetime=entry.at)
    what = add(row, "td", "what")
    _struck(what, struck).text = kind_label(entry)
    if note:
        add(what, "span", "correction", f" {note}")
    values = add(row, "td", "values")
    _values_cell(_struck(values, struck), batch, entry, root)
    if not struck:
        _faults(values, entry, problems)
    _struck(add(row, "td", "who"), struck).text = entry.who
    _struck(add(row, "td", "remark"), struck).text = entry.remark
    tools = add(row, "td", "row-tools")
    if not struck and entry.kind != WITHDRAWN:
        name = f"Correct: {kind_label(entry)}, {said_time(entry.local)}"
        add(tools, "button", type="button", data_action="correct", aria_label=name, text="Correct")


def _faults(cell: Element, entry: Entry, problems: Sequence[Problem]) -> None:
    """What is to be put right, a line each; what was left blank in one line."""
    for problem in problems:
        if not problem.missing:
            add(cell, "p", "line-fault", problem.text)
    kind = KIND.get(entry.kind)
    blank = [kind.question(problem.question) for problem in problems if problem.missing] if kind else []
    if blank:
        add(cell, "p", "line-blank", "Not given: " + ", ".join(q.label.lower() for q in blank if q) + ".")


def _as_written(entries: Sequence[Entry], gone: dict[str, Entry]) -> list[Entry]:
    """The lines as they stand in the book: in the order of writing, each correction below what it corrects."""
    below: dict[str, list[Entry]] = {}
    tops = []
    known = {entry.id for entry in entries}
    corrections = {entry.id for entry in gone.values()}
    for entry in entries:
        if entry.replaces in known and entry.replaces != entry.id and entry.id in corrections:
            below.setdefault(str(entry.replaces), []).append(entry)
        else:
            tops.append(entry)
    lines: list[Entry] = []
    seen: set[str] = set()

    def put(entry: Entry) -> None:
        stack = [entry]
        while stack:
            one = stack.pop()
            if one.id in seen:
                continue
            seen.add(one.id)
            lines.append(one)
            stack.extend(reversed(below.get(one.id, [])))

    for entry in tops:
        put(entry)
    for entry in entries:
        put(entry)
    return lines


def draw_head(table: Element, tools: bool) -> None:
    """The head of the bound table; with ``tools`` there is room for a button at the end of a line."""
    head = add(add(table, "thead"), "tr")
    for label in ("Time", "What", "Values", "Who", "Remark"):
        add(head, "th", text=label, scope="col")
    if tools:
        add(head, "td")


def lines_table(batch: Batch, root: str | None, tools: bool = True, most: int | None = None) -> Element:
    """The bound table of a batch: every line ever written, those struck out among them, the newest last.

    Parameters
    ----------
    batch : Batch
        The batch.
    root : str or None
        Relative address of the site's root; None on paper.
    tools : bool, optional
        Whether a line can be corrected from here.
    most : int, optional
        So many lines at the end are drawn, and a button shows the ones before; all without it.
    """
    box = Element("div", {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": f"Batch {batch.id}"})
    table = add(box, "table", "book-lines")
    lines = _as_written(batch.entries, replaced(batch.entries))
    shown = lines if most is None else lines[-most:]
    caption = f"Batch {batch.id}, line by line"
    if len(shown) < len(lines):
        caption += f": the last {len(shown)} of {len(lines)}"
        button = Element("button", {"type": "button", "data-action": "more-lines"})
        button.text = f"Show more lines ({len(lines) - len(shown)} before these)"
        box.insert(0, button)
    add(table, "caption", text=caption)
    draw_head(table, tools)
    gone = replaced(batch.entries)
    problems = batch.problems_of([entry for entry in shown if entry.id not in gone and entry.kind != WITHDRAWN])
    day, body = None, add(table, "tbody")
    for entry in shown:
        if entry.local.date() != day:
            day = entry.local.date()
            body = body if not len(body) else add(table, "tbody")
            over = add(add(body, "tr", "book-date"), "th", colspan="6" if tools else "5", scope="rowgroup")
            over.text = day_words(entry.local)
        note = "(corrected)" if entry.replaces and entry.kind != WITHDRAWN else ""
        if entry.id in gone:
            note = "(struck out)" if gone[entry.id].kind == WITHDRAWN else "(corrected below)"
        _line(body, batch, entry, root, entry.id in gone, note, problems.get(entry.id, ()))
        if not tools:
            row = body[-1]
            row.remove(row[-1])
    return box


def batch_link(parent: Element, name: str, demo: bool, page: str = "") -> Element:
    """The number of a batch as a link to it in the book; ``page`` is the address of the book, seen from elsewhere."""
    book = "&book=demo" if demo else ""
    return add(parent, "a", text=name, href=f"{page}?batch={percent(name)}{book}", data_batch=name)


def state_words(batch: Batch) -> str:
    """Where a batch stands, in a few words."""
    if batch.left:
        return "gone to the kiln"
    if batch.cast:
        where = "in the box" if batch.in_box else "in the drum" if batch.vessel == "drum" else "on the floor"
        return f"{where} since {said_time(batch.cast.local)}"
    if batch.spells:
        return "under water" if batch.spells[-1].wet else "in an air rest"
    return "not yet wet" if batch.entries else "nothing written"


def shelf_cells(batch: Batch) -> tuple[str, str, str, str, str]:
    """The cells of a batch in the list of batches, behind its number."""
    barley = ", ".join(part for part in (batch.text("barley"), batch.text("lot"), batch.text("season")) if part)
    last = batch.entries[-1]
    begun = batch.standing[0] if batch.standing else last
    return (
        barley,
        said_time(begun.local, year=True),
        state_words(batch),
        f"{said_time(last.local)} {kind_label(last)}",
        str(len(batch.entries)),
    )


Older = Sequence[tuple[str, Sequence[str]]]


def batches_table(batches: Sequence[Batch], demo: bool, older: Older = (), more: int = 0) -> Element:
    """The list of batches, the one written in last on top.

    Parameters
    ----------
    batches : sequence of Batch
        Those whose lines are at hand.
    demo : bool
        Whether they are those of the invented book.
    older : sequence of (str, sequence of str)
        Numbers and cells of batches that were written in before these, the last one first.
    more : int
        How many there are that are not shown.
    """
    if not batches and not older:
        empty = Element("p", {"class": "remark"})
        empty.text = "No batch has been begun in this book."
        return empty
    box = Element("div", {"class": "table-box", "tabindex": "0", "role": "region", "aria-label": "Batches"})
    table = add(box, "table", "book-batches")
    add(table, "caption", text="Batches of this book")
    head = add(add(table, "thead"), "tr")
    for label in ("Batch", "Barley", "Begun", "Where it stands", "Last line", "Lines"):
        add(head, "th", text=label, scope="col")
    body = add(table, "tbody")
    newest = sorted(batches, key=lambda one: one.entries[-1].seq, reverse=True)
    for name, cells in [*((batch.id, shelf_cells(batch)) for batch in newest), *older]:
        row = add(body, "tr")
        batch_link(add(row, "th", scope="row"), name, demo)
        for words in cells:
            add(row, "td", text=words)
    if more:
        add(box, "button", type="button", data_action="more-batches", text=f"Show more batches ({more} older)")
    return box


def step_box(step: Step, root: str | None) -> list[Element]:
    """The next step, its remarks and the box that belongs to it."""
    lead = Element("p", {"class": "next-step"})
    fill(lead, step.text, root)
    parts = [lead]
    for words in step.more:
        parts.append(fill(Element("p", {"class": "remark"}), words, root))
    holder = Element("div")
    for note in step.notes:
        draw_note(holder, note, root)
    return parts + list(holder)


def off_words(faults: Sequence[Fault]) -> list[Element]:
    """That a batch has left its plan, over its next step; nothing where it has not."""
    if not faults:
        return []
    part = Element("p", {"class": "off-plan"})
    part.text = f"Off the plan: {off_list(faults)}. What is done at once, and the ways on, stand under “What now?”."
    return [part]
