"""Reads a shown working back: the sum that stands in its text, worked out again from the numbers a reader sees.

A working is steps parted by ``; ``. A step is words ending in a colon, which are passed over; a sum; where it has one,
``=`` and the figure it comes to; and after a comma words again. A step that begins with an operator goes on from the
figure of the step before, the first of all from what the reader is told, as in ``start + 5.5 h``. A sum is made of
numbers, each with its unit or other words behind it, of + − × / ^ ² ³, brackets, √, exp, ln and π. An operator stands
between spaces or beside a bracket, so that 6.9 kJ/kg is a number with its unit.

A number that was rounded to be shown stands for a range. A figure carries the doubt of all the numbers it is made of.
A number that was typed is what it is, and so is one that belongs to the formula.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Collection
from typing import NamedTuple

FUNCTIONS: dict[str, Callable[[float], float]] = {"ln": math.log, "exp": math.exp, "√": math.sqrt}
EXACT = frozenset({0.0, 0.5, 1.0, 2.0, 3.0, 3.6, 4.0, 10.0, 23.0, 24.0, 60.0, 86.4, 100.0, 1e3, 3600.0, 1e4, 1e6})
"""Numbers of a formula that are what they are: parts of a whole, of an hour, of a unit."""

_TOKEN = re.compile(
    r"(?P<number>\d[\d,]*\d(?:\.\d+)?|\d(?:\.\d+)?)"
    r"|(?P<function>ln|exp|√)(?=\s?\()"
    r"|(?P<pi>π)|(?P<power>[²³])|(?P<open>\()|(?P<close>\))"
    r"|(?P<sign>(?:(?<=^)|(?<=\()|(?<=[+−×/] ))[−-](?=\d))"
    r"|(?P<operator>\^|[+−×/](?=[\s(]|$)|(?<=\))[+−×/]|(?<=\d)/(?=\d))"
    r"|(?P<space>\s+)"
    r"|(?P<word>[^\s()]+)"
)


class Unreadable(ValueError):
    """The text is not a sum of the form that is read."""


class Figure(NamedTuple):
    """A number that was shown or came out, and how far rounding lets the true one lie from it."""

    value: float
    reach: float


class Step(NamedTuple):
    """One step: what its sum comes to, and the figure that stands behind the last ``=``, if one does."""

    sum: Figure
    shown: Figure | None
    text: str

    @property
    def agrees(self) -> bool:
        """Whether the figure shown is what the sum comes to."""
        if self.shown is None:
            return True
        apart = abs(self.sum.value - self.shown.value)
        return apart <= self.sum.reach + self.shown.reach + 1e-9 * abs(self.shown.value)


def half_digit(text: str) -> float:
    """Half a unit of the last digit shown."""
    return 0.5 * 10.0 ** -len(text.partition(".")[2])


def steps(working: str, exact: Collection[float] = (), goes_on_from: float | None = None) -> list[Step]:
    """Read every step of a working.

    Parameters
    ----------
    working : str
        The text.
    exact : collection of float
        Numbers that were typed, and so are not rounded.
    goes_on_from : float, optional
        What a first step that begins with an operator goes on from.

    Raises
    ------
    Unreadable
        When a step is not a sum; the message names the step.
    """
    known = frozenset(exact) | EXACT
    done: list[Step] = []
    before = None if goes_on_from is None else Figure(goes_on_from, 0.0)
    for text in working.split("; "):
        sides = [_tokens(side) for side in _bare(text).split(" = ")]
        if not all(sides):
            raise Unreadable(f"no sum in {text!r}")
        *worked, last = sides
        values = [_Sum(side, known, before, text).figure() for side in worked or sides]
        shown = _Sum(last, (), before, text).figure() if worked else None
        if shown is not None and sum(kind == "number" for kind, _ in sides[-1]) != 1:
            raise Unreadable(f"no single figure behind = in {text!r}")
        for middle in values[1:]:
            if abs(middle.value - values[0].value) > middle.reach + values[0].reach:
                raise Unreadable(f"the sums of {text!r} do not agree")
        done.append(Step(values[0], shown, text))
        before = shown or values[0]
        known -= {abs(before.value)}  # shown again, it is as rounded as it was
    return done


def _bare(text: str) -> str:
    """A step without the words before its colon and after its comma."""
    head, colon, rest = text.partition(": ")
    if colon and " = " not in head:
        text = rest
    depth = 0
    for at, letter in enumerate(text):
        depth += (letter == "(") - (letter == ")")
        if not depth and text.startswith(", ", at):
            return text[:at]
    return text


def _tokens(text: str) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    for token in _TOKEN.finditer(text.strip()):
        kind = token.lastgroup or ""
        if kind in ("space", "word"):
            continue
        if kind == "power" and (not found or found[-1][0] not in ("number", "close", "pi")):
            continue  # of a unit, such as m³
        found.append((kind, token.group()))
    return found


class _Sum:
    def __init__(
        self, tokens: list[tuple[str, str]], known: Collection[float], before: Figure | None, text: str
    ) -> None:
        self.text = text
        self.numbers: list[Figure] = []
        self.tokens: list[tuple[str, str | int]] = []
        if tokens[0][0] == "operator":
            if before is None:
                raise Unreadable(f"nothing goes before {text!r}")
            self.tokens.append(("value", 0))
            self.numbers.append(before)
        for kind, word in tokens:
            if kind == "number":
                value = float(word.replace(",", ""))
                told = "." in word and word.endswith("0")  # 1.00 was rounded, 1 may be what it is
                reach = 0.0 if value in known and not told else half_digit(word)
                self.tokens.append(("value", len(self.numbers)))
                self.numbers.append(Figure(value, reach))
            else:
                self.tokens.append((kind, word))

    def figure(self) -> Figure:
        """What the sum comes to, with the doubt of every number in it."""
        values = [number.value for number in self.numbers]
        try:
            middle = self._worked(values)
        except Unreadable:
            raise
        except (ValueError, ZeroDivisionError, OverflowError) as why:
            raise Unreadable(f"{self.text!r} cannot be worked out: {why}") from None
        reach = 0.0
        for place, number in enumerate(self.numbers):
            if number.reach:
                ends = []
                for side in (-1.0, 1.0):
                    moved = list(values)
                    moved[place] += side * number.reach
                    try:
                        ends.append(abs(self._worked(moved) - middle))
                    except (ValueError, ZeroDivisionError, OverflowError):
                        ends.append(math.inf)
                reach += max(ends)
        return Figure(middle, reach)

    def _worked(self, values: list[float]) -> float:
        self.at = 0
        value = self._added(values)
        if self.at != len(self.tokens):
            raise Unreadable(f"no sum from {self.tokens[self.at][1]!r} on in {self.text!r}")
        return value

    def _next(self, *words: str) -> str | None:
        if self.at < len(self.tokens):
            kind, word = self.tokens[self.at]
            if kind in ("operator", "power", "sign", "open", "close") and word in words:
                self.at += 1
                return str(word)
        return None

    def _added(self, values: list[float]) -> float:
        total = self._multiplied(values)
        while sign := self._next("+", "−"):
            total += self._multiplied(values) * (1.0 if sign == "+" else -1.0)
        return total

    def _multiplied(self, values: list[float]) -> float:
        product = self._raised(values)
        while sign := self._next("×", "/"):
            factor = self._raised(values)
            product = product * factor if sign == "×" else product / factor
        return product

    def _raised(self, values: list[float]) -> float:
        base = self._single(values)
        if sign := self._next("²", "³"):
            base **= 2 if sign == "²" else 3
        if self._next("^"):
            base = math.pow(base, self._single(values))
        return base

    def _single(self, values: list[float]) -> float:
        if self._next("−", "-"):
            return -self._single(values)
        if self.at >= len(self.tokens):
            raise Unreadable(f"{self.text!r} ends before its sum does")
        kind, word = self.tokens[self.at]
        self.at += 1
        if kind == "value":
            return values[int(word)]
        if kind == "pi":
            return math.pi
        if kind == "function":
            return FUNCTIONS[str(word)](self._single(values))
        if kind == "open":
            value = self._added(values)
            if not self._next(")"):
                raise Unreadable(f"a bracket stays open in {self.text!r}")
            return value
        raise Unreadable(f"{word!r} stands where a number is wanted in {self.text!r}")
