"""Every figure with a unit that stands in a text, in digits or in words."""

from __future__ import annotations

import re
from collections.abc import Iterator

_NUMBER = r"\d+(?:\.\d+)?"
_UNITS = {
    "hours": "h", "hour": "h", "point": "points", "minutes": "min", "minute": "min", "corn": "corns", "degree": "K",
    "degrees": "K", "kelvin": "K", "per cent": "%", "centimetre": "cm", "centimetres": "cm", "gram": "g", "grams": "g",
}  # fmt: skip
_UNIT = r"°C|K|%|hours?|h|cm|points?|minutes?|min|µg/kg|g/kg|g|corns?"
_SPELT = rf"({_UNIT}|degrees?|kelvin|per cent|centimetres?|grams?)(?![\w/])"
_WITH_UNIT = re.compile(
    rf"(?<![\d.,])({_NUMBER}(?:(?:\s*[–-]\s*|,? (?:to|or|over|and|under) |, ){_NUMBER})*)"
    rf"[ \u00a0]*({_UNIT}|times the corn)(?![\w/])"
)
_APART_BEFORE = re.compile(r"\b(?:within|by|(?:by|warms?|cools?|rises?|falls?) (?:more|less) than)\s+$")
_APART_BEHIND = re.compile(r"\s*(?:warmer|colder|cooler|apart|of the|(?:in )?an hour)\b")
"""Words before and behind a figure in °C that say how far two temperatures lie apart: it is one in K."""

_ONES = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9}
_TEENS = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
_VALUES: dict[str, float] = {**_ONES, **_TEENS, **_TENS, "a": 1, "an": 1, "half a": 0.5, "half an": 0.5}
_WORD = rf"(?:(?:{'|'.join(_TENS)})(?:-(?:{'|'.join(_ONES)}))?|{'|'.join(_TEENS)}|{'|'.join(_ONES)})"
_IN_WORDS = re.compile(rf"\b({_WORD}(?:(?:,? (?:to|or|over|and|under) |, ){_WORD})*) {_SPELT}", re.IGNORECASE)
_ARTICLE = re.compile(
    rf"\b(?:within|over|under|up to|(?:more|less) than|at (?:least|most)) (half an?|an?) {_SPELT}", re.IGNORECASE
)
"""An article is a number only behind a word that sets a limit: “by more than a degree”."""


def figures(text: str) -> Iterator[tuple[float, str, str]]:
    """Give every number with its unit, those of a range and those in words too, with the words that they stand in.

    A number in °C that says how far two temperatures lie apart comes in K too.
    """
    for found in _WITH_UNIT.finditer(text):
        around, unit = _around(text, found), _UNITS.get(found[2], found[2])
        before, behind = text[max(0, found.start() - 30) : found.start()], text[found.end() : found.end() + 20]
        apart = unit == "°C" and (_APART_BEFORE.search(before) or _APART_BEHIND.match(behind))
        for number in re.findall(_NUMBER, found[1]):
            yield float(number), unit, around
            if apart:
                yield float(number), "K", around
    for pattern, word in ((_IN_WORDS, _WORD), (_ARTICLE, ".+")):
        for found in pattern.finditer(text):
            for said in re.findall(word, found[1].lower()):
                yield _value(said), _UNITS.get(found[2].lower(), found[2]), _around(text, found)


def _value(said: str) -> float:
    return sum(_VALUES[part] for part in said.split("-"))


def _around(text: str, found: re.Match[str]) -> str:
    return " ".join(text[max(0, found.start() - 60) : found.end() + 30].split())
