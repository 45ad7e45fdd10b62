"""The hand-over as HTML: on the screen with a look at each batch, and on one page of paper to say back and sign."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from ... import __version__
from ...asking.figures import day_words
from ...drawing.elements import add
from ...drawing.links import fill, plain
from ..next.hand_over import Handed
from ..next.step import Wall
from .view import batch_link, said_time

NOTHING_RUNS = "No batch is at work in this book: there is nothing to hand over."
ORDER = "Danger first. Then what is late, what is due, what is off, what nobody knows. Then it is said back."


def _rows(one: Handed) -> list[tuple[str, tuple[str, ...]]]:
    return [
        ("Next", (f"{one.step} {one.due}",)),
        ("Then", one.coming),
        ("Off the plan", one.off),
        ("Outside what is accepted", one.outside),
        ("Read last", (one.reading,)),
        ("Told and remarked", one.told),
        ("Nobody knows", one.unknown),
    ]


def on_screen(found: Sequence[Handed], wall: Wall, *, root: str | None, page: str, demo: bool) -> list[Element]:
    """Each batch with two buttons for the look at it.

    Parameters
    ----------
    found : sequence of Handed
        What is handed over.
    wall : Wall
        The clock.
    root : str or None
        Relative address of the site's root.
    page : str
        Address of the day-book.
    demo : bool
        Whether it is the invented book.
    """
    if not found:
        none = Element("p", {"class": "remark"})
        none.text = NOTHING_RUNS
        return [none]
    parts = [_head(wall)]
    listed = Element("ol", {"class": "today hand-over"})
    for one in found:
        item = add(listed, "li", data_handed=one.batch, data_looked="yes" if one.is_looked_at else "no")
        head = add(item, "h3")
        batch_link(head, one.batch, demo, page)
        head[-1].tail = f" {one.state}"
        for label, words in _rows(one):
            _row(item, label, words, root)
        if one.looked:
            add(item, "p", "looked", one.looked)
            continue
        add(item, "p", "looked", "Look at it now, from where nobody has to lean or reach. Then say how it is.")
        row = add(item, "div", "sheet-buttons")
        add(row, "button", type="button", data_action="as-written", text="It is as the book says")
        add(row, "button", type="button", data_action="otherwise", text="It is otherwise")
    return [*parts, listed]


def _head(wall: Wall) -> Element:
    head = Element("h2", {"class": "today-head"})
    head.text = f"Hand-over, {said_time(wall.local(wall.now))}" if wall.now else "Hand-over"
    return head


def _row(item: Element, label: str, words: tuple[str, ...], root: str | None) -> None:
    kept = [one for one in words if one]
    if not kept:
        return
    if len(kept) == 1:
        line = add(item, "p", "handed", f"{label}: ")
        fill(add(line, "span", "next-step" if label == "Next" else ""), kept[0], root)
        return
    add(item, "p", "handed", f"{label}:")
    listed = add(item, "ul", "handed-list")
    for one in kept:
        fill(add(listed, "li"), one, root)


def on_paper(found: Sequence[Handed], wall: Wall, demo: bool) -> list[Element]:
    """The same on one page of A4, with blanks for by whom, for remarks, and to sign."""
    title = Element("h2")
    day = day_words(wall.local(wall.now)) if wall.now else ""
    clock = f", {wall.local(wall.now):%H:%M}" if wall.now else ""
    title.text = f"Hand-over, {day}{clock}" + (" (INVENTED)" if demo else "")
    lead = Element("p", {"class": "card-line"})
    lead.text = ORDER
    parts = [title, lead]
    table = Element("table", {"class": "handed-paper"})
    for one in found:
        _on_paper(table, one)
    parts.append(table)
    for words in (
        f"Remarks: {'_' * 78}",
        "_" * 88,
        f"Said back in full: yes / no     Handed over by: {'_' * 20}  Time: {'_' * 8}",
        f"Each batch was looked at.     Taken over by: {'_' * 20}  Time: {'_' * 8}",
        f"Day-book · version {__version__} · a signature says that it was told. It gives nobody leave to go in.",
    ):
        foot = Element("p", {"class": "card-line"})
        foot.text = words
        parts.append(foot)
    return parts


def _on_paper(table: Element, one: Handed) -> None:
    body = add(table, "tbody")
    head = add(add(body, "tr"), "th", scope="rowgroup", colspan="2")
    head.text = f"{one.batch}: {one.state}     looked at by: {'_' * 12}"
    for label, words in _rows(one):
        kept = [plain(each) for each in words if each]
        if not kept:
            continue
        row = add(body, "tr")
        add(row, "th", scope="row", text=label)
        text = " ".join(each if each.endswith((".", "!", "?")) else f"{each};" for each in kept[:_MOST]).rstrip(";")
        more = f" And {len(kept) - _MOST} more, in the book." if len(kept) > _MOST else ""
        by = f" By whom: {'_' * 14}" if label == "Next" else ""
        add(row, "td", text=text + more + by)


_MOST = 3  # so many of one sort stand on the paper
