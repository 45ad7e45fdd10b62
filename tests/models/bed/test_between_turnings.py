"""Bottom and top of a piece between two turnings, against a layer of two hundred slices solved by scipy."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calculators.models.bed.floor import (
    CONDUCTIVITY_W_M_K,
    HEAT_CAPACITY_KJ_M3_K,
    TYPICAL_SURFACE_W_M2_K,
    apart_when_read,
    bottom_before_turning,
    heating_rate,
)

SLICES = 200


def layer(hours: float, depth_m: float, first_k: float, heat: float) -> tuple[np.ndarray, np.ndarray]:
    """Times [h], and the excess over the room in each slice, the bottom first, shape (slices, times)."""
    thick = depth_m / SLICES
    per_h = 3600.0 / (HEAT_CAPACITY_KJ_M3_K * 1000.0 * thick)
    between = CONDUCTIVITY_W_M_K / thick
    out = 1.0 / (1.0 / TYPICAL_SURFACE_W_M2_K + 0.5 * thick / CONDUCTIVITY_W_M_K)

    def slope(_: float, excess: np.ndarray) -> np.ndarray:
        up = between * (excess[:-1] - excess[1:])
        flow = np.concatenate([[0.0], up, [out * excess[-1]]])
        return np.asarray(heating_rate(heat_kw_t=heat) + per_h * (flow[:-1] - flow[1:]))

    times = np.linspace(0.0, hours, 201)
    found = solve_ivp(slope, (0.0, hours), np.full(SLICES, first_k), method="BDF", t_eval=times, rtol=1e-6, atol=1e-8)
    return times, found.y


CASES = [(8.0, 0.15, 4.0, 1.0), (3.0, 0.10, 2.0, 0.4), (12.0, 0.25, 5.0, 1.6), (6.0, 0.08, 0.5, 2.2)]


@pytest.mark.parametrize(("hours", "depth", "first", "heat"), CASES)
def test_bottom_and_top_apart_by_the_mean_that_is_read(hours, depth, first, heat):
    _, excess = layer(hours, depth, first, heat)
    now = excess[:, -1]
    middles = (np.arange(SLICES) + 0.5) * depth / SLICES
    apart = now[0] - np.interp(depth - 0.03, middles, now)
    assert apart_when_read(hours=hours, depth_m=depth).of(now.mean(), heat) == pytest.approx(apart, abs=0.03)


@pytest.mark.parametrize(("hours", "depth", "first", "heat"), CASES)
def test_the_bottom_before_a_turning_by_the_mean_over_it(hours, depth, first, heat):
    times, excess = layer(hours, depth, first, heat)
    mean = np.trapezoid(excess.mean(axis=0), times) / hours
    found = bottom_before_turning(hours=hours, depth_m=depth).of(mean, heat)
    assert found == pytest.approx(excess[0, -1], abs=0.05)


def test_between_the_two_thermometers_lies_the_whole_piece():
    # By which readings.expected takes their mean as the piece's own: to 0.1 K at 15 cm, half a kelvin from 10 to 20.
    for depth, near in ((0.10, 0.6), (0.15, 0.1), (0.20, 0.5)):
        _, excess = layer(8.0, depth, 4.0, 1.0)
        now = excess[:, -1]
        top = np.interp(depth - 0.03, (np.arange(SLICES) + 0.5) * depth / SLICES, now)
        assert 0.5 * (now[0] + top) == pytest.approx(now.mean(), abs=near)
