"""Limits of the load of steep water, of storage time and of an analysis, from both sides; and what they keep."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.grain.storage_time import allowed_days, spent_share
from calculators.models.steep.effluent import leached_demand_kg, persons, strength_mg_l
from calculators.models.weights.analysed import as_is_of, on_dry_matter
from tests.models.both_sides import Case, cases

CASES = [
    *cases(
        leached_demand_kg, {"barley_kg": 6000.0, "barley_moisture": 12.0, "leached_percent": 1.0},
        leached_percent=(0.1, 5.0),
    ),
    *cases(strength_mg_l, {"load_kg": 10.0, "water_m3": 4.0}, load_kg=(0.0, 100_000.0), water_m3=(0.01, 10_000.0)),
    *cases(persons, {}, bod_kg_day=(0.0, 100_000.0)),
    *cases(allowed_days, {"moisture": 14.0, "temp_c": 20.0}, moisture=(8.0, 18.0), temp_c=(-10.0, 27.0)),
    *cases(on_dry_matter, {"as_is": 80.0, "moisture": 4.0}, as_is=(0.0, 100.0), moisture=(0.0, 20.0)),
    *cases(as_is_of, {"dry": 80.0, "moisture": 4.0}, dry=(0.0, 100.0), moisture=(0.0, 20.0)),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_limit_is_accepted_exactly_and_refused_just_outside(case: Case) -> None:
    case.hold()


@given(st.floats(13, 17.9), st.floats(15.6, 26.9))
def test_wetter_or_warmer_never_keeps_longer(moisture: float, temp: float) -> None:
    days = allowed_days(moisture=moisture, temp_c=temp)
    assert allowed_days(moisture=moisture + 0.1, temp_c=temp) < days
    assert allowed_days(moisture=moisture, temp_c=temp + 0.1) < days


@given(st.lists(st.tuples(st.floats(1, 20), st.floats(13, 18), st.floats(10, 25)), min_size=2, max_size=6))
def test_the_order_of_spells_and_parting_one_change_nothing(spells: list[tuple[float, float, float]]) -> None:
    whole = spent_share(spells=spells)
    assert spent_share(spells=spells[::-1]) == pytest.approx(whole)
    days, temp, moisture = spells[0]
    half = (0.5 * days, temp, moisture)
    parted = [half, half, *spells[1:]]
    assert spent_share(spells=parted) == pytest.approx(whole)
