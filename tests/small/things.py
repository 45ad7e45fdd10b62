"""All that the small engine has in the place of Python's own, called as a sheet calls it. Runs in every engine.

What goes in and comes out is text, so that nothing is lost on the way.
"""

from __future__ import annotations

import json
import math
import re
import unicodedata
from bisect import bisect, bisect_left, bisect_right
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from functools import cached_property, lru_cache
from itertools import accumulate, chain, pairwise
from operator import mul
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element, SubElement, tostring


class Pair(NamedTuple):
    """Two floats, the second with a default."""

    one: float
    two: float = 2.5

    @property
    def both(self) -> float:
        """Their sum."""
        return self.one + self.two


class Kept:
    """Counts how often it was asked."""

    def __init__(self) -> None:
        self.count = 0

    @cached_property
    def asked(self) -> int:
        """Counted once."""
        self.count += 1
        return self.count


class Mine(ValueError):
    """An exception with a field."""

    def __init__(self, text: str, field: str) -> None:
        super().__init__(f"{text}!")
        self.field = field


@lru_cache(maxsize=2)
def _halved(x: float, *, by: float = 2.0) -> float:
    return x / by


@contextmanager
def _noted(notes: list[str]) -> Iterator[str]:
    notes.append("in")
    try:
        yield "held"
    finally:
        notes.append("out")


def _named(first: str, **more: str) -> list[str]:
    return [first, *(f"{key}={value}" for key, value in more.items())]


def formats(x: float) -> list[str]:
    """A float in every format that occurs."""
    digits = 4
    found = [f"{x:.0f}", f"{x:.1f}", f"{x:.2f}", f"{x:.3f}", f"{x:.6f}", f"{x:.6g}", f"{x:.10g}", f"{x:.2g}", f"{x:g}"]
    found += [f"{x:,.0f}", f"{x:,.10g}", f"{x:.{digits}g}", f"{x:.{digits + 8}f}"]
    return [*found, str(x), repr(x), f"{x}", f"{x!r}"]


def roundings(x: float) -> list[str]:
    """A float rounded to places before and behind the point."""
    found = [repr(round(x, places)) for places in (-3, -2, -1, 0, 1, 2, 3, 8, 11)]
    return [*found, *([str(round(x))] if abs(x) < 1e18 else [])]


def sums(texts: list[str]) -> list[str]:
    """Sums and the like of some floats."""
    xs = [float(one) for one in texts]
    whole = sum(xs)
    square = sum(x * x for x in xs)
    found = [repr(whole), repr(sum(xs, 1.5)), repr(sum(map(mul, xs, xs))), repr(square), repr(max(xs)), repr(min(xs))]
    found += [repr(sum([1, *xs, 2])), repr(sum([*xs, 10**15, *xs, True, -(10**15)]))]  # whole numbers in it
    found += [str(sum([1, 2, True])), repr(x) if (x := math.hypot(xs[0], xs[1])) else "0"]
    order = [repr(x) for x in sorted(xs, key=lambda x: round(x))] + [repr(x) for x in sorted(xs, key=abs, reverse=True)]
    steps = [repr(b - a) for a, b in pairwise(xs)] + [repr(x) for x in accumulate(xs)]
    steps += [repr(x) for x in chain(xs, xs[::2])]
    ranked = sorted(xs)
    places = [str(place(ranked, xs[0])) for place in (bisect, bisect_left, bisect_right)]
    return [*found, *order, *steps, *places]


