"""The lying drum: areas by a library's integral, depths by its root finder."""

from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from calculators.models.bed import drum
from calculators.models.bounds import OutOfRange


@pytest.mark.parametrize("depth", [0.05, 0.2, 0.5, 0.77, 0.99])
def test_segment_by_integration(depth: float) -> None:
    # chord of a circle of diameter 1 at height y is 2 sqrt(y - y^2)
    area = quad(lambda y: 2 * sqrt(max(0.0, y - y * y)), 0, depth)[0]
    assert drum.segment_share(depth=depth) == pytest.approx(area / (pi / 4), abs=1e-7)


@given(st.floats(1e-6, 1 - 1e-6))
def test_depth_is_the_inverse_that_a_root_finder_gives(share: float) -> None:
    by_scipy = brentq(lambda d: drum.segment_share(depth=d) - share, 0.0, 1.0, xtol=1e-14)
    assert drum.segment_depth(share=share) == pytest.approx(by_scipy, abs=1e-9)


def test_ends_and_middle() -> None:
    assert drum.segment_share(depth=0.0) == 0.0
    assert drum.segment_share(depth=1.0) == pytest.approx(1.0)
    assert drum.segment_depth(share=0.5) == pytest.approx(0.5)


@given(st.floats(0, 1), st.floats(0, 1))
def test_deeper_holds_more_and_the_rest_mirrors_it(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert drum.segment_share(depth=low) <= drum.segment_share(depth=high) + 1e-12
    assert drum.segment_share(depth=one) + drum.segment_share(depth=1 - one) == pytest.approx(1, abs=1e-9)


def test_a_false_floor_takes_the_lowest_segment() -> None:
    whole = drum.drum_volume(diameter_m=2.0, length_m=5.0)
    below = whole * drum.segment_share(depth=0.1)
    depth = drum.bed_depth(grain_m3=whole / 2 - below, ducts_below_m3=below, diameter_m=2.0, length_m=5.0)
    assert depth == pytest.approx(0.8)  # from 0.2 m to the axis at 1.0 m


def test_a_drum_full_of_ducts_is_refused() -> None:
    with pytest.raises(OutOfRange):
        drum.fill_percent(grain_m3=1.0, drum_m3=10.0, ducts_m3=9.0)
    assert drum.fill_percent(grain_m3=1.0, drum_m3=10.0, ducts_m3=8.0) == pytest.approx(50.0)


def test_limits_themselves_are_allowed() -> None:
    for density in drum.BULK_DENSITY:
        drum.grain_volume(barley_kg=1.0, bulk_density=density, swelling=1.0)
    for wrong in (449.9, 800.1):
        with pytest.raises(OutOfRange):
            drum.grain_volume(barley_kg=1.0, bulk_density=wrong, swelling=1.0)
