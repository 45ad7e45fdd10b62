"""Intervals against their limits: a whisker for each, the wanted side hatched."""

from __future__ import annotations

import math
from collections.abc import Callable
from xml.etree.ElementTree import Element, SubElement

from ..asking.declare import Span, Spans
from ..asking.figures import fixed
from ..asking.units import shown
from .chart import WIDTH, Data, axis_title, begin, put_rule, put_text, ticks

_LEFT, _RIGHT, _TOP = 14.0, 14.0, 8.0
_ROW, _FOOT = 78.0, 44.0


def _limits(spans: Spans) -> tuple[float, float]:
    """The axis: as given, or from the data to round numbers with room on both sides."""
    values = [end for span in spans.spans for end in (span.low, span.high)]
    values += [span.limit for span in spans.spans if span.limit is not None]
    low, high = min(values, default=0.0), max(values, default=1.0)
    room = max((high - low) * 0.15, 0.5)
    step = max(10.0 ** math.floor(math.log10(max(high - low, 1.0))) / 2, 0.5)
    low = math.floor((low - room) / step) * step if spans.axis.low is None else spans.axis.low
    high = math.ceil((high + room) / step) * step if spans.axis.high is None else spans.axis.high
    return low, max(high, low + 1.0)


def _hatch(svg: Element, name: str) -> str:
    pattern = SubElement(
        SubElement(svg, "defs"),
        "pattern",
        {"id": name, "width": "6", "height": "6", "patternUnits": "userSpaceOnUse"},
    )
    SubElement(pattern, "path", {"d": "M0 6 L6 0", "class": "hatch"})
    return f"url(#{name})"


def wanted_words(span: Span, axis_unit: str) -> str:
    """The limit as words: ``wanted: 95 % or more``."""
    if span.limit is None:
        return ""
    behind = f" {shown(axis_unit)}" if axis_unit else ""
    side = "or more" if span.wanted == "above" else "or less"
    return f"wanted: {span.limit:.6g}{behind} {side}"


def draw(spans: Spans, prefix: str) -> Element:
    """The picture of intervals under each other on one axis.

    Parameters
    ----------
    spans : Spans
        The data; each span has low <= value <= high.
    prefix : str
        Put in front of the ids inside the picture.

    Returns
    -------
    xml.etree.ElementTree.Element
        An ``svg`` element with ``title`` and ``desc``.
    """
    name = f"{prefix}-{spans.id}"
    bottom = _TOP + _ROW * len(spans.spans)
    svg = begin(name, spans.title, spans.summary, bottom + _FOOT)
    low, high = _limits(spans)
    hatch = _hatch(svg, f"{name}-wanted")

    def place(value: float) -> float:
        share = (min(max(value, low), high) - low) / (high - low)
        return _LEFT + share * (WIDTH - _LEFT - _RIGHT)

    axes = SubElement(svg, "g", {"class": "axes"})
    for value in ticks(low, high):
        put_rule(axes, place(value), _TOP, place(value), bottom, "grid")
        put_text(axes, f"{value:.6g}", place(value), bottom + 15, "tick")
    put_rule(axes, _LEFT, bottom, WIDTH - _RIGHT, bottom, "axis")
    put_text(axes, axis_title(spans.axis), WIDTH / 2, bottom + 32, "axis-title")
    for number, span in enumerate(spans.spans):
        _draw_span(svg, span, spans, _TOP + _ROW * number, (place(low), place(high)), place, hatch)
    return svg


def _draw_span(
    svg: Element,
    span: Span,
    spans: Spans,
    top: float,
    ends: tuple[float, float],
    place: Callable[[float], float],
    hatch: str,
) -> None:
    row = SubElement(svg, "g", {"class": "span"})
    middle, decimals = top + 55.0, spans.axis.decimals
    if span.limit is not None:
        at = place(span.limit)
        left, right = (at, ends[1]) if span.wanted == "above" else (ends[0], at)
        box = {"x": f"{left:.1f}", "y": f"{top + 42:.1f}", "width": f"{right - left:.1f}", "height": "26"}
        SubElement(row, "rect", {**box, "class": "wanted", "fill": hatch})
        put_rule(row, at, top + 38, at, top + 72, "mark")
    low, value, high = place(span.low), place(span.value), place(span.high)
    put_rule(row, low, middle, high, middle, "whisker")
    put_rule(row, low, middle - 7, low, middle + 7, "whisker")
    put_rule(row, high, middle - 7, high, middle + 7, "whisker")
    SubElement(row, "circle", {"cx": f"{value:.1f}", "cy": f"{middle:.1f}", "r": "5", "class": "dot"})
    numbers = " to ".join(fixed(end, decimals) for end in (span.low, span.high))
    put_text(row, f"{span.label}: {fixed(span.value, decimals)} ({numbers})", ends[0], top + 13, "span-label", "start")
    put_text(row, wanted_words(span, spans.axis.unit), ends[0], top + 31, "span-limit", "start")


def data_of(spans: Spans) -> Data:
    """The numbers of the picture as a table."""
    decimals = spans.axis.decimals
    headings = ("What", axis_title(spans.axis), "Low", "High", "Limit")
    rows = tuple(
        (
            span.label,
            *(fixed(value, decimals) for value in (span.value, span.low, span.high)),
            wanted_words(span, spans.axis.unit) or "–",
        )
        for span in spans.spans
    )
    return Data(headings, rows)
