"""Sums of a session, each asked once and answered by a sheet.

Sums are parted by blank lines: the sheet, the answers and the values; the question, in which ``{barley_kg}`` stands for
the value with its unit; and, after ``>``, what to say when it has come out::

    moisture-target target_kg barley_kg=6000 barley_moisture=12 target_moisture=45
    {barley_kg} of barley at {barley_moisture} go in. What is there to move at {target_moisture}?
    > The floor has to bear that.

A task that no sheet answers has ``say: what is wanted`` as its first line. A sum for which there is no sheet is
reckoned here: ``reckon: 7.8 × 6 = m³``; what comes out stands before the unit.
"""

from __future__ import annotations

import ast
import shlex
from collections.abc import Callable, Sequence
from operator import add as add_up
from operator import mul, sub, truediv
from typing import NamedTuple

from calculators.asking.answer import Answered, Joined, answer
from calculators.asking.declare import Outcome
from calculators.asking.figures import plain_number
from calculators.asking.reading import Raw
from calculators.drawing.links import plain
from calculators.drawing.results import figure, typed_words, working_words
from calculators.sheets import find_sheet


class CameOut(NamedTuple):
    """One answer of a sheet: as shown, its working, and the unit a learner writes behind the blank."""

    words: str
    working: str
    unit: str


class Sum(NamedTuple):
    """What is asked, what the sheet gives, and what to say then. ``said`` is what is wanted where no sheet answers."""

    ask: str
    found: tuple[CameOut, ...]
    then: str
    said: str = ""

    @property
    def result(self) -> str:
        """What comes out, in one line."""
        return "; ".join(one.words for one in self.found) or self.said


def sums(body: str) -> list[Sum]:
    """Read and work the sums of a block.

    Raises
    ------
    ValueError
        When a sum is not whole, or its sheet does not answer it.
    """
    parts = [part.split("\n") for part in "\n".join(line.strip() for line in body.strip().splitlines()).split("\n\n")]
    return [_sum([line for line in part if line]) for part in parts if any(part)]


def _sum(lines: Sequence[str]) -> Sum:
    asked_lines = [line for line in lines[1:] if not line.startswith(">")]
    then = " ".join(line[1:].strip() for line in lines[1:] if line.startswith(">"))
    if not asked_lines:
        raise ValueError(f"{lines[0]!r} is not followed by what is asked")
    ask = " ".join(asked_lines)
    if lines[0].startswith("say:"):
        return Sum(ask, (), then, lines[0][4:].strip())
    if lines[0].startswith("reckon:"):
        return Sum(ask, (reckoned(lines[0][7:]),), then)
    words = shlex.split(lines[0])
    wanted = [word for word in words[1:] if "=" not in word]
    raw: dict[str, Raw] = {}
    for word in words[1:]:
        name, equals, value = word.partition("=")
        if equals:
            raw[name] = value
    sheet = find_sheet(words[0])
    result = answer(sheet, raw)
    if not isinstance(result, Answered) or not isinstance(result.outcome, Outcome):
        raise ValueError(f"the sheet does not answer {lines[0]!r}: {result}")
    figures = {joined.one.id: joined for joined in result.figures}
    missing = [name for name in wanted if name not in figures]
    if missing or not wanted:
        raise ValueError(f"{lines[0]!r} needs answers of that sheet: {', '.join(figures)}")
    values = {one.id: typed_words(one, result.values[one.id]).replace(" ", "\u00a0") for one in sheet.questions}
    return Sum(ask.format_map(values), tuple(_came_out(figures[name]) for name in wanted), then)


_SIGNS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: add_up, ast.Sub: sub, ast.Mult: mul, ast.Div: truediv,
}  # fmt: skip


def reckoned(text: str) -> CameOut:
    """Reckon ``7.8 × 6 = m³``: numbers with + − × ÷ and brackets, then the unit.

    Raises
    ------
    ValueError
        When it is no such sum.
    """
    left, equals, unit = (part.strip() for part in text.partition("="))
    plain_signs = left.replace("×", "*").replace("÷", "/").replace("−", "-").replace(",", "")
    if not equals:
        raise ValueError(f"{text!r} has no = before its unit")

    def value(node: ast.expr) -> float:
        if isinstance(node, ast.Constant) and isinstance(node.value, (int, float)):
            return float(node.value)
        if isinstance(node, ast.BinOp) and type(node.op) in _SIGNS:
            return _SIGNS[type(node.op)](value(node.left), value(node.right))
        raise ValueError(f"{left!r} is no sum of numbers with + − × ÷ and brackets")

    found = value(ast.parse(plain_signs, mode="eval").body)
    words = f"{plain_number(round(found, 2))} {unit}".rstrip()
    return CameOut(words, f"{left} = {words}", unit)


def _came_out(joined: Joined) -> CameOut:
    one, found = joined
    if one.kind == "verdict":
        words = plain(next(option.label for option in one.words if option.word == found.value)).rstrip(".")
        return CameOut(words, working_words(joined), "")
    unit = "" if isinstance(found.value, str) else one.unit
    words = figure(found.value, joined.decimals, unit, up=one.rounds_up)
    if found.low is not None and found.high is not None:
        low, high = (figure(end, joined.decimals, up=one.rounds_up) for end in (found.low, found.high))
        words += f", likely {low} to {high}"
    working = working_words(joined)
    if one.label.lower() not in working.lower():
        working = f"{one.label}: {working}"
    return CameOut(words, working, figure(0.0, 0, unit).removeprefix("0").strip())
