"""Constants of the living batch that are mathematics, and their top, against scipy and numpy."""

import math

import numpy as np
import pytest
from scipy.optimize import minimize_scalar
from scipy.stats import norm

from calculators.models.living import acrospires, breathing, pace
from calculators.models.living.ensemble import ensemble
from calculators.models.living.lot_plan_state import Plan
from calculators.models.living.maths import FLOATS
from calculators.models.living.readings import Chits
from calculators.models.living.shells import SHELLS, _grid
from calculators.models.steep.course import Stage


def test_nine_middles_of_equal_parts() -> None:
    assert pytest.approx(norm.ppf((np.arange(9) + 0.5) / 9), abs=1e-6) == acrospires._Z


def test_growth_s_part_of_breathing_is_one_at_its_highest() -> None:
    top = minimize_scalar(lambda h: -breathing.growth_course(FLOATS, h), bounds=(40.0, 150.0), method="bounded")
    assert -top.fun == pytest.approx(1.0, abs=1e-6)


def test_shells_fill_the_sphere_and_keep_what_is_in_them() -> None:
    """Volumes add up to a third, as the integral of r squared; a sealed sphere loses nothing at any rate."""
    roots, wet_rates, wet_vectors, sealed_rates, sealed_vectors = _grid()
    assert len(roots) == SHELLS and np.square(roots).sum() == pytest.approx(1.0 / 3.0)
    assert np.all(np.diff(np.square(roots)[::-1]) != 0.0)
    assert sealed_rates[0] == pytest.approx(0.0, abs=1e-9) and sealed_rates[1] > 1.0
    assert np.abs(sealed_vectors[:, 0]) == pytest.approx(roots / np.sqrt(np.square(roots).sum()))
    for vectors in (wet_vectors, sealed_vectors):
        assert vectors.T @ vectors == pytest.approx(np.eye(SHELLS), abs=1e-9)
    # Crank 1975 (read): slowest rate of a wet sphere pi squared, of a sealed one the roots of tan x = x.
    assert wet_rates[0] == pytest.approx(math.pi**2, rel=0.01)
    assert sealed_rates[1] == pytest.approx(4.493409458**2, rel=0.01)


def test_readings_that_no_batch_could_give_are_let_in_for_sixteen_moves_and_no_more() -> None:
    before = ensemble(plan=Plan(tuple(Stage(h, 14.0) for h in (8, 8, 8, 12, 3))))
    taken = before.corrected([Chits(10.0, 0, 10_000), Chits(11.0, 9_000, 10_000), Chits(12.0, 0, 10_000)]).taken
    assert taken.draws == 16 and taken.share < 1.0 and taken.widened


@pytest.mark.parametrize(("moisture", "share"), [(26.0, 0.0), (30.0, 0.2), (38.0, 0.94), (40.0, 1.0)])
def test_water_lets_the_clocks_run_as_told(moisture: float, share: float) -> None:
    """A fifth at 30 % and 0.94 at 38 %, where life shows and growth is even (Narziss, read in translation)."""
    assert pace.water_pace(FLOATS, moisture) == pytest.approx(share, abs=0.01)


def test_ten_kelvin_make_growth_two_and_a_quarter_times_as_fast() -> None:
    """Two to two and a half (from memory); Thomson's floors (read) 1.9 to 2.8."""
    ratio = pace.growth_pace(FLOATS, 20.0) / pace.growth_pace(FLOATS, 10.0)
    assert ratio == pytest.approx((2.0 + 2.5) / 2.0)


@pytest.mark.parametrize(("warm", "cool", "q10"), [(25.0, 15.0, 1.6), (15.0, 5.0, 2.4)])
def test_chitting_by_temperature_is_that_of_the_published_series(warm: float, cool: float, q10: float) -> None:
    """Onofri and others 2018 (data read): thermal time, a Q10 of 1.6 from 15 to 25 C and of 2.4 from 5 to 15 C."""
    ratio = pace.chit_pace(FLOATS, warm) / pace.chit_pace(FLOATS, cool)
    assert ratio == pytest.approx(q10, abs=0.05)
