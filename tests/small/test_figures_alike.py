"""Figures, texts, days and the language itself: the small engine against the browser's Python, to the letter.

The other side is CPython's own library, as Pyodide carries it; this Python may be older, with another C library below.
"""

from __future__ import annotations

import math
import struct
from pathlib import Path
from random import Random
from typing import Any

import pytest

from site_src.small.packs import SMALL, stand_ins
from tests.drawn import drawn
from tests.fuzz.cases import HOSTILE
from tests.small.both import Asked, each_in_browser, each_on_small, here, in_browser, on_small, unlike

LETTERS = "abc ÄéßǅﬁΣ,.019-/[]:\t\n\u00a0\u2003\x1c²½Ⅷ٣४１😀ı\u0130\u0301\0"
BESIDE = " \t\x0b\x1c\x1d\x1e\x1f\x85\u00a0\u2003\u3000\u200b+"
"""Before or behind a number: white space to all, white space to `strip` alone (the separator signs), and none."""


def floats(random: Random, count: int) -> list[str]:
    """Floats as people have them, exact halves at every place, and any bits."""
    found = []
    for number in range(count):
        kind = number % 5
        if kind == 0:
            x = random.randint(-(10**6), 10**6) / 2 ** random.randint(0, 12)
        elif kind == 1:
            x = round(random.uniform(-1000, 1000), random.randint(0, 4))
        elif kind == 2:
            x = random.randint(-99999, 99999) / 10 ** random.randint(0, 6) + 0.5 / 10 ** random.randint(0, 4)
        elif kind == 3:
            x = random.uniform(-1, 1) * 10 ** random.randint(-12, 22)
        else:
            (x,) = struct.unpack("<d", random.randbytes(8))
        found.append(repr(x if math.isfinite(x) else 0.1))
    return found


def _some(random: Random, count: int, most: float, places: int) -> list[str]:
    return [repr(round(random.uniform(-most, most), random.randint(0, places))) for _ in range(count)]


def values(what: str, random: Random) -> list[Any]:
    """What each of the things is asked."""
    if what in ("formats", "roundings"):  # 17 and 9 results a value
        return floats(random, drawn(6000, 500))
    if what == "mathematics":
        return _some(random, drawn(4000, 300), 30.0, 9)
    if what == "sums":
        return [_some(random, random.randint(2, 12), 100.0, 6) for _ in range(drawn(2000, 200))]
    if what == "powers":
        return [_some(random, 2, 100.0, 4) for _ in range(drawn(2000, 200))]
    if what == "texts":
        made = ["".join(random.choices(LETTERS, k=random.randint(0, 12))) for _ in range(drawn(2000, 200))]
        made += [f"\ufeff{one}{one}\ufeff long enough to be read at once" for one in made[:20]]
        made += [f"{one}12{other}" for one in BESIDE for other in ("", *BESIDE)]
        return [*(one for one in HOSTILE if one != "\ud800"), *made, "see [[sheet:x|the 😀 sheet]] and [[page:a/b]]"]
    if what == "days":
        return [
            [
                f"{random.randint(1000, 9999)}-{random.randint(1, 12):02}-{random.randint(1, 31):02}"
                + random.choice(("", "T06:30", "T23:59")),
                random.choice(_some(random, 3, 50.0, 2) + _some(random, 1, 1e5, 9)),
                random.randint(0, 90),
            ]
            for _ in range(drawn(1000, 200))
        ]
    return [""]


WHAT = ("language", "formats", "roundings", "mathematics", "sums", "powers", "texts", "days")


@pytest.fixture(scope="module")
def engines() -> tuple[Asked, dict[str, list[Any]], dict[str, list[Any]]]:
    """What is asked, and what both give: each is started once for all of it."""
    asked = {what: values(what, Random(f"alike {what}")) for what in WHAT}
    return asked, each_on_small(asked), each_in_browser(asked)


@pytest.mark.drawn
@pytest.mark.parametrize("what", WHAT)
def test_alike(engines, what):
    asked, small, browser = (one[what] for one in engines)
    assert unlike(asked, small, browser) == []


def test_this_pythons_formats_are_the_same():
    asked = floats(Random("here"), 500)
    for what in ("formats", "roundings"):
        assert unlike(asked, on_small(what, asked), here(what, asked)) == []


def test_json_goes_and_comes_back():
    asked: list[Any] = [[1, -2.5, None, True, {"b": 1, "a": [{}]}, "x\n\u2019\"\\😀\0", 10**30, 1e300, -0.0, []]]
    assert on_small("again", asked) == asked


def test_one_digit_that_is_wrong_in_a_stand_in_is_seen():
    std = {**stand_ins()}
    text = std["std/math.py"].decode()
    assert text.count("2.5066282746310002701649081771338373386264310793408") == 1
    std["std/math.py"] = text.replace("2.50662827463100027", "2.50662827463200027").encode()
    assert unlike(["7.25"], on_small("mathematics", ["7.25"], std=std), in_browser("mathematics", ["7.25"]))


def test_a_half_that_goes_the_wrong_way_is_seen(tmp_path: Path):
    for path in SMALL.glob("*.mjs"):
        (tmp_path / path.name).write_text(path.read_text("utf-8").replace("isEven(low) ? low : text", "text"), "utf-8")
    assert unlike(["0.5", "2.5"], on_small("formats", ["0.5", "2.5"], tmp_path), here("formats", ["0.5", "2.5"]))
