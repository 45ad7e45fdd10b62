"""Every procedure shows the boxes of its hazards, each written once, with the word that fits it."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

DOCS = Path(__file__).parents[2] / "docs"
BOXES = {path.stem: path.read_text("utf-8") for path in sorted((DOCS / "_includes" / "hazards").glob("*.md"))}
PAGES = [page for page in sorted(DOCS.rglob("*.md")) if "_includes" not in page.parts]

# What can hurt someone in each job. A new procedure page is added here with its hazards.
HAZARDS = {
    "intake-and-storage": {
        *("lorries", "moving-parts", "engulfment", "fumigant", "grain-dust", "ladders", "moulds", "rats", "drier"),
    },
    "germination-test": {"test-reagents", "moulds"},
    "store-through-the-year": {"engulfment", "ladders", "grain-dust", "moulds", "fumigant", "rats"},
    "filling-the-steep": {
        *("vessel", "moving-parts", "falls", "grain-dust", "wet-floors", "chemicals", "fumigant"),
    },
    "steeping": {
        *("vessel", "suction-outlet", "falls", "moving-parts", "wet-floors", "effluent", "still-water"),
        *("noise", "alone"),
    },
    "measuring-moisture": {"vessel", "falls", "hot-oven", "wet-floors"},
    "quick-moisture": {"microwave", "hot-oven"},
    "casting": {"vessel", "falls", "moving-parts", "wet-floors", "heavy-loads"},
    "floor-germination": {"floor-room", "heavy-loads", "moulds", "wet-floors", "drum-and-turner"},
    "drum-germination": {"vessel", "under-floor", "drum-and-turner", "floor-room", "spray", "noise"},
    "box-germination": {
        *("vessel", "under-floor", "box-screws", "fan-stopped", "floor-room", "spray", "noise", "alone", "falls"),
    },
    "between-batches": {
        *("suction-outlet", "falls", "vessel", "chemicals", "drum-and-turner", "electricity", "wet-floors", "spray"),
        *("rats", "floor-room"),
    },
    "readiness": {"vessel", "floor-room", "drum-and-turner", "moulds"},
    "kiln-hand-over": {"kiln", "moving-parts", "heavy-loads"},
    "hand-over": {"vessel", "floor-room", "drum-and-turner", "alone"},
}


def included(page: Path) -> list[str]:
    return re.findall(r'^--8<-- "hazards/([a-z-]+)\.md"$', page.read_text("utf-8"), re.MULTILINE)


@pytest.mark.parametrize("page", sorted((DOCS / "procedures").glob("*.md")), ids=lambda p: p.stem)
def test_a_procedure_shows_the_boxes_of_its_hazards(page):
    assert page.stem in HAZARDS, f"Say in HAZARDS what can hurt someone in {page.stem}."
    assert HAZARDS[page.stem] - set(included(page)) == set()


@pytest.mark.parametrize("page", PAGES, ids=lambda p: str(p.relative_to(DOCS)))
def test_a_box_is_included_once_a_page_and_never_written_in_it(page):
    counts = Counter(included(page))
    assert set(counts) <= set(BOXES)
    assert [name for name, count in counts.items() if count > 1] == []
    assert 'class="hazard' not in page.read_text("utf-8")


def test_every_box_stands_on_some_page():
    used = {name for page in PAGES for name in included(page)}
    assert set(BOXES) - used == set()


@pytest.mark.parametrize("name", BOXES)
def test_a_box_has_one_of_the_four_words_and_says_how_to_avoid_it(name):
    text = BOXES[name]
    (level,) = re.findall(r'<div class="hazard hazard-(danger|warning|caution|notice)" markdown>', text)
    assert f'<p class="hazard-word">{level.upper()}</p>' in text
    paragraphs = [part for part in text.split("\n\n")[1:] if part.strip() and not part.startswith("</div>")]
    assert len(paragraphs) >= 2  # the hazard and what it does; how to avoid it
    assert paragraphs[0].startswith("**")


@pytest.mark.parametrize("name", BOXES)
def test_the_words_mean_what_the_open_standards_mean(name):
    text = BOXES[name]
    if "hazard-warning" in text:  # could kill or maim
        assert re.search(r"\bcould\b", text)
    if "hazard-caution" in text or "hazard-notice" in text:  # slight or moderate, or not about people
        assert not re.search(r"\b(?:dead|death|enter|entry|confined|gas)\b", text.lower())


def test_a_warning_of_gas_in_a_vessel_is_danger():
    for name in ("vessel", "rescue", "suction-outlet", "under-floor", "engulfment"):
        assert "hazard-danger" in BOXES[name]
