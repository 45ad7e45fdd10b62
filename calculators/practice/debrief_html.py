"""The debrief as HTML: the chart, three turning points, four lines, and where to go back to."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from .kinds import Played


def draw_debrief(played: Played, root: str, other: Played | None = None) -> Element:
    """The debrief of a run; ``other`` is a second run on the same number, whose course is drawn beside it."""
    return Element("div", {"class": "practice-debrief"})
