"""A drawing that follows its numbers: shapes and words, styled by class as the drawings of the pages are."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement

from ..asking.declare import Drawing
from .chart import begin, put_text


def draw(drawing: Drawing, prefix: str) -> Element:
    """The drawing, an ``svg`` element with ``title`` and ``desc``; ``prefix`` begins the ids inside it."""
    svg = begin(f"{prefix}-{drawing.id}", drawing.title, drawing.summary, drawing.height)
    svg.set("class", "drawing drawn")
    for shape in drawing.shapes:
        SubElement(svg, "path", {"d": shape.path, "class": shape.style})
    for words in drawing.words:
        put_text(svg, words.text, words.x, words.y, words.style, "start")
    return svg
