"""Heat in a layer: printed values, roots by a library, and a finite-difference solution."""

from math import inf, pi, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from calculators.models.bed.slab import Slab


@pytest.mark.parametrize(("fo", "printed"), [(0.1, 0.098873), (0.5, 0.349727)])
def test_printed_values_with_the_surface_held(fo: float, printed: float) -> None:
    # by the series (1 - xi^2)/2 - sum 2(-1)^n/lambda^3 cos(lambda xi) exp(-lambda^2 Fo), computed
    assert Slab(inf).warming(fo, 0.0) == pytest.approx(printed, abs=1e-6)


def test_it_ends_where_the_steady_state_is() -> None:
    assert Slab(inf).warming(20.0, 0.0) == pytest.approx(0.5, abs=1e-9)  # q L^2 / 2k
    assert Slab(2.0).warming(60.0, 0.0) == pytest.approx(0.5 + 0.5, abs=1e-9)  # and q L / h


@pytest.mark.parametrize("biot", [0.05, 0.7, 6.0, 80.0])
@pytest.mark.parametrize("n", [0, 1, 5])
def test_modes_are_the_roots_that_a_library_finds(biot: float, n: int) -> None:
    root = brentq(lambda b: b * tan(b) - biot, n * pi + 1e-9, n * pi + pi / 2 - 1e-9, xtol=1e-13)
    assert Slab(biot)._mode(n)[0] == pytest.approx(root, rel=1e-9)


def _by_differences(biot: float, fo: float, first: float, cells: int = 160) -> tuple[float, float]:
    """Bottom and surface of the same layer, by finite volumes and a stiff solver of scipy."""
    h = 1.0 / cells

    def rate(_: float, t: np.ndarray) -> np.ndarray:
        flow = np.empty(cells + 1)
        flow[0] = 0.0
        flow[1:-1] = (t[:-1] - t[1:]) / h
        flow[-1] = t[-1] / (h / 2 + 1 / biot)
        return (flow[:-1] - flow[1:]) / h + 1.0

    solved = solve_ivp(rate, (0, fo), np.full(cells, first), method="LSODA", rtol=1e-9, atol=1e-11)
    last = solved.y[:, -1]
    surface = last[-1] - (last[-1] / (h / 2 + 1 / biot)) * h / 2
    return float(last[0]), float(surface)


@pytest.mark.parametrize(("biot", "fo", "first"), [(6.0, 0.1, 0.3), (0.5, 0.6, 1.0), (20.0, 0.03, 0.0)])
def test_against_finite_differences(biot: float, fo: float, first: float) -> None:
    bottom, surface = _by_differences(biot, fo, first)
    for xi, expected in ((0.0, bottom), (1.0, surface)):
        left, warm = Slab(biot).both(fo, xi)
        assert first * left + warm == pytest.approx(expected, abs=3e-4)


@given(biot=st.floats(0.05, 200), fo=st.floats(1e-3, 5), xi=st.floats(0, 1))
def test_it_cools_from_the_top_and_warms_from_within(biot: float, fo: float, xi: float) -> None:
    slab = Slab(biot)
    left, warm = slab.both(fo, xi)
    assert -1e-6 <= left <= 1 + 1e-6
    assert -1e-6 <= warm <= fo + 1e-6  # never more than all the heat kept
    below_left, below_warm = slab.both(fo, xi / 2)
    assert below_left >= left - 1e-6 and below_warm >= warm - 1e-6


def test_nothing_has_happened_at_the_start() -> None:
    assert Slab(3.0).both(0.0, 0.7) == (1.0, 0.0)


def test_no_loss_at_all_is_no_slab() -> None:
    with pytest.raises(ValueError, match="above 0"):
        Slab(0.0)
