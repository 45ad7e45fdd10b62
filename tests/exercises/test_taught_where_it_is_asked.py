"""The page that teaches an exercise holds its formula, and the example beside the formula is worked right."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from calculators.exercises import EXERCISES

DOCS = Path(__file__).parents[2] / "docs"
FORMULAS = {
    "germination-index": "10 × (x + y + z) ÷ (x + 2y + 3z)",
    "water-sensitivity": "energy in 4 ml − energy in 8 ml",
    "energy": "100 × grown ÷ sown",
    "corns-to-count": "1.96² × p × (1 − p) ÷ m²",
    "corns-for-readiness": "1.96² × p × (1 − p) ÷ m²",
    "drum-fill": "100 × barley ÷ bulk density × swelling ÷ room",
    "carbon-dioxide-of-a-bed": "dry matter × loss a day × 1.63 ÷ 24",
    "mean-over-a-shift": "÷ 480 minutes",
    "gas-of-growing-grain": "tonnes of barley × kW a tonne × 3.6 ÷ 10.6",
    "sprinkle": "bed × (moisture wanted − moisture now) ÷ (100 − moisture wanted) ÷ share kept",
    "trend-of-a-piece": "(limit − difference now) ÷ (gain an hour)",
    "kiln-water": "green malt × (moisture − final moisture) ÷ (100 − final moisture)",
    "wait-for-the-kiln": "hours until the kiln is free − 24 × [days to ready](days-to-ready.md)",
    "store-time-left": "(100 − spent) ÷ 100 × days to be had from now on",
    "store-time-spent": "100 × (days lain ÷ days to be had)",
    "extract-on-dry-matter": "100 × extract as is ÷ (100 − moisture)",
    "nitrogen-of-protein": "Nitrogen = protein ÷ 6.25",
    "load-of-a-batch": "barley × (100 − moisture) ÷ 100 × share leached ÷ 100 × 1.184",
    "strength-of-the-water": "1000 × load in kg ÷ water in m³",
    "malting-loss": "100 × (dry matter in − dry matter out) ÷ dry matter in",
}


@pytest.mark.parametrize("name", FORMULAS)
def test_its_page_holds_the_formula(name):
    assert FORMULAS[name] in (DOCS / f"{EXERCISES[name].teaches}.md").read_text("utf-8")


@pytest.mark.parametrize(
    ("page", "said", "worked"),
    [
        ("procedures/germination-test", "10 × 198 ÷ 321 = 6.17", 10 * (113 + 47 + 38) / (113 + 2 * 47 + 3 * 38)),
        ("procedures/readiness", "1.96² × 0.8 × 0.2 ÷ 0.1² = 61.5, so 62", 1.96**2 * 0.8 * 0.2 / 0.1**2),
        ("procedures/drum-germination", "19.4 m³ of grain", 6000 / 618 * 2),
        ("procedures/drum-germination", "42.2 × 1.63 ÷ 24 = 2.87 kg", 5280 * 0.008 * 1.63 / 24),
        ("procedures/floor-germination", "= 364 litres", 9000 * 2 / 55 / 0.9),
        ("procedures/kiln-hand-over", "= 3,844 kg", 9000 * 41 / 96),
        ("procedures/kiln-hand-over", "= 7.8 %", 100 * (6000 * 0.88 - 5100 * 0.955) / (6000 * 0.88)),
        ("procedures/store-through-the-year", "= 135 days", (100 - 100 * 14 / 28) / 100 * 270),
        ("learning/reading-an-analysis-sheet", "100 × 80.9 ÷ 95.6 = 84.6 %", 100 * 80.9 / 95.6),
        ("learning/reading-an-analysis-sheet", "10.0 ÷ 6.25 = 1.60 %", 10 / 6.25),
        ("learning/steep-water", "8.8 × 1.184 = 10.4 kg", 8.8 * 192 / 162.14),
        ("learning/steep-water", "1000 × 10.4 ÷ 4 = 2,600 mg/L", 2600),
        ("calculators/house-week", "96 − 24 × 3.25 = 18 h", 96 - 24 * 3.25),
        ("safety/carbon-dioxide", "= 1,691 ppm", (650 * 210 + 2500 * 45 + 9000 * 30 + 1500 * 195) / 480),
        ("safety/carbon-dioxide", "at 0.8 kW: 0.54 kg", 2 * 0.8 * 3.6 / 10.6),
    ],
)
def test_the_example_beside_it_is_worked_right(page, said, worked):
    assert said in (DOCS / f"{page}.md").read_text("utf-8")
    figure = next(part for part in said.replace(",", "").split("=")[-1].replace("kW:", "").split() if part[0].isdigit())
    figure = said.split(":")[-1].split()[0] if "kW:" in said else figure
    decimals = len(figure.partition(".")[2])
    assert math.isclose(float(figure), worked, abs_tol=0.5 * 10**-decimals + 1e-9)
