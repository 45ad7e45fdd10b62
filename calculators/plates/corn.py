"""The moisture inside one corn at four times of a steep, as rings of a section."""

from __future__ import annotations

from typing import NamedTuple
from xml.etree.ElementTree import Element, SubElement

from ..asking.figures import fixed, plain_number
from ..drawing.chart import Data, begin, put_rule, put_text
from ..models.steep.course import Steep
from ..models.steep.hydration import steep

STAGES = ((8.0, 14.0), (8.0, 14.0), (8.0, 14.0), (12.0, 14.0), (3.0, 14.0))
BARLEY_MOISTURE = 12.5
TIMES = (
    (2.0, "2 h, under water"),
    (8.0, "8 h, first drain"),
    (16.0, "16 h, end of the rest"),
    (39.0, "39 h, last drain"),
)
_RINGS = 12
_STEPS = (15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0)
"""Moistures at which the shade changes [%]."""

_RADIUS = 78.0
_ACROSS = (105.0, 315.0)
_DOWN = (100.0, 318.0)
_LEGEND_TOP = 442.0


class Drawn(NamedTuple):
    """A drawing with its caption and its numbers."""

    svg: Element
    caption: str
    data: Data


def shade_of(moisture: float) -> int:
    """The number of the shade of a moisture: 0 for the driest.

    >>> shade_of(14.9), shade_of(15.0), shade_of(46.0)
    (0, 1, 7)
    """
    return sum(moisture >= step for step in _STEPS)


def _one(svg: Element, course: Steep, hours: float, words: str, x: float, y: float) -> tuple[str, ...]:
    """Draw one section, and give its row of numbers."""
    radii = [(n + 0.5) / _RINGS for n in range(_RINGS)]
    moistures = course.profile(hours, radii)
    group = SubElement(svg, "g", {"class": "section"})
    for n in reversed(range(_RINGS)):
        SubElement(
            group,
            "circle",
            {
                "cx": f"{x:.1f}",
                "cy": f"{y:.1f}",
                "r": f"{_RADIUS * (n + 1) / _RINGS:.1f}",
                "class": f"ring ring-{shade_of(moistures[n])}",
            },
        )
    SubElement(group, "circle", {"cx": f"{x:.1f}", "cy": f"{y:.1f}", "r": f"{_RADIUS:.1f}", "class": "rim"})
    put_text(svg, words, x, y + _RADIUS + 17, "strong")
    inner, outer = course.profile(hours, [0.0, 1.0])
    mean = course.at(hours).net
    put_text(svg, f"middle {fixed(inner, 0)} %, skin {fixed(outer, 0)} %", x, y + _RADIUS + 34, "label")
    quarters = course.profile(hours, [0.25, 0.5, 0.75])
    return (words, *(fixed(m, 1) for m in (inner, *quarters, outer, mean)))


def rings() -> Drawn:
    """Draw a corn cut through at four times of a usual steep."""
    course = steep(barley_moisture=BARLEY_MOISTURE, stages=STAGES)
    schedule = ", ".join(
        f"{plain_number(hours)} h {'wet' if n % 2 == 0 else 'rest'}" for n, (hours, _) in enumerate(STAGES)
    )
    caption = (
        f"Moisture inside a corn, computed with the steep model: {schedule}, at 14 °C from "
        f"{plain_number(BARLEY_MOISTURE)} %. Darker is wetter. In the rest the moisture evens out inside. A real corn "
        "is long, and drinks most at the germ end: read it as wetter and drier, not as a measurement."
    )
    svg = begin("corn-rings", "Moisture inside a corn at four times", caption, 492.0)
    svg.set("class", "rings")
    places = [(x, y) for y in _DOWN for x in _ACROSS]
    rows = [_one(svg, course, *time, *place) for time, place in zip(TIMES, places, strict=True)]
    _legend(svg)
    heads = ("When", "Middle, %", "A quarter out, %", "Half out, %", "Three quarters out, %", "Skin, %", "Mean, %")
    return Drawn(svg, caption, Data(heads, tuple(rows)))


def _legend(svg: Element) -> None:
    width = 44.0
    left = 210.0 - width * (len(_STEPS) + 1) / 2.0
    for n in range(len(_STEPS) + 1):
        box = {"x": f"{left + n * width:.1f}", "y": f"{_LEGEND_TOP:.1f}", "width": f"{width:.1f}", "height": "16"}
        SubElement(svg, "rect", {**box, "class": f"ring ring-{n}"})
    for n, step in enumerate(_STEPS, 1):
        x = left + n * width
        put_rule(svg, x, _LEGEND_TOP, x, _LEGEND_TOP + 20, "tick-line")
        put_text(svg, plain_number(step), x, _LEGEND_TOP + 34, "label")
    put_text(svg, "%", left + (len(_STEPS) + 1) * width - 8, _LEGEND_TOP + 34, "label")
