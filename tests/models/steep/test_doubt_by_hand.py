"""The unknowns of drinking moved one by one, and the small algebra under the doubt, against numpy."""

from __future__ import annotations

from math import exp, inf, log

import numpy as np
import pytest

from calculators.models.steep.doubt import TYPICAL, UNKNOWNS, moved, nearby, quadratic, reach, solved, trust, unit
from calculators.models.steep.hydration import run, steep

COURSE = steep(barley_moisture=12.5, stages=[(8.0, 14.0), (8.0, 14.0), (8.0, 14.0)])
BASE = COURSE.steeping
NAMES = (
    "rate_factor",
    "first_uptake_db",
    "rest_factor",
    "film_db",
    "activation_kj_mol",
    "surface_db",
    "barley_moisture",
)


def z_of(n: int, value: float) -> list[float]:
    return [value if m == n else 0.0 for m in range(UNKNOWNS)]


@pytest.mark.parametrize("n", range(7))
@pytest.mark.parametrize("z", [-0.4, 0.7])
def test_each_unknown_moves_its_own_setting_by_its_standard_deviation(n: int, z: float) -> None:
    name = NAMES[n]
    sd = TYPICAL.rate if name == "rate_factor" else getattr(TYPICAL, name)
    before, after = getattr(BASE, name), getattr(moved(BASE, TYPICAL, z_of(n, z)), name)
    assert after == pytest.approx(before * exp(sd * z) if name == "rate_factor" else before + sd * z)
    others = moved(BASE, TYPICAL, z_of(n, z))._replace(**{name: before})
    assert others == BASE


@pytest.mark.parametrize("n", range(7))
def test_no_unknown_is_moved_past_its_limits_and_the_reach_says_when(n: int) -> None:
    limits = reach(BASE, TYPICAL)
    for side, z in ((limits[n].low, -1.0), (limits[n].high, 1.0)):
        at, beyond, inside = (
            getattr(moved(BASE, TYPICAL, z_of(n, side + z * by)), NAMES[n]) for by in (0.0, 1.0, -0.1)
        )
        assert at == pytest.approx(beyond) and inside != pytest.approx(beyond, rel=1e-6)
    assert (limits[7].low, limits[7].high) == (-inf, inf)
    sure = reach(BASE, TYPICAL._replace(film_db=0.0))[3]
    assert (sure.low, sure.high) == (-inf, inf)  # what is known for sure is not moved at all


@pytest.mark.parametrize("z", [0.0, 0.8, -0.8])
def test_slopes_are_taken_toward_the_middle_and_match_wider_differences(z: float) -> None:
    """Central differences over a tenth of a standard deviation, by numpy."""
    at = [z] * 7 + [0.0]
    found = nearby(BASE, TYPICAL, at)
    assert [step < 0.0 for step, _ in found.aside] == [z > 0.0] * 7
    values, rows = found.values_and_slopes(lambda course: [end.drained for end in course.ends])
    assert values == [end.drained for end in run(moved(BASE, TYPICAL, at)).ends]
    for n in range(7):
        up, down = (
            np.array([end.drained for end in run(moved(BASE, TYPICAL, list(np.array(at) + z_of(n, by)))).ends])
            for by in (0.1, -0.1)
        )
        assert [row[n] for row in rows] == pytest.approx((up - down) / 0.2, abs=0.02)
    assert [row[7] for row in rows] == [0.0] * 3


def test_the_algebra_is_numpy_s() -> None:
    random = np.random.default_rng(5)
    half = random.standard_normal((4, 4))
    matrix = half @ half.T + np.eye(4)
    matrix[0, 2] = matrix[2, 0] = 0.0
    right = random.standard_normal((4, 2))
    ours = solved(matrix.tolist(), right.tolist())
    assert np.array(ours) == pytest.approx(np.linalg.solve(matrix, right))
    row = random.standard_normal(4)
    assert quadratic(row.tolist(), matrix.tolist()) == pytest.approx(float(row @ matrix @ row))
    assert np.array_equal(unit(), np.eye(UNKNOWNS))


def test_a_band_is_two_deviations_of_course_and_shape_and_never_wetter_than_can_be_nor_drier_than_the_barley() -> None:
    told = trust(COURSE)
    hours = [0.5, 4.0, 24.0]
    values, sds = told.values_and_spread(lambda course: course.drained_along(hours))
    band = told.band(hours)
    for value, sd, low, high in zip(values, sds, band.low, band.high, strict=True):
        wide = 2.0 * np.hypot(sd, TYPICAL.shape_points)
        assert low == pytest.approx(max(value - wide, min(value, 12.5))) and high == pytest.approx(value + wide)
    assert told.band([0.0]).low == pytest.approx([12.5])
    slow = trust(steep(barley_moisture=12.5, stages=[(0.3, 2.0)]))
    assert slow.band([0.3]).low[0] >= 12.5
    assert log(told.here.steeping.rate_factor) == 0.0
