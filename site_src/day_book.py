"""What a fenced block ``day-book`` stands for: the forms of its entries, what leaves the plan, or an invented batch."""

from __future__ import annotations

from functools import cache
from xml.etree.ElementTree import Element

from calculators.daybook.batch.batch import Batch, by_batch
from calculators.daybook.batch.course import Course, course_of
from calculators.daybook.house.house import known_of
from calculators.daybook.lines.entry import Entry
from calculators.daybook.lines.exchange import take
from calculators.daybook.page import INVENTED
from calculators.daybook.pages.charts import figure_of, fit_sentence, steep_chart
from calculators.daybook.pages.forms import draw_forms
from calculators.daybook.pages.view import lines_table
from calculators.daybook.pages.what_now import draw_faults
from calculators.drawing.elements import add, html
from site_src.settings import ROOT

DEMO = ROOT / "docs" / "assets" / "demo-batches.json"


@cache
def _year() -> dict[str, list[Entry]]:
    return by_batch(take(DEMO.read_text(encoding="utf-8"), []).new)


def _example(name: str) -> str:
    book = _year()
    if name not in book:
        raise ValueError(f"the invented year has no batch {name!r}; it has {', '.join(book)}")
    batch = Batch(name, book[name])
    known = known_of(batch, book)
    course = course_of(batch, known.prior)
    box = Element("section", {"class": "book-example", "data-search-exclude": ""})
    add(box, "p", "invented", INVENTED)
    if isinstance(course, Course):
        box.extend(figure_of(steep_chart(batch, course, known.same), name))
        add(box, "p", "fit", fit_sentence(course, batch))
    box.append(lines_table(batch, None, tools=False))
    return html(box)


def day_book(body: str) -> str:
    """The HTML for the body of a block: ``forms``, ``what-now``, or ``example`` with the number of an invented batch.

    Raises
    ------
    ValueError
        When it is neither.
    """
    words = body.split()
    if words == ["forms"]:
        return html(draw_forms())
    if words == ["what-now"]:
        return html(draw_faults(None))
    if len(words) == 2 and words[0] == "example":
        return _example(words[1])
    raise ValueError(f"{body.strip()!r} is neither forms, what-now nor example with a batch")
