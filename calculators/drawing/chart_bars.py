"""Bars side by side in classes; sets are told apart by filling: solid, hatched, outlined."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement

from ..asking.declare import Bars
from ..asking.figures import fixed
from .chart import WIDTH, Data, axis_title, begin, put_rule, put_text, ticks

_LEFT, _RIGHT, _TOP, _BOTTOM = 40.0, 8.0, 26.0, 240.0
_FOOT, _LEGEND_ROW = 46.0, 20.0
_GAP = 0.22  # of a class, left free
MOST_SETS = 3


def _fillings(svg: Element, name: str, count: int) -> list[dict[str, str]]:
    """The filling of each set, the last one solid."""
    pattern = SubElement(
        SubElement(svg, "defs"),
        "pattern",
        {"id": f"{name}-hatch", "width": "6", "height": "6", "patternUnits": "userSpaceOnUse"},
    )
    SubElement(pattern, "path", {"d": "M0 6 L6 0", "class": "hatch"})
    kinds = [
        {"class": "bar outlined"},
        {"class": "bar hatched", "fill": f"url(#{name}-hatch)"},
        {"class": "bar solid"},
    ]
    return kinds[MOST_SETS - count :]


def _box(parent: Element, x: float, y: float, width: float, height: float, kind: dict[str, str]) -> None:
    place = {"x": f"{x:.1f}", "y": f"{y:.1f}", "width": f"{width:.1f}", "height": f"{height:.1f}"}
    SubElement(parent, "rect", {**place, **kind})


def draw(bars: Bars, prefix: str) -> Element:
    """The picture of bars in classes.

    Parameters
    ----------
    bars : Bars
        One to three sets, each with a value of 0 or more for every class.
    prefix : str
        Put in front of the ids inside the picture.

    Returns
    -------
    xml.etree.ElementTree.Element
        An ``svg`` element with ``title`` and ``desc``.

    Raises
    ------
    ValueError
        When there are more than three sets, or a set does not have a value for each class.
    """
    if not 1 <= len(bars.sets) <= MOST_SETS or any(len(s.values) != len(bars.classes) for s in bars.sets):
        raise ValueError("bars take one to three sets with a value for every class")
    name = f"{prefix}-{bars.id}"
    svg = begin(name, bars.title, bars.summary, _BOTTOM + _FOOT + _LEGEND_ROW * len(bars.sets))
    kinds = _fillings(svg, name, len(bars.sets))
    high = bars.y.high or max(max(s.values) for s in bars.sets) or 1.0
    high = bars.y.high or high * 1.08

    def y(value: float) -> float:
        return _BOTTOM - min(value, high) / high * (_BOTTOM - _TOP)

    axes = SubElement(svg, "g", {"class": "axes"})
    for value in ticks(0.0, high):
        put_rule(axes, _LEFT, y(value), WIDTH - _RIGHT, y(value), "grid")
        put_text(axes, f"{value:.6g}", _LEFT - 6, y(value) + 4, "tick", "end")
    step = (WIDTH - _LEFT - _RIGHT) / len(bars.classes)
    width = step * (1 - _GAP) / len(bars.sets)
    for place, label in enumerate(bars.classes):
        left = _LEFT + step * (place + _GAP / 2)
        put_text(axes, label, _LEFT + step * (place + 0.5), _BOTTOM + 16, "tick")
        for number, (bar, kind) in enumerate(zip(bars.sets, kinds, strict=True)):
            value, x = bar.values[place], left + width * number
            _box(svg, x + 1, y(value), width - 2, _BOTTOM - y(value), kind)
            put_text(svg, fixed(value, bars.y.decimals), x + width / 2, y(value) - 4, "bar-value")
    put_rule(axes, _LEFT, _BOTTOM, WIDTH - _RIGHT, _BOTTOM, "axis")
    put_text(axes, bars.x_label, (_LEFT + WIDTH - _RIGHT) / 2, _BOTTOM + 34, "axis-title")
    put_text(axes, axis_title(bars.y), 4, 12, "axis-title", "start")
    legend = SubElement(svg, "g", {"class": "legend"})
    for row, (bar, kind) in enumerate(zip(bars.sets, kinds, strict=True)):
        top = _BOTTOM + _FOOT + row * _LEGEND_ROW
        _box(legend, _LEFT, top, 24, 12, kind)
        put_text(legend, bar.label, _LEFT + 31, top + 10, "legend-label", "start")
    return svg


def data_of(bars: Bars) -> Data:
    """The numbers of the picture as a table: a row a class, a column a set."""
    headings = (bars.x_label, *(f"{bar.label}, {axis_title(bars.y).lower()}" for bar in bars.sets))
    rows = tuple(
        (label, *(fixed(bar.values[place], bars.y.decimals) for bar in bars.sets))
        for place, label in enumerate(bars.classes)
    )
    return Data(headings, rows)
