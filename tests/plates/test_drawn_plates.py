"""The plates of the book: one pen, words that can be read on a phone and stand over nothing, files that stay "
"small."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from bench.drawn.kit import GRAIN, LETTER, WIDTH, Plate, sampled
from bench.drawn.people import STANDS, person
from bench.drawn.plates import DRAWINGS, PLATES

FILES = sorted(path.stem for path in DRAWINGS.glob("*.svg"))
STYLES = Path("site_src/theme/assets/browser/styles")
LARGEST_BYTES = 25_000
PHONE_PX = 320


@pytest.mark.parametrize("name", PLATES)
def test_the_file_is_what_the_program_draws(name):
    drawn = PLATES[name]().svg()
    assert (DRAWINGS / f"{name}.svg").read_text("utf-8") == drawn, "write it again: python -m bench.drawn"


@pytest.mark.parametrize("name", PLATES)
def test_no_words_stand_over_lines_or_grain_or_gas(name):
    assert list(PLATES[name]().faults()) == []


def test_words_over_something_are_found():
    plate = Plate("demo", 200, "Demo", "Demo")
    plate.text(10, 40, "free")
    assert list(plate.faults()) == []
    plate.path("M0 36 L380 36")
    assert list(plate.faults()) == ["“free” stands over a line"]
    plate.textured("M0 60 L380 60 L380 120 L0 120 Z", GRAIN)
    plate.text(40, 100, "in the grain")
    plate.text(50, 105, "too near")
    plate.text(300, 180, "out at the right")
    said = " / ".join(plate.faults())
    for words in (
        "“in the grain” stands over grain",
        "“too near” stands over “in",
        "“out at the right” leaves the plate",
    ):
        assert words in said


def test_a_curve_is_followed_by_its_middle():
    # The middle of a quadratic curve lies half way to its outer point, a cubic one’s three quarters (de Casteljau).
    (square,) = sampled("M0 0 Q50 100 100 0")
    assert (50.0, 50.0) in [(round(x, 6), round(y, 6)) for x, y in square]
    (cubic,) = sampled("M0 0 C0 100 100 100 100 0")
    assert (50.0, 75.0) in [(round(x, 6), round(y, 6)) for x, y in cubic]


def test_what_is_in_the_grain_of_a_person_is_not_drawn():
    whole, half = Plate("a", 200, "", ""), Plate("b", 200, "", "")
    person(whole, 100, 190, 100, STANDS)
    person(half, 100, 190, 100, STANDS, upto=0.6)
    lowest = [max(y for line, _ in plate.lines for _, y in line) for plate in (whole, half)]
    assert lowest[0] > 185 and lowest[1] == pytest.approx(130)


@pytest.mark.parametrize("name", FILES)
def test_each_drawing_is_small_and_says_what_it_shows(name):
    text = (DRAWINGS / f"{name}.svg").read_text("utf-8")
    assert len(text.encode()) < LARGEST_BYTES
    root = ElementTree.fromstring(text)
    space = "{http://www.w3.org/2000/svg}"
    title, desc = root.find(f"{space}title"), root.find(f"{space}desc")
    assert title is not None and title.text and desc is not None and len(desc.text or "") > 80
    assert root.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"
    assert "style=" not in text  # the policy forbids it


@pytest.mark.parametrize("name", FILES)
def test_no_letter_is_under_twelve_pixels_on_a_phone(name):
    root = ElementTree.fromstring((DRAWINGS / f"{name}.svg").read_text("utf-8"))
    wide = float(root.get("viewBox", "").split()[2])
    letter = float(
        _size(
            r"@container \(max-width: 17\.5rem\) "
            r"\{.*?\.drawing text, \.drawing \.label \{ font-size: ([\d.]+)px"
        )
    )
    assert letter == LETTER
    assert letter * PHONE_PX / wide >= 12
    assert wide <= WIDTH or wide * 12 <= letter * PHONE_PX


def _size(pattern: str) -> str:
    found = re.search(pattern, (STYLES / "pages.css").read_text("utf-8"), re.DOTALL)
    assert found
    return found[1]


def test_every_class_of_the_plates_has_its_pen():
    """A shape whose class no style sheet knows is filled black."""
    styles = "".join(path.read_text("utf-8") for path in STYLES.glob("*.css"))
    for name in PLATES:
        used = {one for text in re.findall(r'class="([^"]+)"', PLATES[name]().svg()) for one in text.split()}
        assert {one for one in used if f".{one}" not in styles} == set(), name
