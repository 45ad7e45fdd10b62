"""Where the words of a chart stand: off its lines, its points and each other, at the size that a phone gives them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

Point = tuple[float, float]

LETTER = 17.6
"""How high a phone's letters are in the units of a chart; elsewhere they are lower."""
_ACROSS = 0.52  # of its height, a letter on average
_ROOM = 4.0  # kept free round words
_STEPS = 40  # places tried along a rule


class Box(NamedTuple):
    """A rectangle that words take."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Whether two of them share ground."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def room_to(self, point: Point) -> float:
        """How far a point lies outside; 0 inside."""
        x, y = point
        return max(self.left - x, x - self.right, self.top - y, y - self.bottom, 0.0)


def box_of(words: str, x: float, y: float, anchor: str) -> Box:
    """What words take whose foot stands at a place: their ink, without the room above and below it."""
    wide = len(words) * LETTER * _ACROSS
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[anchor]
    return Box(left, y - LETTER * 0.72, left + wide, y + LETTER * 0.1)


def along(line: Sequence[Point]) -> Iterator[Point]:
    """The points of a line, and more between them, 4 apart."""
    yield from line[:1]
    for (x, y), (u, v) in pairwise(line):
        steps = max(1, int(max(abs(u - x), abs(v - y)) / 4))
        for n in range(1, steps + 1):
            yield x + (u - x) * n / steps, y + (v - y) * n / steps


class Labels:
    """The words of one chart, as they find their places."""

    def __init__(self, drawn: Iterable[Point], left: float, right: float, top: float, bottom: float) -> None:
        self._drawn = tuple(drawn)
        self._left, self._right, self._top, self._bottom = left, right, top, bottom
        self._taken: list[Box] = []

    def room(self, box: Box) -> float:
        """How far lines, points and other words are from a box; less than 0 where it may not stand."""
        if any(box.meets(other) for other in self._taken) or box.top < self._top or box.bottom > self._bottom:
            return -1.0
        return min((box.room_to(point) for point in self._drawn), default=self._right)

    def take(self, box: Box) -> None:
        """Words stand there."""
        self._taken.append(box)

    def for_rule(self, words: str, y: float, rules: Sequence[float]) -> tuple[float, float, str]:
        """Where the words of a rule stand: at its right end above it if that is free, else where most room is.

        Parameters
        ----------
        words : str
            Of the rule.
        y : float
            Its height.
        rules : sequence of float
            The heights of all rules: words of one stand over none of the others.
        """
        best: tuple[float, float, float, str] | None = None
        feet = (y - 5.0, y + LETTER * 0.72 + 5.0)
        ends = [(self._right - 2.0, "end"), (self._left + 4.0, "start")]
        wide = len(words) * LETTER * _ACROSS
        between = [
            (self._left + 4.0 + (self._right - self._left - 6.0 - wide) * n / _STEPS, "start")
            for n in range(_STEPS - 1, 0, -1)
        ]
        for x, anchor in [*ends, *between]:
            for foot in feet:
                box = box_of(words, x, foot, anchor)
                if any(box.top - 1 < other < box.bottom + 1 for other in rules):
                    continue
                room = self.room(box)
                if room >= _ROOM:
                    self.take(box)
                    return x, foot, anchor
                if best is None or room > best[0]:
                    best = room, x, foot, anchor
        if best is None:
            best = 0.0, self._right - 2.0, feet[0], "end"
        self.take(box_of(words, best[1], best[2], best[3]))
        return best[1:]

    def for_ground(self, words: str, middle: float, feet: Sequence[float]) -> float | None:
        """The height, of those offered, at which the words of a ground stand free; None where none is."""
        for foot in feet:
            box = box_of(words, middle, foot, "middle")
            if self.room(box) >= 0.5:
                self.take(box)
                return foot
        return None
