"""A counter to tap as HTML: a button a class with its drawing, the count so far, and a way to take one back."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement

from ..asking.tally import Class, Tally
from .elements import add


def _picture(parent: Element, one: Class, view_box: str) -> None:
    svg = SubElement(parent, "svg", {"viewBox": view_box, "class": "tally-picture", "aria-hidden": "true"})
    for stroke in one.picture:
        part = SubElement(svg, "path", {"class": stroke.style, "d": stroke.path})
        if stroke.share < 1.0:
            part.set("pathLength", "100")
            part.set("stroke-dasharray", f"{round(100 * stroke.share)} 200")


def draw_tally(parent: Element, tally: Tally, *, shown: bool = False) -> Element:
    """The counter under a fold; with ``shown`` it is open from the start."""
    fold = add(parent, "details", "tally", data_tally=tally.id, data_wanted=str(tally.wanted))
    if shown:
        fold.set("open", "")
    add(fold, "summary", text=tally.label)
    rows = add(fold, "div", "tally-classes")
    for one in tally.classes:
        button = add(rows, "button", "tally-class", type="button", data_adds=" ".join(one.adds))
        _picture(button, one, tally.view_box)
        add(button, "span", "tally-label", one.label)
        add(button, "output", "tally-count", "0")
    line = add(fold, "p", "tally-line")
    add(line, "output", "tally-total", f"0 of {tally.wanted}", aria_live="polite")
    add(line, "button", type="button", data_action="tally-back", text="Take the last one back")
    return fold
