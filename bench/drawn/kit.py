"""The pen: what every plate is made of, with a memory of where its lines and its words stand.

All lengths are in the units of the view, of which a phone of 320 px shows 380 across; letters are then 12 px high.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from xml.etree.ElementTree import Element, SubElement, tostring

Point = tuple[float, float]

WIDTH = 380.0
LETTER = 14.5
_SLIM, _BROAD = " .,:;'’|!ijlt()[]fI", "mwMW%"
_STRONG = 1.06  # a strong letter is so much broader than a plain one
_CURVE = 12  # points on a curve when it is looked at
GRAIN = "grain"
GAS = "gas"
KEEP_OUT = "keep-out"
CELLS = "cells"


def _hatch(size: int) -> str:
    """A slanting line across a piece, with its ends in the corners of the next ones."""
    return f"M0 {size} L{size} 0 M-1 1 L1 -1 M{size - 1} {size + 1} L{size + 1} {size - 1}"


GAS_BY_STRENGTH = ("gas-1", "gas-2", "gas-3", "gas-4")
"""Closer and closer: how much of a gas there is."""
_MORE = {
    **{
        name: (size, size, (("gas-line", _hatch(size)),))
        for name, size in zip(GAS_BY_STRENGTH, (15, 11, 8, 6), strict=True)
    },
    KEEP_OUT: (10, 10, (("keep-out-line", "M0 0 L10 10"),)),
    CELLS: (26, 22.5, (("walls", "M0 0 L0 7.5 L13 15 L26 7.5 L26 0 M13 15 L13 22.5"),)),
}
"""Textures that few plates have: how wide and high one piece is, and its lines."""


class Plate:
    """A plate that is being drawn."""

    def __init__(self, name: str, height: float, title: str, desc: str, *, fold: float = 0.0) -> None:
        """``fold`` is where a broad screen may part it, to set its lower part beside the upper one."""
        self.name, self.height, self.fold = name, height, fold
        self.lines: list[tuple[list[Point], float]] = []
        self.grounds: list[list[Point]] = []
        self.words: list[tuple[float, float, float, float, str]] = []
        self.root = Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "viewBox": f"0 0 {_n(WIDTH)} {_n(height)}",
                "role": "img",
                "aria-labelledby": f"{name}-title {name}-desc",
                **({"data-fold": _n(fold)} if fold else {}),
            },
        )
        SubElement(self.root, "title", {"id": f"{name}-title"}).text = title
        SubElement(self.root, "desc", {"id": f"{name}-desc"}).text = desc
        self._patterns()

    def _patterns(self) -> None:
        defs = SubElement(self.root, "defs")
        grain = SubElement(defs, "pattern", _pattern(f"{self.name}-{GRAIN}", 12, 10))
        for x, y, turn in ((3, 3, 25), (9, 8, -20)):
            SubElement(
                grain,
                "ellipse",
                {
                    "class": "corn",
                    "cx": str(x),
                    "cy": str(y),
                    "rx": "2.7",
                    "ry": "1.4",
                    "transform": f"rotate({turn} {x} {y})",
                },
            )
        gas = SubElement(defs, "pattern", _pattern(f"{self.name}-{GAS}", 9, 9))
        SubElement(gas, "path", {"class": "gas-line", "d": _hatch(9)})
        self.defs = defs
        head = SubElement(
            defs,
            "marker",
            {
                "id": f"{self.name}-head",
                "viewBox": "0 0 8 8",
                "refX": "6",
                "refY": "4",
                "markerWidth": "7",
                "markerHeight": "7",
                "orient": "auto",
            },
        )
        SubElement(head, "path", {"class": "head", "d": "M0 0 L8 4 L0 8 Z"})

    def path(self, d: str, style: str = "line", width: float = 1.5, *, seen: bool = True, **more: str) -> None:
        """A line or an outline; what is seen may not be written over."""
        SubElement(self.root, "path", {"class": style, "d": d, **{k.replace("_", "-"): v for k, v in more.items()}})
        if seen:
            self.lines += [(part, width) for part in sampled(d)]

    def fill(self, d: str, style: str) -> None:
        """A ground without an outline, such as water."""
        self.path(d, style, seen=False)

    def textured(self, d: str, kind: str) -> None:
        """Grain or gas: a tint, and its texture on it, which carries the meaning in black and white."""
        if kind in (GRAIN, GAS, KEEP_OUT):
            self.fill(d, kind)
        if kind in _MORE and not any(one.get("id") == f"{self.name}-{kind}" for one in self.defs):
            wide, high, drawn = _MORE[kind]
            more = SubElement(self.defs, "pattern", _pattern(f"{self.name}-{kind}", wide, high))
            for style, line in drawn:
                SubElement(more, "path", {"class": style, "d": line})
        SubElement(self.root, "path", {"fill": f"url(#{self.name}-{kind})", "d": d})
        self.grounds += sampled(d)

    def arrow(self, d: str) -> None:
        """Which way air, water or grain goes."""
        self.path(d, "air", 4, marker_end=f"url(#{self.name}-head)")

    def circle(self, x: float, y: float, r: float, style: str) -> None:
        """A dot, such as the end of a thermometer."""
        SubElement(self.root, "circle", {"class": style, "cx": _n(x), "cy": _n(y), "r": _n(r)})
        self.lines.append(([(x - r, y), (x, y - r), (x + r, y), (x, y + r), (x - r, y)], 1))

    def text(self, x: float, y: float, words: str, *, strong: bool = False, anchor: str = "start") -> None:
        """A line of words; ``y`` is the foot of its letters."""
        style = {"class": "label strong" if strong else "label", "x": _n(x), "y": _n(y)}
        if anchor != "start":
            style["text-anchor"] = anchor
        SubElement(self.root, "text", style).text = words
        wide = _wide(words) * (_STRONG if strong else 1)
        left = {"start": x, "middle": x - wide / 2, "end": x - wide}[anchor]
        self.words.append((left, y - LETTER * 0.76, left + wide, y + LETTER * 0.22, words))

    def lines_of_text(self, x: float, y: float, *words: str, anchor: str = "start") -> None:
        """Several lines of words, 17 apart."""
        for row, said in enumerate(words):
            self.text(x, y + 17 * row, said, anchor=anchor)

    def number(self, x: float, y: float, said: int) -> None:
        """A number on a round ground, for a list of names below."""
        SubElement(self.root, "circle", {"class": "number-ground", "cx": _n(x), "cy": _n(y), "r": "10"})
        SubElement(
            self.root, "text", {"class": "label strong", "x": _n(x), "y": _n(y + 5), "text-anchor": "middle"}
        ).text = str(said)
        self.lines.append(([(x - 10, y), (x, y - 10), (x + 10, y), (x, y + 10), (x - 10, y)], 1))

    def leader(self, d: str) -> None:
        """From words to what they name."""
        self.path(d, "leader", 1)

    def scale(self, x: float, y: float, units: float, words: str) -> None:
        """How long something is in this plate."""
        self.path(f"M{_n(x)} {_n(y)} L{_n(x + units)} {_n(y)}", "line", 1.5)
        for end in (x, x + units):
            self.path(f"M{_n(end)} {_n(y - 4)} L{_n(end)} {_n(y + 4)}", "line", 1.5)
        self.text(x + units + 7, y + 5, words)

    def svg(self) -> str:
        """The file, a line an element."""
        return tostring(self.root, encoding="unicode").replace("><", ">\n<") + "\n"

    def faults(self) -> Iterator[str]:
        """Words that stand over a line, over a texture, over each other or over the edge."""
        for n, (left, top, right, bottom, said) in enumerate(self.words):
            box = (left, top, right, bottom)
            if left < -1 or right > WIDTH + 1 or bottom > self.height or top < 0:
                yield f"“{said}” leaves the plate: {left:.0f} to {right:.0f}"
            if top < self.fold < bottom:
                yield f"“{said}” stands over the fold"
            if any(_within(box, x, y, width / 2) for line, width in self.lines for x, y in _close(line)):
                yield f"“{said}” stands over a line"
            if any(_crosses(box, ground) for ground in self.grounds):
                yield f"“{said}” stands over grain or gas"
            for other in self.words[:n]:
                if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
                    yield f"“{said}” stands over “{other[4]}”"


def _pattern(name: str, wide: float, high: float) -> dict[str, str]:
    return {"id": name, "width": _n(wide), "height": _n(high), "patternUnits": "userSpaceOnUse"}


def _wide(words: str) -> float:
    """How wide a line of words is, in the broadest of the plain faces that devices have."""
    across = sum(0.29 if c in _SLIM else 0.84 if c in _BROAD else 0.68 if c.isupper() else 0.545 for c in words)
    return across * LETTER


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def poly(*points: Point, shut: bool = True) -> str:
    """A path through points."""
    return "M" + " L".join(f"{_n(x)} {_n(y)}" for x, y in points) + (" Z" if shut else "")


def box(x: float, y: float, wide: float, high: float) -> str:
    """A rectangle as a path."""
    return poly((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))


def sampled(d: str) -> list[list[Point]]:
    """Points along a path of M, L, Q, C and Z, each of its parts apart."""
    parts: list[list[Point]] = []
    at: list[Point] = []
    for letter, text in re.findall(r"([MLQCZ])([^MLQCZ]*)", d):
        numbers = [float(one) for one in re.findall(r"-?[\d.]+", text)]
        points = list(zip(numbers[::2], numbers[1::2], strict=True))
        if letter == "M":
            parts.append([points[0]])
            at = parts[-1]
            points = points[1:]
        if letter == "Z":
            at.append(at[0])
        elif letter in "ML":
            at += points
        else:
            size = {"Q": 2, "C": 3}[letter]
            for first in range(0, len(points), size):
                at += _bent([at[-1], *points[first : first + size]])
    return parts


def _bent(points: Sequence[Point]) -> list[Point]:
    found = []
    for n in range(1, _CURVE + 1):
        row = list(points)
        while len(row) > 1:
            row = [(a[0] + (b[0] - a[0]) * n / _CURVE, a[1] + (b[1] - a[1]) * n / _CURVE) for a, b in pairwise(row)]
        found.append(row[0])
    return found


def _close(line: Sequence[Point]) -> Iterator[Point]:
    """The same line by points that lie 3 apart."""
    for (x, y), (u, v) in pairwise(line):
        steps = max(1, int(max(abs(u - x), abs(v - y)) / 3))
        for n in range(steps + 1):
            yield x + (u - x) * n / steps, y + (v - y) * n / steps


def _within(box_: tuple[float, float, float, float], x: float, y: float, more: float) -> bool:
    left, top, right, bottom = box_
    return left - more < x < right + more and top - more < y < bottom + more


def _crosses(box_: tuple[float, float, float, float], ground: Sequence[Point]) -> bool:
    left, top, right, bottom = box_
    corners = [(left, top), (right, top), (left, bottom), (right, bottom), ((left + right) / 2, (top + bottom) / 2)]
    return any(_inside(ground, *corner) for corner in corners) or any(_within(box_, x, y, 0) for x, y in _close(ground))


def _inside(ground: Sequence[Point], x: float, y: float) -> bool:
    found = False
    for (a, b), (c, d) in pairwise([*ground, ground[0]]):
        if (b > y) != (d > y) and x < (c - a) * (y - b) / (d - b) + a:
            found = not found
    return found
