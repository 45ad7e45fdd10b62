"""The page that explains the living batch prints figures: each is what its law gives."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from calculators.models.living import acrospires, breathing, chitting, doubts, pace
from calculators.models.living.batch import course
from calculators.models.living.ensemble import MEMBERS
from calculators.models.living.lot_plan_state import BedSpell, Plan
from calculators.models.living.maths import FLOATS
from calculators.models.nature import FRESH_OXYGEN_PERCENT
from calculators.models.steep.course import Stage

PAGE = " ".join((Path(__file__).parents[3] / "docs/reference/living-batch.md").read_text("utf-8").split())
STEEP = tuple(Stage(h, 14.0) for h in (8, 8, 8, 12, 3))
STATES = course(plan=Plan(STEEP, tuple(BedSpell(24.0, 15.0) for _ in range(8))))
PLENTY = (FRESH_OXYGEN_PERCENT + 2.0) / FRESH_OXYGEN_PERCENT


def printed(words: str) -> tuple[float, ...]:
    """The figures that stand on the page for each # of these words."""
    found = re.search(re.escape(words).replace(r"\#", r"(−?\d+(?:\.\d+)?)"), PAGE)
    assert found, f"the page no longer says {words!r}"
    return tuple(float(number.replace("−", "-")) for number in found.groups())


def peak_kw() -> float:
    return breathing.breathing(
        barley_kg=1000.0, barley_moisture=14.0, net_moisture=45.0, temp_c=15.0, growth_h=78.0
    ).heat_kw


def highest_h() -> float:
    return max(range(40, 150), key=lambda hour: breathing.growth_course(FLOATS, float(hour)))


@pytest.mark.parametrize(
    ("words", "law", "near"),
    [
        ("| # % of the dry matter an hour", lambda: (100.0 * breathing.PEAK_PER_H,), 1e-9),
        ("an hour, # kW a tonne of barley |", lambda: (peak_kw(),), 0.05),
        ("a factor of # either way, 95 of 100", lambda: (breathing.SOONEST_FACTOR,), 0.05),
        ("highest at # hours of growth", lambda: (highest_h(),), 0.5),
        (
            "| # kJ/mol below # °C, # above",
            lambda: (breathing.COLD_KJ_MOL, breathing.BREAK_C, breathing.WARM_KJ_MOL),
            1e-9,
        ),
        (
            "# % less at once, back after # h, the peak a day later",
            lambda: (100.0 * (1.0 - breathing.after_wet_transfer(FLOATS, 0.0)[0]), breathing.WET_TRANSFER_H),
            1e-9,
        ),
        ("stops at # %", lambda: (breathing.STOPPING_CO2_PERCENT,), 1e-9),
        ("half the rate at # %", lambda: (breathing.HALF_O2_PERCENT,), 1e-9),
        ("after # h of one immersion they stand still", lambda: (pace.FREE_IMMERSION_H,), 1e-9),
        ("would stop at # °C", lambda: (pace.CHIT_BASE_C,), 1e-9),
        ("half the corns have chitted at # hours", lambda: (chitting.Corns().middle_h,), 1e-9),
        ("to a factor of # either way, and a house", lambda: (math.exp(2.0 * chitting.MIDDLE_LOG_SD),), 0.05),
        ("spread as a lognormal of #.", lambda: (chitting.Corns().spread,), 1e-9),
        ("sensitive to water take # times as long", lambda: (chitting.LATE_FACTOR,), 1e-9),
        (
            "start # hours of growth after their corn's chit and grow one corn length in #",
            lambda: (acrospires.STARTS_H, acrospires.CORN_LENGTH_H),
            1e-9,
        ),
        ("What is not known, # things", lambda: (len(doubts.UNKNOWNS),), 0.0),
    ],
    ids=lambda one: one[:30] if isinstance(one, str) else "",
)
def test_what_the_page_says_it_assumes(words, law, near) -> None:
    assert printed(words) == pytest.approx(law(), abs=near)


def test_what_the_page_says_in_words() -> None:
    for words in ("a two-thousandth of the peak", "a tenth of the peak, to a factor of three", "doubt a fifth"):
        assert words in PAGE
    assert abs(breathing.DRY_SHARE - 1.0 / 2000.0) < 1e-9
    assert abs(breathing.LEVEL - 1.0 / 10.0) < 1e-9
    assert math.exp(2.0 * breathing.LEVEL_LOG_SD) == pytest.approx(3.0, abs=0.05)
    assert abs(acrospires.CORN_LENGTH_LOG_SD - 1.0 / 5.0) < 1e-9
    assert "Under water they run at about a third" in PAGE and 0.3 < pace.UNDER_WATER < 0.37
    assert "each further hour must be paid for in the next rest" in PAGE
    assert "Three hundred possible batches" in PAGE and MEMBERS == 300
    peak_h = max(STATES, key=lambda s: s.heat_kw if not s.steeping else 0.0).growth_h
    assert peak_h == pytest.approx(78.0, abs=4.0)


def test_growth_is_slowed_by_half_in_half_of_the_gas_that_stops_it() -> None:
    for co2, left in ((0.0, 1.0), (10.0, 0.5), (20.0, 0.0), (30.0, 0.0)):
        assert breathing.gas_response(FLOATS, co2, FRESH_OXYGEN_PERCENT) == (pytest.approx(1.0), left)
    half = breathing.gas_response(FLOATS, 0.0, 2.0)[0] / PLENTY
    assert half == pytest.approx(0.5)
