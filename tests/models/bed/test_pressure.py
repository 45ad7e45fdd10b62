"""The pressure of a bed: limits, and two published ways that rise with air."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.bed.pressure import OPEN, _ergun, curve_pa_m, ergun_pa_m
from tests.models.both_sides import Case, cases

CASES = [
    *cases(curve_pa_m, {}, air_m_s=(0.005, 0.3)),
    *cases(ergun_pa_m, {"air_m_s": 0.06, "porosity": 0.45}, air_m_s=(0.005, 0.3), porosity=(0.25, 0.65)),
]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_limit_is_accepted_exactly_and_refused_just_outside(case: Case) -> None:
    case.hold()


def test_ergun_gives_the_example_of_another_library() -> None:
    # The documentation of the open-source library fluids, function Ergun, its example (read): 1338.8671874999995 Pa.
    assert _ergun(1e-3, 0.4, 8e-4, 1e3, 1e-3) == pytest.approx(1338.8671874999995, rel=1e-12)


def test_the_two_published_ways_part_by_a_factor_of_two_and_more() -> None:
    # What the page says of them: Ergun, with 40 to 50 % of room, lies under half to two thirds of the standard's curve.
    curve = curve_pa_m(air_m_s=0.06)
    low, high = (ergun_pa_m(air_m_s=0.06, porosity=room) for room in (OPEN.high, OPEN.low))
    assert 0.2 < low / curve < 0.3 and 0.55 < high / curve < 0.7


@given(st.floats(0.005, 0.29), st.floats(0.25, 0.6))
def test_more_air_and_less_room_take_more_pressure(air: float, room: float) -> None:
    assert curve_pa_m(air_m_s=air + 0.01) > curve_pa_m(air_m_s=air)
    assert ergun_pa_m(air_m_s=air + 0.01, porosity=room) > ergun_pa_m(air_m_s=air, porosity=room)
    assert ergun_pa_m(air_m_s=air, porosity=room) > ergun_pa_m(air_m_s=air, porosity=room + 0.05)
