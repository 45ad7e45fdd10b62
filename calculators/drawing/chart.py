"""Charts as SVG, drawn from data; the same picture at build and in the browser.

Elements carry classes, never colours, so that light, dark and print are a matter of style.
Lines differ by dashes as well, so that they can be told apart without colour.
"""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple
from xml.etree.ElementTree import Element, SubElement

from ..asking.declare import Axis, Chart
from ..asking.figures import fixed
from ..asking.units import shown
from .chart_labels import Labels, along

WIDTH, HEIGHT = 420.0, 300.0
_LEFT, _RIGHT, _TOP = 46.0, 12.0, 22.0
_LEGEND_ROW = 20.0
_LEGEND_SIGNS = 38
_MOST_DATA_ROWS = 25


class Data(NamedTuple):
    """The chart's numbers as a table: headings and rows of text."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def ticks(low: float, high: float, most: int = 7) -> list[float]:
    """Round values from low to high, at most ``most`` of them, steps of 1, 2, 2.5 or 5 times a power of ten.

    >>> ticks(0, 35)
    [0.0, 10.0, 20.0, 30.0]
    """
    if not high > low:
        return [low]
    rough = (high - low) / (most - 1)
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(s * power for s in (1, 2, 2.5, 5, 10) if s * power >= rough * 0.999)
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [round(n * step, 12) for n in range(first, last + 1)]


def hour_ticks(low: float, high: float, most: int = 7) -> list[float]:
    """Ticks for hours: steps that people count in (1, 2, 4, 6, 8, 12, 24, 48)."""
    if not high > low:
        return [low]
    steps = (0.25, 0.5, 1, 2, 4, 6, 8, 12, 24, 48, 96)
    step = next((s for s in steps if (high - low) / s <= most), steps[-1])
    return [n * step for n in range(math.ceil(low / step), math.floor(high / step + 1e-9) + 1)]


def _limits(axis: Axis, values: Sequence[float]) -> tuple[float, float]:
    low = min(values, default=0.0) if axis.low is None else axis.low
    high = max(values, default=1.0) if axis.high is None else axis.high
    if high <= low:
        high = low + 1.0
    return low, high


class _Frame:
    """Where values lie on the paper."""

    def __init__(self, chart: Chart, legend_rows: int) -> None:
        xs: list[float] = []
        ys: list[float] = []
        for line in chart.lines:
            xs += line.xs
            ys += line.ys
        for dots in chart.dots:
            xs += dots.xs
            ys += dots.ys
        for band in chart.bands:
            xs += band.xs
            ys += [*band.lows, *band.highs]
        for shade in chart.shades:
            xs += (shade.start, shade.end)
        ys += [mark.y for mark in chart.marks]
        self.x_low, self.x_high = _limits(chart.x, xs)
        self.y_low, self.y_high = _limits(chart.y, ys)
        self.height = HEIGHT + legend_rows * _LEGEND_ROW
        self.bottom = HEIGHT - 46.0
        self.legend_top = HEIGHT - 2.0

    def x(self, value: float) -> float:
        value = min(max(value, self.x_low), self.x_high)
        share = (value - self.x_low) / (self.x_high - self.x_low)
        return _LEFT + share * (WIDTH - _LEFT - _RIGHT)

    def y(self, value: float) -> float:
        value = min(max(value, self.y_low), self.y_high)
        share = (value - self.y_low) / (self.y_high - self.y_low)
        return self.bottom - share * (self.bottom - _TOP)

    def path(self, xs: Sequence[float], ys: Sequence[float]) -> str:
        points = (f"{self.x(x):.1f},{self.y(y):.1f}" for x, y in zip(xs, ys, strict=True))
        return "M" + " L".join(points)


def put_text(parent: Element, words: str, x: float, y: float, name: str, anchor: str = "middle") -> Element:
    """Add words at a place of the drawing."""
    element = SubElement(
        parent,
        "text",
        {"x": f"{x:.1f}", "y": f"{y:.1f}", "class": name, "text-anchor": anchor},
    )
    element.text = words
    return element


def put_rule(parent: Element, x1: float, y1: float, x2: float, y2: float, name: str) -> None:
    """Add a straight line to the drawing."""
    SubElement(
        parent,
        "line",
        {"x1": f"{x1:.1f}", "y1": f"{y1:.1f}", "x2": f"{x2:.1f}", "y2": f"{y2:.1f}", "class": name},
    )


def axis_title(axis: Axis) -> str:
    """The label of an axis with its unit."""
    return f"{axis.label}, {shown(axis.unit)}" if axis.unit else axis.label


def _draw_axes(svg: Element, chart: Chart, frame: _Frame) -> None:
    grid = SubElement(svg, "g", {"class": "axes"})
    x_ticks = hour_ticks if chart.x.unit == "h" else ticks
    for value in x_ticks(frame.x_low, frame.x_high):
        x = frame.x(value)
        put_rule(grid, x, _TOP, x, frame.bottom, "grid")
        put_text(grid, f"{value:.6g}", x, frame.bottom + 18, "tick")
    for value in ticks(frame.y_low, frame.y_high):
        y = frame.y(value)
        put_rule(grid, _LEFT, y, WIDTH - _RIGHT, y, "grid")
        put_text(grid, f"{value:.6g}", _LEFT - 6, y + 4, "tick", "end")
    put_rule(grid, _LEFT, frame.bottom, WIDTH - _RIGHT, frame.bottom, "axis")
    put_rule(grid, _LEFT, _TOP, _LEFT, frame.bottom, "axis")
    put_text(grid, axis_title(chart.x), (_LEFT + WIDTH - _RIGHT) / 2, frame.bottom + 37, "axis-title")
    put_text(grid, axis_title(chart.y), 4, 12, "axis-title", "start")


def _draw_shades(svg: Element, chart: Chart, frame: _Frame) -> None:
    kinds = list(dict.fromkeys(shade.label for shade in chart.shades if not shade.past))
    for shade in chart.shades:
        left, right = frame.x(shade.start), frame.x(shade.end)
        name = f"shade shade-{'past' if shade.past else kinds.index(shade.label) + 1}"
        SubElement(
            svg,
            "rect",
            {
                "x": f"{left:.1f}",
                "y": f"{_TOP:.1f}",
                "width": f"{max(right - left, 0):.1f}",
                "height": f"{frame.bottom - _TOP:.1f}",
                "class": name,
            },
        )


def _label_shades(svg: Element, chart: Chart, frame: _Frame, labels: Labels) -> None:
    """What each ground is: at its top where that is free, else at its foot; a narrow one has no words."""
    wide = [
        (shade.label, frame.x(shade.start) / 2 + frame.x(shade.end) / 2)
        for shade in chart.shades
        if frame.x(shade.end) - frame.x(shade.start) >= 6.2 * len(shade.label) + 4
    ]
    feet = (_TOP + 14.0, frame.bottom - 6.0)
    for words, middle in wide:
        foot = labels.for_ground(words, middle, feet)
        if foot is not None:
            put_text(svg, words, middle, foot, "shade-label")


def _dot(number: int) -> str:
    """The class of one set of readings: the first is hollow, a second filled."""
    return "dot" if number == 1 else f"dot d{number}"


def _legend(chart: Chart) -> list[tuple[str, str]]:
    entries = [(f"line s{n}", line.label) for n, line in enumerate(chart.lines, 1)]
    entries += [(f"band s{n}", band.label) for n, band in enumerate(chart.bands, 1)]
    return entries + [(_dot(n), dots.label) for n, dots in enumerate(chart.dots, 1)]


def _rows(label: str) -> list[str]:
    """A label of the legend, in as many rows as a phone needs for it."""
    rows = [""]
    for word in label.split():
        longer = f"{rows[-1]} {word}".strip()
        if len(longer) <= _LEGEND_SIGNS:
            rows[-1] = longer
        else:
            rows.append(word)
    return rows


def _draw_legend(svg: Element, entries: list[tuple[str, str]], frame: _Frame) -> None:
    group = SubElement(svg, "g", {"class": "legend"})
    row = 0
    for name, label in entries:
        y = frame.legend_top + row * _LEGEND_ROW + 6
        if name.startswith("band"):
            box = {"x": f"{_LEFT:.1f}", "y": f"{y - 5:.1f}", "width": "24", "height": "10"}
            SubElement(group, "rect", {**box, "class": name})
        elif name.startswith("dot"):
            centre = {"cx": f"{_LEFT + 12:.1f}", "cy": f"{y:.1f}", "r": "4"}
            SubElement(group, "circle", {**centre, "class": name})
        else:
            put_rule(group, _LEFT, y, _LEFT + 24, y, name)
        for said in _rows(label):
            put_text(group, said, _LEFT + 31, frame.legend_top + row * _LEGEND_ROW + 10, "legend-label", "start")
            row += 1


def _inked(chart: Chart, frame: _Frame) -> Iterator[tuple[float, float]]:
    """Where lines and points are on the paper."""
    for line in chart.lines:
        yield from along([(frame.x(x), frame.y(y)) for x, y in zip(line.xs, line.ys, strict=True)])
    for dots in chart.dots:
        for x, y in zip(dots.xs, dots.ys, strict=True):
            yield from ((frame.x(x) + dx, frame.y(y) + dy) for dx in (-5.0, 0.0, 5.0) for dy in (-5.0, 0.0, 5.0))


def begin(name: str, title: str, summary: str, height: float) -> Element:
    """An empty drawing with its title and description; ``name`` begins their ids."""
    svg = Element(
        "svg",
        {
            "class": "chart",
            "viewBox": f"0 0 {WIDTH:.0f} {height:.0f}",
            "role": "img",
            "aria-labelledby": f"{name}-title {name}-desc",
        },
    )
    SubElement(svg, "title", {"id": f"{name}-title"}).text = title
    SubElement(svg, "desc", {"id": f"{name}-desc"}).text = summary
    return svg


def draw(chart: Chart, prefix: str) -> Element:
    """The picture of a chart.

    Parameters
    ----------
    chart : Chart
        The data; the lengths of the coordinate lists of one curve must agree.
    prefix : str
        Put in front of the ids of the title and the description, so that several charts fit a page.

    Returns
    -------
    xml.etree.ElementTree.Element
        An ``svg`` element with ``title`` and ``desc``.
    """
    entries = _legend(chart)
    frame = _Frame(chart, sum(len(_rows(label)) for _, label in entries))
    svg = begin(f"{prefix}-{chart.id}", chart.title, chart.summary, frame.height)
    _draw_shades(svg, chart, frame)
    _draw_axes(svg, chart, frame)
    for n, band in enumerate(chart.bands, 1):
        outline = frame.path([*band.xs, *reversed(band.xs)], [*band.highs, *reversed(band.lows)])
        SubElement(svg, "path", {"d": f"{outline} Z", "class": f"band s{n}"})
    rules = [frame.y(mark.y) for mark in chart.marks]
    for y in rules:
        put_rule(svg, _LEFT, y, WIDTH - _RIGHT, y, "mark")
    for n, line in enumerate(chart.lines, 1):
        SubElement(svg, "path", {"d": frame.path(line.xs, line.ys), "class": f"line s{n}"})
    for n, dots in enumerate(chart.dots, 1):
        for x, y in zip(dots.xs, dots.ys, strict=True):
            centre = {"cx": f"{frame.x(x):.1f}", "cy": f"{frame.y(y):.1f}", "r": "4"}
            SubElement(svg, "circle", {**centre, "class": _dot(n)})
    labels = Labels(_inked(chart, frame), _LEFT, WIDTH - _RIGHT, _TOP - 4.0, frame.bottom - 2.0)
    for mark, y in zip(chart.marks, rules, strict=True):
        x, foot, anchor = labels.for_rule(mark.label, y, rules)
        put_text(svg, mark.label, x, foot, "mark-label", anchor)
    _label_shades(svg, chart, frame, labels)
    _draw_legend(svg, entries, frame)
    return svg


def data_of(chart: Chart) -> Data:
    """The numbers of a chart as a table of at most 25 rows, for those who would rather read."""
    headings = [axis_title(chart.x)]
    unit = f", {shown(chart.y.unit)}" if chart.y.unit else ""
    columns: list[Sequence[float]] = []
    xs: Sequence[float] = chart.lines[0].xs if chart.lines else ()
    for line in chart.lines:
        if list(line.xs) == list(xs):
            headings.append(f"{line.label}{unit}")
            columns.append(line.ys)
    for band in chart.bands:
        if list(band.xs) == list(xs):
            headings += [f"{band.label}, low{unit}", f"{band.label}, high{unit}"]
            columns += [band.lows, band.highs]
    step = max(1, math.ceil((len(xs) - 1) / (_MOST_DATA_ROWS - 1)))
    picked = list(range(0, len(xs), step))
    if xs and picked[-1] != len(xs) - 1:
        picked.append(len(xs) - 1)
    rows = [(fixed(xs[n], chart.x.decimals), *(fixed(c[n], chart.y.decimals) for c in columns)) for n in picked]
    for dots in chart.dots:
        for x, y in zip(dots.xs, dots.ys, strict=True):
            blank = ("",) * max(len(columns) - 1, 0)
            label = f"{fixed(y, chart.y.decimals)} ({dots.label})"
            rows.append((fixed(x, chart.x.decimals), label, *blank))
    return Data(tuple(headings), tuple(rows))
