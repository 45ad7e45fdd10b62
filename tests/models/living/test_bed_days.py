"""What grain breathes by its day: the one law, in every sheet the same."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.one_grain import BEFORE, one_grain
from calculators.models.bounds import OutOfRange
from calculators.models.living.batch import bed_course
from calculators.models.living.bed_days import (
    HIGHEST_H,
    breathed_a_day,
    breathed_at_most,
    breathed_away,
    heat_on_day,
)
from calculators.models.living.breathing import breathing, growth_course
from calculators.models.living.lot_plan_state import BedSpell
from calculators.models.living.maths import FLOATS
from calculators.models.living.pace import growth_after_cast


def test_every_sheet_gives_one_grain_one_heat() -> None:
    law = breathing(
        barley_kg=1000, barley_moisture=14, net_moisture=45, temp_c=15, growth_h=growth_after_cast(day=3.5, temp_c=15)
    ).heat_kw
    found = one_grain()
    assert set(found) >= {"floor-round", "bed-heat", "gas-build-up", "fan-stopped"}
    for sheet, heat in found.items():
        assert heat == pytest.approx(law, abs=0.005), sheet
    assert set(BEFORE) <= set(found)


@given(st.floats(1, 30), st.floats(0, 40), st.floats(26, 55))
def test_heat_and_loss_are_one_rate(day: float, temp: float, moisture: float) -> None:
    share = breathed_a_day(day=day, temp_c=temp, moisture=moisture)
    kw = 860.0 * share / 100.0 * 2803.0 / 162.1406 * 1000.0 / 86_400.0
    assert heat_on_day(day=day, temp_c=temp, moisture=moisture) == pytest.approx(kw, rel=1e-9)
    assert share <= breathed_at_most(temp_c=temp, moisture=moisture) * (1 + 1e-4)


@pytest.mark.parametrize("moisture", [38.0, 45.0])
def test_a_bed_breathes_from_its_first_hour_as_it_goes_on(moisture: float) -> None:
    first, later = bed_course(barley_moisture=12.0, moisture=moisture, growth_h=78.0, spells=[BedSpell(6.0, 15.0)])[:2]
    assert 0.0 < later.hour <= 3.0  # about the highest of its course, where three hours change little
    assert float(first.heat_kw) == pytest.approx(float(later.heat_kw), rel=0.03)


def test_the_highest_is_where_the_course_is() -> None:
    courses = [float(growth_course(FLOATS, hour)) for hour in range(20, 200)]
    assert 20 + courses.index(max(courses)) == pytest.approx(HIGHEST_H, abs=1.0)


@given(st.floats(0, 12), st.floats(5, 25))
def test_losses_of_two_stretches_make_the_whole(days: float, temp: float) -> None:
    whole, later = breathed_away(days=days, temp_c=temp), breathed_away(days=days + 1.0, temp_c=temp)
    assert 0.0 <= whole < later < 100.0
    if days > 0.5:
        rate = breathed_a_day(day=days + 1.5, temp_c=temp)
        assert (later - whole) / (1.0 - whole / 100.0) == pytest.approx(rate, rel=0.25)


def test_days_outside_are_refused() -> None:
    for wrong in ({"days": -0.1}, {"days": 29.1}):
        with pytest.raises(OutOfRange):
            breathed_away(**{"days": 5.0, "temp_c": 15.0} | wrong)
    breathed_away(days=0.0, temp_c=15.0)
    breathed_away(days=29.0, temp_c=15.0)
