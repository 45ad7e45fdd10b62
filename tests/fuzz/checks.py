"""What must hold of a reply, whatever was typed."""

from __future__ import annotations

import json
import math
from functools import cache
from html.parser import HTMLParser
from typing import Any, NoReturn

from calculators.asking.answer import Answered, as_json
from calculators.asking.declare import Outcome
from calculators.page import embed
from calculators.sheets import find_sheet, sheet_ids

# Below this no such quantity can be, and above it no works can have it.
_BOUNDS = {
    "C": (-60.0, 200.0), "K": (-200.0, 200.0), "%": (-1000.0, 1e5), "points": (-100.0, 100.0),
    "kg": (-1e7, 1e8), "ppm": (0.0, 1e6), "mg/m3": (0.0, 2.2e6),
}  # fmt: skip
# The temperature that a water would have to have, said with the words that it cannot be had.
_SUPPOSED = {"water_temp_needed_c"}
_NEVER_NEGATIVE = {"m3", "m3/h", "m3/t", "corns", "L", "kW", "kW/t", "min", "m", "mg/L", "W/m2 K", "g"}


class _Tags(HTMLParser):
    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: set[tuple[str, str]] = set()
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.add((tag, ""))
        for name, value in attrs:
            self.found.add((tag, name))
            plain = (value or "").lower().replace(" ", "")
            assert not plain.startswith(("javascript:", "data:", "vbscript:")), f"<{tag} {name}={value!r}>"


@cache
def known_tags() -> frozenset[tuple[str, str]]:
    """Elements and attributes that the worked cases of all sheets have, and those of other standings."""
    found: set[tuple[str, str]] = {("p", "class"), ("div", "class"), ("strong", ""), ("br", "")}
    for name in sheet_ids():
        found |= _Tags(embed(name, {}, name)).found
    return frozenset(found)


def _no_constant(name: str) -> NoReturn:
    raise AssertionError(f"the reply holds {name}, which is not JSON")


def check_reply(text: str) -> dict[str, Any]:
    """Check a reply of ``respond``: JSON, words for every fault, and only elements that sheets are made of."""
    reply: dict[str, Any] = json.loads(text, parse_constant=_no_constant)
    assert reply["state"] in ("answered", "refused", "incomplete", "wrong")
    if reply["state"] in ("wrong", "incomplete"):
        assert not reply["places"] and (reply["errors"] or reply["missing"])
    for error in reply["errors"]:
        assert error["text"].strip()
    for name, html in reply["places"].items():
        strange = _Tags(html).found - known_tags()
        assert not strange, f"{name}: {strange}"
        assert "nan" not in html.lower().replace("nanc", "").split(), f"{name} shows a number that is none"
    return reply


def check_bounds(result: Answered) -> None:
    """Check that every figure is one that can be."""
    as_json(result)
    if not isinstance(result.outcome, Outcome):
        return
    declared = {one.id: one for one in result.sheet.answers}
    for found in result.outcome.answers:
        one = declared[found.id]
        figures = [x for x in (found.low, found.value, found.high) if isinstance(x, float | int)]
        if one.kind != "number" or one.id in _SUPPOSED:
            continue
        where = f"{result.sheet.id}: {found.id} = {figures}"
        assert all(math.isfinite(x) for x in figures), where
        assert figures == sorted(figures), f"{where}: the value is outside its own interval"
        low, high = _BOUNDS.get(one.unit, (0.0 if one.unit in _NEVER_NEGATIVE else -1e9, 1e12))
        if one.unit == "%" and "moisture" in found.id and not found.id.endswith("_db"):
            low, high = 0.0, 100.0
        assert low <= min(figures) and max(figures) <= high, where


def sheets() -> list[str]:
    """The ids of all sheets."""
    return [find_sheet(name).id for name in sheet_ids()]
