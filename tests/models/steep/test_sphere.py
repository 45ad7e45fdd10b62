"""The sphere alone: what diffusion must do, whatever the numbers."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.models.steep.sphere import SealedSphere, WetSphere, filled_fraction

RADII = [0.0, 0.2, 0.5, 0.8, 0.95, 1.0]
FOURIER = st.floats(2e-4, 0.5)


def mean_of(sphere: WetSphere | SealedSphere, fo: float) -> float:
    """The mean by Gauss's rule over the profile, apart from the model's own mean."""
    nodes, weights = np.polynomial.legendre.leggauss(200)
    radii = 0.5 * (nodes + 1.0)
    profile = np.array(sphere.profile(fo, list(radii)))
    return float(1.5 * np.sum(weights * radii**2 * profile))


def test_short_and_long_series_are_one() -> None:
    # The two meet at Fo 0.06.
    assert filled_fraction(fo=0.06) == pytest.approx(filled_fraction(fo=0.06 + 1e-12), abs=1e-7)
    below = WetSphere(1.0).profile(0.06, RADII)
    above = WetSphere(1.0).profile(0.06 + 1e-12, RADII)
    assert below == pytest.approx(above, abs=1e-7)
    assert filled_fraction(fo=0.0) == 0.0


@settings(max_examples=30, deadline=None)
@given(FOURIER)
def test_profile_and_mean_agree(fo: float) -> None:
    sphere = WetSphere(1.0)
    assert mean_of(sphere, fo) == pytest.approx(sphere.mean_lack(fo), abs=2e-6)


@settings(max_examples=30, deadline=None)
@given(FOURIER, FOURIER)
def test_sealing_changes_no_mean_and_evens_out(wet: float, sealed: float) -> None:
    sphere = WetSphere(1.0)
    rested = sphere.sealed(wet)
    assert rested.mean == sphere.mean_lack(wet)
    assert mean_of(rested, sealed) == pytest.approx(rested.mean, abs=2e-6)
    # It evens out: driest and wettest places draw together.
    before, after = sphere.profile(wet, RADII), rested.profile(sealed, RADII)
    assert max(after) - min(after) <= max(before) - min(before) + 1e-6
    assert rested.profile(5.0, RADII) == pytest.approx([rested.mean] * len(RADII), abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(FOURIER, FOURIER, FOURIER)
def test_wetting_again_goes_on_from_there(wet: float, sealed: float, again: float) -> None:
    rested = WetSphere(1.0).sealed(wet)
    rewetted = rested.wetted(sealed)
    assert rewetted.mean_lack(0.0) == pytest.approx(rested.mean, abs=3e-7)
    inner = RADII[1:-1]
    # A profile is a cut-off series: within a thousandth the moment it is wetted, exact later.
    assert rewetted.profile(1e-9, inner) == pytest.approx(rested.profile(sealed, inner), abs=1e-3)
    assert rewetted.mean_lack(again) < rested.mean
    assert mean_of(rewetted, again) == pytest.approx(rewetted.mean_lack(again), abs=2e-6)


@settings(deadline=None)
@given(st.floats(1e-4, 0.4), st.floats(0.05, 0.95))
def test_time_to_a_mean(earliest: float, share: float) -> None:
    sphere = WetSphere(0.8)
    start = sphere.mean_lack(earliest)
    wanted = share * start
    fo = sphere.time_to(wanted, earliest, 3.0)
    assert fo is not None
    assert sphere.mean_lack(fo) == pytest.approx(wanted, abs=1e-10)
    assert sphere.time_to(start + 0.01, earliest, 3.0) == earliest
    assert sphere.time_to(wanted, earliest, 0.5 * (earliest + fo)) is None


def test_a_sphere_that_was_never_wet_is_uniform() -> None:
    dry = SealedSphere(0.7)
    assert dry.profile(1.0, RADII) == [0.7] * len(RADII)
    assert dry.wetted(1.0).mean_lack(0.01) == WetSphere(0.7).mean_lack(0.01)