def powers(texts: list[str]) -> list[str]:
    """Quotients, rests and powers of two floats."""
    a, b = float(texts[0]), float(texts[1])
    found = [repr(abs(a) ** 2), repr(abs(a) ** 0.5), repr(2.0**3), str(7**3), str(-7 // 2), str(-7 % 3)]
    if b:
        found += [repr(a / b), repr(a // b), repr(a % b)]
    if abs(b) < 20 and a and 1e-10 < abs(a) < 1e10:
        found.append(repr(abs(a) ** b))
    return found


def mathematics(x: float) -> list[str]:
    """Functions of ``math``."""
    size = abs(x)
    found = [math.sin(x), math.cos(x), math.atan(x), math.erfc(x), math.lgamma(size + 0.1), math.sqrt(size)]
    found += [math.log(size + 0.1), math.log10(size + 0.1), math.exp(min(x, 700.0))]
    found += [math.log1p(size), math.log1p(-size / (1.0 + size) * 0.9)]
    return [repr(one) for one in found] + [str(math.floor(x)), str(math.ceil(x)), str(int(x))]


_NUMBER = re.compile(r"(?P<whole>[+-]?\d{1,3}(?: \d{3})*)(?:[.,](?P<part>\d+))?\s*(.*)", re.DOTALL)
_WORD = re.compile(r"\[\[(sheet|page):([a-z0-9/_-]+)(?:\|([^\]]+))?\]\]")


def texts(s: str) -> list[Any]:
    """Methods and patterns on a text."""
    found: list[Any] = [s.lower(), s.upper(), s.strip(), s.lstrip(), s.rstrip(), s.split(), s.isdigit(), s.isalnum()]
    found += [s.isprintable(), s.isascii(), s.removeprefix("a"), s.removesuffix("a"), s.replace("a", "ä")]
    found += [s.startswith(("a", "b")), s.split(","), s.rsplit("/", 1), s.strip("-0."), len(s), s[:3], s[-2:]]
    found += [s[::2], unicodedata.normalize("NFKC", s)]
    found += [s.count("1"), f"{s} and {2.5}", json.dumps(s), ", ".join(c if c.isprintable() else " " for c in s)]
    for kind in (float, int):
        try:
            found.append(repr(kind(s)))
        except ValueError:
            found.append("none")
    match = _NUMBER.fullmatch(s)
    found.append([match["whole"], match["part"], match[3], match.start(), match.end()] if match else None)
    found.append([[one[0], one[2], one.start(), one.end()] for one in _WORD.finditer(s)])
    found.append(_WORD.sub(lambda one: f"<{one[2]}>", s))
    found.append(re.sub(r"[.,](?=\d{3}(?!\d))", "", s))
    found.append(re.sub(r"(?<![\w.])\w+", "", s))
    element = Element("p", {"class": s, "id": "x"})
    element.set("class", f"{s}.")
    add = SubElement(element, "br")
    add.tail = s
    SubElement(element, "b").text = s
    return [*found, tostring(element, encoding="unicode", method="html"), [one.tag for one in element.iter()]]


def days(given: list[Any]) -> list[str]:
    """Days and times, and hours added to them."""
    text, hours, minutes = given
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return ["none"]
    found = [f"{moment:%a} {moment.day} {moment:%b %Y} {moment:%H:%M}", str(moment.toordinal()), str(moment.weekday())]
    try:
        later = moment + timedelta(hours=float(hours), minutes=minutes)
        found += [later.isoformat(timespec="minutes"), str(later.second), str(later.microsecond), str(later > moment)]
        found += [repr((later - moment) / timedelta(hours=1)), str((later - timedelta(days=1)).day)]
        found.append(str(later.replace(hour=3).hour))
    except OverflowError:
        found.append("beyond")
    return found


def language(_: str) -> list[Any]:
    """What the language itself does: order of dicts and names, named tuples, exceptions, stars."""
    one, two = Pair(1.0), Pair(two=3.0, one=1.0)
    a, b = two
    table: dict[str, Any] = {"z": 1, "a": 2, "m": 3, "b": 4}
    table.update(q=1, c=2)
    table |= {"z": 9, "y": 8}
    first, *rest = [1, *(2, 3), *{"x": 4}.values()]
    found: list[Any] = [list(one), a + b, one.both, one < two, one == Pair(1.0, 2.5), one == (1.0, 2.5), two[1]]
    found += [one + two, one._replace(two=9.0)._asdict(), len(one), one in (two, one), {one: "k"}[Pair(1.0)]]
    found.append(Pair._field_defaults["two"])
    found += [list(table), list(dict.fromkeys("zab")), [first, rest], _named("x", c="1", b="2", a="3")]
    found += [isinstance(one, tuple), isinstance(True, int), isinstance(True, float), isinstance({}, dict)]
    found += [[*"ab"][::-1], sorted([(2, "b"), (1, "z"), (2, "a")], key=lambda x: x[0])]
    found += [list({"b": 1} | {"a": 2}), sorted({3, 1} | {2}), list(zip("ab", (1, 2), strict=True))]
    found += [list(reversed((1, 2, 3))), (1, 2, 3)[::2], max([(1, "a"), (1, "b")], key=lambda x: x[0])]
    notes: list[str] = []
    with _noted(notes) as held:
        notes.append(held)
    try:
        raise Mine("no", "f")
    except ValueError as fault:
        found += [str(fault), isinstance(fault, Mine) and fault.field]
    for wrong in (lambda: list(zip([1], [1, 2], strict=True)), lambda: 1.0 / (a - a), lambda: 10.0 ** (400.0 * a)):
        try:
            wrong()
            found.append("no fault")
        except (ValueError, ArithmeticError) as fault:
            found.append([isinstance(fault, kind) for kind in (ValueError, ZeroDivisionError, OverflowError)])
    kept = Kept()
    return [*found, notes, kept.asked + kept.asked, _halved(3.0), _halved(3.0, by=4.0), f"{'a' if a else 'b'}{{}}"]


_WHAT: dict[str, Callable[[Any], Any]] = {
    "formats": lambda x: formats(float(x)),
    "roundings": lambda x: roundings(float(x)),
    "mathematics": lambda x: mathematics(float(x)),
    "sums": sums,
    "powers": powers,
    "texts": texts,
    "days": days,
    "language": language,
    "again": lambda x: x,
}


def respond(request: str, told: Callable[[str, float], object] | None = None) -> str:
    """What one of these functions gives for each of some values."""
    asked = json.loads(request)
    return json.dumps([_WHAT[asked["what"]](one) for one in asked["values"]])
