"""The series for Student's t, against scipy."""

import pytest
from scipy import stats

from calculators.models.living.doubts import student


@pytest.mark.parametrize("z", [-2.5, -1.0, 0.5, 1.96, 3.0])
@pytest.mark.parametrize("freedom", [100.0, 200.0])
def test_the_series_is_short_of_students_t_by_its_next_term(z: float, freedom: float) -> None:
    """Abramowitz & Stegun 26.7.5 has a fourth term (from memory); what is left out must be about that."""
    left_out = (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160.0 / freedom**4
    theirs = float(stats.t.ppf(stats.norm.cdf(z), freedom)) if z < 0 else float(stats.t.isf(stats.norm.sf(z), freedom))
    assert student(z, freedom) + left_out == pytest.approx(theirs, abs=0.3 * abs(left_out) + 1e-11)
